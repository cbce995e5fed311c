//! What posts, studs and ties have instead of spans. Places are from the foot of a post or stud, from the left end of a tie.

use super::{Bracing, MaterialAsked, Placed, SectionAsked};
use crate::units::Length;

/// An axis of a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// Bending over the depth.
    Strong,
    /// Bending over the width.
    Weak,
}

impl Axis {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Strong => "strong",
            Self::Weak => "weak",
        }
    }
}

/// A post, stud or tie, beside what it has in common with members that span.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// How its top, or right end, is held.
    pub top: EndHeld,
    /// How its foot, or left end, is held.
    pub bottom: EndHeld,
    /// Effective length about the strong axis decided by hand: the final length (reading 10).
    pub effective_strong: Option<Placed<Length>>,
    /// The same about the weak axis.
    pub effective_weak: Option<Placed<Length>>,
    /// How it is held from buckling about the strong axis.
    pub strong: Bracing,
    /// How it is held from buckling about the weak axis.
    pub weak: Bracing,
    /// How its plies are joined; none where nothing was said.
    pub joined: Option<Joined>,
    /// The wood that it stands on.
    pub plate: Option<Plate>,
    /// Width of the holes in one section of a tie, which are taken off its depth.
    pub holes: Option<Length>,
    /// The finish of its wall; none: no limit by finish.
    pub finish: Option<Finish>,
}

impl Standing {
    /// Whether an end moves freely, so that the other one has to be fixed.
    pub fn has_free_end(&self) -> bool {
        self.top == EndHeld::Free || self.bottom == EndHeld::Free
    }
}

/// How an end is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndHeld {
    /// In place, free to turn.
    Pinned,
    /// In place, against turning.
    Fixed,
    /// Not at all.
    Free,
}

impl EndHeld {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pinned => "pinned",
            Self::Fixed => "fixed",
            Self::Free => "free",
        }
    }
}

/// How the plies of a built-up column are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joined {
    /// By nails.
    Nailed,
    /// By bolts.
    Bolted,
}

impl Joined {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Nailed => "nailed",
            Self::Bolted => "bolted",
        }
    }
}

/// What a wall is finished with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finish {
    /// Plaster or stucco.
    Plaster,
    /// Another brittle finish.
    Brittle,
    /// A flexible finish.
    Flexible,
}

impl Finish {
    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Plaster => "plaster",
            Self::Brittle => "brittle",
            Self::Flexible => "flexible",
        }
    }
}

/// A wood plate, laid flat, under a post or stud.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// Its section as asked for.
    pub section: Placed<SectionAsked>,
    /// Its material as asked for.
    pub material: Placed<MaterialAsked>,
}

/// How far a force along a member stands from its axis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Eccentricity {
    /// Over the depth: it bends about the strong axis.
    pub strong: Option<Placed<Length>>,
    /// Over the width: it bends about the weak axis.
    pub weak: Option<Placed<Length>>,
    /// Height above the foot of a bracket at the side that the force stands on; none: it stands on the head.
    pub at: Option<Length>,
}

impl Eccentricity {
    /// Both, mm: about the strong axis, about the weak axis; nought where the force stands on a bracket.
    pub fn both(&self) -> [f64; 2] {
        if self.at.is_some() { [0.0; 2] } else { self.arms() }
    }

    /// The height of a bracket and how far the force stands from both axes, mm; none where it stands on the head.
    pub fn bracket(&self) -> Option<(f64, [f64; 2])> {
        Some((self.at?.value(), self.arms()))
    }

    fn arms(&self) -> [f64; 2] {
        [&self.strong, &self.weak].map(|side| side.as_ref().map_or(0.0, |e| e.value.value()))
    }
}
