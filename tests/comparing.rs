//! The comparison: rows, differences, actions, filters, width, script.

use crate::support::kaoyi;
use insta::assert_snapshot;
use pretty_assertions::assert_eq;
use unicode_width::UnicodeWidthStr;

#[test]
fn rows_stand_in_order_of_time_with_the_carriers_of_lost_works() {
    let run = kaoyi(&[
        "compare",
        "bohe",
        "--facet",
        "flavour,nature,toxicity",
        "--until",
        "1300",
    ]);
    let table: Vec<&str> = run
        .out
        .lines()
        .skip_while(|line| !line.starts_with("year"))
        .take_while(|line| !line.starts_with("On "))
        .collect();
    assert_snapshot!(table.join("\n"), @"
    year     work        flavour        nature   toxicity
    ──────────────────────────────────────────────────────
    659      新修本草    acrid, bitter  warm     not toxic
    c. 682   千金方      bitter, acrid  neutral
             < 本草綱目
    c. 741   食療本草    –              neutral  –
    c. 1234  潔古珍珠囊  acrid          cool
             < 本草綱目
    1298     湯液本草    acrid, bitter  warm     not toxic
    flavour   acrid 4 · bitter 3 (4 witnesses in 3 lines)
    nature    cool 1 · neutral 2 · warm 2 (5 witnesses in 4 lines)
    toxicity  not toxic 2 (2 witnesses in 1 line)
    Year: the latest of the work's date. – silent in its article; blank: not quoted
    on it; < known through; (…) said of that only, not counted; ° more on a part or
    preparation; ≠ carriers differ; ? doubtful; * your own folder. Wordings, places
    and lines: --evidence.

    WHERE THEY AGREE AND DIFFER
    flavour   nested          the shortest list stands in all the others
      acrid, bitter           3: 新修本草, 千金方, 湯液本草
      acrid                   1: 潔古珍珠囊
    nature    crossing        opposite sides
      cold side               1: 潔古珍珠囊
      neutral                 2: 千金方, 食療本草
      warm side               2: 新修本草, 湯液本草
    toxicity  unanimous       2 witnesses: not toxic

    CONSENSUS PROFILE
    facet     value      books  lines  95 %    first in         verdict
    ──────────────────────────────────────────────────────────────────────
    flavour   acrid      4/4    3/3    51–100  新修本草 659     yes
              bitter     3/4    2/3    30–95   新修本草 659     mostly yes
    nature    cool       1/5    1/4    4–62    潔古珍珠囊 1234  mostly no
              neutral    2/5    2/4    12–77   千金方 682       disputed
              warm       2/5    1/4    12–77   新修本草 659     disputed
    toxicity  not toxic  2/2    1/1    34–100  新修本草 659     yes
    nature    median neutral; middle half neutral to warm; all from cool to warm
    toxicity  median not toxic; commonest not toxic; most severe here not toxic
    Books: k of n witnesses. Lines: independent lines of transmission. 95 %: Wilson
    interval for books, in percent; none where a list is open.

    CAUTIONS
    None on record here, which is no proof of harmlessness.
    Kaoyi reports what books say and prescribes nothing. Check local law and ask a
    licensed practitioner before any use.
    ");
}

#[test]
fn the_differences_name_their_sides() {
    let run = kaoyi(&["compare", "bohe", "--facet", "nature"]);
    let part: Vec<&str> = run
        .out
        .lines()
        .skip_while(|line| !line.starts_with("WHERE"))
        .take_while(|line| !line.is_empty())
        .collect();
    assert_snapshot!(part.join("\n"), @"
    WHERE THEY AGREE AND DIFFER
    nature    crossing        opposite sides
      cold side               6: 潔古珍珠囊, 雷公炮製藥性解, 本草備要, 本草從新,
                              得配本草, 本草求真
      neutral                 3: 千金方, 食療本草, 本經逢原
      warm side               6: 新修本草, 湯液本草, 本草蒙筌, 本草綱目,
                              本草擇要綱目, 本草新編
    ");
}

#[test]
fn every_page_fits_its_width() {
    for herb in crate::support::herbs_of_every_kind() {
        for args in [
            vec!["compare", &herb, "--evidence"],
            vec!["profile", &herb],
            vec!["is", &herb, "sweet", "warm"],
        ] {
            let page = kaoyi(&args).out;
            let wide: Vec<&str> = page.lines().filter(|line| line.width() > 80).collect();
            assert_eq!(wide, Vec::<&str>::new(), "{args:?}");
        }
        let page = kaoyi(&["compare", &herb, "--wide"]).out;
        assert!(page.lines().all(|line| line.width() <= 140), "{herb}");
    }
}

#[test]
fn a_wide_page_uses_its_width() {
    let page = kaoyi(&["compare", "bohe", "--wide"]).out;
    assert!(page.lines().any(|line| line.width() > 80));
    assert!(
        page.contains("辛 acrid") && page.contains("Xīnxiū běncǎo"),
        "{page}"
    );
}

#[test]
fn works_and_years_can_be_chosen() {
    let rows = |args: &[&str]| {
        let mut all = vec!["compare", "juhua", "--json", "--facet", "nature"];
        all.extend(args);
        let json = kaoyi(&all).json();
        json["witnesses"]
            .as_array()
            .unwrap()
            .iter()
            .map(|row| row["work"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(
        rows(&["--works", "本草綱目,备要"]),
        ["bencao-gangmu", "bencao-beiyao"]
    );
    assert_eq!(
        rows(&["--since", "1596", "--until", "1596"]),
        ["bencao-gangmu"]
    );
    let all = rows(&[]).len();
    assert_eq!(
        rows(&["--until", "1300"]).len() + rows(&["--since", "1301"]).len(),
        all
    );
    let run = kaoyi(&["compare", "juhua", "--until", "-500"]);
    assert!(
        run.out.contains("No work takes a stand") && run.code == 1,
        "{}",
        run.whole()
    );
    assert_eq!(
        kaoyi(&["compare", "juhua", "--since", "1500", "--until", "1400"]).code,
        2
    );
}

#[test]
fn han_text_is_shown_in_the_script_asked_for() {
    let page =
        |script: &str| kaoyi(&["compare", "huanglian", "--script", script, "--evidence"]).out;
    let (hant, hans) = (page("hant"), page("hans"));
    assert!(hant.contains("黃連") && hant.contains("本草綱目") && !hant.contains("本草纲目"));
    assert!(hans.contains("黄连") && hans.contains("本草纲目") && !hans.contains("本草綱目"));
}

#[test]
fn evidence_shows_wording_and_place() {
    let run = kaoyi(&[
        "compare",
        "bohe",
        "--facet",
        "nature",
        "--evidence",
        "--works",
        "新修本草",
    ]);
    assert!(
        run.out.contains("「味辛、苦，温，无毒」") && run.out.contains("卷第十八"),
        "{}",
        run.out
    );
}

#[test]
fn opposed_actions_stand_side_by_side_with_their_witnesses() {
    let json = kaoyi(&["compare", "mahuang", "--facet", "action", "--json"]).json();
    let opposed = json["opposed"].as_array().unwrap();
    let sweating = opposed.iter().find(|pair| {
        let ids = [
            &pair["stronger"]["action"]["id"],
            &pair["weaker"]["action"]["id"],
        ];
        ids.iter().any(|id| **id == "promotes-sweating")
            && ids.iter().any(|id| **id == "stops-sweating")
    });
    let sweating = sweating.expect("the stem promotes sweating, the root stops it");
    assert!(
        !sweating["weaker"]["of_scope_only"]
            .as_array()
            .unwrap()
            .is_empty()
    );
}

#[test]
fn colour_is_used_only_where_it_is_wanted() {
    assert!(!kaoyi(&["compare", "bohe"]).out.contains('\u{1b}'));
    assert!(
        kaoyi(&["compare", "bohe", "--color", "always"])
            .out
            .contains('\u{1b}')
    );
    assert!(
        !kaoyi(&["compare", "bohe", "--color", "never"])
            .out
            .contains('\u{1b}')
    );
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    use std::io::Read;
    use std::process::{Command, Stdio};
    let mut child = Command::new(env!("CARGO_BIN_EXE_kaoyi"))
        .args(["compare", "bohe", "--json"])
        .env_clear()
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut out = child.stdout.take().unwrap();
    out.read_exact(&mut [0; 16]).unwrap();
    drop(out);
    let finished = child.wait_with_output().unwrap();
    assert!(finished.status.success());
    assert_eq!(String::from_utf8(finished.stderr).unwrap(), "");
}
