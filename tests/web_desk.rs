//! The reading room: disputes, works, pairing, weights, the notebook, panels, and what can be saved.

use std::fs;
use std::path::Path;

use pretty_assertions::assert_eq;

use crate::support::{kaoyi, root, text};
use crate::web_client::{Answer, RoomOpen};

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
            chinese.contains("不開處方") && chinese.contains("<html lang=\"zh-Hant\""),
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
    assert_eq!(page.status, 400);
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
    for address in [
        "/pair?amount=3",
        "/pair?herb=薄荷&amount=3&slight=0",
        "/weigh?what=many",
        "/weigh?what=3 liang&period=nowhere",
        "/disputes?kind=odd",
        "/disputes?top=x",
    ] {
        assert_eq!(room.get(address).status, 400, "{address}");
    }
}

/// A room with a notebook of its own that is empty.
fn own_room(folder: &Path) -> RoomOpen {
    RoomOpen::with(&["--notebook", text(folder)])
}

/// A tasting as the form sends it.
const CUP: &str =
    "herb=薄荷&taster=A&date=2026-03-14&amount=3&acrid=6.5&warmth=-2&words=cool, then sharp";

fn files(folder: &Path) -> usize {
    fs::read_dir(folder).unwrap().count()
}

#[test]
fn a_tasting_is_noted_by_the_form_as_by_the_command() {
    let folder = tempfile::tempdir().unwrap();
    let room = own_room(folder.path());
    let written = room.post("/taste/add", CUP);
    assert_eq!(written.status, 303, "{}", written.text());
    let place = written.head("location").unwrap().to_owned();
    assert!(room.get(&place).text().contains("Written."));
    let other = tempfile::tempdir().unwrap();
    let score = [
        "--score",
        "acrid=6.5",
        "--warmth",
        "-2",
        "--words",
        "cool, then sharp",
    ];
    let fields = [
        "taste",
        "add",
        "薄荷",
        "--taster",
        "A",
        "--date",
        "2026-03-14",
        "--amount",
        "3",
    ];
    kaoyi(&[&fields[..], &score, &["--notebook", text(other.path())]].concat());
    let record = |folder: &Path| {
        let file = fs::read_dir(folder).unwrap().next().unwrap().unwrap();
        fs::read_to_string(file.path()).unwrap()
    };
    assert_eq!(record(folder.path()), record(other.path()));
    // The same again is refused; a further cup is not.
    assert_eq!(room.post("/taste/add", CUP).status, 400);
    assert_eq!(room.post("/taste/add", &format!("{CUP}&cup=2")).status, 303);
    assert_eq!(files(folder.path()), 2);
}

#[test]
fn the_form_refuses_what_the_command_refuses_and_writes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let room = own_room(folder.path());
    let toxic = room.post("/taste/add", "herb=附子&date=2026-03-14&acrid=6");
    assert_eq!(toxic.status, 403);
    assert!(
        toxic.text().contains("is never tasted to learn it")
            && toxic.text().contains("name=\"despite\"")
    );
    let faulty = room.post("/taste/add", "herb=薄荷&acrid=11&warmth=9");
    assert_eq!(faulty.status, 400);
    assert!(
        faulty.text().contains("2 faults") && faulty.text().contains("value=\"11\""),
        "{}",
        faulty.text()
    );
    for form in ["herb=薄荷", "acrid=3", "herb=no-such-herb&acrid=3"] {
        assert_eq!(room.post("/taste/add", form).status, 400, "{form}");
    }
    assert_eq!(files(folder.path()), 0);
}

#[test]
fn a_form_of_another_site_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let room = own_room(folder.path());
    let origin = room.origin();
    let token = room.token("/taste/add");
    let send = |heads: &[(&str, &str)], token: &str| {
        room.send(
            "POST",
            "/taste/add",
            heads,
            &format!("{}&token={token}", crate::web_client::encoded(CUP)),
        )
    };
    for (heads, with) in [
        (vec![("Origin", "http://elsewhere.example")], token.as_str()),
        (vec![("Origin", "null")], token.as_str()),
        (
            vec![
                ("Origin", origin.as_str()),
                ("Sec-Fetch-Site", "cross-site"),
            ],
            token.as_str(),
        ),
        (vec![], token.as_str()),
        (vec![("Origin", origin.as_str())], "0"),
        (vec![("Origin", origin.as_str())], ""),
    ] {
        let answer = send(&heads, with);
        assert_eq!(answer.status, 403, "{heads:?} {with}");
    }
    assert_eq!(files(folder.path()), 0);
}

#[test]
fn what_others_can_ask_is_read_only_and_tells_no_folders() {
    let folder = tempfile::tempdir().unwrap();
    let named = folder.path().join("circle");
    fs::create_dir(&named).unwrap();
    let room = RoomOpen::with(&[
        "--notebook",
        text(&named),
        "--listen",
        "0.0.0.0",
        "--let-others-read",
    ]);
    assert_eq!(room.get("/taste/add").status, 403);
    let heads = [
        ("Origin", room.origin()),
        (
            "Content-Type",
            "application/x-www-form-urlencoded".to_owned(),
        ),
    ];
    let heads: Vec<(&str, &str)> = heads
        .iter()
        .map(|(name, value)| (*name, value.as_str()))
        .collect();
    assert_eq!(
        room.send("POST", "/taste/add", &heads, "herb=bohe&acrid=3")
            .status,
        403
    );
    assert_eq!(room.get("/api/taste").json()["notebook"], "circle");
    assert!(!room.get("/taste").text().contains(text(folder.path())));
}

/// A table as a form sends it.
fn upload(room: &RoomOpen, address: &str, name: &str, table: &[u8], herb: &str) -> Answer {
    let token = room.token("/taste/panel");
    let mut body = format!(
        "--x\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n{token}\r\n--x\r\nContent-Disposition: form-data; name=\"herb\"\r\n\r\n{herb}\r\n\
         --x\r\nContent-Disposition: form-data; name=\"table\"; filename=\"{name}\"\r\nContent-Type: text/csv\r\n\r\n"
    )
    .into_bytes();
    body.extend_from_slice(table);
    body.extend_from_slice(b"\r\n--x--\r\n");
    let origin = room.origin();
    let heads = [
        ("Origin", origin.as_str()),
        ("Content-Type", "multipart/form-data; boundary=x"),
    ];
    room.send_bytes("POST", address, &heads, &body)
}

#[test]
fn a_panel_is_read_from_the_table_that_was_sent() {
    let room = room();
    let path = root().join("docs/examples/class/scores.csv");
    let table = fs::read(&path).unwrap();
    let sent = upload(&room, "/api/taste/panel", "scores.csv", &table, "薄荷");
    let told = kaoyi(&["taste", "panel", text(&path), "--herb", "薄荷", "--json"]).json();
    assert_eq!(sent.json(), told);
    let page = upload(&room, "/taste/panel", "scores.csv", &table, "薄荷");
    assert!(
        page.status == 200 && page.text().contains("id=\"tasters\""),
        "{}",
        page.text()
    );
    // Faults are told with their places, under the name of the file and no path.
    let faulty = upload(
        &room,
        "/taste/panel",
        "../../etc/class.csv",
        b"herb,taster,date,acrid\nbohe,A,2026-03-14,65\n",
        "",
    )
    .text();
    assert!(
        faulty.contains(":2:19") && faulty.contains("`65`"),
        "{faulty}"
    );
    let large = vec![b'x'; 1_200_000];
    assert_eq!(
        upload(&room, "/taste/panel", "large.csv", &large, "").status,
        413
    );
    assert_eq!(
        upload(&room, "/taste/panel", "odd.csv", b"herb,taster\xff\n", "").status,
        400
    );
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

#[test]
fn words_of_a_notebook_are_text_and_no_markup() {
    let folder = tempfile::tempdir().unwrap();
    let record = "herb: bohe\ndate: 2026-03-14\ntaster: \"<script>alert(1)</script>\"\nwords: \"<b>cool</b>\"\n";
    fs::write(folder.path().join("cup.yaml"), record).unwrap();
    fs::write(
        folder.path().join("<i>.yaml"),
        "herb: bohe\ndate: <u>soon</u>\n",
    )
    .unwrap();
    let room = own_room(folder.path());
    for address in [
        "/taste",
        "/taste/note/cup",
        "/taste/add",
        "/taste/against/bohe",
    ] {
        let page = room.get(address).text();
        for bad in ["<script>alert", "<b>cool", "<u>soon", "<i>.yaml"] {
            assert!(!page.contains(bad), "{address}: {bad}");
        }
    }
    // What was written meanwhile is there when the page is loaded again.
    fs::write(
        folder.path().join("later.yaml"),
        "herb: juhua\ndate: 2026-03-15\nscores: {flavours: {sweet: 4}}\n",
    )
    .unwrap();
    assert_eq!(room.get("/api/taste").json()["total"], 2);
}
