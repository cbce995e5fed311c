//! Tables of the standards, as embedded CSV files that an engineer can hold beside the printed page.
//!
//! A file begins with a heading of `# word: text` lines and goes on with a header row and rows:
//!
//! ```text
//! # title: Reference design values, visually graded dimension lumber
//! # standard: NDS Supplement
//! # edition: 2018
//! # table: Table 4A
//! # keys: species, grade
//! # units: psi for F_b E; in for width_from width_to
//! # source: where the values were read
//! # status: how much of them was read
//! # notes: what a reader of the values must know
//! #   (a line that begins with two blanks goes on with the one above)
//! species,grade,width_from,width_to,F_b,E,status
//! Hem-Fir,No.2,2,-,850,1300000,read (a worked example)
//! ```
//!
//! - **Units** stand in the heading, never in Rust. A column that is not named there holds text or plain numbers (`degF` says that a
//!   plain number is a temperature).
//! - **No value** is a stroke or nothing.
//! - **Keys** are the columns that tell rows apart. A column `grade_also` holds, between bars, other texts that `grade` answers to.
//! - **Ranges** are columns named `…_from` (at least), `…_above` (more than), `…_to` (at most) and `…_below` (less than).
//! - **Status** is a column of every table and says, row by row, where the values come from; see [`Status`].
//!
//! A look-up answers [`Found`]: a value and the [`Cell`] that it stands in, which goes to the references page.

mod cell;
mod fault;
mod heading;
mod interpolation;
mod range;
mod reading;
mod row;
pub(crate) mod slice;
mod status;

pub use cell::{Cell, Found};
pub use fault::TableFault;
pub use heading::Heading;
pub use range::Range;
pub use reading::Table;
pub use row::Row;
pub use status::Status;
