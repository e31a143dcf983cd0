//! The pages on herbs: each shows its view, and its JSON is that of the command line.

use std::fs;

use crate::support::{kaoyi, text};
use crate::web_support::{Reading, alone};
use pretty_assertions::{assert_eq, assert_ne};

/// Addresses of JSON with the commands that say the same.
const TWINS: [(&str, &[&str]); 9] = [
    ("/api/herb/bohe", &["compare", "bohe"]),
    (
        "/api/herb/bohe?explain=yes",
        &["compare", "bohe", "--explain"],
    ),
    (
        "/api/herb/juhua?facet=nature&facet=flavour&script=hans",
        &[
            "compare",
            "juhua",
            "--facet",
            "nature,flavour",
            "--script",
            "hans",
        ],
    ),
    (
        "/api/herb/fuzi?since=600&until=1600&works=%E6%9C%AC%E8%8D%89%E7%B6%B1%E7%9B%AE,bencao-jing-jizhu",
        &[
            "compare",
            "fuzi",
            "--since",
            "600",
            "--until",
            "1600",
            "--works",
            "本草綱目,bencao-jing-jizhu",
        ],
    ),
    (
        "/api/herb/bohe/against/juhua",
        &["compare", "bohe", "--against", "juhua"],
    ),
    (
        "/api/find?q=%E8%96%84%E8%8D%B7+%E5%A4%B4%E7%97%9B",
        &["find", "薄荷", "头痛"],
    ),
    (
        "/api/find?flavour=sweet&nature=warm..hot&channel=lung&never=toxic&top=5&skip=3",
        &[
            "find",
            "--flavour",
            "sweet",
            "--nature",
            "warm..hot",
            "--channel",
            "lung",
            "--never",
            "toxic",
            "--top",
            "5",
            "--skip",
            "3",
        ],
    ),
    (
        "/api/find?q=%22huang+qi%22&any=yes&until=700",
        &["find", "huang qi", "--any", "--until", "700"],
    ),
    ("/api/name?name=%E7%94%98%E8%8F%8A", &["name", "甘菊"]),
];

#[test]
fn the_json_of_every_page_is_that_of_the_command() {
    let room = Reading::open(&[]);
    for (address, command) in TWINS {
        let answer = room.get(address);
        assert_eq!(
            answer.head("content-type"),
            Some("application/json; charset=utf-8")
        );
        let run = kaoyi(&[command, &["--json"]].concat());
        assert!(
            answer.body == run.out,
            "{address}: {}",
            answer.body.chars().take(300).collect::<String>()
        );
        // The page of the same query is there and leads to it.
        let page = room.page(address.strip_prefix("/api").unwrap());
        assert!(
            page.contains("rel=\"alternate\" type=\"application/json\""),
            "{address}"
        );
    }
}

/// The words of a page.
fn text_of(page: &str) -> String {
    let piece = |piece: &str| {
        piece
            .split_once('>')
            .map_or(piece.to_owned(), |(_, words)| words.to_owned())
    };
    let words: String = page.split('<').map(piece).collect();
    words
        .replace("&quot;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&")
}

#[test]
fn a_page_shows_its_view_with_cautions_and_working() {
    let room = Reading::open(&[]);
    let page = room.page("/herb/fuzi");
    let view = kaoyi(&["compare", "fuzi", "--json"]).json();
    for caution in view["cautions"].as_array().unwrap() {
        let words = caution["text"].as_str().unwrap();
        assert!(text_of(&page).contains(words), "{words}");
    }
    for id in [
        "cautions",
        "profile",
        "differences",
        "witnesses",
        "figures",
        "lines",
        "actions",
        "relations",
    ] {
        assert!(
            page.contains(&format!("<section id=\"{id}\""))
                || page.contains(&format!("class=\"cautions\" id=\"{id}\"")),
            "{id}"
        );
    }
    // Every witness has its row, every facet its working.
    let rows = view["witnesses"].as_array().unwrap().len();
    let matrix = page
        .split("<table class=\"matrix\">")
        .nth(1)
        .unwrap()
        .split("</table>")
        .next()
        .unwrap();
    assert_eq!(matrix.matches("<tr>").count(), rows + 1);
    let facets = view["profile"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|one| one["witnesses"] != 0);
    assert_eq!(
        page.matches("<details class=\"working\">").count(),
        facets.count()
    );
    assert!(page.contains("<aside class=\"strip\""));
    assert!(page.contains("prescribes nothing"));
}

#[test]
fn a_found_herb_with_grave_cautions_says_so_beside_its_name() {
    let room = Reading::open(&[]);
    let page = room.page("/find?q=%E9%99%84%E5%AD%90&top=3");
    let view = room.get("/api/find?q=%E9%99%84%E5%AD%90&top=3").json();
    let warned = view["cautions"].as_array().unwrap().len();
    assert!(warned > 0);
    assert_eq!(page.matches("href=\"#cautions-head\"").count(), warned);
}

#[test]
fn another_name_leads_to_the_address_of_the_herb_and_keeps_the_query() {
    let room = Reading::open(&[]);
    for (asked, expected) in [
        (
            "/herb/%E8%96%84%E8%8D%B7?since=600&lang=zh",
            "/herb/bohe?since=600&lang=zh",
        ),
        ("/herb/mint", "/herb/bohe"),
        ("/api/herb/%E8%8F%8A%E8%8A%B1", "/api/herb/juhua"),
        (
            "/herb/bohe/against/%E8%8F%8A%E8%8A%B1",
            "/herb/bohe/against/juhua",
        ),
        (
            "/against?one=bohe&other=%E8%8F%8A%E8%8A%B1&script=hans",
            "/herb/bohe/against/juhua?script=hans",
        ),
    ] {
        let answer = room.get(asked);
        assert_eq!(
            (answer.status, answer.head("location")),
            (303, Some(expected)),
            "{asked}"
        );
    }
}

#[test]
fn a_name_that_no_herb_bears_is_answered_with_the_nearest() {
    let room = Reading::open(&[]);
    let answer = room.get("/herb/bohee");
    assert_eq!(answer.status, 404);
    assert!(
        answer.body.contains("href=\"/herb/bohe\""),
        "{}",
        answer.body
    );
    let json = room.get("/api/herb/bohee");
    assert_eq!(
        (json.status, &json.json()["format"]),
        (404, &"kaoyi.error/1".into())
    );
    assert!(
        json.json()["candidates"][0]
            .as_str()
            .unwrap()
            .starts_with("bohe ")
    );
}

#[test]
fn what_an_address_does_not_take_is_refused_all_at_once() {
    let room = Reading::open(&[]);
    let json = room.get("/api/herb/bohe?facett=nature&since=early&script=hanz&until=1&until=2");
    assert_eq!(json.status, 400);
    let told = json.json()["candidates"].as_array().unwrap().clone();
    let told: Vec<&str> = told.iter().map(|one| one.as_str().unwrap()).collect();
    assert_eq!(
        told,
        [
            "`facett` is no parameter here; did you mean `facet`?",
            "`since` is `early`; expected a whole number",
            "`script` is `hanz`; expected one of hant, hans; did you mean `hant`?",
            "`until` is given twice; expected once",
        ]
    );
    // Of the right form, but no nature.
    assert_eq!(room.get("/find?nature=worm").status, 422);
    assert!(
        room.get("/find?nature=worm")
            .body
            .contains("<form class=\"search\""),
        "the form stays"
    );
    assert!(room.page("/find").contains("<form class=\"search\""));
}

#[test]
fn language_and_script_are_chosen_by_the_address_and_kept_in_links() {
    let room = Reading::open(&[]);
    let hant = room.page("/herb/juhua?lang=zh");
    assert!(
        hant.contains("<html lang=\"zh-Hant\">")
            && hant.contains("諸家異同")
            && hant.contains("歸經")
    );
    assert!(hant.contains("對菊科植物過敏者可能過敏") && hant.contains("憑記憶"));
    let hans = room.page("/herb/juhua?lang=zh&script=hans");
    assert!(
        hans.contains("<html lang=\"zh-Hans\">")
            && hans.contains("诸家异同")
            && hans.contains("归经")
    );
    assert!(hans.contains("href=\"/works/bencao-gangmu?lang=zh&amp;script=hans\""));
    // The switch of one keeps the other.
    assert!(
        hans.contains("href=\"/herb/juhua?script=hans\"")
            && hans.contains("href=\"/herb/juhua?lang=zh&amp;script=hant\"")
    );
    let english = room.page("/herb/juhua");
    assert!(
        english.contains("<html lang=\"en\">")
            && english.contains("Where the books agree and differ")
    );
    let pinyin = room.page("/herb/juhua?pinyin=yes");
    assert!(pinyin.contains("<rt lang=\"zh-Latn-pinyin\">Běncǎo gāngmù</rt>"));
    assert!(!english.contains("<rt "));
}

#[test]
fn the_description_holds_every_address_and_its_schemas_hold_the_answers() {
    let room = Reading::open(&[]);
    let description = room.get("/api/openapi.json").json();
    assert_eq!(description["openapi"], "3.1.0");
    let paths = description["paths"].as_object().unwrap();
    for path in [
        "/",
        "/herb/{id}",
        "/api/herb/{id}",
        "/api/find",
        "/api/suggest",
        "/api/name",
        "/api/herb/{id}/against/{other}",
        "/api/openapi.json",
    ] {
        assert!(paths.contains_key(path), "{path}");
    }
    for (address, path) in [
        ("/api/herb/bohe?explain=yes", "/api/herb/{id}"),
        (
            "/api/herb/bohe/against/juhua",
            "/api/herb/{id}/against/{other}",
        ),
        ("/api/find?q=%E5%A4%B4%E7%97%9B", "/api/find"),
        ("/api/name?name=mint", "/api/name"),
        ("/api/suggest?q=bo", "/api/suggest"),
    ] {
        let schema = &description["paths"][path]["get"]["responses"]["200"]["content"]["application/json"]
            ["schema"];
        let mut schema = schema.clone();
        schema["components"] = description["components"].clone();
        let validator = jsonschema::validator_for(&schema).unwrap();
        let document = room.get(address).json();
        let faults: Vec<String> = validator
            .iter_errors(&document)
            .map(|error| error.to_string())
            .collect();
        assert!(faults.is_empty(), "{address}: {faults:?}");
    }
}

/// An invented herb whose names and words are those of a page.
const HOSTILE: &str = "id: circle-leaf\nnames: {hant: 例葉, hans: 例叶, pinyin: \"<script>alert(1)</script>\", latin: \"\\\"><img src=x onerror=alert(2)>\", \
    english: \"</title><script>alert(3)</script>\", also: [\"&lt;b&gt;'\\\"\"]}\npart: leaf\nsubstance: plant\nnote: \"<svg onload=alert(4)>\"\n\
    entries:\n  - work: circle-notes\n    at: {ordinal: 1, heading: \"<i>題\"}\n    status: read\n    sayings:\n      \
    - {flavour: [sweet], nature: warm, wording: \"<script>甘溫\", doubt: \"<b>doubt\"}\n";
const NOTES: &str = "id: circle-notes\ntitle: {hant: \"<u>園記\", pinyin: \"<u>yuán jì\", english: \"<u>notes\"}\nauthor: \"<u>the circle\"\n\
    kind: extant\ndate: {from: 1900, to: 1900}\n";

#[test]
fn nothing_that_a_record_says_becomes_a_part_of_the_page() {
    let folder = alone();
    let other = "id: circle-root\nnames: {hant: 例根, hans: 例根, pinyin: \"<b>lì gēn\"}\npart: root\nsubstance: plant\nentries:\n  - work: circle-notes\n    \
                 at: {ordinal: 2, heading: 例根}\n    status: read\n    sayings:\n      - {flavour: [sweet], wording: 甘}\n";
    for (name, words) in [
        ("herbs/circle-leaf.yaml", HOSTILE),
        ("herbs/circle-root.yaml", other),
        ("works/circle-notes.yaml", NOTES),
    ] {
        fs::write(folder.path().join(name), words).unwrap();
    }
    let room = Reading::open(&["--corpus", text(folder.path())]);
    for address in [
        "/herb/circle-leaf",
        "/herb/circle-leaf?pinyin=yes&lang=zh",
        "/herb/circle-leaf/against/circle-root",
        "/find?q=%E7%94%98%E6%BA%AB&herb=circle-leaf",
        "/name?name=%E4%BE%8B%E8%91%89",
        "/?q=%E4%BE%8B%E8%91%89",
        "/name?name=%3Cscript%3Ealert(5)%3C/script%3E",
        "/find?q=%3Cscript%3Ealert(6)%3C/script%3E",
        "/herb/%3Cscript%3Ealert(7)%3C%2Fscript%3E",
        "/herb/circle-leaf?works=%22%3E%3Cscript%3E",
    ] {
        let page = room.get(address).body;
        let scripts = page.matches("<script").count();
        assert_eq!(
            (scripts, page.contains("<script src=\"/script.js\" defer>")),
            (1, true),
            "{address}"
        );
        for tag in ["<img", "<svg onload", "<u>", "<b>", "<i>題"] {
            assert!(!page.contains(tag), "{address}: {tag}");
        }
    }
    assert!(
        room.page("/herb/circle-leaf")
            .contains("&lt;script&gt;alert(1)&lt;/script&gt;")
    );
}

#[test]
fn the_own_tastings_stand_beside_the_books_as_on_the_command_line() {
    let notebook = "docs/examples/notebook";
    let room = Reading::open(&["--notebook", notebook]);
    let run = kaoyi(&["compare", "bohe", "--notebook", notebook, "--json"]);
    assert_eq!(room.get("/api/herb/bohe").body, run.out);
    let page = room.page("/herb/bohe");
    assert!(page.contains("<section id=\"own\""));
    assert_ne!(page, Reading::open(&[]).page("/herb/bohe"));
}

#[test]
fn an_address_that_others_can_ask_needs_the_flag_that_says_so() {
    let run = kaoyi(&["serve", "--port", "0", "--listen", "0.0.0.0"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("--let-others-read"), "{}", run.err);
    let run = kaoyi(&["serve", "--port", "0", "--notebook", "no-such-folder"]);
    assert_eq!(run.code, 2);
}
