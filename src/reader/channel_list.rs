//! Reading a list of channels: 肺、胃經, 手足太陰陽明, 膽與肝.

/// The channels named, and what could not be told.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Channels {
    /// Ids of the vocabulary, in the order named.
    pub named: Vec<&'static str>,
    /// Whether a six-channel name stands without hand or foot and without an organ.
    pub untold: bool,
    /// Whether 腸 stands alone.
    pub bowel: bool,
    /// How many characters were read.
    pub read: usize,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Limb {
    Hand,
    Foot,
    Both,
}

const LIMBS: [(&str, Limb); 6] = [
    ("手足", Limb::Both),
    ("足手", Limb::Both),
    ("手、足", Limb::Both),
    ("足、手", Limb::Both),
    ("手", Limb::Hand),
    ("足", Limb::Foot),
];

/// Six-channel names with the channel of the hand and of the foot.
const SIX: [(&str, &str, &str); 6] = [
    ("太阴", "lung", "spleen"),
    ("阳明", "large-intestine", "stomach"),
    ("少阴", "heart", "kidney"),
    ("太阳", "small-intestine", "bladder"),
    ("厥阴", "pericardium", "liver"),
    ("少阳", "triple-burner", "gallbladder"),
];

const ORGANS: [(&str, &[&str]); 24] = [
    ("右肾命门", &["kidney"]),
    ("右肾", &["kidney"]),
    ("心包络", &["pericardium"]),
    ("心胞络", &["pericardium"]),
    ("心包", &["pericardium"]),
    ("心胞", &["pericardium"]),
    ("包络", &["pericardium"]),
    ("胞络", &["pericardium"]),
    ("大小肠", &["large-intestine", "small-intestine"]),
    ("小大肠", &["small-intestine", "large-intestine"]),
    ("大肠", &["large-intestine"]),
    ("小肠", &["small-intestine"]),
    ("膀胱", &["bladder"]),
    ("三焦", &["triple-burner"]),
    ("命门", &["gate-of-life"]),
    ("肺", &["lung"]),
    ("脾", &["spleen"]),
    ("胃", &["stomach"]),
    ("心", &["heart"]),
    ("肝", &["liver"]),
    ("肾", &["kidney"]),
    ("胆", &["gallbladder"]),
    ("督脉", &["governing-vessel"]),
    ("任脉", &["controlling-vessel"]),
];

const TWELVE: [&str; 12] = [
    "lung",
    "large-intestine",
    "stomach",
    "spleen",
    "heart",
    "small-intestine",
    "bladder",
    "kidney",
    "pericardium",
    "triple-burner",
    "gallbladder",
    "liver",
];

/// What may stand behind a channel name and belongs to it.
const BEHIND: [&str; 24] = [
    "二经", "三经", "四经", "五经", "六经", "两经", "诸经", "之经", "经", "二脏", "三脏", "脏",
    "腑", "家", "部", "之分", "分野", "二家", "二腑", "络", "本经", "两脏", "四脏", "五脏",
];
/// What makes an organ's name another word: 心下, 胃脘 is no channel.
const NOT_BEHIND: &str = "下窍腹胸脘口痛虚热火气血水阴阳液津痈痿风邪积";

/// Reads the list of channels at the start of `text`.
pub(super) fn read(text: &[char]) -> Channels {
    let mut list = List {
        text,
        at: 0,
        limb: None,
        found: Channels::default(),
        pending: Vec::new(),
    };
    list.elements();
    list.found
}

struct List<'t> {
    text: &'t [char],
    at: usize,
    limb: Option<Limb>,
    found: Channels,
    /// Six-channel names that still wait for 足經 behind them.
    pending: Vec<usize>,
}

impl List<'_> {
    fn starts(&self, word: &str) -> Option<usize> {
        let length = word.chars().count();
        (self.text.len() >= self.at + length
            && word
                .chars()
                .eq(self.text[self.at..self.at + length].iter().copied()))
        .then_some(length)
    }

    fn elements(&mut self) {
        loop {
            let before = self.at;
            let joined = self.join();
            if !self.element() {
                // What joins nothing is not part of the list.
                if joined {
                    self.at = before;
                }
                break;
            }
            self.found.read = self.at;
        }
        self.settle(None);
        self.found.untold |= !self.pending.is_empty();
    }

    /// A pause, stop or joining word between two names. Over a stop the list goes on only with hand or
    /// foot, with a name that 經 or 臟 follows, or with nothing but a six-channel name.
    fn join(&mut self) -> bool {
        let before = self.at;
        let mut stopped = false;
        while let Some(c) = self.text.get(self.at) {
            if "、及与并和兼而又且".contains(*c) {
                self.at += 1;
            } else if *c == '入' && self.text[..self.at].last() == Some(&'、') {
                // 入心、入肺.
                self.at += 1;
            } else if "，。；".contains(*c) && self.at > 0 && !stopped {
                stopped = true;
                self.at += 1;
            } else {
                break;
            }
        }
        if stopped && !self.goes_on() {
            self.at = before;
            return false;
        }
        self.at > before
    }

    /// Whether a list that a stop has broken goes on here.
    fn goes_on(&self) -> bool {
        let rest = &self.text[self.at.min(self.text.len())..];
        if rest.first().is_some_and(|c| "手足".contains(*c)) {
            return true;
        }
        if self.names_follow(self.at) {
            return true;
        }
        let joined = "及并兼".contains(self.text[self.at - 1]);
        let end = rest
            .iter()
            .position(|c| "，。；：\n".contains(*c))
            .unwrap_or(rest.len());
        let clause: String = rest[..end].iter().collect();
        // ，大小腸: a clause of nothing but names of two characters and more.
        let names = read(&rest[..end]);
        let plain = end > 1 && names.read == end && !names.named.is_empty();
        plain
            || joined
                && end <= 8
                && ["二脏", "二经", "经", "气分", "血分", "两经"]
                    .iter()
                    .any(|word| clause.ends_with(word))
    }

    /// Whether the clause at `from` is nothing but a channel name with 經.
    fn names_follow(&self, from: usize) -> bool {
        let rest = &self.text[from.min(self.text.len())..];
        let end = rest
            .iter()
            .position(|c| "，。；：\n".contains(*c))
            .unwrap_or(rest.len());
        let clause: String = rest[..end].iter().collect();
        end <= 7
            && SIX.iter().any(|(name, ..)| {
                clause.strip_prefix(name).is_some_and(|rest| {
                    ["", "经", "之经", "经药", "经气分", "气分", "血分", "经血分"].contains(&rest)
                })
            })
    }

    fn element(&mut self) -> bool {
        if let Some((length, limb)) = LIMBS
            .iter()
            .find_map(|(word, limb)| self.starts(word).map(|length| (length, *limb)))
        {
            let after = &self.text[self.at + length..];
            let six = SIX
                .iter()
                .any(|(name, ..)| name.chars().eq(after.iter().take(2).copied()));
            if after.first() == Some(&'经') && !self.pending.is_empty() {
                self.at += length + 1;
                self.settle(Some(limb));
                return true;
            }
            let organ = ORGANS.iter().any(|(name, _)| {
                name.chars()
                    .eq(after.iter().take(name.chars().count()).copied())
            });
            if !six && !organ {
                return self.twelve();
            }
            self.at += length;
            self.limb = Some(limb);
        }
        self.twelve() || self.six() || self.organ()
    }

    /// 十二經: all of them.
    fn twelve(&mut self) -> bool {
        let Some(length) = ["手足十二经", "一十二经", "十二经"]
            .iter()
            .find_map(|word| self.starts(word))
        else {
            return false;
        };
        self.at += length;
        TWELVE.iter().for_each(|id| self.name(id));
        true
    }

    fn six(&mut self) -> bool {
        let Some((place, length)) = SIX
            .iter()
            .enumerate()
            .find_map(|(place, (name, ..))| self.starts(name).map(|length| (place, length)))
        else {
            return false;
        };
        self.at += length;
        self.behind();
        // 少陰腎經: the organ beside it tells hand from foot.
        let organ = ORGANS
            .iter()
            .find_map(|(word, ids)| self.starts(word).map(|length| (length, *ids)));
        let (_, hand, foot) = SIX[place];
        if let Some((length, ids)) = organ
            && let [id] = ids
            && (*id == hand || *id == foot)
        {
            self.at += length;
            self.behind();
            self.name(id);
            return true;
        }
        match self.limb {
            Some(limb) => self.by_limb(place, limb),
            None => self.pending.push(place),
        }
        true
    }

    fn by_limb(&mut self, place: usize, limb: Limb) {
        let (_, hand, foot) = SIX[place];
        if limb != Limb::Foot {
            self.name(hand);
        }
        if limb != Limb::Hand {
            self.name(foot);
        }
    }

    /// Names what waited for a limb; without one it stays untold.
    fn settle(&mut self, limb: Option<Limb>) {
        if let Some(limb) = limb {
            for place in std::mem::take(&mut self.pending) {
                self.by_limb(place, limb);
            }
        }
    }

    fn organ(&mut self) -> bool {
        if let Some(length) = self.starts("肠胃").or_else(|| self.starts("胃肠")) {
            self.at += length;
            self.name("stomach");
            self.found.bowel = true;
            self.behind();
            return true;
        }
        let Some((length, ids)) = ORGANS
            .iter()
            .find_map(|(word, ids)| self.starts(word).map(|length| (length, *ids)))
        else {
            return false;
        };
        let next = self.text.get(self.at + length);
        let blood_or_qi = self
            .text
            .get(self.at + length + 1)
            .is_some_and(|second| "分中".contains(*second));
        if length == 1 && next.is_some_and(|next| NOT_BEHIND.contains(*next)) && !blood_or_qi {
            return false;
        }
        self.at += length;
        ids.iter().for_each(|id| self.name(id));
        self.behind();
        true
    }

    fn behind(&mut self) {
        while let Some(length) = BEHIND.iter().find_map(|word| self.starts(word)) {
            self.at += length;
        }
        for word in ["血分", "气分", "之血分", "之气分"] {
            if let Some(length) = self.starts(word) {
                self.at += length;
            }
        }
    }

    fn name(&mut self, id: &'static str) {
        if !self.found.named.contains(&id) {
            self.found.named.push(id);
        }
    }
}
