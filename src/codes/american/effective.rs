//! Rules that look at the demand: effective lengths of Table 3.3.3, and where the bearing-area factor counts.

use super::tables;
use crate::codes::{Demand, Read, Statics};
use crate::table::Row;
use std::sync::LazyLock;

/// Rules that look at the demand: effective lengths and where the bearing-area factor counts.
pub(super) struct Effective;

/// The rows of Table 3.3.3 by loading: every ratio of a bending member asks for one of them.
struct Rows {
    uniform: Vec<Row<'static>>,
    mid_held_at_ends: Vec<Row<'static>>,
    mid_held_at_load: Vec<Row<'static>>,
    any_other: Vec<Row<'static>>,
}

static ROWS: LazyLock<Rows> = LazyLock::new(|| {
    let of = |keys: &[(&str, &str)]| tables::EFFECTIVE_LENGTH.rows().filter(|row| row.has(keys)).collect();
    let single = |loading, held| of(&[("member", "single span"), ("loading", loading), ("held_at_load", held)]);
    Rows {
        uniform: single("uniform", "held at the ends"),
        mid_held_at_ends: single("point at mid-span", "held at the ends"),
        mid_held_at_load: single("point at mid-span", "held at the loads"),
        any_other: of(&[("loading", "any other loading")]),
    }
});

impl Effective {
    /// How many unbraced lengths and how many depths make the effective length. NDS Table 3.3.3 (reading 20).
    ///
    /// The rows for uniform and mid-span load are for one span so loaded; else the row for any other loading.
    pub(super) fn length(&self, demand: &Demand, gap: f64, depth: f64) -> (f64, f64) {
        let row = self.row(demand, gap, depth);
        let number = |column: &str| row.as_ref().and_then(|r| r.bare(column)).unwrap_or(f64::NAN);
        (number("l_u"), number("d"))
    }

    /// The cells of the same.
    pub(super) fn read(&self, demand: &Demand, gap: f64, depth: f64) -> Vec<Read> {
        let row = self.row(demand, gap, depth);
        let cells = ["l_u", "d"].into_iter().filter_map(|column| row.as_ref()?.number(column)).filter(|found| found.value != 0.0);
        cells.map(|found| Read { cell: found.cell, value: found.value, unit: "" }).collect()
    }

    fn row(&self, demand: &Demand, gap: f64, depth: f64) -> Option<Row<'static>> {
        let slenderness = gap / depth;
        let of = |rows: &'static Vec<Row<'static>>| rows.iter().find(|row| row.holds("ratio", slenderness)).copied();
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
    pub(super) fn plain_bearing(&self, length: f64, to_end: f64) -> Option<&'static str> {
        let row = tables::BEARING.rows().next();
        let limit = |column: &str| row.as_ref().and_then(|r| r.base(column)).unwrap_or(f64::NAN);
        if length >= limit("length_below") - 1e-9 {
            Some("6 in long or more")
        } else if to_end < limit("end_distance_from") - 1e-6 {
            Some("at the end of the member")
        } else {
            None
        }
    }
}
