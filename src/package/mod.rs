//! The package: what is on paper.
//!
//! Job and results go in, Typst sources come out, one a sheet, and [`issue`] has them typeset. This room computes no number: it
//! rounds, chooses words, and turns places into points for drawing. So a package can be made again from what is attached to it.
//!
//! - `view`: what each page says, in strings already rounded;
//! - `drawing`: members and the load path to scale;
//! - `templates`: views into Typst, with text that can never become markup.

mod apart;
mod authentication;
mod carried;
mod drawing;
mod label;
mod letters;
mod markup;
mod name;
mod printing;
mod report;
mod templates;
mod view;
mod words;
mod write;

pub use apart::{COMMAND, LATE, Request, WRONG};
pub use authentication::{Named, authentication};
pub use carried::{BUILD, Carried, Head};
pub use label::{Document, IssueLabel};
pub use name::file_name;
pub use report::{proof, span_table};
pub use templates::Templates;
pub use write::{Issue, issue, issue_on, sources, unprintable};

use crate::pdf::{File, Options, Sheet};
use serde::{Deserialize, Serialize};

/// Which copy: two have the same pages, the checker's has pages of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Build {
    /// For the office: job file, results and templates attached, so that the package can be made again from itself alone.
    Record,
    /// For the authority: nothing attached.
    Submittal,
    /// For an independent checker: what goes in, nothing of what came out, room for their own numbers; nothing attached.
    Checking,
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
