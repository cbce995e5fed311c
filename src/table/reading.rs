//! A table's file, read and made sure of.

use super::heading::Units;
use super::range::Bounds;
use super::row::Key;
use super::{Heading, Row, Status, TableFault, status};
use crate::units::{NONE, Unit};
use csv::StringRecord;
use csv_core::ReadRecordResult;
use std::collections::BTreeSet;
use std::sync::{LazyLock, Mutex, OnceLock, PoisonError};

/// A table of a standard.
///
/// Its heading is complete, its rows have distinct keys, its columns with a unit hold numbers only, and every row says where its values
/// come from.
#[derive(Debug)]
pub struct Table {
    file: String,
    heading: Heading,
    cited: String,
    columns: Vec<String>,
    units: Vec<&'static Unit>,
    rows: Vec<Record>,
}

/// The cells of a row, and what is worked out of them when it is first cited.
#[derive(Debug)]
pub(super) struct Record {
    pub cells: StringRecord,
    /// By its keys.
    pub name: OnceLock<String>,
    /// By column.
    pub statuses: OnceLock<Vec<Option<Status>>>,
}

impl Table {
    /// Reads a file's text; `file` is its name, for messages.
    ///
    /// # Errors
    /// [`TableFault`] says what of the promises above is not kept.
    pub fn parse(file: &str, text: &str) -> Result<Self, TableFault> {
        let (table, named_units) = Self::read(file, text)?;
        table.checked(&named_units)
    }

    /// Reads a file's text; of the promises only that it is a table and has the columns that its heading names.
    fn read(file: &str, text: &str) -> Result<(Self, Units), TableFault> {
        let (heading, named_units) = Heading::read(file, text)?;
        let mut records = records(text).into_iter();
        let columns: Vec<String> = records.next().unwrap_or_default().iter().map(str::to_owned).collect();
        let record = |cells| Record { cells, name: OnceLock::new(), statuses: OnceLock::new() };
        let rows: Vec<Record> = records.map(record).collect();
        if let Some((i, row)) = rows.iter().enumerate().find(|(_, row)| row.cells.len() != columns.len()) {
            let said = format!("row {} has {} cells under {} columns", i + 1, row.cells.len(), columns.len());
            return Err(TableFault::NotCsv { file: file.to_owned(), said });
        }
        let named = named_units.iter().map(|(column, _)| column);
        let status = "status".to_owned();
        if let Some(column) = heading.keys.iter().chain(named).chain([&status]).find(|column| !columns.contains(column)) {
            return Err(TableFault::NoColumn { file: file.to_owned(), column: column.clone() });
        }
        let unit_of = |column: &String| named_units.iter().find(|(named, _)| named == column).map_or(&NONE, |(_, unit)| *unit);
        let units = columns.iter().map(unit_of).collect();
        Ok((Self { file: file.to_owned(), cited: heading.to_string(), heading, columns, units, rows }, named_units))
    }

    /// A file that is part of this program. Meant for a `LazyLock`; a test opens every one of them, and what that has made sure of, row by
    /// row, a release does not ask again every time it starts.
    ///
    /// # Panics
    /// If the file is not a table, which no job can bring about.
    pub fn embedded(file: &'static str, text: &'static str) -> Self {
        let table = if cfg!(debug_assertions) { Self::parse(file, text) } else { Self::read(file, text).map(|(table, _)| table) };
        table.unwrap_or_else(|fault| panic!("{fault}"))
    }

    fn checked(self, named_units: &[(String, &'static Unit)]) -> Result<Self, TableFault> {
        let file = || self.file.clone();
        let mut seen = BTreeSet::new();
        for row in self.rows() {
            if !seen.insert(row.name()) {
                return Err(TableFault::Repeated { file: file(), row: row.name() });
            }
            if !status::is_well_formed(row.text("status").unwrap_or_default(), &self.columns) {
                return Err(TableFault::StrangeStatus { file: file(), row: row.name() });
            }
            for (column, _) in named_units {
                if row.text(column).is_some() && row.bare(column).is_none() {
                    return Err(TableFault::NotANumber { file: file(), row: row.name(), column: column.clone() });
                }
            }
        }
        Ok(self)
    }

    /// The file's name.
    pub fn file(&self) -> &str {
        &self.file
    }

    /// What the table is.
    pub fn heading(&self) -> &Heading {
        &self.heading
    }

    /// The table as it is cited; its heading's own words, put together once.
    pub fn cited(&self) -> &str {
        &self.cited
    }

    /// The names of its columns.
    pub fn columns(&self) -> &[String] {
        &self.columns
    }

    /// Its rows, in file order.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|record| Row { table: self, record })
    }

    /// The first row with these texts in these columns, or in their `…_also`. Letters' case and blanks do not count: `no. 2` is `No.2`.
    pub fn row(&self, keys: &[(&str, &str)]) -> Option<Row<'_>> {
        self.rows_with(keys).next()
    }

    /// The first row with these texts whose ranges hold these numbers, given in N, mm and s (plain where the heading has no unit).
    ///
    /// `("width", x)` is held to `width_from`, `width_above`, `width_to` and `width_below`, where the table has them; it must have one.
    pub fn row_at(&self, keys: &[(&str, &str)], at: &[(&str, f64)]) -> Option<Row<'_>> {
        let bounds: Vec<(Bounds, f64)> = at.iter().map(|(name, number)| Some((Bounds::of(self, name)?, *number))).collect::<Option<_>>()?;
        self.rows_with(keys).find(|row| bounds.iter().all(|(bounds, number)| bounds.in_row(row).holds(*number)))
    }

    /// The rows with these texts, as [`Table::row`] takes them. Columns are looked for once, not row by row.
    pub fn rows_with(&self, keys: &[(&str, &str)]) -> impl Iterator<Item = Row<'_>> {
        let keys: Vec<Key<'_>> = keys.iter().map(|(column, text)| Key::of(self, column, text)).collect();
        self.rows().filter(move |row| keys.iter().all(|key| row.has(key)))
    }

    /// The distinct texts of a column, in file order: the known words for a message about an unknown one.
    pub fn keys(&self, column: &str) -> Vec<&str> {
        self.keys_among(column, &[])
    }

    /// The distinct texts of a column among the rows with these texts: the grades of a species.
    pub fn keys_among(&self, column: &str, keys: &[(&str, &str)]) -> Vec<&str> {
        let mut seen = BTreeSet::new();
        self.rows_with(keys).filter_map(|row| row.text(column)).filter(|text| seen.insert(*text)).collect()
    }

    /// The name of the column that is named after this one: `width_from` of `width` and `from`.
    pub(super) fn column(&self, name: &str, end: &str) -> Option<&str> {
        let is_it = |column: &&String| column.strip_prefix(name).and_then(|rest| rest.strip_prefix('_')) == Some(end);
        self.columns.iter().find(is_it).map(String::as_str)
    }

    pub(super) fn place(&self, column: &str) -> Option<(usize, &'static Unit)> {
        self.columns.iter().position(|known| known == column).map(|place| (place, self.units[place]))
    }
}

/// The reader of records. It is made once and used for one file after another: its automaton costs more than the rows of a table.
static READER: LazyLock<Mutex<csv_core::Reader>> = LazyLock::new(|| Mutex::new(csv_core::ReaderBuilder::new().comment(Some(b'#')).build()));

/// The records of a file, the header among them, remarks not.
fn records(text: &str) -> Vec<StringRecord> {
    let mut reader = READER.lock().unwrap_or_else(PoisonError::into_inner);
    reader.reset();
    let (mut rest, mut records) = (text.as_bytes(), Vec::new());
    // No record is longer than the file, nor has more cells than bytes and one.
    let (mut cells, mut ends) = (vec![0; text.len() + 1], vec![0; text.len() + 1]);
    let (mut written, mut count) = (0, 0);
    loop {
        let (result, read, wrote, ended) = reader.read_record(rest, &mut cells[written..], &mut ends[count..]);
        rest = &rest[read..];
        (written, count) = (written + wrote, count + ended);
        match result {
            // That nothing more is to be read has to be shown to the reader too.
            ReadRecordResult::InputEmpty => {}
            ReadRecordResult::Record => {
                let starts = std::iter::once(&0).chain(&ends);
                records.push(starts.zip(&ends[..count]).map(|(from, to)| String::from_utf8_lossy(&cells[*from..*to])).collect());
                (written, count) = (0, 0);
            }
            _ => return records,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Found, Status};
    use super::*;
    use crate::units::{IN, Length, PSI, Stress};

    const HEAD: &str = "# title: Invented values\n# standard: Own\n# edition: 1\n# table: Table 1\n# keys: species, grade\n\
        # units: psi for F_b E; in for width_from width_to\n# source: invented for this test\n# status: mixed\n# notes: one\n#   two\n";
    const ROWS: &str = "species,species_also,grade,width_from,width_to,depth_above,depth_below,F_b,E,G,status\n\
        Ash,Esche | European Ash,No.2,2,4,0,12,850,1300000,0.5,\"F_b read (here); rest from memory\"\n\
        Ash,Esche | European Ash,No.3,5,-,12,,500,-,,from memory\n";

    fn table() -> Table {
        Table::parse("own.csv", &format!("{HEAD}{ROWS}")).unwrap()
    }

    #[test]
    fn a_look_up_finds_the_value_with_its_unit_and_its_cell() {
        let table = table();
        let row = table.row(&[("species", "ash"), ("grade", "No. 2")]).unwrap();
        let found: Found<Stress> = row.quantity("F_b").unwrap();
        assert_eq!(found.value, PSI.of(850.0));
        assert_eq!((found.cell.table.as_str(), found.cell.row.as_str(), found.cell.column.as_str()), ("Own 1 Table 1", "Ash, No.2", "F_b"));
        assert_eq!(found.cell.status, Status::Part("here".into()));
        let gravity = row.number("G").unwrap();
        assert_eq!((gravity.value, gravity.cell.status), (0.5, Status::Memory));
        assert_eq!(table.heading().notes, "one two");
    }

    #[test]
    fn a_stroke_and_an_empty_cell_are_no_value() {
        let table = table();
        let row = table.row(&[("grade", "No.3")]).unwrap();
        assert!(row.quantity::<crate::units::Dim<crate::units::N2, crate::units::P1, crate::units::Z0>>("E").is_none());
        assert!(row.number("G").is_none() && row.text("width_to").is_none() && row.text("no such column").is_none());
    }

    #[test]
    fn other_names_and_ranges_are_followed() {
        let table = table();
        let width = |inches: f64| IN.of(inches) as Length;
        let grade =
            |inches: f64| table.row_at(&[("species", "Esche")], &[("width", width(inches).value())]).and_then(|row| row.text("grade"));
        assert_eq!(
            (grade(2.0), grade(4.0), grade(4.5), grade(5.0), grade(50.0)),
            (Some("No.2"), Some("No.2"), None, Some("No.3"), Some("No.3"))
        );
        let depth = |number: f64| table.row_at(&[], &[("depth", number)]).and_then(|row| row.text("grade"));
        assert_eq!((depth(11.9), depth(12.0), depth(12.1)), (Some("No.2"), None, Some("No.3")));
        assert!(table.row_at(&[], &[("F_b", 850.0)]).is_none(), "a column without ranges holds no number");
        assert_eq!((table.keys("species"), table.keys_among("grade", &[("species", "Ash")])), (vec!["Ash"], vec!["No.2", "No.3"]));
    }

    #[test]
    fn a_file_that_breaks_a_promise_is_refused() {
        let fault = |from: &str, to: &str| {
            let text = format!("{HEAD}{ROWS}");
            assert!(text.contains(from));
            Table::parse("own.csv", &text.replacen(from, to, 1)).unwrap_err()
        };
        let file = || "own.csv".to_owned();
        assert_eq!(fault("# status: mixed", "# status:"), TableFault::NoHeading { file: file(), word: "status" });
        assert_eq!(fault("psi for F_b E", "psy for F_b E"), TableFault::StrangeHeading { file: file(), line: "psy for F_b E".into() });
        assert_eq!(fault("for F_b E", "for F_t E"), TableFault::NoColumn { file: file(), column: "F_t".into() });
        assert_eq!(fault("850,", "85O,"), TableFault::NotANumber { file: file(), row: "Ash, No.2".into(), column: "F_b".into() });
        assert_eq!(fault("No.3,5", "No.2,5"), TableFault::Repeated { file: file(), row: "Ash, No.2".into() });
        assert_eq!(fault(",from memory", ",surely"), TableFault::StrangeStatus { file: file(), row: "Ash, No.3".into() });
        assert!(matches!(fault("0.5,", ""), TableFault::NotCsv { .. }));
    }
}
