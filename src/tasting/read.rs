//! A tasting from the text of its file.

use super::record::Tasting;
use crate::claim::{Facet, Vocabulary};
use crate::corpus::{Code, Finding, Reading, Single};
use crate::text::nearest;

/// So many findings of one file are reported; mending them shows the rest.
const FINDINGS_A_FILE: usize = 50;

/// Reads the files of a notebook.
pub(super) struct Reader {
    single: Single,
}

impl Reader {
    pub fn new() -> Self {
        Self {
            single: Single::of::<Tasting>(),
        }
    }

    /// The tasting in `text`; `None` with all that is wrong in `findings`.
    pub fn read(
        &self,
        name: &str,
        text: String,
        findings: &mut Vec<Finding>,
    ) -> Option<Reading<Tasting>> {
        let mut found = Vec::new();
        let reading = self.single.read(name, text, &mut found);
        found.truncate(FINDINGS_A_FILE);
        findings.append(&mut found);
        reading
    }
}

/// Reads one tasting from the text of a file called `name`, and checks its flavours against the vocabulary.
///
/// # Errors
/// With all that is wrong, each fault with line, column, what was found, what was expected and the nearest choice.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let text = "herb: bohe\ndate: 2026-03-14\nscores: {flavours: {acrd: 6}}\n";
/// let faults = kaoyi::tasting::read_tasting("mint.yaml", text, &corpus.vocabulary).unwrap_err();
/// assert_eq!((faults[0].line, faults[0].column), (Some(3), Some(21)));
/// assert_eq!(faults[0].nearest, ["acrid"]);
/// ```
pub fn read_tasting(
    name: &str,
    text: &str,
    vocabulary: &Vocabulary,
) -> Result<Tasting, Vec<Finding>> {
    let mut findings = Vec::new();
    let reading = Reader::new().read(name, text.to_owned(), &mut findings);
    if let Some(reading) = &reading {
        findings.extend(flavour_faults(reading, vocabulary));
    }
    match reading {
        Some(reading) if findings.is_empty() => Ok(reading.record),
        _ => Err(findings),
    }
}

/// The flavours of a tasting that the vocabulary does not have.
pub(super) fn unknown_flavours<'t>(
    tasting: &'t Tasting,
    vocabulary: &Vocabulary,
) -> impl Iterator<Item = &'t str> {
    let scheme = vocabulary.scheme(Facet::Flavour);
    let scored = tasting.scores.flavours.keys().map(String::as_str);
    scored.filter(|id| scheme.place(id).is_none())
}

/// A finding for each flavour that the vocabulary does not have.
pub(super) fn flavour_faults(reading: &Reading<Tasting>, vocabulary: &Vocabulary) -> Vec<Finding> {
    let scheme = vocabulary.scheme(Facet::Flavour);
    let ids: Vec<&str> = scheme.ids().collect();
    let expected = format!("one of `{}`", ids.join("`, `"));
    let fault = |id: &str| {
        let near = nearest(id, ids.iter().copied());
        let near = near.into_iter().map(str::to_owned).collect();
        reading.key_fault(Code::UnknownValue, "/scores/flavours", id, &expected, near)
    };
    unknown_flavours(&reading.record, vocabulary)
        .map(fault)
        .collect()
}
