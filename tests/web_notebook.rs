//! The reading room: the notebook's form and what it refuses, panels that are sent, and what others may ask.

use std::fs;
use std::path::Path;

use pretty_assertions::assert_eq;

use crate::support::{kaoyi, root, text};
use crate::web_client::{Answer, RoomOpen, encoded};

fn room() -> RoomOpen {
    let notebook = root().join("docs/examples/notebook");
    RoomOpen::with(&["--notebook", text(&notebook)])
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
    assert_eq!(room.post("/taste/add", CUP).status, 422);
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
    assert_eq!(faulty.status, 422);
    assert!(
        faulty.text().contains("2 faults") && faulty.text().contains("value=\"11\""),
        "{}",
        faulty.text()
    );
    for form in ["herb=薄荷", "acrid=3", "herb=no-such-herb&acrid=3"] {
        assert_eq!(room.post("/taste/add", form).status, 422, "{form}");
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
            &format!("{}&token={token}", encoded(CUP)),
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
    let large = vec![b'x'; 2_200_000];
    assert_eq!(
        upload(&room, "/taste/panel", "large.csv", &large, "").status,
        413
    );
    assert_eq!(
        upload(&room, "/taste/panel", "odd.csv", b"herb,taster\xff\n", "").status,
        422
    );
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
