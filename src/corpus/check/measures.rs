//! What must hold within the file of measures: each name once, figures above zero, units that are there and that hold each
//! other in one way only.

use std::collections::{HashMap, HashSet};

use super::Pen;
use crate::claim::{MeasureFile, OpinionRecord, PeriodRecord, Quantity};
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::source::Source;
use crate::corpus::yaml::Node;
use crate::text::{Exact, fold, nearest, numeral};

const FIGURE: &str = "a number above zero in quotes, such as \"13.92\" or \"125/8\"";

/// Checks the measures while the file is read.
pub(in crate::corpus) fn check(
    source: &Source,
    node: &Node,
    file: &MeasureFile,
    findings: &mut Vec<Finding>,
) {
    let units = file.units.iter();
    let mut checker = Checker {
        pen: Pen::new(source, node),
        units: units.map(|one| (one.id.as_str(), one.measures)).collect(),
        findings,
    };
    checker.names(file);
    for (n, period) in file.periods.iter().enumerate() {
        checker.relations(n, period);
        checker.opinions(n, period);
    }
}

struct Checker<'c> {
    pen: Pen<'c>,
    units: HashMap<&'c str, Quantity>,
    findings: &'c mut Vec<Finding>,
}

impl<'c> Checker<'c> {
    fn put(&mut self, pointer: &str, code: Code, found: String, expected: &str) {
        self.findings
            .push(self.pen.at(pointer, code, found, expected));
    }

    /// Each id once, and of units and of periods no name that another bears.
    fn names(&mut self, file: &MeasureFile) {
        let units = file.units.iter().enumerate();
        let units = units.map(|(n, one)| {
            let names = [&one.hant, &one.hans, &one.pinyin, &one.english];
            (
                format!("/units/{n}"),
                &one.id,
                names.into_iter().chain(&one.also).collect::<Vec<_>>(),
            )
        });
        self.bearers(units);
        let periods = file.periods.iter().enumerate();
        let periods = periods.map(|(n, one)| {
            let names = [&one.hant, &one.hans, &one.pinyin, &one.english];
            (
                format!("/periods/{n}"),
                &one.id,
                names.into_iter().chain(&one.also).collect::<Vec<_>>(),
            )
        });
        self.bearers(periods);
    }

    fn bearers<'n>(&mut self, all: impl Iterator<Item = (String, &'n String, Vec<&'n String>)>) {
        let mut borne: HashMap<String, &String> = HashMap::new();
        for (place, id, names) in all {
            if let Some(_other) = borne.insert(fold(id), id) {
                let found = format!("`{id}`");
                let expected = "an id or name that no other of these has";
                self.put(&format!("{place}/id"), Code::DuplicateId, found, expected);
                continue;
            }
            for name in names {
                let other = borne.entry(fold(name)).or_insert(id);
                if *other != id {
                    let found = format!("`{name}`, a name of `{other}`");
                    self.put(&place, Code::DuplicateValue, found, "names of its own");
                }
            }
        }
    }

    /// The quantity of a unit; one that is not there is reported.
    fn unit(&mut self, pointer: &str, id: &str) -> Option<Quantity> {
        let known = self.units.get(id).copied();
        if known.is_none() {
            let expected = "a unit of this file";
            let mut one = self
                .pen
                .at(pointer, Code::UnknownValue, format!("`{id}`"), expected);
            let near = nearest(id, self.units.keys().copied());
            one.nearest = near.into_iter().map(str::to_owned).collect();
            self.findings.push(one);
        }
        known
    }

    /// A figure; one that is none is reported.
    fn figure(&mut self, pointer: &str, text: &str) -> Option<Exact> {
        match numeral(text) {
            Ok(figure) => Some(figure),
            Err(_) => {
                self.put(pointer, Code::WrongForm, format!("`{text}`"), FIGURE);
                None
            }
        }
    }

    fn relations(&mut self, n: usize, period: &PeriodRecord) {
        // Units that hold each other share a root.
        let mut roots: HashMap<String, String> = HashMap::new();
        for (k, relation) in period.relations.iter().enumerate() {
            let place = format!("/periods/{n}/relations/{k}");
            let one = self.unit(&format!("{place}/one"), &relation.one);
            let of = self.unit(&format!("{place}/of"), &relation.of);
            self.figure(&format!("{place}/holds"), &relation.holds);
            if let (Some(one), Some(of)) = (one, of)
                && one != of
            {
                let found = format!("{} and {}", one.name(), of.name());
                self.put(&place, Code::WrongForm, found, "two units of one quantity");
            }
            let (above, below) = (root(&roots, &relation.one), root(&roots, &relation.of));
            if above == below {
                let found = format!("`{}` and `{}` a second time", relation.one, relation.of);
                let expected = "one way only from each unit to another";
                self.put(&place, Code::DuplicateValue, found, expected);
            }
            roots.insert(below, above);
        }
    }

    fn opinions(&mut self, n: usize, period: &PeriodRecord) {
        let mut commonest = HashSet::new();
        for (k, opinion) in period.opinions.iter().enumerate() {
            let place = format!("/periods/{n}/opinions/{k}");
            let quantity = self.unit(&format!("{place}/unit"), &opinion.unit);
            self.span(&place, opinion);
            if opinion.commonest && quantity.is_some_and(|one| !commonest.insert(one.name())) {
                self.put(
                    &format!("{place}/commonest"),
                    Code::DuplicateValue,
                    "a second commonest practice of the period".to_owned(),
                    "one for weight and one for volume at most",
                );
            }
        }
    }

    fn span(&mut self, place: &str, opinion: &OpinionRecord) {
        let mut read = |key: &str, text: Option<&String>| {
            text.and_then(|text| self.figure(&format!("{place}/{key}"), text))
        };
        let value = read("value", Some(&opinion.value));
        let least = read("least", opinion.least.as_ref());
        let greatest = read("greatest", opinion.greatest.as_ref());
        let beyond = |low: &Option<Exact>, high: &Option<Exact>| match (low, high) {
            (Some(low), Some(high)) => low > high,
            _ => false,
        };
        if beyond(&least, &value) || beyond(&value, &greatest) {
            let found = format!("`{}` beyond its own span", opinion.value);
            let expected = "a figure from `least` to `greatest`";
            self.put(&format!("{place}/value"), Code::WrongForm, found, expected);
        }
    }
}

/// The unit that stands for all that hold each other with `unit`.
fn root(roots: &HashMap<String, String>, unit: &str) -> String {
    let mut unit = unit;
    // No chain is longer than the units; a unit that holds itself would go round for ever.
    for _ in 0..=roots.len() {
        match roots.get(unit) {
            Some(next) if next != unit => unit = next,
            _ => break,
        }
    }
    unit.to_owned()
}
