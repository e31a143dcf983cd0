//! By what a citation says which corpus it means: a key of the content and, for the shipped corpus, its date.

use std::fmt::Write as _;
use std::path::Path;

use sha2::{Digest, Sha256};

use super::assemble::AssembleError;
use super::embedded;
use super::source::{Source, read_folder};

/// Date and key of the shipped corpus, as they were when the date was last set; `tests/generated.rs` compares the key.
static EDITION: &str = include_str!("edition.txt");

/// The day on which the shipped corpus last changed, `YYYY-MM-DD`.
///
/// ```
/// assert_eq!(kaoyi::corpus::date().len(), 10);
/// ```
#[must_use]
pub fn date() -> &'static str {
    EDITION.split_whitespace().next().unwrap_or_default()
}

/// The key that the shipped corpus had on the day of [`date`].
#[must_use]
pub fn dated_key() -> &'static str {
    EDITION.split_whitespace().nth(1).unwrap_or_default()
}

/// The key of the shipped corpus, or of a folder: the SHA-256 of the lines that `sha256sum herbs/*.yaml vocabulary/*.yaml
/// works/*.yaml` prints there, in hexadecimal digits. Whoever has the files can compute it without this program.
///
/// # Errors
/// When the embedded files cannot be unpacked.
///
/// ```
/// let key = kaoyi::corpus::content_key(None).unwrap();
/// assert_eq!(key.len(), 64);
/// ```
pub fn content_key(folder: Option<&Path>) -> Result<String, AssembleError> {
    let (root, sources) = match folder {
        None => ("corpus".to_owned(), embedded::sources()?),
        // A folder whose faults matter has been refused before.
        Some(root) => (
            root.display().to_string(),
            read_folder(root, &mut Vec::new()),
        ),
    };
    let mut lines: Vec<(String, String)> = sources
        .iter()
        .map(|source| {
            (
                name(&root, source),
                hexadecimal(&Sha256::digest(source.text.as_bytes())),
            )
        })
        .collect();
    lines.sort();
    let mut whole = Sha256::new();
    for (name, sum) in lines {
        whole.update(format!("{sum}  {name}\n"));
    }
    Ok(hexadecimal(&whole.finalize()))
}

/// The path of a file below its folder, with `/` on every system.
fn name(root: &str, source: &Source) -> String {
    let inside = source.name.strip_prefix(root).unwrap_or(&source.name);
    inside.replace('\\', "/").trim_start_matches('/').to_owned()
}

fn hexadecimal(bytes: &[u8]) -> String {
    let mut digits = String::with_capacity(2 * bytes.len());
    for byte in bytes {
        // Writing to a string does not fail.
        let _ = write!(digits, "{byte:02x}");
    }
    digits
}
