//! An herb that is not handed out for tasting, and why, in one line.

use super::labels::Labels;
use crate::claim::Facet;
use crate::corpus::Herb;
use crate::tasting::Refusal;

/// So many books are named.
const BOOKS: usize = 4;

/// `附子 fùzǐ: called greatly toxic in the books (本草經集注, …); contains aconitine … (from memory)`
#[must_use]
pub fn refused(labels: &Labels<'_>, herb: &Herb, refusal: &Refusal<'_>) -> String {
    let mut words = Vec::new();
    if let Some(toxic) = &refusal.toxic {
        let titles = toxic.by.iter().take(BOOKS);
        let mut titles: Vec<String> = titles
            .map(|one| labels.han(&labels.corpus.work(one.work).hant))
            .collect();
        if toxic.by.len() > BOOKS {
            titles.push(format!("{} more", toxic.by.len() - BOOKS));
        }
        let value = labels.value(Facet::Toxicity, toxic.value);
        words.push(format!(
            "called {} in the books ({})",
            value.english,
            titles.join(", ")
        ));
    }
    let cautions = refusal.cautions.iter();
    words.extend(cautions.map(|caution| {
        let text = labels.han(&caution.text);
        format!("{text} ({})", caution.source)
    }));
    format!(
        "{} {}: {}",
        labels.han(&herb.names.hant),
        herb.names.pinyin,
        words.join("; ")
    )
}
