//! A member resolved against a code's tables.

use super::{
    Account, Assumed, CheckAbout, Combination, DeflectionCase, Demand, Leading, LeftOut, Read, Reduced, Time, Utilization, Worked,
};
use crate::job::model::Case;
use crate::units::Unit;

/// A section, resolved.
#[derive(Clone, Debug)]
pub struct Section {
    /// Catalogue name, or the size in words.
    pub name: String,
    /// The size in words, as it stands behind the name: `1-1/2 × 9-1/4 in`.
    pub size: String,
    /// All plies together, mm.
    pub width: f64,
    /// mm.
    pub depth: f64,
    /// Plies.
    pub plies: u32,
    /// The table of its size, or why none.
    pub reference: String,
    /// Letter, value in N and mm, unit it is shown in.
    pub properties: Vec<(&'static str, f64, &'static Unit)>,
}

impl Section {
    /// A stiffness along the depth as it is across it, of the same modulus.
    pub fn across(&self, stiffness: f64) -> f64 {
        stiffness * (self.width / self.depth) * (self.width / self.depth)
    }

    /// The name of so many plies of a section.
    pub(super) fn of_plies(plies: u32, name: &str) -> String {
        match plies {
            1 => name.to_owned(),
            2 => format!("two {name}"),
            3 => format!("three {name}"),
            n => format!("{n} {name}"),
        }
    }
}

/// A material, resolved.
#[derive(Clone, Debug)]
pub struct Material {
    /// Species and grade, or class.
    pub name: String,
    /// The table, or the stated source.
    pub table: String,
    /// The row.
    pub row: String,
}

/// What is known of a member once it is resolved, whatever it is asked.
#[derive(Clone, Debug)]
pub struct Resolved {
    /// Its section.
    pub section: Section,
    /// Its material.
    pub material: Material,
    /// Its own weight along its length, N/mm.
    pub weight: f64,
    /// Its bending stiffness for deflections, N mm².
    pub rigidity: f64,
    /// Its bending stiffness across its depth, N mm².
    pub rigidity_across: f64,
    /// Its bending stiffness over its shear stiffness, mm²; nought where deflections are those of bending alone.
    pub shear_give: f64,
    /// The same across its depth, for a member that leans.
    pub shear_give_across: f64,
    /// Cells that were read for it.
    pub read: Vec<Read>,
    /// Cases of which it bears a part only, by the area that it bears; none unless the job file asks for it and the code allows it.
    pub reduced: Vec<Reduced>,
    /// Assumptions that it makes.
    pub assumes: Vec<Assumed>,
    /// Its checks, in the order of the code's list.
    pub checks: Vec<CheckAbout>,
    /// What its checks look at.
    pub looks: Looks,
}

/// What the checks of a code look at beside force, moment and deflection; the search works out no more.
#[derive(Clone, Copy, Debug, Default)]
pub struct Looks {
    /// Those of moments at the length between points of zero moment.
    pub zero_moments: bool,
    /// Those of moments at how their panel is loaded, for effective lengths.
    pub loaded: bool,
    /// Those of bearings at the distance to the nearest other force.
    pub clear: bool,
    /// Those of deflections at what each nature of load adds.
    pub parts: bool,
}

/// A member, resolved against a code's tables: ready to be asked for ratios.
pub trait Prepared: Send + Sync {
    /// What is known of it, whatever it is asked.
    fn resolved(&self) -> &Resolved;
    /// What is not checked, in words.
    fn not_checked(&self) -> Vec<String>;
    /// Checks that the job file or the code asks for and that cannot be made, in words: a limit on deflection that no deflection is compared
    /// with, a floor outside the rules. `present` are the cases that load the member. A member with one of these does not pass.
    fn unmade(&self, present: &[Case]) -> Vec<String>;
    /// Notes for its sheet; `reactions` are the largest of each support, N.
    fn notes(&self, reactions: &[f64]) -> Vec<String>;
    /// What is left out of the shear next to a support, counted from 0.
    fn left_out(&self, support: usize) -> LeftOut;
    /// The part of load duration in a combination: `present` are the combination's cases that load this member.
    fn time(&self, combination: &Combination, present: &[(Case, f64)]) -> Time;
    /// Deflections that are limited or shown, of the cases that load this member.
    fn deflections(&self, present: &[Case]) -> Vec<DeflectionCase>;
    /// Demand over capacity; none where the check does not apply to this demand.
    fn ratio(&self, check: usize, demand: &Demand) -> Option<Utilization>;
    /// Whether the code has no rule for a demand that it would have checked: not a failure, but nothing to choose a section by.
    fn is_outside(&self, _demand: &Demand) -> bool {
        false
    }
    /// Cells that only a demand in a combination makes the check read, such as that of its load duration; none unless a code has some.
    fn read_for(&self, _combination: &Combination, _demand: &Demand, _worked: &Worked) -> Vec<Read> {
        Vec::new()
    }
    /// The same check, written down.
    fn worked(&self, check: usize, demand: &Demand, time: &Time) -> Worked;
    /// The account of factors, with what the worst check of each kind found.
    fn account(&self, leading: &Leading<'_>) -> Account;
}
