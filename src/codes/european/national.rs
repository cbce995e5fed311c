//! National choices: a country's row where it has one, else the recommended row; what is not held for sure refuses the country.

use super::fault::Fault;
use super::tables;
use crate::codes::Read;
use crate::job::model::{Basis, Case, Nature, Placed};
use crate::table::{Row, Status, Table};
use crate::text::{Diagnostic, Faults};

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

/// The row of a case in the tables of companion factors and durations: a case of imposed load that has a category of its own takes that.
fn action_of(basis: &Basis, case: Case) -> &str {
    let own = &basis.cases[case.0];
    match own.use_category.as_ref().filter(|_| own.nature == Nature::Live) {
        Some(word) => word.value.get(..1).unwrap_or("A"),
        None => action(basis, own.nature),
    }
}

/// A companion factor of a case.
pub(super) fn psi_of_case(basis: &Basis, case: Case, column: &str) -> f64 {
    if basis.nature(case) == Nature::Dead {
        return 1.0;
    }
    psi_row(basis, action_of(basis, case)).and_then(|row| row.bare(column)).unwrap_or(f64::NAN)
}

/// The duration class of a case. EN 1995-1-1, Table 2.2.
pub(super) fn duration_of_case(basis: &Basis, case: Case) -> Option<Row<'static>> {
    row(&tables::DURATIONS, country(basis), &[("load", action_of(basis, case))])
}

/// Whether a case counts by a category that is not that of its nature.
pub(super) fn has_own_category(basis: &Basis, case: Case) -> bool {
    action_of(basis, case) != action(basis, basis.nature(case))
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
    psi_row(basis, action(basis, nature))
}

fn psi_row(basis: &Basis, category: &str) -> Option<Row<'static>> {
    row(&tables::PSI, country(basis), &[("category", category)])
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
    faults.extend(basis.use_category.iter().filter_map(|word| category_fault(basis, word)));
    for case in &basis.cases {
        let Some(word) = &case.use_category else { continue };
        if case.nature == Nature::Live {
            faults.extend(category_fault(basis, word));
        } else {
            faults.push(Fault::NoImposedLoad { name: case.name.clone(), like: case.nature.word() }.at(word.span));
        }
    }
    faults
}

/// What is wrong with a category of use, if anything is.
fn category_fault(basis: &Basis, placed: &Placed<String>) -> Option<Diagnostic> {
    let letter = placed.value.get(..1).unwrap_or_default();
    let plain = placed.value == letter || tables::CATEGORIES.row(&[("category", &placed.value)]).is_some();
    let found = plain && !letter.is_empty() && "ABCDEFGH".contains(letter) && psi_row(basis, letter).is_some();
    let sure = || row(&tables::DURATIONS, country(basis), &[("load", letter)]).is_some_and(|row| is_sure(&row));
    match (found, found && sure()) {
        (false, _) => Some(Fault::NoPsi { category: placed.value.clone() }.at(placed.span)),
        (true, false) => Some(Fault::CategoryUnsure { category: placed.value.clone() }.at(placed.span)),
        (true, true) => None,
    }
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
