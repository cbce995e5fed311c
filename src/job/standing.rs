//! What a post, stud or tie has instead of spans: length, ends, effective lengths, plies, plate, finish.

use super::fault::Fault;
use super::geometry::Reach;
use super::keys::Part;
use super::material;
use super::model::{Bracing, EndHeld, Finish, Joined, Placed, Plate, Spans, Standing, Use};
use super::reader::{Form, Reader};
use crate::text::Span;
use crate::units::{Length, kinds};

/// What is taken for an axis of which nothing is said.
pub(super) const EDGES: [(&str, &str); 2] = [
    ("weak", "Held from buckling about the weak axis at its ends only."),
    ("strong", "Held from buckling about the strong axis at its ends only."),
];
/// What is taken for ends of which nothing is said.
pub(super) const PINNED: &str = "Both ends pinned, and held from moving sideways.";

/// The length as one span; a post or stud hands down at its foot, a tie at both ends.
pub(super) fn reach(reader: &mut Reader, form: &Form, mark: Span, role: Use) -> Reach {
    let length: Option<Placed<Length>> = form.node("length").and_then(|node| reader.positive(node, "length", kinds::LENGTH));
    if let Some(key) = form.part.keys().find(|key| key.name == "length" && !form.says("length")) {
        reader.fault(&Fault::MissingKey { key }, mark);
    }
    let nought = Length::new(0.0);
    let spans = length.map(|length| Spans { spans: vec![length], left: nought, right: nought, from_clear: false });
    let supports = if role.is_upright() { 1 } else { 2 };
    Reach { supports: Some(supports), spans, bearing: None }
}

/// The rest of what stands in the place of spans.
pub(super) fn standing(reader: &mut Reader, form: &Form, weak: Bracing, strong: Bracing) -> Standing {
    let ends = form.node("ends").and_then(|node| reader.form(node, Part::Ends));
    let mut end = |name| {
        let word = ends.as_ref().and_then(|form| reader.word(form, name));
        word.map_or(EndHeld::Pinned, |word| match word.value {
            "fixed" => EndHeld::Fixed,
            "free" => EndHeld::Free,
            _ => EndHeld::Pinned,
        })
    };
    let (top, bottom) = (end("top"), end("bottom"));
    let effective = form.node("effective-length").and_then(|node| reader.form(node, Part::EffectiveLength));
    let mut by_hand = |name| {
        let node = effective.as_ref().and_then(|form| form.node(name))?;
        reader.positive(node, name, kinds::LENGTH)
    };
    let (effective_strong, effective_weak) = (by_hand("strong"), by_hand("weak"));
    let joined = reader.word(form, "built-up").map(|word| if word.value == "bolted" { Joined::Bolted } else { Joined::Nailed });
    let plate = form.node("plate").and_then(|node| reader.form(node, Part::Plate)).and_then(|form| {
        let section = form.node("section").and_then(|node| material::section(reader, node));
        let material = form.node("material").and_then(|node| material::material(reader, node).read());
        Some(Plate { section: section?, material: material? })
    });
    let finish = reader.word(form, "finish").map(|word| match word.value {
        "plaster" => Finish::Plaster,
        "brittle" => Finish::Brittle,
        _ => Finish::Flexible,
    });
    let holes = form.node("holes").and_then(|node| reader.positive(node, "holes", kinds::LENGTH)).map(|h| h.value);
    Standing { top, bottom, effective_strong, effective_weak, strong, weak, joined, plate, holes, finish }
}
