//! A pair or formula in words, as `pair` and its page take it.

use std::collections::HashMap;

use super::failure::{Attempt, Failure, in_a_line, several};
use super::named::{herb, period, selection};
use crate::corpus::{Corpus, Herb};
use crate::measure::{Measures, PeriodId};
use crate::pairing::{
    Aim, AimError, Assumptions, Formula, Given, Member, Tasted, Unit, parts, prepared,
};
use crate::text::HanFolder;

/// What is asked of a pair or formula.
#[derive(Debug, Clone)]
pub(crate) struct PairAsked<'a> {
    /// The herbs with their amounts: `薄荷=3g`; with `parts` their names alone.
    pub herbs: &'a [String],
    /// The parts of the herbs: `2:1`.
    pub parts: Option<&'a str>,
    /// The period in whose units the amounts are.
    pub period: Option<&'a str>,
    /// Herbs that may be added.
    pub with: &'a [String],
    /// How strongly herbs taste for their weight: `薄荷=2`.
    pub strength: &'a [String],
    /// What the arithmetic assumes.
    pub assumptions: Assumptions,
    /// The works that count.
    pub works: &'a [String],
    /// The first year that counts.
    pub since: Option<i32>,
    /// The last year that counts.
    pub until: Option<i32>,
}

/// The formula that is asked for, with what else the names may mean.
///
/// `tasted` gives the own tastings that stand in place of the books.
///
/// # Errors
/// When anything in it is faulty; all that is wrong at once.
pub(crate) fn formula<'c>(
    corpus: &'c Corpus,
    measures: &Measures<'_>,
    asked: &PairAsked<'_>,
    tasted: &dyn Fn(&Herb) -> Option<Tasted>,
) -> Attempt<(Formula<'c>, Vec<String>)> {
    let period = asked
        .period
        .map(|name| period(measures, name))
        .transpose()?;
    let mut reading = Reading {
        corpus,
        folder: HanFolder::new()?,
        faults: Vec::new(),
        notes: Vec::new(),
    };
    let given = reading.given(asked, period.map(|period| (measures, period)));
    let unit = given.first().map_or(Unit::Parts, |one| one.unit);
    if given.iter().any(|one| one.unit != unit) {
        let words = "some amounts are in grams and some in parts; give all in one unit";
        reading.faults.push(words.to_owned());
    }
    let with = asked.with.iter().map(|name| Given {
        name: name.clone(),
        amount: 0.0,
        unit,
        written: None,
    });
    let all: Vec<Given> = given.into_iter().chain(with).collect();
    let members = all.iter().filter_map(|one| reading.member(one));
    let mut members: Vec<Member<'c>> = members.collect();
    let mut own: HashMap<&str, Option<Tasted>> = HashMap::new();
    for member in &mut members {
        let of_herb = own.entry(&member.herb.id);
        member.tasted = of_herb.or_insert_with(|| tasted(member.herb)).clone();
    }
    reading.strengths(asked.strength, &mut members);
    if !reading.faults.is_empty() {
        return Err(several(reading.faults));
    }
    let formula = Formula {
        members,
        unit,
        period,
        assumptions: asked.assumptions,
        selection: selection(corpus, asked.works, asked.since, asked.until)?,
    };
    Ok((formula, reading.notes))
}

/// What is gathered while the words are read.
struct Reading<'c> {
    corpus: &'c Corpus,
    folder: HanFolder,
    faults: Vec<String>,
    notes: Vec<String>,
}

impl<'c> Reading<'c> {
    fn given(
        &mut self,
        asked: &PairAsked<'_>,
        period: Option<(&Measures<'_>, PeriodId)>,
    ) -> Vec<Given> {
        if let Some(words) = asked.parts {
            return self.by_parts(words, asked.herbs);
        }
        let mut given: Vec<Given> = Vec::new();
        for words in asked.herbs {
            let unit = given.first().and_then(|first| match first.unit {
                Unit::Old(unit) => Some(unit),
                _ => None,
            });
            let parsed = match period {
                Some(period) => Given::parse_old(words, period, unit),
                None => Given::parse(words),
            };
            match parsed {
                Ok(one) => given.push(one),
                Err(error) => self.faults.push(error.to_string()),
            }
        }
        given
    }

    fn by_parts(&mut self, words: &str, herbs: &[String]) -> Vec<Given> {
        let parts = match parts(words) {
            Ok(parts) => parts,
            Err(error) => {
                self.faults.push(format!("parts {words}: {error}"));
                return Vec::new();
            }
        };
        if parts.len() != herbs.len() {
            self.faults.push(format!(
                "parts {words} has {} numbers, and {} herbs are named",
                parts.len(),
                herbs.len()
            ));
        }
        let mut given = Vec::new();
        for (name, amount) in herbs.iter().zip(parts) {
            if name.contains('=') {
                self.faults.push(format!(
                    "`{name}` has an amount beside the parts; give one of the two"
                ));
            }
            given.push(Given {
                name: name.clone(),
                amount,
                unit: Unit::Parts,
                written: None,
            });
        }
        given
    }

    /// The herb with its amount; `None` where it is faulty.
    fn member(&mut self, given: &Given) -> Option<Member<'c>> {
        match self.called(&given.name) {
            Ok((herb, prepared)) => Some(Member {
                herb,
                prepared,
                amount: given.amount,
                written: given.written.clone(),
                strength: 1.0,
                tasted: None,
            }),
            Err(failure) => {
                self.faults.push(in_a_line(&failure));
                None
            }
        }
    }

    /// The herb called `name`, and what stands before its own name where that is the name of a prepared form.
    fn called(&mut self, name: &str) -> Attempt<(&'c Herb, Option<String>)> {
        if let Some(found) = prepared(self.corpus, &self.folder, name) {
            return Ok((self.corpus.herb(found.herb)?, Some(found.prefix)));
        }
        let called = herb(self.corpus, name)?;
        for note in called.notes {
            if !self.notes.contains(&note) {
                self.notes.push(note);
            }
        }
        Ok((called.herb, None))
    }

    fn strengths(&mut self, strengths: &[String], members: &mut [Member<'_>]) {
        for words in strengths {
            let given = match Given::parse(words) {
                Ok(given) if given.unit == Unit::Parts => given,
                _ => {
                    self.faults
                        .push(format!("strength {words}: expected HERB=2"));
                    continue;
                }
            };
            let herb = match self.called(&given.name) {
                Ok((herb, _)) => herb,
                Err(failure) => {
                    self.faults.push(in_a_line(&failure));
                    continue;
                }
            };
            let mut named = members
                .iter_mut()
                .filter(|one| one.herb.id == herb.id)
                .peekable();
            if named.peek().is_none() {
                self.faults.push(format!(
                    "strength {words}: {} is not among the herbs",
                    given.name
                ));
            }
            named.for_each(|one| one.strength = given.amount);
        }
    }
}

/// The balance that is sought: `sweet>acrid`.
///
/// # Errors
/// When it is none, or a flavour in it is unknown.
pub(crate) fn balance(corpus: &Corpus, words: &str) -> Attempt<Aim> {
    Aim::parse(&corpus.vocabulary, words).map_err(|error| {
        let failure = Failure::new(format!("balance {words}: {error}"));
        match error {
            AimError::NoFlavour(_, near) if !near.is_empty() => failure.with_candidates(near),
            _ => failure
                .with_hint("Such as 'sweet>acrid' in quotes, sweet-over-acrid, bitter-under-30%."),
        }
    })
}
