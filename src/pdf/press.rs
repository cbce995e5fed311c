//! The press: compile, and write as PDF.

use super::bug::Bug;
use super::world::World;
use super::{File, Options, Sheet, Standard};
use typst::foundations::Smart;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// Runs that what was laid out may stay unused before it is dropped.
const KEPT: usize = 10;

/// Turns Typst sources into PDFs, and stays warm between them.
///
/// One press for one run of the program is enough; a watch loop keeps it, so that one changed sheet of a hundred is set again in a
/// tenth of the time.
pub struct Press {
    world: World,
}

impl Default for Press {
    fn default() -> Self {
        Self::new()
    }
}

impl Press {
    /// A press with the fonts of the program.
    pub fn new() -> Self {
        Self { world: World::new() }
    }

    /// The PDF of the document that starts at `/main.typ`; the same input gives the same bytes.
    ///
    /// # Errors
    /// A [`Bug`] that names template and line where a source does not compile, reaches for a file that it was not handed, or breaks
    /// the standard asked for. Warnings of the typesetter are bugs too: an unknown font is only a warning to it.
    pub fn pdf(&mut self, sheets: &[Sheet], files: &[File], options: &Options) -> Result<Vec<u8>, Bug> {
        self.world.set(sheets, files);
        let compiled = typst::compile::<PagedDocument>(&self.world);
        typst::comemo::evict(KEPT);
        let document = compiled.output.map_err(|found| Bug::located(&self.world, sheets, &found))?;
        if !compiled.warnings.is_empty() {
            return Err(Bug::located(&self.world, sheets, &compiled.warnings));
        }
        typst_pdf::pdf(&document, &settings(options)?).map_err(|found| Bug::located(&self.world, sheets, &found))
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
