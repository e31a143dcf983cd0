#!/usr/bin/env python3
"""Recomputes figures of the program from the YAML corpus, after docs/methods.md and without the program's code, and compares
them to 1e-9 with its JSON. It needs pyyaml, krippendorff, nltk and statsmodels, and the built command:

    python3 tests/published/recompute.py target/release/kaoyi [HERB ...]
"""

import glob
import json
import math
import subprocess
import sys
from collections import defaultdict
from itertools import combinations

import krippendorff
import yaml
from nltk.metrics.agreement import AnnotationTask
from nltk.metrics.distance import masi_distance
from statsmodels.stats.proportion import proportion_confint

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
FACETS = {"flavour": "flavours", "nature": "natures", "toxicity": "toxicity"}


def load(path):
    with open(path, encoding="utf-8") as file:
        return yaml.load(file, LOADER)


SCALES = {facet: [value["id"] for value in load(f"corpus/vocabulary/{name}.yaml")["values"]] for facet, name in FACETS.items()}
WORKS = {work["id"]: work for work in map(load, sorted(glob.glob("corpus/works/*.yaml")))}
ORDER = sorted(WORKS, key=lambda id: (WORKS[id]["date"]["to"], WORKS[id]["date"].get("from", -(10**6)), id))
RANK = {id: place for place, id in enumerate(ORDER)}


def values(saying, facet):
    stated = saying.get(facet)
    if stated is None:
        return []
    stated = stated if isinstance(stated, list) else [stated]
    return [next(iter(one)) if isinstance(one, dict) else one for one in stated]


def witnesses(herb, facet):
    """Rule 3: statements on the herb as such, firm before doubtful, the shortest chain of carriers."""
    statements = defaultdict(list)
    for entry in herb["entries"]:
        for saying in entry["sayings"]:
            stated = values(saying, facet)
            if stated:
                by = saying.get("by", entry["work"])
                chain = len(saying.get("through", [])) + (by != entry["work"])
                statements[by].append((bool(saying.get("scope")), "doubt" in saying, chain, stated))
    stands = {}
    for work, all_of_it in statements.items():
        counted = [one for one in all_of_it if not one[0]]
        if any(not one[1] for one in counted):
            counted = [one for one in counted if not one[1]]
        if counted:
            shortest = min(one[2] for one in counted)
            stands[work] = frozenset(value for one in counted if one[2] == shortest for value in one[3])
    return dict(sorted(stands.items(), key=lambda item: RANK[item[0]]))


def lines(stands):
    """Rule 6: a witness joins the line of its nearest ancestor with the same stand."""
    line, count = {}, 0
    for work in stands:
        seen, step, joined = {work}, [work], None
        while step and joined is None:
            following = []
            for one in step:
                for debt in WORKS[one].get("draws_on", []):
                    if debt["work"] not in seen:
                        seen.add(debt["work"])
                        following.append(debt["work"])
            following.sort(key=RANK.get)
            joined = next((line[one] for one in following if one in line and stands[one] == stands[work]), None)
            step = following
        if joined is None:
            joined, count = count, count + 1
        line[work] = joined
    return count


def masi(a, b):
    return masi_distance(frozenset(a), frozenset(b))


def place(facet, stand):
    return sum(SCALES[facet].index(value) for value in stand) / len(stand) / (len(SCALES[facet]) - 1)


def distance(facet, a, b):
    return masi(a, b) if facet == "flavour" else abs(place(facet, a) - place(facet, b))


def close(what, found, expected):
    global compared
    compared += 1
    if found is None or expected is None:
        same = found == expected
    else:
        same = math.isclose(found, expected, abs_tol=1e-9)
    if not same:
        print(f"{what}: program {found}, here {expected}")
        sys.exit(1)


def program(*arguments):
    return json.loads(subprocess.run([sys.argv[1], *arguments, "--json"], capture_output=True, text=True, check=False).stdout)


compared = 0
HERBS = {herb["id"]: herb for herb in map(load, sorted(glob.glob("corpus/herbs/*.yaml")))}

for id in sys.argv[2:] or ["bohe", "juhua", "chaihu"]:
    profile = {one["facet"]: one for one in program("profile", id)["profile"]}
    for facet in FACETS:
        stands = witnesses(HERBS[id], facet)
        close(f"{id} {facet} witnesses", profile[facet]["witnesses"], len(stands))
        close(f"{id} {facet} lines", profile[facet]["lines"], lines(stands))
        for support in profile[facet]["values"]:
            if support["any_degree"]:
                continue
            k = sum(support["value"]["id"] in stand for stand in stands.values())
            low, high = proportion_confint(k, len(stands), method="wilson")
            close(f"{id} {support['value']['id']} k", support["k"], k)
            close(f"{id} {support['value']['id']} low", support["low"], max(low, 0.0))
            close(f"{id} {support['value']['id']} high", support["high"], min(high, 1.0))

fields = {facet: {id: witnesses(herb, facet) for id, herb in HERBS.items()} for facet in FACETS}
disputes = program("disputes", "--top", "100000")
expected = {}
for id in HERBS:
    means = []
    for facet in FACETS:
        stands = list(fields[facet][id].values())
        if len(stands) >= 5:
            pairs = [distance(facet, a, b) for a, b in combinations(stands, 2)]
            means.append(sum(pairs) / len(pairs))
    if means:
        expected[id] = sum(means) / len(means)
close("herbs with discord", disputes["herbs"], len(expected))
for one in disputes["disputes"]:
    close(f"discord of {one['herb']['id']}", one["discord"], expected[one["herb"]["id"]])

for row in (row for row in disputes["agreement"] if row["period"] is None):
    facet = row["facet"]
    rated = {id: stands for id, stands in fields[facet].items() if len(stands) > 1}
    same = AnnotationTask(data=[(work, id, stand) for id, stands in rated.items() for work, stand in stands.items()])
    close(f"{facet} same or not", row["alpha_nominal"], same.alpha())
    if facet == "flavour":
        task = AnnotationTask(distance=masi, data=[(work, id, stand) for id, stands in rated.items() for work, stand in stands.items()])
        close("flavour by distance", row["alpha"], task.alpha())
    else:
        table = [[place(facet, stands[work]) if work in stands else math.nan for stands in rated.values()] for work in ORDER]
        close(f"{facet} by distance", row["alpha"], krippendorff.alpha(reliability_data=table, level_of_measurement="ordinal"))

print(f"{compared} figures agree to 1e-9")
