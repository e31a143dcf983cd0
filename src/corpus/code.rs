//! The codes of findings: each unique, each explained offline.

use schemars::JsonSchema;
use serde::Serialize;

macro_rules! codes {
    ($($(#[doc = $doc:literal])+ $variant:ident = $name:literal, $title:literal;)+) => {
        /// The kind of a finding.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, JsonSchema)]
        pub enum Code {
            $($(#[doc = $doc])+ #[serde(rename = $name)] $variant,)+
        }

        impl Code {
            /// All codes.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The name under which it is reported and explained.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)+ }
            }

            /// What is wrong, in a few words.
            #[must_use]
            pub const fn title(self) -> &'static str {
                match self { $(Self::$variant => $title,)+ }
            }

            /// What it means, why it matters and how to mend it.
            #[must_use]
            pub const fn explanation(self) -> &'static str {
                match self { $(Self::$variant => concat!($($doc),+),)+ }
            }
        }
    };
}

codes! {
    /// The file or folder cannot be read: it is missing, not permitted, or not a plain file. Mend
    /// its permissions or name another folder.
    Unreadable = "unreadable", "cannot be read";
    /// The folder holds no record. Records are YAML files in its folders herbs/, works/ and
    /// vocabulary/; name the folder above these three.
    Empty = "empty-folder", "no record in the folder";
    /// The file is larger than any record should be. A record is one herb or one work; split what
    /// is not.
    TooLarge = "too-large", "file too large";
    /// The file is not UTF-8 text. Save it as UTF-8.
    NotUtf8 = "not-utf8", "not UTF-8";
    /// The file is not well-formed YAML, or holds more than one document.
    Syntax = "yaml-syntax", "not well-formed YAML";
    /// The file is nested too deeply, holds too much, or uses anchors and aliases, which records do
    /// without: an alias can make a small file unfold into a huge one. Write the value out.
    Budget = "yaml-budget", "beyond the limits for YAML";
    /// The file or folder lies outside herbs/, works/ and vocabulary/, so what it records is unknown. Move
    /// it, or mend the folder's name.
    Stray = "stray-file", "file in no known folder";
    /// A key is written twice in one record; only one of the two could count. Remove one.
    DuplicateKey = "duplicate-key", "key written twice";
    /// The record has a key that no record of its kind has; often a slip of spelling.
    UnknownKey = "unknown-key", "unknown key";
    /// A key that every record of the kind must have is not there.
    MissingKey = "missing-key", "missing key";
    /// The value is of another type or form than the key takes, or not among its few words.
    WrongForm = "wrong-form", "value of the wrong form";
    /// The record's id differs from the file's name. They are kept equal so that a record is found.
    IdNotFile = "id-not-file-name", "id differs from file name";
    /// Two records of a kind have one id. Give one of them another id, or merge the two.
    DuplicateId = "duplicate-id", "id used twice";
    /// An herb has two entries for the same article. Put the sayings under one entry. An addition takes
    /// the place of a shipped article by giving its whole place.
    DuplicateEntry = "duplicate-entry", "entry written twice";
    /// A value is listed twice in one saying; it would count twice. Remove one.
    DuplicateValue = "duplicate-value", "value listed twice";
    /// A work is named that the corpus does not hold. Mend the spelling or add a file in works/.
    UnknownWork = "unknown-work", "unknown work";
    /// An herb is named that the corpus does not hold. Mend the spelling or leave the key out.
    UnknownHerb = "unknown-herb", "unknown herb";
    /// A value is not in the vocabulary of its facet. Mend the spelling, or add the value to the
    /// vocabulary file of the facet.
    UnknownValue = "unknown-value", "unknown value";
    /// An amount is no number above zero with a unit of weight or volume: 三兩, 1/2 jin, 2 liang 3 qian. Mend the
    /// number, or use a unit that the period knows.
    BadAmount = "bad-amount", "amount that cannot be weighed";
    /// The wording is longer than a quotation may be. Quote only the phrase that bears the claim;
    /// … stands for a gap.
    LongWording = "long-wording", "wording too long";
    /// A saying with a claim other than a grade shows no wording, so nobody can check it. An entry
    /// from memory need not have one.
    NoWording = "no-wording", "saying without wording";
    /// A saying makes no claim: no flavour, nature, toxicity, grade, channel or action.
    NoClaim = "no-claim", "saying without a claim";
    /// `by` names the work of the entry itself. Leave it out: the entry's work speaks for itself.
    OwnBy = "by-own-work", "by names the entry's own work";
    /// A work carries a saying to itself: the chain from `by` over `through` to the entry's work
    /// names one work twice.
    ThroughCycle = "through-cycle", "saying carried in a circle";
    /// Works draw on each other in a circle. One of the debts must be wrong.
    DrawsOnCycle = "draws-on-cycle", "works draw on each other in a circle";
    /// A work draws on, or carries, a work that is younger than itself. One date or the attribution
    /// must be wrong.
    CarrierOlder = "carrier-older", "carrier older than what it carries";
    /// Two herbs bear one name and do not say so. List the name under `shared` of both, with a note.
    SharedName = "shared-name", "name of two herbs";
    /// An herb that is not in the shipped corpus lacks its names. They may be
    /// left out only in a file that adds to a shipped herb.
    NamesMissing = "names-missing", "new herb without identity";
    /// A file that adds to a shipped herb gives its species, part, substance, identity or note anew. An
    /// addition brings entries and cautions only; what the herb is stands in the shipped file. Leave the
    /// key out.
    NotAdded = "not-added", "identity given in an addition";
    /// A span of years ends before it begins.
    DateOrder = "date-order", "date ends before it begins";
    /// The vocabulary lacks one of its files. A folder with a vocabulary/ of its own stands alone
    /// and needs them all; without one it is added to the shipped corpus.
    Vocabulary = "vocabulary-incomplete", "incomplete vocabulary";
}

impl Code {
    /// Whether the fault is in the form of a record, so that what it refers to could not be checked yet.
    #[must_use]
    pub const fn is_of_form(self) -> bool {
        matches!(
            self,
            Self::Syntax | Self::Budget | Self::UnknownKey | Self::MissingKey | Self::WrongForm
        )
    }

    /// The code called `name`.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|code| code.name() == name)
    }
}

#[cfg(test)]
mod tests {
    use super::Code;
    use std::collections::HashSet;

    #[test]
    fn every_code_has_a_name_of_its_own_and_an_explanation() {
        let names: HashSet<_> = Code::ALL.iter().map(|code| code.name()).collect();
        assert_eq!(names.len(), Code::ALL.len());
        for code in Code::ALL {
            assert!(code.explanation().trim().ends_with('.'), "{}", code.name());
            assert!(
                code.explanation().split_whitespace().count() >= 8,
                "{}",
                code.name()
            );
        }
    }
}
