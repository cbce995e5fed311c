//! The floor that a joist is part of.

use super::fault::Fault;
use super::keys::Part;
use super::model::{Floor, StiffAcross};
use super::reader::{Form, Reader, written};
use crate::units::{Ratio, kinds};
use crate::yaml::Node;

/// Reads a floor; `spaced` says whether its member has a spacing.
pub(super) fn floor(reader: &mut Reader, node: &Node, spaced: bool) -> Option<Floor> {
    let form = reader.form(node, Part::Floor)?;
    if !spaced {
        reader.fault(&Fault::FloorWithoutSpacing, node.span);
    }
    let decking = form.node("decking").and_then(|node| decking(reader, node));
    let stated = form.node("stiffness-across").and_then(|node| reader.positive(node, "stiffness-across", kinds::WIDTH_STIFFNESS));
    if let (true, Some(entry)) = (form.says("decking"), form.entry("stiffness-across")) {
        reader.fault(&Fault::StiffTwice, entry.key_span);
    }
    let width = form.node("width").and_then(|node| reader.positive(node, "width", kinds::LENGTH)).map(|width| width.value);
    Some(Floor {
        width,
        across: decking.or_else(|| stated.map(|s| StiffAcross::Stated(s.value))),
        mass: form.node("mass").and_then(|node| reader.positive(node, "mass", kinds::MASS)).map(|mass| mass.value),
        damping: part(reader, &form, "damping"),
        share: part(reader, &form, "share"),
        a: form.node("a").and_then(|node| reader.positive(node, "a", kinds::LENGTH)),
        b: form.node("b").and_then(|node| reader.number(node, "b")),
        strutted: reader.yes_no(&form, "strutted").unwrap_or(false),
    })
}

fn decking(reader: &mut Reader, node: &Node) -> Option<StiffAcross> {
    let form = reader.form(node, Part::Decking)?;
    let thickness = form.node("thickness").and_then(|node| reader.positive(node, "thickness", kinds::LENGTH));
    let modulus = form.node("E").and_then(|node| reader.positive(node, "E", kinds::STRESS));
    Some(StiffAcross::Decking { thickness: thickness?.value, modulus: modulus?.value })
}

/// A number above 0, 1 at most.
fn part(reader: &mut Reader, form: &Form, name: &'static str) -> Option<Ratio> {
    let node = form.node(name)?;
    let number = reader.number(node, name)?.value;
    if number.value() > 0.0 && number.value() <= 1.0 {
        return Some(number);
    }
    reader.fault(&Fault::NotAShare { what: name, text: written(node) }, node.span);
    None
}
