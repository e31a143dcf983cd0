//! One facet of one herb as an entry of the apparatus.

use super::Export;
use super::xml::Xml;
use crate::claim::{Facet, ValueId};
use crate::compare::{self, FacetView, SideLabel, Statement, Witness};
use crate::corpus::{Herb, WorkId};
use crate::report::view::{Labels, StatementView, saying_ids};

/// Writes the entry; nothing where no work speaks of the facet.
pub(super) fn facet(export: &Export<'_, '_>, herb: &Herb, facet: Facet, xml: &mut Xml) {
    let view = compare::view(export.labels.corpus, herb, facet, &export.selection);
    if view.all().next().is_none() {
        return;
    }
    let entry = Entry {
        labels: export.labels,
        herb,
        facet,
        ids: saying_ids(export.labels, herb),
    };
    xml.open(
        "ab",
        &[
            ("type", "facet".to_owned()),
            ("subtype", facet.name().to_owned()),
        ],
    );
    let kind = if facet == Facet::Action {
        "open"
    } else {
        "stands"
    };
    let id = format!("app.{}.{facet}", herb.id);
    xml.open("app", &[("type", kind.to_owned()), ("xml:id", id)]);
    entry.readings(export, &view, xml);
    for Witness {
        work, statements, ..
    } in view.all()
    {
        for statement in statements {
            entry.detail(*work, statement, xml);
        }
    }
    if !view.silent.is_empty() && facet != Facet::Action {
        xml.open("note", &[("type", "silent".to_owned())]);
        xml.empty("ptr", &[("target", entry.pointers(&view.silent))]);
        xml.close("note");
    }
    xml.close("app");
    xml.close("ab");
}

struct Entry<'e, 'c> {
    labels: &'e Labels<'c>,
    herb: &'e Herb,
    facet: Facet,
    /// The ids of the sayings, by their places.
    ids: Vec<Vec<String>>,
}

impl Entry<'_, '_> {
    /// The stands that works take, each with the works that take it; of actions, each action with those that state it.
    fn readings(&self, export: &Export<'_, '_>, view: &FacetView, xml: &mut Xml) {
        if self.facet == Facet::Action {
            let concepts = compare::concepts(export.labels.corpus, view);
            for concept in concepts.iter().filter(|one| !one.witnesses.is_empty()) {
                self.reading("rdg", "open", &concept.witnesses, &[concept.value], xml);
            }
        } else {
            let groups = compare::by_stand(&view.witnesses);
            let unanimous = groups.len() == 1 && view.witnesses.len() > 1;
            let name = if unanimous { "lem" } else { "rdg" };
            for group in &groups {
                if let SideLabel::Values(values) = &group.label {
                    self.reading(name, "", &group.witnesses, values, xml);
                }
            }
        }
        for witness in &view.of_scope {
            self.reading("rdg", "scope", &[witness.work], &witness.values, xml);
        }
    }

    fn reading(&self, name: &str, kind: &str, works: &[WorkId], values: &[ValueId], xml: &mut Xml) {
        let values: Vec<_> = values
            .iter()
            .map(|value| self.labels.value(self.facet, *value))
            .collect();
        let meanings = values
            .iter()
            .map(|value| format!("#{}.{}", self.facet, value.id));
        let attributes = [
            ("wit", self.pointers(works)),
            ("ana", meanings.collect::<Vec<_>>().join(" ")),
            ("type", kind.to_owned()),
            ("xml:lang", "zh".to_owned()),
        ];
        let words: Vec<&str> = values.iter().map(|value| value.han.as_str()).collect();
        xml.with(name, &attributes, &words.join("、"));
    }

    /// What stands behind a reading.
    fn detail(&self, work: WorkId, statement: &Statement, xml: &mut Xml) {
        let view = StatementView::new(self.labels, self.herb, self.facet, statement);
        let (entry, saying) = statement.evidence;
        let kind = match (view.doubt.is_some(), view.counted) {
            (true, _) => "doubtful",
            (false, true) => "counted",
            (false, false) => "not-counted",
        };
        let attributes = [
            ("wit", self.pointers(&[work])),
            ("source", self.pointers(&statement.carriers)),
            ("n", format!("{}/{}", self.ids[entry][saying], self.facet)),
            ("type", kind.to_owned()),
        ];
        xml.open("witDetail", &attributes);
        xml.with("gloss", &[("xml:lang", "en".to_owned())], &view.text);
        if let Some(wording) = &view.wording {
            let attributes = [
                ("type", "wording".to_owned()),
                ("xml:lang", "zh".to_owned()),
            ];
            xml.with("seg", &attributes, wording);
        }
        if let Some(scope) = &view.scope {
            xml.with("note", &[("type", "scope".to_owned())], scope);
        }
        if let Some(doubt) = &view.doubt {
            xml.with("note", &[("type", "doubt".to_owned())], doubt);
        }
        if let Some(at) = &view.at {
            let section = at.section.iter().map(String::as_str);
            let place: Vec<&str> = section.chain([at.heading.as_str()]).collect();
            let number = at
                .ordinal
                .map_or_else(String::new, |ordinal| ordinal.to_string());
            let attributes = [("type", "place".to_owned()), ("n", number)];
            xml.with("seg", &attributes, &place.join(" "));
        }
        xml.close("witDetail");
    }

    fn pointers(&self, works: &[WorkId]) -> String {
        let pointer = |work: &WorkId| format!("#work.{}", self.labels.corpus.work(*work).id);
        works.iter().map(pointer).collect::<Vec<_>>().join(" ")
    }
}
