//! A member as the job file gives it.

use super::{Limits, LiveReduction, Load, Moisture, Placed, RoofLiveReduction, Standing};
use crate::text::Span;
use crate::units::{AreaLoad, Degrees, Length, Ratio, Stress, WidthRigidity};

/// What a member does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Use {
    Joist,
    Rafter,
    Beam,
    Header,
    Stud,
    Post,
    Tie,
}

impl Use {
    /// All.
    pub const ALL: [Self; 7] = [Self::Joist, Self::Rafter, Self::Beam, Self::Header, Self::Stud, Self::Post, Self::Tie];

    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Joist => "joist",
            Self::Rafter => "rafter",
            Self::Beam => "beam",
            Self::Header => "header",
            Self::Stud => "stud",
            Self::Post => "post",
            Self::Tie => "tie",
        }
    }

    /// Whether forces along the member are its business: it has a length instead of spans.
    pub const fn is_standing(self) -> bool {
        matches!(self, Self::Stud | Self::Post | Self::Tie)
    }

    /// Whether it stands upright: what it bears it hands down at its foot.
    pub const fn is_upright(self) -> bool {
        matches!(self, Self::Stud | Self::Post)
    }
}

/// A member.
#[derive(Clone, Debug)]
pub struct Member {
    /// Its name on the drawings.
    pub mark: Placed<String>,
    /// What it does.
    pub role: Use,
    /// Where it stands.
    pub place: Option<String>,
    /// The drawing that shows it.
    pub drawing: Option<String>,
    /// What each support rests on, as named: marks of members that receive its reaction, ids of deferred parts, names of supports outside
    /// of the job. Several where the row that it is of rests partly on each; none where nothing is named.
    pub rests_on: Vec<Vec<Placed<String>>>,
    /// Section as asked for.
    pub section: Placed<SectionAsked>,
    /// How many plies.
    pub plies: Placed<u32>,
    /// Material as asked for.
    pub material: Placed<MaterialAsked>,
    /// Centre to centre, of repetitive members.
    pub spacing: Option<Placed<Length>>,
    /// The system factor decided by hand: `yes` that its conditions are met, `no` that it is not taken.
    pub system: Option<Placed<bool>>,
    /// Slope of a rafter.
    pub slope: Option<Placed<Slope>>,
    /// Lean of a purlin's depth from the vertical.
    pub tilt: Option<Placed<Degrees>>,
    /// Spans between the side supports of a tilted member, from its first support line to its last; none: its supports hold it sideways too.
    pub weak_spans: Option<Vec<Placed<Length>>>,
    /// Spans and overhangs between support lines, on plan; of a post, stud or tie its length as one span.
    pub spans: Spans,
    /// What a post, stud or tie has instead of spans; none on a member that spans.
    pub standing: Option<Standing>,
    /// Bearing lengths by support; none: not given, bearing is not checked (reading 42).
    pub bearing: Option<Vec<Placed<Length>>>,
    /// How the top edge is held.
    pub top: Bracing,
    /// How the bottom edge is held.
    pub bottom: Bracing,
    /// Conditions that differ from the basis.
    pub conditions: Conditions,
    /// Notches.
    pub notches: Vec<Notch>,
    /// Limits of this member; they go before those of the basis.
    pub limits: Limits,
    /// Reduction of its live load; none: it is not reduced.
    pub live_reduction: Option<LiveReduction>,
    /// Reduction of its roof live load; none: it is not reduced.
    pub roof_live_reduction: Option<RoofLiveReduction>,
    /// Notes for the foot of the sheet.
    pub notes: Vec<String>,
    /// Supports that do not bear from below, from 1.
    pub hangers: Vec<usize>,
    /// The floor that it is part of, for vibration.
    pub floor: Option<Floor>,
    /// What holds the upper end of a rafter.
    pub ridge: Ridge,
    /// The part of the rise at which the tie of a pair on a ridge board stands; nought: at the heel.
    pub tie_up: Ratio,
    /// Camber that the member is made with, upward at mid-span.
    pub camber: Option<Placed<Length>>,
    /// The ceiling under a roof member.
    pub ceiling: Option<Ceiling>,
    /// Whether the member's own weight is added.
    pub self_weight: bool,
    /// Loads, in file order.
    pub loads: Vec<Load>,
    /// The member's whole entry.
    pub span: Span,
}

/// What holds the upper end of a rafter, its last support.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ridge {
    /// Something that carries it.
    #[default]
    Beam,
    /// A board against which it leans on its fellow: nothing is carried there, and the pair thrusts outward.
    Board,
}

/// A section as the job file asks for it; the code's tables resolve the name.
#[derive(Clone, Debug, PartialEq)]
pub enum SectionAsked {
    /// A name of the catalogue: `2x10`.
    Named(String),
    /// Width and depth of one ply.
    Size {
        /// Width.
        width: Length,
        /// Depth.
        depth: Length,
    },
}

/// A material as the job file asks for it; the code's tables resolve it.
#[derive(Clone, Debug, PartialEq)]
pub enum MaterialAsked {
    /// Species and grade.
    Graded {
        /// Species group.
        species: Placed<String>,
        /// Grade.
        grade: Placed<String>,
    },
    /// A strength class.
    Class(Placed<String>),
    /// A glulam combination or stress class.
    Combination {
        /// Its designation.
        name: Placed<String>,
        /// The species of its laminations, for a stress class that is made of several.
        species: Option<Placed<String>>,
    },
    /// Values with a stated source (reading 41).
    Custom {
        /// Its name.
        name: String,
        /// What it is.
        kind: CustomKind,
        /// Where the values come from.
        source: String,
        /// The values.
        values: CustomValues,
    },
}

/// What a material with a stated source is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CustomKind {
    /// Sawn lumber.
    Sawn,
    /// Sawn timber, of 5 in and thicker.
    Timber,
    /// Glued laminated timber.
    Glulam,
    /// Structural composite lumber.
    Composite,
}

impl CustomKind {
    /// All.
    pub const ALL: [Self; 4] = [Self::Sawn, Self::Timber, Self::Glulam, Self::Composite];

    /// The word of the job file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Sawn => "sawn",
            Self::Timber => "timber",
            Self::Glulam => "glulam",
            Self::Composite => "composite",
        }
    }
}

/// Values of a material with a stated source, by their keys in the job file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CustomValues {
    /// Stresses.
    pub stresses: Vec<(Placed<&'static str>, Stress)>,
    /// Numbers without unit: specific gravity, density in kg/m³, exponents.
    pub numbers: Vec<(Placed<&'static str>, Ratio)>,
    /// Lengths.
    pub lengths: Vec<(Placed<&'static str>, Length)>,
    /// The size that they hold for.
    pub holds_for: HoldsFor,
}

/// The size that an engineer's own values hold for, with the place where the file says so (reading 65).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum HoldsFor {
    /// That of the member.
    #[default]
    Member,
    /// A depth.
    Depth(Length, Span),
    /// The reference size of the code's table: they are tabulated values, to which its size factor applies in full.
    Table(Span),
}

impl CustomValues {
    /// A stress.
    pub fn stress(&self, key: &str) -> Option<Stress> {
        of_key(&self.stresses, key)
    }

    /// A number.
    pub fn number(&self, key: &str) -> Option<f64> {
        of_key(&self.numbers, key).map(Ratio::value)
    }

    /// A length.
    pub fn length(&self, key: &str) -> Option<Length> {
        of_key(&self.lengths, key)
    }
}

fn of_key<V: Copy>(list: &[(Placed<&'static str>, V)], key: &str) -> Option<V> {
    list.iter().find(|(known, _)| known.value == key).map(|(_, value)| *value)
}

/// The slope of a rafter.
#[derive(Clone, Debug, PartialEq)]
pub struct Slope {
    /// As it was written.
    pub text: String,
    /// Angle from the level, degrees.
    pub angle: Degrees,
}

/// Spans and overhangs between support lines; on plan for a rafter.
#[derive(Clone, Debug, PartialEq)]
pub struct Spans {
    /// Spans from the left.
    pub spans: Vec<Placed<Length>>,
    /// Overhang at the left, nought where there is none.
    pub left: Length,
    /// Overhang at the right, nought where there is none.
    pub right: Length,
    /// Whether the job file gave clear spans (already turned into spans between lines here).
    pub from_clear: bool,
}

impl Spans {
    /// The whole length, overhangs included.
    pub fn length(&self) -> Length {
        self.spans.iter().fold(self.left + self.right, |sum, span| sum + span.value)
    }

    /// Whether it reaches past its outer supports.
    pub fn has_overhang(&self) -> bool {
        !self.left.is_zero() || !self.right.is_zero()
    }

    /// How many spans and overhangs it has.
    pub fn panels(&self) -> usize {
        self.spans.len() + usize::from(!self.left.is_zero()) + usize::from(!self.right.is_zero())
    }

    /// Places of the support lines from the left end.
    pub fn supports(&self) -> Vec<Length> {
        let mut at = self.left;
        let mut places = vec![at];
        for span in &self.spans {
            at = at + span.value;
            places.push(at);
        }
        places
    }
}

/// How an edge is held between supports (reading 3).
#[derive(Clone, Debug, PartialEq)]
pub enum Bracing {
    /// By structural sheathing fixed to it.
    Sheathed,
    /// Throughout, by something else.
    Continuous,
    /// At supports only.
    None,
    /// At a spacing from the left end.
    Every(Length),
    /// At places from the left end.
    Places(Vec<Length>),
}

impl Bracing {
    /// Whether it holds throughout.
    pub const fn is_throughout(&self) -> bool {
        matches!(self, Self::Sheathed | Self::Continuous)
    }
}

/// Conditions of a member that differ from the basis; none: as the basis has it, or not so.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Conditions {
    /// Moisture in service.
    pub moisture: Option<Moisture>,
    /// 1, 2 or 3.
    pub service_class: Option<Placed<u8>>,
    /// Sustained temperature, degrees Fahrenheit.
    pub temperature: Option<Placed<Ratio>>,
    /// Incised for treatment: where the file says so.
    pub incised: Option<Span>,
    /// Laid flat: where the file says so.
    pub flat: Option<Span>,
    /// Treated against fire.
    pub retardant: Option<Retardant>,
    /// Green when installed; `Some(false)`: said to be dry.
    pub green: Option<bool>,
}

/// What a treatment against fire leaves of the reference values, as its source says.
#[derive(Clone, Debug, PartialEq)]
pub struct Retardant {
    /// Who gives the factors, and where.
    pub source: String,
    /// On bending.
    pub bending: Ratio,
    /// On tension along the grain.
    pub tension: Ratio,
    /// On shear.
    pub shear: Ratio,
    /// On compression across the grain.
    pub across: Ratio,
    /// On compression along the grain.
    pub along: Ratio,
    /// On both moduli.
    pub modulus: Ratio,
}

/// Which end of a member.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum End {
    Left,
    Right,
}

/// A notch (reading 16).
#[derive(Clone, Debug, PartialEq)]
pub struct Notch {
    /// Where: at an end, or at a place along the member.
    pub at: NotchPlace,
    /// Whether in the bottom edge; else in the top.
    pub bottom: bool,
    /// What is taken away.
    pub depth: Placed<Length>,
    /// Along the member: from its end, or in all for a notch around a place.
    pub length: Length,
}

impl Notch {
    /// From where to where it runs, measured from the left end on plan; `cosine` is that of the slope.
    pub fn extent(&self, spans: &Spans, cosine: f64) -> (Length, Length) {
        let (long, whole) = (cosine * self.length, spans.length());
        match &self.at {
            NotchPlace::End(End::Left) => (Length::new(0.0), long),
            NotchPlace::End(End::Right) => (whole - long, whole),
            NotchPlace::At(place) => (place.value - long / 2.0, place.value + long / 2.0),
        }
    }
}

/// Where a notch is.
#[derive(Clone, Debug, PartialEq)]
pub enum NotchPlace {
    /// At an end.
    End(End),
    /// At a place from the left end.
    At(Placed<Length>),
}

/// The floor that a joist is part of, as far as the job file gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Floor {
    /// Across the joists.
    pub width: Option<Length>,
    /// What stiffens it across the joists.
    pub across: Option<StiffAcross>,
    /// Its mass, by its weight; none: that of the permanent loads.
    pub mass: Option<AreaLoad>,
    /// Modal damping ratio.
    pub damping: Option<Ratio>,
    /// The part of a single force that one joist takes.
    pub share: Option<Ratio>,
    /// The limit a, under 1 kN.
    pub a: Option<Placed<Length>>,
    /// The limit b.
    pub b: Option<Placed<Ratio>>,
    /// Whether the joists are strutted.
    pub strutted: bool,
}

/// What stiffens a floor across its joists.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StiffAcross {
    /// Decking.
    Decking {
        /// Its thickness.
        thickness: Length,
        /// Its modulus of elasticity across the joists.
        modulus: Stress,
    },
    /// A bending stiffness of a width.
    Stated(WidthRigidity),
}

/// The ceiling under a roof member.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Ceiling {
    Gypsum,
    Other,
    None,
}
