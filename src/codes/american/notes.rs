//! What a member's sheet says beside its checks: notes, and what is not checked.

use super::member::{Member, NotchLimit};
use super::prepared::Bending;
use super::{bearing, lookup};
use crate::job::model::Use;
use crate::units::{IN, Ratio, decimals};

/// Notes for a member's sheet; `reactions` are the largest of each support, N.
pub(super) fn of(bending: &Bending, reactions: &[f64]) -> Vec<String> {
    let mut notes = bending.notes.clone();
    if let Some(treatment) = &bending.entry.conditions.retardant {
        let factor = |name: &str, factor: Ratio| format!("{name} {}", factor.value());
        let list = [
            factor("F_b", treatment.bending),
            factor("F_t", treatment.tension),
            factor("F_v", treatment.shear),
            factor("F_c,perp", treatment.across),
            factor("F_c", treatment.along),
            factor("E and E_min", treatment.modulus),
        ];
        notes.push(format!("Fire-retardant treatment: reference values x {} (NDS 2.3.4; {}).", list.join(", "), treatment.source));
    }
    if bending.entry.role == Use::Rafter {
        let over = |limit: NotchLimit| decimals(limit.over, 0);
        let limits = lookup::notch_limits();
        notes.push(format!(
            "Seat cuts (birdsmouths) are notches: they are checked where they are given under `notches`, at an end no deeper than d/{}, under a tail \
             no deeper than d/{} (NDS 4.4.3); no benefit is taken for tapered notches.",
            over(limits.end),
            over(limits.inner)
        ));
    }
    if bending.carries_floor {
        notes.push(
            "Vibration is not checked: the NDS has no check for it. Guidance only, not a requirement, and not read here: Dolan and others, Journal of \
             Structural Engineering 125 (1999), page 19; ATC Design Guide 1."
                .to_owned(),
        );
    }
    if bending.resolved.looks.zero_moments && bending.entry.tilt.is_none() && bending.entry.conditions.flat.is_none() {
        notes.push(
            "Camber: 1.5 times the deflection under dead load is listed with the deflections (common practice, no source).".to_owned(),
        );
    }
    let largest = reactions.iter().copied().fold(0.0, f64::max);
    if bending.entry.bearing.is_none() && largest > 0.0 {
        notes.push(format!(
            "Bearing is not checked, no length is given: {} would do for the largest reaction.",
            bearing_that_would_do(&bending.member, largest)
        ));
    }
    notes
}

/// What is not checked of a member.
pub(super) fn not_checked(bending: &Bending) -> Vec<String> {
    let mut list = Vec::new();
    if bending.entry.bearing.is_none() {
        list.push("bearing".to_owned());
    }
    if bending.entry.slope.is_some() {
        list.push("force along the slope".to_owned());
    }
    if bending.carries_floor {
        list.push("vibration".to_owned());
    }
    list.extend(["fastening of the ends", "holes"].map(str::to_owned));
    list
}

/// The bearing length that would do, as the sheet prints it where none is given (reading 42).
fn bearing_that_would_do(member: &Member, force: f64) -> String {
    format!("{} in", decimals(bearing::length_for(member, force).number_in(&IN), 2))
}
