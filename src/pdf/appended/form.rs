//! The form of a document, of which signatures are fields, and their widgets on pages.

use super::super::attachments::Unreadable;
use super::super::opened::Opened;
use super::{Appended, differing};
use lopdf::{Dictionary, Object, ObjectId};

/// Fields of a form that are looked at.
const MOST: usize = 256;
/// What a field of a signature, or its widget, may have: nothing that acts.
const KEYS: [&[u8]; 26] = [
    b"FT", b"T", b"TU", b"TM", b"Type", b"Subtype", b"F", b"Ff", b"Rect", b"P", b"V", b"AP", b"AS", b"MK", b"DA", b"DR", b"Q", b"Lock",
    b"SV", b"M", b"NM", b"BS", b"Border", b"Kids", b"Parent", b"H",
];
/// What signing sets in a field that was there.
const SET: [&[u8]; 7] = [b"V", b"AP", b"M", b"MK", b"F", b"DA", b"DR"];
/// The most of a page that boxes of signatures take; larger ones could hide what stands there.
pub(super) const PART: f32 = 0.25;

/// A field of a form, at its top level.
#[derive(Clone, Debug)]
pub(super) struct Field {
    /// Its object.
    pub id: ObjectId,
    /// Its name, without control characters.
    pub name: String,
    /// The signature in it, where it is signed.
    pub value: Option<ObjectId>,
    /// The annotations that show it.
    pub widgets: Vec<ObjectId>,
    entries: Dictionary,
    kids: Vec<Dictionary>,
}

/// The fields of a document.
pub(super) fn fields(opened: &Opened) -> Result<Vec<Field>, Unreadable> {
    let (_, catalog) = opened.catalog()?;
    let Some(form) = opened.dictionary(&catalog, b"AcroForm")? else { return Ok(Vec::new()) };
    let list = opened.array(&form, b"Fields")?;
    if list.len() > MOST {
        return Err(Unreadable(format!("its form has more than {MOST} fields")));
    }
    list.iter().map(|field| field_of(opened, field)).collect()
}

fn field_of(opened: &Opened, field: &Object) -> Result<Field, Unreadable> {
    let id = field.as_reference().map_err(|_| Unreadable("a field of its form is no object of its own".into()))?;
    let Object::Dictionary(entries) = opened.get(id)? else { return Err(Unreadable("a field of its form is missing".into())) };
    let name = entries.get(b"T").and_then(lopdf::decode_text_string).unwrap_or_default();
    let (mut widgets, mut kids) = (Vec::new(), Vec::new());
    for kid in opened.array(&entries, b"Kids")? {
        let id = kid.as_reference().map_err(|_| Unreadable("a field of its form is no object of its own".into()))?;
        let Object::Dictionary(kid) = opened.get(id)? else { return Err(Unreadable("a field of its form is missing".into())) };
        widgets.push(id);
        kids.push(kid);
        if kids.len() > MOST {
            return Err(Unreadable(format!("a field of its form has more than {MOST} parts")));
        }
    }
    if kids.is_empty() {
        widgets.push(id);
    }
    let value = entries.get(b"V").and_then(Object::as_reference).ok();
    let name = name.chars().filter(|c| !c.is_control()).take(80).collect();
    Ok(Field { id, name, value, widgets, entries, kids })
}

impl Field {
    /// What in a field is not of a signature, or is other than before beside being signed.
    pub(super) fn faults(&self, before: Option<&Self>) -> Vec<String> {
        let name = &self.name;
        if let Some(before) = before {
            let signed = before.value.is_some();
            let apart: &[&[u8]] = if signed { &[] } else { &SET };
            let mut faults: Vec<String> = differing(&before.entries, &self.entries, apart);
            if before.kids.len() != self.kids.len() {
                faults.push("/Kids".into());
            }
            for (old, new) in before.kids.iter().zip(&self.kids) {
                faults.extend(differing(old, new, apart));
            }
            return faults.into_iter().map(|key| format!("the signature field {name} is changed: {key}")).collect();
        }
        let mut faults = Vec::new();
        if self.entries.get(b"FT").and_then(Object::as_name).ok() != Some(b"Sig") {
            faults.push(format!("a field of a form that is no signature: {name}"));
        }
        if self.entries.has(b"V") && self.value.is_none() {
            faults.push(format!("the signature {name} is no object of its own"));
        }
        for part in self.kids.iter().chain([&self.entries]) {
            for (key, _) in part.iter().filter(|(key, _)| !KEYS.contains(&key.as_slice()) && key.as_slice() != b"StructParent") {
                faults.push(format!("the signature field {name} has /{}", String::from_utf8_lossy(key)));
            }
        }
        for kid in self.kids.iter().filter(|kid| kid.has(b"T") || kid.has(b"FT") || kid.has(b"Kids") || kid.has(b"V")) {
            faults.push(format!("the signature field {name} has a field in it: {} entries", kid.len()));
        }
        faults
    }
}

/// The form keeps the fields that it has, and is no form to fill in.
pub(super) fn form(before: &Opened, old: &Dictionary, after: &Opened, new: &Dictionary, found: &mut Appended) -> Result<(), Unreadable> {
    let (old, new) = (before.dictionary(old, b"AcroForm")?.unwrap_or_default(), after.dictionary(new, b"AcroForm")?.unwrap_or_default());
    for key in differing(&old, &new, &[b"Fields", b"SigFlags", b"DR", b"DA"]) {
        found.other(format!("{key} of the form is changed"));
    }
    if !after.array(&new, b"Fields")?.starts_with(&before.array(&old, b"Fields")?) {
        found.other("fields of the form are taken away".into());
    }
    Ok(())
}

/// What a widget that is put on a page takes of it, from 0 to 1; none where it is no box of a signature.
pub(super) fn part_of(opened: &Opened, widget: ObjectId, page: ObjectId) -> Result<Option<f32>, Unreadable> {
    let Object::Dictionary(widget) = opened.get(widget)? else { return Ok(None) };
    let sides: Vec<f32> = opened.array(&widget, b"Rect")?.iter().filter_map(|side| side.as_float().ok()).collect();
    let [left, bottom, right, top] = opened.size(page)?;
    let is_widget = widget.get(b"Subtype").and_then(Object::as_name).ok() == Some(b"Widget");
    Ok(match sides.as_slice() {
        [a, b, c, d] if is_widget => Some(((c - a) * (d - b)).abs() / ((right - left) * (top - bottom))),
        _ => None,
    })
}
