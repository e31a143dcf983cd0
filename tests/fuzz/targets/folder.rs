//! A corpus folder as one text: each file begins with a line `=== herbs/circle-mint.yaml`.

use std::fs;
use std::path::Path;

/// The smallest corpus that stands alone.
pub const SMALL: &str = include_str!("../base/small.txt");

/// The files in `text`, each with its path in the folder. What stands before the first line of a file is an herb's.
pub fn files(text: &str) -> Vec<(String, String)> {
    let mut files = Vec::new();
    let mut open = ("herbs/circle-mint.yaml".to_owned(), String::new());
    for line in text.split_inclusive('\n') {
        if let Some(name) = line.strip_prefix("=== ") {
            files.push(std::mem::replace(&mut open, (place(name), String::new())));
        } else {
            open.1.push_str(line);
        }
    }
    files.push(open);
    files.retain(|(_, text)| !text.is_empty());
    files
}

/// A path of two plain parts, whatever was written: no input writes elsewhere.
fn place(name: &str) -> String {
    let plain = |part: &str| {
        let plain = part
            .trim()
            .chars()
            .filter(|c| c.is_ascii_alphanumeric() || *c == '-');
        plain.take(40).collect::<String>()
    };
    let (folder, file) = name.split_once('/').unwrap_or(("herbs", name));
    let file = file.trim().strip_suffix(".yaml").unwrap_or(file);
    let folder = Some(plain(folder)).filter(|folder| !folder.is_empty());
    format!(
        "{}/{}.yaml",
        folder.as_deref().unwrap_or("herbs"),
        plain(file)
    )
}

/// Writes files below a folder, over what is there.
pub fn write(folder: &Path, files: &[(String, String)]) {
    for (name, text) in files {
        let path = folder.join(name);
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder).unwrap();
        }
        fs::write(path, text).unwrap();
    }
}
