//! Nothing may carry itself and no work may draw on itself, however many steps lie between.

use std::collections::HashSet;

use super::Context;
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    through(context, findings);
    draws_on(context, findings);
}

fn through(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (herb, pen) in context.own_herbs() {
        for (n, entry) in herb.entries.iter().enumerate() {
            for (m, saying) in entry.sayings.iter().enumerate() {
                let by = saying.by.as_ref().unwrap_or(&entry.work);
                let mut seen = HashSet::from([by, &entry.work]);
                for (k, carrier) in saying.through.iter().enumerate() {
                    if !seen.insert(carrier) {
                        let pointer = format!("/entries/{n}/sayings/{m}/through/{k}");
                        let found = format!("`{carrier}`, named before in this chain");
                        findings.push(pen.at(
                            &pointer,
                            Code::ThroughCycle,
                            found,
                            "works between `by` and the entry's",
                        ));
                    }
                }
            }
        }
    }
}

fn draws_on(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (work, pen) in context.own_works() {
        for (n, debt) in work.draws_on.iter().enumerate() {
            if reaches(context, &debt.work, &work.id) {
                let found = format!("`{}`, which draws on `{}`", debt.work, work.id);
                let pointer = format!("/draws_on/{n}/work");
                findings.push(pen.at(
                    &pointer,
                    Code::DrawsOnCycle,
                    found,
                    "debts that lead to older works only",
                ));
            }
        }
    }
}

/// Whether `from` is `target` or draws on it, directly or through others.
fn reaches(context: &Context<'_>, from: &str, target: &str) -> bool {
    let mut seen = HashSet::new();
    let mut open = vec![from];
    while let Some(id) = open.pop() {
        if id == target {
            return true;
        }
        if seen.insert(id) {
            let debts = context.work(id).into_iter().flat_map(|work| &work.draws_on);
            open.extend(debts.map(|debt| debt.work.as_str()));
        }
    }
    false
}
