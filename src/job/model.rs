//! What a job is, once it has been read without a fault: ids resolved, quantities in place, the load path sorted.
//!
//! Values that a message or a code's table may have to point back at keep their place in the file ([`Placed`]).

mod about;
mod basis;
mod date;
mod limits;
mod loads;
mod member;
mod remarks;
mod standing;

pub use about::{About, Assumption, Change, Confirmed, ConfirmedWarning, Deferred, Paper, Purpose, Revision};
pub use basis::{
    Basis, Case, CodeName, LoadCase, MOST_ALTERNATIVES, MOST_TOGETHER, Moisture, Nature, OwnCombination, OwnCombinations, SiteItem,
    alternatives,
};
pub use date::{Date, order_of_marks};
pub use limits::{DeflectionLimit, DeflectionOf, LimitedUse, Limits};
pub use loads::{Area, AreaOfCase, Arrival, BuildUp, Footprint, LiveReduction, Load, LoadKind, RoofLiveReduction};
pub use member::{
    Bracing, Ceiling, Conditions, CustomKind, CustomValues, End, Floor, HoldsFor, MaterialAsked, Member, Notch, NotchPlace, Retardant,
    Ridge, SectionAsked, Slope, Spans, StiffAcross, Use,
};
pub use remarks::{Amount, Checker, CheckerNumber, Comment};
pub use standing::{Axis, Eccentricity, EndHeld, Finish, Joined, Plate, Standing};

use crate::text::Span;
use std::collections::BTreeSet;

/// A value and where it stands in the job file.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed<T> {
    /// The value.
    pub value: T,
    /// Its place.
    pub span: Span,
}

/// A whole job.
#[derive(Clone, Debug)]
pub struct Job {
    /// Title, people, dates, revisions.
    pub about: About,
    /// Code, edition, conditions.
    pub basis: Basis,
    /// Weights added up from layers, in file order.
    pub build_ups: Vec<BuildUp>,
    /// Area loads, in file order.
    pub areas: Vec<Area>,
    /// Members, in file order.
    pub members: Vec<Member>,
    /// Indices into `members`, sorted so that a member comes after all that rests on it.
    pub path: Vec<usize>,
    /// Prices, from which `size` chooses the cheapest.
    pub prices: Option<super::Prices>,
    /// What the reader took where the job file is silent, one entry a default taken.
    pub defaults: Vec<TakenDefault>,
    /// Remarks of a reviewer, in file order.
    pub comments: Vec<Comment>,
    /// Numbers of an independent checker.
    pub checker: Option<Checker>,
    /// What can be calculated and is probably a mistake, in file order.
    pub warnings: Vec<super::Warning>,
}

impl Job {
    /// The job file's limit on a deflection of a member: the member's own goes before that of the basis for its use.
    pub fn limit(&self, member: &Member, what: DeflectionOf) -> Option<DeflectionLimit> {
        member.limits.on(what).or_else(|| self.limits_of(member.role)?.on(what))
    }

    /// The cases of a member's own loads; what other members hand down is theirs.
    pub fn own_cases<'j>(&'j self, member: &'j Member) -> impl Iterator<Item = Case> + 'j {
        member.loads.iter().flat_map(|load| {
            let of_area = match load.kind {
                LoadKind::Area { area, .. } => self.areas[area].loads.as_slice(),
                _ => &[],
            };
            of_area.iter().map(|one| one.case).chain(load.kind.case())
        })
    }

    /// A member and all whose loads come down to it, each once, itself first.
    pub fn down_to<'j>(&'j self, member: &'j Member) -> impl Iterator<Item = &'j Member> {
        let (mut waiting, mut seen) = (vec![member], BTreeSet::new());
        std::iter::from_fn(move || {
            loop {
                let next = waiting.pop()?;
                if seen.insert(next.mark.value.as_str()) {
                    waiting.extend(next.loads.iter().filter_map(|load| load.kind.giver()).map(|giver| &self.members[giver]));
                    return Some(next);
                }
            }
        })
    }

    /// Moisture in service of a member: its own, else that of the basis.
    pub fn moisture(&self, member: &Member) -> Moisture {
        member.conditions.moisture.unwrap_or(self.basis.moisture)
    }

    /// Whether the job file limits deflections of a member itself.
    pub fn limits(&self, member: &Member) -> bool {
        !member.limits.0.is_empty() || self.limits_of(member.role).is_some()
    }

    fn limits_of(&self, role: Use) -> Option<&Limits> {
        self.basis.limits.iter().find(|(of, _)| *of == role.limited_as()).map(|(_, limits)| limits)
    }
}

/// A default taken by the reader; printed in the assumption register.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenDefault {
    /// What was taken, as a sentence.
    pub text: String,
    /// Marks of the members that it concerns; empty: the whole job.
    pub members: Vec<String>,
}
