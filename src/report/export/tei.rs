//! Claims as a critical apparatus in TEI P5: works are witnesses, values are categories, each facet of each herb is an entry
//! of the apparatus.

use std::io::Write;

use super::xml::Xml;
use super::{Export, ExportError, tei_app};
use crate::claim::Facet;
use crate::report::view::{HeedView, HerbView, NOTICE, WorkEntry};

pub(super) fn write(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let mut xml = Xml::default();
    to.write_all(b"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n")?;
    xml.open(
        "TEI",
        &[("xmlns", "http://www.tei-c.org/ns/1.0".to_owned())],
    );
    header(export, &mut xml)?;
    xml.open("text", &[]);
    xml.open("body", &[]);
    for id in &export.herbs {
        let herb = export.labels.corpus.herb(*id)?;
        let view = HerbView::new(export.labels, herb);
        xml.open(
            "div",
            &[
                ("type", "herb".to_owned()),
                ("xml:id", format!("herb.{}", view.id)),
            ],
        );
        head(&view, &mut xml);
        for facet in Facet::ALL {
            tei_app::facet(export, herb, facet, &mut xml);
        }
        let heed = HeedView::new(export.labels, herb);
        for caution in &heed.cautions {
            let attributes = [("type", "caution".to_owned())];
            xml.with(
                "note",
                &attributes,
                &format!("{} ({})", caution.text, caution.source),
            );
        }
        xml.close("div");
        to.write_all(xml.take().as_bytes())?;
    }
    if export.herbs.is_empty() {
        xml.with("p", &[], "No herb.");
    }
    for name in ["body", "text", "TEI"] {
        xml.close(name);
    }
    Ok(to.write_all(xml.take().as_bytes())?)
}

/// The names of an herb.
fn head(view: &HerbView, xml: &mut Xml) {
    xml.open("head", &[]);
    xml.with("term", &[("xml:lang", "zh-Hant".to_owned())], &view.hant);
    xml.with("term", &[("xml:lang", "zh-Hans".to_owned())], &view.hans);
    xml.with(
        "term",
        &[("xml:lang", "zh-Latn-pinyin".to_owned())],
        &view.pinyin,
    );
    if let Some(latin) = &view.latin {
        xml.with("term", &[("xml:lang", "la".to_owned())], latin);
    }
    if let Some(english) = &view.english {
        xml.with("term", &[("xml:lang", "en".to_owned())], english);
    }
    xml.close("head");
    if let Some(note) = &view.note {
        xml.with("note", &[("type", "identity".to_owned())], note);
    }
}

fn header(export: &Export<'_, '_>, xml: &mut Xml) -> Result<(), ExportError> {
    let about = export.about;
    xml.open("teiHeader", &[]);
    xml.open("fileDesc", &[]);
    xml.open("titleStmt", &[]);
    xml.with("title", &[], about.title);
    xml.close("titleStmt");
    xml.open("editionStmt", &[]);
    xml.open("edition", &[("n", about.version.to_owned())]);
    match &about.date {
        Some(date) => xml.with("date", &[("when", date.clone())], date),
        None => xml.with("note", &[], "undated"),
    }
    xml.close("edition");
    xml.close("editionStmt");
    xml.open("publicationStmt", &[]);
    xml.with("publisher", &[], "Kaoyi");
    xml.with("idno", &[("type", "content-key".to_owned())], &about.key);
    xml.open("availability", &[]);
    xml.with(
        "licence",
        &[("target", "https://opensource.org/licenses/MIT".to_owned())],
        "MIT",
    );
    let apache = "https://www.apache.org/licenses/LICENSE-2.0".to_owned();
    xml.with("licence", &[("target", apache)], "Apache-2.0");
    xml.with("p", &[], NOTICE);
    xml.close("availability");
    xml.close("publicationStmt");
    xml.open("sourceDesc", &[]);
    xml.open("listWit", &[]);
    for work in export.works()? {
        witness(&work, xml);
    }
    xml.close("listWit");
    xml.close("sourceDesc");
    xml.close("fileDesc");
    encoding(export, xml);
    xml.close("teiHeader");
    Ok(())
}

fn witness(work: &WorkEntry, xml: &mut Xml) {
    xml.open("witness", &[("xml:id", format!("work.{}", work.id))]);
    xml.open("bibl", &[("type", super::word(&work.kind))]);
    for author in work.authors() {
        xml.with("author", &[], author);
    }
    xml.with("title", &[("xml:lang", "zh".to_owned())], &work.title);
    xml.with(
        "title",
        &[("xml:lang", "zh-Latn-pinyin".to_owned())],
        &work.pinyin,
    );
    xml.with("title", &[("xml:lang", "en".to_owned())], &work.english);
    let date = &work.date;
    let attributes = [
        ("notBefore", date.from.map_or_else(String::new, year)),
        ("notAfter", year(date.to)),
        (
            "precision",
            if date.about {
                "low".to_owned()
            } else {
                String::new()
            },
        ),
    ];
    xml.with("date", &attributes, &date.words);
    if let Some(note) = &work.note {
        xml.with("note", &[], note);
    }
    xml.close("bibl");
    xml.close("witness");
}

/// A year of XML Schema 1.0, which has no year 0, as the records have none.
fn year(year: i32) -> String {
    let sign = if year < 0 { "-" } else { "" };
    format!("{sign}{:04}", year.unsigned_abs())
}

/// How the apparatus is to be read, and the values as categories.
fn encoding(export: &Export<'_, '_>, xml: &mut Xml) {
    xml.open("encodingDesc", &[]);
    xml.with(
        "p",
        &[],
        "Each facet of an herb is one entry of the apparatus. Its readings are the stands that works take, each with the works \
         that take it. A lemma stands only where two works or more all take the same stand. Readings of the type open (actions) \
         exclude no other; readings of the type scope are of a part, preparation or kind only. The details of a witness give the \
         wording, the id of the claim, and as source the works through which it is known, the one that was read last.",
    );
    xml.empty(
        "variantEncoding",
        &[
            ("method", "parallel-segmentation".to_owned()),
            ("location", "internal".to_owned()),
        ],
    );
    xml.open("classDecl", &[]);
    for facet in Facet::ALL {
        let scheme = export.labels.corpus.vocabulary.scheme(facet);
        xml.open("taxonomy", &[("xml:id", format!("facet.{facet}"))]);
        xml.with("bibl", &[], &scheme.file().source);
        for value in scheme.values() {
            xml.open("category", &[("xml:id", format!("{facet}.{}", value.id))]);
            xml.with(
                "catDesc",
                &[("xml:lang", "zh".to_owned())],
                &export.labels.han(&value.hant),
            );
            xml.with("catDesc", &[("xml:lang", "en".to_owned())], &value.english);
            xml.close("category");
        }
        xml.close("taxonomy");
    }
    xml.close("classDecl");
    xml.close("encodingDesc");
}
