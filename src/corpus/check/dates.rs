//! A work can only carry, or draw on, what was there before it was finished.

use super::Context;
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::record::WorkRecord;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (work, pen) in context.own_works() {
        if let Some(from) = work.date.from.filter(|from| *from > work.date.to) {
            let found = format!("from {from} to {}", work.date.to);
            findings.push(pen.at_key(
                "/date",
                "to",
                Code::DateOrder,
                found,
                "a year not before `from`",
            ));
        }
        for (n, debt) in work.draws_on.iter().enumerate() {
            if let Some(source) = context
                .work(&debt.work)
                .filter(|source| later(source, work))
            {
                let pointer = format!("/draws_on/{n}/work");
                findings.push(pen.at(
                    &pointer,
                    Code::CarrierOlder,
                    younger(source, work),
                    "an older work",
                ));
            }
        }
    }
    for (herb, pen) in context.own_herbs() {
        for (n, entry) in herb.entries.iter().enumerate() {
            for (m, saying) in entry.sayings.iter().enumerate() {
                let pointer = format!("/entries/{n}/sayings/{m}");
                let by = saying.by.as_ref().map(|by| (format!("{pointer}/by"), by));
                let through = saying.through.iter().enumerate();
                let mut chain: Vec<(String, &String)> = by.into_iter().collect();
                chain.extend(through.map(|(k, work)| (format!("{pointer}/through/{k}"), work)));
                chain.push((String::new(), &entry.work));
                for pair in chain.windows(2) {
                    let (Some(carried), Some(carrier)) =
                        (context.work(pair[0].1), context.work(pair[1].1))
                    else {
                        continue;
                    };
                    if too_young(carried, carrier) {
                        let found = younger(carried, carrier);
                        let expected = "a work that was there when the carrier was written";
                        findings.push(pen.at(&pair[0].0, Code::CarrierOlder, found, expected));
                    }
                }
            }
        }
    }
}

/// Whether `carried` was begun after `carrier` was finished. Of a work of which only "not later than" is
/// known that cannot be said.
fn too_young(carried: &WorkRecord, carrier: &WorkRecord) -> bool {
    carried.date.from.is_some_and(|from| from > carrier.date.to) && carried.id != carrier.id
}

/// Whether `source` is dated after `work`, in the order by which lines are drawn.
fn later(source: &WorkRecord, work: &WorkRecord) -> bool {
    (source.date.to, source.date.from) > (work.date.to, work.date.from)
}

fn younger(carried: &WorkRecord, carrier: &WorkRecord) -> String {
    let date = |work: &WorkRecord| match work.date.from {
        Some(from) => format!("{from} to {}", work.date.to),
        None => format!("by {}", work.date.to),
    };
    format!(
        "`{}` ({}), younger than `{}` ({})",
        carried.id,
        date(carried),
        carrier.id,
        date(carrier)
    )
}
