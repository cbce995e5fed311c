//! What the objects of a file are for, so that one that is replaced can be judged, and named.

use super::super::attachments::Unreadable;
use super::super::opened::{DEEPEST, Opened};
use super::form;
use lopdf::{Dictionary, Object, ObjectId};
use std::collections::{BTreeMap, BTreeSet};

/// What objects are for, by number.
#[derive(Debug, Default)]
pub(super) struct Known {
    pages: BTreeMap<u32, usize>,
    annotations: BTreeMap<u32, (usize, ObjectId)>,
    /// Catalog, document information, metadata, form, fields: each is compared where it is judged.
    apart: BTreeSet<u32>,
    named: BTreeMap<u32, String>,
}

impl Known {
    pub(super) fn of(opened: &Opened) -> Result<Self, Unreadable> {
        let mut known = Self::default();
        let (id, catalog) = opened.catalog()?;
        known.apart.insert(id.0);
        let trailer = opened.trailer()?;
        for object in [trailer.get(b"Info"), catalog.get(b"Metadata"), catalog.get(b"AcroForm"), catalog.get(b"Perms")] {
            known.apart.extend(object.and_then(Object::as_reference).ok().map(|id| id.0));
        }
        if let Some(form) = opened.dictionary(&catalog, b"AcroForm")? {
            known.apart.extend(form.get(b"Fields").and_then(Object::as_reference).ok().map(|id| id.0));
        }
        for field in form::fields(opened)? {
            known.apart.insert(field.id.0);
            known.named.extend(field.value.map(|value| (value.0, format!("the signature {} is changed", field.name))));
        }
        for (i, id) in opened.pages()?.into_iter().enumerate() {
            let Object::Dictionary(page) = opened.get(id)? else { continue };
            known.page_of(opened, i + 1, id, &page)?;
        }
        if let Some(names) = opened.dictionary(&catalog, b"Names")?
            && let Some(tree) = opened.dictionary(&names, b"EmbeddedFiles")?
        {
            known.attachments(opened, &tree, DEEPEST)?;
        }
        Ok(known)
    }

    fn page_of(&mut self, opened: &Opened, page: usize, id: ObjectId, entries: &Dictionary) -> Result<(), Unreadable> {
        self.pages.insert(id.0, page);
        if let Ok(Object::Reference(list)) = entries.get(b"Annots") {
            self.annotations.insert(list.0, (page, id));
        }
        for (key, what) in [(&b"Contents"[..], "content"), (b"Resources", "resources")] {
            let Ok(object) = entries.get(key) else { continue };
            let mut parts = vec![object.clone()];
            if let Object::Array(more) = opened.follow(object)? {
                parts.extend(more);
            }
            for id in parts.iter().filter_map(|part| part.as_reference().ok()) {
                self.named.insert(id.0, format!("the {what} of page {page} is changed"));
            }
        }
        Ok(())
    }

    fn attachments(&mut self, opened: &Opened, node: &Dictionary, depth: usize) -> Result<(), Unreadable> {
        for pair in opened.array(node, b"Names")?.chunks_exact(2) {
            let name = pair[0].as_str().map(String::from_utf8_lossy).unwrap_or_default();
            let what = format!("the attachment {name} is changed");
            self.named.extend(pair[1].as_reference().ok().map(|id| (id.0, what.clone())));
            if let Object::Dictionary(specification) = opened.follow(&pair[1])?
                && let Some(files) = opened.dictionary(&specification, b"EF")?
            {
                self.named.extend(files.iter().filter_map(|(_, file)| file.as_reference().ok()).map(|id| (id.0, what.clone())));
            }
        }
        for kid in opened.array(node, b"Kids")? {
            let id = kid.as_reference()?;
            let twice = self.named.insert(id.0, "the list of attachments is changed".into()).is_some();
            if let Object::Dictionary(kid) = opened.get(id)?
                && depth > 0
                && !twice
            {
                self.attachments(opened, &kid, depth - 1)?;
            }
        }
        Ok(())
    }

    /// The page that an object is, from 1.
    pub(super) fn page(&self, number: u32) -> Option<usize> {
        self.pages.get(&number).copied()
    }

    /// The page whose list of annotations an object is.
    pub(super) fn annotations(&self, number: u32) -> Option<(usize, ObjectId)> {
        self.annotations.get(&number).copied()
    }

    /// Whether an object is compared where it is judged.
    pub(super) fn is_judged_apart(&self, number: u32) -> bool {
        self.apart.contains(&number)
    }

    /// An object that is replaced, in words.
    pub(super) fn what(&self, number: u32, object: &Object) -> String {
        if let Some(what) = self.named.get(&number) {
            return what.clone();
        }
        let entries = match object {
            Object::Dictionary(entries) => entries,
            Object::Stream(stream) => &stream.dict,
            _ => return format!("object {number} is changed"),
        };
        let word = |key: &[u8]| entries.get(key).and_then(Object::as_name).map(|name| String::from_utf8_lossy(name).into_owned()).ok();
        match word(b"Type").or_else(|| word(b"Subtype")) {
            Some(kind) => format!("object {number} is changed: {kind}"),
            None if entries.has(b"Title") || entries.has(b"Dest") => format!("object {number} is changed, of the outline"),
            None => format!("object {number} is changed"),
        }
    }
}

/// An entry of the catalog that is changed, in words.
pub(super) fn of_catalog(key: &str) -> String {
    match key {
        "/Names" | "/AF" => format!("the list of attachments and names is changed: {key}"),
        "/Outlines" => "the outline is changed".into(),
        "/Pages" => "the list of pages is changed".into(),
        _ => format!("{key} of the catalog is changed"),
    }
}

/// An entry of a page that is changed, in words.
pub(super) fn of_page(page: usize, key: &str) -> String {
    match key {
        "/Contents" => format!("the content of page {page} is changed"),
        "/Resources" => format!("the resources of page {page} are changed"),
        _ => format!("{key} of page {page} is changed"),
    }
}

/// The objects to which one refers, without going back to its page or parent.
pub(super) fn reach(opened: &Opened, object: &Object) -> Result<BTreeSet<u32>, Unreadable> {
    let (mut seen, mut waiting) = (BTreeSet::new(), vec![object.clone()]);
    while let Some(object) = waiting.pop() {
        match object {
            Object::Reference(id) if seen.insert(id.0) => waiting.push(opened.get(id)?),
            Object::Array(items) => waiting.extend(items),
            Object::Dictionary(entries) => waiting.extend(onward(&entries)),
            Object::Stream(stream) => waiting.extend(onward(&stream.dict)),
            _ => {}
        }
    }
    Ok(seen)
}

fn onward(entries: &Dictionary) -> Vec<Object> {
    let back = |key: &[u8]| key == b"P" || key == b"Parent";
    entries.iter().filter(|(key, _)| !back(key)).map(|(_, value)| value.clone()).collect()
}
