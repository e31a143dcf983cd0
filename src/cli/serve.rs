//! `kaoyi serve`: the reading room.

use std::net::SocketAddr;
use std::process::{Command, Stdio};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::serve_args::ServeArguments;
use super::{common, notebook, taste_add};
use crate::tasting::Day;
use crate::web::{Listening, Room, Settings, serve};

pub(super) fn run(arguments: &ServeArguments, output: &Output) -> Attempt<Outcome> {
    if !arguments.listen.is_loopback() && !arguments.let_others_read {
        return Err(Failure::new(format!(
            "{} can be asked by other machines; expected a loopback address (127.0.0.1, ::1)",
            arguments.listen
        ))
        .with_hint("To let others of your network read all pages, your notebook included: --let-others-read"));
    }
    let notebook = match notebook::folder(arguments.notebook.as_deref()) {
        Ok(folder) if arguments.notebook.is_some() && !folder.is_dir() => {
            return Err(Failure::new(format!(
                "there is no notebook in {}",
                folder.display()
            )));
        }
        folder => folder.ok(),
    };
    let settings = Settings {
        corpus: arguments.corpus.clone(),
        notebook,
        cache: common::cache(),
        read_only: !arguments.listen.is_loopback(),
        token: token()?,
        elapsed,
        today: || today().ok(),
        now: taste_add::now,
        chance: || fastrand::u64(..),
    };
    let room = Room::open(settings).map_err(|error| error.0)?;
    let address = SocketAddr::new(arguments.listen, arguments.port);
    let listening = Listening::at(address, arguments.host.clone()).map_err(|error| {
        Failure::new(format!("{address} cannot be listened at: {error}"))
            .with_hint("Another port: --port N; --port 0 takes a free one.")
    })?;
    let page = format!("http://{}/", listening.address);
    output.text(&format!("Kaoyi is open at {page}\n"))?;
    if arguments.open {
        open(&page, output);
    }
    serve(room, listening)
        .map_err(|error| Failure::new(format!("the room could not be kept open: {error}")))?;
    Ok(Outcome::Answered)
}

/// A secret that nobody can guess.
fn token() -> Attempt<String> {
    let mut bytes = [0_u8; 24];
    getrandom::fill(&mut bytes)
        .map_err(|error| Failure::new(format!("the system gives no random bytes: {error}")))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// The time since this was first asked.
fn elapsed() -> Duration {
    static START: OnceLock<Instant> = OnceLock::new();
    START.get_or_init(Instant::now).elapsed()
}

fn today() -> Result<Day, impl std::fmt::Display> {
    jiff::ZonedDateTime::now().date().to_string().parse::<Day>()
}

/// Asks the system to show a page; what it cannot, the user can.
fn open(page: &str, output: &Output) {
    let (program, before): (&str, &[&str]) = if cfg!(target_os = "macos") {
        ("open", &[])
    } else if cfg!(windows) {
        ("cmd", &["/C", "start", ""])
    } else {
        ("xdg-open", &[])
    };
    let mut command = Command::new(program);
    command.args(before).arg(page);
    let silent = command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    if let Err(error) = silent.spawn() {
        output.note(&format!(
            "no browser could be opened ({program}: {error}); open the address yourself"
        ));
    }
}
