//! Reductions of live load by the area that a member bears: the engineer's statement.

use super::fault::Fault;
use super::keys::Part;
use super::members::slope_of;
use super::model::{LiveReduction, Placed, RoofLiveReduction, Slope};
use super::reader::Reader;
use crate::units::kinds;
use crate::yaml::Node;

/// The most floors that a member of this kind of building bears.
const MOST_FLOORS: u32 = 20;

/// Of floors.
pub(super) fn live(reader: &mut Reader, node: &Node) -> Option<LiveReduction> {
    let form = reader.form(node, Part::LiveReduction)?;
    let tributary = form.node("tributary").and_then(|node| reader.positive(node, "tributary", kinds::AREA));
    let (element, occupancy) = (reader.word(&form, "element"), reader.word(&form, "occupancy"));
    let floors = form.node("floors").map_or(Some(1), |node| reader.whole(node, "floors", 1, MOST_FLOORS).map(|floors| floors.value));
    Some(LiveReduction { tributary: tributary?, element: element?, occupancy: occupancy?, floors: floors? })
}

/// Of roofs; `own` is the slope of the member.
pub(super) fn roof_live(reader: &mut Reader, node: &Node, own: Option<&Placed<Slope>>) -> Option<RoofLiveReduction> {
    let form = reader.form(node, Part::RoofLiveReduction)?;
    let tributary = form.node("tributary").and_then(|node| reader.positive(node, "tributary", kinds::AREA));
    let slope = match form.node("slope") {
        Some(node) => slope_of(reader, node).map(|slope| slope.value),
        None => own.map(|slope| slope.value.clone()),
    };
    if slope.is_none() && !form.says("slope") {
        reader.fault(&Fault::SlopeMissing { of: "roof" }, form.span);
    }
    Some(RoofLiveReduction { tributary: tributary?, slope: slope? })
}
