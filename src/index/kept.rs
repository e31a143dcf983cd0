//! A derived value as a file: under the key of the content it comes from, with a sum over its bytes.

use std::io::{self, Write};
use std::path::Path;

use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::corpus::checksum;

/// How many bytes stand before the value.
const HEAD: usize = 24;

/// Writes a value under the first bytes of its kind of file, and the key of its content.
pub(crate) fn write(
    value: &impl Serialize,
    (magic, key): (&[u8; 8], u64),
    file: &mut dyn Write,
) -> io::Result<()> {
    let bytes = postcard::to_stdvec(value).map_err(|error| io::Error::other(error.to_string()))?;
    write_bytes(&bytes, (magic, key), file)
}

/// Writes bytes in the same way.
pub(super) fn write_bytes(
    bytes: &[u8],
    (magic, key): (&[u8; 8], u64),
    file: &mut dyn Write,
) -> io::Result<()> {
    file.write_all(magic)?;
    file.write_all(&key.to_le_bytes())?;
    file.write_all(&checksum(bytes).to_le_bytes())?;
    file.write_all(bytes)
}

/// Reads a value; `None` where the file is missing, of another kind or key, or damaged.
pub(crate) fn read<T: DeserializeOwned>(path: &Path, magic: &[u8; 8], key: u64) -> Option<T> {
    let whole = std::fs::read(path).ok()?;
    postcard::from_bytes(content(&whole, magic, key)?).ok()
}

/// What stands behind the head of a file of the kind and key; `None` for another or a damaged one.
pub(super) fn content<'b>(whole: &'b [u8], magic: &[u8; 8], key: u64) -> Option<&'b [u8]> {
    let (head, bytes) = whole.split_at_checked(HEAD)?;
    let told = |from: usize| {
        head[from..from + 8]
            .try_into()
            .map_or(0, u64::from_le_bytes)
    };
    (head[..8] == *magic && told(8) == key && told(16) == checksum(bytes)).then_some(bytes)
}
