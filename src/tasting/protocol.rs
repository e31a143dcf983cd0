//! How an herb is tasted to learn it, step by step. Common practice, no source.

/// One step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// What is done, in a word.
    pub name: &'static str,
    /// What it takes.
    pub words: &'static str,
}

/// Where the steps are published: nowhere that is known.
pub const PROTOCOL_SOURCE: &str = "common practice, no source";

/// What holds for every tasting.
pub const LIMITS: &str = "The amount that is taken to learn an herb is no measure for daily use. Toxic herbs are never tasted.";

/// The steps, in order.
pub const PROTOCOL: [Step; 6] = [
    Step {
        name: "Weigh",
        words: "Take one herb by itself and weigh it. Note the lot, how it looks and how it smells.",
    },
    Step {
        name: "Pour",
        words: "Put it into an insulated flask and cover it with boiling water.",
    },
    Step {
        name: "Leave",
        words: "Close the flask and leave it overnight, some twelve hours.",
    },
    Step {
        name: "Taste",
        words: "Taste in the morning, fasting.",
    },
    Step {
        name: "Score",
        words: "Score each flavour from 0 to 10, then thickness, lingering, aroma and warmth; note where it is felt \
                and which way it moves. What you cannot tell stays unsaid.",
    },
    Step {
        name: "Compare",
        words: "Only then hold it against what the books say.",
    },
];
