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
OTHERS = {"grade": "grades", "channel": "channels", "action": "actions"}


def load(path):
    with open(path, encoding="utf-8") as file:
        return yaml.load(file, LOADER)


SCHEMES = {facet: load(f"corpus/vocabulary/{name}.yaml") for facet, name in (FACETS | OTHERS).items()}
VALUES = {facet: {value["id"]: value for value in scheme["values"]} for facet, scheme in SCHEMES.items()}
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
        if facet == "action":
            # Of actions every statement counts.
            if counted:
                stands[work] = frozenset(value for one in counted for value in one[3])
            continue
        if any(not one[1] for one in counted):
            counted = [one for one in counted if not one[1]]
        if counted:
            shortest = min(one[2] for one in counted)
            stands[work] = frozenset(value for one in counted if one[2] == shortest for value in one[3])
    return dict(sorted(stands.items(), key=lambda item: RANK[item[0]]))


def lines(stands):
    """Rule 6: a witness joins the line of its nearest ancestor with the same stand. Gives the line of each."""
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
    return line


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

def verdict(facet, k, n):
    """Rule 18."""
    denies = SCHEMES[facet]["closed"]
    if k == n:
        return "yes"
    if 3 * k >= 2 * n:
        return "mostly-yes"
    if not denies:
        return "by-some"
    return "mostly-no" if 3 * k <= n else "disputed"


def answers(facet, stated, asked, any_degree):
    value = VALUES[facet][stated]
    return stated == asked or asked in value.get("covers", []) or (any_degree and value.get("degree_of") == asked)


def check_facet(id, facet, shown):
    stands = witnesses(HERBS[id], facet)
    line = lines(stands)
    close(f"{id} {facet} witnesses", shown["witnesses"], len(stands))
    close(f"{id} {facet} lines", shown["lines"], len(set(line.values())))
    degrees = {one["value"]["id"] for one in shown["values"] if one["any_degree"]}
    for support in shown["values"]:
        value, what = support["value"]["id"], f"{id} {facet} {support['value']['id']}"
        by = [work for work, stand in stands.items() if any(answers(facet, one, value, support["any_degree"]) for one in stand)]
        close(f"{what} k", support["k"], len(by))
        close(f"{what} j", support["j"], len({line[work] for work in by}))
        close(f"{what} first", RANK[support["first"]], RANK[by[0]])
        if SCHEMES[facet]["closed"]:
            low, high = proportion_confint(len(by), len(stands), method="wilson")
            close(f"{what} low", support["low"], max(low, 0.0))
            close(f"{what} high", support["high"], min(high, 1.0))
        # A degree whose value stands above it has no verdict of its own.
        if support["any_degree"] or not ({value, VALUES[facet][value].get("degree_of")} & degrees):
            assert support["verdict"] == verdict(facet, len(by), len(stands)), what
    if SCHEMES[facet]["scale"] == "ordinal" and stands:
        scale = list(VALUES[facet])
        places = sorted(scale.index(value) for stand in stands.values() for value in stand)
        n = len(places)
        middle = sorted({places[(n - 1) // 2], places[n // 2]})
        ends = [places[math.ceil(n / 4) - 1], places[math.ceil(3 * n / 4) - 1]]
        for what, found, expected in [("median", shown["median"], middle), ("quartiles", shown["quartiles"], ends)]:
            close(f"{id} {facet} {what}", len(found), len(expected))
            for one, two in zip(found, expected):
                close(f"{id} {facet} {what}", scale.index(one["id"]), two)


for id in sys.argv[2:] or ["bohe", "juhua", "chaihu"]:
    card = program("profile", id)
    for shown in card["profile"]:
        check_facet(id, shown["facet"], shown)
    stands = witnesses(HERBS[id], "action")
    for shown in card["actions"]:
        by = {work: frozenset() for work, stand in stands.items() if shown["action"]["id"] in stand}
        close(f"{id} {shown['action']['id']} works", shown["k"], len(by))
        close(f"{id} {shown['action']['id']} lines", shown["j"], len(set(lines(by).values())))

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

shared = defaultdict(list)
for facet, by_herb in fields.items():
    everywhere = defaultdict(int)
    for stands in by_herb.values():
        for stand in stands.values():
            everywhere[stand] += 1
    total = sum(everywhere.values())
    for stands in by_herb.values():
        for older, younger in combinations(stands, 2):
            takers = sum(stand == stands[older] for work, stand in stands.items() if work not in (older, younger))
            chance = (takers + everywhere[stands[older]] / total) / (len(stands) - 1)
            shared[older, younger].append((distance(facet, stands[older], stands[younger]), chance))
for pair in program("affinity")["pairs"]:
    stands = shared[pair["older"], pair["younger"]]
    what = f"{pair['younger']} on {pair['older']}"
    close(f"{what} shared", pair["shared"], len(stands))
    close(f"{what} agreement", pair["agreement"], 1 - sum(one[0] for one in stands) / len(stands))
    gains = {}
    for step in range(1, 100):
        r = step / 100
        gains[r] = sum(math.log((r + (1 - r) * c) / c) if d == 0 else math.log(1 - r) for d, c in stands)
    rate, largest = max(gains.items(), key=lambda one: one[1])
    rate, largest = (rate, largest) if largest > 0 else (0.0, 0.0)
    mean = sum(math.exp(gain - largest) for gain in gains.values()) / 99
    close(f"{what} rate", pair["rate"], rate)
    close(f"{what} probability", pair["probability"], mean / (mean + 9 * math.exp(-largest)))

print(f"{compared} figures agree to 1e-9")
