#!/usr/bin/env python3
"""The peer of the disputes bench: DuckDB on the same stands. `load` makes its database from a CSV of stands (herb, facet, work,
stand); `ask` opens it in a fresh process, counts the stands of each facet and value of the nominal coefficient, and computes
Krippendorff's alpha of each facet and of all periods, as the command does. It writes JSON with its own seconds."""

import json
import sys
import time

import duckdb

start = time.perf_counter()
act, database, *rest = sys.argv[1:]
connection = duckdb.connect(database, read_only=act == "ask")
if act == "load":
    connection.execute(f"create table stands as select * from read_csv('{rest[0]}') order by facet, herb, work")
    connection.execute("checkpoint")
    sys.exit()

QUERY = """
with chosen as (select facet, herb, stand, period from stands),
spans as (select facet, herb, stand, -1 as period from chosen union all select * from chosen),
cells as (select facet, period, herb, stand, count(*) as c from spans group by all),
units as (select facet, period, herb, sum(c) as m, sum(c * c) as same from cells group by all having sum(c) > 1),
observed as (select facet, period, count(*) as herbs, sum(m) as n, sum((m * m - same) / (m - 1)) as differing from units group by all),
totals as (select cells.facet, cells.period, stand, sum(c) as n_c from cells join units using (facet, period, herb) group by all),
expected as (select facet, period, sum(n_c * n_c) as same from totals group by all)
select facet, period, herbs, n, 1 - (differing / n) / ((n * n - expected.same) / (n * (n - 1)))
from observed join expected using (facet, period) order by facet, period
"""
rows = connection.execute(QUERY).fetchall()
taken = time.perf_counter() - start
print(json.dumps({"seconds": taken, "rows": [[r[0], int(r[1]), int(r[2]), int(r[3]), float(r[4])] for r in rows]}))
