//! A pair of rafters on a ridge board whose tie stands above the heel: it presses on each rafter, and its force is the larger.
//!
//! Moments about the ridge, the tie a part r of the rise up: T (1 - r) = T_0, the force of a tie at the heel. On the rafter the tie presses with
//! T sin θ square to the slope; the simple beam with that force on it has the true shear and moments.

use super::apply::Frame;
use super::{Acting, Applied, Way};
use crate::analysis::Beam;
use crate::job::model::{Case, Nature};
use crate::units::decimals;

/// A raised tie of the member that is set out.
pub(super) struct RaisedTie<'a> {
    frame: &'a Frame<'a>,
    beam: &'a Beam,
    /// The part of the rise at which it stands.
    part: f64,
    /// Its place along the rafter.
    at: f64,
}

impl<'a> RaisedTie<'a> {
    /// None where the tie stands at the heel, or there is none.
    pub(super) fn of(frame: &'a Frame<'a>, beam: &'a Beam) -> Option<Self> {
        let part = frame.member.tie_up.value();
        let [heel, ridge] = beam.supports() else { return None };
        (part > 0.0).then_some(Self { frame, beam, part, at: heel.at + part * (ridge.at - heel.at) })
    }

    /// What it presses with under these loads of a case, which come and go together.
    pub(super) fn press(&self, case: Case, loads: &[Acting]) -> Option<Acting> {
        if loads.is_empty() {
            return None;
        }
        let diagram = self.beam.solve(loads);
        let [heel, ridge] = diagram.reactions.as_slice() else { return None };
        let cosine_squared = self.frame.cosine * self.frame.cosine;
        // T_0 sin θ, as `Arranged::thrust` has it.
        let pull = match self.frame.job.basis.nature(case) {
            Nature::Wind => ridge * cosine_squared - heel * (1.0 - cosine_squared),
            _ => *ridge,
        };
        Some(Acting::Point { at: self.at, force: pull / (1.0 - self.part) })
    }

    /// The same as the sheet shows it, one load a case, everything on.
    pub(super) fn shown(&self, applied: &[Applied], present: &[Case]) -> Vec<Applied> {
        let because = match self.frame.words {
            true => format!("raised tie, {} of the rise up: it presses with T sin θ", decimals(self.part, 3)),
            false => String::new(),
        };
        let of = |case: Case| {
            let here = || applied.iter().filter(move |a| a.case == case && a.way == Way::Down);
            let load = self.press(case, &here().map(|a| a.load).collect::<Vec<_>>())?;
            let smallest = self.press(case, &here().map(|a| a.smallest.unwrap_or(a.load)).collect::<Vec<_>>())?;
            let because = because.clone();
            let smallest = here().any(|a| a.smallest.is_some()).then_some(smallest);
            Some(Applied { case, way: Way::Down, load, smallest, eccentricity: [0.0; 2], every: None, hung: false, because, from: None })
        };
        present.iter().filter_map(|case| of(*case)).collect()
    }
}
