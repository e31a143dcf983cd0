//! Text with its languages told and, where it is wished, pinyin over names.

use std::collections::HashMap;

use maud::{Markup, html};
use pinyin::ToPinyin;

use super::Handout;
use crate::report::chart::runs;

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

/// The pinyin of herbs and works by their records; of other names by the first sound of each character.
fn sounds(handout: &Handout) -> HashMap<String, String> {
    let mut sounds = HashMap::new();
    for one in &handout.herbs {
        let herb = &one.comparison.herb;
        for also in &herb.also {
            let parts = also
                .as_str()
                .to_pinyin()
                .map(|one| one.map(pinyin::Pinyin::with_tone));
            if let Some(parts) = parts.collect::<Option<Vec<_>>>() {
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
