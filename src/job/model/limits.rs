//! Limits on deflections: of what, for which members, how much.

use super::{Placed, Use};
use crate::units::Length;

/// What a deflection is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DeflectionOf {
    /// Transient loads.
    Live,
    /// All loads, as the code counts the dead.
    Total,
    /// Wind.
    Wind,
    /// All loads, at once.
    Instant,
    /// All loads, with creep.
    Final,
    /// The same less the camber.
    NetFinal,
    /// Permanent loads.
    Permanent,
    /// All loads with creep, shown without a limit (american).
    LongTerm,
    /// A camber that would do, shown without a limit (american).
    Camber,
    /// A combination of the engineer's own, as it stands (european).
    Own,
}

impl DeflectionOf {
    /// Those that a job file may limit.
    pub const LIMITED: [Self; 7] = [Self::Live, Self::Total, Self::Wind, Self::Instant, Self::Final, Self::NetFinal, Self::Permanent];

    /// The word of the job file and of the results.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Live => "live",
            Self::Total => "total",
            Self::Wind => "wind",
            Self::Instant => "instant",
            Self::Final => "final",
            Self::NetFinal => "net-final",
            Self::Permanent => "permanent",
            Self::LongTerm => "long-term",
            Self::Camber => "camber",
            Self::Own => "own",
        }
    }
}

/// Members that limits of the basis are given for together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LimitedUse {
    /// Joists, beams, headers and ties.
    Floor,
    /// Rafters.
    Roof,
    /// Studs and posts, sideways.
    Wall,
}

impl LimitedUse {
    /// All.
    pub const ALL: [Self; 3] = [Self::Floor, Self::Roof, Self::Wall];

    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Floor => "floor",
            Self::Roof => "roof",
            Self::Wall => "wall",
        }
    }
}

impl Use {
    /// Whose limits it takes: rafters are roof members, studs and posts are of walls, all others are floor members (readings 23 and 26).
    pub const fn limited_as(self) -> LimitedUse {
        match self {
            Self::Rafter => LimitedUse::Roof,
            Self::Stud | Self::Post => LimitedUse::Wall,
            Self::Joist | Self::Beam | Self::Header | Self::Tie => LimitedUse::Floor,
        }
    }
}

/// A limit on a deflection.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DeflectionLimit {
    /// Span over this number: `L/360`.
    SpanOver(f64),
    /// A length.
    Length(Length),
    /// Taken off: `none`.
    Off,
}

/// Limits by what they limit; what is left out keeps its default.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Limits(pub Vec<(Placed<DeflectionOf>, DeflectionLimit)>);

impl Limits {
    /// The limit on a deflection; none where it is left out.
    pub fn on(&self, what: DeflectionOf) -> Option<DeflectionLimit> {
        self.0.iter().find(|(of, _)| of.value == what).map(|(_, limit)| *limit)
    }
}
