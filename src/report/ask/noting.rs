//! Noting a tasting: the fields in words, what is never tasted, and the file at last.

use super::failure::{Attempt, Failure, several};
use crate::claim::Vocabulary;
use crate::corpus::Herb;
use crate::report::text::refusal_reasons;
use crate::report::view::{Labels, NOTICE, RefusalView};
use crate::tasting::{Day, Field, Notebook, Noted, Override, Tasting, add, refusal};

/// Fields with the words that were given for them.
pub(crate) type Given = Vec<(Field, String)>;

/// Fields and scores (`acrid=6.5`) that were given, once they are without fault.
///
/// # Errors
/// When a scale does not exist or a value does not fit; all that is wrong at once.
pub(crate) fn given(
    vocabulary: &Vocabulary,
    mut fields: Given,
    scores: &[String],
) -> Attempt<Given> {
    let mut faults = Vec::new();
    for words in scores {
        match Field::score(vocabulary, words) {
            Ok((field, number)) => fields.push((field, number.to_owned())),
            Err(error) => faults.push(format!("score {words}: {error}")),
        }
    }
    // Values that do not fit are told together with scales that do not exist.
    let mut trial = Tasting::on(String::new(), Day::FIRST);
    faults.extend(set_all(&mut trial, &fields));
    if faults.is_empty() {
        return Ok(fields);
    }
    Err(several(faults))
}

/// Puts all values into a tasting, and tells which do not fit.
pub(crate) fn set_all(tasting: &mut Tasting, given: &Given) -> Vec<String> {
    let set = |(field, words): &(Field, String)| field.set(tasting, words).err();
    let errors = given.iter().filter_map(set);
    errors.map(|error| error.to_string()).collect()
}

/// Whether a tasting tells nothing: neither a score nor words.
pub(crate) fn untold(tasting: &Tasting) -> bool {
    tasting.scores.is_empty() && tasting.words.is_none()
}

/// Leave to note a tasting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Permission {
    /// What is written of the reason for which an herb was tasted that is never tasted to learn it.
    pub overridden: Option<Override>,
    /// What is said beside it.
    pub note: Option<String>,
}

/// Leave to note a tasting of `herb`, which was tasted for the reason `stated`, if any.
///
/// # Errors
/// When something is against tasting it and no reason is stated.
pub(crate) fn permitted(
    labels: &Labels<'_>,
    herb: &Herb,
    stated: Option<Override>,
) -> Attempt<Permission> {
    let Some(refusal) = refusal(labels.corpus, herb) else {
        let unneeded = "nothing on record is against tasting it, so the reason is not written down";
        return Ok(Permission {
            overridden: None,
            note: stated.map(|_| unneeded.to_owned()),
        });
    };
    let view = RefusalView::new(labels, herb, &refusal);
    let reasons = refusal_reasons(&view);
    if let Some(stated) = stated.filter(|one| !one.reason.trim().is_empty()) {
        return Ok(Permission {
            overridden: Some(stated),
            note: Some(format!(
                "{} is not tasted to learn it: {}",
                view.name,
                reasons.join("; ")
            )),
        });
    }
    Err(Failure::new(format!(
        "{} is never tasted to learn it; nothing was written:",
        view.name
    ))
    .with_candidates(reasons)
    .with_hint(NOTICE))
}

/// Writes a tasting of the herb whose id is `herb` into the notebook; `now` and `seed` as in [`add`].
///
/// # Errors
/// When the same is noted already, or it cannot be written.
pub(crate) fn note_down(
    notebook: &Notebook,
    tasting: Tasting,
    herb: &str,
    (now, seed): (u64, u64),
) -> Attempt<Noted> {
    if let Some(same) = notebook.all().iter().find(|one| one.tasting == tasting) {
        return Err(
            Failure::new(format!("the same tasting is noted already: {}", same.id))
                .with_hint("A further cup of it is told apart by its number: cup 2."),
        );
    }
    let id = add(notebook.folder(), &tasting, herb, now, seed)?;
    Ok(Noted {
        herb: herb.to_owned(),
        known: true,
        id,
        tasting,
    })
}
