//! Embeds the corpus, so that the binary needs no file beside it. Small records are kept as JSON, which is
//! read some ten times faster than YAML. What only some commands need is compressed: each herb's record by
//! itself, so that a command opens the one it asks for; the words for reading texts; and all YAML files as
//! they are, for the check. The files are sorted, so equal input gives an equal binary.

use std::error::Error;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::{env, fmt::Write as _, fs, io};

use lz4_flex::block::compress_prepend_size as compress;
use serde_json::{Value, json};

/// The folding of names, the same that the program does.
#[path = "src/text/fold.rs"]
mod fold;

type Attempt<T> = Result<T, Box<dyn Error>>;

/// Vocabulary that only the reading of texts needs.
const READING: [&str; 2] = ["vocabulary/headings.yaml", "vocabulary/phrases.yaml"];

fn main() -> Attempt<()> {
    println!("cargo:rerun-if-changed=corpus");
    println!("cargo:rerun-if-changed=src/text/fold.rs");
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default()).join("corpus");
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    let mut files = Vec::new();
    collect(&root, &mut files)?;

    // Herbs stand in the order of their ids, as they do in the program: `baizhi` before `baizhi-b`.
    files.sort_by_key(|file| file.with_extension(""));

    let mut herbs = Herbs::default();
    let (mut texts, mut reading) = (Vec::new(), Vec::new());
    let mut table = String::from("static RECORDS: &[(&str, &str)] = &[\n");
    for file in &files {
        let name = file
            .strip_prefix(&root)?
            .to_string_lossy()
            .replace('\\', "/");
        let text = fs::read_to_string(file)?;
        let record: Value =
            serde_yaml::from_str(&text).map_err(|error| format!("corpus/{name}: {error}"))?;
        if name.starts_with("herbs/") {
            herbs.put(&record)?;
        } else if READING.contains(&name.as_str()) {
            reading.push(record);
        } else {
            writeln!(table, "    ({name:?}, {:?}),", record.to_string())?;
        }
        texts.push(json!([name, text]));
    }
    let mut content = DefaultHasher::new();
    serde_json::to_string(&texts)?.hash(&mut content);
    write!(
        table,
        "];\nstatic CONTENT: u64 = {};\nstatic PLACES: &[(usize, usize)] = &[\n{}];\n\
         static RELATED_PLACES: &[(usize, usize)] = &[\n{}];\n",
        content.finish(),
        herbs.records.places,
        herbs.related.places
    )?;
    fs::write(out.join("embedded_records.rs"), table)?;
    herbs.keys.sort();
    herbs.keys.dedup();
    herbs.ids.sort();
    fs::write(out.join("keys.txt"), herbs.keys.concat())?;
    fs::write(out.join("ids.txt"), herbs.ids.concat())?;
    fs::write(out.join("herbs.packed"), herbs.records.bytes)?;
    fs::write(out.join("relations.packed"), herbs.related.bytes)?;
    for (file, list) in [
        ("names.packed", herbs.names),
        ("properties.packed", herbs.properties),
        ("reading.packed", reading),
        ("texts.packed", texts),
    ] {
        fs::write(out.join(file), compress(&serde_json::to_vec(&list)?))?;
    }
    Ok(())
}

/// What is written of the herbs, in the order of their records.
#[derive(Default)]
struct Herbs {
    names: Vec<Value>,
    keys: Vec<String>,
    ids: Vec<String>,
    properties: Vec<Value>,
    records: OneByOne,
    related: OneByOne,
}

/// Values that are packed one by one, with the place of each among the bytes.
#[derive(Default)]
struct OneByOne {
    bytes: Vec<u8>,
    places: String,
}

impl Herbs {
    fn put(&mut self, record: &Value) -> Attempt<()> {
        put_keys(record, self.names.len(), &mut self.keys);
        let id = text_of(&record["id"]);
        self.ids.push(format!("{id}\t{}\n", self.names.len()));
        self.names.push(named(record));
        self.properties.push(stands(record));
        self.records.put(Some(record))?;
        self.related.put(related(record).as_ref())
    }
}

impl OneByOne {
    /// Of nothing the place is empty.
    fn put(&mut self, value: Option<&Value>) -> Attempt<()> {
        let start = self.bytes.len();
        if let Some(value) = value {
            self.bytes.extend(compress(&serde_json::to_vec(value)?));
        }
        writeln!(self.places, "    ({start}, {}),", self.bytes.len())?;
        Ok(())
    }
}

/// The entries of an herb with what counts for the stands of works: actions, wordings, places and reasons of doubt are
/// left out. Who looks at all herbs at once reads these, a tenth of the whole.
fn stands(record: &Value) -> Value {
    let facets = ["flavour", "nature", "toxicity", "grade", "channel"];
    let light = |saying: &Value| {
        let mut light = saying.as_object()?.clone();
        light.retain(|key, _| {
            facets.contains(&key.as_str())
                || ["by", "through", "scope", "doubt"].contains(&key.as_str())
        });
        if let Some(doubt) = light.get_mut("doubt") {
            *doubt = json!("doubtful");
        }
        facets
            .iter()
            .any(|facet| light.contains_key(*facet))
            .then_some(Value::Object(light))
    };
    let entry = |entry: &Value| {
        let sayings: Vec<Value> = entry["sayings"]
            .as_array()?
            .iter()
            .filter_map(light)
            .collect();
        Some(json!({"work": entry["work"], "status": entry["status"], "sayings": sayings}))
    };
    let entries = record["entries"].as_array().into_iter().flatten();
    entries.filter_map(entry).collect()
}

/// The entries of an herb with what they say of other drugs and nothing else; none where they say nothing.
fn related(record: &Value) -> Option<Value> {
    let entry = |entry: &Value| {
        let sayings = entry["sayings"].as_array()?.iter();
        let mut sayings: Vec<Value> = sayings
            .filter(|saying| saying.get("relations").is_some())
            .cloned()
            .collect();
        // What else such a saying states is not needed here.
        for saying in sayings.iter_mut().filter_map(Value::as_object_mut) {
            for facet in [
                "flavour", "nature", "toxicity", "grade", "channel", "action",
            ] {
                saying.remove(facet);
            }
        }
        let mut light = entry.clone();
        light["sayings"] = json!(sayings);
        (!sayings.is_empty()).then_some(light)
    };
    let entries = record["entries"].as_array().into_iter().flatten();
    let entries: Vec<Value> = entries.filter_map(entry).collect();
    (!entries.is_empty()).then(|| json!(entries))
}

fn text_of(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

/// The folded names of an herb with its number: `p` pinyin, `m` another main name, `o` any other.
fn put_keys(record: &Value, number: usize, keys: &mut Vec<String>) {
    let names = &record["names"];
    let mut put = |kind: char, name: &Value| {
        let key = fold::fold(text_of(name));
        if !key.is_empty() {
            keys.push(format!("{key}\t{kind}{number}\n"));
        }
    };
    put('p', &names["pinyin"]);
    put('m', &record["id"]);
    for main in ["hant", "hans", "latin", "english"] {
        put('m', &names[main]);
    }
    let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
    for other in list(&names["also"]).iter().chain(&list(&record["species"])) {
        put('o', other);
    }
    for shared in list(&names["shared"]) {
        put('o', &shared["name"]);
    }
}

/// What an herb is found by.
fn named(record: &Value) -> Value {
    let species = record.get("species").cloned().unwrap_or_else(|| json!([]));
    json!({"id": record["id"], "names": record["names"], "species": species})
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
