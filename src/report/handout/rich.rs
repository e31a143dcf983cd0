//! Text with its languages told and, where it is wished, pinyin over names.

use std::collections::HashMap;

use maud::{Markup, html};
use pinyin::{ToPinyin, ToPinyinMulti};

use super::Handout;
use crate::report::chart::runs;
use crate::text::fold;

/// Writes text into the page.
pub(super) struct Rich {
    names: &'static str,
    sounds: Option<HashMap<String, String>>,
}

impl Rich {
    pub fn new(handout: &Handout) -> Self {
        Self {
            names: handout.scales.names,
            sounds: handout.ruby.then(|| sounds(handout)),
        }
    }

    /// `words` with every run of Han characters marked as such; names that are known get their pinyin.
    pub fn text(&self, words: &str) -> Markup {
        html! {
            @for (han, run) in runs(words) {
                @if han { (self.name(&run)) } @else { (run) }
            }
        }
    }

    /// A name beside which its pinyin stands already.
    pub fn plain(&self, name: &str) -> Markup {
        html! { span lang=(self.names) { (name) } }
    }

    fn name(&self, run: &str) -> Markup {
        let sound = self.sounds.as_ref().and_then(|sounds| sounds.get(run));
        html! {
            @if let Some(sound) = sound {
                ruby { span lang=(self.names) { (run) } rp { " (" } rt lang="zh-Latn-pinyin" { (sound) } rp { ")" } }
            } @else {
                span lang=(self.names) { (run) }
            }
        }
    }
}

/// The pinyin of herbs and works by their records. In other names of an herb each character sounds as in the herb's own name where
/// it stands there (薄 in 南薄荷), else by its first sound.
fn sounds(handout: &Handout) -> HashMap<String, String> {
    let mut sounds = HashMap::new();
    for one in &handout.herbs {
        let herb = &one.comparison.herb;
        let own = syllables(&herb.name, &herb.pinyin);
        for also in &herb.also {
            let sound = |c: char| {
                let first = || Some(c.to_pinyin()?.with_tone().to_owned());
                own.get(&c).cloned().or_else(first)
            };
            if let Some(parts) = also.chars().map(sound).collect::<Option<Vec<_>>>() {
                sounds.insert(also.clone(), parts.join(" "));
            }
        }
        sounds.insert(herb.name.clone(), herb.pinyin.clone());
    }
    for one in handout.lesson.iter().flat_map(|lesson| &lesson.disputes) {
        sounds.insert(one.herb.name.clone(), one.herb.pinyin.clone());
    }
    for book in &handout.books {
        sounds.insert(book.work.title.clone(), book.work.pinyin.clone());
    }
    sounds
}

/// The syllables of a name's pinyin, each under its character, as far as the readings of the characters tell them apart.
fn syllables(name: &str, pinyin: &str) -> HashMap<char, String> {
    let mut rest: Vec<char> = pinyin.chars().filter(|c| c.is_alphabetic()).collect();
    let mut syllables = HashMap::new();
    for c in name.chars() {
        let readings = c.to_pinyin_multi().into_iter().flatten();
        // A reading without its tone fits too: 荷 is hé, and he in 薄荷.
        let letters = |reading: &str| reading.chars().count();
        let fits = readings.map(|one| one.plain()).find(|plain| {
            let begun: String = rest.iter().take(letters(plain)).collect();
            fold(&begun) == fold(plain)
        });
        let Some(plain) = fits else {
            break;
        };
        let syllable = rest.drain(..letters(plain)).collect();
        syllables.insert(c, syllable);
    }
    syllables
}

#[cfg(test)]
mod tests {
    use super::syllables;
    use pretty_assertions::assert_eq;

    #[test]
    fn a_name_tells_how_its_characters_sound() {
        let mint = syllables("薄荷", "bòhe");
        assert_eq!((&*mint[&'薄'], &*mint[&'荷']), ("bò", "he"));
        let angelica = syllables("當歸", "dāngguī");
        assert_eq!((&*angelica[&'當'], &*angelica[&'歸']), ("dāng", "guī"));
        assert!(syllables("薄荷", "mint").is_empty());
    }
}
