//! What something else appended to a finished file, judged object by object.
//!
//! A signature is appended as an update: a field in the form, its widget on a page, the signature itself; later perhaps a time stamp and
//! what a reader needs to validate it years from now. Each update is compared with the file before it. What belongs to a signature is
//! listed as such; whatever else it replaces or adds is named. Whether a signature is a good one, and whose, is not judged here: any PDF
//! reader does that.

mod form;
mod known;
mod metadata;
mod signature;

use super::attachments::Unreadable;
use super::layers::Layer;
use super::opened::{Entry, Opened, Section};
use form::Field;
use known::Known;
use lopdf::{Dictionary, Object, ObjectId};
pub use signature::{Kind, Signature};
use std::collections::BTreeSet;

/// What was appended.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Appended {
    /// How many bytes.
    pub bytes: usize,
    /// Signatures in it, in the order of signing.
    pub signatures: Vec<Signature>,
    /// What else is in it, in words; nothing: it leaves pages and attachments as they were.
    pub others: Vec<String>,
}

impl Appended {
    /// Whether it is signatures and nothing else.
    pub fn only_signs(&self) -> bool {
        self.others.is_empty() && !self.signatures.is_empty()
    }

    fn other(&mut self, what: String) {
        if !self.others.contains(&what) {
            self.others.push(what);
        }
    }
}

/// What is in a layer that is no stamp.
pub fn appended(layer: &Layer) -> Appended {
    let from = layer.under.len();
    let mut found = Appended { bytes: layer.with.len() - from, ..Appended::default() };
    if let Err(Unreadable(why)) = judge(layer.with, from, &mut found) {
        found.other(format!("an update that cannot be read: {why}"));
    }
    if found.others.is_empty() && found.signatures.is_empty() {
        found.other("an update in which nothing is signed".into());
    }
    found
}

fn judge(bytes: &[u8], from: usize, found: &mut Appended) -> Result<(), Unreadable> {
    let whole = Opened::open(bytes)?;
    let sections = whole.sections();
    let first = sections.iter().take_while(|section| section.end <= from).count();
    if first == 0 || first == sections.len() || sections[first - 1].end != from {
        return Err(Unreadable("it does not go on from where the file ended".into()));
    }
    let mut before = whole.after(first)?;
    let issued = before.clone();
    let mut begin = from;
    for (count, section) in sections.iter().enumerate().skip(first) {
        whole.is_tiled(count, begin)?;
        let after = whole.after(count + 1)?;
        let known = Known::of(&before)?;
        let update = Update { issued: &issued, before: &before, after: &after, known: &known, section, bytes };
        update.judge(found)?;
        begin = section.end;
        before = after;
    }
    Ok(())
}

/// One update: the file before it and after it.
struct Update<'a> {
    issued: &'a Opened<'a>,
    before: &'a Opened<'a>,
    after: &'a Opened<'a>,
    /// What the objects of the file before are for.
    known: &'a Known,
    section: &'a Section,
    bytes: &'a [u8],
}

impl Update<'_> {
    fn judge(&self, found: &mut Appended) -> Result<(), Unreadable> {
        self.trailer(found)?;
        let fields = form::fields(self.after)?;
        self.catalog(&fields, found)?;
        self.fields(&fields, found)?;
        for (number, entry) in &self.section.entries {
            let Some(id) = self.replaced(*number, *entry, found) else { continue };
            let (old, new) = (self.before.get(id)?, self.after.get(id)?);
            if old == new || self.known.is_judged_apart(id.0) || self.is_for_validation(id)? {
                continue;
            }
            match (self.known.page(id.0), &old, &new) {
                (Some(page), Object::Dictionary(old), Object::Dictionary(new)) => self.page(page, id, old, new, &fields, found)?,
                _ => match (self.known.annotations(id.0), &old, &new) {
                    (Some((page, id)), Object::Array(old), Object::Array(new)) => self.annotations(page, id, old, new, &fields, found)?,
                    _ => found.other(self.known.what(id.0, &old)),
                },
            }
        }
        Ok(())
    }

    /// The object of the file before that an entry replaces; none where it adds one.
    fn replaced(&self, number: u32, entry: Entry, found: &mut Appended) -> Option<ObjectId> {
        let there = self.before.has(number);
        match entry {
            Entry::Free if there => found.other(format!("object {number} is taken away")),
            Entry::Used { generation, .. } if there => return Some((number, generation)),
            // A number that the file left open might be one that it refers to.
            Entry::Used { .. } if number <= self.before.largest() => found.other(format!("object {number} is put into a gap")),
            _ => {}
        }
        None
    }

    /// The trailer leads to the same catalog; identifier and document information say that the file was saved again, and no more.
    fn trailer(&self, found: &mut Appended) -> Result<(), Unreadable> {
        let (old, new) = (self.before.trailer()?, self.after.trailer()?);
        for key in differing(old, new, &[b"Size", b"Prev", b"ID", b"Info"]) {
            found.other(format!("{key} of the trailer is changed"));
        }
        let first = |trailer: &Dictionary| trailer.get(b"ID").and_then(Object::as_array).ok().and_then(|halves| halves.first().cloned());
        if first(old) != first(new) {
            found.other("the file identifier is changed".into());
        }
        let information = |opened: &Opened, trailer| Ok::<_, Unreadable>(opened.dictionary(trailer, b"Info")?.unwrap_or_default());
        let (old, new) = (information(self.before, old)?, information(self.after, new)?);
        for key in differing(&old, &new, &[b"ModDate", b"Producer"]) {
            found.other(format!("the document information is changed: {key}"));
        }
        Ok(())
    }

    /// The catalog may get a form, rights, data for validation, extensions; its metadata may say when and by what it was saved.
    fn catalog(&self, fields: &[Field], found: &mut Appended) -> Result<(), Unreadable> {
        let ((_, old), (_, new)) = (self.before.catalog()?, self.after.catalog()?);
        let judged: [&[u8]; 6] = [b"AcroForm", b"Perms", b"DSS", b"Extensions", b"Version", b"Metadata"];
        for key in differing(&old, &new, &judged) {
            found.other(known::of_catalog(&key));
        }
        if let Some(what) = metadata::changed(self.before, &old, self.after, &new)? {
            found.other(what);
        }
        form::form(self.before, &old, self.after, &new, found)?;
        let rights = |opened: &Opened, catalog| Ok::<_, Unreadable>(opened.dictionary(catalog, b"Perms")?.unwrap_or_default());
        let (old, new) = (rights(self.before, &old)?, rights(self.after, &new)?);
        for key in differing(&old, &new, &[b"DocMDP"]) {
            found.other(format!("rights of another kind than a certification's are given: {key}"));
        }
        let certifies = new.get(b"DocMDP").and_then(Object::as_reference).ok();
        let known = old.get(b"DocMDP").and_then(Object::as_reference).ok();
        if certifies != known && (known.is_some() || !fields.iter().any(|field| field.value.is_some() && field.value == certifies)) {
            found.other("rights that no signature gives".into());
        }
        Ok(())
    }

    /// Fields of signatures that are new, or signed now.
    fn fields(&self, fields: &[Field], found: &mut Appended) -> Result<(), Unreadable> {
        let before = form::fields(self.before)?;
        for field in fields {
            let known = before.iter().find(|known| known.id == field.id);
            for what in field.faults(known) {
                found.other(what);
            }
            let signed_now = known.is_none_or(|known| known.value.is_none());
            if let Some(value) = field.value.filter(|_| signed_now) {
                let signature = signature::read(self.after, self.section, self.bytes, &field.name, value);
                match signature {
                    Ok(signature) => found.signatures.push(signature),
                    Err(Unreadable(why)) => found.other(format!("the signature {}: {why}", field.name)),
                }
            }
        }
        Ok(())
    }

    /// A page may get the widget of a signature.
    fn page(
        &self,
        page: usize,
        id: ObjectId,
        old: &Dictionary,
        new: &Dictionary,
        fields: &[Field],
        found: &mut Appended,
    ) -> Result<(), Unreadable> {
        for key in differing(old, new, &[b"Annots"]) {
            found.other(known::of_page(page, &key));
        }
        let (old, new) = (self.before.array(old, b"Annots")?, self.after.array(new, b"Annots")?);
        self.annotations(page, id, &old, &new, fields, found)
    }

    fn annotations(
        &self,
        page: usize,
        id: ObjectId,
        old: &[Object],
        new: &[Object],
        fields: &[Field],
        found: &mut Appended,
    ) -> Result<(), Unreadable> {
        if !new.starts_with(old) {
            found.other(format!("annotations of page {page} are changed"));
        }
        let mut part = 0.0;
        for annotation in new {
            let widget = annotation.as_reference().ok().filter(|id| fields.iter().any(|field| field.widgets.contains(id)));
            match widget.map(|widget| form::part_of(self.after, widget, id)).transpose()?.flatten() {
                Some(more) => part += more,
                None if old.contains(annotation) => {}
                None => {
                    let kind = self.after.follow(annotation)?.as_dict().ok().and_then(|entries| entries.get(b"Subtype").ok().cloned());
                    let kind = kind.as_ref().and_then(|kind| kind.as_name().ok()).map(String::from_utf8_lossy).unwrap_or_default();
                    found.other(format!("an annotation is put on page {page}: {kind}"));
                }
            }
        }
        if part > form::PART {
            found.other(format!("boxes of signatures cover more than a quarter of page {page}"));
        }
        Ok(())
    }

    /// Whether an object was appended for validation, and nothing else refers to it.
    fn is_for_validation(&self, id: ObjectId) -> Result<bool, Unreadable> {
        if self.issued.has(id.0) {
            return Ok(false);
        }
        let (_, catalog) = self.before.catalog()?;
        let reach = |key: &[u8]| catalog.get(key).map_or(Ok(BTreeSet::new()), |object| known::reach(self.before, object));
        Ok(reach(b"DSS")?.contains(&id.0) && !reach(b"AcroForm")?.contains(&id.0))
    }
}

/// The keys under which two dictionaries differ, those that are judged apart left out.
fn differing(old: &Dictionary, new: &Dictionary, apart: &[&[u8]]) -> Vec<String> {
    let keys: BTreeSet<&Vec<u8>> = old.iter().chain(new.iter()).map(|(key, _)| key).collect();
    let differs = |key: &&Vec<u8>| !apart.contains(&key.as_slice()) && old.get(key).ok() != new.get(key).ok();
    keys.into_iter().filter(differs).map(|key| format!("/{}", String::from_utf8_lossy(key))).collect()
}
