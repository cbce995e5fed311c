//! What can be wrong with a table's file.

use std::fmt;

/// Why a file is not a table. A fault of this program's own files, never of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TableFault {
    /// A line of the heading is missing or empty.
    NoHeading {
        /// The file.
        file: String,
        /// The word that the line begins with.
        word: &'static str,
    },
    /// A line of the heading cannot be understood.
    StrangeHeading {
        /// The file.
        file: String,
        /// The line.
        line: String,
    },
    /// A heading names a column that the header row does not have.
    NoColumn {
        /// The file.
        file: String,
        /// The column.
        column: String,
    },
    /// A row has more or fewer cells than the header row, or is no CSV.
    NotCsv {
        /// The file.
        file: String,
        /// What the CSV reader says.
        said: String,
    },
    /// A column that has a unit holds something that is no number.
    NotANumber {
        /// The file.
        file: String,
        /// The row by its keys.
        row: String,
        /// The column.
        column: String,
    },
    /// Two rows have the same keys.
    Repeated {
        /// The file.
        file: String,
        /// The row by its keys.
        row: String,
    },
    /// A status has a clause without a verb, or names a column that is not there.
    StrangeStatus {
        /// The file.
        file: String,
        /// The row by its keys.
        row: String,
    },
}

impl fmt::Display for TableFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoHeading { file, word } => write!(f, "{file}: the heading has no `{word}`"),
            Self::StrangeHeading { file, line } => write!(f, "{file}: cannot understand the heading line `{line}`"),
            Self::NoColumn { file, column } => write!(f, "{file}: there is no column `{column}`"),
            Self::NotCsv { file, said } => write!(f, "{file}: {said}"),
            Self::NotANumber { file, row, column } => write!(f, "{file}: `{column}` of `{row}` is not a number"),
            Self::Repeated { file, row } => write!(f, "{file}: `{row}` stands there twice"),
            Self::StrangeStatus { file, row } => write!(f, "{file}: cannot understand the status of `{row}`"),
        }
    }
}

impl std::error::Error for TableFault {}
