//! What a witness says of one flavour, told apart by a sign of its own shape.

use crate::claim::Facet;
use crate::report::view::WitnessRow;

/// What a witness says of one flavour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// It states it.
    Plainly,
    /// It states it in a slight degree.
    Slightly,
    /// It states it in a great degree.
    Greatly,
    /// It states it of a part, preparation or kind only, which does not count.
    OfScope,
    /// It states other flavours: the list is complete, so that this one is denied.
    Denied,
    /// It has an article on the herb and says nothing of flavours.
    Silent,
    /// It is not quoted on flavours.
    Unquoted,
}

impl Said {
    /// All of them, in the order of a legend.
    pub const ALL: [Self; 7] = [
        Self::Plainly,
        Self::Slightly,
        Self::Greatly,
        Self::OfScope,
        Self::Denied,
        Self::Silent,
        Self::Unquoted,
    ];

    /// What the witness of `row` says of the flavour `id`.
    #[must_use]
    pub fn of(row: &WitnessRow, id: &str) -> Self {
        let Some(stand) = row.stands.get(&Facet::Flavour) else {
            let silent = row.silent.contains(&Facet::Flavour);
            return if silent { Self::Silent } else { Self::Unquoted };
        };
        let counts = stand.line.is_some();
        if counts && !stand.values.iter().any(|value| value.id == id) {
            return Self::Denied;
        }
        let mut stated = stand
            .statements
            .iter()
            .filter(|one| one.counted || !counts)
            .flat_map(|one| &one.values)
            .filter(|value| value.value == id);
        match (counts, stated.next()) {
            (false, Some(_)) => Self::OfScope,
            (false, None) => Self::Unquoted,
            (true, value) => match value.and_then(|value| value.degree.as_deref()) {
                None => Self::Plainly,
                Some("slight") => Self::Slightly,
                Some(_) => Self::Greatly,
            },
        }
    }

    /// The sign in a table.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Plainly => "●",
            Self::Slightly => "◐",
            Self::Greatly => "◉",
            Self::OfScope => "◌",
            Self::Denied => "×",
            Self::Silent => "–",
            Self::Unquoted => "",
        }
    }

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Plainly => "said",
            Self::Slightly => "slightly",
            Self::Greatly => "greatly",
            Self::OfScope => "of a part or preparation only",
            Self::Denied => "left out of its list, so denied",
            Self::Silent => "silent in its article",
            Self::Unquoted => "blank: not quoted on it",
        }
    }
}
