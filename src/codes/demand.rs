//! What a member is asked for at a place: the one thing that passes from the walk to a code's checks.

use super::Statics;
use crate::job::model::{DeflectionOf, Nature};

/// Load duration in a combination, settled for a member.
#[derive(Clone, Debug, PartialEq)]
pub struct Time {
    /// The factor.
    pub factor: f64,
    /// Why it has this value.
    pub because: String,
}

impl Time {
    /// Why stresses have their durations: once where all have one, else each with its letter.
    pub fn reasons(times: &[(&str, Option<&Self>)]) -> String {
        let mut said: Vec<(Vec<&str>, &str)> = Vec::new();
        for (letter, time) in times.iter().filter_map(|(letter, time)| Some((*letter, (*time)?))) {
            match said.iter_mut().find(|(_, why)| *why == time.because) {
                Some((letters, _)) => letters.push(letter),
                None => said.push((vec![letter], &time.because)),
            }
        }
        match said.as_slice() {
            [(_, why)] => (*why).to_owned(),
            several => several.iter().map(|(letters, why)| format!("{} {why}", letters.join(", "))).collect::<Vec<_>>().join("; "),
        }
    }
}

/// The kinds of places at which checks are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Places {
    /// Largest moments of either sign, in every panel.
    Moments,
    /// In every panel the place where bending about both axes together is worst; only on a member that leans.
    BothMoments,
    /// Both sides of every side support; only on a member that leans.
    SideShears,
    /// In every panel the largest shear, loads near its supports left out where the code allows it.
    Shears,
    /// Every support.
    Bearings,
    /// Under every post and stud that stands on the member.
    Underfoot,
    /// Every notch.
    Notches,
    /// The whole of a post, stud or tie, once: the force along it with the largest moments about its axes.
    Whole,
    /// The foot of a post or stud.
    Foot,
    /// Largest deflections, in every panel.
    Deflections,
    /// Every span of a floor, once, whatever the combination: its vibration.
    Floors,
}

/// What holds an edge throughout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holder {
    /// Structural sheathing.
    Sheathing,
    /// Something else.
    Other,
}

impl Holder {
    /// Why nothing turns over, as a step says it.
    pub const fn because(self) -> &'static str {
        match self {
            Self::Sheathing => "compression edge held by sheathing",
            Self::Other => "compression edge held throughout",
        }
    }
}

/// How the compression edge is held within a panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// Throughout.
    Throughout(Holder),
    /// At points so far apart at the most, mm.
    Gap(f64),
}

/// A notch as the checks see it, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Notched {
    /// In the edge that is in tension beside the support.
    pub tension: bool,
    /// What is taken away.
    pub depth: f64,
    /// From the inner edge of the support to the notch's corner; nought if it ends over the bearing.
    pub beyond: f64,
    /// From the support line to the notch's corner.
    pub from_line: f64,
    /// Whether it is over a bearing, or overlaps it.
    pub at_support: bool,
}

/// The largest moment along a notch that reaches into a span.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bends {
    /// N mm; sagging positive.
    pub moment: f64,
    /// How the edge that it compresses is held.
    pub held: Held,
    /// How its panel is loaded.
    pub loaded: Loaded,
}

/// From a bearing to the nearest other force that bears on the member at a point, a support among them, on each side; mm. Infinite where
/// there is none; zero on both sides where one acts over the bearing, or the code does not ask.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Clear {
    /// Towards the nearer end of the member.
    pub outer: f64,
    /// Towards the farther one.
    pub inner: f64,
}

/// How a panel is loaded in a combination, for effective lengths; where nothing asks for it, whether it is an overhang only.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loaded {
    /// Upward, all in all.
    pub upward: bool,
    /// By one even load over its whole length, and nothing else.
    pub evenly: bool,
    /// Held at one end only.
    pub overhang: bool,
    /// Whether a moment is applied to an overhang.
    pub turned: bool,
}

/// What the loads of one nature, unfactored, add to a deflection at its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// mm.
    pub deflection: f64,
    /// How it comes about, where a reviewer knows the closed form.
    pub statics: Statics,
}

/// Parts by nature, in the order of [`Nature::ALL`]; nought where a nature is not in the combination.
pub type Parts = [Part; Nature::ALL.len()];

/// A deflection that nothing is part of.
pub const NO_PARTS: Parts = [Part { deflection: 0.0, statics: Statics::Diagram }; Nature::ALL.len()];

/// A demand, N and mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Demand {
    /// The factor of load duration.
    pub time: f64,
    /// How the value comes about, where a reviewer knows the closed form.
    pub statics: Statics,
    /// Panel: 0 the left overhang, spans from 1, n + 1 the right overhang.
    pub panel: usize,
    /// Whether the member is one span without overhangs.
    pub single: bool,
    /// Place from the left end, along the member.
    pub at: f64,
    /// Between the points of zero moment about the strong axis around the place, in this combination and load set; nought where the code
    /// does not ask for it.
    pub between: f64,
    /// What is asked.
    pub action: Action,
}

/// How a post, stud or tie is bent about an axis, always positive; N mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bent {
    /// By side loads.
    pub side: f64,
    /// By forces along it that stand off its axis.
    pub eccentric: f64,
}

/// What is asked.
// A deflection carries its parts with it; a demand is passed by reference and the few that are kept are small all the same.
#[allow(clippy::large_enum_variant)]
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Action {
    /// A moment; sagging positive.
    Moment {
        /// N mm.
        moment: f64,
        /// How the edge that it compresses is held.
        held: Held,
        /// How its panel is loaded.
        loaded: Loaded,
    },
    /// Moments about both axes at one place, under one combination in one load set.
    Moments {
        /// About the strong axis, N mm; sagging positive.
        strong: f64,
        /// About the weak axis, N mm; positive where it stretches the side that the member leans to.
        weak: f64,
        /// How the edge that the strong moment compresses is held.
        held: Held,
        /// How its panel is loaded along the depth.
        loaded: Loaded,
    },
    /// A shear across the depth at a side support, always positive; nothing is left out.
    SideShear {
        /// N.
        force: f64,
        /// Side support, from 1.
        support: usize,
    },
    /// A force along a post, stud or tie, with the largest moments about its axes under the same combination; they are taken together.
    Along {
        /// N; compression positive.
        force: f64,
        /// About the strong axis.
        strong: Bent,
        /// About the weak axis.
        weak: Bent,
    },
    /// A shear, always positive.
    Shear {
        /// N.
        force: f64,
        /// The nearest support, from 1.
        support: usize,
        /// From its line to the place, mm.
        from_line: f64,
        /// From its line to its face, where loads near it were left out; else zero.
        face: f64,
        /// Whether loads near it were left out.
        reduced: bool,
    },
    /// A force on a bearing.
    Bearing {
        /// N.
        force: f64,
        /// Support, from 1.
        support: usize,
        /// Bearing length.
        length: f64,
        /// From the bearing to the member's nearer end.
        to_end: f64,
        /// From the bearing to the nearest other force, on each side.
        clear: Clear,
        /// Angle between the force and the grain, degrees.
        angle: f64,
    },
    /// A force on the top of the member, under the foot of a post or stud.
    Underfoot {
        /// N.
        force: f64,
        /// Which of the member's loads it is.
        load: usize,
        /// From the axis of what stands there to the member's nearer end, level.
        to_end: f64,
        /// Angle between the force and the grain, degrees.
        angle: f64,
    },
    /// A shear at a notch, always positive.
    Notch {
        /// N, at the support line; the largest along a notch around a place.
        force: f64,
        /// Support, from 1; zero for a notch around a place.
        support: usize,
        /// The moment along it, where it reaches past its bearing.
        bends: Option<Bends>,
        /// The notch.
        notch: Notched,
    },
    /// The vibration of a span of a floor, which is no matter of a combination.
    Floor {
        /// mm.
        span: f64,
    },
    /// A deflection; down positive.
    Deflection {
        /// mm; of a member that leans, the resultant of both ways.
        deflection: f64,
        /// Its parts along and across the depth, on a member that leans.
        parts: Option<(f64, f64)>,
        /// What it may be, mm.
        limit: f64,
        /// The limit's denominator and the length it divides, where it was said so.
        limit_as: Option<(f64, f64)>,
        /// What it is of.
        what: DeflectionOf,
        /// What each nature adds to it, along the depth.
        by_nature: Parts,
        /// The nature that leads the combination, for codes whose companions count in part.
        leading: Option<Nature>,
        /// Whether it is that of an overhang, whose limit takes twice its length.
        overhang: bool,
    },
}
