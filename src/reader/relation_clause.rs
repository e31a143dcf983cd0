//! The grammar of clauses on other drugs: 惡曾青、硝石；茯苓為之使；得火良；與甘草相反.

use super::drug_names::{Named, Recognised};
use super::passage::{Glyph, LOST, written};
use super::relation::{Related, Relations, Segment};
use super::saying::Doubt;
use crate::corpus::{Relation, RelationKind};

/// What may stand before the verb and changes nothing.
const BEFORE: [&str; 14] = [
    "又", "亦", "尤", "甚", "最", "大", "性", "其性", "其", "兼", "且", "极", "俱", "并",
];
/// The verbs that open a list of drugs. 惡 and 反 are words of illness as well: what follows has to be a known name.
const VERBS: [(&str, RelationKind); 3] = [
    ("反", RelationKind::Opposes),
    ("恶", RelationKind::AverseTo),
    ("畏", RelationKind::Fears),
];
/// What closes a list of envoys, the longest first.
const ENVOYS: [&str; 7] = [
    "为之使也",
    "为之使",
    "为使也",
    "之为使",
    "之使",
    "为使",
    "作使",
];
/// What may stand before the drugs that are envoys.
const WITH: [&str; 9] = ["须得", "须用", "宜", "以", "用", "资", "仗", "喜", "须"];
/// What opens the envoys in a terse style: 使枸杞.
const TERSE: [&str; 4] = ["使宜", "使用", "为使", "使"];
/// What stands between 得 and 良 besides drugs of more than one character: fire, hair, water, oil.
const FRAMED: &str = "火发水油";
/// What may stand before the word that closes 得…良.
const BETTER: &str = "更尤最甚则乃大为之";
/// What closes a mutual relation.
const MUTUAL: [(&str, RelationKind); 3] = [
    ("相反", RelationKind::Opposes),
    ("相恶", RelationKind::AverseTo),
    ("相畏", RelationKind::Fears),
];

/// The place that is read.
pub(super) struct Text<'t> {
    pub relations: &'t Relations<'t>,
    pub glyphs: &'t [Glyph],
    pub segments: &'t [Segment],
    pub at: usize,
    /// Whether a clause on other drugs has just been read.
    pub near: bool,
}

/// What was read, and the segment behind it.
pub(super) type Read = (usize, Vec<Related>);

impl Text<'_> {
    /// The clause on other drugs that opens here, if there is one.
    pub fn read(&self) -> Option<Read> {
        self.listed()
            .or_else(|| self.well_with())
            .or_else(|| self.envoys())
            .or_else(|| self.kills())
            .or_else(|| self.mutual())
            .or_else(|| self.terse())
            .or_else(|| self.envoy_of())
    }

    fn segment(&self, place: usize) -> Option<&[Glyph]> {
        let segment = self.segments.get(place)?;
        Some(&self.glyphs[segment.from..segment.to])
    }

    /// Names that go on with the list behind the segment before `place`: behind 、 any, behind ， only known ones.
    fn more(&self, place: usize) -> Option<Vec<Named>> {
        let before = self.segments.get(place)?.before;
        let names = self.relations.drugs.all(self.segment(place)?)?;
        let known = names.iter().all(Named::is_sure);
        (before == '、' || before == '，' && known).then_some(names)
    }

    /// The list that opens with `first` and goes on from `place`; it ends before names that are envoys.
    fn list(&self, first: Vec<Named>, mut place: usize) -> (Vec<Named>, usize) {
        let mut names = first;
        while self.segment(place).is_some() {
            let Some(more) = self.more(place) else {
                // A name of which the better part is lost: the list goes on behind it.
                let short = self.segment(place).is_some_and(|one| one.len() < 3);
                let between = |place: usize| {
                    let next = self.segments.get(place);
                    next.is_some_and(|next| next.before == '、')
                };
                if short && between(place) && between(place + 1) && self.more(place + 1).is_some() {
                    place += 1;
                    continue;
                }
                break;
            };
            let comma = self.segments[place].before == '，';
            if comma && self.envoys_at(place).is_some() {
                break;
            }
            names.extend(more);
            place += 1;
        }
        (names, place)
    }

    /// 惡曾青、硝石.
    fn listed(&self) -> Option<Read> {
        let segment = self.bare(self.segment(self.at)?);
        let (length, kind) = VERBS
            .iter()
            .find(|(verb, _)| starts(segment, verb))
            .map(|(verb, kind)| (verb.chars().count(), *kind))?;
        let first = self.relations.drugs.all(segment.get(length..)?)?;
        let (names, next) = self.list(first, self.at + 1);
        let known = names.iter().any(Named::is_sure);
        // 畏 is a word of illness before 寒 and 風 only, which are in no name.
        (known || kind == RelationKind::Fears || self.near && kind == RelationKind::AverseTo)
            .then(|| (next, self.related(kind, &names, self.at, next)))
    }

    /// Without what may stand before a verb: the drug's own name, 又, 其性.
    fn bare<'g>(&self, glyphs: &'g [Glyph]) -> &'g [Glyph] {
        // A blank before the verb parts it from what stands before.
        let blank = glyphs.first().is_some_and(|first| first.read == LOST);
        let mut glyphs = self.unnamed(&glyphs[usize::from(blank)..]);
        while let Some(word) = BEFORE.iter().find(|word| starts(glyphs, word)) {
            glyphs = &glyphs[word.chars().count()..];
        }
        glyphs
    }

    /// Without the drug's own name before what is said of it.
    fn unnamed<'g>(&self, glyphs: &'g [Glyph]) -> &'g [Glyph] {
        let itself = self.relations.itself.iter();
        let named = itself
            .filter(|name| glyphs.len() > name.len() + 1)
            .find(|name| name.iter().zip(glyphs).all(|(c, glyph)| *c == glyph.read));
        named.map_or(glyphs, |name| &glyphs[name.len()..])
    }

    /// 黃芩、龍骨為之使.
    fn envoys(&self) -> Option<Read> {
        let (names, next) = self.envoys_at(self.at)?;
        if self.prescribes() {
            return None;
        }
        let kind = RelationKind::Envoy;
        Some((next, self.related(kind, &names, self.at, next)))
    }

    /// Whether the sentence composes a formula: 人參為君，香薷為臣.
    fn prescribes(&self) -> bool {
        let at = self.segments[self.at].from;
        let stop = |glyph: &Glyph| "。\n".contains(glyph.read);
        let from = self.glyphs[..at].iter().rposition(stop).unwrap_or(0);
        let to = self.glyphs[at..].iter().position(stop);
        let to = to.map_or(self.glyphs.len(), |to| at + to);
        let roles = |pair: &[Glyph]| pair[0].read == '为' && "君臣佐主".contains(pair[1].read);
        self.glyphs[from..to].windows(2).any(roles)
    }

    /// The envoys whose list opens at `place`, and the segment behind them.
    fn envoys_at(&self, place: usize) -> Option<(Vec<Named>, usize)> {
        let mut names: Vec<Named> = Vec::new();
        let mut at = place;
        loop {
            let mut segment = self.segment(at)?;
            if at > place && !"、，".contains(self.segments[at].before) {
                return None;
            }
            let end = ENVOYS.iter().find(|word| ends(segment, word));
            if let Some(word) = end {
                segment = &segment[..segment.len() - word.chars().count()];
            }
            if at == place {
                let unnamed = self.unnamed(segment);
                if WITH.iter().any(|word| starts(unnamed, word)) {
                    segment = unnamed;
                }
                if let Some(word) = WITH.iter().find(|word| starts(segment, word)) {
                    segment = &segment[word.chars().count()..];
                }
            }
            match self.relations.drugs.all(segment) {
                Some(more) => names.extend(more),
                None if segment.is_empty() && end.is_some() && !names.is_empty() => {}
                None => return None,
            }
            at += 1;
            // Over ， only known names go on: 得火良，棘針為之使.
            let comma = end.is_none() && self.segments.get(at)?.before == '，';
            if comma && !names.iter().all(Named::is_sure) {
                return None;
            }
            if end.is_some() {
                return (names.len() < 8).then_some((names, at));
            }
        }
    }

    /// 使枸杞, 使宜秦艽: known names of more than one character only, beside another clause on drugs, since 使 is to cause
    /// as well.
    fn terse(&self) -> Option<Read> {
        let beside = self.segment(self.at + 1).is_some_and(|next| {
            VERBS.iter().any(|(verb, _)| starts(next, verb)) && !starts(next, "反为")
        });
        if !self.near && !beside {
            return None;
        }
        let segment = self.segment(self.at)?;
        let word = TERSE.iter().find(|word| starts(segment, word))?;
        let first = self.relations.drugs.all(&segment[word.chars().count()..])?;
        let sure = |one: &Named| one.how == Recognised::Known && one.name.chars().count() > 1;
        if !first.iter().all(sure) {
            return None;
        }
        let (names, next) = self.list(first, self.at + 1);
        let kind = RelationKind::Envoy;
        Some((next, self.related(kind, &names, self.at, next)))
    }

    /// 為大黃之使.
    fn envoy_of(&self) -> Option<Read> {
        let segment = self.bare(self.segment(self.at)?);
        let word = ["能为", "可为", "为"]
            .into_iter()
            .find(|word| starts(segment, word))?;
        let end = ["之使也", "之使", "使也", "使"]
            .into_iter()
            .find(|word| ends(segment, word))?;
        let (from, to) = (word.chars().count(), segment.len() - end.chars().count());
        let names = self.relations.drugs.all(segment.get(from..to)?)?;
        let sure = names.iter().all(|one| one.how == Recognised::Known);
        let next = self.at + 1;
        let kind = RelationKind::EnvoyOf;
        sure.then(|| (next, self.related(kind, &names, self.at, next)))
    }

    /// 得火良, 得茯苓、龍骨、冬葵子良.
    fn well_with(&self) -> Option<Read> {
        self.framed("得", "良", RelationKind::WellWith)
    }

    /// 殺半夏、莨菪毒.
    fn kills(&self) -> Option<Read> {
        self.framed("杀", "毒", RelationKind::KillsPoison)
    }

    /// A list between an opening word and a closing one.
    fn framed(&self, open: &str, close: &str, kind: RelationKind) -> Option<Read> {
        let mut names = Vec::new();
        let mut at = self.at;
        loop {
            let mut segment = self.segment(at)?;
            if at == self.at {
                segment = self.bare(segment);
                if !starts(segment, open) {
                    return None;
                }
                segment = &segment[open.chars().count()..];
            } else if !"、，".contains(self.segments[at].before) || at > self.at + 6 {
                return None;
            }
            let ended = ends(segment, close);
            if ended {
                segment = &segment[..segment.len() - close.chars().count()];
            }
            while ended
                && close == "良"
                && let Some((last, rest)) = segment.split_last()
                && BETTER.contains(last.read)
            {
                segment = rest;
            }
            match (self.relations.drugs.all(segment), segment) {
                (Some(more), _) => names.extend(more),
                (None, [one]) if close == "良" && FRAMED.contains(one.read) => names.push(Named {
                    name: written(segment),
                    how: Recognised::Known,
                }),
                (None, []) if ended && !names.is_empty() => {}
                _ => return None,
            }
            at += 1;
            if ended {
                break;
            }
        }
        let sure = |one: &Named| one.is_sure() && one.name.chars().count() > 1;
        let fits = close == "良" || names.iter().all(sure);
        fits.then(|| (at, self.related(kind, &names, self.at, at)))
    }

    /// 與甘草相反.
    fn mutual(&self) -> Option<Read> {
        MUTUAL
            .into_iter()
            .find_map(|(close, kind)| self.framed("与", close, kind))
    }

    /// The statements of a list. Names in which a character is lost and names that may be several stand apart, since
    /// they are doubtful.
    fn related(
        &self,
        kind: RelationKind,
        names: &[Named],
        from: usize,
        next: usize,
    ) -> Vec<Related> {
        let (first, last) = (self.segments[from], self.segments[next - 1]);
        let mut glyphs = self.glyphs[first.from..last.to].to_vec();
        // Where no name lacks a character, a blank parts two names.
        if !names.iter().any(|one| one.how == Recognised::Lost) {
            glyphs.retain(|glyph| glyph.read != LOST);
        }
        let mut related: Vec<Related> = Vec::new();
        for one in names.iter().filter(|one| !self.is_itself(one)) {
            let doubt = match one.how {
                Recognised::Known | Recognised::Plausible => None,
                Recognised::Lost => Some(Doubt::LostCharacter),
                Recognised::Run => Some(Doubt::UnusualWord),
            };
            let relation = Relation {
                kind,
                drug: one.name.clone(),
            };
            match related.iter_mut().find(|group| group.doubt == doubt) {
                Some(group) if group.relations.contains(&relation) => {}
                Some(group) => group.relations.push(relation),
                None => related.push(Related {
                    by: None,
                    relations: vec![relation],
                    doubt,
                    glyphs: glyphs.clone(),
                }),
            }
        }
        related.sort_by_key(|group| group.doubt.is_some());
        related
    }

    fn is_itself(&self, name: &Named) -> bool {
        let mut own = self.relations.itself.iter();
        own.any(|itself| name.name.chars().eq(itself.iter().copied()))
    }
}

fn starts(glyphs: &[Glyph], word: &str) -> bool {
    glyphs.len() >= word.chars().count()
        && word.chars().zip(glyphs).all(|(c, glyph)| c == glyph.read)
}

fn ends(glyphs: &[Glyph], word: &str) -> bool {
    let length = word.chars().count();
    glyphs.len() >= length && starts(&glyphs[glyphs.len() - length..], word)
}
