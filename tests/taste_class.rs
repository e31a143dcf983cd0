//! What a class is handed: forms, tables with blind codes, calendars.

use crate::support::{Run, kaoyi};
use icalendar::{Calendar, CalendarComponent, Component, DatePerhapsTime};
use pretty_assertions::assert_eq;
use std::collections::HashSet;
use unicode_width::UnicodeWidthStr;

fn plan(more: &[&str]) -> Run {
    kaoyi(&[&["taste", "plan", "--from", "2027-01-04"], more].concat())
}

fn events(text: &str) -> Vec<icalendar::Event> {
    let calendar: Calendar = text.parse().unwrap();
    let event = |one: &CalendarComponent| match one {
        CalendarComponent::Event(event) => Some(event.clone()),
        _ => None,
    };
    calendar.components.iter().filter_map(event).collect()
}

fn starts(events: &[icalendar::Event]) -> Vec<String> {
    let start = |one: &icalendar::Event| match one.get_start() {
        Some(DatePerhapsTime::DateTime(icalendar::CalendarDateTime::Floating(time))) => {
            time.to_string()
        }
        other => panic!("{other:?}: no floating time"),
    };
    events.iter().map(start).collect()
}

/// RFC 5545: the calendar is read by another program's parser.
#[test]
fn a_plan_is_a_calendar_of_two_events_for_each_herb() {
    let run = plan(&["薄荷", "菊花", "--at", "19:30", "--every", "2-weeks"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let events = events(&run.out);
    assert_eq!(
        starts(&events),
        [
            "2027-01-04 19:30:00",
            "2027-01-05 07:30:00",
            "2027-01-18 19:30:00",
            "2027-01-19 07:30:00"
        ]
    );
    let summaries: Vec<&str> = events
        .iter()
        .map(|one| one.get_summary().unwrap())
        .collect();
    assert_eq!(summaries[0], "Steep 薄荷 bòhe · mint");
    assert_eq!(summaries[3], "Taste 菊花 júhuā · chrysanthemum, fasting");
    let tasting = events[1].get_description().unwrap();
    assert!(
        tasting.contains("nature, crossing: cold side 6; neutral 3; warm side 6"),
        "{tasting}"
    );
    for event in &events {
        let words = event.get_description().unwrap();
        assert!(
            words.contains("prescribes nothing") && words.contains("no measure for daily use"),
            "{words}"
        );
    }
    assert!(
        events[2].get_description().unwrap().contains("daisy"),
        "the herb's own cautions"
    );
}

#[test]
fn lines_are_folded_at_75_bytes_and_no_character_is_split() {
    let run = plan(&["薄荷", "菊花", "陳皮"]);
    let lines: Vec<&str> = run.out.split("\r\n").collect();
    assert!(
        lines
            .iter()
            .all(|line| line.len() <= 75 && !line.contains('\n'))
    );
    // Whole lines are UTF-8 by themselves, and none ends on half an escape.
    assert!(
        lines
            .iter()
            .all(|line| !line.ends_with('\\') || line.ends_with("\\\\"))
    );
    assert_eq!((lines[0], lines[1]), ("BEGIN:VCALENDAR", "VERSION:2.0"));
    assert!(run.out.ends_with("END:VCALENDAR\r\n"));
}

#[test]
fn a_plan_made_again_has_the_same_events() {
    let uids = |run: &Run| -> Vec<String> {
        events(&run.out)
            .iter()
            .map(|one| one.get_uid().unwrap().to_owned())
            .collect()
    };
    let (one, other) = (
        plan(&["薄荷", "菊花"]),
        plan(&["mint", "juhua", "--at", "20:00"]),
    );
    assert_eq!(uids(&one), uids(&other), "another hour, the same events");
    let different: HashSet<String> = uids(&one).into_iter().collect();
    assert_eq!(different.len(), 4);
    for event in events(&one.out) {
        assert!(event.property_value("DTSTAMP").unwrap().ends_with('Z'));
    }
}

#[test]
fn a_plan_can_be_written_to_a_file_and_is_told_beside() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("plan.ics");
    let run = plan(&["bohe", "-o", file.to_str().unwrap()]);
    assert_eq!(events(&std::fs::read_to_string(&file).unwrap()).len(), 2);
    assert!(run.out.contains("Monday 2027-01-04, 18:00") && run.out.contains("CAUTIONS"));
    let nowhere = plan(&[
        "bohe",
        "-o",
        folder.path().join("no/plan.ics").to_str().unwrap(),
    ]);
    assert!(nowhere.code == 2 && nowhere.err.contains("plan.ics"));
}

#[test]
fn toxic_and_restricted_herbs_are_neither_planned_nor_handed_out() {
    for command in [
        vec!["taste", "form"],
        vec!["taste", "plan", "--from", "2027-01-04"],
    ] {
        let run = kaoyi(&[command.as_slice(), &["附子", "麻黃", "薄荷", "bohee"]].concat());
        assert_eq!(
            (run.code, run.out.as_str()),
            (2, ""),
            "nothing is written where one is refused"
        );
        for reason in [
            "aconitine",
            "名醫別錄",
            "ephedrine",
            "never tasted",
            "bohe ",
        ] {
            assert!(run.err.contains(reason), "{reason}: {}", run.err);
        }
    }
}

#[test]
fn impossible_times_are_refused() {
    for (arguments, word) in [
        (vec!["--from", "2027-02-30"], "2027-02-30"),
        (vec!["--from", "2027-01-04", "--at", "24:00"], "24:00"),
        (
            vec!["--from", "2027-01-04", "--every", "fortnight"],
            "2 weeks",
        ),
        (vec!["--from", "2027-01-04", "--hours", "0"], "0"),
        (vec!["--from", "9999-12-31"], "9999"),
    ] {
        let run = kaoyi(&[&["taste", "plan", "bohe"], arguments.as_slice()].concat());
        assert!(
            run.code == 2 && run.err.contains(word),
            "{arguments:?}: {}",
            run.err
        );
    }
}

#[test]
fn forms_have_protocol_scales_and_cautions_in_80_columns() {
    let run = kaoyi(&["taste", "form", "juhua"]);
    assert!(
        run.out.lines().all(|line| line.width() <= 80),
        "{}",
        run.out
    );
    for part in [
        "overnight",
        "fasting",
        "辛 acrid",
        "warmth",
        " -5 ",
        "daisy",
        "prescribes nothing",
    ] {
        assert!(run.out.contains(part), "{part}");
    }
    let numbers: Vec<usize> = run
        .out
        .lines()
        .filter(|line| line.ends_with("   10"))
        .map(UnicodeWidthStr::width)
        .collect();
    assert_eq!(numbers, [75; 10], "the scales stand under each other");
    let markdown = kaoyi(&["taste", "form", "juhua", "--markdown"]);
    assert!(markdown.out.starts_with("# Tasting form") && markdown.out.contains("daisy"));
}

#[test]
fn a_blind_form_does_not_name_the_herb_and_keeps_its_cautions() {
    let run = kaoyi(&["taste", "form", "juhua", "--blind"]);
    for name in ["菊", "júhuā", "chrysanthemum"] {
        assert!(!run.out.contains(name), "{name}");
    }
    assert!(run.out.contains("daisy"));
}

#[test]
fn the_same_seed_gives_the_same_codes_and_another_gives_others() {
    let table = |seed: &str| {
        kaoyi(&[
            "taste",
            "form",
            "bohe",
            "--csv",
            "--tasters",
            "4",
            "--cups",
            "3",
            "--seed",
            seed,
        ])
        .out
    };
    assert_eq!(table("7"), table("7"));
    assert!(table("7") != table("8"));
    let drawn = kaoyi(&["taste", "form", "bohe", "--csv"]);
    assert!(drawn.err.contains("--seed"), "a drawn seed is told");
    let many = kaoyi(&["taste", "form", "bohe", "juhua", "--csv", "--cups", "40"]);
    assert!(many.code == 2 && many.err.contains("80 cups"));
}

#[test]
fn pages_of_panels_fit_80_columns() {
    for herb in ["bohe", "juhua"] {
        let run = kaoyi(&[
            "taste",
            "panel",
            "docs/examples/class/scores.csv",
            "--herb",
            herb,
        ]);
        assert!(
            run.out.lines().all(|line| line.width() <= 80),
            "{}",
            run.out
        );
        assert!(run.out.contains("prescribes nothing"));
    }
}
