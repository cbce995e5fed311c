//! Section, plies and material, as the job file asks for them; the code's tables resolve the names.

use super::basis::COVERED;
use super::draft::MaterialDraft;
use super::fault::Fault;
use super::keys::{DENSITY, Kind, Part};
use super::model::{CodeName, CustomKind, CustomValues, HoldsFor, MaterialAsked, Placed, SectionAsked};
use super::reader::{Form, Reader};
use crate::units::{Density, KG_PER_M3, Ratio, kinds};
use crate::yaml::{Node, Value};

/// The section: a name, or a size.
pub(super) fn section(reader: &mut Reader, node: &Node) -> Option<Placed<SectionAsked>> {
    let value = match &node.value {
        Value::Scalar(name) => SectionAsked::Named(name.clone()),
        Value::Map(_) => {
            let form = reader.form(node, Part::Section)?;
            let width = form.node("width").and_then(|node| reader.positive(node, "width", kinds::LENGTH));
            let depth = form.node("depth").and_then(|node| reader.positive(node, "depth", kinds::LENGTH));
            SectionAsked::Size { width: width?.value, depth: depth?.value }
        }
        _ => {
            reader.wrong_shape(node, "`section`".into(), &Kind::Either(&[Kind::Text, Kind::Map(Part::Section)]));
            return None;
        }
    };
    Some(Placed { value, span: node.span })
}

/// The material: species and grade, a class, or values with a source.
pub(super) fn material(reader: &mut Reader, node: &Node) -> MaterialDraft {
    let Some(form) = reader.form(node, Part::Material) else { return MaterialDraft::Unread };
    let european = reader.code == Some(CodeName::European);
    if !reader.code.as_ref().is_some_and(|code| COVERED.contains(code)) {
        return MaterialDraft::Unread;
    }
    // What belongs to the other code has been refused by now.
    let given: Vec<&'static str> =
        ["species", "class", "combination", "custom"].into_iter().filter(|key| form.node(key).is_some()).collect();
    if !form.says("custom") {
        for node in ["size-factor", "depth"].into_iter().filter_map(|key| form.node(key)) {
            reader.fault(&Fault::OfCustomAlone, node.span);
        }
    }
    // What is there without a value, or was probably meant, has been told: which material it is is not known.
    let unknown = ["class", "combination", "custom"].into_iter().any(|key| form.says(key) && form.node(key).is_none());
    let value = match given.as_slice() {
        _ if unknown => None,
        ["species"] if european => None,
        ["species"] => return graded(reader, &form),
        ["class"] if european => reader.placed_text(&form, "class").map(MaterialAsked::Class),
        ["combination"] | ["species", "combination"] if european => None,
        ["combination"] | ["species", "combination"] => combination(reader, &form),
        ["custom"] => custom(reader, &form),
        ["class"] => None,
        [] if form.says("grade") || form.says("species") => return if european { MaterialDraft::Unread } else { graded(reader, &form) },
        _ => {
            reader.fault(&Fault::MaterialUnclear { given }, node.span);
            None
        }
    };
    value.map_or(MaterialDraft::Unread, |value| MaterialDraft::Read(Placed { value, span: node.span }))
}

fn graded(reader: &mut Reader, form: &Form) -> MaterialDraft {
    let (species, grade) = (reader.placed_text(form, "species"), reader.placed_text(form, "grade"));
    // Of what has no species and grade in the tables nothing is missing but the right form.
    if let Some((word, made)) = [&species, &grade].into_iter().flatten().find_map(|word| Some((word, NotSawn::of(&word.value)?))) {
        reader.fault(&Fault::NotSawn { word: word.value.clone(), made }, word.span);
        return MaterialDraft::Unread;
    }
    needed(reader, form, &["species", "grade"]);
    match (species, grade) {
        (Some(species), Some(grade)) => MaterialDraft::Read(Placed { value: MaterialAsked::Graded { species, grade }, span: form.span }),
        (species, grade) => MaterialDraft::Graded { species, grade, span: form.span },
    }
}

/// Wood products that no table of sawn lumber has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NotSawn {
    /// Glued laminated timber.
    Laminated,
    /// Structural composite lumber.
    Composite,
}

impl NotSawn {
    /// What a species or a grade names instead of one: `glulam`, `LVL`, `2.0E`.
    fn of(word: &str) -> Option<Self> {
        let plain = word.to_lowercase();
        let names = |known: &[&str]| known.iter().any(|name| plain.split([' ', '-']).any(|part| part == *name));
        let is_modulus = plain.strip_suffix('e').is_some_and(|number| number.trim().parse::<f64>().is_ok());
        if names(&["glulam", "glued", "gluelam", "glt"]) {
            Some(Self::Laminated)
        } else if is_modulus || names(&["lvl", "psl", "lsl", "osl", "scl", "veneer", "strand", "composite"]) {
            Some(Self::Composite)
        } else {
            None
        }
    }
}

fn combination(reader: &mut Reader, form: &Form) -> Option<MaterialAsked> {
    let (name, species) = (reader.placed_text(form, "combination")?, reader.placed_text(form, "species"));
    if let Some(grade) = form.node("grade") {
        reader.fault(&Fault::MaterialUnclear { given: vec!["grade", "combination"] }, grade.span);
        return None;
    }
    Some(MaterialAsked::Combination { name, species })
}

fn custom(reader: &mut Reader, form: &Form) -> Option<MaterialAsked> {
    needed(reader, form, &["kind", "source", "values"]);
    let (name, kind, source) = (reader.text(form, "custom"), reader.word(form, "kind"), reader.text(form, "source"));
    let values = form.node("values").and_then(|node| reader.form(node, Part::CustomValues))?;
    let before = reader.faults.len();
    let mut given = CustomValues { holds_for: holds_for(reader, form), ..CustomValues::default() };
    for key in Part::CustomValues.keys() {
        let Some(entry) = values.entry(key.name) else { continue };
        let named = Placed { value: key.name, span: entry.key_span };
        if key.name == "size_depth" {
            given.lengths.extend(reader.positive(&entry.node, key.name, kinds::LENGTH).map(|length| (named, length.value)));
        } else if key.kind == DENSITY {
            given.numbers.extend(density(reader, &entry.node, key.name).map(|number| (named, number)));
        } else if key.kind == Kind::Number {
            given.numbers.extend(specific_gravity(reader, &entry.node, key.name).map(|number| (named, number.value)));
        } else {
            given.stresses.extend(reader.positive(&entry.node, key.name, kinds::STRESS).map(|stress| (named, stress.value)));
        }
    }
    let kind = kind.and_then(|word| CustomKind::ALL.into_iter().find(|kind| kind.word() == word.value));
    let (name, kind, source) = (name?, kind?, source?);
    (reader.faults.len() == before).then_some(MaterialAsked::Custom { name, kind, source, values: given })
}

/// The size that the values hold for.
fn holds_for(reader: &mut Reader, form: &Form) -> HoldsFor {
    let table = reader.word(form, "size-factor");
    let depth = form.node("depth").and_then(|node| reader.positive(node, "depth", kinds::LENGTH));
    match (table, depth) {
        (Some(_), Some(depth)) => {
            reader.fault(&Fault::SizeTwice, depth.span);
            HoldsFor::Member
        }
        (Some(table), None) => HoldsFor::Table(table.span),
        (None, Some(depth)) => HoldsFor::Depth(depth.value, depth.span),
        (None, None) => HoldsFor::Member,
    }
}

/// A density, kg/m³: with its unit, or as a bare number, as the strength classes print it.
fn density(reader: &mut Reader, node: &Node, name: &str) -> Option<Ratio> {
    if let Value::Scalar(text) = &node.value
        && let Ok(number) = text.parse::<f64>()
        && number > 0.0
        && number < 1e4
    {
        return Some(Ratio::new(number));
    }
    let weight: Placed<Density> = reader.positive(node, name, kinds::DENSITY)?;
    Some(Ratio::new(KG_PER_M3.number(weight.value.value())))
}

fn specific_gravity(reader: &mut Reader, node: &Node, name: &str) -> Option<Placed<crate::units::Ratio>> {
    let number = reader.number(node, name)?;
    if number.value.value() > 0.0 {
        return Some(number);
    }
    reader.fault(&Fault::NotPositive { what: format!("`{name}`"), text: super::reader::written(node) }, node.span);
    None
}

/// Keys that this form of a material needs.
fn needed(reader: &mut Reader, form: &Form, names: &[&'static str]) {
    for name in names.iter().copied().filter(|name| form.node(name).is_none()) {
        if let Some(key) = form.part.keys().find(|key| key.name == name && !form.says(name)) {
            reader.fault(&Fault::MissingKey { key }, form.span);
        }
    }
}
