//! What the arithmetic assumes; every assumption can be changed.

/// What is counted as one voice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Counting {
    /// Each work.
    #[default]
    Works,
    /// Each line of transmission: works that repeat each other have one voice together (rule 6).
    Lines,
}

/// The assumptions of rule 38.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumptions {
    /// How much of a flavour "slightly" is, where a flavour alone is 1.
    pub slight: f64,
    /// How much of a flavour "greatly" is.
    pub great: f64,
    /// What is counted as one voice.
    pub counting: Counting,
}

impl Default for Assumptions {
    fn default() -> Self {
        Self {
            slight: 0.5,
            great: 1.5,
            counting: Counting::Works,
        }
    }
}
