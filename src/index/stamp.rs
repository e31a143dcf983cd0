//! What a file looks like from outside, to tell whether it was written since.

use std::fs::Metadata;
use std::time::{Duration, SystemTime};

use serde::{Deserialize, Serialize};

use super::key;

/// Length and times of a file.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    bytes: u64,
    written: Duration,
    changed: (i64, i64),
}

impl Stamp {
    /// The stamp of a file; `None` where the system does not tell its time.
    #[must_use]
    pub fn of(about: &Metadata) -> Option<Self> {
        let written = about.modified().ok()?;
        Some(Self {
            bytes: about.len(),
            written: written.duration_since(SystemTime::UNIX_EPOCH).ok()?,
            changed: key::changed(about),
        })
    }

    /// Whether the file was so old when `table` was written that a later change shows in its stamp.
    #[must_use]
    pub fn settled_before(&self, table: &Self) -> bool {
        let changed = Duration::from_secs(u64::try_from(self.changed.0).unwrap_or_default());
        self.written.max(changed) + key::SETTLED < table.written
    }
}
