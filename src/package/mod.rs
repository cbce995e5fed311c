//! The package: what is on paper.
//!
//! Job and results go in, Typst sources come out, one a sheet, and [`issue`] has them typeset. This room computes no number: it
//! rounds, chooses words, and turns places into points for drawing. So a package can be made again from what is attached to it.
//!
//! - `view`: what each page says, in strings already rounded;
//! - `drawing`: members and the load path to scale;
//! - `templates`: views into Typst, with text that can never become markup.

mod authentication;
mod carried;
mod drawing;
mod markup;
mod printing;
mod templates;
mod view;
mod words;
mod write;

pub use authentication::authentication;
pub use carried::{Carried, Head};
pub use templates::Templates;
pub use write::{issue, issue_on, sources, unprintable};

use crate::pdf::{File, Options, Sheet};

/// Which of the two files with the same pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Build {
    /// For the office: job file, results and templates attached, so that the package can be made again from itself alone.
    Record,
    /// For the authority: nothing attached.
    Submittal,
}

/// A package before it is typeset.
#[derive(Clone, Debug)]
pub struct Sources {
    /// The sources, `/main.typ` first.
    pub sheets: Vec<Sheet>,
    /// What they attach; empty for a submittal.
    pub files: Vec<File>,
    /// How the PDF is to be written.
    pub options: Options,
}
