//! The European code: EN 1995-1-1 with EN 338 and EN 14080, combinations of EN 1990, categories of EN 1991-1-1, national choices.
//!
//! Start at `CHECKS`: a row a check, each with the file that holds it. `notation` has the letters, `member` what the checks are
//! given, `tables` the files of reference values; `national` picks a country's row where it has one.

mod account;
mod asked;
mod assumptions;
mod bearing;
mod bending;
mod biaxial;
mod combinations;
mod deflection;
mod edition;
mod factors;
mod fault;
mod floor;
mod limits;
mod material;
mod member;
mod national;
mod natures;
mod notation;
mod notch;
mod offers;
mod prepared;
mod section;
mod shear;
mod stand_ins;
mod statics;
pub mod tables;
mod time;
mod vibration;

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
use crate::units::{KN, KN_M, KN_PER_M, KPA, M, MM, N, Ratio, fewest};
use member::{Asked, How, Member};

type Check =
    check::Check<fn(&Member, &Asked, &How) -> Option<Ratio>, for<'t> fn(&Member<Pen<'t>>, &Asked<Pen<'t>>, &How) -> Option<Ratio<Pen<'t>>>>;

/// Every check of a bending member. To add one: a file with its function, its letters in `notation`, a row here, a published case.
static CHECKS: &[Check] = checks! { (member, asked, how):
    bending::bending: Bending, "EN 1995-1-1, 6.1.6, 6.3.3", Moments, ["sigma_m,d"] / ["k_crit f_m,d", "f_m,d"];
    biaxial::biaxial_bending: BiaxialBending, "EN 1995-1-1, 6.1.6", BothMoments, ["u"] / ["u_max"];
    shear::shear: Shear, "EN 1995-1-1, 6.1.7", Shears, ["tau_d"] / ["f_v,d"];
    biaxial::across: Shear ("across the depth"), "EN 1995-1-1, 6.1.7", SideShears, ["tau_z,d"] / ["f_v,d"];
    notch::notch: Notch, "EN 1995-1-1, 6.5.2", Notches, ["tau_d"] / ["k_v f_v,d"];
    notch::net_section: Notch ("net section"), "EN 1995-1-1, 6.1.6", Notches, ["sigma_m,d"] / ["k_crit f_m,d", "f_m,d"];
    bearing::bearing: Bearing, "EN 1995-1-1, 6.1.5", Bearings,
        ["sigma_c,90,d", "sigma_c,alpha,d"] / ["f_c,alpha,d", "k_c,90 f_c,90,d"];
    deflection::deflection: Deflection, "EN 1995-1-1, 7.2", Deflections, ["w_net,fin", "w_fin", "w_inst", "w"] / ["w_max"];
    vibration::stiffness: Vibration ("stiffness"), "EN 1995-1-1, 7.3.3 (7.3)", Floors, ["w"] / ["a"];
    vibration::velocity: Vibration ("velocity"), "EN 1995-1-1, 7.3.3 (7.4)", Floors, ["v"] / ["v_max"];
};

/// Lines are worked in millimetres and newtons, in metres and kilonewtons, or (vibration) in metres and newtons.
static SETS: [Coherent; 3] = [Coherent { length: &MM, force: &N }, Coherent { length: &M, force: &KN }, Coherent { length: &M, force: &N }];

/// EN 1995-1-1 with EN 1990.
pub struct European;

impl Code for European {
    fn name(&self) -> CodeName {
        CodeName::European
    }

    fn editions(&self) -> &'static [&'static str] {
        edition::EDITIONS
    }

    fn shown(&self) -> Shown {
        Shown { span: &M, section: &MM, force: &KN, line: &KN_PER_M, area: &KPA, moment: &KN_M }
    }

    fn cites(&self, basis: &Basis) -> Vec<Cited> {
        edition::cites(basis)
    }

    fn conditions(&self, basis: &Basis) -> Vec<String> {
        edition::conditions(basis)
    }

    fn value_names(&self) -> [&'static str; 2] {
        ["characteristic", "design value"]
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

    fn time_in_words(&self, _: &Basis, factor: f64) -> String {
        format!("k_mod {}", fewest(factor, 1..=3))
    }

    /// Imposed loads are free actions, on every set of spans; snow, wind and permanent loads stand on all (readings 4 and 27).
    fn pattern(&self, nature: Nature) -> Pattern {
        match nature {
            Nature::Live | Nature::RoofLive => Pattern::Sets { rest: 0.0 },
            Nature::Dead | Nature::Snow | Nature::Wind | Nature::Seismic | Nature::Rain => Pattern::All,
        }
    }

    fn site_items(&self, _: &Job) -> Vec<(&'static str, &'static [&'static str])> {
        edition::SITE_ITEMS.to_vec()
    }

    fn tables(&self) -> Vec<&'static Table> {
        tables::ALL.iter().map(|table| &***table).collect()
    }

    fn sections(&self, basis: &Basis, member: &Entry) -> Vec<Offer> {
        offers::sections(basis, member)
    }

    fn grades(&self, basis: &Basis, member: &Entry) -> Vec<MaterialAsked> {
        offers::grades(basis, member)
    }

    fn stand_ins(&self) -> StandIns {
        stand_ins::all()
    }

    fn prepare(&self, job: &Job, member: &Entry) -> Result<Box<dyn Prepared>, Faults> {
        prepared::prepare(job, member).map(|p| Box::new(p) as Box<dyn Prepared>)
    }
}
