"""What no schema can tell: names that are in the corpus, amounts that can be read, and the token of this run.

Three of four requests that have the right form get them, so that what lies behind a name is tried too; the others go with
what was made up.
"""

import os
import re
import urllib.request

import schemathesis

PAGE = urllib.request.urlopen(os.environ["ROOM"] + "/taste/add").read().decode()
TOKEN = re.search(r'name="token" value="([^"]+)"', PAGE).group(1)

HERBS = ["bohe", "juhua", "fuzi", "gancao", "薄荷", "人参"]
WORKS = ["bencao-gangmu", "shennong-bencao-jing", "本草備要"]
KNOWN = {
    "id": HERBS, "other": HERBS, "one": HERBS, "herb": HERBS, "name": ["甘菊", "bohe", "jú"],
    "kind": ["timeline", "nature", "flavour", "matrix"], "works": WORKS, "work": WORKS,
    "q": ["頭痛", "boh", "辛"], "what": ["三兩", "芍藥=四兩"], "amount": ["3g", "二兩", "6"], "period": ["han", "ming"],
    "daily": ["9", "6..12"], "unit": ["g", "liang"], "flavour": ["sweet", "acrid"], "nature": ["warm..hot", "cold"],
    "aim": ["nature=warm"], "with": ["gancao"], "taster": ["A"], "as": ["bohe"], "channel": ["lung"],
}


def known(values):
    """The values with some that are known, chosen by what was made up, so that a run can be repeated."""
    if not isinstance(values, dict) or os.environ["MODE"] == "negative":
        return values
    made = dict(values)
    for name, value in values.items():
        place = len(repr(value))
        if name not in KNOWN or place % 4 == 0:
            continue
        word = KNOWN[name][place % len(KNOWN[name])]
        made[name] = [word] if isinstance(value, list) else word
    return made


@schemathesis.hook
def map_path_parameters(context, path_parameters):
    """Names in the path."""
    made = known(path_parameters)
    if made and "/works/" in context.operation.path:
        made["id"] = WORKS[len(made["id"]) % len(WORKS)]
    return made


@schemathesis.hook
def map_query(context, query):
    """Names in the query; `kind` of disputes is told by the schema."""
    made = known(query)
    if made and "kind" in made:
        made["kind"] = query["kind"]
    return made


@schemathesis.hook
def map_body(context, body):
    """The token, and an herb."""
    made = known(body)
    if isinstance(made, dict) and "token" in made and len(repr(body)) % 4:
        made["token"] = TOKEN
    return made
