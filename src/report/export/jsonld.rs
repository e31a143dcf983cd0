//! Claims and works as JSON-LD with PROV-O: who asserts what, and through whom it is known.
//!
//! A claim is an entity, attributed to the work that asserts it, quoted from the work in which it was read, and derived from
//! the works that carried it before. A work is an entity and, as the voice that asserts, an agent; where its authors are
//! known it is attributed to them. The program's own terms have URNs, and the context stands in the file: nothing is looked
//! up on a network.

use std::collections::BTreeSet;
use std::io::Write;

use serde_json::{Value, json};

use super::{Export, ExportError, word};
use crate::report::view::{ClaimView, HeedView, HerbView, NOTICE, WorkEntry};

pub(super) fn write(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let about = export.about;
    write!(to, "{{\"@context\":{},\n\"@graph\":[\n", context())?;
    let mut corpus = json!({
        "@id": format!("urn:x-kaoyi:content:{}", about.key), "@type": ["prov:Entity", "prov:Collection"],
        "title": {"@value": about.title, "@language": "en"}, "version": about.version,
        "description": {"@value": format!("{} {NOTICE}", about.citation), "@language": "en"},
        "license": ["https://opensource.org/licenses/MIT", "https://www.apache.org/licenses/LICENSE-2.0"],
    });
    if let Some(date) = &about.date {
        corpus["issued"] = json!(date);
    }
    // The first node needs no comma before it.
    serde_json::to_writer(&mut *to, &corpus)?;
    let works = export.works()?;
    let authors: BTreeSet<&str> = works.iter().flat_map(WorkEntry::authors).collect();
    for author in authors {
        node(
            to,
            &json!({"@id": author_id(author), "@type": ["prov:Agent", "prov:Person"], "label": author}),
        )?;
    }
    for one in &works {
        node(to, &work(one))?;
    }
    export.each(|claims, id| {
        let record = export.labels.corpus.herb(id)?;
        node(
            to,
            &herb(
                &HerbView::new(export.labels, record),
                &HeedView::new(export.labels, record),
            ),
        )?;
        for one in claims.all(&export.selection) {
            node(to, &claim(&one))?;
        }
        Ok(())
    })?;
    Ok(to.write_all(b"\n]}\n")?)
}

fn node(to: &mut dyn Write, node: &Value) -> Result<(), ExportError> {
    to.write_all(b",\n")?;
    Ok(serde_json::to_writer(to, node)?)
}

fn context() -> Value {
    let own = |term: &str| format!("urn:x-kaoyi:term:{term}");
    let reference = |term: &str| json!({"@id": term, "@type": "@id"});
    let typed = |term: &str, kind: &str| json!({"@id": term, "@type": format!("http://www.w3.org/2001/XMLSchema#{kind}")});
    json!({
        "prov": "http://www.w3.org/ns/prov#",
        "title": "http://purl.org/dc/terms/title",
        "description": "http://purl.org/dc/terms/description",
        "license": reference("http://purl.org/dc/terms/license"),
        "issued": typed("http://purl.org/dc/terms/issued", "date"),
        "label": "http://www.w3.org/2000/01/rdf-schema#label",
        "comment": "http://www.w3.org/2000/01/rdf-schema#comment",
        "value": "http://www.w3.org/1999/02/22-rdf-syntax-ns#value",
        "attributedTo": reference("prov:wasAttributedTo"),
        "quotedFrom": reference("prov:wasQuotedFrom"),
        "derivedFrom": reference("prov:wasDerivedFrom"),
        "Claim": own("Claim"), "Work": own("Work"), "Herb": own("Herb"),
        "version": own("version"), "date": own("date"), "author": own("author"), "wayDown": own("wayDown"),
        "notBefore": typed(&own("notBefore"), "integer"), "notAfter": typed(&own("notAfter"), "integer"),
        "circa": typed(&own("circa"), "boolean"),
        "about": reference(&own("about")), "facet": reference(&own("facet")), "states": reference(&own("states")),
        "degree": reference(&own("degree")), "part": reference(&own("part")), "preparation": reference(&own("preparation")),
        "ofKind": own("ofKind"), "wording": own("wording"), "doubt": own("doubt"), "section": own("section"),
        "heading": own("heading"), "ordinal": typed(&own("ordinal"), "integer"), "status": own("status"),
        "counted": typed(&own("counted"), "boolean"), "caution": own("caution"), "pharmaceuticalName": own("pharmaceuticalName"),
        "through": {"@id": own("through"), "@type": "@id", "@container": "@list"},
    })
}

fn work_id(id: &str) -> String {
    format!("urn:x-kaoyi:work:{id}")
}

/// The URN of an author: letters and digits as they are, everything else as its number.
fn author_id(name: &str) -> String {
    let sign = |sign: char| match sign {
        ' ' => "-".to_owned(),
        sign if sign.is_ascii_alphanumeric() => sign.to_ascii_lowercase().to_string(),
        other => {
            let mut bytes = [0; 4];
            let bytes = other.encode_utf8(&mut bytes).bytes();
            bytes.map(|byte| format!("%{byte:02X}")).collect()
        }
    };
    format!(
        "urn:x-kaoyi:author:{}",
        name.chars().map(sign).collect::<String>()
    )
}

fn work(work: &WorkEntry) -> Value {
    let mut node = json!({
        "@id": work_id(&work.id), "@type": ["prov:Entity", "prov:Agent", "Work"],
        "title": [
            {"@value": work.title, "@language": "zh"}, {"@value": work.pinyin, "@language": "zh-Latn-pinyin"},
            {"@value": work.english, "@language": "en"},
        ],
        "author": work.author, "wayDown": word(&work.kind), "date": work.date.words, "notAfter": work.date.to,
        "circa": work.date.about,
    });
    if let Some(from) = work.date.from {
        node["notBefore"] = json!(from);
    }
    let authors: Vec<String> = work.authors().into_iter().map(author_id).collect();
    let debts: Vec<String> = work.draws_on.iter().map(|id| work_id(id)).collect();
    for (key, ids) in [("attributedTo", authors), ("derivedFrom", debts)] {
        if !ids.is_empty() {
            node[key] = json!(ids);
        }
    }
    if let Some(note) = &work.note {
        node["comment"] = json!(note);
    }
    node
}

fn herb(herb: &HerbView, heed: &HeedView) -> Value {
    let mut labels = vec![
        json!({"@value": herb.hant, "@language": "zh-Hant"}),
        json!({"@value": herb.hans, "@language": "zh-Hans"}),
        json!({"@value": herb.pinyin, "@language": "zh-Latn-pinyin"}),
    ];
    labels.extend(
        herb.english
            .iter()
            .map(|name| json!({"@value": name, "@language": "en"})),
    );
    let mut node =
        json!({"@id": format!("urn:x-kaoyi:herb:{}", herb.id), "@type": "Herb", "label": labels});
    if let Some(latin) = &herb.latin {
        node["pharmaceuticalName"] = json!(latin);
    }
    let cautions: Vec<&str> = heed.cautions.iter().map(|one| one.text.as_str()).collect();
    if !cautions.is_empty() {
        node["caution"] = json!(cautions);
    }
    node
}

fn claim(claim: &ClaimView) -> Value {
    let term = |scheme: &str, value: &str| format!("urn:x-kaoyi:value:{scheme}:{value}");
    let mut node = json!({
        "@id": format!("urn:x-kaoyi:claim:{}", claim.claim), "@type": ["prov:Entity", "Claim"],
        "about": format!("urn:x-kaoyi:herb:{}", claim.herb), "facet": format!("urn:x-kaoyi:facet:{}", claim.facet),
        "states": term(claim.facet.name(), &claim.value), "attributedTo": work_id(&claim.by),
        "quotedFrom": work_id(&claim.work), "status": word(&claim.status), "counted": claim.counted,
    });
    if let Some((_, before)) = claim.through.split_last() {
        node["through"] = claim.through.iter().map(|id| work_id(id)).collect();
        if !before.is_empty() {
            node["derivedFrom"] = before.iter().map(|id| work_id(id)).collect();
        }
    }
    let terms = [
        ("degree", &claim.degree),
        ("part", &claim.part),
        ("preparation", &claim.preparation),
    ];
    for (key, value) in terms {
        if let Some(value) = value {
            node[key] = json!(term(key, value));
        }
    }
    let texts = [
        ("ofKind", &claim.kind),
        ("wording", &claim.wording),
        ("doubt", &claim.doubt),
        ("section", &claim.section),
        ("heading", &claim.heading),
    ];
    for (key, text) in texts {
        if let Some(text) = text {
            node[key] = json!(text);
        }
    }
    if let Some(ordinal) = claim.ordinal {
        node["ordinal"] = json!(ordinal);
    }
    node
}
