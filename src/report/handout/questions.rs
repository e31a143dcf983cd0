//! Questions for discussion, made from the record. All rules stand here, each with the name that the page
//! shows and the evidence that a question rests on:
//!
//! | rule | is asked where |
//! |---|---|
//! | one voice | a single work speaks of a facet |
//! | many voices, few sources | two witnesses or more say the same, in fewer lines than books |
//! | the longer list | the shortest list stands in all the others |
//! | lists apart | lists overlap in part or not at all |
//! | how much of it | books differ in degree only |
//! | opposite sides | books stand on both sides of a scale |
//! | of which part | the difference follows part, preparation or kind |
//! | the turn | earlier books say one thing, later books another |
//! | two ways at once | two opposed actions are both stated |
//! | what silence means | some book warns, and books with an article say nothing of it |
//! | who reports | the carriers of a lost book differ |

use crate::claim::Facet;
use crate::compare::DifferenceKind;
use crate::report::text::{Titles, count, gist};
use crate::report::view::{ComparisonView, DifferenceView, FacetProfile, OpposedView};

/// A question with what it rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// The rule by which it is asked.
    pub rule: &'static str,
    /// The question.
    pub text: String,
    /// What it rests on: what is said, and the ids of the works that say it.
    pub evidence: Vec<(String, Vec<String>)>,
}

/// The questions that the record of an herb raises, facet by facet.
///
/// ```
/// use kaoyi::claim::Facet;
/// use kaoyi::report::{handout::questions, view::{ComparisonView, Labels}};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let kaoyi::corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let script = kaoyi::text::Converter::default();
/// let labels = Labels::new(&corpus, &script);
/// let view = ComparisonView::new(&labels, corpus.herb(mint).unwrap(), &Facet::ALL, &Default::default());
/// // Cool by some books, warm by others.
/// assert!(questions(&view).iter().any(|one| one.rule == "opposite sides"));
/// ```
#[must_use]
pub fn questions(view: &ComparisonView) -> Vec<Question> {
    let titles = Titles::new(&view.works);
    let of_differences = view
        .differences
        .iter()
        .filter_map(|one| of_difference(&titles, view, one));
    let mut questions: Vec<Question> = of_differences.collect();
    questions.extend(view.opposed.iter().map(of_opposed));
    questions.extend(of_silence(view));
    questions.extend(of_carriers(&titles, view));
    questions
}

fn of_difference(
    titles: &Titles<'_>,
    view: &ComparisonView,
    difference: &DifferenceView,
) -> Option<Question> {
    let facet = difference.facet.name();
    let labels: Vec<&str> = difference
        .sides
        .iter()
        .map(|side| side.label.as_str())
        .collect();
    let first = difference.sides.first()?;
    let (rule, text) = match difference.kind {
        DifferenceKind::Single => (
            "one voice",
            format!(
                "Only one book speaks of its {facet} ({}). What would you want to see or taste before you build on a \
                 single voice?",
                first.label
            ),
        ),
        DifferenceKind::Unanimous => return of_agreement(view, difference),
        DifferenceKind::Nested => (
            "the longer list",
            format!(
                "Every list of its {facet} holds the shortest one ({}). Did the later books find more, or add up what \
                 others had written?",
                shortest(view, difference.facet)?
            ),
        ),
        DifferenceKind::Mixed => (
            "lists apart",
            format!(
                "The lists of its {facet} overlap in part or not at all ({}). Could the authors have had the same drug \
                 before them? What would tell you?",
                labels.join(" · ")
            ),
        ),
        DifferenceKind::Graded => (
            "how much of it",
            format!(
                "Of its {facet} the books differ in strength only ({}). Is that a difference of the drug, of the dose, \
                 or of the words?",
                labels.join(" · ")
            ),
        ),
        DifferenceKind::Crossing => (
            "opposite sides",
            format!(
                "Of its {facet} the books stand on opposite sides ({}). Which grounds could each side give, and which \
                 would you test first?",
                labels.join(" · ")
            ),
        ),
        DifferenceKind::ByScope => (
            "of which part",
            format!(
                "Of a part, preparation or kind the books say otherwise of its {facet} ({}). Which of these do you have \
                 in hand, and how would you know?",
                labels.join(" · ")
            ),
        ),
        DifferenceKind::OverTime => (
            "the turn",
            format!(
                "Of its {facet} the books say {}. What else changed then: the plant, the place, the way it is prepared, \
                 or the doctrine?",
                gist(titles, difference)
            ),
        ),
    };
    let sides = difference.sides.iter();
    Some(Question {
        rule,
        text,
        evidence: sides
            .map(|side| (format!("{facet}: {}", side.label), side.witnesses.clone()))
            .collect(),
    })
}

/// The shortest list that a witness gives.
fn shortest(view: &ComparisonView, facet: Facet) -> Option<String> {
    let stands = view
        .witnesses
        .iter()
        .filter_map(|row| row.stands.get(&facet));
    let counted = stands.filter(|stand| stand.line.is_some());
    let shortest = counted.min_by_key(|stand| stand.values.len())?;
    let words = shortest.values.iter().map(|value| value.english.as_str());
    Some(words.collect::<Vec<_>>().join(", "))
}

/// Agreement raises a question where it comes from few sources.
fn of_agreement(view: &ComparisonView, difference: &DifferenceView) -> Option<Question> {
    let side = difference.sides.first()?;
    let profile = profile(view, difference.facet)?;
    (profile.lines < profile.witnesses).then(|| Question {
        rule: "many voices, few sources",
        text: format!(
            "All agree on its {} ({}): {}, but {} of transmission. How many of them may have looked for \
             themselves?",
            difference.facet.name(),
            side.label,
            count(profile.witnesses, "book"),
            count(profile.lines, "line"),
        ),
        evidence: vec![(side.label.clone(), side.witnesses.clone())],
    })
}

fn profile(view: &ComparisonView, facet: Facet) -> Option<&FacetProfile> {
    view.profile.iter().find(|profile| profile.facet == facet)
}

fn of_opposed(pair: &OpposedView) -> Question {
    let (stronger, weaker) = (&pair.stronger, &pair.weaker);
    let both = if pair.both.is_empty() {
        String::new()
    } else {
        format!("; {} both", say(pair.both.len()))
    };
    let mut evidence = Vec::new();
    for one in [stronger, weaker] {
        let works = [one.witnesses.clone(), one.of_scope_only.clone()].concat();
        evidence.push((one.action.english.clone(), works));
    }
    Question {
        rule: "two ways at once",
        text: format!(
            "“{}” and “{}” are both stated{both}. Of which dose, part, preparation or partner could each be true?",
            stronger.action.english, weaker.action.english
        ),
        evidence,
    }
}

fn say(n: usize) -> String {
    let verb = if n == 1 { "states" } else { "state" };
    format!("{} {verb}", count(n, "book"))
}

/// Silence on toxicity beside a warning.
fn of_silence(view: &ComparisonView) -> Option<Question> {
    let warning = view.heed.warnings.first()?;
    let silent = &profile(view, Facet::Toxicity)?.silent;
    let warners: Vec<String> = warning.by.iter().map(|one| one.work.clone()).collect();
    (!silent.is_empty()).then(|| Question {
        rule: "what silence means",
        text: format!(
            "It is called {} in {}, and {} with an article on it say nothing of toxicity. What may a reader \
             take from silence?",
            warning.value.english,
            count(warners.len(), "book"),
            count(silent.len(), "book"),
        ),
        evidence: vec![
            (warning.value.english.clone(), warners),
            ("silent".to_owned(), silent.clone()),
        ],
    })
}

/// A lost book that two books quote differently.
fn of_carriers(titles: &Titles<'_>, view: &ComparisonView) -> Vec<Question> {
    let mut questions = Vec::new();
    for row in &view.witnesses {
        for (facet, stand) in row.stands.iter().filter(|(_, stand)| stand.carriers_differ) {
            let told = stand.statements.iter().map(|one| {
                let scope = one.scope.iter().map(|scope| format!(" ({scope})"));
                (
                    format!("{}{}", one.text, scope.collect::<String>()),
                    one.through.clone(),
                )
            });
            questions.push(Question {
                rule: "who reports",
                text: format!(
                    "Those who quote {} on {} do not give it the same words. Whom would you follow, and why?",
                    titles.dated(&row.work),
                    facet.name()
                ),
                evidence: told.collect(),
            });
        }
    }
    questions
}
