//! Attachments out of a package.

use super::layers::issued;
use super::opened::{DEEPEST, Opened};
use flate2::read::ZlibDecoder;
use lopdf::{Dictionary, Object, ObjectId};
use std::collections::BTreeSet;
use std::io::Read;

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

/// The most files attached: those of a reissue and an office's templates.
const MOST: usize = 128;
/// All attachments together are unpacked up to so many bytes, and so many times the length of the file: the results of a sheet take less
/// than the sheet.
const ROOM: usize = 16 << 20;
const TIMES: usize = 16;

/// The files attached to a PDF when it was issued, byte for byte, by name, in the order of its name tree; empty where nothing is attached.
/// What was appended later, a stamp or a signature, is not asked.
///
/// # Errors
/// [`Unreadable`] where the bytes are not a PDF, its name tree is broken, or what is attached does not come out within bounds.
pub fn attachments(bytes: &[u8]) -> Result<Vec<(String, Vec<u8>)>, Unreadable> {
    let issued = issued(bytes);
    let opened = Opened::open(issued)?;
    let (_, catalog) = opened.catalog()?;
    let Some(names) = opened.dictionary(&catalog, b"Names")? else { return Ok(Vec::new()) };
    let Some(tree) = opened.dictionary(&names, b"EmbeddedFiles")? else { return Ok(Vec::new()) };
    let room = ROOM + issued.len().saturating_mul(TIMES);
    let mut walk = Walk { opened: &opened, seen: BTreeSet::new(), found: Vec::new(), room };
    walk.node(&tree, DEEPEST)?;
    Ok(walk.found)
}

/// How many pages a PDF has.
///
/// # Errors
/// [`Unreadable`] where the bytes are not a PDF.
pub fn page_count(bytes: &[u8]) -> Result<usize, Unreadable> {
    Ok(Opened::open(bytes)?.pages()?.len())
}

/// A walk through a tree of names.
struct Walk<'a> {
    opened: &'a Opened<'a>,
    /// Nodes that were visited.
    seen: BTreeSet<ObjectId>,
    found: Vec<(String, Vec<u8>)>,
    /// Bytes that may still be unpacked.
    room: usize,
}

impl Walk<'_> {
    fn node(&mut self, node: &Dictionary, depth: usize) -> Result<(), Unreadable> {
        for pair in self.opened.array(node, b"Names")?.chunks_exact(2) {
            if self.found.len() == MOST {
                return Err(Unreadable(format!("it has more than {MOST} attachments")));
            }
            let Object::Dictionary(specification) = self.opened.follow(&pair[1])? else {
                return Err(Unreadable("an attachment is missing".into()));
            };
            let file = self.file(&specification)?;
            self.found.push(file);
        }
        for kid in self.opened.array(node, b"Kids")? {
            let id = kid.as_reference()?;
            let Object::Dictionary(kid) = self.opened.get(id)? else { return Err(Unreadable("its name tree is broken".into())) };
            if depth == 0 || !self.seen.insert(id) {
                return Err(Unreadable("its name tree has no end".into()));
            }
            self.node(&kid, depth - 1)?;
        }
        Ok(())
    }

    fn file(&mut self, specification: &Dictionary) -> Result<(String, Vec<u8>), Unreadable> {
        let name = specification.get(b"UF").or_else(|_| specification.get(b"F"))?;
        let name = lopdf::decode_text_string(&self.opened.follow(name)?)?;
        let files = self.opened.dictionary(specification, b"EF")?.unwrap_or_default();
        let Object::Stream(stream) = self.opened.under(&files, b"F")? else {
            return Err(Unreadable(format!("the attachment {name} is missing")));
        };
        // As this program packs: not at all, or once.
        let bytes = match self.opened.under(&stream.dict, b"Filter")? {
            Object::Null => stream.content,
            Object::Name(filter) if filter == b"FlateDecode" && !stream.dict.has(b"DecodeParms") => {
                unpacked(&stream.content, self.room).map_err(|why| Unreadable(format!("the attachment {name}: {why}")))?
            }
            _ => return Err(Unreadable(format!("the attachment {name} is packed in a way that no package has"))),
        };
        self.room = self.room.checked_sub(bytes.len()).ok_or_else(|| Unreadable("its attachments are too large".into()))?;
        Ok((name, bytes))
    }
}

/// What was packed, up to one byte more than there is room for.
pub(super) fn unpacked(packed: &[u8], room: usize) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    ZlibDecoder::new(packed).take(room as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}
