//! The American code: ANSI/AWC NDS with its Supplement, ASCE/SEI 7 combinations, IBC deflection limits.
//!
//! Start at `CHECKS`: a row a check, each with the file that holds it. `notation` has the letters, `member` what the checks are
//! given, `tables` the files of reference values.

mod account;
mod account_standing;
mod asked;
mod assumptions;
mod assumptions_standing;
mod bearing;
pub mod bending;
mod biaxial;
mod built_up;
mod combinations;
pub mod combined;
pub mod compression;
mod deflection;
mod edition;
mod effective;
mod factors;
mod fault;
pub mod glued;
mod layup;
mod lengths;
mod limits;
pub mod loaded;
mod lookup;
mod material;
pub mod member;
mod needs;
mod notation;
mod notch;
mod notes;
mod offers;
mod own;
mod prepared;
pub mod reduction;
mod section;
mod shear;
mod side;
mod stand_ins;
mod standing;
mod statics;
pub mod tables;
pub mod tension;
mod time;
mod underfoot;
pub mod weight;

#[cfg(test)]
mod tests;

pub use fault::IDS as FAULTS;

use super::check::{self, checks};
use super::{Cited, Code, Combination, Lettered, Offer, Pattern, Prepared, Shown};
use crate::equation::{Coherent, Pen};
use crate::job::StandIns;
use crate::job::model::{Basis, Case, CodeName, Job, MaterialAsked, Member as Entry, Nature};
use crate::table::Table;
use crate::text::Faults;
use crate::units::{FT, IN, LBF, LBF_FT, PLF, PSF, Ratio, fewest};
use loaded::{Loaded, Manner};
use member::{Asked, How, Member};

type Check =
    check::Check<fn(&Member, &Asked, &How) -> Option<Ratio>, for<'t> fn(&Member<Pen<'t>>, &Asked<Pen<'t>>, &How) -> Option<Ratio<Pen<'t>>>>;

/// Every check of a bending member. To add one: a file with its function, its letters in `notation`, a row here, a published case.
static CHECKS: &[Check] = checks! { (member, asked, how):
    bending::bending: Bending, "NDS 3.3.1", Moments, ["f_b"] / ["F'_bx", "F'_by", "F'_b"];
    bending::slenderness: Slenderness, "NDS 3.3.3.7", Moments, ["R_B"] / ["R_B,max"], only_failing;
    biaxial::biaxial_bending: BiaxialBending, "NDS 3.9.2", BothMoments, ["sum f_b/F'_b"] / ["limit"];
    shear::shear: Shear, "NDS 3.4.1", Shears, ["f_v"] / ["F'_v"];
    shear::across: Shear ("across the depth"), "NDS 3.4.1", SideShears, ["f_vy"] / ["F'_vy"];
    notch::notch: Notch, "NDS 3.4.3.2", Notches, ["V"] / ["V'_r"];
    notch::net_section: Notch ("net section"), "NDS 3.1.2", Notches, ["f_b"] / ["F'_b"];
    notch::depth: Notch ("depth"), "NDS 4.4.3", Notches, ["h_n"] / ["h_max"], only_failing;
    bearing::bearing: Bearing, "NDS 3.10.2", Bearings, ["f_c,perp"] / ["F'_theta", "F'_c,perp"];
    bearing::underfoot: Bearing ("on the top"), "NDS 3.10.2", Underfoot, ["f_c,perp"] / ["F'_theta", "F'_c,perp"];
    deflection::deflection: Deflection, "IBC Table 1604.3", Deflections, ["delta"] / ["delta_max"];
};

type StandingCheck = check::Check<fn(&Loaded, &Manner) -> Option<Ratio>, for<'t> fn(&Loaded<Pen<'t>>, &Manner) -> Option<Ratio<Pen<'t>>>>;

/// Every check of a post, stud or tie.
static STANDING_CHECKS: &[StandingCheck] = checks! { (loaded, manner):
    compression::compression: Compression, "NDS 3.6.3", Whole, ["f_c"] / ["F'_c"];
    compression::slenderness: Slenderness, "NDS 3.7.1.4", Whole, ["l_e/d"] / ["(l_e/d)_max"], only_failing;
    combined::bending_and_compression: BendingAndCompression, "NDS 3.9.2", Whole, ["sum"] / ["limit"];
    combined::stability: Stability, "NDS 3.9.2", Whole, ["u"] / ["limit"];
    tension::tension: Tension, "NDS 3.8.1", Whole, ["f_t"] / ["F'_t"];
    combined::bending_and_tension: BendingAndTension, "NDS 3.9.1", Whole, ["sum"] / ["limit"];
    combined::pulled_edge: BendingAndTension ("compressed edge"), "NDS 3.9.1", Whole, ["sum"] / ["limit"];
    combined::bending_alone: Bending, "NDS 3.3.1", Whole, ["f_b1", "f_b2"] / ["F'_bx", "F'_b", "F'_by", "F'_b2"];
    combined::bending_both: BiaxialBending, "NDS 3.9.2", Whole, ["sum f_b/F'_b"] / ["limit"];
    side::shear: Shear, "NDS 3.4.1", Shears, ["f_v"] / ["F'_v"];
    side::shear_across: Shear ("across the depth"), "NDS 3.4.1", SideShears, ["f_vy"] / ["F'_vy"];
    compression::end_grain: Bearing ("end grain"), "NDS 3.10.1", Foot, ["f_c"] / ["F_c*"];
    compression::plate: Bearing ("of the plate"), "NDS 3.10.2", Foot, ["f_c,perp"] / ["F'_c,perp"];
    side::deflection: Deflection, "IBC Table 1604.3", Deflections, ["delta"] / ["delta_max"];
};

/// Lines are worked in inches and pounds, or in feet and pounds.
static SETS: [Coherent; 2] = [Coherent { length: &IN, force: &LBF }, Coherent { length: &FT, force: &LBF }];

/// NDS with ASCE 7.
pub struct American;

impl Code for American {
    fn name(&self) -> CodeName {
        CodeName::American
    }

    fn editions(&self) -> &'static [&'static str] {
        edition::EDITIONS
    }

    fn shown(&self) -> Shown {
        Shown { span: &FT, section: &IN, force: &LBF, line: &PLF, area: &PSF, moment: &LBF_FT }
    }

    fn cites(&self, basis: &Basis) -> Vec<Cited> {
        edition::cites(basis)
    }

    fn conditions(&self, basis: &Basis) -> Vec<String> {
        edition::conditions(basis)
    }

    fn value_names(&self) -> [&'static str; 2] {
        ["reference value", "adjusted value"]
    }

    fn letters(&self) -> &'static [Lettered] {
        notation::LETTERS
    }

    fn faults(&self, basis: &Basis) -> Faults {
        edition::faults(basis)
    }

    fn combinations(&self, basis: &Basis) -> Vec<Combination> {
        combinations::of(self, basis)
    }

    fn timed(&self, basis: &Basis, combination: Combination) -> Combination {
        combinations::timed(basis, combination)
    }

    fn combinations_listed(&self, basis: &Basis, acting: &[Case]) -> Vec<Combination> {
        combinations::listed(self, basis, acting)
    }

    fn letter_of(&self, nature: Nature) -> &'static str {
        combinations::letter(nature)
    }

    fn time_in_words(&self, basis: &Basis, factor: f64) -> String {
        let letter = if edition::is_lrfd(basis) { "λ" } else { "C_D" };
        format!("{letter} {}", fewest(factor, 1..=2))
    }

    /// Live and roof live on every set of spans; snow in full on the set and half on the rest (ASCE 7 section 7.5); the rest on all.
    fn pattern(&self, nature: Nature) -> Pattern {
        match nature {
            Nature::Live | Nature::RoofLive => Pattern::Sets { rest: 0.0 },
            Nature::Snow => Pattern::Sets { rest: 0.5 },
            Nature::Dead | Nature::Wind | Nature::Seismic | Nature::Rain => Pattern::All,
        }
    }

    fn site_items(&self, _: &Job) -> Vec<(&'static str, &'static [&'static str])> {
        edition::SITE_ITEMS.to_vec()
    }

    fn tables(&self) -> Vec<&'static Table> {
        tables::ALL.iter().map(|table| &***table).collect()
    }

    fn sections(&self, _: &Basis, member: &Entry) -> Vec<Offer> {
        offers::sections(member)
    }

    fn grades(&self, _: &Basis, member: &Entry) -> Vec<MaterialAsked> {
        offers::grades(member)
    }

    fn stand_ins(&self) -> StandIns {
        stand_ins::all()
    }

    fn prepare(&self, job: &Job, member: &Entry) -> Result<Box<dyn Prepared>, Faults> {
        if let Some(asked) = &member.standing {
            return standing::prepare(job, member, asked).map(|p| Box::new(p) as Box<dyn Prepared>);
        }
        prepared::prepare(job, member).map(|p| Box::new(p) as Box<dyn Prepared>)
    }
}
