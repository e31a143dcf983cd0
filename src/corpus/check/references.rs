//! Every word that refers to something must refer to something that is there.

use super::{Context, Pen};
use crate::claim::{Facet, Scheme, Value};
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::record::SayingRecord;
use crate::corpus::shape::shorten;
use crate::corpus::source::Folder;
use crate::text::{fold, nearest};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
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
    let works: Vec<&str> = works.chain(files(Folder::Works)).collect();
    let herbs = context
        .herbs
        .iter()
        .map(|(placed, _)| placed.record.id.as_str());
    let herbs: Vec<&str> = herbs.chain(files(Folder::Herbs)).collect();
    let cautions: Vec<&str> = context
        .vocabulary
        .cautions
        .iter()
        .map(|caution| caution.id.as_str())
        .collect();
    let mut look = |pen: Pen<'_>, pointer: &str, word: &str, known: &Known<'_>| {
        if known.words.contains(&word) {
            return;
        }
        let mut one = pen.at(
            pointer,
            known.code,
            format!("`{}`", shorten(word)),
            known.expected,
        );
        one.nearest = match known.meant(word) {
            Some(id) => vec![id.to_owned()],
            None => nearest(word, known.words.iter().copied())
                .into_iter()
                .map(str::to_owned)
                .collect(),
        };
        findings.push(one);
    };
    let works = Known {
        code: Code::UnknownWork,
        expected: "the id of a work",
        words: works,
        scheme: None,
    };
    let herbs = Known {
        code: Code::UnknownHerb,
        expected: "the id of an herb",
        words: herbs,
        scheme: None,
    };
    let cautions = Known {
        code: Code::UnknownValue,
        expected: "a caution of cautions.yaml",
        words: cautions,
        scheme: None,
    };
    let schemes = Schemes::new(context);

    for (work, pen) in context.own_works() {
        for (n, debt) in work.draws_on.iter().enumerate() {
            look(pen, &format!("/draws_on/{n}/work"), &debt.work, &works);
        }
    }
    for (herb, pen) in context.own_herbs() {
        if let Some(part) = &herb.part {
            look(pen, "/part", part, &schemes.parts);
        }
        for (n, caution) in herb.cautions.iter().enumerate() {
            look(pen, &format!("/cautions/{n}"), caution, &cautions);
        }
        let shared = herb
            .names
            .iter()
            .flat_map(|names| &names.shared)
            .enumerate();
        for (n, name) in shared {
            if let Some(with) = &name.with {
                look(pen, &format!("/names/shared/{n}/with"), with, &herbs);
            }
        }
        for (n, entry) in herb.entries.iter().enumerate() {
            look(pen, &format!("/entries/{n}/work"), &entry.work, &works);
            for (m, saying) in entry.sayings.iter().enumerate() {
                let pointer = format!("/entries/{n}/sayings/{m}");
                if let Some(by) = &saying.by {
                    look(pen, &format!("{pointer}/by"), by, &works);
                }
                for (k, carrier) in saying.through.iter().enumerate() {
                    look(pen, &format!("{pointer}/through/{k}"), carrier, &works);
                }
                schemes.words_of(saying, &mut |below, word, known| {
                    look(pen, &format!("{pointer}/{below}"), word, known);
                });
            }
        }
    }
}

/// Words that may stand in a place.
struct Known<'c> {
    code: Code,
    expected: &'static str,
    words: Vec<&'c str>,
    scheme: Option<&'c Scheme>,
}

impl Known<'_> {
    /// The id of the value that is called `word` in Han characters, pinyin, English or otherwise.
    fn meant(&self, word: &str) -> Option<&str> {
        let called = |value: &&Value| {
            let names = [&value.hant, &value.pinyin, &value.english];
            let names = names.into_iter().chain(&value.hans).chain(&value.also);
            names.into_iter().any(|name| fold(name) == fold(word))
        };
        self.scheme?
            .values()
            .iter()
            .find(called)
            .map(|value| value.id.as_str())
    }
}

fn known<'c>(scheme: &'c Scheme, expected: &'static str) -> Known<'c> {
    Known {
        code: Code::UnknownValue,
        expected,
        words: scheme.ids().collect(),
        scheme: Some(scheme),
    }
}

struct Schemes<'c> {
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

impl<'c> Schemes<'c> {
    fn new(context: &Context<'c>) -> Self {
        let vocabulary = context.vocabulary;
        Self {
            flavours: known(vocabulary.scheme(Facet::Flavour), "a flavour"),
            degrees: known(&vocabulary.degrees, "a degree"),
            natures: known(vocabulary.scheme(Facet::Nature), "a nature"),
            toxicity: known(vocabulary.scheme(Facet::Toxicity), "a toxicity"),
            grades: known(vocabulary.scheme(Facet::Grade), "a grade"),
            channels: known(vocabulary.scheme(Facet::Channel), "a channel"),
            actions: known(vocabulary.scheme(Facet::Action), "an action"),
            parts: known(&vocabulary.parts, "a part"),
            preparations: known(&vocabulary.preparations, "a preparation"),
        }
    }

    /// Calls `look` with every word of the vocabulary in a saying: its pointer below the saying, the
    /// word, and what may stand there.
    fn words_of(&self, saying: &SayingRecord, look: &mut dyn FnMut(&str, &str, &Known<'c>)) {
        for (n, flavour) in saying.flavour.iter().enumerate() {
            let (flavour, degree) = flavour.parts();
            look(&format!("flavour/{n}"), flavour, &self.flavours);
            if let Some(degree) = degree {
                look(&format!("flavour/{n}/{flavour}"), degree, &self.degrees);
            }
        }
        let single = [
            ("nature", &saying.nature, &self.natures),
            ("toxicity", &saying.toxicity, &self.toxicity),
            ("grade", &saying.grade, &self.grades),
        ];
        for (key, word, known) in single {
            if let Some(word) = word {
                look(key, word, known);
            }
        }
        for (key, words, known) in [
            ("channel", &saying.channel, &self.channels),
            ("action", &saying.action, &self.actions),
        ] {
            for (n, word) in words.iter().enumerate() {
                look(&format!("{key}/{n}"), word, known);
            }
        }
        if let Some(scope) = &saying.scope {
            if let Some(part) = &scope.part {
                look("scope/part", part, &self.parts);
            }
            if let Some(preparation) = &scope.preparation {
                look("scope/preparation", preparation, &self.preparations);
            }
        }
    }
}
