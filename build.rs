//! Embeds the corpus: writes a table of every YAML file under `corpus/` with its text, so that the
//! binary needs no file beside it. The files are sorted, so equal input gives an equal binary.

use std::path::{Path, PathBuf};
use std::{env, fmt::Write as _, fs, io};

fn main() -> io::Result<()> {
    println!("cargo:rerun-if-changed=corpus");
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default()).join("corpus");
    let mut files = Vec::new();
    collect(&root, &mut files)?;
    files.sort();

    let mut table = String::from("&[\n");
    for file in &files {
        let name = file.strip_prefix(&root).unwrap_or(file);
        let name = name.to_string_lossy().replace('\\', "/");
        let _ = writeln!(table, "    ({name:?}, include_str!({:?})),", file.to_string_lossy());
    }
    table.push_str("]\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::write(out.join("embedded_corpus.rs"), table)
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            println!("cargo:rerun-if-changed={}", path.display());
            collect(&path, files)?;
        } else if path.extension().is_some_and(|extension| extension == "yaml") {
            files.push(path);
        }
    }
    Ok(())
}
