//! The reading room: disputes, works, pairing, weights, tastings, and what can be saved.

use pretty_assertions::assert_eq;

use crate::support::{kaoyi, root, text};
use crate::web_client::RoomOpen;

/// The invented notebook and class of the guide.
fn notebook() -> String {
    text(&root().join("docs/examples/notebook")).to_owned()
}

fn room() -> RoomOpen {
    RoomOpen::with(&["--notebook", &notebook()])
}

/// Addresses of pages, each with the command that writes the same JSON.
const TWINS: &[(&str, &[&str])] = &[
    ("/disputes", &["disputes"]),
    (
        "/disputes?facet=nature&kind=crossing&top=7&since=300&until=1700",
        &[
            "disputes", "--facet", "nature", "--kind", "crossing", "--top", "7", "--since", "300",
            "--until", "1700",
        ],
    ),
    (
        "/disputes?jaccard=yes&witnesses=8&script=hans",
        &[
            "disputes",
            "--jaccard",
            "--witnesses",
            "8",
            "--script",
            "hans",
        ],
    ),
    ("/works", &["works"]),
    ("/works/bencao-gangmu", &["works", "本草綱目"]),
    ("/affinity", &["affinity"]),
    (
        "/affinity?work=bencao-congxin&facet=nature&shared=10",
        &[
            "affinity",
            "本草從新",
            "--facet",
            "nature",
            "--shared",
            "10",
        ],
    ),
    (
        "/explain/huangqin?until=700",
        &["explain", "黃芩", "--until", "700"],
    ),
    (
        "/pair?herb=薄荷&amount=3&herb=菊花&amount=6",
        &["pair", "薄荷=3g", "菊花=6g"],
    ),
    (
        "/pair?herb=乾薑=2&herb=甘草=1&aim=sweet>acrid&count=lines",
        &[
            "pair",
            "乾薑",
            "甘草",
            "--parts",
            "2:1",
            "--aim",
            "sweet>acrid",
            "--count",
            "lines",
        ],
    ),
    (
        "/pair?herb=炙甘草&amount=2&unit=liang&period=han",
        &["pair", "炙甘草=2 liang", "--period", "han"],
    ),
    (
        "/pair?herb=薄荷&amount=1&unit=parts&strength=薄荷=2&slight=0.4",
        &["pair", "薄荷=1", "--strength", "薄荷=2", "--slight", "0.4"],
    ),
    ("/weigh?what=3 liang", &["weigh", "3 liang"]),
    (
        "/weigh?what=芍藥=四兩、甘草=四兩&period=han&daily=9",
        &[
            "weigh",
            "芍藥=四兩",
            "甘草=四兩",
            "--period",
            "han",
            "--daily",
            "9",
        ],
    ),
];

/// The same of the notebook.
const OF_NOTEBOOK: &[(&str, &[&str])] = &[
    ("/taste", &["taste", "list"]),
    (
        "/taste?herb=薄荷&taster=A&top=2",
        &["taste", "list", "薄荷", "--taster", "A", "--top", "2"],
    ),
    ("/taste/against/bohe", &["taste", "against", "bohe"]),
    (
        "/pair?herb=薄荷&amount=3&tasted=yes&taster=A",
        &["pair", "薄荷=3g", "--tasted", "--taster", "A"],
    ),
];

#[test]
fn the_json_of_a_page_is_that_of_its_command() {
    let (room, notebook) = (room(), notebook());
    for (address, command) in TWINS {
        let told = kaoyi(&[command, &["--json"][..]].concat());
        assert_eq!(
            room.get(&format!("/api{address}")).json(),
            told.json(),
            "{address}"
        );
    }
    for (address, command) in OF_NOTEBOOK {
        let told = kaoyi(&[command, &["--json", "--notebook", &notebook][..]].concat());
        assert_eq!(
            room.get(&format!("/api{address}")).json(),
            told.json(),
            "{address}"
        );
    }
}

#[test]
fn every_page_tells_what_kaoyi_does_not_do() {
    let room = room();
    let all = TWINS.iter().chain(OF_NOTEBOOK).map(|(address, _)| *address);
    for address in all.chain(["/pair", "/weigh", "/taste/add", "/taste/panel"]) {
        let page = room.get(address);
        assert_eq!(page.status, 200, "{address}");
        let body = page.text();
        assert_eq!(body.matches("<h1").count(), 1, "{address}");
        assert!(body.contains("prescribes nothing"), "{address}");
        assert!(
            !body.contains(" style="),
            "{address}: the policy allows no style in a page"
        );
        let chinese = room
            .get(&format!(
                "{address}{}lang=zh",
                if address.contains('?') { "&" } else { "?" }
            ))
            .text();
        assert!(
            chinese.contains("考異") && chinese.contains("<html lang=\"zh-Han"),
            "{address}"
        );
    }
}

#[test]
fn other_names_lead_to_the_id() {
    let room = room();
    for (address, place) in [
        ("/works/本草綱目", "/works/bencao-gangmu"),
        ("/api/works/本草綱目", "/api/works/bencao-gangmu"),
        ("/explain/薄荷?until=700", "/explain/bohe?until=700"),
        ("/affinity?work=本草從新", "/affinity?work=bencao-congxin"),
        ("/handout/菊花", "/handout/juhua"),
    ] {
        let answer = room.get(address);
        assert_eq!(
            (answer.status, answer.head("location")),
            (303, Some(place)),
            "{address}"
        );
    }
    for address in [
        "/works/no-such-work",
        "/explain/no-such-herb",
        "/taste/note/no-such-note",
        "/chart/bohe/no-such-drawing",
    ] {
        assert_eq!(room.get(address).status, 404, "{address}");
        // No path of a request reaches a file.
        assert_eq!(room.get("/taste/note/..%2F..%2FREADME").status, 404);
    }
}

#[test]
fn what_must_not_be_overlooked_stays_in_view() {
    let room = room();
    let page = room
        .get("/pair?herb=甘草&amount=3&unit=liang&period=han&herb=甘遂&amount=2")
        .text();
    let strip = page.split("<aside class=\"strip\"").nth(1).unwrap();
    assert!(
        strip.contains("must not meet") && strip.contains("far beyond what is given in a day"),
        "{strip}"
    );
    // The whole of it stands before the figures.
    let place = |words: &str| page.find(words).unwrap_or_else(|| panic!("{words}"));
    assert!(place("id=\"cautions\"") < place("id=\"members\""));
    let weighed = room
        .get("/weigh?what=附子=一兩,半夏=一兩&period=han")
        .text();
    assert!(
        weighed
            .split("<aside class=\"strip\"")
            .nth(1)
            .is_some_and(|strip| strip.contains("must not meet"))
    );
}

#[test]
fn what_is_wrong_with_a_formula_is_told_at_once_beside_the_form() {
    let room = room();
    let page = room.get("/pair?herb=薄禾&amount=3&herb=菊花&amount=-2");
    let body = page.text();
    assert_eq!(page.status, 422);
    assert!(
        body.contains("2 faults") && body.contains("number above 0"),
        "{body}"
    );
    assert!(
        body.contains("value=\"薄禾\"") && body.contains("value=\"-2\""),
        "what was typed stays"
    );
    let cli = kaoyi(&["pair", "薄禾=3g", "菊花=-2g", "--json"]);
    let told: serde_json::Value = serde_json::from_str(&cli.err).unwrap();
    assert_eq!(
        room.get("/api/pair?herb=薄禾&amount=3&herb=菊花&amount=-2")
            .json(),
        told
    );
    for (address, status) in [
        ("/pair?amount=3", 422),
        ("/pair?herb=薄荷&amount=3&slight=0", 422),
        ("/weigh?what=many", 422),
        ("/weigh?what=3 liang&period=nowhere", 422),
        ("/disputes?kind=odd", 400),
        ("/disputes?top=x", 400),
    ] {
        assert_eq!(room.get(address).status, status, "{address}");
    }
}

#[test]
fn what_is_saved_is_what_the_commands_write() {
    let room = room();
    let out = |arguments: &[&str]| kaoyi(arguments).out;
    for (address, command, kind, name) in [
        (
            "/handout/bohe/html?ruby=yes",
            &["handout", "bohe", "--ruby"][..],
            "text/html; charset=utf-8",
            "bohe.html",
        ),
        (
            "/handout/bohe/markdown?until=1600",
            &["handout", "bohe", "--format", "md", "--until", "1600"],
            "text/markdown; charset=utf-8",
            "bohe.md",
        ),
        (
            "/lesson/html?facet=nature&top=3",
            &["handout", "--disputes", "nature", "--top", "3"],
            "text/html; charset=utf-8",
            "lesson-nature.html",
        ),
        (
            "/chart/bohe/lines?facet=flavour",
            &["chart", "lines", "bohe", "--facet", "flavour"],
            "image/svg+xml",
            "bohe-lines.svg",
        ),
        (
            "/export/bohe/csv?until=700",
            &["export", "csv", "bohe", "--until", "700"],
            "text/csv; charset=utf-8",
            "bohe.csv",
        ),
    ] {
        let answer = room.get(address);
        assert_eq!(answer.text(), out(command), "{address}");
        assert_eq!(answer.head("content-type"), Some(kind), "{address}");
        let saved = format!("attachment; filename=\"{name}\"");
        assert_eq!(
            answer.head("content-disposition"),
            Some(saved.as_str()),
            "{address}"
        );
    }
    let shown = room.get("/handout/bohe?tasted=yes").text();
    assert!(shown.contains("href=\"/handout.css\"") && !shown.contains("<style>"));
    assert!(shown.contains("Our own tastings"));
    assert_eq!(room.get("/handout.css").status, 200);
}
