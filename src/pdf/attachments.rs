//! Attachments out of a package.

use lopdf::{Dictionary, Document, Object};

/// A PDF that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unreadable(pub String);

impl std::fmt::Display for Unreadable {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "not a PDF that can be read: {}", self.0)
    }
}

impl std::error::Error for Unreadable {}

impl From<lopdf::Error> for Unreadable {
    fn from(error: lopdf::Error) -> Self {
        Self(error.to_string())
    }
}

/// Levels of a tree that are walked; a tree that refers to itself ends there.
pub(super) const DEEPEST: usize = 16;

/// The most bytes of an attachment: far more than the results of a job of a thousand members.
const LARGEST: usize = 512 << 20;

/// The files attached to a PDF, byte for byte, by name, in the order of its name tree; empty where nothing is attached.
///
/// # Errors
/// [`Unreadable`] where the bytes are not a PDF or its name tree is broken.
pub fn attachments(bytes: &[u8]) -> Result<Vec<(String, Vec<u8>)>, Unreadable> {
    let document = Document::load_mem(bytes)?;
    let mut found = Vec::new();
    let Ok(names) = document.catalog()?.get_deref(b"Names", &document).and_then(Object::as_dict) else { return Ok(found) };
    let Ok(tree) = names.get_deref(b"EmbeddedFiles", &document).and_then(Object::as_dict) else { return Ok(found) };
    walk(&document, tree, DEEPEST, &mut found)?;
    Ok(found)
}

/// How many pages a PDF has.
///
/// # Errors
/// [`Unreadable`] where the bytes are not a PDF.
pub fn page_count(bytes: &[u8]) -> Result<usize, Unreadable> {
    Ok(Document::load_mem(bytes)?.get_pages().len())
}

fn walk(document: &Document, node: &Dictionary, depth: usize, found: &mut Vec<(String, Vec<u8>)>) -> Result<(), Unreadable> {
    if depth == 0 {
        return Err(Unreadable("its name tree has no end".into()));
    }
    if let Ok(pairs) = node.get_deref(b"Names", document).and_then(Object::as_array) {
        for pair in pairs.chunks_exact(2) {
            found.push(file(document, document.dereference(&pair[1])?.1.as_dict()?)?);
        }
    }
    if let Ok(kids) = node.get_deref(b"Kids", document).and_then(Object::as_array) {
        for kid in kids {
            walk(document, document.dereference(kid)?.1.as_dict()?, depth - 1, found)?;
        }
    }
    Ok(())
}

fn file(document: &Document, specification: &Dictionary) -> Result<(String, Vec<u8>), Unreadable> {
    let name = lopdf::decode_text_string(specification.get(b"UF").or_else(|_| specification.get(b"F"))?)?;
    let stream = specification.get_deref(b"EF", document)?.as_dict()?.get_deref(b"F", document)?.as_stream()?;
    let bytes = if stream.dict.has(b"Filter") { stream.decompressed_content_with_limit(LARGEST)? } else { stream.content.clone() };
    Ok((name, bytes))
}
