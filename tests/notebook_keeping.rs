//! Nothing of the notebook is lost: read-only folders, full disks, kills, many programs at once; and what is kept of it in
//! the cache folder changes no answer.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, SystemTime};

use crate::support::{Run, files_below, text};
use kaoyi::tasting::{Notebook, PROTOCOL};
use pretty_assertions::assert_eq;

fn command(notebook: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
    command
        .arg("taste")
        .args(arguments)
        .env_clear()
        .env("XDG_CACHE_HOME", cache(notebook))
        .env("KAOYI_NOTEBOOK", notebook);
    command
}

fn cache(notebook: &Path) -> PathBuf {
    notebook.with_file_name("cache")
}

fn run(notebook: &Path, arguments: &[&str]) -> Run {
    Run::from(command(notebook, arguments).output().unwrap())
}

/// A run in a shell with `before` said first, such as a limit.
#[cfg(unix)]
fn run_after(before: &str, notebook: &Path, arguments: &[&str]) -> Run {
    let words: Vec<String> = arguments.iter().map(|word| format!("'{word}'")).collect();
    let line = format!(
        "{before}; exec '{}' taste {}",
        env!("CARGO_BIN_EXE_kaoyi"),
        words.join(" ")
    );
    let mut shell = Command::new("/bin/sh");
    shell
        .args(["-c", &line])
        .env_clear()
        .env("XDG_CACHE_HOME", cache(notebook))
        .env("KAOYI_NOTEBOOK", notebook);
    Run::from(shell.output().unwrap())
}

/// Every file in a folder, hidden ones too.
fn names(folder: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(folder).unwrap();
    entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect()
}

const ADD: [&str; 6] = ["add", "薄荷", "--date", "2026-03-14", "--score", "acrid=6"];

/// Writes an invented tasting an hour ago: what was written this moment is not kept.
fn write(folder: &Path, name: &str, record: &str) {
    let path = folder.join(name);
    fs::write(&path, record).unwrap();
    let file = File::options().write(true).open(&path).unwrap();
    file.set_modified(SystemTime::now() - Duration::from_secs(3600))
        .unwrap();
}

#[test]
fn eight_programs_that_add_at_once_write_eight_files() {
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("notebook");
    let running: Vec<_> = (1..=8)
        .map(|cup| {
            let mut one = command(&folder, &ADD);
            one.args(["--cup", &cup.to_string()])
                .stdout(Stdio::null())
                .spawn()
                .unwrap()
        })
        .collect();
    for mut one in running {
        assert!(one.wait().unwrap().success());
    }
    let (notebook, findings) = Notebook::open(&folder);
    let cups: BTreeSet<_> = notebook.all().iter().map(|one| one.tasting.cup).collect();
    assert_eq!(
        (notebook.all().len(), cups.len(), findings.len()),
        (8, 8, 0)
    );
    assert_eq!(names(&folder).len(), 8, "nothing else is left");
}

#[cfg(unix)]
#[test]
fn on_a_full_disk_nothing_is_half_written_and_nothing_lost() {
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("notebook");
    assert_eq!(run(&folder, &ADD).code, 0);
    let before = names(&folder);
    // The signal that comes with the limit is ignored, as a full disk sends none.
    let full = run_after(
        "trap '' XFSZ; ulimit -f 0",
        &folder,
        &["add", "菊花", "--score", "sweet=4"],
    );
    assert_eq!(full.code, 2, "{}", full.whole());
    assert!(full.err.contains("nothing was"), "{}", full.err);
    let full = run_after(
        "trap '' XFSZ; ulimit -f 0",
        &folder,
        &["edit", "last", "--hours", "12"],
    );
    assert_eq!(full.code, 2, "{}", full.whole());
    assert_eq!(names(&folder), before);
    let listed = run(&folder, &["list", "--json"]).json();
    assert_eq!(
        (&listed["total"], &listed["findings"]),
        (&1.into(), &serde_json::json!([]))
    );
}

#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_cannot_be_written_to_is_told() {
    let root = tempfile::tempdir().unwrap();
    // Not even the superuser can make a folder there.
    let nowhere = Path::new("/proc/kaoyi-notebook");
    let add = run_after(
        "true",
        &root.path().join("notebook"),
        &[
            "add",
            "薄荷",
            "--score",
            "acrid=6",
            "--notebook",
            text(nowhere),
        ],
    );
    assert_eq!(add.code, 2);
    assert!(
        add.err.contains("/proc/kaoyi-notebook") && add.err.contains("nothing was"),
        "{}",
        add.err
    );
    let file = root.path().join("a-file");
    fs::write(&file, "no folder").unwrap();
    for arguments in [
        vec!["list", "--notebook", text(&file)],
        vec![
            "add",
            "薄荷",
            "--score",
            "acrid=6",
            "--notebook",
            text(&file),
        ],
    ] {
        let run = run(&root.path().join("notebook"), &arguments);
        assert!(
            run.code > 0 && run.err.contains("a-file"),
            "{}",
            run.whole()
        );
    }
    assert_eq!(fs::read_to_string(&file).unwrap(), "no folder");
}

#[cfg(unix)]
#[test]
fn a_read_only_folder_is_listed_and_not_written_to() {
    use std::os::unix::fs::PermissionsExt;
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("notebook");
    assert_eq!(run(&folder, &ADD).code, 0);
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o555)).unwrap();
    let superuser = fs::write(folder.join(".probe"), "").is_ok();
    let (listed, added) = (
        run(&folder, &["list"]),
        run(&folder, &["add", "菊花", "--score", "sweet=4"]),
    );
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o755)).unwrap();
    assert_eq!(listed.code, 0);
    // Rights do not bind the superuser.
    assert!(
        superuser || (added.code == 2 && added.err.contains("nothing was")),
        "{}",
        added.err
    );
}

#[test]
fn after_any_kill_every_file_is_whole_and_none_is_missing() {
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("notebook");
    let start = std::time::Instant::now();
    assert_eq!(run(&folder, &ADD).code, 0);
    let whole = start.elapsed();
    let mut random = fastrand::Rng::with_seed(8);
    let mut told = 1;
    for cup in 2..=40 {
        let mut one = command(&folder, &ADD);
        let mut one = one
            .args(["--cup", &cup.to_string()])
            .stdout(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(whole.mul_f64(random.f64() * 1.2));
        one.kill().unwrap();
        told += usize::from(one.wait().unwrap().success());
    }
    let (notebook, findings) = Notebook::open(&folder);
    assert_eq!(findings, vec![]);
    let all = notebook.all().len();
    assert!(
        all >= told && all <= 40,
        "{told} were said to be written, {all} are there"
    );
    let others = notebook.passed_over().iter();
    let left = others
        .filter(|one| one.why == kaoyi::tasting::Why::Unfinished)
        .count();
    assert_eq!(
        names(&folder).len(),
        all + left,
        "what is left over is told"
    );
}

#[test]
fn what_is_kept_changes_no_answer_and_follows_every_change() {
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("notebook");
    fs::create_dir(&folder).unwrap();
    let record = |n: u32| {
        format!(
            "herb: bohe\ndate: 2026-03-14\ntaster: A\ncup: {n}\nscores: {{flavours: {{acrid: 6}}}}\n"
        )
    };
    for n in 1..=300 {
        write(&folder, &format!("cup-{n}.yaml"), &record(n));
    }
    let list = ["list", "--top", "1000", "--json"];
    let read = run(&folder, &list).out;
    let table = files_below(&cache(&folder))
        .into_iter()
        .find(|file| file.ends_with("tastings"))
        .unwrap();
    assert_eq!(run(&folder, &list).out, read, "from the table");
    // A change is seen, also one of the same length.
    write(
        &folder,
        "cup-7.yaml",
        &record(7).replace("acrid: 6", "acrid: 9"),
    );
    fs::remove_file(folder.join("cup-8.yaml")).unwrap();
    write(&folder, "cup-9.yaml", "herb: bohe\ndate: soon\n");
    let changed = run(&folder, &list);
    assert_eq!((changed.code, &changed.json()["total"]), (1, &298.into()));
    assert_eq!(changed.out.matches("\"acrid\": 9").count(), 1);
    assert!(
        changed.json()["findings"][0]["file"]
            .as_str()
            .unwrap()
            .ends_with("cup-9.yaml")
    );
    assert_eq!(
        run(&folder, &list).out,
        changed.out,
        "faults are told again"
    );
    // Damage heals.
    let bytes = fs::read(&table).unwrap();
    let flipped: Vec<u8> = bytes
        .iter()
        .enumerate()
        .map(|(n, byte)| byte ^ u8::from(n == bytes.len() / 2))
        .collect();
    for damage in [&bytes[..bytes.len() / 2], &flipped, b"", b"no table"] {
        fs::write(&table, damage).unwrap();
        assert_eq!(run(&folder, &list).out, changed.out);
    }
    fs::remove_dir_all(cache(&folder)).unwrap();
    assert_eq!(run(&folder, &list).out, changed.out);
}

#[cfg(unix)]
#[test]
fn an_editor_changes_a_copy_and_what_is_faulty_changes_nothing() {
    use std::os::unix::fs::PermissionsExt;
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("notebook");
    assert_eq!(run(&folder, &ADD).code, 0);
    let before = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let name = names(&folder).into_iter().next().unwrap();
    let editor = root.path().join("editor");
    let edit = |script: &str| {
        fs::write(&editor, format!("#!/bin/sh\n{script}\n")).unwrap();
        fs::set_permissions(&editor, fs::Permissions::from_mode(0o755)).unwrap();
        let mut one = command(&folder, &["edit", "last"]);
        Run::from(
            one.env("EDITOR", &editor)
                .env("PATH", "/usr/bin:/bin")
                .output()
                .unwrap(),
        )
    };
    let good = edit("printf '# looked at again\\nhours: 12\\n' >> \"$1\"");
    assert_eq!(good.code, 0, "{}", good.whole());
    let text = before(&name);
    assert!(text.contains("# looked at again") && text.contains("hours: 12"));
    for (script, word) in [
        ("echo 'hours: many' >> \"$1\"", "has faults"),
        ("sed -i 's/bohe/fuzi/' \"$1\"", "never tasted"),
        ("exit 3", "nothing was changed"),
    ] {
        let refused = edit(script);
        assert!(
            refused.code == 2 && refused.err.contains(word),
            "{}",
            refused.whole()
        );
        assert_eq!(before(&name), text);
    }
    assert_eq!(edit("true").code, 1, "nothing to change");
    let meanwhile = format!(
        "echo 'cup: 4' >> '{}'; echo 'water: 200' >> \"$1\"",
        folder.join(&name).display()
    );
    let refused = edit(&meanwhile);
    assert!(
        refused.code == 2 && refused.err.contains("another program"),
        "{}",
        refused.whole()
    );
    assert!(before(&name).contains("cup: 4"));
    assert!(run(&folder, &["edit", "last"]).err.contains("EDITOR"));
}

/// Needs the program `script` (util-linux), which gives a run a terminal; where it is not there nothing is shown.
#[cfg(target_os = "linux")]
#[test]
fn at_a_terminal_everything_is_asked_for_and_offered_from_the_last_time() {
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("notebook");
    let mut first = ADD.to_vec();
    first.extend([
        "--taster", "A", "--amount", "3", "--hours", "12", "--water", "250",
    ]);
    assert_eq!(run(&folder, &first).code, 0);
    // Who, day, amount, part, preparation, lot, supplier, vessel, water, heat, hours, fasting, code, cup; then seven
    // flavours, thickness, lingering, aroma, warmth, places, direction, words.
    let answers = "\n2026-03-15\nmuch\n4.5\n\n\n\n\n\n-\n\n\nyes\n\n\n6.5\n\n\n\n\n\n\n\n\n\n-2\nnose\nup out\ncool\n";
    let line = format!("{} taste add bohe", env!("CARGO_BIN_EXE_kaoyi"));
    let spawned = Command::new("script")
        .args(["-qec", &line, "/dev/null"])
        .env_clear()
        .env("PATH", "/usr/bin:/bin")
        .env("XDG_CACHE_HOME", cache(&folder))
        .env("KAOYI_NOTEBOOK", &folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn();
    let Ok(mut asked) = spawned else { return };
    std::io::Write::write_all(&mut asked.stdin.take().unwrap(), answers.as_bytes()).unwrap();
    let shown = String::from_utf8(asked.wait_with_output().unwrap().stdout).unwrap();
    let (notebook, _) = Notebook::open(&folder);
    let last = &notebook
        .last_added()
        .unwrap_or_else(|| panic!("{shown}"))
        .tasting;
    assert_eq!(last.date.to_string(), "2026-03-15", "{shown}");
    let json = serde_json::to_value(last).unwrap();
    let wanted = serde_json::json!({
        "herb": "bohe", "amount": 4.5, "hours": 12, "date": "2026-03-15", "taster": "A", "fasting": true,
        "scores": {"flavours": {"acrid": 6.5}, "warmth": -2}, "places": ["nose"], "direction": ["up", "out"], "words": "cool",
    });
    assert_eq!(json, wanted, "{shown}");
    assert!(
        shown.contains("[12]") && shown.contains("expected a number"),
        "{shown}"
    );
    for step in PROTOCOL.iter().take(5) {
        assert!(shown.contains(step.name), "{}", step.name);
    }
}
