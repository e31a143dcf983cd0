//! The reader of one clause, word by word.

use super::clause::{Clause, Grammar, Value};
use super::words::{Degree, Word, with_degree};
use crate::claim::ValueId;
use crate::corpus::Scope;

pub(super) struct Reader<'r, 'w> {
    grammar: &'r Grammar<'w>,
    text: &'r [char],
    at: usize,
    clause: Clause,
    limit: Scope,
    degree: Option<Degree>,
    /// Whether nothing but the drug's name was read so far.
    fresh: bool,
    /// The place behind the last value.
    said: usize,
    /// Whether a word was read that may be a verb: 散, 潤.
    acts: bool,
}

impl<'r, 'w> Reader<'r, 'w> {
    pub fn new(grammar: &'r Grammar<'w>, text: &'r [char]) -> Self {
        Self {
            grammar,
            text,
            at: 0,
            clause: Clause {
                transparent: true,
                ..Clause::default()
            },
            limit: Scope::default(),
            degree: None,
            fresh: true,
            said: 0,
            acts: false,
        }
    }

    /// Reads the clause from its first word on.
    pub fn read(mut self) -> Clause {
        self.opening();
        self.items();
        self.clause
    }

    fn peek(&self) -> (Word, usize) {
        self.grammar.next(&self.text[self.at..], self.fresh)
    }

    /// Words before the values that tell of which thing they are said: the drug's name in another form
    /// (大茴 for 茴香), its look (色白, 肉白), or a kind that only this clause names.
    fn opening(&mut self) {
        let known = |word: &Word| !matches!(word, Word::Other | Word::Quality | Word::Close);
        let (mut first, length) = self.peek();
        if matches!(first, Word::Degree(_))
            && matches!(
                self.grammar.words.longest(&self.text[length..]).0,
                Word::Other
            )
        {
            // 大茴, 小茴.
            first = Word::Other;
        }
        let part = matches!(first, Word::Part(_))
            && self.text.len() > length
            && matches!(
                self.grammar.words.longest(&self.text[length..]).0,
                Word::Other
            );
        if self.text.is_empty() || known(&first) && !part {
            return;
        }
        let Some(skip) = (1..=4.min(self.text.len() - 1))
            .find(|skip| known(&self.grammar.words.longest(&self.text[*skip..]).0))
        else {
            return;
        };
        let before = &self.text[..skip];
        let (next, _) = self.grammar.words.longest(&self.text[skip..]);
        let look = before.iter().any(|c| "白赤黄黑青紫绿色香".contains(*c))
            && next == Word::Topic
            && self.text[skip] != '气';
        if look {
            self.at = skip;
            self.clause.looks = true;
        } else if before
            .iter()
            .any(|c| self.grammar.names.iter().any(|name| name.contains(c)))
        {
            self.at = skip;
            self.clause.itself = true;
            self.clause.opened = skip;
        } else if matches!(next, Word::Flavour(_) | Word::Degree(_))
            || next == Word::Topic && self.text[skip] != '气'
        {
            let kind: String = before.iter().collect();
            if before.iter().all(|c| c.is_alphabetic()) && kind_like(before) {
                self.at = skip;
                self.clause.kind_named = true;
                self.limit.kind = Some(kind);
            }
        }
    }

    fn items(&mut self) {
        while self.at < self.text.len() {
            let (word, length) = self.peek();
            if !self.item(&word, length) {
                self.clause.read = self.at;
                self.finish();
                return;
            }
            self.at += length;
            if matches!(word, Word::Flavour(_) | Word::Nature(_) | Word::Toxicity(_)) {
                self.said = self.at;
            }
            if !matches!(word, Word::Degree(_)) {
                self.fresh &= matches!(word, Word::Itself | Word::Join | Word::Pause);
            }
        }
        self.clause.whole = self.degree.is_none();
        self.clause.read = self.at;
        self.finish();
    }

    /// A part or preparation with no value behind it is the subject of the clauses that follow.
    fn finish(&mut self) {
        if self.clause.values.is_empty() && !self.limit.is_whole() && !self.clause.kind_named {
            if self.clause.whole {
                self.clause.subject = Some(self.limit.clone());
            } else if self.text.first() == Some(&'其') {
                self.clause.about = Some(self.limit.clone());
            }
        }
        let facets: Vec<usize> = self
            .clause
            .values
            .iter()
            .map(|(_, value)| value.facet())
            .collect();
        let one_facet = facets.iter().all(|facet| Some(facet) == facets.first());
        // 辛散氣 is what the flavour does; 性澀 is a quality.
        let stated = self.clause.announced || self.clause.itself;
        if one_facet && self.clause.qualified && !stated && facets.len() == 1 {
            self.clause.whole = false;
        }
        let after = self.text.get(self.said..).unwrap_or_default();
        let because = after.iter().take(2).any(|c| "能以可胜".contains(*c));
        let acts = after
            .first()
            .is_some_and(|c| "燥泄泻散润缓敛收坚软渗降补和入".contains(*c));
        let plain = facets == [0] && acts;
        // 甘淡入脾 states; 苦入心 argues.
        let enters = self.clause.channel_at == Some(self.said) && facets.len() > 1;
        self.clause.reason = !enters
            && !self.clause.whole
            && !facets.is_empty()
            && !self.clause.announced
            && (because || plain);
        let text: String = self.text.iter().collect();
        self.clause.only_rough = facets == [0] && (text.contains("性涩") || text == "涩");
    }

    /// Takes one word in; false where it belongs to no property statement.
    fn item(&mut self, word: &Word, length: usize) -> bool {
        match word {
            Word::Flavour(_) | Word::Nature(_) if self.acts && !self.clause.announced => {
                return false;
            }
            Word::Flavour(value) => self.flavour(*value, length),
            Word::Nature(value) => return self.nature(*value, length),
            Word::Toxicity(value) => {
                self.degree = None;
                self.push(Value::Toxicity(*value));
            }
            Word::Degree(degree) => return self.degree(*degree, length),
            Word::Topic => {
                // 溫氣散寒: right behind a bare value 氣 announces nothing.
                // 甘鹹氣寒 goes on; 溫氣散寒 acts.
                let next = self.grammar.words.longest(&self.text[self.at + length..]).0;
                let goes_on = matches!(next, Word::Nature(_) | Word::Degree(_) | Word::Flavour(_));
                let qi = self.text[self.at] == '气' && !goes_on;
                let joined = self
                    .text
                    .get(self.at.wrapping_sub(1))
                    .is_some_and(|c| "、而且又兼".contains(*c));
                let behind = !self.clause.values.is_empty()
                    && !self.clause.announced
                    && !joined
                    && qi
                    && length == 1;
                self.clause.qualified |= behind;
                self.acts |= behind;
                self.clause.announced |= !behind;
            }
            Word::Join | Word::Pause | Word::Quality | Word::Close | Word::Used => {
                return self.between(word, length);
            }
            Word::Itself => {
                if !self.fresh {
                    return self.quality_behind();
                }
                self.clause.itself = true;
                self.clause.opened = self.at + length;
            }
            Word::Hedge => self.clause.hedged = true,
            Word::Not => {
                // 性溫不潤 denies what follows, not what was said.
                self.clause.denied = self.clause.values.is_empty();
                let rest = self.text.len() - self.at;
                if self.clause.values.is_empty() || rest > 2 {
                    return false;
                }
                self.at = self.text.len() - length;
            }
            Word::Part(value) => return self.part(*value, length),
            Word::Preparation(value) => return self.preparation(*value, length),
            Word::Enter => return self.enter(),
            Word::Lost => self.clause.lost = true,
            Word::Other => return false,
        }
        true
    }

    fn push(&mut self, value: Value) {
        self.clause.values.push((self.limit.clone(), value));
    }

    fn flavour(&mut self, value: ValueId, length: usize) {
        let mut degree = self.degree.take();
        // 甘多辛少, 苦勝: the degree stands behind its flavour.
        let behind = self.text.get(self.at + length);
        let next = self.text.get(self.at + length + 1);
        if let Some(sign) = behind
            && degree.is_none()
            && (next.is_none_or(|next| !"之食服用".contains(*next)))
        {
            match sign {
                '少' | '轻' => degree = Some(Degree::Slight),
                '甚' | '极' | '胜' | '重' | '烈' => degree = Some(Degree::Great),
                _ => {}
            }
            self.at += usize::from("少轻甚极胜重烈多".contains(*sign));
        }
        self.push(Value::Flavour(value, degree));
    }

    fn nature(&mut self, value: ValueId, length: usize) -> bool {
        // 寒熱 without a word for nature before it is an illness.
        let next = self.text.get(self.at + length);
        if !self.clause.announced && self.clause.values.is_empty() && self.limit.is_whole() {
            let illness = self.text[self.at] == '寒' && next == Some(&'热')
                || self.text[self.at] == '热' && next == Some(&'寒');
            if illness {
                return false;
            }
        }
        let degree = self.degree.take();
        self.push(Value::Nature(with_degree(
            self.grammar.natures,
            value,
            degree,
        )));
        true
    }

    fn degree(&mut self, degree: Degree, length: usize) -> bool {
        // A degree belongs to the value behind it, over a joining word: 微兼辛.
        let mut at = self.at + length;
        while at < self.text.len() {
            let (word, length) = self.grammar.words.longest(&self.text[at..]);
            match word {
                Word::Flavour(_) | Word::Nature(_) => {
                    self.degree = Some(degree);
                    return true;
                }
                Word::Join | Word::Degree(_) | Word::Topic => at += length,
                Word::Lost => {
                    self.clause.lost = true;
                    return true;
                }
                _ => break,
            }
        }
        // 多, 少, 甚 behind a value; 厚薄 of flavour.
        self.quality_behind()
    }

    /// Words that only continue: allowed where something was read, or nothing but the opening.
    fn between(&mut self, word: &Word, length: usize) -> bool {
        match word {
            Word::Used => !self.limit.is_whole() || self.quality_behind(),
            Word::Close => {
                let ends = self.at + length >= self.text.len();
                !self.clause.values.is_empty() && ends
                    || self.clause.values.is_empty() && ends && self.at > 0
            }
            // 與, 以 open no statement by themselves.
            Word::Join => self.at > 0 || !"与及以并是为则兼".contains(self.text[self.at]),
            Word::Pause => self.at > 0,
            Word::Quality => {
                self.clause.qualified |= !self.clause.values.is_empty();
                // 溫中散寒 acts; 辛溫，升 and 氣味俱厚 state.
                self.acts |= length == 1
                    && !"厚浓薄轻重清浊升降浮沉阴阳香臭腥腻".contains(self.text[self.at]);
                true
            }
            _ => true,
        }
    }

    /// Whether a word that is no value can stand here as a quality: only behind something read.
    fn quality_behind(&self) -> bool {
        (self.clause.announced || !self.clause.values.is_empty())
            && "甚多少极最轻重薄烈".contains(self.text[self.at])
    }

    fn part(&mut self, value: ValueId, length: usize) -> bool {
        let next = self.text.get(self.at + length);
        // 五臟及腸: parts named together are one subject.
        let together = self.limit.part.is_some() && self.clause.values.is_empty();
        if together
            && matches!(
                self.text.get(self.at.wrapping_sub(1)),
                Some('及' | '、' | '与' | '并')
            )
        {
            return true;
        }
        // 平肝: behind a bare value a part is what is acted on, but for a list of parts: 皮甘肉酸.
        let pause = self.text.get(self.at.wrapping_sub(1)) == Some(&'、');
        let listed = self.limit.part.is_some() || pause || self.clause.announced;
        let named = self.fresh || !self.clause.values.is_empty() && listed;
        if !named
            || next.is_some_and(|next| "肉气血脉骨筋心肝肺肾".contains(*next))
                && self.clause.values.is_empty()
                && length > 1
        {
            return false;
        }
        self.limit = Scope {
            part: Some(value),
            ..Scope::default()
        };
        self.degree = None;
        true
    }

    fn preparation(&mut self, value: ValueId, length: usize) -> bool {
        // 生肌, 熟地: only before a value, 用, 者 or 則.
        let (next, _) = self
            .grammar
            .words
            .longest(&self.text[(self.at + length).min(self.text.len())..]);
        let follows = matches!(
            next,
            Word::Flavour(_)
                | Word::Nature(_)
                | Word::Toxicity(_)
                | Word::Degree(_)
                | Word::Topic
                | Word::Used
                | Word::Part(_)
                | Word::Join
        ) || self.at + length == self.text.len();
        if !follows || !self.fresh && self.clause.values.is_empty() {
            return false;
        }
        let part = if self.clause.values.is_empty() {
            self.limit.part
        } else {
            None
        };
        self.limit = Scope {
            part,
            preparation: Some(value),
            kind: None,
        };
        true
    }

    fn enter(&mut self) -> bool {
        self.clause.channel_at.get_or_insert(self.at);
        false
    }
}

/// Whether words before a value name a kind, and not an action or a condition.
fn kind_like(before: &[char]) -> bool {
    matches!(before.last(), Some('者' | '种' | '产'))
}
