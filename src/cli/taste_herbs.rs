//! The herbs that a class is to taste: all of them known, none of them refused.

use super::common;
use super::outcome::{Attempt, Failure};
use super::output::Output;
use crate::corpus::{Corpus, Herb, HerbId};
use crate::report::text;
use crate::report::view::{Labels, NOTICE, RefusalView};
use crate::tasting;
use crate::text::{Converter, Script};

/// The herbs of these names; everything that is wrong is told at once.
pub(super) fn allowed<'c>(
    corpus: &'c Corpus,
    names: &[String],
    output: &Output,
) -> Attempt<Vec<(HerbId, &'c Herb)>> {
    let script = Converter::new(Script::Recorded)?;
    let labels = Labels::new(corpus, &script);
    let (mut herbs, mut faults) = (Vec::new(), Vec::new());
    for name in names {
        let herb = match common::herb(corpus, name, output) {
            Ok(herb) => herb,
            // With one name the failure itself says most.
            Err(failure) if names.len() == 1 => return Err(failure),
            Err(failure) => {
                let near = failure.candidates.join(" | ");
                faults.push(format!("{} {near}", failure.message).trim().to_owned());
                continue;
            }
        };
        if let Some(refusal) = tasting::refusal(corpus, herb) {
            let view = RefusalView::new(&labels, herb, &refusal);
            let reasons = text::refusal_reasons(&view).join("; ");
            faults.push(format!("{}: {reasons}", view.name));
        } else {
            herbs.push((corpus.place_of(herb), herb));
        }
    }
    if faults.is_empty() {
        return Ok(herbs);
    }
    Err(Failure::new("not to be handed out for tasting:")
        .with_candidates(faults)
        .with_hint(format!(
            "Toxic and restricted herbs are never tasted. {NOTICE}"
        )))
}
