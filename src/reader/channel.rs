//! The grammar of channel statements: 入肺、胃經, 入手足太陰陽明, 足厥陰引經藥, 專入肝兼入腎.

pub(super) use super::channel_list::{Channels, read};
use super::passage::Glyph;

/// Words that may stand between the start of a clause and the verb.
const BEFORE: &str = "虽盖专兼又亦并直复更能乃善则可皆俱本其主功性此独惟先为气味通引必多尤且而径竟即故总均还仍但最同力药宜也要名纯降升阴阳中";
const VERBS: &str = "入归走行达趋";
/// What may stand between a list of channels that no verb opens and the word for remedy: 足厥陰引經藥.
const REMEDY: &str = "所之本引经正的要主专表里风圣血气分行报使家第一诸";

/// Whether the text behind a list of channels calls the drug their remedy.
fn remedy(behind: &[char]) -> bool {
    let end = behind
        .iter()
        .take(8)
        .position(|c| "药剂".contains(*c))
        .or_else(|| {
            let text: String = behind.iter().take(3).collect();
            text.starts_with("引经").then_some(2)
        });
    end.is_some_and(|end| behind[..end].iter().all(|c| REMEDY.contains(*c)))
}

/// The channels that a clause names, if it is a channel statement; `rest` is all the text from the
/// clause on, since lists run over stops.
pub(super) fn statement(clause: &[char], rest: &[char]) -> Option<(usize, Channels)> {
    let mut at = 0;
    // 色白入肺.
    if let [first, _, verb, ..] = clause
        && *first == '色'
        && *verb == '入'
    {
        at = 2;
    }
    // 經入肺胃.
    if clause.starts_with(&['经', '入']) {
        at = 1;
    }
    while at < clause.len() && BEFORE.contains(clause[at]) && !starts_list(&clause[at..]) {
        at += 1;
    }
    if clause.get(at).is_some_and(|c| VERBS.contains(*c)) {
        let verb = clause[at];
        let mut list = at + 1;
        while clause.get(list).is_some_and(|c| "于乎其在".contains(*c)) {
            list += 1;
        }
        let channels = read(&rest[list..]);
        let end = list + channels.read;
        // 走, 行, 達 say a channel only with 經 or a six-channel name.
        let plain = "入归".contains(verb) || rest[list..end].iter().any(|c| "经阴阳".contains(*c));
        return (channels.read > 0 && plain).then_some((at, channels));
    }
    let channels = read(&rest[at..]);
    let behind = &rest[(at + channels.read).min(rest.len())..];
    (channels.read > 0 && remedy(behind)).then_some((at, channels))
}

fn starts_list(text: &[char]) -> bool {
    read(text).read > 0
}

/// The glyphs' characters.
pub(super) fn chars(glyphs: &[Glyph]) -> Vec<char> {
    glyphs.iter().map(|glyph| glyph.read).collect()
}

#[cfg(test)]
mod tests {
    use super::statement;
    use pretty_assertions::assert_eq;

    fn named(text: &str) -> Vec<&'static str> {
        let chars: Vec<char> = text.chars().collect();
        let end = chars
            .iter()
            .position(|c| "，。".contains(*c))
            .unwrap_or(chars.len());
        statement(&chars[..end], &chars).map_or_else(Vec::new, |(_, channels)| channels.named)
    }

    #[test]
    fn hand_and_foot_govern_what_follows() {
        assert_eq!(
            named("入手足太阴阳明经"),
            ["lung", "spleen", "large-intestine", "stomach"]
        );
        assert_eq!(named("入手足太阴。"), ["lung", "spleen"]);
        assert_eq!(
            named("入足厥阴。手太阴、少阴经。"),
            ["liver", "lung", "heart"]
        );
        assert_eq!(named("入太阳、少阳足经"), ["bladder", "gallbladder"]);
    }

    #[test]
    fn a_six_channel_name_without_hand_or_foot_names_none() {
        assert_eq!(named("入太阴经"), [""; 0]);
        assert_eq!(named("入少阴肾经"), ["kidney"]);
    }

    #[test]
    fn organs_are_read_with_and_without_the_word_for_channel() {
        assert_eq!(named("入肾膀胱二经。"), ["kidney", "bladder"]);
        assert_eq!(named("专入肺脾肾"), ["lung", "spleen", "kidney"]);
        assert_eq!(named("入胃、大肠经。"), ["stomach", "large-intestine"]);
        assert_eq!(named("入心腹，"), [""; 0]);
    }

    #[test]
    fn a_remedy_of_a_channel_needs_no_verb() {
        assert_eq!(named("足厥阴引经药"), ["liver"]);
        assert_eq!(named("手阳明、足太阳之药"), ["large-intestine", "bladder"]);
        assert_eq!(named("肺气虚者宜之"), [""; 0]);
    }
}
