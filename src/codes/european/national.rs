//! National choices: a country's row where it has one, else the recommended row; what is not held for sure refuses the country.

use super::fault::Fault;
use super::tables;
use crate::codes::Read;
use crate::job::model::{Basis, Nature};
use crate::table::{Row, Status, Table};
use crate::text::Faults;

/// The row of the recommended values.
const RECOMMENDED: &str = "recommended";

/// The key of a basis' country in the tables; none where no country is named, or no table knows it.
pub(super) fn country(basis: &Basis) -> Option<&'static str> {
    let word = &basis.country.as_ref()?.value;
    tables::COUNTRIES.row(&[("country", word)])?.text("country")
}

/// The consequence class that a country's partial factors of actions hold for, and its name; none where its table does not say.
pub(super) fn consequence(basis: &Basis) -> Option<(&'static str, &'static str)> {
    let row = tables::COUNTRIES.row(&[("country", country(basis)?)])?;
    Some((row.text("consequence")?, row.text("name")?))
}

/// The row of a country, else the recommended one.
pub(super) fn row(table: &'static Table, country: Option<&str>, keys: &[(&str, &str)]) -> Option<Row<'static>> {
    let of = |country| {
        let mut all = vec![("country", country)];
        all.extend_from_slice(keys);
        table.row(&all)
    };
    country.and_then(of).or_else(|| of(RECOMMENDED))
}

/// Whether a row is held for sure.
pub(super) fn is_sure(row: &Row<'_>) -> bool {
    row.cell("country").is_some_and(|cell| cell.status != Status::Unsure)
}

/// The letter of a category of use: `C` of `C3`.
pub(super) fn category(basis: &Basis) -> &str {
    let word = basis.use_category.as_ref().map_or("A", |c| c.value.as_str());
    word.get(..1).unwrap_or("A")
}

/// The row of a nature in the tables of companion factors and durations.
pub(super) fn action(basis: &Basis, nature: Nature) -> &str {
    match nature {
        Nature::Dead => "permanent",
        Nature::RoofLive => "H",
        Nature::Snow if basis.snow_high => "snow above 1000 m",
        Nature::Snow => "snow",
        Nature::Wind => "wind",
        _ => category(basis),
    }
}

/// The row of a nature in Table A1.1 of EN 1990; none for permanent loads.
pub(super) fn psi(basis: &Basis, nature: Nature) -> Option<Row<'static>> {
    row(&tables::PSI, country(basis), &[("category", action(basis, nature))])
}

/// A companion factor of a nature.
pub(super) fn psi_of(basis: &Basis, nature: Nature, column: &str) -> f64 {
    psi(basis, nature).and_then(|row| row.bare(column)).unwrap_or(f64::NAN)
}

/// The duration class of a nature. EN 1995-1-1, Table 2.2.
pub(super) fn duration(basis: &Basis, nature: Nature) -> Option<Row<'static>> {
    row(&tables::DURATIONS, country(basis), &[("load", action(basis, nature))])
}

/// A number that was read, for the references page.
pub(super) fn read(row: Option<&Row<'_>>, column: &str) -> Option<Read> {
    row?.number(column).map(Read::plain)
}

/// What of a basis' country and category the tables do not hold for sure.
pub(super) fn faults(basis: &Basis) -> Faults {
    let mut faults = Faults::new();
    if let Some(placed) = &basis.country {
        let known = || tables::COUNTRIES.rows().filter_map(|row| row.text("country")).filter(|c| unsure(c).is_empty());
        match tables::COUNTRIES.row(&[("country", &placed.value)]) {
            None => {
                faults.push(Fault::NoCountry { country: placed.value.clone(), known: known().collect() }.at(placed.span));
            }
            Some(row) => {
                let (code, name) = (row.text("country").unwrap_or_default(), row.text("name").unwrap_or_default());
                let what = unsure(code);
                if !what.is_empty() {
                    faults.push(Fault::CountryUnsure { name: name.to_owned(), what, known: known().collect() }.at(placed.span));
                }
            }
        }
    }
    if let Some(placed) = &basis.use_category {
        let letter = category(basis);
        let plain = placed.value == letter || tables::CATEGORIES.row(&[("category", &placed.value)]).is_some();
        let found = plain && "ABCDEFGH".contains(letter) && psi(basis, Nature::Live).is_some();
        if !found {
            faults.push(Fault::NoPsi { category: placed.value.clone() }.at(placed.span));
        } else if !duration(basis, Nature::Live).is_some_and(|row| is_sure(&row)) {
            faults.push(Fault::CategoryUnsure { category: placed.value.clone() }.at(placed.span));
        }
    }
    faults
}

/// The tables in which a country's choice is not held for sure, by their titles.
fn unsure(country: &str) -> Vec<String> {
    let tables: [&'static Table; 6] = [&tables::SET_B, &tables::PSI, &tables::DURATIONS, &tables::GAMMA_M, &tables::K_CR, &tables::LIMITS];
    let doubtful = |table: &&'static Table| table.rows().any(|row| row.text("country") == Some(country) && !is_sure(&row));
    tables
        .into_iter()
        .filter(doubtful)
        .map(|table| format!("{} ({})", table.heading().title.to_lowercase(), table.heading().table))
        .collect()
}
