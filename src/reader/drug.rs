//! Which drug an article treats: its names as the text may call it, and the herb of the corpus.

use std::collections::{HashMap, HashSet};

use pinyin::ToPinyin;

use super::channel;
use super::passage::{BREAK, Glyph};
use super::saying::ArticleReading;
use crate::corpus::{AssembleError, Corpus, Headings, NewHerb, Substance, Target};
use crate::text::{Converter, Script, fold};

/// The drug of one article.
#[derive(Debug)]
pub(super) struct Drug {
    /// Its name, in simplified characters.
    pub name: String,
    /// The names by which the article may call it, longest first.
    pub names: Vec<Vec<char>>,
}

impl Drug {
    /// The drug named by a heading, or, where the heading names a class, by the opening of the article:
    /// 川椒（專入肺…）。
    pub fn new(heading: &str, body: &[Glyph]) -> Self {
        let name = plain(heading);
        let mut names: Vec<Vec<char>> = name
            .split(|c: char| !c.is_alphabetic())
            .map(|part| part.chars().collect::<Vec<char>>())
            .filter(|part| !part.is_empty())
            .collect();
        let opening = opening(body);
        let classed = body
            .windows(2)
            .any(|pair| pair[0].read == '（' && pair[1].read == '专');
        let name = match &opening {
            Some(opened) if classed => {
                names.clear();
                opened.iter().collect()
            }
            _ => name,
        };
        names.extend(opening);
        names.sort_by_key(|name| std::cmp::Reverse(name.len()));
        Self { name, names }
    }
}

/// A heading without numbers and what stands in brackets: ５.金屑, 田螺〈大寒〉.
fn plain(heading: &str) -> String {
    let mut depth = 0;
    let mut name = String::new();
    for c in heading.chars() {
        match c {
            '〈' | '（' | '[' | '［' | '〔' | '(' => depth += 1,
            '〉' | '）' | ']' | '］' | '〕' | ')' => depth -= 1,
            _ if depth > 0 || c.is_ascii_punctuation() || c.is_numeric() && c != '□' => {}
            '０'..='９' | '。' | '．' => {}
            c => name.push(c),
        }
    }
    name
}

/// The words that open an article, where they can be a name.
fn opening(body: &[Glyph]) -> Option<Vec<char>> {
    let from = if body.first().is_some_and(|open| open.read == '（') {
        body.iter().position(|glyph| glyph.read == BREAK)? + 1
    } else {
        0
    };
    let end = body[from..]
        .iter()
        .position(|glyph| "，。：；（\n".contains(glyph.read))?;
    let words = channel::chars(&body[from..from + end]);
    let property = |c: &char| "味气性辛甘酸苦咸淡涩寒热温平凉冷毒主治入归".contains(*c);
    let named = (1..=5).contains(&end)
        && words.iter().all(|c| c.is_alphabetic())
        && !words.iter().any(property);
    named.then_some(words)
}

/// Finds the herbs of a corpus by the names that headings use, and names new ones.
pub struct Herbs<'c> {
    headings: &'c Headings,
    by_name: HashMap<String, Option<String>>,
    /// The herb under which an article stands already, by work and ordinal.
    placed: HashMap<(String, u32), String>,
    ids: HashSet<String>,
    made: HashMap<String, NewHerb>,
    hant: Converter,
    hans: Converter,
}

impl<'c> Herbs<'c> {
    /// The names of all herbs of `corpus`; a name that two herbs bear finds none, unless it is the main
    /// name of one.
    ///
    /// # Errors
    /// When an embedded record or the embedded words are faulty.
    pub fn new(corpus: &'c Corpus) -> Result<Self, AssembleError> {
        let hans = Converter::new(Script::Hans).unwrap_or_default();
        let mut by_name: HashMap<String, Option<String>> = HashMap::new();
        let mut put = |name: &str, id: &str| {
            let key = fold(&hans.convert(name));
            by_name
                .entry(key)
                .and_modify(|known| {
                    if known.as_deref() != Some(id) {
                        *known = None;
                    }
                })
                .or_insert_with(|| Some(id.to_owned()));
        };
        for herb in corpus.names() {
            for name in &herb.names.also {
                put(name, &herb.id);
            }
        }
        for herb in corpus.names() {
            for name in [&herb.names.hant, &herb.names.hans] {
                by_name.insert(fold(&hans.convert(name)), Some(herb.id.clone()));
            }
        }
        Ok(Self {
            headings: &corpus.reading_words()?.headings,
            by_name,
            placed: placed(corpus)?,
            ids: corpus.names().iter().map(|herb| fold(&herb.id)).collect(),
            made: HashMap::new(),
            hant: Converter::new(Script::Hant).unwrap_or_default(),
            hans,
        })
    }

    /// The herb that an article belongs to; `None` where it treats no drug, where a character of its
    /// name is lost, or where the name is borne by several.
    pub fn target(&mut self, reading: &ArticleReading, work: &str) -> Option<Target> {
        // Where a person has put an article it stays.
        let article = (work.to_owned(), reading.ordinal);
        if let Some(id) = self.placed.get(&article) {
            return Some(Target::Known(id.clone()));
        }
        let drug = self.headings.drug(&reading.drug, work, reading.ordinal)?;
        let drug = drug.to_owned();
        self.named(&drug, &reading.section)
    }

    fn named(&mut self, name: &str, section: &str) -> Option<Target> {
        if name.is_empty() || name.contains('□') || !name.chars().all(char::is_alphabetic) {
            return None;
        }
        let hans = self.hans.convert(name).into_owned();
        match self.by_name.get(&fold(&hans)) {
            Some(Some(id)) => return Some(Target::Known(id.clone())),
            Some(None) => return None,
            None => {}
        }
        if let Some(made) = self.made.get(&hans) {
            return Some(Target::New(made.clone()));
        }
        let syllables: Option<Vec<_>> = hans.as_str().to_pinyin().collect();
        let syllables = syllables?;
        let plain: String = syllables
            .iter()
            .map(|syllable| syllable.plain().replace('ü', "v"))
            .collect();
        let made = NewHerb {
            id: self.free_id(&plain),
            hant: self.hant.convert(&hans).into_owned(),
            pinyin: syllables
                .iter()
                .map(|syllable| syllable.with_tone())
                .collect(),
            substance: substance(section),
            hans: hans.clone(),
        };
        self.ids.insert(fold(&made.id));
        self.made.insert(hans, made.clone());
        Some(Target::New(made))
    }

    /// An id that no herb has: homophones are told apart by a letter.
    fn free_id(&self, plain: &str) -> String {
        // Ids that fold to one key would be one name.
        let free = |id: &String| !self.ids.contains(&fold(id));
        let numbered = (2_u32..).map(|n| format!("{plain}-{}", letters(n)));
        std::iter::once(plain.to_owned())
            .chain(numbered)
            .find(free)
            .unwrap_or_default()
    }
}

fn placed(corpus: &Corpus) -> Result<HashMap<(String, u32), String>, AssembleError> {
    let mut placed = HashMap::new();
    for herb in corpus.herbs()? {
        for entry in &herb.entries {
            if let Some(ordinal) = entry.at.as_ref().and_then(|at| at.ordinal) {
                let work = corpus.work(entry.work).id.clone();
                placed
                    .entry((work, ordinal))
                    .or_insert_with(|| herb.id.clone());
            }
        }
    }
    Ok(placed)
}

/// 2 is b, 26 z, 27 za: a number in letters, since ids have no digits.
fn letters(n: u32) -> String {
    let last = char::from(b'a' + ((n - 1) % 26) as u8);
    match (n - 1) / 26 {
        0 => last.to_string(),
        more => format!("{}{last}", "z".repeat(more as usize)),
    }
}

/// What a drug is made of, where the section of the book tells.
pub(super) fn substance(section: &str) -> Option<Substance> {
    let any = |chars: &str| section.contains(|c| chars.contains(c));
    if any("玉石金土水火卤") {
        Some(Substance::Mineral)
    } else if any("兽虫鱼禽介鳞人畜獸蟲魚") {
        Some(Substance::Animal)
    } else if any("草木果菜谷米穀") {
        Some(Substance::Plant)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::{Herbs, plain};
    use crate::corpus::{Target, embedded};
    use pretty_assertions::assert_eq;

    #[test]
    fn numbers_and_brackets_are_no_part_of_a_name() {
        assert_eq!(plain("５.金屑"), "金屑");
        assert_eq!(plain("田螺〈大寒〉"), "田螺");
        assert_eq!(plain("（白赤）芍药"), "芍药");
    }

    #[test]
    fn a_known_herb_is_found_and_a_new_one_gets_a_free_id() {
        let corpus = embedded().unwrap();
        let mut herbs = Herbs::new(&corpus).unwrap();
        assert_eq!(herbs.named("薄荷", ""), Some(Target::Known("bohe".into())));
        let Some(Target::New(made)) = herbs.named("园叶草", "草部") else {
            panic!("no herb is called so")
        };
        assert_eq!(
            (made.id.as_str(), made.pinyin.as_str()),
            ("yuanyecao", "yuányècǎo")
        );
        assert_eq!(herbs.named("黄□", ""), None);
    }
}
