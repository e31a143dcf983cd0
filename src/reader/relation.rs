//! What an article says of its drug beside other drugs: where it is looked for, and who says it.

use super::attribution;
use super::drug_names::DrugNames;
use super::names::{Names, Speaker};
use super::passage::Glyph;
use super::relation_clause::Text;
use super::saying::Doubt;
use super::sections::Zone;
use super::voice::Utterance;
use crate::corpus::Relation;

/// A clause on other drugs.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Related {
    /// Who asserts it, where it is not the utterance's speaker.
    pub by: Option<Vec<Speaker>>,
    pub relations: Vec<Relation>,
    pub doubt: Option<Doubt>,
    pub glyphs: Vec<Glyph>,
}

/// What reads such clauses.
pub(super) struct Relations<'r> {
    pub drugs: &'r DrugNames,
    pub names: &'r Names,
    /// The id of the work that is read.
    pub work: &'r str,
    /// Whether what the text has in brackets may be a later note.
    pub noted: bool,
    /// The names by which the article may call its drug, longest first.
    pub itself: &'r [Vec<char>],
}

const STOPS: &str = "，。；：！？、\n“”‘’「」·";
/// A stretch between two stops.
#[derive(Debug, Clone, Copy)]
pub(super) struct Segment {
    pub from: usize,
    pub to: usize,
    /// The stop before it.
    pub before: char,
}

impl Relations<'_> {
    /// The clauses on other drugs in an utterance and in what it holds in brackets.
    pub fn find(&self, utterance: &Utterance) -> Vec<Related> {
        if matches!(utterance.zone, Zone::Aside | Zone::Description) || utterance.summary {
            return Vec::new();
        }
        let mut found = self.text(&utterance.glyphs);
        // A bracket within a quotation may be the quotation's own or its carrier's.
        let own = utterance.speakers == [Speaker::Work];
        for aside in utterance.asides.iter().filter(|_| own) {
            found.extend(self.aside(aside));
        }
        found
    }

    fn aside(&self, glyphs: &[Glyph]) -> Vec<Related> {
        let named = attribution::read(glyphs, self.names);
        let quotes = |pair: &[Glyph]| "云曰".contains(pair[0].read) && pair[1].read == '：';
        if named.is_none() && glyphs.windows(2).any(quotes) {
            return Vec::new();
        }
        let from = named.as_ref().map_or(0, |named| named.length);
        let by = named.map(|named| {
            let names = named.names.iter().zip(&named.written);
            let speaker =
                |(name, written): (&String, &String)| self.names.speaker(name, written, self.work);
            names.map(speaker).collect::<Vec<_>>()
        });
        let mut found = self.text(glyphs.get(from..).unwrap_or_default());
        for one in &mut found {
            one.by.clone_from(&by);
            if self.noted {
                one.doubt = one.doubt.or(Some(Doubt::Bracketed));
            }
        }
        found
    }

    fn text(&self, glyphs: &[Glyph]) -> Vec<Related> {
        let segments = segments(glyphs);
        let mut found: Vec<Related> = Vec::new();
        let mut at = 0;
        while at < segments.len() {
            let near = found.last().is_some_and(|last: &Related| {
                let end = last.glyphs.last().map_or(0, |glyph| glyph.at);
                glyphs[segments[at].from].at <= end + 4
            });
            let text = Text {
                relations: self,
                glyphs,
                segments: &segments,
                at,
                near,
            };
            match text.read() {
                Some((next, mut related)) => {
                    found.append(&mut related);
                    at = next;
                }
                None => at += 1,
            }
        }
        found
    }
}

fn segments(glyphs: &[Glyph]) -> Vec<Segment> {
    let mut segments = Vec::new();
    let (mut from, mut before) = (0, '\n');
    for (place, glyph) in glyphs.iter().enumerate() {
        if STOPS.contains(glyph.read) {
            if place > from {
                segments.push(Segment {
                    from,
                    to: place,
                    before,
                });
                before = glyph.read;
            } else if "。；\n".contains(glyph.read) {
                before = glyph.read;
            }
            from = place + 1;
        }
    }
    if glyphs.len() > from {
        segments.push(Segment {
            from,
            to: glyphs.len(),
            before,
        });
    }
    segments
}

#[cfg(test)]
mod tests {
    use super::super::drug_names::DrugNames;
    use super::super::names::Names;
    use super::super::passage::{Folder, prepare};
    use super::super::words::simplified;
    use super::Relations;
    use crate::corpus::embedded;
    use crate::reader::Layout;
    use pretty_assertions::assert_eq;

    /// Kinds and drugs read from a text on an invented drug; a doubt stands behind its drugs.
    fn read(texts: &[&str]) -> Vec<String> {
        let corpus = embedded().unwrap();
        let words = corpus.reading_words().unwrap();
        let drugs = DrugNames::new(&corpus, &words.headings);
        let names = Names::new(&corpus, &simplified());
        let relations = Relations {
            drugs: &drugs,
            names: &names,
            work: "bencao-gangmu",
            noted: false,
            itself: &["园叶".chars().collect()],
        };
        let [tags, ..] = Layout::known();
        let shown = |text: &&str| {
            let glyphs = prepare(text, 0, &tags, &mut Folder::new());
            let found = relations.text(&glyphs);
            let found = found.iter().map(|one| {
                let drugs: Vec<&str> = one.relations.iter().map(|one| one.drug.as_str()).collect();
                let doubt = one
                    .doubt
                    .map_or(String::new(), |doubt| format!(" ({doubt})"));
                format!("{} {}{doubt}", one.relations[0].kind.id(), drugs.join(" "))
            });
            found.collect::<Vec<_>>().join("; ")
        };
        texts.iter().map(shown).collect()
    }

    #[test]
    fn a_verb_opens_a_list_of_drugs_and_each_verb_has_its_own() {
        assert_eq!(
            read(&[
                "惡曾青、硝石，畏菊花、玄參。反藜蘆。",
                "恶菊花玄参，得酒良。"
            ]),
            [
                "averse-to 曾青 硝石; fears 菊花 玄參; opposes 藜蘆",
                "averse-to 菊花 玄参; well-with 酒"
            ]
        );
    }

    #[test]
    fn envoys_stand_before_or_behind_their_word() {
        assert_eq!(
            read(&[
                "黃芩、龍骨為之使，惡菊花。",
                "大黄为使。",
                "宜杏仁为使，畏款冬。",
                "恶干姜，使枸杞。",
                "能为大黄之使。"
            ]),
            [
                "envoy 黃芩 龍骨; averse-to 菊花",
                "envoy 大黄",
                "envoy 杏仁; fears 款冬",
                "averse-to 干姜; envoy 枸杞",
                "envoy-of 大黄"
            ]
        );
    }

    #[test]
    fn a_frame_closes_behind_its_drugs() {
        assert_eq!(
            read(&[
                "得茯苓、龙骨、冬葵子良。",
                "得火良，棘针为之使。",
                "杀天雄、附子毒。",
                "与甘草相反，同食则害人。"
            ]),
            [
                "well-with 茯苓 龙骨 冬葵子",
                "well-with 火; envoy 棘针",
                "kills-poison 天雄 附子",
                "opposes 甘草"
            ]
        );
    }

    #[test]
    fn words_of_illness_and_of_reasoning_are_no_drugs() {
        let none = [
            "恶疮，恶寒，恶心。",
            "反胃，反伤其气，反助其火。",
            "畏寒畏风之人。",
            "为通阴阳气血之使。",
            "以人参为君，香薷为臣，大黄为使。",
            "使麦冬、丹皮同益肺，而入于血室。",
            "杀百虫毒，杀蛊毒。",
        ];
        assert_eq!(read(&none), [""; 7]);
    }

    #[test]
    fn lost_characters_and_runs_of_short_names_are_doubtful_and_stand_apart() {
        assert_eq!(
            read(&["恶黄 、干姜。", "畏园苗溪石。", "畏萆 。"]),
            [
                "averse-to 干姜; averse-to 黄□ (lost character)",
                "fears 园苗溪石 (unusual word)",
                "fears 萆□ (lost character)"
            ]
        );
    }

    #[test]
    fn the_drug_itself_is_no_other_drug() {
        assert_eq!(
            read(&["园叶反甘草。", "园叶畏园叶。"]),
            ["opposes 甘草", ""]
        );
    }
}
