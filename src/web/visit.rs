//! One request: what was asked, of which corpus, in which language and script; and the addresses that keep these.

use std::borrow::Cow;

use super::asked::{Asked, encoded};
use super::posted::Posted;
use super::reply::{Answer, Halt};
use super::room::{Room, Shelf, State};
use super::words::{Lang, Word};
use crate::compare::{Relations, Selection};
use crate::corpus::{Corpus, Herb, HerbNames, Lookup, WorkId};
use crate::report::ask::{self, Failure};
use crate::report::view::{Labels, Tongue};
use crate::text::{Converter, Script};

/// A request on its way to an answer.
pub(crate) struct Visit<'r> {
    /// The room.
    pub room: &'r Room,
    /// The corpus as it is now.
    pub state: &'r State,
    /// The path as asked, decoded: `/herb/bohe`.
    pub path: &'r str,
    /// The row's path, in which it has names: `/herb/{id}`; the path itself where no row answers.
    pub pattern: &'r str,
    /// The names in the path with what stands for them.
    pub names: &'r [(String, String)],
    /// The query.
    pub asked: Asked,
    /// What a form sent.
    pub posted: Option<Posted>,
    /// The language of the interface.
    pub lang: Lang,
    /// Han text in this script.
    pub script: &'r Converter,
    /// Whether pinyin stands over names.
    pub pinyin: bool,
}

impl<'r> Visit<'r> {
    /// The language, script and pinyin that are asked for.
    pub(crate) fn new(
        room: &'r Room,
        state: &'r State,
        (path, pattern, names): (&'r str, &'r str, &'r [(String, String)]),
        asked: Asked,
        posted: Option<Posted>,
    ) -> Answer<Self> {
        let lang = match asked.one("lang") {
            Some("zh") => Lang::Zh,
            _ => Lang::En,
        };
        let script = match asked.one("script") {
            Some("hant") => Script::Hant,
            Some("hans") => Script::Hans,
            _ => Script::Recorded,
        };
        let pinyin = asked.one("pinyin").is_some();
        Ok(Self {
            room,
            state,
            path,
            pattern,
            names,
            asked,
            posted,
            lang,
            script: room.script(script)?,
            pinyin,
        })
    }

    /// The open corpus with its index.
    pub(crate) fn shelf(&self) -> &'r Shelf {
        &self.state.shelf
    }

    /// The corpus.
    pub(crate) fn corpus(&self) -> &'r Corpus {
        &self.state.shelf.library.corpus
    }

    /// Labels in the script asked for.
    pub(crate) fn labels(&self) -> Labels<'r> {
        Labels::new(self.corpus(), self.script).in_tongue(match self.lang {
            Lang::En => Tongue::English,
            Lang::Zh => Tongue::Chinese,
        })
    }

    /// Who speaks of whom.
    pub(crate) fn relations(&self) -> Answer<Relations<'r>> {
        let ties = self.shelf().library.ties()?;
        Ok(Relations::new(self.corpus(), ties))
    }

    /// The names of the herb that has an id.
    pub(crate) fn named(&self, id: &str) -> Option<&'r HerbNames> {
        match self.corpus().find_herb(id) {
            Lookup::One(herb) => Some(self.corpus().named(herb)),
            _ => None,
        }
    }

    /// A name or label, recorded in traditional characters, in the script asked for.
    pub(crate) fn han(&self, text: &str) -> String {
        self.script.convert_label(text).into_owned()
    }

    /// What the interface says, in the language and script asked for.
    pub(crate) fn say(&self, word: Word) -> Cow<'static, str> {
        let text = word.text(self.lang);
        match self.lang {
            Lang::En => Cow::Borrowed(text),
            Lang::Zh => Cow::Owned(self.script.convert_label(text).into_owned()),
        }
    }

    /// The same with words put into its gaps, one after another; `(s)` and `(es)` after a gap are left out where the number
    /// in it is one.
    pub(crate) fn fill(&self, word: Word, words: &[&str]) -> String {
        let said = self.say(word);
        let mut parts = said.split("{}");
        let mut whole = parts.next().unwrap_or_default().to_owned();
        let mut words = words.iter();
        for part in parts {
            let word = words.next().copied().unwrap_or_default();
            let many = |ending| if word == "1" { "" } else { ending };
            whole.push_str(word);
            whole.push_str(&part.replace("(s)", many("s")).replace("(es)", many("es")));
        }
        whole
    }

    /// One of two wordings, for what is said but once.
    pub(crate) fn either(&self, english: &'static str, chinese: &'static str) -> Cow<'static, str> {
        match self.lang {
            Lang::En => Cow::Borrowed(english),
            Lang::Zh => Cow::Owned(self.script.convert_label(chinese).into_owned()),
        }
    }

    /// What stands for a name of the path.
    pub(crate) fn name(&self, name: &str) -> &str {
        let named = self.names.iter().find(|(one, _)| one == name);
        named.map_or("", |(_, value)| value)
    }

    /// The works and years asked for.
    pub(crate) fn selection(&self) -> Answer<Selection> {
        let year = |name| self.asked.one(name).and_then(|year| year.parse().ok());
        let works = self.asked.list("works");
        Ok(ask::selection(
            self.corpus(),
            &works,
            year("since"),
            year("until"),
        )?)
    }

    /// The herb that the path calls by `{name}`. One called by another name than its id has its page at its id, and is told
    /// there as `as`, so that what sounds the same can be noted.
    pub(crate) fn herb(&self, name: &str) -> Answer<&'r Herb> {
        let word = self.name(name);
        let named = ask::herb(self.corpus(), word).map_err(Halt::missing)?;
        if named.herb.id == word {
            return Ok(named.herb);
        }
        Err(self.canonical(name, &named.herb.id, !named.notes.is_empty()))
    }

    /// The work that the path calls by `{name}`.
    pub(crate) fn work(&self, name: &str) -> Answer<WorkId> {
        let word = self.name(name);
        let id = ask::work(self.corpus(), word).map_err(Halt::missing)?;
        let canonical = &self.corpus().work(id).id;
        if canonical == word {
            return Ok(id);
        }
        Err(self.canonical(name, canonical, false))
    }

    /// The same address with the id in place of another name.
    fn canonical<'a>(&'a self, name: &str, id: &'a str, told: bool) -> Halt {
        let word = self.name(name);
        let path = self.path_with(|part| if part == name { id } else { self.name(part) });
        let mut pairs = self.asked.pairs().to_vec();
        if told && self.asked.one("as").is_none() {
            pairs.push(("as".to_owned(), word.to_owned()));
        }
        Halt::Elsewhere(format!("{path}{}", Asked::of(pairs).query()))
    }

    /// What must be told of the name by which the visitor came.
    pub(crate) fn notes(&self) -> Vec<String> {
        let named = self
            .asked
            .one("as")
            .map(|name| ask::herb(self.corpus(), name));
        match named {
            Some(Ok(named)) => named.notes,
            _ => Vec::new(),
        }
    }

    /// The pairs that every link keeps.
    fn kept(&self) -> impl Iterator<Item = (&str, &str)> {
        let kept = |name: &'static str| self.asked.one(name).map(|value| (name, value));
        ["lang", "script", "pinyin"].into_iter().filter_map(kept)
    }

    /// The address `path` with a query, keeping language, script and pinyin.
    pub(crate) fn href(&self, path: &str, query: &[(&str, &str)]) -> String {
        let all = query.iter().copied().chain(self.kept());
        let owned = all.map(|(name, value)| (name.to_owned(), value.to_owned()));
        format!("{path}{}", Asked::of(owned.collect()).query())
    }

    /// The address of an herb's page.
    pub(crate) fn herb_href(&self, id: &str) -> String {
        self.href(&format!("/herb/{}", encoded(id)), &[])
    }

    /// The address of a work's page.
    pub(crate) fn work_href(&self, id: &str) -> String {
        self.href(&format!("/works/{}", encoded(id)), &[])
    }

    /// This very address with some of its parameters set, or left out where they are `None`.
    pub(crate) fn here(&self, changes: &[(&str, Option<&str>)]) -> String {
        let changed = |name: &str| changes.iter().any(|(one, _)| *one == name);
        let stay = self
            .asked
            .pairs()
            .iter()
            .filter(|(name, _)| !changed(name))
            .cloned();
        let set = changes
            .iter()
            .filter_map(|(name, value)| value.map(|value| ((*name).to_owned(), value.to_owned())));
        format!(
            "{}{}",
            self.own_path(),
            Asked::of(stay.chain(set).collect()).query()
        )
    }

    /// This very address with one more value of a parameter, at the first page of what is found.
    pub(crate) fn with(&self, name: &str, value: &str) -> String {
        let stay = self
            .asked
            .pairs()
            .iter()
            .filter(|(one, other)| one != "skip" && !(one == name && other == value));
        let more = (name.to_owned(), value.to_owned());
        let all = Asked::of(stay.cloned().chain([more]).collect());
        format!("{}{}", self.own_path(), all.query())
    }

    /// This very address without one value of a parameter.
    pub(crate) fn without(&self, name: &str, value: &str) -> String {
        let stay = self
            .asked
            .pairs()
            .iter()
            .filter(|(one, other)| one != "skip" && !(one == name && other == value));
        format!(
            "{}{}",
            self.own_path(),
            Asked::of(stay.cloned().collect()).query()
        )
    }

    /// The JSON of this page.
    pub(crate) fn twin(&self) -> String {
        let path = match self.own_path().as_str() {
            "/" => "/api/suggest".to_owned(),
            path => format!("/api{path}"),
        };
        let pairs = self.asked.pairs().iter();
        let pairs = pairs.filter(|(name, _)| name != "pinyin");
        format!("{path}{}", Asked::of(pairs.cloned().collect()).query())
    }

    /// The path of this page, encoded.
    pub(crate) fn own_path(&self) -> String {
        self.path_with(|name| self.name(name))
    }

    /// The row's path with something for each of its names, encoded.
    fn path_with<'a>(&'a self, value: impl Fn(&str) -> &'a str) -> String {
        let parts = self.pattern.split('/').map(|part| {
            let name = part
                .strip_prefix('{')
                .and_then(|part| part.strip_suffix('}'));
            name.map_or_else(|| encoded(part), |name| encoded(value(name)))
        });
        parts.collect::<Vec<_>>().join("/")
    }

    /// The hidden fields by which a form that is read by GET keeps language, script and pinyin.
    pub(crate) fn kept_fields(&self) -> maud::Markup {
        maud::html! { @for (name, value) in self.kept() { input type="hidden" name=(name) value=(value); } }
    }

    /// The hidden field that a form which is sent by POST must hold.
    pub(crate) fn token_field(&self) -> maud::Markup {
        maud::html! { input type="hidden" name="token" value=(self.room.settings.token); }
    }

    /// A whole number of the query.
    pub(crate) fn whole(&self, name: &str, default: usize, most: usize) -> Answer<usize> {
        let Some(value) = self.asked.one(name) else {
            return Ok(default);
        };
        match value.parse::<usize>() {
            Ok(number) if number <= most => Ok(number),
            _ => Err(Failure::new(format!("`{name}` is `{value}`; expected 0 to {most}")).into()),
        }
    }
}
