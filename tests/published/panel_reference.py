#!/usr/bin/env python3
"""The figures of `kaoyi taste panel` for the invented class in docs/examples/class, computed after docs/methods.md (section
Panel) and without the program's code: medians, quartiles and deviations by numpy and statistics, agreement by the package
krippendorff. It needs numpy and krippendorff (0.9.0 when the file was made):

    python3 tests/published/panel_reference.py > tests/published/panel.json
"""

import csv
import json
import statistics
from collections import defaultdict
from itertools import combinations

import krippendorff
import numpy

FLAVOURS = ["acrid", "sweet", "sour", "bitter", "salty", "bland", "astringent"]
OTHERS = ["thickness", "lingering", "aroma", "warmth"]
ATTRIBUTES = FLAVOURS + OTHERS


def mean(values):
    return float(numpy.mean(values)) if len(values) else None


def median(values):
    return float(statistics.median(values))


def sheets(herb):
    with open("docs/examples/class/scores.csv", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["herb"] == herb:
                scores = {name: float(row[name]) for name in ATTRIBUTES if row[name] != ""}
                yield row["taster"], (row["lot"], row["code"], row["cup"]), scores


def figures(values):
    middle = median(values)
    return {
        "n": len(values),
        "median": middle,
        "quartiles": [float(numpy.quantile(values, share, method="inverted_cdf")) for share in (0.25, 0.75)],
        "range": [float(min(values)), float(max(values))],
        "deviation": median([abs(value - middle) for value in values]),
    }


def alpha(table, metric):
    return float(krippendorff.alpha(reliability_data=table, level_of_measurement=metric))


def agreement(rows):
    tasters = sorted({taster for taster, _, _ in rows})
    cups = sorted({cup for _, cup, _ in rows})
    units = [(name, cup) for name in ATTRIBUTES if name != "warmth" for cup in cups]
    given = {(taster, cup, name): score for taster, cup, scores in rows for name, score in scores.items()}

    def table(left=None):
        kept = [taster for taster in tasters if taster != left]
        return [[given.get((taster, cup, name), numpy.nan) for name, cup in units] for taster in kept]

    whole = numpy.array(table())
    paired = numpy.sum(~numpy.isnan(whole), axis=0) > 1
    without = [alpha(table(left), "interval") for left in tasters]
    # The interval of whole attributes drawn again; other draws than the program's, so it is compared loosely.
    random = numpy.random.default_rng(1)
    names = [name for name in ATTRIBUTES if name != "warmth"]
    drawn = []
    for _ in range(4000):
        columns = [units.index((name, cup)) for name in random.choice(names, len(names)) for cup in cups]
        drawn.append(alpha(whole[:, columns], "interval"))
    return {
        "alpha": alpha(whole, "interval"),
        "ordinal": alpha(whole, "ordinal"),
        "interval_by_other_draws": [float(numpy.percentile(drawn, share)) for share in (2.5, 97.5)],
        "without_one": [min(without), max(without)],
        "units": int(numpy.sum(paired)),
        "scores": int(numpy.sum(~numpy.isnan(whole[:, paired]))),
    }


def beside_others(voices):
    found = {}
    for taster, own in voices.items():
        differences = []
        for name, score in own.items():
            others = [voice[name] for other, voice in voices.items() if other != taster and name in voice]
            if len(others) >= 3:
                differences.append(score - median(others))
        found[taster] = {
            "n": len(differences),
            "distance": mean([abs(one) for one in differences]),
            "lean": mean(differences),
        }
    distances = [one["distance"] for one in found.values()]
    middle = median(distances)
    scatter = median([abs(one - middle) for one in distances])
    for one in found.values():
        one["outlying"] = one["distance"] >= middle + max(3 * scatter, 1)
    return found


def repeats(rows):
    within, between = defaultdict(list), defaultdict(list)
    for (one, cup, scores), (other, other_cup, others) in combinations(rows, 2):
        assert cup[0] == other_cup[0], "all of one lot, so all cups are replicates"
        differences = [abs(scores[name] - others[name]) for name in scores if name in others]
        if one == other:
            within[one] += differences
        else:
            between[one] += differences
            between[other] += differences
    tasters = {
        taster: {"n": len(own), "within": mean(own), "between": mean(between[taster])}
        for taster, own in within.items()
    }
    return {
        "tasters": tasters,
        "within": mean([one["within"] for one in tasters.values()]),
        "between": mean([one["between"] for one in tasters.values()]),
    }


def panel(herb):
    rows = list(sheets(herb))
    scores = defaultdict(lambda: defaultdict(list))
    for taster, _, given in rows:
        for name, score in given.items():
            scores[taster][name].append(score)
    voices = {taster: {name: mean(values) for name, values in own.items()} for taster, own in scores.items()}
    return {
        "herb": herb,
        "attributes": {
            name: figures([voice[name] for voice in voices.values() if name in voice]) for name in ATTRIBUTES
        },
        "agreement": agreement(rows),
        "tasters": beside_others(voices),
        "repeats": repeats(rows),
    }


print(
    json.dumps(
        {
            "source": "tests/published/panel_reference.py with numpy "
            f"{numpy.__version__} and krippendorff 0.9.0, on the invented docs/examples/class/scores.csv",
            "panels": [panel("bohe"), panel("juhua")],
        },
        indent=1,
        sort_keys=True,
    )
)
