//! The metadata of a file: a program that signs says in it when it was saved and by what, and may write it in another form.

use super::super::attachments::{Unreadable, unpacked};
use super::super::opened::Opened;
use lopdf::{Dictionary, Object};
use roxmltree::{Document, Node, ParsingOptions};

/// The most bytes, and parts, of metadata.
const LARGEST: usize = 1 << 20;
const MOST: u32 = 5_000;

const RDF: &str = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
const PDF: &str = "http://ns.adobe.com/pdf/1.3/";
const XMP: &str = "http://ns.adobe.com/xap/1.0/";
const META: &str = "adobe:ns:meta/";

/// What saving a file again sets.
const SET: [(&str, &str); 3] = [(PDF, "Producer"), (XMP, "ModifyDate"), (XMP, "MetadataDate")];

/// What is changed in the metadata of a file but the time when it was saved and the program that did so.
pub(super) fn changed(before: &Opened, old: &Dictionary, after: &Opened, new: &Dictionary) -> Result<Option<String>, Unreadable> {
    let (old, new) = (before.under(old, b"Metadata")?, after.under(new, b"Metadata")?);
    if old == new {
        return Ok(None);
    }
    let (old, new) = (statements(before, &old)?, statements(after, &new)?);
    let other = old.iter().find(|one| !new.contains(one)).or_else(|| new.iter().find(|one| !old.contains(one)));
    Ok(match other {
        Some(((_, name), _)) => Some(format!("the metadata is changed: {name}")),
        None if old.len() != new.len() => Some("the metadata is changed".into()),
        None => None,
    })
}

/// A property by name space and name, and its value.
type Statement = ((String, String), String);

/// What metadata says, in order, however it is written: a property is an element or an attribute, its value a text or a resource.
fn statements(opened: &Opened, metadata: &Object) -> Result<Vec<Statement>, Unreadable> {
    let none = |why: String| Unreadable(format!("its metadata: {why}"));
    let Object::Stream(stream) = metadata else { return Err(none("there is none".into())) };
    let bytes = match opened.under(&stream.dict, b"Filter")? {
        Object::Null => stream.content.clone(),
        Object::Name(name) if name == b"FlateDecode" && !stream.dict.has(b"DecodeParms") => {
            unpacked(&stream.content, LARGEST).map_err(|why| none(why.to_string()))?
        }
        _ => return Err(none("packed in a way that is not known".into())),
    };
    if bytes.len() > LARGEST {
        return Err(none("too large".into()));
    }
    let text = String::from_utf8(bytes).map_err(|_| none("not text".into()))?;
    let options = ParsingOptions { allow_dtd: false, nodes_limit: MOST, ..ParsingOptions::default() };
    let document = Document::parse_with_options(&text, options).map_err(|why| none(why.to_string()))?;
    let mut found = Vec::new();
    for node in document.descendants().filter(Node::is_element) {
        for attribute in node.attributes() {
            let name = (attribute.namespace().unwrap_or_default(), attribute.name());
            match name {
                (RDF, "resource") => found.push((property(node), attribute.value().to_owned())),
                (RDF | META, _) => {}
                (space, name) => found.push(((space.to_owned(), name.to_owned()), attribute.value().to_owned())),
            }
        }
        let is_leaf = !node.children().any(|child| child.is_element());
        let value = node.text().map(str::trim).unwrap_or_default();
        if is_leaf && !value.is_empty() {
            found.push((property(node), value.to_owned()));
        }
    }
    found.retain(|((space, name), _)| !SET.contains(&(space.as_str(), name.as_str())));
    found.sort();
    Ok(found)
}

/// The property that an element is, or is a value of.
fn property(node: Node) -> (String, String) {
    let named = node.ancestors().find(|node| node.is_element() && node.tag_name().namespace() != Some(RDF));
    named.map(|node| (node.tag_name().namespace().unwrap_or_default().to_owned(), node.tag_name().name().to_owned())).unwrap_or_default()
}
