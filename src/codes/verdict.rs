//! The three verdicts on a member.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a member's checks come to. The order is that of severity: of several verdicts the largest counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Every check that was asked for was made and passes, a strength check among them.
    Passes,
    /// No check fails, but no strength check applied, or one that was asked for could not be made.
    NotChecked,
    /// A check fails.
    Fails,
}

impl Verdict {
    /// The verdict on several members: the worst; not checked where there are none.
    pub fn of_all(members: impl IntoIterator<Item = Self>) -> Self {
        members.into_iter().max().unwrap_or(Self::NotChecked)
    }

    /// Whether everything was checked and passes.
    pub const fn passes(self) -> bool {
        matches!(self, Self::Passes)
    }

    /// Whether a check fails.
    pub const fn fails(self) -> bool {
        matches!(self, Self::Fails)
    }

    /// Whether nothing fails, but something was not checked.
    pub const fn is_not_checked(self) -> bool {
        matches!(self, Self::NotChecked)
    }

    /// The word set in a frame beside a member; empty where it passes.
    pub const fn mark(self) -> &'static str {
        match self {
            Self::Passes => "",
            Self::NotChecked => "NOT CHECKED",
            Self::Fails => "FAILS",
        }
    }

    /// The verdict in a sentence: `B1 now fails`.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Passes => "passes",
            Self::NotChecked => "is not checked",
            Self::Fails => "fails",
        }
    }
}
