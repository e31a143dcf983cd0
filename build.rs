//! Embeds the corpus, so that the binary needs no file beside it: writes a table of every YAML file
//! under `corpus/` with its text, for the check, and with the same record as JSON, which is read some
//! ten times faster at start. The files are sorted, so equal input gives an equal binary.

use std::error::Error;
use std::path::{Path, PathBuf};
use std::{env, fmt::Write as _, fs, io};

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo:rerun-if-changed=corpus");
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default()).join("corpus");
    let mut files = Vec::new();
    collect(&root, &mut files)?;
    files.sort();

    let mut table = String::from("&[\n");
    for file in &files {
        let name = file
            .strip_prefix(&root)?
            .to_string_lossy()
            .replace('\\', "/");
        let text = fs::read_to_string(file)?;
        let record: serde_json::Value =
            serde_yaml::from_str(&text).map_err(|error| format!("corpus/{name}: {error}"))?;
        let json = serde_json::to_string(&record)?;
        writeln!(
            table,
            "    File {{ name: {name:?}, yaml: include_str!({file:?}), json: {json:?} }},"
        )?;
    }
    table.push_str("]\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::write(out.join("embedded_corpus.rs"), table)?;
    Ok(())
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            println!("cargo:rerun-if-changed={}", path.display());
            collect(&path, files)?;
        } else if path
            .extension()
            .is_some_and(|extension| extension == "yaml")
        {
            files.push(path);
        }
    }
    Ok(())
}
