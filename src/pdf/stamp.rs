//! A stamp over every page of a finished PDF, appended: the bytes under it stay as they were.
//!
//! printpdf draws one overlay for each page size; lopdf takes its content as a form and appends an incremental update in which every
//! page draws the form last. The form is an artifact to readers of the tags. Letters are black outlines of 0.45 pt or more, so that
//! what lies under them can be read and a photocopier keeps them; nothing is transparent.

use super::attachments::Unreadable;
use super::opened::Opened;
use super::{digest, overlay};
use lopdf::xref::XrefType;
use lopdf::{Dictionary, Document, IncrementalDocument, Object, ObjectId, Stream, dictionary};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;

/// What is stamped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// Large, from corner to corner: `SUPERSEDED`.
    pub large: String,
    /// Under it, and in one line at the head of every page: `by 26-031 revision B of 2026-02-03`.
    pub small: String,
    /// The program that stamps, with its version.
    pub by: String,
}

/// Sizes of pages: a package has one. Each is a drawing of its own.
const SIZES: usize = 8;

/// A page and its size in points: left, bottom, right, top.
type Sized = (ObjectId, [f32; 4]);

impl Stamp {
    /// The stamp as the note of a file says it, after the length of what lies under it.
    fn note(&self, under: usize) -> String {
        let part = |text: &str| text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect::<String>();
        format!("stamp over {under}\t{}\t{}\t{}", part(&self.by), part(&self.large), part(&self.small))
    }
}

/// The stamp of a stamped file, and how many bytes lie under it; none where its last update is no stamp of this program.
///
/// What it says holds only where the [`digest::standing`] of the file is whole.
pub fn stamped(bytes: &[u8]) -> Option<(usize, Stamp)> {
    let mut parts = digest::note(bytes)?.strip_prefix("stamp over ")?.split('\t').map(str::to_owned);
    let under = parts.next()?.parse().ok().filter(|under| *under < bytes.len())?;
    Some((under, Stamp { by: parts.next()?, large: parts.next()?, small: parts.next()? }))
}

/// Appends an update that stamps every page; the bytes given are an unchanged beginning of the bytes returned, and the same bytes and
/// stamp give the same bytes.
///
/// # Errors
/// [`Unreadable`] where the bytes are not a PDF, or one that cannot be updated.
pub fn stamp(bytes: &[u8], stamp: &Stamp) -> Result<Vec<u8>, Unreadable> {
    let opened = Opened::open(bytes)?;
    let pages: Vec<Sized> = opened.pages()?.into_iter().map(|page| Ok((page, opened.size(page)?))).collect::<Result<_, Unreadable>>()?;
    let before = touched(&opened, &pages)?;
    // A stamp over a stamp has a name of its own in resources that pages may share.
    let name = format!("Stamp{}", depth(bytes));
    let mut update = IncrementalDocument::create_from(bytes.to_vec(), before);
    let opening = update.new_document.add_object(Stream::new(Dictionary::new(), b"q\n".to_vec()));
    let drawing = format!("\nQ\n/Artifact <</Type /Pagination /Subtype /Watermark>> BDC q /{name} Do Q EMC\n");
    let closing = update.new_document.add_object(Stream::new(Dictionary::new(), drawing.into_bytes()));
    let mut forms: Vec<([f32; 4], ObjectId)> = Vec::new();
    for (page, size) in pages {
        let form = match forms.iter().find(|(known, _)| *known == size) {
            Some((_, form)) => *form,
            None if forms.len() == SIZES => return Err(Unreadable(format!("its pages have more than {SIZES} sizes"))),
            None => {
                let form = form(&mut update.new_document, stamp, size)?;
                forms.push((size, form));
                form
            }
        };
        update.add_xobject(page, name.as_str(), form)?;
        let contents = update.new_document.get_dictionary(page)?.get(b"Contents").cloned();
        let mut list = vec![Object::from(opening)];
        match contents {
            Ok(Object::Array(old)) => list.extend(old),
            Ok(Object::Reference(old)) => match update.get_prev_documents().get_object(old) {
                Ok(Object::Array(old)) => list.extend(old.iter().cloned()),
                _ => list.push(old.into()),
            },
            _ => {}
        }
        list.push(closing.into());
        update.new_document.get_dictionary_mut(page)?.set("Contents", list);
    }
    rename(&mut update.new_document, bytes, stamp);
    for object in update.new_document.objects.values_mut() {
        if let Object::Stream(stream) = object {
            stream.compress()?;
        }
    }
    let mut out = Vec::new();
    update.save_to(&mut out).map_err(|error| Unreadable(error.to_string()))?;
    let out = digest::kept(out, Some(&stamp.note(bytes.len()))).filter(|out| out.starts_with(bytes));
    out.ok_or_else(|| Unreadable("it cannot be added to".into()))
}

/// How many stamps lie over each other already.
fn depth(mut bytes: &[u8]) -> usize {
    let mut depth = 0;
    while let Some((under, _)) = stamped(bytes) {
        bytes = &bytes[..under];
        depth += 1;
    }
    depth
}

/// What an update that stamps changes or looks at: pages, their resources, the lists of their contents.
fn touched(opened: &Opened, pages: &[Sized]) -> Result<Document, Unreadable> {
    let section = opened.sections().last().ok_or_else(|| Unreadable("it has no trailer".into()))?;
    let mut document = Document::new();
    document.trailer = section.trailer.clone();
    document.trailer.remove(b"Prev");
    document.xref_start = section.at;
    document.max_id = opened.largest();
    document.reference_table.cross_reference_type = XrefType::CrossReferenceTable;
    for (page, _) in pages {
        let Object::Dictionary(entries) = opened.get(*page)? else { return Err(Unreadable("a page is missing".into())) };
        if let Ok(Object::Reference(contents)) = entries.get(b"Contents")
            && let list @ Object::Array(_) = opened.get(*contents)?
        {
            document.set_object(*contents, list);
        }
        if let Ok(Object::Reference(resources)) = entries.get(b"Resources") {
            document.set_object(*resources, opened.get(*resources)?);
        }
        document.set_object(*page, entries);
    }
    Ok(document)
}

/// The overlay for pages of one size, as a form of the document.
fn form(document: &mut Document, stamp: &Stamp, size: [f32; 4]) -> Result<ObjectId, Unreadable> {
    let [left, bottom, right, top] = size;
    let (width, height) = (right - left, top - bottom);
    let overlay = overlay::drawn(stamp, width, height)?;
    let page = *overlay.get_pages().values().next().ok_or_else(|| Unreadable("the stamp is empty".into()))?;
    let content = overlay.get_page_content(page);
    let mut resources = overlay.get_dictionary(page)?.get_deref(b"Resources", &overlay)?.as_dict()?.clone();
    keep_named_fonts(&mut resources, &content);
    let resources = graft_dictionary(&overlay, document, &resources, &mut BTreeMap::new())?;
    let heading = dictionary! {
        "Type" => "XObject",
        "Subtype" => "Form",
        "BBox" => vec![0.into(), 0.into(), width.into(), height.into()],
        // A page need not begin at 0, 0.
        "Matrix" => vec![1.into(), 0.into(), 0.into(), 1.into(), left.into(), bottom.into()],
        "Resources" => resources,
    };
    Ok(document.add_object(Stream::new(heading, content)))
}

/// printpdf lists all base-14 fonts in the resources: unused and not embedded, which no archival file may carry.
fn keep_named_fonts(resources: &mut Dictionary, content: &[u8]) {
    let text = String::from_utf8_lossy(content);
    if let Ok(Object::Dictionary(fonts)) = resources.get_mut(b"Font") {
        let unused = |name: &Vec<u8>| !text.contains(&format!("/{} ", String::from_utf8_lossy(name)));
        let names: Vec<Vec<u8>> = fonts.iter().map(|(name, _)| name.clone()).filter(unused).collect();
        for name in names {
            fonts.remove(&name);
        }
    }
}

/// The first half of the file identifier stays, the second names this update by what it is made of.
fn rename(document: &mut Document, bytes: &[u8], stamp: &Stamp) {
    if let Ok(Object::Array(halves)) = document.trailer.get(b"ID").cloned()
        && let Some(first) = halves.into_iter().next()
    {
        let hash = Sha256::new().chain_update(bytes).chain_update(stamp.note(bytes.len())).finalize();
        document.trailer.set("ID", vec![first, Object::string_literal(&hash[..16])]);
    }
}

/// An object of one document, and all that it refers to, in another.
fn graft(from: &Document, into: &mut Document, object: &Object, seen: &mut BTreeMap<ObjectId, ObjectId>) -> Result<Object, Unreadable> {
    Ok(match object {
        Object::Reference(id) => {
            if let Some(known) = seen.get(id) {
                return Ok(Object::Reference(*known));
            }
            let new = into.new_object_id();
            seen.insert(*id, new);
            let value = graft(from, into, from.get_object(*id)?, seen)?;
            into.set_object(new, value);
            Object::Reference(new)
        }
        Object::Array(items) => Object::Array(items.iter().map(|item| graft(from, into, item, seen)).collect::<Result<_, _>>()?),
        Object::Dictionary(entries) => Object::Dictionary(graft_dictionary(from, into, entries, seen)?),
        Object::Stream(stream) => {
            let mut copy = stream.clone();
            copy.dict = graft_dictionary(from, into, &stream.dict, seen)?;
            Object::Stream(copy)
        }
        plain => plain.clone(),
    })
}

fn graft_dictionary(
    from: &Document,
    into: &mut Document,
    entries: &Dictionary,
    seen: &mut BTreeMap<ObjectId, ObjectId>,
) -> Result<Dictionary, Unreadable> {
    let mut copy = Dictionary::new();
    for (key, value) in entries {
        copy.set(key.clone(), graft(from, into, value, seen)?);
    }
    Ok(copy)
}
