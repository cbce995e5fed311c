//! The heading of a table's file.

use super::TableFault;
use crate::units::{NONE, UNITS, Unit};
use std::fmt;

/// What a table is, from the comment lines above its rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heading {
    /// What it holds.
    pub title: String,
    /// The standard: `NDS Supplement`.
    pub standard: String,
    /// Its edition: `2018`.
    pub edition: String,
    /// The table or clause: `Table 4A`, `4.3.9`.
    pub table: String,
    /// The columns that tell rows apart.
    pub keys: Vec<String>,
    /// Where the values were read.
    pub source: String,
    /// How much of them was read.
    pub status: String,
    /// What a reader of the values must know.
    pub notes: String,
}

/// The table as it is cited: `NDS Supplement 2018 Table 4A`.
impl fmt::Display for Heading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} {}", self.standard, self.edition, self.table)
    }
}

/// Units by column, in the order of the heading.
pub(super) type Units = Vec<(String, &'static Unit)>;

impl Heading {
    /// Reads the comment lines at the top of a file.
    pub(super) fn read(file: &str, text: &str) -> Result<(Self, Units), TableFault> {
        let lines = lines(file, text)?;
        let take = |word: &'static str| {
            let found = lines.iter().find(|(w, _)| w == word).map(|(_, text)| text.clone());
            found.filter(|text| !text.is_empty()).ok_or(TableFault::NoHeading { file: file.to_owned(), word })
        };
        let keys = take("keys")?.split(',').map(|key| key.trim().to_owned()).collect();
        let units = units(file, &take("units")?)?;
        let heading = Self {
            title: take("title")?,
            standard: take("standard")?,
            edition: take("edition")?,
            table: take("table")?,
            keys,
            source: take("source")?,
            status: take("status")?,
            notes: take("notes")?,
        };
        Ok((heading, units))
    }
}

fn lines(file: &str, text: &str) -> Result<Vec<(String, String)>, TableFault> {
    let mut lines: Vec<(String, String)> = Vec::new();
    for line in text.lines().map_while(|line| line.strip_prefix('#')) {
        let strange = || TableFault::StrangeHeading { file: file.to_owned(), line: line.trim().to_owned() };
        if line.starts_with("  ") {
            let (_, above) = lines.last_mut().ok_or_else(strange)?;
            above.push(' ');
            above.push_str(line.trim());
        } else {
            let (word, rest) = line.split_once(':').ok_or_else(strange)?;
            lines.push((word.trim().to_owned(), rest.trim().to_owned()));
        }
    }
    Ok(lines)
}

/// `psi for F_b E; in for width_from`, or `none`.
fn units(file: &str, text: &str) -> Result<Units, TableFault> {
    let mut units = Vec::new();
    for group in text.split(';').map(str::trim).filter(|group| *group != "none") {
        let strange = || TableFault::StrangeHeading { file: file.to_owned(), line: group.to_owned() };
        let (name, columns) = group.split_once(" for ").ok_or_else(strange)?;
        let unit = named(name).ok_or_else(strange)?;
        units.extend(columns.split_whitespace().map(|column| (column.to_owned(), unit)));
    }
    Ok(units)
}

fn named(name: &str) -> Option<&'static Unit> {
    if name == "degF" { Some(&NONE) } else { UNITS.iter().copied().find(|unit| unit.name == name) }
}
