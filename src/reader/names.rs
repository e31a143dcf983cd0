//! Names of books and persons as they are quoted, and the works of the corpus that they mean.

use std::collections::HashMap;

use crate::corpus::Corpus;
use crate::text::Converter;

/// Who makes a statement.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Speaker {
    /// The work that is read.
    Work,
    /// Another, by the id of a work of the corpus or, where none is known, as written.
    Other(String),
}

/// The names by which works are quoted.
#[derive(Debug)]
pub(super) struct Names {
    by_name: HashMap<String, String>,
    /// The works' ids, oldest first.
    order: Vec<String>,
    longest: usize,
}

/// Words before a name that are no part of it.
pub(super) const BEFORE_NAME: [&str; 16] = [
    "谨按", "按", "案", "又", "故", "而", "然", "今", "昔", "盖", "考", "据", "惟", "但", "时",
    "如",
];
/// What stands before 云 or 曰 and is no name: 一云, 又云, 名曰.
pub(super) const NO_NAMES: [&str; 40] = [
    "一", "或", "又", "亦", "名", "号", "问", "答", "俗", "所", "诗", "谚", "人", "此", "自", "虽",
    "不", "对", "注", "有", "是", "客", "故", "盖", "何", "乃", "可", "或问", "余", "予", "传",
    "世", "吾", "因", "叹", "谓", "常", "前", "后", "下文",
];

impl Names {
    /// The names that a corpus knows.
    pub fn new(corpus: &Corpus, hans: &Converter) -> Self {
        let mut by_name = HashMap::new();
        for work in corpus.works() {
            let titles = std::iter::once(&work.hant).chain(&work.cited_as);
            for title in titles {
                by_name
                    .entry(hans.convert(title).into_owned())
                    .or_insert_with(|| work.id.clone());
            }
        }
        let longest = by_name.keys().map(|name| name.chars().count()).max();
        Self {
            order: corpus.works().iter().map(|work| work.id.clone()).collect(),
            longest: longest.unwrap_or(0),
            by_name,
        }
    }

    /// The work that `name` means.
    pub fn work(&self, name: &str) -> Option<&str> {
        // 宗□ for 宗奭: the lost character cannot be looked up.
        let name = name.trim_matches('□');
        self.by_name
            .get(name)
            .or_else(|| self.by_name.get(name.trim_end_matches(['氏', '子'])))
            .map(String::as_str)
    }

    fn younger(&self, id: &str, reading: &str) -> bool {
        let place = |id: &str| self.order.iter().position(|work| work == id);
        matches!((place(id), place(reading)), (Some(id), Some(reading)) if id > reading)
    }

    /// Who is meant by `name`, written as `written`, in the work `reading`.
    pub fn speaker(&self, name: &str, written: &str, reading: &str) -> Speaker {
        match self.work(name) {
            Some(id) if id == reading => Speaker::Work,
            // A work quotes none that is younger: the short name means another.
            Some(id) if self.younger(id, reading) => Speaker::Other(written.to_owned()),
            Some(id) => Speaker::Other(id.to_owned()),
            None => Speaker::Other(written.to_owned()),
        }
    }

    /// Splits `text` into known names that stand side by side or between pauses; `None` where
    /// anything else is in it.
    pub fn all_known(&self, text: &[char]) -> Option<Vec<String>> {
        let mut names = Vec::new();
        let mut at = 0;
        while at < text.len() {
            if "、，并及《》·".contains(text[at]) {
                at += 1;
                continue;
            }
            let reach = self.longest.min(text.len() - at);
            let length = (1..=reach)
                .rev()
                .find(|length| self.known(&text[at..at + length]))?;
            names.push(text[at..at + length].iter().collect());
            at += length;
        }
        (!names.is_empty()).then_some(names)
    }

    fn known(&self, name: &[char]) -> bool {
        let name: String = name.iter().collect();
        self.by_name.contains_key(&name)
    }
}
