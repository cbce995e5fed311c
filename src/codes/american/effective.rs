//! Rules that look at the demand: effective lengths of Table 3.3.3, and where the bearing-area factor counts.

use super::tables;
use crate::codes::{Demand, Read, Statics};
use crate::table::{Range, Row};
use std::sync::LazyLock;

/// The rows of Table 3.3.3 by loading, read once: every ratio of a bending member asks for one of them.
struct Rows {
    uniform: Vec<Length>,
    mid_held_at_ends: Vec<Length>,
    mid_held_at_load: Vec<Length>,
    any_other: Vec<Length>,
}

/// A row of Table 3.3.3.
struct Length {
    row: Row<'static>,
    /// Of unbraced length over depth.
    ratio: Range,
    lengths: f64,
    depths: f64,
}

static ROWS: LazyLock<Rows> = LazyLock::new(|| {
    let length = |row: Row<'static>| {
        let number = |column: &str| row.bare(column).unwrap_or(f64::NAN);
        row.range("ratio").map(|ratio| Length { row, ratio, lengths: number("l_u"), depths: number("d") })
    };
    let of = |keys: &[(&str, &str)]| tables::EFFECTIVE_LENGTH.rows_with(keys).filter_map(length).collect();
    let single = |loading, held| of(&[("member", "single span"), ("loading", loading), ("held_at_load", held)]);
    Rows {
        uniform: single("uniform", "held at the ends"),
        mid_held_at_ends: single("point at mid-span", "held at the ends"),
        mid_held_at_load: single("point at mid-span", "held at the loads"),
        any_other: of(&[("loading", "any other loading")]),
    }
});

/// The rule of the bearing-area factor, mm. NDS 3.10.4.
pub(super) struct BearingArea {
    /// What it adds to the length of a bearing.
    pub added: f64,
    /// The length from which on it is 1.
    length_from: f64,
    /// The distance to the end of the member below which it is 1.
    end_distance_from: f64,
}

pub(super) static BEARING_AREA: LazyLock<BearingArea> = LazyLock::new(|| {
    let row = tables::BEARING.rows().next();
    let limit = |column: &str| row.as_ref().and_then(|r| r.base(column)).unwrap_or(f64::NAN);
    BearingArea { added: limit("added"), length_from: limit("length_below"), end_distance_from: limit("end_distance_from") }
});

/// The cell of what the bearing-area factor adds to the length of a bearing.
pub(super) fn bearing_area_read() -> Option<Read> {
    let row = tables::BEARING.rows().next()?;
    row.quantity("added").map(|found: crate::table::Found<crate::units::Length>| Read::shown(found, &crate::units::IN))
}

/// How many unbraced lengths and how many depths make the effective length. NDS Table 3.3.3 (reading 20).
///
/// The rows for uniform and mid-span load are for one span so loaded; else the row for any other loading.
pub(super) fn length(demand: &Demand, gap: f64, depth: f64) -> (f64, f64) {
    row(demand, gap, depth).map_or((f64::NAN, f64::NAN), |row| (row.lengths, row.depths))
}

/// The cells of the same.
pub(super) fn read(demand: &Demand, gap: f64, depth: f64) -> Vec<Read> {
    let found = row(demand, gap, depth);
    let cells = ["l_u", "d"].into_iter().filter_map(|column| found?.row.number(column)).filter(|found| found.value != 0.0);
    cells.map(Read::plain).collect()
}

fn row(demand: &Demand, gap: f64, depth: f64) -> Option<&'static Length> {
    let slenderness = gap / depth;
    let of = |rows: &'static [Length]| rows.iter().find(|row| row.ratio.holds(slenderness));
    let same = |a: f64, b: f64| (a - b).abs() < 1e-6 * b;
    let special = match demand.statics {
        Statics::Uniform { .. } if demand.single => of(&ROWS.uniform),
        Statics::MidPoint { span, .. } if demand.single && same(gap, span) => of(&ROWS.mid_held_at_ends),
        Statics::MidPoint { span, .. } if demand.single && same(gap, 0.5 * span) => of(&ROWS.mid_held_at_load),
        _ => None,
    };
    special.or_else(|| of(&ROWS.any_other))
}

/// Why the bearing-area factor is 1; none where the bearing is short enough and far enough from the end for it. NDS 3.10.4.
pub(super) fn plain_bearing(length: f64, to_end: f64) -> Option<&'static str> {
    let BearingArea { length_from, end_distance_from, .. } = *BEARING_AREA;
    if length >= length_from - 1e-9 {
        Some("6 in long or more")
    } else if to_end < end_distance_from - 1e-6 {
        Some("at the end of the member")
    } else {
        None
    }
}
