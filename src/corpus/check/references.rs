//! Every word that refers to something must refer to something that is there.

use std::collections::HashSet;

use super::{Context, Pen};
use crate::claim::{Facet, Scheme, Value};
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::record::{HerbRecord, SayingRecord, WorkRecord};
use crate::corpus::shape::shorten;
use crate::corpus::source::Folder;
use crate::text::{fold, nearest};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let known = AllKnown::new(context);
    for (record, pen) in context.own_works() {
        work(record, pen, &known, findings);
    }
    for (record, pen) in context.own_herbs() {
        herb(record, pen, &known, findings);
    }
}

fn work(work: &WorkRecord, pen: Pen<'_>, known: &AllKnown<'_>, findings: &mut Vec<Finding>) {
    for (n, debt) in work.draws_on.iter().enumerate() {
        known
            .works
            .look(pen, &format!("/draws_on/{n}/work"), &debt.work, findings);
    }
}

fn herb(herb: &HerbRecord, pen: Pen<'_>, known: &AllKnown<'_>, findings: &mut Vec<Finding>) {
    if let Some(part) = &herb.part {
        known.parts.look(pen, "/part", part, findings);
    }
    for (n, caution) in herb.cautions.iter().enumerate() {
        known
            .cautions
            .look(pen, &format!("/cautions/{n}"), caution, findings);
    }
    let shared = herb
        .names
        .iter()
        .flat_map(|names| &names.shared)
        .enumerate();
    for (n, with) in shared.filter_map(|(n, name)| Some((n, name.with.as_ref()?))) {
        known
            .herbs
            .look(pen, &format!("/names/shared/{n}/with"), with, findings);
    }
    for (n, entry) in herb.entries.iter().enumerate() {
        known
            .works
            .look(pen, &format!("/entries/{n}/work"), &entry.work, findings);
        for (m, one) in entry.sayings.iter().enumerate() {
            saying(
                one,
                pen,
                &format!("/entries/{n}/sayings/{m}"),
                known,
                findings,
            );
        }
    }
}

fn saying(
    saying: &SayingRecord,
    pen: Pen<'_>,
    pointer: &str,
    known: &AllKnown<'_>,
    findings: &mut Vec<Finding>,
) {
    for (n, flavour) in saying.flavour.iter().enumerate() {
        let (flavour, degree) = flavour.parts();
        known
            .flavours
            .look(pen, &format!("{pointer}/flavour/{n}"), flavour, findings);
        if let Some(degree) = degree {
            let place = format!("{pointer}/flavour/{n}/{flavour}");
            known.degrees.look(pen, &place, degree, findings);
        }
    }
    let scope = saying.scope.as_ref();
    let single = [
        ("by", saying.by.as_ref(), &known.works),
        ("nature", saying.nature.as_ref(), &known.natures),
        ("toxicity", saying.toxicity.as_ref(), &known.toxicity),
        ("grade", saying.grade.as_ref(), &known.grades),
        (
            "scope/part",
            scope.and_then(|scope| scope.part.as_ref()),
            &known.parts,
        ),
        (
            "scope/preparation",
            scope.and_then(|scope| scope.preparation.as_ref()),
            &known.preparations,
        ),
    ];
    for (key, word, known) in single {
        if let Some(word) = word {
            known.look(pen, &format!("{pointer}/{key}"), word, findings);
        }
    }
    let lists = [
        ("through", &saying.through, &known.works),
        ("channel", &saying.channel, &known.channels),
        ("action", &saying.action, &known.actions),
    ];
    for (key, words, known) in lists {
        for (n, word) in words.iter().enumerate() {
            known.look(pen, &format!("{pointer}/{key}/{n}"), word, findings);
        }
    }
}

/// A scheme of no more values than this is listed whole.
const FEW: usize = 12;

/// The words that may stand in one kind of place.
struct Known<'c> {
    code: Code,
    expected: &'static str,
    words: HashSet<&'c str>,
    scheme: Option<&'c Scheme>,
}

impl<'c> Known<'c> {
    fn of(code: Code, expected: &'static str, words: impl Iterator<Item = &'c str>) -> Self {
        Self {
            code,
            expected,
            words: words.collect(),
            scheme: None,
        }
    }

    fn values(scheme: &'c Scheme, expected: &'static str) -> Self {
        Self {
            scheme: Some(scheme),
            ..Self::of(Code::UnknownValue, expected, scheme.ids())
        }
    }

    /// Reports `word` when it is not among the known ones.
    fn look(&self, pen: Pen<'_>, pointer: &str, word: &str, findings: &mut Vec<Finding>) {
        if self.words.contains(word) {
            return;
        }
        let mut expected = self.expected.to_owned();
        if let Some(scheme) = self.scheme.filter(|scheme| scheme.values().len() <= FEW) {
            expected = format!(
                "{expected}: {}",
                scheme.ids().collect::<Vec<_>>().join(", ")
            );
        }
        let found = format!("`{}`", shorten(word));
        let mut one = pen.at(pointer, self.code, found, &expected);
        one.nearest = match self.meant(word) {
            Some(id) => vec![id.to_owned()],
            None => {
                // In a fixed order, so that equal input gives equal output.
                let mut words: Vec<&str> = self.words.iter().copied().collect();
                words.sort_unstable();
                nearest(word, words)
                    .into_iter()
                    .map(str::to_owned)
                    .collect()
            }
        };
        findings.push(one);
    }

    /// The id of the value that is called `word` in Han characters, pinyin, English or otherwise.
    fn meant(&self, word: &str) -> Option<&str> {
        let called = |value: &&Value| {
            let names = [&value.hant, &value.pinyin, &value.english];
            let mut names = names.into_iter().chain(&value.hans).chain(&value.also);
            names.any(|name| fold(name) == fold(word))
        };
        self.scheme?
            .values()
            .iter()
            .find(called)
            .map(|value| value.id.as_str())
    }
}

/// All that a record may refer to.
struct AllKnown<'c> {
    works: Known<'c>,
    herbs: Known<'c>,
    cautions: Known<'c>,
    flavours: Known<'c>,
    degrees: Known<'c>,
    natures: Known<'c>,
    toxicity: Known<'c>,
    grades: Known<'c>,
    channels: Known<'c>,
    actions: Known<'c>,
    parts: Known<'c>,
    preparations: Known<'c>,
}

impl<'c> AllKnown<'c> {
    fn new(context: &Context<'c>) -> Self {
        let vocabulary = context.vocabulary;
        // A record that could not be read is there all the same: its file has a finding of its own.
        let files = |folder: Folder| {
            let of = context
                .sources
                .iter()
                .filter(move |source| source.folder == folder);
            of.map(|source| source.stem.as_str())
        };
        let works = context
            .works
            .iter()
            .map(|(placed, _)| placed.record.id.as_str());
        let herbs = context
            .herbs
            .iter()
            .map(|(placed, _)| placed.record.id.as_str())
            .chain(context.packed.iter().map(|herb| herb.id.as_str()));
        let cautions = vocabulary
            .cautions
            .iter()
            .map(|caution| caution.id.as_str());
        let of = |facet: Facet, expected| Known::values(vocabulary.scheme(facet), expected);
        Self {
            works: Known::of(
                Code::UnknownWork,
                "the id of a work",
                works.chain(files(Folder::Works)),
            ),
            herbs: Known::of(
                Code::UnknownHerb,
                "the id of an herb",
                herbs.chain(files(Folder::Herbs)),
            ),
            cautions: Known::of(Code::UnknownValue, "a caution of cautions.yaml", cautions),
            flavours: of(Facet::Flavour, "a flavour"),
            degrees: Known::values(&vocabulary.degrees, "a degree"),
            natures: of(Facet::Nature, "a nature"),
            toxicity: of(Facet::Toxicity, "a toxicity"),
            grades: of(Facet::Grade, "a grade"),
            channels: of(Facet::Channel, "a channel"),
            actions: of(Facet::Action, "an action"),
            parts: Known::values(&vocabulary.parts, "a part"),
            preparations: Known::values(&vocabulary.preparations, "a preparation"),
        }
    }
}
