//! The press: lay out, tell where things stand, write as PDF.

use super::bug::Bug;
use super::world::World;
use super::{File, Limits, Options, Sheet, Standard, digest, links};
use crate::cores;
use std::path::{Path, PathBuf};
use typst::comemo::Track;
use typst::engine::{Route, Sink, Traced};
use typst::foundations::{Label, Smart};
use typst::introspection::Introspector;
use typst::utils::PicoStr;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// Runs that what was laid out may stay unused before it is dropped.
const KEPT: usize = 10;

/// Turns Typst sources into PDFs.
///
/// One press for one run of the program is enough; a watch loop keeps a [warm](Self::warm) one, so that one changed sheet of a hundred
/// is set again in a tenth of the time.
pub struct Press {
    world: World,
    warm: bool,
    most_pages: Option<usize>,
    program: Option<(PathBuf, Option<Limits>)>,
}

impl Default for Press {
    fn default() -> Self {
        Self::new()
    }
}

impl Press {
    /// A press with the fonts of the program; what it laid out is forgotten while it is written.
    pub fn new() -> Self {
        Self { world: World::new(), warm: false, most_pages: None, program: None }
    }

    /// A press that remembers what it laid out.
    pub fn warm() -> Self {
        Self { warm: true, ..Self::new() }
    }

    /// A press that has templates of an office's own typeset in a process apart: this program, within these limits, or within those
    /// that the job gives.
    #[must_use]
    pub fn apart(self, program: PathBuf, limits: Option<Limits>) -> Self {
        Self { program: Some((program, limits)), ..self }
    }

    /// A press that refuses documents of more pages.
    #[must_use]
    pub fn with_most_pages(self, most: usize) -> Self {
        Self { most_pages: Some(most), ..self }
    }

    /// The program that typesets templates of an office's own, and its limits where they are given.
    pub fn program(&self) -> Option<(&Path, Option<Limits>)> {
        self.program.as_ref().map(|(program, limits)| (program.as_path(), *limits))
    }

    /// Lays out the document that starts at `/main.typ`.
    ///
    /// # Errors
    /// A [`Bug`] that names template and line where a source does not compile or reaches for a file that it was not handed. Warnings of
    /// the typesetter are bugs too: an unknown font is only a warning to it.
    pub fn lay<'a>(&'a mut self, sheets: &'a [Sheet], files: &[File]) -> Result<Laid<'a>, Bug> {
        self.world.set(sheets, files);
        self.evaluate();
        let compiled = typst::compile::<PagedDocument>(&self.world);
        typst::comemo::evict(KEPT);
        let document = compiled.output.map_err(|found| Bug::located(&self.world, sheets, &found))?;
        if !compiled.warnings.is_empty() {
            return Err(Bug::located(&self.world, sheets, &compiled.warnings));
        }
        if let Some(most) = self.most_pages.filter(|most| document.pages().len() > *most) {
            return Err(Bug::plain(format!("the templates make {} pages; {most} are the most", document.pages().len())));
        }
        Ok(Laid { world: &self.world, sheets, document, warm: self.warm })
    }

    /// Evaluates the sources on all cores. The typesetter finds them done: left alone, it takes them one after another.
    fn evaluate(&self) {
        let world: &dyn typst::World = &self.world;
        let (library, traced) = (world.library(), Traced::default());
        cores::each(&self.world.sources(), |source| {
            // What is at fault in a source is said when the document needs it.
            let mut sink = Sink::new();
            let _ = typst_eval::eval(world.track(), library, traced.track(), sink.track_mut(), Route::default().track(), source);
        });
    }

    /// The PDF of the document that starts at `/main.typ`; the same input gives the same bytes.
    ///
    /// # Errors
    /// Those of [`Press::lay`] and [`Laid::pdf`].
    pub fn pdf(&mut self, sheets: &[Sheet], files: &[File], options: &Options) -> Result<Vec<u8>, Bug> {
        self.lay(sheets, files)?.pdf(options)
    }
}

/// A document laid out: it knows where everything stands.
pub struct Laid<'a> {
    world: &'a World,
    sheets: &'a [Sheet],
    document: PagedDocument,
    warm: bool,
}

/// A place in a document.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The page, from 1.
    pub page: usize,
    /// Points from the top of the page.
    pub y: f64,
}

impl Laid<'_> {
    /// Where the thing with this label stands; none if nothing has it.
    pub fn place(&self, label: &str) -> Option<Place> {
        let introspector = self.document.introspector();
        let label = Label::new(PicoStr::intern(label))?;
        let position = introspector.position(introspector.query_label(label).ok()?.location()?)?;
        Some(Place { page: position.page.get(), y: position.point.y.to_pt() })
    }

    /// The document as PDF, with its digest; the same document gives the same bytes.
    ///
    /// # Errors
    /// A [`Bug`] where the document breaks the standard asked for, or a link leads nowhere.
    pub fn pdf(&self, options: &Options) -> Result<Vec<u8>, Bug> {
        let (document, settings) = (links::settled(&self.document)?, settings(options)?);
        let bytes = std::thread::scope(|threads| {
            if !self.warm {
                threads.spawn(|| typst::comemo::evict(0));
            }
            typst_pdf::pdf(&document, &settings)
        });
        let bytes = bytes.map_err(|found| Bug::located(self.world, self.sheets, &found))?;
        digest::kept(bytes, options.note.as_deref()).ok_or_else(|| Bug::plain("the PDF does not end as one does"))
    }
}

fn settings(options: &Options) -> Result<PdfOptions, Bug> {
    let list = match options.standard {
        Standard::Record => [PdfStandard::A_3a, PdfStandard::Ua_1],
        Standard::Submittal => [PdfStandard::A_2a, PdfStandard::Ua_1],
    };
    Ok(PdfOptions {
        ident: Smart::Custom(options.ident.clone()),
        creator: Smart::Custom(Some(options.creator.clone())),
        // The document's own date stands in its source.
        timestamp: None,
        page_ranges: None,
        standards: PdfStandards::new(&list)
            .map_err(|found| Bug::plain(format!("the PDF standards cannot be asked for together: {found:?}")))?,
        tagged: true,
        pretty: false,
    })
}
