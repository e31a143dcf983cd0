#!/usr/bin/env python3
"""The peer of the benches over all herbs: DuckDB on the same stands, with two threads.

`load` makes its database from two tables of CSV: stands (facet, herb, work, stand, period) and kinds (facet, stand, place on the
scale or nothing, values joined by spaces). `ask` opens it in a fresh process and does once what `pass` does so often as its last
argument says:

1. distances: of every two kinds of stand on a facet, by places on a scale or by MASI;
2. counts and shares: how many witnesses, and which share of them, take each stand on each herb;
3. discord: the mean distance of two witnesses on each facet with five or more, their mean over the facets, and herbs sorted by it;
4. agreement: nominal and graded alpha of each facet, of all works and of each period.

It writes JSON: its seconds, the median of a pass, and what it found."""

import json
import statistics
import sys
import time

import duckdb

start = time.perf_counter()
act, database, *rest = sys.argv[1:]
connection = duckdb.connect(database, read_only=act != "load")
connection.execute("set threads = 2")
if act == "load":
    connection.execute(f"create table stands as select * from read_csv('{rest[0]}') order by facet, herb, work")
    connection.execute(
        f"create table kinds as select facet, stand, place, string_split(list, ' ') as list from read_csv('{rest[1]}', types={{'list': 'VARCHAR', 'place': 'DOUBLE'}})"
    )
    connection.execute("checkpoint")
    sys.exit()

DISTANCES = """
create or replace temp table distances as
with pairs as (
  select a.facet, a.stand as one, b.stand as other, a.place as p, b.place as q,
    len(a.list) as m, len(b.list) as n, len(list_intersect(a.list, b.list)) as c
  from kinds a join kinds b on a.facet = b.facet and a.stand < b.stand)
select facet, one, other, case when p is not null then abs(p - q) when c = 0 then 1.0
  else 1 - (case when c = m or c = n then 2.0 else 1.0 end) / 3 * c / (m + n - c) end as d from pairs
"""
# -1 stands for all periods.
CELLS = """
create or replace temp table cells as
with by_period as (select facet, period, herb, stand, count(*) as c from stands group by all)
select facet, -1 as period, herb, stand, sum(c)::bigint as c from by_period group by all
union all select facet, period, herb, stand, c from by_period
"""
UNITS = """
create or replace temp table units as select facet, period, herb, sum(c)::bigint as m, sum(c * c)::bigint as same
from cells group by all having sum(c) > 1
"""
SHARES = """
create or replace temp table shares as select cells.facet, cells.herb, stand, c, c / sum(c) over (partition by cells.facet, cells.herb) as share
from cells where period = -1
"""
APART = """
create or replace temp table apart as
select a.facet, a.period, a.herb, sum(a.c * b.c * d) as apart
from cells a join cells b on a.facet = b.facet and a.period = b.period and a.herb = b.herb and a.stand < b.stand
join distances on distances.facet = a.facet and one = a.stand and other = b.stand
where a.period = -1 or a.facet in (select facet from kinds where place is null)
group by all
"""
RANKING = """
create or replace temp table ranking as
with means as (
  select facet, herb, m, coalesce(apart, 0) / (m * (m - 1) / 2) as mean
  from units left join apart using (facet, period, herb) where period = -1 and m >= 5)
select herb, avg(mean) as discord, min(m) as witnesses from means group by herb order by discord desc, witnesses desc, herb
"""
AGREEMENT = """
with totals as (select facet, period, stand, sum(c)::bigint as n_c from cells join units using (facet, period, herb) group by all),
sums as (select facet, period, count(*) as herbs, sum(m)::bigint as n, sum((m * m - same) / (m - 1)) as differing from units group by all),
expected_nominal as (select facet, period, sum(n_c * n_c)::bigint as same from totals group by all),
observed_set as (select facet, period, sum(2 * apart / (m - 1)) as o from apart join units using (facet, period, herb) group by all),
expected_set as (
  select a.facet, a.period, sum(2.0 * a.n_c * b.n_c * d) as e
  from totals a join totals b on a.facet = b.facet and a.period = b.period and a.stand < b.stand
  join distances on distances.facet = a.facet and one = a.stand and other = b.stand group by all),
ranked as (
  select facet, period, place, sum(n_c)::bigint as n_c from totals join kinds using (facet, stand) where place is not null group by all),
middles as (
  select facet, period, place, n_c,
    sum(n_c) over (partition by facet, period order by place) - n_c / 2 as middle from ranked),
within_units as (
  select facet, period, herb, sum(c)::double as m, sum(c * middle * middle) as squares, sum(c * middle) as sums
  from cells join kinds using (facet, stand) join middles using (facet, period, place) join units using (facet, period, herb) group by all),
observed_rank as (select facet, period, sum(2 * (m * squares - sums * sums) / (m - 1)) as o from within_units group by all),
expected_rank as (
  select facet, period, 2 * (sum(n_c)::double * sum(n_c * middle * middle) - sum(n_c * middle) * sum(n_c * middle)) as e
  from middles group by all),
observed as (select * from observed_set where facet in (select facet from expected_set) and facet not in (select facet from expected_rank)
  union all select * from observed_rank),
expected as (select * from expected_set where facet not in (select facet from expected_rank) union all select * from expected_rank)
select facet, period, herbs, n, 1 - (differing / n) / ((n * n - same) / (n * (n - 1))), 1 - (o / n) / (e / (n * (n - 1)))
from sums join expected_nominal using (facet, period) join observed using (facet, period) join expected using (facet, period)
order by facet, period
"""


def one_pass():
    for statement in (DISTANCES, CELLS, UNITS, SHARES, APART, RANKING):
        connection.execute(statement)
    rows = connection.execute(AGREEMENT).fetchall()
    best = connection.execute("select herb, discord from ranking limit 20").fetchall()
    return rows, best


def found(rows, best):
    ranked, sum_of_discords = connection.execute("select count(*), sum(discord) from ranking").fetchone()
    squares = connection.execute("select sum(share * share) from shares").fetchone()[0]
    return {
        "rows": [[r[0], int(r[1]), int(r[2]), int(r[3]), float(r[4]), float(r[5])] for r in rows],
        "best": [[int(herb), float(discord)] for herb, discord in best],
        "ranked": int(ranked),
        "discords": float(sum_of_discords),
        "squares": float(squares),
    }


rows, best = one_pass()
answer = {"seconds": time.perf_counter() - start}
if act == "pass":
    times = []
    for _ in range(int(rest[0])):
        begin = time.perf_counter()
        rows, best = one_pass()
        times.append(time.perf_counter() - begin)
    answer["pass"] = statistics.median(times)
    answer |= found(rows, best)
print(json.dumps(answer))
