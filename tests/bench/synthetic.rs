//! Synthetic corpora of any size: invented books on invented herbs, from a seed. Each herb has a truth, each book is right
//! with its own probability, and most books copy an older one now and then. Wordings and headings are real phrases, which
//! have nothing to do with the claims beside them.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use fastrand::Rng;

use super::phrases::Phrases;

const WORKS: usize = 200;
const WITNESSES: usize = 20;
const FLAVOURS: [&str; 6] = ["acrid", "sweet", "sour", "bitter", "salty", "bland"];
const NATURES: [&str; 7] = [
    "great-cold",
    "cold",
    "cool",
    "neutral",
    "warm",
    "hot",
    "great-hot",
];
const TOXICITIES: [&str; 3] = ["none", "slight", "toxic"];
const ACTIONS: [&str; 8] = [
    "stops-cough",
    "promotes-sweating",
    "clears-heat",
    "resolves-phlegm",
    "kills-worms",
    "stops-diarrhoea",
    "moves-bowels",
    "stops-flooding",
];
/// Characters of which names are made; no two are variants of one another.
const CHARACTERS: &str = "山水火木土田石竹米羽甘白青赤黑天地日月星雨雪冰川泉林枝根花果子仁皮心目耳口手足身牛羊犬豕虎鹿兔鼠魚鳥";

/// A saying's values.
#[derive(Clone)]
struct Stand {
    flavours: Vec<usize>,
    nature: usize,
    toxicity: usize,
    actions: Vec<usize>,
}

/// Draws texts, quoted as JSON does, which YAML understands.
struct Texts {
    phrases: Phrases,
    random: Rng,
}

impl Texts {
    fn heading(&mut self) -> String {
        serde_json::to_string(self.phrases.heading(&mut self.random)).unwrap()
    }

    fn wording(&mut self) -> String {
        serde_json::to_string(self.phrases.wording(&mut self.random)).unwrap()
    }
}

/// Writes a corpus of about `claims` claims below `root`, unless it is there; gives its folder.
pub fn corpus(root: &Path, claims: usize) -> PathBuf {
    let folder = root.join(format!("synthetic-phrases-{claims}"));
    let done = folder.join("done");
    if done.is_file() {
        return folder;
    }
    let _ = fs::remove_dir_all(&folder);
    for part in ["herbs", "works", "vocabulary"] {
        fs::create_dir_all(folder.join(part)).unwrap();
    }
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("corpus/vocabulary");
    for file in fs::read_dir(shipped).unwrap() {
        let file = file.unwrap();
        // The words for reading texts are the largest files, and nothing is read here.
        let name = file.file_name();
        if name == "phrases.yaml" || name == "headings.yaml" {
            continue;
        }
        fs::copy(
            file.path(),
            folder.join("vocabulary").join(file.file_name()),
        )
        .unwrap();
    }
    let mut random = Rng::with_seed(claims as u64);
    let names: Vec<String> = (0..WORKS).map(|n| format!("book-{}", letters(n))).collect();
    for (n, name) in names.iter().enumerate() {
        fs::write(
            folder.join(format!("works/{name}.yaml")),
            work(n, name, &names),
        )
        .unwrap();
    }
    // Drawn apart, so that the claims do not depend on the phrases.
    let mut texts = Texts {
        phrases: Phrases::shipped(),
        random: Rng::with_seed(!(claims as u64)),
    };
    let right: Vec<f64> = (0..WORKS).map(|_| 0.5 + random.f64() * 0.45).collect();
    // 4.85 claims a witness, on average.
    for n in 0..claims * 100 / (485 * WITNESSES) {
        let record = herb(n, &names, &right, &mut random, &mut texts);
        fs::write(
            folder.join(format!("herbs/herb-{}.yaml", letters(n))),
            record,
        )
        .unwrap();
    }
    fs::write(done, "").unwrap();
    folder
}

/// A number as four letters; v is left out, since it is typed for ü as u is.
fn letters(mut n: usize) -> String {
    let mut word = [b'a'; 4];
    for letter in word.iter_mut().rev() {
        *letter += (n % 21) as u8;
        n /= 21;
    }
    word.iter().map(|letter| char::from(*letter)).collect()
}

/// A number as a name of three characters.
fn han(mut n: usize) -> String {
    let all: Vec<char> = CHARACTERS.chars().collect();
    (0..3)
        .map(|_| {
            let one = all[n % all.len()];
            n /= all.len();
            one
        })
        .collect()
}

fn work(n: usize, name: &str, names: &[String]) -> String {
    let year = 100 + 8 * n;
    let mut text = format!(
        "id: {name}\ntitle: {{hant: 書{}, pinyin: shū {name}, english: book {name}}}\nauthor: invented\nkind: extant\n\
         date: {{from: {year}, to: {year}}}\n",
        han(n)
    );
    if let Some(older) = n.checked_sub(3) {
        let _ = write!(
            text,
            "draws_on:\n  - {{work: {}, why: invented}}\n",
            names[older]
        );
    }
    text
}

fn herb(n: usize, names: &[String], right: &[f64], random: &mut Rng, texts: &mut Texts) -> String {
    let truth = stand(random);
    let mut works: Vec<usize> = (0..names.len()).collect();
    random.shuffle(&mut works);
    works.truncate(WITNESSES);
    works.sort_unstable();
    let name = letters(n);
    let mut text = format!(
        "id: herb-{name}\nnames: {{hant: 藥{0}, hans: 药{0}, pinyin: yào {name}}}\nidentity: memory\nentries:\n",
        han(n)
    );
    let mut last = truth.clone();
    for (place, work) in works.iter().enumerate() {
        let copies = place > 0 && random.f64() < 0.5;
        let one = if copies {
            last.clone()
        } else if random.f64() < right[*work] {
            truth.clone()
        } else {
            stand(random)
        };
        let list = |of: &[&str], places: &[usize]| {
            places
                .iter()
                .map(|place| of[*place])
                .collect::<Vec<_>>()
                .join(", ")
        };
        let _ = write!(
            text,
            "  - work: {}\n    at: {{ordinal: {}, heading: {}}}\n    status: read\n    sayings:\n      \
             - {{flavour: [{}], nature: {}, toxicity: {}, wording: {}}}\n      - {{action: [{}], wording: {}}}\n",
            names[*work],
            n + 1,
            texts.heading(),
            list(&FLAVOURS, &one.flavours),
            NATURES[one.nature],
            TOXICITIES[one.toxicity],
            texts.wording(),
            list(&ACTIONS, &one.actions),
            texts.wording()
        );
        last = one;
    }
    text
}

fn stand(random: &mut Rng) -> Stand {
    let mut some = |of: usize| {
        let first = random.usize(..of);
        let second = random.usize(..of);
        if first == second || random.bool() {
            vec![first]
        } else {
            vec![first, second]
        }
    };
    let (flavours, actions) = (some(FLAVOURS.len()), some(ACTIONS.len()));
    Stand {
        flavours,
        actions,
        nature: random.usize(..NATURES.len()),
        toxicity: random.usize(..TOXICITIES.len()),
    }
}
