//! What typesetting with templates that are not our own may take.

use serde::{Deserialize, Serialize};

/// Limits of a process that typesets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Limits {
    /// Seconds by the wall clock.
    pub seconds: u64,
    /// Megabytes of memory, where the platform limits it.
    pub megabytes: u64,
    /// Pages.
    pub pages: usize,
}

impl Limits {
    /// The limits for a job of so many members: some times what our own templates take (3 MB, 2 pages and 13 ms a member, measured).
    pub fn of(members: usize) -> Self {
        let count = members as u64;
        Self { seconds: 60 + count, megabytes: 1_500 + 10 * count, pages: 200 + 20 * members }
    }
}
