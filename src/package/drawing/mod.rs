//! Drawings to scale: the member with its loads, its diagrams on the same axis, and what rests on what.
//!
//! Places come from the results in their units and are turned into points here; curves are sampled from the polynomials of the
//! results. Nothing here is a result.

mod canvas;
mod diagrams;
mod graph;
mod labels;
mod loads;
mod member;
mod note;
mod path;
mod post;

pub(super) use canvas::{MARGIN_WIDTH, SMALL_PITCH, lines, lines_of, width_of};
pub(super) use member::{Figure, Size, member, shows_reactions};
pub(super) use path::{Branch, path};

use crate::results::Value;
use crate::units::UNITS;

/// A length in another unit of length; the number as it is where a unit is not known.
pub(super) fn in_unit(value: &Value, unit: &str) -> f64 {
    let factor = |name: &str| UNITS.iter().find(|known| known.name == name).map(|known| known.factor);
    match (factor(&value.unit), factor(unit)) {
        (Some(from), Some(to)) => value.value * from / to,
        _ => value.value,
    }
}
