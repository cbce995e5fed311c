//! Text, places in it, and what is to be said about them.
//!
//! A [`Source`] is the text of one file. A [`Span`] is a place in it. A [`Diagnostic`] says what is wrong at a place and what to
//! write instead; it holds data and words but no colours: drawing it is the terminal's business.

mod diagnostic;
mod nearest;
mod shown;
mod source;

pub use diagnostic::{Diagnostic, Faults, Label, Replacement, Severity};
pub(crate) use diagnostic::{fault_ids, in_order};
pub use nearest::nearest;
pub use shown::{in_json, on_one_line};
pub use source::{Source, Span};
