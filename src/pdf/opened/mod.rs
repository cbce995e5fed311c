//! A PDF opened within bounds: time and memory grow with the length of the file, whatever its bytes say.
//!
//! Only the tables are read at first, and an object when it is asked for. Objects lie one behind another and none within another one;
//! an object is read within its own bytes. Nothing is unpacked but what is asked for, and that up to a limit.

mod syntax;
mod table;

use super::attachments::Unreadable;
use lopdf::{Dictionary, Object, ObjectId, Stream};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use syntax::Cursor;
pub(super) use table::{Entry, Section};

/// References that lead to references.
const HOPS: usize = 8;
/// Levels of a tree that are walked.
pub(super) const DEEPEST: usize = 16;
/// The most bytes of an object that is a stream's length.
const OF_LENGTH: usize = 128;

/// A PDF as its tables have it, or an earlier state of it.
#[derive(Clone, Debug)]
pub(super) struct Opened<'a> {
    bytes: &'a [u8],
    sections: Vec<Section>,
    /// Object numbers in use: where each begins, and its generation.
    objects: BTreeMap<u32, (usize, u16)>,
    /// Where an object or a table begins, in order.
    starts: Vec<usize>,
}

impl<'a> Opened<'a> {
    /// Reads the tables.
    pub(super) fn open(bytes: &'a [u8]) -> Result<Self, Unreadable> {
        Self::of(bytes, table::sections(bytes)?)
    }

    fn of(bytes: &'a [u8], sections: Vec<Section>) -> Result<Self, Unreadable> {
        let mut objects = BTreeMap::new();
        let mut starts: Vec<usize> = sections.iter().map(|section| section.at).collect();
        for section in &sections {
            for (number, entry) in &section.entries {
                match entry {
                    Entry::Free => {
                        objects.remove(number);
                    }
                    Entry::Used { at, generation } => {
                        objects.insert(*number, (*at, *generation));
                        starts.push(*at);
                    }
                }
            }
        }
        starts.sort_unstable();
        if starts.windows(2).any(|pair| pair[0] == pair[1]) {
            return Err(Unreadable("two of its objects begin at the same byte".into()));
        }
        Ok(Self { bytes, sections, objects, starts })
    }

    /// The file as it was written, and its updates, the oldest first.
    pub(super) fn sections(&self) -> &[Section] {
        &self.sections
    }

    /// The file as it was after so many sections.
    pub(super) fn after(&self, sections: usize) -> Result<Self, Unreadable> {
        Self::of(self.bytes, self.sections[..sections].to_vec())
    }

    /// Whether there is such an object.
    pub(super) fn has(&self, number: u32) -> bool {
        self.objects.contains_key(&number)
    }

    /// The largest object number.
    pub(super) fn largest(&self) -> u32 {
        self.sections.iter().filter_map(|section| section.entries.keys().next_back().copied()).max().unwrap_or_default()
    }

    /// The trailer that counts.
    pub(super) fn trailer(&self) -> Result<&Dictionary, Unreadable> {
        self.sections.last().map(|section| &section.trailer).ok_or_else(|| Unreadable("it has no trailer".into()))
    }

    /// The object of an id; nothing where there is none.
    pub(super) fn get(&self, id: ObjectId) -> Result<Object, Unreadable> {
        match self.objects.get(&id.0) {
            Some((at, generation)) if *generation == id.1 => Ok(self.read(id, *at)?.0),
            _ => Ok(Object::Null),
        }
    }

    /// The bytes of an object, from its number to its end.
    pub(super) fn range(&self, id: ObjectId) -> Result<Range<usize>, Unreadable> {
        let (at, _) = self.objects.get(&id.0).ok_or_else(|| Unreadable(format!("it has no object {}", id.0)))?;
        Ok(*at..self.read(id, *at)?.1)
    }

    /// What an object is, or what it refers to.
    pub(super) fn follow(&self, object: &Object) -> Result<Object, Unreadable> {
        let mut object = object.clone();
        for _ in 0..HOPS {
            match object {
                Object::Reference(id) => object = self.get(id)?,
                other => return Ok(other),
            }
        }
        Err(Unreadable("a reference that leads nowhere".into()))
    }

    /// What a dictionary has under a key, followed; nothing where it has none.
    pub(super) fn under(&self, of: &Dictionary, key: &[u8]) -> Result<Object, Unreadable> {
        of.get(key).map_or(Ok(Object::Null), |object| self.follow(object))
    }

    /// The dictionary under a key; none where nothing stands there.
    pub(super) fn dictionary(&self, of: &Dictionary, key: &[u8]) -> Result<Option<Dictionary>, Unreadable> {
        match self.under(of, key)? {
            Object::Null => Ok(None),
            Object::Dictionary(found) => Ok(Some(found)),
            _ => Err(wrong(key)),
        }
    }

    /// The array under a key; empty where nothing stands there.
    pub(super) fn array(&self, of: &Dictionary, key: &[u8]) -> Result<Vec<Object>, Unreadable> {
        match self.under(of, key)? {
            Object::Null => Ok(Vec::new()),
            Object::Array(items) => Ok(items),
            _ => Err(wrong(key)),
        }
    }

    /// The catalog and its id.
    pub(super) fn catalog(&self) -> Result<(ObjectId, Dictionary), Unreadable> {
        let root = self.trailer()?.get(b"Root").and_then(Object::as_reference).map_err(|_| Unreadable("it has no catalog".into()))?;
        match self.get(root)? {
            Object::Dictionary(catalog) => Ok((root, catalog)),
            _ => Err(Unreadable("it has no catalog".into())),
        }
    }

    /// The pages in order.
    pub(super) fn pages(&self) -> Result<Vec<ObjectId>, Unreadable> {
        let (_, catalog) = self.catalog()?;
        let root = catalog.get(b"Pages").and_then(Object::as_reference).map_err(|_| Unreadable("it has no pages".into()))?;
        let (mut pages, mut seen) = (Vec::new(), BTreeSet::new());
        let mut waiting = vec![root];
        while let Some(id) = waiting.pop() {
            if !seen.insert(id) {
                return Err(Unreadable("its tree of pages leads in a circle".into()));
            }
            let Object::Dictionary(node) = self.get(id)? else { return Err(Unreadable("a page is missing".into())) };
            if !node.has(b"Kids") {
                pages.push(id);
                continue;
            }
            for kid in self.array(&node, b"Kids")?.iter().rev() {
                waiting.push(kid.as_reference().map_err(|_| Unreadable("a page is missing".into()))?);
            }
        }
        Ok(pages)
    }

    /// A page's media box, which may stand with a parent: left, bottom, right, top in points.
    pub(super) fn size(&self, page: ObjectId) -> Result<[f32; 4], Unreadable> {
        /// The least and the most sides (ISO 32000-1, Annex C).
        const SIDES: std::ops::RangeInclusive<f32> = 3.0..=14_400.0;
        let none = || Unreadable("a page has no size".into());
        let mut id = page;
        for _ in 0..DEEPEST {
            let Object::Dictionary(node) = self.get(id)? else { return Err(none()) };
            let sides = self.array(&node, b"MediaBox")?;
            if !sides.is_empty() {
                let sides: Vec<f32> = sides.iter().filter_map(|side| side.as_float().ok()).collect();
                let sides: [f32; 4] = sides.try_into().map_err(|_| none())?;
                let [left, bottom, right, top] = sides;
                return if SIDES.contains(&(right - left)) && SIDES.contains(&(top - bottom)) { Ok(sides) } else { Err(none()) };
            }
            id = node.get(b"Parent").and_then(Object::as_reference).map_err(|_| none())?;
        }
        Err(none())
    }

    /// Whether an update is nothing but its objects, its table and white space, remarks included: no byte is left over in it.
    pub(super) fn is_tiled(&self, section: usize, from: usize) -> Result<(), Unreadable> {
        let part = &self.sections[section];
        let mut objects: Vec<(usize, ObjectId)> = (part.entries.iter())
            .filter_map(|(number, entry)| match entry {
                Entry::Used { at, generation } => Some((*at, (*number, *generation))),
                Entry::Free => None,
            })
            .collect();
        objects.sort_unstable();
        let mut cursor = Cursor::at(self.bytes, from);
        for (at, id) in objects {
            cursor.space();
            if cursor.place() != at {
                return Err(Unreadable(format!("bytes from {} on that belong to no object", cursor.place())));
            }
            cursor = Cursor::at(self.bytes, self.read(id, at)?.1);
        }
        cursor.space();
        if cursor.place() == part.at {
            Ok(())
        } else {
            Err(Unreadable(format!("bytes from {} on that belong to no object", cursor.place())))
        }
    }

    /// The object that begins at a byte, and where it ends.
    fn read(&self, id: ObjectId, at: usize) -> Result<(Object, usize), Unreadable> {
        let mut cursor = self.begun(id, at, self.bytes.len())?;
        let mut object = cursor.object()?;
        cursor.space();
        if let Object::Dictionary(heading) = &object
            && cursor.word("stream").is_ok()
        {
            if !cursor.takes(b"\r\n") && !cursor.takes(b"\n") {
                return Err(Unreadable(format!("object {} is broken", id.0)));
            }
            let content = cursor.bytes(self.length(heading)?)?.to_vec();
            cursor.blank();
            cursor.word("endstream")?;
            object = Object::Stream(Stream::new(heading.clone(), content));
            cursor.space();
        }
        cursor.word("endobj")?;
        Ok((object, cursor.place()))
    }

    /// A cursor behind the number of an object, which sees no further than this byte, and than where the next one begins.
    fn begun(&self, id: ObjectId, at: usize, end: usize) -> Result<Cursor<'a>, Unreadable> {
        let next = self.starts.partition_point(|start| *start <= at);
        let end = self.starts.get(next).map_or(end, |next| end.min(*next));
        let mut cursor = Cursor::at(&self.bytes[..end.min(self.bytes.len())], at);
        let (number, generation) = (cursor.number()?, {
            cursor.blank();
            cursor.number()?
        });
        if (number, generation) != (id.0 as usize, usize::from(id.1)) {
            return Err(Unreadable(format!("object {} is not where its cross-reference says", id.0)));
        }
        cursor.blank();
        cursor.word("obj")?;
        Ok(cursor)
    }

    /// How long a stream is: a number, or a short object that is one.
    fn length(&self, heading: &Dictionary) -> Result<usize, Unreadable> {
        let none = || Unreadable("a stream has no length".into());
        match heading.get(b"Length").map_err(|_| none())? {
            Object::Reference(id) => {
                let (at, _) = *self.objects.get(&id.0).ok_or_else(none)?;
                let mut cursor = self.begun(*id, at, at + OF_LENGTH)?;
                cursor.blank();
                cursor.number()
            }
            length => length.as_i64().ok().and_then(|length| usize::try_from(length).ok()).ok_or_else(none),
        }
    }
}

fn wrong(key: &[u8]) -> Unreadable {
    Unreadable(format!("what stands under {} is of a wrong kind", String::from_utf8_lossy(key)))
}
