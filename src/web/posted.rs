//! What a form sends: fields, and files that are read in memory and never written.

use super::asked::Asked;

/// The fields of a form.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Posted {
    /// The fields that hold words.
    pub fields: Asked,
    /// The files, each under the name of its field.
    pub files: Vec<PostedFile>,
}

/// A file that was sent.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct PostedFile {
    /// The field's name.
    pub field: String,
    /// The file's own name, for messages only; no file is opened by it.
    pub name: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// Most parts that a form may have.
const PARTS: usize = 200;

impl Posted {
    /// Reads a body of the media type `kind`; what is wrong with it, in words, where it cannot be read.
    pub(crate) fn read(kind: &str, body: &[u8]) -> Result<Self, String> {
        let (essence, rest) = kind.split_once(';').unwrap_or((kind, ""));
        match essence.trim().to_ascii_lowercase().as_str() {
            "application/x-www-form-urlencoded" => {
                let text =
                    std::str::from_utf8(body).map_err(|_| "the form is no UTF-8".to_owned())?;
                let fields =
                    Asked::read(text).map_err(|bad| format!("the form holds {}", bad.words()))?;
                Ok(Self {
                    fields,
                    files: Vec::new(),
                })
            }
            "multipart/form-data" => {
                let boundary =
                    parameter(rest, "boundary").filter(|one| (1..=70).contains(&one.len()));
                let boundary = boundary.ok_or("the form names no boundary between its parts")?;
                multipart(&boundary, body)
            }
            other => Err(format!(
                "the body is `{}`; expected a form",
                other.chars().take(60).collect::<String>()
            )),
        }
    }

    /// The file of a field.
    pub(crate) fn file(&self, field: &str) -> Option<&PostedFile> {
        self.files.iter().find(|file| file.field == field)
    }
}

/// The value of a parameter of a header: `boundary=x`, `name="y"`.
fn parameter(header: &str, name: &str) -> Option<String> {
    let mut rest = header;
    while !rest.is_empty() {
        rest = rest.trim_start_matches([';', ' ', '\t']);
        let (key, after) = rest.split_once('=')?;
        let (value, left) = match after.strip_prefix('"') {
            Some(quoted) => quoted.split_once('"')?,
            None => {
                let end = after.find(';').unwrap_or(after.len());
                after.split_at(end)
            }
        };
        if key.trim().eq_ignore_ascii_case(name) {
            return Some(value.trim().to_owned());
        }
        rest = left;
    }
    None
}

/// The parts of a body (RFC 7578).
fn multipart(boundary: &str, body: &[u8]) -> Result<Posted, String> {
    let mark = format!("--{boundary}");
    let fault = || "the parts of the form do not end as they should".to_owned();
    let mut rest = body.strip_prefix(mark.as_bytes()).ok_or_else(fault)?;
    let between = format!("\r\n--{boundary}");
    let mut posted = Posted::default();
    let mut pairs = Vec::new();
    for _ in 0..PARTS {
        if rest.starts_with(b"--") {
            posted.fields = Asked::of(pairs);
            return Ok(posted);
        }
        rest = rest.strip_prefix(b"\r\n").ok_or_else(fault)?;
        let end = find(rest, between.as_bytes()).ok_or_else(fault)?;
        let (part, after) = rest.split_at(end);
        rest = &after[between.len()..];
        let head_end = find(part, b"\r\n\r\n").ok_or_else(fault)?;
        let (head, content) = (&part[..head_end], &part[head_end + 4..]);
        let head =
            std::str::from_utf8(head).map_err(|_| "the head of a part is no UTF-8".to_owned())?;
        let named = head.split("\r\n").find_map(|line| {
            let (key, value) = line.split_once(':')?;
            let disposition = key.eq_ignore_ascii_case("content-disposition");
            disposition.then(|| {
                value
                    .trim()
                    .split_once(';')
                    .map(|(_, rest)| rest.to_owned())
            })?
        });
        let named = named.ok_or("a part of the form has no name")?;
        let field = parameter(&named, "name").ok_or("a part of the form has no name")?;
        match parameter(&named, "filename") {
            Some(name) if !name.is_empty() || !content.is_empty() => {
                posted.files.push(PostedFile {
                    field,
                    name,
                    bytes: content.to_vec(),
                })
            }
            Some(_) => {}
            None => {
                let text = std::str::from_utf8(content)
                    .map_err(|_| format!("the field `{field}` is no UTF-8"))?;
                if text.contains('\0') {
                    return Err(format!("the field `{field}` holds a null character"));
                }
                if !text.trim().is_empty() {
                    pairs.push((field, text.to_owned()));
                }
            }
        }
    }
    Err(format!("the form has more than {PARTS} parts"))
}

fn find(text: &[u8], piece: &[u8]) -> Option<usize> {
    text.windows(piece.len()).position(|window| window == piece)
}

#[cfg(test)]
mod tests {
    use super::Posted;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn fields_and_files_are_told_apart() {
        let body = "--x\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\nabc\r\n--x\r\nContent-Disposition: form-data; \
                    name=\"table\"; filename=\"../etc/cups.csv\"\r\nContent-Type: text/csv\r\n\r\na,b\r\n1,2\r\n\r\n--x--\r\n";
        let posted = Posted::read("multipart/form-data; boundary=x", body.as_bytes()).unwrap();
        assert_eq!(posted.fields.one("token"), Some("abc"));
        let file = posted.file("table").unwrap();
        assert_eq!(file.bytes, b"a,b\r\n1,2\r\n");
    }

    #[test]
    fn a_body_cut_off_is_refused() {
        let body = "--x\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\nabc";
        assert!(Posted::read("multipart/form-data; boundary=x", body.as_bytes()).is_err());
        assert!(Posted::read("multipart/form-data", body.as_bytes()).is_err());
        assert!(Posted::read("text/plain", b"a=b").is_err());
    }

    proptest! {
        #[test]
        fn no_body_hurts(body in prop::collection::vec(any::<u8>(), 0..400), kind in "\\PC{0,60}") {
            let _ = Posted::read("multipart/form-data; boundary=x", &body);
            let _ = Posted::read("application/x-www-form-urlencoded", &body);
            let _ = Posted::read(&kind, &body);
        }
    }
}
