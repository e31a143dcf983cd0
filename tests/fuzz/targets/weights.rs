//! Old weights: an amount that is understood is understood again as it is written back, in letters and in Han characters;
//! no opinion's least is above its greatest; the shares of a formula make one.

use std::sync::OnceLock;

use kaoyi::claim::Quantity;
use kaoyi::corpus::{self, Corpus, FormulaHerb, FormulaRecord};
use kaoyi::measure::{Amount, Formula, Measures};
use kaoyi::text::{Exact, decimal, figure, numeral};

fn corpus() -> &'static Corpus {
    static CORPUS: OnceLock<Corpus> = OnceLock::new();
    CORPUS.get_or_init(|| corpus::embedded().unwrap())
}

/// Lines: each an amount; those with a sign of equality are a formula, one that begins with `@` names its period.
pub fn run(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else {
        return;
    };
    let measures = Measures::new(&corpus().vocabulary.measures).unwrap();
    let mut record = FormulaRecord {
        name: None,
        period: None,
        herbs: Vec::new(),
    };
    for line in text.lines().take(20) {
        if let Ok(number) = numeral(line) {
            written(&number);
        }
        match line.split_once('=') {
            _ if line.starts_with('@') => record.period = Some(line[1..].trim().to_owned()),
            Some((herb, amount)) => record.herbs.push(FormulaHerb {
                herb: herb.into(),
                amount: amount.into(),
            }),
            None => match measures.amount(line) {
                Ok(amount) => weighed(&measures, &amount),
                Err(fault) => assert!(
                    fault.at >= 1
                        && fault.at <= line.chars().count().max(64) + 1
                        && !fault.found.is_empty(),
                    "{fault:?}"
                ),
            },
        }
    }
    if let Ok(formula) = Formula::read(corpus(), &measures, &record) {
        shares(&measures, &formula);
    }
}

/// A number shown with few digits is near to what it was.
fn written(number: &Exact) {
    assert!(*number >= zero());
    assert!(!figure(number).is_empty());
    let shown = decimal(number, 3);
    if let Ok(shown) = numeral(&shown) {
        let off = if shown > *number {
            &shown - number
        } else {
            number - &shown
        };
        assert!(
            off <= Exact::new(1.into(), 2000.into()),
            "{number} as {shown}"
        );
    }
}

fn zero() -> Exact {
    Exact::from_integer(0.into())
}

fn weighed(measures: &Measures<'_>, amount: &Amount) {
    assert!(
        !amount.parts.is_empty() && amount.parts.iter().all(|(number, _)| *number > zero()),
        "{amount:?}"
    );
    let words = amount.words(measures);
    // What is longer than an amount or a number may be cannot be read back.
    let digits = |(number, _): &(Exact, _)| number.denom().to_string().len();
    let short = amount.parts.iter().all(|part| digits(part) <= 9) || words.contains('.');
    if short && words.chars().count() <= 64 {
        assert_eq!(measures.amount(&words).as_ref(), Ok(amount), "{words}");
    }
    if let Some(han) = amount.han(measures).filter(|han| han.chars().count() <= 64) {
        assert_eq!(measures.amount(&han).as_ref(), Ok(amount), "{han}");
    }
    for period in measures.periods() {
        let Ok(weighed) = measures.weigh(period, std::slice::from_ref(amount)) else {
            assert!(measures.fits(period, amount).is_err());
            continue;
        };
        for one in &weighed.opinions {
            for span in one.each.iter().flatten().chain([&one.total]) {
                assert!(
                    zero() < span.least && span.least <= span.value && span.value <= span.greatest,
                    "{span:?}"
                );
            }
        }
        if let Some(range) = weighed.range(0) {
            assert!(range.least <= range.greatest);
            assert_eq!(
                weighed.total(amount.quantity),
                Some(range),
                "one amount is the whole"
            );
        }
    }
}

fn shares(measures: &Measures<'_>, formula: &Formula) {
    for period in formula.periods(measures) {
        let Some(scaled) = formula.shares(measures, period) else {
            continue;
        };
        let weights = formula
            .herbs
            .iter()
            .filter(|part| part.amount.quantity == Quantity::Weight)
            .count();
        let parts: Vec<&Exact> = scaled.shares.iter().flatten().collect();
        assert_eq!(parts.len(), weights);
        let sum = parts.iter().fold(zero(), |sum, share| sum + *share);
        assert!(
            parts.is_empty() || sum == Exact::from_integer(1.into()),
            "{sum}"
        );
        assert!(parts.iter().all(|share| **share > zero()));
    }
    let grams = Exact::from_integer(9.into());
    if let Ok(scaled) = formula.scaled(measures, &grams) {
        assert_eq!(scaled.iter().fold(zero(), |sum, one| sum + one), grams);
    }
}
