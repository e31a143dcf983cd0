//! The channels of an utterance: behind the properties, in clauses of their own, in brackets.

use super::channel::{self, Channels};
use super::passage::Glyph;
use super::run::Run;
use super::saying::{Doubt, Unread};
use super::sections::Zone;
use super::statement::{STOPS, Statements};
use super::voice::Utterance;
use crate::corpus::Scope;

impl Statements<'_> {
    /// Reads the channels that a clause names from its character `skip` on; gives the place behind a
    /// list that runs over the stop.
    pub(super) fn channels(
        &mut self,
        run: &mut Run,
        from: usize,
        to: usize,
        skip: usize,
    ) -> Option<usize> {
        if run.utterance.zone == Zone::Description {
            return None;
        }
        let glyphs = &run.utterance.glyphs;
        let mut begin = from + skip;
        let mut end = begin;
        while begin < to {
            // 鱉甲乃…: the part behind the drug's name.
            if begin == from + skip
                && skip > 0
                && glyphs
                    .get(begin + 1)
                    .is_some_and(|next| "乃为入".contains(next.read))
            {
                begin += 1;
            }
            let clause = channel::chars(&glyphs[begin..to]);
            let rest = channel::chars(&glyphs[begin..(begin + 60).min(glyphs.len())]);
            // 歸經：肺、肝: under such a heading no verb is needed.
            let plain = || {
                let list = channel::read(&clause);
                let headed = run.utterance.zone == Zone::Channels && list.read > 0;
                headed.then_some((0, list))
            };
            let Some((at, found)) = channel::statement(&clause, &rest).or_else(plain) else {
                break;
            };
            let verb = usize::from("入归走行达趋".contains(rest[at]));
            end = (begin + at + verb + found.read).min(glyphs.len());
            let limit = run.limit(&Scope::default());
            // 入肺清痰 after the channels are told says where the action is.
            let bare = end < to
                && !"经腑脏分部药".contains(glyphs[end - 1].read)
                && !"兼又亦并而、".contains(glyphs[end].read);
            let told = self.sayings.iter().any(|one| {
                !one.channel.is_empty() && one.limit == limit && one.by == run.utterance.speakers[0]
            });
            let bare = bare
                && !glyphs[begin + at..end]
                    .iter()
                    .any(|glyph| "阴阳明".contains(glyph.read));
            let reason = (bare && told).then_some(Doubt::Reason);
            self.add_channels(
                run.utterance,
                limit,
                &glyphs[begin + at..end],
                &found,
                reason,
            );
            // 入心治血兼入脾: the same clause names another.
            let again = glyphs[end.min(to)..to].windows(2).position(|pair| {
                "兼又亦并".contains(pair[0].read) && "入走".contains(pair[1].read)
                    || pair[0].read == '而' && pair[1].read == '为'
            });
            match again {
                Some(again) => begin = end + again,
                None => break,
            }
        }
        (end > to).then_some(end)
    }

    pub(super) fn add_channels(
        &mut self,
        utterance: &Utterance,
        limit: Scope,
        glyphs: &[Glyph],
        found: &Channels,
        doubt: Option<Doubt>,
    ) {
        for speaker in &utterance.speakers {
            let mut saying = self.saying(utterance, speaker, limit.clone(), glyphs);
            saying.channel = found
                .named
                .iter()
                .filter_map(|id| (self.channel_place)(id))
                .collect();
            saying.doubt = doubt;
            if !saying.channel.is_empty() {
                self.sayings.push(saying);
            } else if found.untold {
                self.unread.push(Unread {
                    text: saying.phrase,
                    span: saying.span,
                });
            }
        }
    }

    /// （專入肺。兼入腎）: channels in brackets behind the drug's name.
    pub(super) fn aside(&mut self, utterance: &Utterance, aside: &[Glyph]) {
        if utterance.zone != Zone::Statement
            || !matches!(
                aside.first().map(|glyph| glyph.read),
                Some('专' | '入' | '兼')
            )
        {
            return;
        }
        let mut from = 0;
        while from < aside.len() {
            let to = aside[from..]
                .iter()
                .position(|glyph| STOPS.contains(glyph.read))
                .map_or(aside.len(), |length| from + length);
            let clause = channel::chars(&aside[from..to]);
            let rest = channel::chars(&aside[from..]);
            if let Some((at, found)) = channel::statement(&clause, &rest) {
                let end = (from + at + 1 + found.read).min(aside.len());
                self.add_channels(
                    utterance,
                    utterance.limit.clone(),
                    &aside[from..end],
                    &found,
                    None,
                );
            }
            from = to + 1;
        }
    }
}
