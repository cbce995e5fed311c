//! Build-ups and area loads.

use super::basis::case_of;
use super::fault::Fault;
use super::keys::{Kind, Part};
use super::model::{Area, AreaOfCase, BuildUp, LoadCase};
use super::reader::Reader;
use crate::units::kinds;
use crate::yaml::{Node, Value};

/// Reads the build-ups; one with faulty layers is kept by its name, so that areas may name it.
pub(super) fn build_ups(reader: &mut Reader, node: &Node) -> Vec<BuildUp> {
    let mut all = Vec::new();
    for entry in reader.named(node, "build-ups", &Kind::List(&Kind::Map(Part::Layer))) {
        let mut layers = Vec::new();
        let before = reader.faults.len();
        let items = reader.list(&entry.node, &entry.key, &Kind::Map(Part::Layer));
        if items.is_empty() && reader.faults.len() == before {
            reader.fault(&Fault::NoLayers { name: entry.key.clone() }, entry.key_span);
        }
        for item in items {
            let Some(form) = reader.form(item, Part::Layer) else { continue };
            let layer = reader.text(&form, "layer");
            let weight = form.node("weight").and_then(|node| reader.not_negative(node, "weight", kinds::AREA_LOAD));
            layers.extend(layer.zip(weight).map(|(layer, weight)| (layer, weight.value)));
        }
        all.push(BuildUp { name: entry.key.clone(), layers });
    }
    all
}

/// Reads the area loads; a load that is not well said is left out of its area.
pub(super) fn areas(reader: &mut Reader, node: &Node, cases: &[LoadCase], build_ups: &[BuildUp]) -> Vec<Area> {
    let mut all = Vec::new();
    for entry in reader.named(node, "areas", &Kind::Named(&Kind::Quantity(kinds::AREA_LOAD))) {
        let mut loads = Vec::new();
        if matches!(&entry.node.value, Value::Map(entries) if entries.is_empty()) {
            let (what, wanted) = (format!("`{}`", entry.key), "a map such as `{dead: 12 psf, live: 40 psf}`".to_owned());
            reader.fault(&Fault::WrongShape { found: "an empty map", what, wanted }, entry.node.span);
        }
        for load in reader.named(&entry.node, &entry.key, &Kind::Quantity(kinds::AREA_LOAD)) {
            let case = case_of(reader, cases, &load.key, load.key_span);
            let (value, load_span) = (area_load(reader, &load.node, &load.key, build_ups), load.node.span);
            if let Some((case, (load, build_up))) = case.zip(value) {
                loads.push(AreaOfCase { case, load, build_up, span: load_span });
            }
        }
        all.push(Area { name: entry.key.clone(), loads });
    }
    all
}

/// A load, or the sum of the build-up that is named.
fn area_load(reader: &mut Reader, node: &Node, what: &str, build_ups: &[BuildUp]) -> Option<(crate::units::AreaLoad, Option<usize>)> {
    let text = reader.scalar(node, what, &Kind::Quantity(kinds::AREA_LOAD))?;
    if let Some(index) = build_ups.iter().position(|build_up| build_up.name == text) {
        return Some((build_ups[index].sum(), Some(index)));
    }
    if text.starts_with(|c: char| c.is_alphabetic()) && text != "nan" && text != "inf" {
        reader.unknown_name(text, "build-up", build_ups.iter().map(|build_up| build_up.name.as_str()), node.span);
        return None;
    }
    reader.quantity(node, what, kinds::AREA_LOAD).map(|load| (load.value, None))
}
