//! `kaoyi read`: text to entries, encodings, merging, and input that is no materia medica.

use std::fs;
use std::path::Path;

use crate::support::{kaoyi, root};
use insta::assert_snapshot;
use kaoyi::corpus;
use pretty_assertions::assert_eq;

const GARDEN: &str = "tests/data/reading/garden.txt";

#[test]
fn a_text_becomes_entries_for_review() {
    let run = kaoyi(&["read", GARDEN, "--work", "bencao-gangmu"]);
    assert_snapshot!(run.out, @"
    # 2 薄荷: bohe
    - work: bencao-gangmu
      at: {ordinal: 2, section: 草部, heading: 薄荷}
      status: read
      sayings:
        - {flavour: [acrid, {bitter: slight}], nature: cool, toxicity: none, wording: 味辛、微苦，气凉。无毒}
        - {channel: [lung, liver], wording: 入手太阴、足厥阴经}
        - {action: [promotes-sweating], wording: 发汗}
        - {action: [clears-head], wording: 清头目}
        - {by: mingyi-bielu, flavour: [acrid], nature: warm, wording: 辛，温}
        - {action: [disperses-wind-heat], wording: 能散风热}
    # 3 菊花: juhua
    - work: bencao-gangmu
      at: {ordinal: 3, section: 草部, heading: 菊花}
      status: read
      sayings:
        - {flavour: [sweet, bitter], nature: slight-cold, wording: 甘、苦，微寒}
        - {action: [calms-liver], wording: 平肝}
        - {action: [brightens-eyes], wording: 明目}
        - {nature: neutral, doubt: reported with 一云, wording: 一云性平}
        - {flavour: [acrid], nature: neutral, toxicity: none, scope: {part: leaf}, wording: 辛，平，无毒}
    # 4 园叶草: yuanyecao (new)
    # unread: 味□
    - work: bencao-gangmu
      at: {ordinal: 4, section: 草部, heading: 园葉草}
      status: read
      sayings:
        - {flavour: [sweet], nature: neutral, toxicity: none, wording: 色白味甘，性平而不燥，无毒}
        - {channel: [lung, stomach], wording: 入肺、胃二经}
        - {action: [lightens-body], wording: 久服轻身}
    ");
    assert_snapshot!(run.err, @"
    4 articles, 3 with statements; 14 sayings, 1 of them doubtful; unread clauses: 1
    sayings with flavour 5, nature 6, toxicity 3, grade 0, channel 2, action 6,
    other drugs 0
    ");
}

#[test]
fn every_saying_tells_where_it_stands() {
    let text = fs::read_to_string(root().join(GARDEN)).unwrap();
    let chars: Vec<char> = text.chars().collect();
    let run = kaoyi(&["read", GARDEN, "--work", "bencao-gangmu", "--json"]);
    let mut sayings = 0;
    for line in run.out.lines() {
        let article: serde_json::Value = serde_json::from_str(line).unwrap();
        for saying in article["sayings"].as_array().unwrap() {
            let span: Vec<usize> = serde_json::from_value(saying["span"].clone()).unwrap();
            let phrase: String = chars[span[0]..span[1]]
                .iter()
                .filter(|c| !c.is_whitespace())
                .collect();
            assert_eq!(saying["phrase"], phrase, "{line}");
            sayings += 1;
        }
    }
    assert!(sayings > 8, "{sayings}");
}

#[test]
fn the_encodings_of_old_texts_give_the_same_reading() {
    let folder = tempfile::tempdir().unwrap();
    let text = fs::read_to_string(root().join(GARDEN)).unwrap();
    let utf8 = kaoyi(&["read", GARDEN, "--work", "bencao-gangmu", "--json"]).out;
    let (bytes, _, lossy) = encoding_rs::GB18030.encode(&text);
    assert!(!lossy);
    let path = folder.path().join("gb.txt");
    fs::write(&path, bytes).unwrap();
    let path = path.to_str().unwrap();
    assert_eq!(
        kaoyi(&["read", path, "--work", "bencao-gangmu", "--json"]).out,
        utf8
    );
    let told = kaoyi(&[
        "read",
        path,
        "--work",
        "bencao-gangmu",
        "--json",
        "--encoding",
        "gb18030",
    ]);
    assert_eq!(told.out, utf8);
}

#[test]
fn traditional_characters_in_big5_are_read_too() {
    let folder = tempfile::tempdir().unwrap();
    let text = "# 草部\n## 薄荷\n味辛、微苦，氣涼，無毒。入手太陰、足厥陰經。\n## 菊花\n味甘、苦，性微寒。\n";
    let (bytes, _, lossy) = encoding_rs::BIG5.encode(text);
    assert!(!lossy);
    let path = folder.path().join("big5.txt");
    fs::write(&path, bytes).unwrap();
    let run = kaoyi(&["read", path.to_str().unwrap(), "--work", "bencao-gangmu"]);
    assert!(
        run.out
            .contains("flavour: [acrid, {bitter: slight}], nature: cool, toxicity: none"),
        "{}",
        run.out
    );
    assert!(run.out.contains("channel: [lung, liver]"), "{}", run.out);
    assert!(
        run.out
            .contains("flavour: [sweet, bitter], nature: slight-cold"),
        "{}",
        run.out
    );
}

/// A folder with the work that the example belongs to.
fn garden_corpus(folder: &Path) {
    fs::create_dir_all(folder.join("works")).unwrap();
    let work = "id: garden-lessons\ntitle: {hant: 園課, pinyin: Yuánkè, english: Garden Lessons}\n\
        author: the study circle\nkind: extant\ndate: {to: 1902}\n";
    fs::write(folder.join("works/garden-lessons.yaml"), work).unwrap();
}

fn read_into(folder: &Path) -> crate::support::Run {
    kaoyi(&[
        "read",
        GARDEN,
        "--work",
        "garden-lessons",
        "--into",
        folder.to_str().unwrap(),
    ])
}

#[test]
fn merging_adds_once_and_the_folder_stays_without_fault() {
    let folder = tempfile::tempdir().unwrap();
    garden_corpus(folder.path());
    let first = read_into(folder.path());
    assert!(
        first.out.contains("3 entries added"),
        "{}{}",
        first.out,
        first.err
    );
    let loaded = corpus::load_folder(folder.path()).unwrap();
    assert_eq!(loaded.findings, vec![]);
    let before = fs::read_to_string(folder.path().join("herbs/bohe.yaml")).unwrap();
    let second = read_into(folder.path());
    assert!(
        second.out.contains("0 entries added") && second.out.contains("3 the same"),
        "{}",
        second.out
    );
    assert_eq!(
        fs::read_to_string(folder.path().join("herbs/bohe.yaml")).unwrap(),
        before
    );
}

#[test]
fn a_reviewed_entry_is_kept_and_the_difference_shown() {
    let folder = tempfile::tempdir().unwrap();
    garden_corpus(folder.path());
    read_into(folder.path());
    let path = folder.path().join("herbs/bohe.yaml");
    let text = fs::read_to_string(&path).unwrap();
    let mine = text
        .replace("status: read", "status: reviewed")
        .replace("nature: cool", "nature: cold");
    fs::write(&path, &mine).unwrap();
    let run = read_into(folder.path());
    assert!(run.out.contains("1 reviewed entries differ"), "{}", run.out);
    assert!(run.out.contains("bohe.yaml:3"), "{}", run.out);
    assert_eq!(fs::read_to_string(&path).unwrap(), mine);
}

#[test]
fn an_older_reading_is_replaced_and_comments_before_it_stay() {
    let folder = tempfile::tempdir().unwrap();
    garden_corpus(folder.path());
    read_into(folder.path());
    let path = folder.path().join("herbs/bohe.yaml");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(
        &path,
        format!(
            "# of the garden\n{}",
            text.replace("nature: cool", "nature: cold")
        ),
    )
    .unwrap();
    let run = read_into(folder.path());
    assert!(run.out.contains("1 replaced"), "{}", run.out);
    assert_eq!(
        fs::read_to_string(&path).unwrap(),
        format!("# of the garden\n{text}")
    );
}

#[test]
fn a_file_in_another_style_stops_the_merge_before_anything_is_written() {
    let folder = tempfile::tempdir().unwrap();
    garden_corpus(folder.path());
    fs::create_dir(folder.path().join("herbs")).unwrap();
    let path = folder.path().join("herbs/juhua.yaml");
    let flow = "id: juhua\nentries: [{work: garden-lessons, status: reviewed, sayings: [{flavour: [sweet], wording: 甘}]}]\n";
    fs::write(&path, flow).unwrap();
    let run = read_into(folder.path());
    assert_eq!(run.code, 2);
    assert!(run.err.contains("juhua.yaml:2"), "{}", run.err);
    assert!(!folder.path().join("herbs/bohe.yaml").exists());
    assert_eq!(fs::read_to_string(&path).unwrap(), flow);
}

#[test]
fn what_is_no_materia_medica_gives_no_claims() {
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        fs::write(&path, bytes).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let mut cut = "<篇名>薄荷\n内容：味辛，温。".repeat(20).into_bytes();
    cut.pop();
    let cases = [
        file("empty.txt", b""),
        file("binary.bin", b"\x7fELF\x02\x01\x01\x00\x00"),
        file("cut.txt", &cut),
        file("plain.txt", "no heading at all\n".as_bytes()),
        "tests/data/reading/novel.txt".to_owned(),
        "README.md".to_owned(),
        "docs/methods.md".to_owned(),
    ];
    for text in &cases {
        for json in [false, true] {
            let mut arguments = vec!["read", text, "--work", "bencao-gangmu"];
            arguments.extend(json.then_some("--json"));
            let run = kaoyi(&arguments);
            assert_eq!((run.code, run.out.as_str()), (2, ""), "{text}");
            assert!(
                run.err.contains("no property statement found"),
                "{text}: {}",
                run.err
            );
        }
    }
}

#[test]
fn a_layout_of_ones_own_is_read_and_a_faulty_one_named_with_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    fs::write(
        path("dots.txt"),
        "◎草部\n●薄荷\n味辛，溫。\n●菊花\n味苦，平。\n",
    )
    .unwrap();
    fs::write(
        path("dots.yaml"),
        "name: dots\nheading: {before: '●'}\nsection: {before: '◎'}\n",
    )
    .unwrap();
    fs::write(path("bad.yaml"), "name: dots\nheding: {before: '●'}\n").unwrap();
    let (text, good, bad) = (path("dots.txt"), path("dots.yaml"), path("bad.yaml"));
    let run = kaoyi(&["read", &text, "--work", "bencao-gangmu", "--layout", &good]);
    assert!(
        run.out
            .contains("at: {ordinal: 1, section: 草部, heading: 薄荷}"),
        "{}{}",
        run.out,
        run.err
    );
    let run = kaoyi(&["read", &text, "--work", "bencao-gangmu", "--layout", &bad]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.contains("bad.yaml") && run.err.contains("line 2"),
        "{}",
        run.err
    );
}
