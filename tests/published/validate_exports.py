"""Holds what `kaoyi export` writes against the published schemas and readers of each format.

    python3 tests/published/validate_exports.py KAOYI [TEI_RNG] [HERB ...]

KAOYI is the program. TEI_RNG is the RELAX NG schema of TEI P5 (`tei_all.rng`, version 4.3.0), or the variable
KAOYI_TEI_RNG names it; without either TEI is checked for being well-formed and for its pointers only. Herbs: 薄荷, 菊花 and
附子 unless others are named; `all` for the whole corpus. Needs lxml, frictionless, pyld, bibtexparser, citeproc-py and
openpyxl; what is not there is passed over and said to be. The last line tells whether all held.
"""

import csv
import importlib
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

failures, passed_over = [], []


def hold(what, fact, shown=""):
    print(f"{'holds' if fact else 'FAILS'}  {what} {shown}")
    if not fact:
        failures.append(what)


def library(name):
    try:
        return importlib.import_module(name)
    except ImportError:
        passed_over.append(name)
        return None


def tei(path, schema):
    etree = library("lxml.etree")
    if not etree:
        return
    document = etree.parse(path)
    ids = document.xpath("//@xml:id")
    hold("TEI: every id once", len(ids) == len(set(ids)))
    known = {f"#{one}" for one in ids}
    pointers = [one for attribute in ("wit", "ana", "source", "target")
                for value in document.xpath(f"//*[local-name()!='licence']/@{attribute}") for one in value.split()]
    hold("TEI: every pointer leads somewhere", set(pointers) <= known, f"{len(pointers)} pointers")
    if not schema:
        passed_over.append("the schema of TEI")
        return
    relaxng = etree.RelaxNG(etree.parse(schema))
    hold("TEI: valid by the schema", relaxng.validate(document), str(relaxng.error_log)[:300])


def package(folder):
    frictionless = library("frictionless")
    if not frictionless:
        return
    report = frictionless.validate(str(folder / "datapackage.json"))
    hold("package: valid by frictionless", report.valid, json.dumps(report.flatten(["title", "note"]))[:300])


def tables(table, lines):
    with open(table, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, strict=True))
    claims = [json.loads(line) for line in open(lines, encoding="utf-8")]
    hold("CSV and NDJSON: the same claims", [row["claim"] for row in rows] == [one["claim"] for one in claims],
         f"{len(rows)} rows")
    hold("CSV: every id once", len({row["claim"] for row in rows}) == len(rows))
    hold("CSV and NDJSON: the same keys", set(rows[0]) == set(claims[0]))
    return len(rows)


def linked(path, claims):
    jsonld = library("pyld.jsonld")
    if not jsonld:
        return
    # A loader that refuses: the context must stand in the file.
    def refuse(url, options):
        raise RuntimeError(f"the network was asked for {url}")
    jsonld.set_document_loader(refuse)
    document = json.load(open(path, encoding="utf-8"))
    whole = jsonld.expand(document)
    kind = "urn:x-kaoyi:term:Claim"
    found = [node for node in whole if kind in node.get("@type", [])]
    hold("JSON-LD: every claim expands", len(found) == claims, f"{len(found)} claims")
    prov = "http://www.w3.org/ns/prov#"
    hold("JSON-LD: every claim has who asserts it and where it was read",
         all(prov + "wasAttributedTo" in one and prov + "wasQuotedFrom" in one for one in found))
    # A term that the context does not know would have been dropped.
    kept = sum(len(node) for node in whole)
    hold("JSON-LD: no term is dropped", kept == sum(len(node) for node in document["@graph"]))
    agents = {node["@id"] for node in whole if prov + "Agent" in node.get("@type", [])}
    hold("JSON-LD: claims are attributed to agents",
         all(link["@id"] in agents for one in found for link in one[prov + "wasAttributedTo"]))
    if claims < 5000:
        hold("JSON-LD: makes RDF", len(jsonld.to_rdf(document)["@default"]) > claims)


def bibliography(bibtex, csl):
    items = json.load(open(csl, encoding="utf-8"))
    bibtexparser = library("bibtexparser")
    if bibtexparser:
        text = open(bibtex, encoding="utf-8").read()
        read = bibtexparser.parse_string(text)
        hold("BibTeX: no block fails", not read.failed_blocks, str(read.failed_blocks)[:200])
        hold("BibTeX and CSL-JSON: the same works", [one.key for one in read.entries] == [one["id"] for one in items])
    citeproc = library("citeproc")
    if citeproc:
        source = importlib.import_module("citeproc.source.json").CiteProcJSON(items)
        hold("CSL-JSON: read by citeproc", len(source) == len(items), f"{len(items)} works")
        style = citeproc.CitationStylesStyle("harvard-cite-them-right", validate=False)
        page = citeproc.CitationStylesBibliography(style, source, citeproc.formatter.plain)
        for one in items:
            page.register(citeproc.Citation([citeproc.CitationItem(one["id"])]))
        shown = [str(line) for line in page.bibliography()]
        hold("CSL-JSON: makes a bibliography", len(shown) == len(items), "e.g. " + shown[0][:90])


def workbook(path, claims):
    openpyxl = library("openpyxl")
    if not openpyxl:
        return
    book = openpyxl.load_workbook(path, read_only=True)
    names = ["about", "herbs", "claims", "flavours", "differences"]
    hold("workbook: its sheets", book.sheetnames == names)
    kinds = {cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None}
    hold("workbook: texts, numbers and truths, no formula", "f" not in kinds, str(kinds))
    rows = sum(1 for _ in book["claims"].iter_rows(values_only=True)) - 1
    hold("workbook: every claim", rows == claims, f"{rows} claims")


def main():
    kaoyi, *rest = sys.argv[1:]
    schema = os.environ.get("KAOYI_TEI_RNG")
    if rest and rest[0].endswith(".rng"):
        schema = rest.pop(0)
    herbs = [] if rest == ["all"] else rest or ["薄荷", "菊花", "附子"]
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)

        def export(kind):
            path = folder / f"out.{kind}"
            subprocess.run([kaoyi, "export", kind, *herbs, "-o", path], check=True, capture_output=True)
            return path

        claims = tables(export("csv"), export("ndjson"))
        package(export("package"))
        tei(str(export("tei")), schema)
        linked(export("jsonld"), claims)
        bibliography(export("bibtex"), export("csl"))
        workbook(export("xlsx"), claims)
    for one in passed_over:
        print(f"passed over, not there: {one}")
    print(f"{len(failures)} failures" if failures else "all holds")
    sys.exit(bool(failures))


main()
