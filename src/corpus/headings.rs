//! Which drug a book's heading means, where it is not simply the drug of that name.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// `corpus/vocabulary/headings.yaml`.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HeadingFile {
    /// All headings that need a word.
    pub headings: Vec<HeadingRecord>,
}

/// How a heading comes to mean a drug of another name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum How {
    /// The plain text lost or replaced a character.
    Mending,
    /// A book calls the drug so.
    Byname,
}

/// One heading, in simplified characters.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HeadingRecord {
    /// The heading, without numbers and what stands in brackets.
    pub name: String,
    /// The usual name of the drug that it means; left out where the heading is that name.
    #[serde(default)]
    #[schemars(with = "String")]
    pub herb: Option<String>,
    /// False where the article treats no drug, or several at once.
    #[serde(default = "yes")]
    pub drug: bool,
    /// How the heading comes to mean it.
    #[serde(default)]
    #[schemars(with = "How")]
    pub how: Option<How>,
    /// The articles for which this holds, as `work:ordinal`; all where it is left out.
    #[serde(default)]
    pub only: Vec<String>,
    /// The evidence: which book equates them, or what was lost.
    #[serde(default)]
    #[schemars(with = "String")]
    pub why: Option<String>,
    /// What is uncertain about the identity.
    #[serde(default)]
    #[schemars(with = "String")]
    pub uncertain: Option<String>,
}

const fn yes() -> bool {
    true
}

/// The headings by name.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Headings {
    by_name: BTreeMap<String, Vec<HeadingRecord>>,
}

impl Headings {
    pub(super) fn new(file: HeadingFile) -> Self {
        let mut by_name: BTreeMap<String, Vec<HeadingRecord>> = BTreeMap::new();
        for heading in file.headings {
            by_name
                .entry(heading.name.clone())
                .or_default()
                .push(heading);
        }
        Self { by_name }
    }

    /// Names that mean the drug of another name in every article: by-names, and what the plain texts made of a name. Of
    /// a name of which one character is left nothing can be said outside its own article.
    pub fn everywhere(&self) -> impl Iterator<Item = &str> {
        let all = self.by_name.values().flatten();
        all.filter(|one| one.herb.is_some() && one.drug && one.only.is_empty())
            .map(|one| one.name.as_str())
            .filter(|name| name.chars().count() > 1)
    }

    /// The drug that `name` means in every article, where it is not the drug of that name: see [`Headings::everywhere`].
    #[must_use]
    pub fn everywhere_means(&self, name: &str) -> Option<&str> {
        let known = self
            .by_name
            .get(name)
            .filter(|_| name.chars().count() > 1)?;
        let general = known.iter().find(|one| one.only.is_empty() && one.drug)?;
        general.herb.as_deref()
    }

    /// The drug that the heading `name` of article `ordinal` of `work` means: `None` where the article
    /// treats no drug, the name itself where nothing else is known.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let headings = &corpus.reading_words().unwrap().headings;
    /// assert_eq!(headings.drug("浓朴", "bencao-beiyao", 1), Some("厚朴"));
    /// assert_eq!(headings.drug("薄荷", "bencao-beiyao", 1), Some("薄荷"));
    /// ```
    #[must_use]
    pub fn drug<'n>(&'n self, name: &'n str, work: &str, ordinal: u32) -> Option<&'n str> {
        let article = format!("{work}:{ordinal}");
        let known = self.by_name.get(name).map_or(&[][..], Vec::as_slice);
        let special = known.iter().find(|one| one.only.contains(&article));
        let general = || known.iter().find(|one| one.only.is_empty());
        match special.or_else(general) {
            Some(one) if !one.drug => None,
            Some(one) => Some(one.herb.as_deref().unwrap_or(name)),
            None => Some(name),
        }
    }
}
