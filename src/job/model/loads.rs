//! Build-ups, area loads, and the loads of a member.

use super::{Axis, Case, Eccentricity, Placed, Slope};
use crate::text::Span;
use crate::units::{self, AreaLoad, Force, Length, LineLoad, Moment};

/// A weight added up from layers.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildUp {
    /// Its name.
    pub name: String,
    /// Layers: what it is, and its weight.
    pub layers: Vec<(String, AreaLoad)>,
}

impl BuildUp {
    /// The sum of the layers.
    pub fn sum(&self) -> AreaLoad {
        self.layers.iter().fold(AreaLoad::new(0.0), |sum, (_, weight)| sum + *weight)
    }
}

/// Area loads under one name.
#[derive(Clone, Debug, PartialEq)]
pub struct Area {
    /// Its name.
    pub name: String,
    /// Loads by case.
    pub loads: Vec<AreaOfCase>,
}

/// An area load of one case.
#[derive(Clone, Debug, PartialEq)]
pub struct AreaOfCase {
    /// Its case.
    pub case: Case,
    /// How much.
    pub load: AreaLoad,
    /// The build-up that it is the sum of, an index into [`Job::build_ups`](super::Job::build_ups).
    pub build_up: Option<usize>,
    /// Its place in the file.
    pub span: Span,
}

/// A load on a member.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// What it is.
    pub kind: LoadKind,
    /// Its place in the file.
    pub span: Span,
}

/// Kinds of loads. Places are from the left end, on plan; downward positive, moments clockwise positive.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadKind {
    /// An area load over the spacing or a tributary width.
    Area {
        /// Index into [`Job::areas`](super::Job::areas).
        area: usize,
        /// Tributary width at both ends; none: the spacing.
        width: Option<[Length; 2]>,
        /// Slope of the surface that it lies on; none: that of the member.
        slope: Option<Slope>,
        /// From here.
        from: Length,
        /// To here.
        to: Length,
    },
    /// A load along a line.
    Line {
        /// Its case.
        case: Case,
        /// At the left.
        start: LineLoad,
        /// At the right.
        end: LineLoad,
        /// From here.
        from: Length,
        /// To here.
        to: Length,
        /// The axis that it bends the member about.
        about: Axis,
    },
    /// A point load.
    Point {
        /// Its case.
        case: Case,
        /// How much.
        force: Force,
        /// Where.
        at: Length,
        /// The axis that it bends the member about.
        about: Axis,
    },
    /// A moment.
    Moment {
        /// Its case.
        case: Case,
        /// How much.
        moment: Moment,
        /// Where.
        at: Length,
        /// The axis that it bends the member about.
        about: Axis,
    },
    /// A force along a post, stud or tie; compression positive on post and stud, tension on a tie.
    Axial {
        /// Its case.
        case: Case,
        /// How much.
        force: Force,
        /// How far from the axis.
        eccentricity: Eccentricity,
    },
    /// The thrust of a rafter that leans on its fellow at a ridge board, which pulls a tie; by load case.
    Thrust {
        /// Index into [`Job::members`](super::Job::members) of the rafter.
        from_member: usize,
        /// How far apart the rafters stand; none: the tie takes that of one.
        every: Option<Length>,
    },
    /// The reaction of another member, handed down by load case.
    Reaction {
        /// Index into [`Job::members`](super::Job::members) of the member that gives it.
        from_member: usize,
        /// Support of that member, from 1.
        support: usize,
        /// Further supports of that member, each of which rests on one more member of the receiver's mark: by case the largest of all acts.
        or_supports: Vec<usize>,
        /// How it arrives.
        arrives: Arrival,
        /// What the foot of a post or stud covers of the member that it stands on; none: its own section.
        footprint: Option<Footprint>,
    },
}

impl LoadKind {
    /// Its case; none of an area load, which has those of its area, and of what another member hands down.
    pub const fn case(&self) -> Option<Case> {
        match self {
            Self::Line { case, .. } | Self::Point { case, .. } | Self::Moment { case, .. } | Self::Axial { case, .. } => Some(*case),
            Self::Area { .. } | Self::Thrust { .. } | Self::Reaction { .. } => None,
        }
    }

    /// The member that hands it down, by its index; none of a load of the member's own.
    pub const fn giver(&self) -> Option<usize> {
        match self {
            Self::Thrust { from_member, .. } | Self::Reaction { from_member, .. } => Some(*from_member),
            _ => None,
        }
    }
}

/// How a reaction arrives.
#[derive(Clone, Debug, PartialEq)]
pub enum Arrival {
    /// As a point load.
    At(Length),
    /// On the head of a post or stud.
    Head {
        /// How far apart they stand, of a row on a wall; none: all of it.
        every: Option<Length>,
        /// How far from the axis.
        eccentricity: Eccentricity,
    },
    /// As many, so far apart, spread as a line load (reading 5).
    Every {
        /// How far apart.
        spacing: Length,
        /// From here.
        from: Length,
        /// To here.
        to: Length,
    },
}

/// What a foot covers of the member that it stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct Footprint {
    /// Along the member that it stands on.
    pub along: Placed<Length>,
    /// Across that member, of a bearing plate; none: the other side of the section.
    pub across: Option<Length>,
}

/// What the engineer says of a member whose live load is reduced by the area that it bears.
#[derive(Clone, Debug, PartialEq)]
pub struct LiveReduction {
    /// Tributary area.
    pub tributary: Placed<units::Area>,
    /// What the member is in the building, as the code's table has it.
    pub element: Placed<&'static str>,
    /// What is on the floors: `ordinary`, `garage`, `assembly`.
    pub occupancy: Placed<&'static str>,
    /// How many floors it bears.
    pub floors: u32,
}

/// The same of its roof live load.
#[derive(Clone, Debug, PartialEq)]
pub struct RoofLiveReduction {
    /// Tributary area, on plan.
    pub tributary: Placed<units::Area>,
    /// Slope of the roof.
    pub slope: Slope,
}
