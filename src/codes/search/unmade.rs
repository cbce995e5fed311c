//! What keeps a member from passing though no check fails: nothing was checked, or not what was asked for.

use super::{Found, Reacted, Search};
use crate::codes::{Combination, Places};
use crate::job::model::{End, NotchPlace};

impl Search<'_> {
    /// Why a member is not checked, in words; empty where it is. `strength` are the combinations reduced to its cases.
    pub(super) fn unmade(&self, strength: &[Combination], found: &[Found], reactions: &[Reacted]) -> Vec<String> {
        let is_checked = found.iter().any(|f| f.about.kind.is_strength() && !f.ratio.is_nothing());
        let mut unmade = self.unmade_of_loads(strength);
        if is_checked {
            unmade.extend(self.missing_bearings(found, reactions));
            unmade.extend(self.missing_notches(found));
        } else if unmade.is_empty() {
            unmade.push("no strength check applies to its loads".to_owned());
        }
        unmade.extend(self.prepared.unmade(&self.arranged.present));
        unmade
    }

    /// That nothing loads it, or that a load stands in no strength combination.
    pub(super) fn unmade_of_loads(&self, strength: &[Combination]) -> Vec<String> {
        if self.arranged.applied.is_empty() {
            return vec!["no load acts on it".to_owned()];
        }
        let stands = |case| strength.iter().any(|c| c.factors.iter().any(|(known, factor)| *known == case && *factor != 0.0));
        let absent = self.arranged.present.iter().filter(|case| !stands(**case));
        absent.map(|case| format!("no strength combination includes the load case {}", self.job.basis.cases[case.0].name)).collect()
    }

    /// Bearings with a length, under a force, at which no check was made.
    fn missing_bearings(&self, found: &[Found], reactions: &[Reacted]) -> Vec<String> {
        let lengths = self.member.bearing.as_deref().unwrap_or_default();
        let pressed = lengths.iter().zip(reactions).zip(1..).filter(|((_, reaction), _)| reaction.largest.1 > 0.0).map(|(_, place)| place);
        pressed.filter(|place| !is_found(found, Places::Bearings, *place)).map(|place| format!("bearing at support {place}")).collect()
    }

    /// Notches at which no check was made.
    fn missing_notches(&self, found: &[Found]) -> Vec<String> {
        let supports = self.arranged.supports.len();
        let place = |i: usize| match self.member.notches[i].at {
            NotchPlace::End(End::Left) => 1,
            NotchPlace::End(End::Right) => supports,
            NotchPlace::At(_) => supports + i + 1,
        };
        let missing = (0..self.member.notches.len()).filter(|i| !is_found(found, Places::Notches, place(*i)));
        missing.map(|i| format!("strength at notch {}", i + 1)).collect()
    }
}

fn is_found(found: &[Found], places: Places, place: usize) -> bool {
    found.iter().any(|f| f.about.places == places && f.place == place)
}
