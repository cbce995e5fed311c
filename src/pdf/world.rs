//! All that a source can reach: the fonts of the program, the sources and files handed in.

use super::{File, Sheet};
use crate::cores;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook, FontStyle, FontWeight};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt};

include!(concat!(env!("OUT_DIR"), "/fonts.rs"));

/// The fonts of the program; reading their tables takes a while, so it is done once.
pub(super) static FACES: LazyLock<Vec<Font>> = LazyLock::new(|| FONTS.iter().flat_map(|bytes| Font::iter(Bytes::new(*bytes))).collect());

/// The bold face of the text, for a stamp.
pub(super) fn bold() -> Option<&'static [u8]> {
    FONTS.iter().copied().find(|bytes| {
        Font::iter(Bytes::new(*bytes)).any(|face| {
            let info = face.info();
            info.family == "XCharter" && info.variant.weight == FontWeight::BOLD && info.variant.style == FontStyle::Normal
        })
    })
}

/// The path as Typst knows it; none where it climbs out of the document.
fn id(path: &str) -> Option<FileId> {
    Some(RootedPath::new(VirtualRoot::Project, VirtualPath::new(path).ok()?).intern())
}

/// The path of an id, with a slash before it.
pub(super) fn path(id: FileId) -> String {
    id.get().vpath().get_with_slash().to_owned()
}

/// A world without disk, clock or network.
pub(super) struct World {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    main: FileId,
    sources: BTreeMap<String, Source>,
    files: BTreeMap<String, Bytes>,
}

impl World {
    /// A world that holds the fonts and nothing else; the document starts at `/main.typ`.
    pub(super) fn new() -> Self {
        let main = Source::detached("").id();
        Self {
            library: LazyHash::new(Library::builder().build()),
            book: LazyHash::new(FontBook::from_fonts(&*FACES)),
            main: id("/main.typ").unwrap_or(main),
            sources: BTreeMap::new(),
            files: BTreeMap::new(),
        }
    }

    /// Puts these sources and files in place of the former ones.
    ///
    /// A source that was there before keeps the numbering of its unchanged parts, so that what was laid out from them is not laid out again.
    pub(super) fn set(&mut self, sheets: &[Sheet], files: &[File]) {
        let read = cores::each(sheets, |sheet| match self.sources.get(&sheet.path) {
            Some(former) => {
                let mut source = former.clone();
                source.replace(&sheet.text);
                Some(source)
            }
            None => id(&sheet.path).map(|id| Source::new(id, sheet.text.clone())),
        });
        self.sources = sheets.iter().zip(read).filter_map(|(sheet, source)| Some((sheet.path.clone(), source?))).collect();
        self.files = files.iter().map(|file| (file.path.clone(), Bytes::new(file.bytes.clone()))).collect();
    }
}

impl World {
    /// The sources but for the first, which takes in the others.
    pub(super) fn sources(&self) -> Vec<&Source> {
        self.sources.values().filter(|source| source.id() != self.main).collect()
    }
}

impl typst::World for World {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let path = path(id);
        self.sources.get(&path).cloned().ok_or_else(|| FileError::NotFound(path.into()))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        match self.files.get(&path(id)) {
            Some(bytes) => Ok(bytes.clone()),
            None => self.source(id).map(Bytes::from_string),
        }
    }

    fn font(&self, index: usize) -> Option<Font> {
        FACES.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
