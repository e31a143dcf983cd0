//! The peer: SQLite with tables of herbs, articles, sayings and claims, and FTS5 over pairs of characters and over single
//! ones, as our own index has both.

use std::path::Path;
use std::time::{Duration, Instant};

use kaoyi::corpus::{Corpus, Herb};
use kaoyi::text::HanFolder;
use rusqlite::{CachedStatement, Connection, Transaction, params};

use crate::queries::plain;

const PRAGMAS: &str =
    "pragma journal_mode = off; pragma synchronous = off; pragma cache_size = -400000;
    pragma mmap_size = 4000000000; pragma temp_store = memory;";

/// The claims lie herb by herb. The tokenizer splits at spaces and leaves Han characters alone; FTS5 keeps no second copy of
/// the text.
const TABLES: &str = "
    create table herbs(id integer primary key, short text, hant text);
    create table articles(herb int, entry int, work int, heading text, primary key (herb, entry)) without rowid;
    create table sayings(id integer primary key, herb int, entry int, saying int, by int, wording text);
    create table claims(herb int, entry int, saying int, claim int, by int, facet int, value int, degree int,
        primary key (herb, entry, saying, claim)) without rowid;
    create virtual table pairs using fts5(text, content='', tokenize='ascii');
    create virtual table ones using fts5(text, content='', tokenize='ascii');
    insert into pairs(pairs, rank) values ('hashsize', 67108864);
    insert into ones(ones, rank) values ('hashsize', 67108864);";

const INDEXES: &str = "
    create index sayings_of on sayings(herb, entry, saying);
    create index sayings_by on sayings(by);
    create index headings on articles(heading);
    create index names on herbs(hant);";

pub struct Peer {
    connection: Connection,
}

/// How long the parts of the making took.
pub struct Made {
    /// Tables and their indexes.
    pub tables: Duration,
    /// FTS5 over pairs.
    pub pairs: Duration,
    /// FTS5 over single characters.
    pub ones: Duration,
    /// The end of the transaction.
    pub commit: Duration,
}

impl Made {
    pub fn all(&self) -> Duration {
        self.tables + self.pairs + self.ones + self.commit
    }
}

impl Peer {
    /// Makes the database in one transaction from a corpus whose herbs are unpacked.
    pub fn make(path: &Path, corpus: &Corpus) -> (Self, Made) {
        let _ = std::fs::remove_file(path);
        let mut connection = Connection::open(path).unwrap();
        connection.execute_batch(PRAGMAS).unwrap();
        let start = Instant::now();
        let all = connection.transaction().unwrap();
        all.execute_batch(TABLES).unwrap();
        let wordings = tables(&all, corpus);
        all.execute_batch(INDEXES).unwrap();
        let tables = start.elapsed();
        let folder = HanFolder::new().unwrap();
        let pairs = full_text(&all, "pairs", &wordings, &folder, pairs);
        let ones = full_text(&all, "ones", &wordings, &folder, ones);
        let start = Instant::now();
        all.commit().unwrap();
        let made = Made {
            tables,
            pairs,
            ones,
            commit: start.elapsed(),
        };
        (Self { connection }, made)
    }

    /// Merges the parts of the full text, which makes queries faster.
    pub fn optimize(&self) -> Duration {
        let start = Instant::now();
        self.connection
            .execute_batch(
                "insert into pairs(pairs) values ('optimize'); insert into ones(ones) values ('optimize');",
            )
            .unwrap();
        start.elapsed()
    }

    /// How many bytes the tables whose names begin so have, with their indexes; all for an empty name.
    pub fn bytes(&self, table: &str) -> u64 {
        let bytes: i64 = self
            .connection
            .query_row(
                "select coalesce(sum(pgsize), 0) from dbstat where name like ?1 || '%'",
                [table],
                |row| row.get(0),
            )
            .unwrap();
        bytes as u64
    }

    /// The total count and ten sayings with their wordings: the best by BM25, or the first.
    pub fn find(&self, phrase: &str, ranked: bool) -> (usize, Vec<String>) {
        let characters: Vec<char> = phrase.chars().collect();
        let (table, text) = match characters.len() {
            1 => ("ones", ones(&characters)),
            _ => ("pairs", pairs(&characters)),
        };
        let order = if ranked { "order by rank" } else { "" };
        let text = format!("\"{text}\"");
        let mut count = self.prepared(&format!(
            "select count(*) from {table} where {table} match ?"
        ));
        let count: i64 = count.query_row([&text], |row| row.get(0)).unwrap();
        let mut best = self.prepared(&format!(
            "select herb, entry, saying, by, wording from
             (select rowid as place from {table} where {table} match ? {order} limit 10) join sayings on id = place"
        ));
        let best = best.query_map([&text], |row| row.get(4)).unwrap();
        (count as usize, best.map(Result::unwrap).collect())
    }

    /// Reads one herb's claims; gives how many there are and a sum of their values.
    pub fn claims(&self, herb: usize) -> (usize, u64) {
        let mut claims = self.prepared(
            "select entry, saying, claim, by, facet, value, degree from claims where herb = ?",
        );
        let mut rows = claims.query([herb as i64]).unwrap();
        let mut all: Vec<[i64; 7]> = Vec::new();
        while let Some(row) = rows.next().unwrap() {
            all.push(std::array::from_fn(|place| {
                row.get::<_, Option<i64>>(place)
                    .unwrap()
                    .unwrap_or_default()
            }));
        }
        (all.len(), all.iter().map(|row| row[5] as u64).sum())
    }

    /// Reads the wordings of one herb's sayings; gives how many there are.
    pub fn wordings(&self, herb: usize) -> usize {
        let mut sayings =
            self.prepared("select entry, saying, by, wording from sayings where herb = ?");
        let rows = sayings.query_map([herb as i64], |row| row.get(3)).unwrap();
        let all: Vec<String> = rows.map(Result::unwrap).collect();
        all.len()
    }

    fn prepared(&self, text: &str) -> CachedStatement<'_> {
        self.connection.prepare_cached(text).unwrap()
    }
}

/// Fills the tables; gives the wordings in the order of their sayings.
fn tables<'c>(all: &Transaction, corpus: &'c Corpus) -> Vec<&'c str> {
    let mut herbs = all.prepare("insert into herbs values (?, ?, ?)").unwrap();
    let mut wordings = Vec::new();
    for (place, herb) in corpus.herbs().unwrap().into_iter().enumerate() {
        herbs
            .execute(params![place as i64, herb.id, herb.names.hant])
            .unwrap();
        sayings(all, place as i64, herb, &mut wordings);
    }
    wordings
}

fn sayings<'c>(all: &Transaction, place: i64, herb: &'c Herb, wordings: &mut Vec<&'c str>) {
    let prepared = |text| all.prepare_cached(text).unwrap();
    let mut articles = prepared("insert into articles values (?, ?, ?, ?)");
    let mut sayings = prepared("insert into sayings values (?, ?, ?, ?, ?, ?)");
    let mut claims = prepared("insert into claims values (?, ?, ?, ?, ?, ?, ?, ?)");
    for (entry, article) in (0_i64..).zip(&herb.entries) {
        let heading = article.at.as_ref().map(|at| at.heading.as_str());
        articles
            .execute(params![place, entry, article.work.0, heading])
            .unwrap();
        for (number, saying) in (0_i64..).zip(&article.sayings) {
            let wording = saying.wording.as_deref().unwrap();
            wordings.push(wording);
            let id = wordings.len() as i64;
            sayings
                .execute(params![id, place, entry, number, saying.by.0, wording])
                .unwrap();
            for (nth, claim) in (0_i64..).zip(&saying.claims) {
                let degree = claim.degree.map(|degree| degree.0);
                let (by, facet) = (saying.by.0, claim.facet as i64);
                claims
                    .execute(params![
                        place,
                        entry,
                        number,
                        nth,
                        by,
                        facet,
                        claim.value.0,
                        degree
                    ])
                    .unwrap();
            }
        }
    }
}

fn full_text(
    all: &Transaction,
    table: &str,
    wordings: &[&str],
    folder: &HanFolder,
    terms: fn(&[char]) -> String,
) -> Duration {
    let start = Instant::now();
    let mut insert = all
        .prepare(&format!("insert into {table}(rowid, text) values (?, ?)"))
        .unwrap();
    for (id, wording) in (1_i64..).zip(wordings) {
        let text = terms(&plain(folder, wording));
        insert.execute(params![id, text]).unwrap();
    }
    start.elapsed()
}

/// Pairs of characters between spaces; one with a lost character stays and matches nothing that is asked.
fn pairs(text: &[char]) -> String {
    let pairs: Vec<String> = text.windows(2).map(|pair| pair.iter().collect()).collect();
    pairs.join(" ")
}

fn ones(text: &[char]) -> String {
    let ones: Vec<String> = text.iter().map(char::to_string).collect();
    ones.join(" ")
}
