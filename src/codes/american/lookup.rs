//! Look-ups that more than one file needs.

use super::member::NotchLimit;
use super::tables;
use crate::codes::Read;
use crate::table::{Found, Row, Table};
use crate::units::{IN, Length};
use std::sync::LazyLock;

/// The row of a species and grade that holds a nominal size, inches.
pub(super) fn lumber<'t>(table: &'t Table, keys: &[(&str, &str)], nominal: (f64, f64)) -> Option<Row<'t>> {
    let (thickness, width) = (IN.factor * nominal.0, IN.factor * nominal.1);
    if table.file() == tables::TIMBERS.file() {
        let southern = table.row_at(keys, &[("thickness", thickness)]).filter(|r| r.text("size").is_some_and(|s| s.starts_with("5")));
        return table.row_at(keys, &[("thickness", thickness), ("excess", width - thickness)]).or(southern);
    }
    table.row_at(keys, &[("thickness", thickness), ("width", width)])
}

/// The table of combinations of a loading standard.
pub(super) fn combinations(loading: &str, lrfd: bool) -> &'static Table {
    match (loading, lrfd) {
        ("ASCE7-22", false) => &tables::ASCE7_22_ASD,
        ("ASCE7-22", true) => &tables::ASCE7_22_LRFD,
        (_, false) => &tables::ASCE7_16_ASD,
        (_, true) => &tables::ASCE7_16_LRFD,
    }
}

/// The row of a strength combination's number in NDS Table N3; `live` is the live load's kind, where the number asks for it.
pub(super) fn time_effect(number: &str, live: &str) -> Option<Row<'static>> {
    tables::TIME_EFFECT.rows().find(|row| row.text("number") == Some(number) && row.text("live").is_none_or(|kind| kind == live))
}

/// How deep a notch at an end of a laminated timber may be, by the edge. NDS 5.4.5.
pub(super) fn glulam_notch(tension: bool) -> NotchLimit {
    static LIMITS: LazyLock<[NotchLimit; 2]> = LazyLock::new(|| {
        [("compression", "NDS 5.4.5.2"), ("tension", "NDS 5.4.5.1")].map(|(edge, clause)| {
            let row = tables::GLULAM_NOTCHES.row(&[("edge", edge)]);
            let over = row.as_ref().and_then(|r| r.number("depth_over")).map_or(f64::NAN, |f| f.value);
            let most = row.as_ref().and_then(|r| r.quantity("depth_most")).map(|f: Found<Length>| f.value.number_in(&IN));
            NotchLimit { over, most, clause }
        })
    });
    LIMITS[usize::from(tension)]
}

/// The deepest notch at an end of a laminated timber. NDS 5.4.5.
pub(super) fn glulam_notch_most(depth: Length, tension: bool) -> Length {
    let NotchLimit { over, most, .. } = glulam_notch(tension);
    let by_depth = depth / over;
    most.map(|most| Length::new(IN.factor * most)).filter(|most| !by_depth.at_most(*most)).unwrap_or(by_depth)
}

/// The cells of the limit of a notch's depth: of laminated timber by the edge, else by the place.
pub(super) fn notch_cells(laminated: bool, inner: bool, tension: bool) -> Vec<Read> {
    let row = match (laminated, inner) {
        (true, _) => tables::GLULAM_NOTCHES.row(&[("edge", if tension { "tension" } else { "compression" })]),
        (false, inner) => notch_row(if inner { "elsewhere" } else { "end" }),
    };
    let over = row.as_ref().and_then(|r| r.number("depth_over")).map(Read::plain);
    let most = row.as_ref().filter(|_| laminated).and_then(|r| r.quantity("depth_most"));
    over.into_iter().chain(most.map(|found: Found<Length>| Read::shown(found, &IN))).collect()
}

/// A row of NDS 4.4.3 by the place of a notch.
fn notch_row(place: &str) -> Option<Row<'static>> {
    tables::NOTCHES.rows().find(|r| r.text("place") == Some(place) || r.text("place_also") == Some(place))
}

/// The shear reduction factor of a laminated timber at a notch, or under impact. NDS 5.3.10.
pub(super) fn shear_reduction() -> Option<Found<f64>> {
    tables::SHEAR_REDUCTION.rows().next().and_then(|row| row.number("C_vr"))
}

/// What NDS 4.4.3 allows of notches in sawn lumber.
#[derive(Clone, Copy)]
pub(super) struct NotchLimits {
    /// How deep a notch at an end may be.
    pub end: NotchLimit,
    /// How deep a notch elsewhere may be.
    pub inner: NotchLimit,
    /// Length of a notch elsewhere: the depth of the member over this number.
    pub inner_length_over: f64,
    /// Nominal thickness from which the tension edge is not notched, inches.
    pub thick: f64,
}

/// The limits of NDS 4.4.3.
pub(super) fn notch_limits() -> NotchLimits {
    static LIMITS: LazyLock<NotchLimits> = LazyLock::new(|| {
        let over = |place: &str, column: &str| notch_row(place).and_then(|r| r.number(column)).map_or(f64::NAN, |f| f.value);
        let limit = |place: &str| NotchLimit { over: over(place, "depth_over"), most: None, clause: "NDS 4.4.3" };
        let thick = notch_row("elsewhere").and_then(|r| r.quantity("tension_thickness_below"));
        NotchLimits {
            end: limit("end"),
            inner: limit("elsewhere"),
            inner_length_over: over("elsewhere", "length_over"),
            thick: thick.map_or(f64::NAN, |f: Found<Length>| f.value.number_in(&IN)),
        }
    });
    *LIMITS
}
