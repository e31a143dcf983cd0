//! Bytes to text: UTF-8, GB18030 or Big5, told or recognised, and never repaired silently.

use std::fmt;

use encoding_rs::{BIG5, GB18030, UTF_8};

/// The encodings in which the texts of old books are found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// Unicode.
    Utf8,
    /// The Chinese national standard GB 18030, which contains GBK and GB 2312.
    Gb18030,
    /// The custom of Taiwan and Hong Kong.
    Big5,
}

impl Encoding {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Utf8, Self::Gb18030, Self::Big5];

    /// The name as written on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Utf8 => "utf-8",
            Self::Gb18030 => "gb18030",
            Self::Big5 => "big5",
        }
    }

    const fn decoder(self) -> &'static encoding_rs::Encoding {
        match self {
            Self::Utf8 => UTF_8,
            Self::Gb18030 => GB18030,
            Self::Big5 => BIG5,
        }
    }
}

/// Why bytes are no text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DecodeError {
    /// There is nothing in the file.
    Empty,
    /// It holds bytes that no text has.
    Binary {
        /// The place of the first such byte, from 0.
        offset: usize,
    },
    /// A character is cut off or damaged.
    Damaged {
        /// The encoding in which it was read.
        encoding: Encoding,
        /// The line, from 1.
        line: usize,
        /// The column in characters, from 1.
        column: usize,
    },
    /// It is in none of the known encodings.
    Unknown,
}

impl fmt::Display for DecodeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("the file is empty"),
            Self::Binary { offset } => write!(
                f,
                "this is no text: byte {offset} is a control character that no text holds"
            ),
            Self::Damaged {
                encoding,
                line,
                column,
            } => write!(
                f,
                "line {line}, column {column}: a damaged or cut-off character, read as {}",
                encoding.name()
            ),
            Self::Unknown => f.write_str("neither UTF-8 nor, for certain, GB18030 or Big5"),
        }
    }
}

impl std::error::Error for DecodeError {}

/// The text in `bytes`, in the encoding told or recognised.
///
/// # Errors
/// When there is no text, when a character is damaged, or when the encoding cannot be told.
///
/// ```
/// use kaoyi::reader::{DecodeError, Encoding, decode};
/// let (text, encoding) = decode("味辛，温".as_bytes(), None).unwrap();
/// assert_eq!((text.as_str(), encoding), ("味辛，温", Encoding::Utf8));
/// assert_eq!(decode(b"", None), Err(DecodeError::Empty));
/// ```
pub fn decode(bytes: &[u8], told: Option<Encoding>) -> Result<(String, Encoding), DecodeError> {
    if bytes.is_empty() {
        return Err(DecodeError::Empty);
    }
    let control = |byte: u8| byte < 9 || (14..27).contains(&byte) || (28..32).contains(&byte);
    if let Some(offset) = bytes.iter().position(|byte| control(*byte)) {
        return Err(DecodeError::Binary { offset });
    }
    let encoding = match told {
        Some(encoding) => encoding,
        None => recognise(bytes)?,
    };
    let decoder = encoding.decoder();
    match decoder.decode_without_bom_handling_and_without_replacement(bytes) {
        Some(text) => Ok((text.into_owned(), encoding)),
        None => Err(damage(bytes, encoding)),
    }
}

/// The encoding that the bytes are in. A text that is UTF-8 for its first hundred Han characters is
/// taken for UTF-8 with a fault rather than for another encoding.
fn recognise(bytes: &[u8]) -> Result<Encoding, DecodeError> {
    let fault = match std::str::from_utf8(bytes) {
        Ok(_) => return Ok(Encoding::Utf8),
        Err(fault) => fault,
    };
    let (good, rest) = bytes.split_at(fault.valid_up_to());
    let han = std::str::from_utf8(good).map_or(0, |good| {
        good.chars().filter(|c| !c.is_ascii()).take(100).count()
    });
    // A cut-off last character leaves at most three bytes.
    if han >= 100 || (han > 0 && rest.len() <= 3) {
        return Ok(Encoding::Utf8);
    }
    // Bytes of the one encoding are mostly bytes of the other too; what they say then is no language.
    let share = |encoding: Encoding| {
        let text = encoding
            .decoder()
            .decode_without_bom_handling_and_without_replacement(bytes)?;
        let han = text.chars().filter(|c| !c.is_ascii()).count();
        let common = text.chars().filter(|c| COMMON.contains(*c)).count();
        (han > 0).then_some((common * 1000 / han, encoding))
    };
    let best = [Encoding::Gb18030, Encoding::Big5]
        .into_iter()
        .filter_map(share)
        .max_by_key(|(share, _)| *share);
    match best {
        Some((share, encoding)) if share >= LEAST_COMMON => Ok(encoding),
        _ => Err(DecodeError::Unknown),
    }
}

/// The commonest characters and signs of old books, in both scripts: our own list. About a third of the
/// books' characters are among them.
const COMMON: &str =
    "之不也者而人有無无味氣气主治以為为其，。、；：一二三大小上下中生用服水血熱热寒溫温風风毒";

/// The least share of common characters in a text, of a thousand.
const LEAST_COMMON: usize = 80;

/// Where the first damaged character stands.
fn damage(bytes: &[u8], encoding: Encoding) -> DecodeError {
    let mut decoder = encoding.decoder().new_decoder_without_bom_handling();
    let mut text = String::with_capacity(bytes.len() * 2);
    text.reserve(
        decoder
            .max_utf8_buffer_length_without_replacement(bytes.len())
            .unwrap_or(bytes.len()),
    );
    // It stops at the first fault; what was read before it tells the place.
    let _ = decoder.decode_to_string_without_replacement(bytes, &mut text, true);
    let line = text.matches('\n').count() + 1;
    let last = text.rsplit('\n').next().unwrap_or_default();
    DecodeError::Damaged {
        encoding,
        line,
        column: last.chars().count() + 1,
    }
}

#[cfg(test)]
mod tests {
    use super::{DecodeError, Encoding, decode};
    use pretty_assertions::assert_eq;

    const LINE: &str = "薄荷，味辛、苦，氣溫，無毒。發汗，下氣，去頭風。";

    #[test]
    fn the_three_encodings_are_recognised() {
        let simplified = "薄荷，味辛、苦，气温，无毒。发汗，下气，去头风。".repeat(20);
        let (bytes, _, _) = encoding_rs::GB18030.encode(&simplified);
        assert_eq!(
            decode(&bytes, None),
            Ok((simplified.clone(), Encoding::Gb18030))
        );
        let traditional = LINE.repeat(20);
        let (bytes, _, _) = encoding_rs::BIG5.encode(&traditional);
        assert_eq!(
            decode(&bytes, None),
            Ok((traditional.clone(), Encoding::Big5))
        );
        assert_eq!(
            decode(traditional.as_bytes(), None),
            Ok((traditional, Encoding::Utf8))
        );
    }

    #[test]
    fn a_cut_off_character_is_named_with_its_place() {
        let mut bytes = format!("一\n{LINE}").into_bytes();
        bytes.pop();
        assert_eq!(
            decode(&bytes, None),
            Err(DecodeError::Damaged {
                encoding: Encoding::Utf8,
                line: 2,
                column: LINE.chars().count(),
            })
        );
    }

    #[test]
    fn a_binary_file_is_no_text() {
        assert_eq!(
            decode(b"\x7fELF\x02\x01\x01\x00", None),
            Err(DecodeError::Binary { offset: 4 })
        );
    }
}
