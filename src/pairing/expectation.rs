//! What the doctrine of flavours and natures leads one to expect of an herb, and what the books say it does.

use super::blend::Blend;
use super::nature::nearest_nature;
use crate::claim::{Doctrine, Facet, Scheme, ValueId};
use crate::compare::{self, Concept, FacetView, Selection};
use crate::corpus::{Corpus, Herb, WorkId};

/// An action that bears an expectation out or goes against it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The action.
    pub value: ValueId,
    /// The works that state it of the herb as such, oldest first.
    pub by: Vec<WorkId>,
    /// The works that state it of a part, preparation or kind only.
    pub of_scope_only: Vec<WorkId>,
    /// How many works state it of the herb as such, or an action contrary to it.
    pub of: usize,
}

/// A doctrine that applies to an herb, and how its actions answer.
#[derive(Debug, Clone)]
pub struct Expectation<'c> {
    /// The doctrine.
    pub doctrine: &'c Doctrine,
    /// The flavour or nature that it speaks of.
    pub value: ValueId,
    /// Witnesses that state the flavour, or a nature on that side.
    pub k: usize,
    /// Witnesses on the facet.
    pub n: usize,
    /// The actions in which it shows, those of most works first.
    pub borne_out: Vec<Shown>,
    /// Actions contrary to one in which it would show.
    pub against: Vec<Shown>,
}

/// The doctrines that apply to an herb, those first that most witnesses support (rule 40). Silence on an action is no denial.
///
/// ```
/// use kaoyi::{corpus, pairing};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let found = pairing::expectations(&corpus, corpus.herb(mint).unwrap(), &Default::default());
/// assert_eq!(found[0].doctrine.value, "acrid");
/// assert!(!found[0].borne_out.is_empty());
/// ```
#[must_use]
pub fn expectations<'c>(
    corpus: &'c Corpus,
    herb: &Herb,
    selection: &Selection,
) -> Vec<Expectation<'c>> {
    let scheme = corpus.vocabulary.scheme(Facet::Action);
    let actions = compare::view(corpus, herb, Facet::Action, selection);
    let concepts = compare::concepts(corpus, &actions);
    let mut found = Vec::new();
    for doctrine in &corpus.vocabulary.pairing.doctrine {
        let view = compare::view(corpus, herb, doctrine.facet, selection);
        let of_facet = corpus.vocabulary.scheme(doctrine.facet);
        let Some(value) = of_facet.place(&doctrine.value) else {
            continue;
        };
        let k = supporters(of_facet, &view, value);
        if k == 0 {
            continue;
        }
        let shows: Vec<ValueId> = doctrine
            .shows_in
            .iter()
            .filter_map(|action| scheme.place(action))
            .collect();
        let shown = |of: &dyn Fn(ValueId) -> bool| -> Vec<Shown> {
            let of_doctrine = concepts.iter().filter(|concept| of(concept.value));
            of_doctrine
                .map(|concept| show(scheme, &concepts, concept))
                .collect()
        };
        let contrary = |action: ValueId| {
            !shows.contains(&action) && shows.iter().any(|one| scheme.opposed(*one, action))
        };
        found.push(Expectation {
            doctrine,
            value,
            k,
            n: view.witnesses.len(),
            borne_out: shown(&|action| shows.contains(&action)),
            against: shown(&contrary),
        });
    }
    found.sort_by_key(|one| std::cmp::Reverse(one.k));
    found
}

/// A flavour with less of the whole is not spoken of.
const FAINT: f64 = 0.1;

/// What is held of the flavours of a formula that make up a tenth or more of it, with their shares, and of its nature where the word
/// nearest to it is not neutral.
#[must_use]
pub fn held<'c>(corpus: &'c Corpus, blend: &Blend) -> Vec<(&'c Doctrine, ValueId, Option<f64>)> {
    let doctrines = &corpus.vocabulary.pairing.doctrine;
    let of = |facet: Facet, so: &dyn Fn(ValueId) -> bool| {
        let scheme = corpus.vocabulary.scheme(facet);
        let mut of_facet = doctrines.iter().filter(move |one| one.facet == facet);
        of_facet.find_map(|one| {
            let value = scheme.place(&one.value)?;
            so(value).then_some((one, value))
        })
    };
    let flavours = blend.flavours.iter().filter(|one| one.share >= FAINT);
    let mut held: Vec<_> = flavours
        .filter_map(|one| {
            let (doctrine, value) = of(Facet::Flavour, &|value| value == one.value)?;
            Some((doctrine, value, Some(one.share)))
        })
        .collect();
    let natures = corpus.vocabulary.scheme(Facet::Nature);
    let side = |value: ValueId| natures.value(value).side.as_deref();
    let nearest = blend
        .nature
        .map(|place| nearest_nature(natures, place.mean));
    if let Some(nearest) = nearest
        && let Some((doctrine, value)) = of(Facet::Nature, &|value| side(value) == side(nearest))
    {
        held.push((doctrine, value, None));
    }
    held
}

/// The witnesses that state a value; of a scale with sides, any value on that side.
fn supporters(scheme: &Scheme, view: &FacetView, value: ValueId) -> usize {
    let side = scheme.value(value).side.as_deref();
    let states = |stated: &ValueId| {
        scheme.answers(*stated, value)
            || (side.is_some() && scheme.value(*stated).side.as_deref() == side)
    };
    let witnesses = view.witnesses.iter();
    witnesses
        .filter(|witness| witness.values.iter().any(states))
        .count()
}

fn show(scheme: &Scheme, concepts: &[Concept], concept: &Concept) -> Shown {
    let mut either: Vec<WorkId> = concepts
        .iter()
        .filter(|other| other.value == concept.value || scheme.opposed(concept.value, other.value))
        .flat_map(|other| other.witnesses.iter().copied())
        .collect();
    either.sort_unstable();
    either.dedup();
    Shown {
        value: concept.value,
        by: concept.witnesses.clone(),
        of_scope_only: concept.of_scope_only.clone(),
        of: either.len(),
    }
}
