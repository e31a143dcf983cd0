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
use crate::report::text::{Titles, count, gist, told_here};
use crate::report::view::{ComparisonView, DifferenceView, FacetProfile, OpposedView, SideView};

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

/// Of a kind of difference: the rule, what the record shows, and what is asked of it.
const fn frame(kind: DifferenceKind) -> (&'static str, &'static str, &'static str) {
    match kind {
        DifferenceKind::Single => (
            "one voice",
            "Only one book speaks of its FACET",
            "What would you want to see or taste before you build on a single voice?",
        ),
        DifferenceKind::Unanimous => (
            "many voices, few sources",
            "All agree on its FACET",
            "How many of them may have looked for themselves?",
        ),
        DifferenceKind::Nested => (
            "the longer list",
            "Every list of its FACET holds the shortest one",
            "Did the later books find more, or add up what others had written?",
        ),
        DifferenceKind::Mixed => (
            "lists apart",
            "The lists of its FACET overlap in part or not at all",
            "Could the authors have had the same drug before them? What would tell you?",
        ),
        DifferenceKind::Graded => (
            "how much of it",
            "Of its FACET the books differ in strength only",
            "Is that a difference of the drug, of the dose, or of the words?",
        ),
        DifferenceKind::Crossing => (
            "opposite sides",
            "Of its FACET the books stand on opposite sides",
            "Which grounds could each side give, and which would you test first?",
        ),
        DifferenceKind::ByScope => (
            "of which part",
            "Of a part, preparation or kind the books say otherwise of its FACET",
            "Which of these do you have in hand, and how would you know?",
        ),
        DifferenceKind::OverTime => (
            "the turn",
            "Of its FACET the books have changed their word",
            "What else changed then: the plant, the place, the way it is prepared, or the doctrine?",
        ),
    }
}

fn of_difference(
    titles: &Titles<'_>,
    view: &ComparisonView,
    difference: &DifferenceView,
) -> Option<Question> {
    let (rule, shown, asked) = frame(difference.kind);
    let sides = difference.sides.iter();
    let sides: Vec<&SideView> = sides.filter(|side| told_here(difference, side)).collect();
    let what = match difference.kind {
        DifferenceKind::Unanimous => agreement(view, difference)?,
        DifferenceKind::Nested => shortest(view, difference.facet)?,
        DifferenceKind::OverTime => gist(titles, difference),
        _ => some(
            &sides
                .iter()
                .map(|side| side.label.as_str())
                .collect::<Vec<_>>(),
        ),
    };
    let facet = difference.facet.name();
    let shown = shown.replace("FACET", facet);
    Some(Question {
        rule,
        text: format!("{shown} ({what}). {asked}"),
        evidence: sides
            .iter()
            .map(|side| (format!("{facet}: {}", side.label), side.witnesses.clone()))
            .collect(),
    })
}

/// At most four labels, and how many more there are.
fn some(labels: &[&str]) -> String {
    let more = labels.len().saturating_sub(4);
    let shown = labels[..labels.len() - more].join(" · ");
    if more == 0 {
        shown
    } else {
        format!("{shown} · and {more} more")
    }
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

/// What is agreed on, where it comes from fewer lines than books; elsewhere agreement raises no question.
fn agreement(view: &ComparisonView, difference: &DifferenceView) -> Option<String> {
    let profile = profile(view, difference.facet)?;
    let label = &difference.sides.first()?.label;
    (profile.lines < profile.witnesses).then(|| {
        format!(
            "{label}: {}, but {} of transmission",
            count(profile.witnesses, "book"),
            count(profile.lines, "line")
        )
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
