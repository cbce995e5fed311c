//! Editions and loading standards, and what is held of each.

use super::fault::Fault;
use super::{combinations, national, tables};
use crate::codes::Cited;
use crate::job::model::{Basis, Nature, Placed};
use crate::table::Table;
use crate::text::Faults;

/// Editions held, the default first.
pub(super) static EDITIONS: &[&str] = &["EN1995-2014"];
/// Loading standards.
pub(super) static LOADINGS: &[&str] = &["EN1990"];
/// Editions of the table of strength classes, the default first.
pub(super) static CLASSES: &[&str] = &["EN338-2016", "EN338-2009"];
/// Expressions of strength, the default first.
pub(super) static EXPRESSIONS: &[&str] = &["6.10", "6.10a/b"];

/// What a reviewer asks of the site's data, and the words by which an item of the job file is known to give it.
pub(super) static SITE_ITEMS: &[(&str, &[&str])] = &[
    ("Consequence class", &["consequence"]),
    ("Category of use", &["category", "use"]),
    ("Altitude", &["altitude", "height above"]),
    ("Snow load on the ground", &["snow load on the ground", "ground snow", "s_k"]),
    ("Exposure coefficient of snow", &["exposure coefficient", "c_e"]),
    ("Thermal coefficient of snow", &["thermal", "c_t"]),
    ("Basic wind velocity", &["wind velocity", "wind speed"]),
    ("Terrain category", &["terrain"]),
];

/// The table of strength classes of solid timber.
pub(super) fn solid(basis: &Basis) -> &'static Table {
    match basis.classes.as_ref().map(|c| c.value.as_str()) {
        Some("EN338-2009") => &tables::SOLID_2009,
        _ => &tables::SOLID_2016,
    }
}

/// Words of the basis that this code does not know.
pub(super) fn faults(basis: &Basis) -> Faults {
    let mut faults = Faults::new();
    let mut check = |what: &'static str, word: &Placed<String>, known: &'static [&'static str]| {
        if !known.contains(&word.value.as_str()) {
            faults.push(Fault::UnknownWord { what, word: word.value.clone(), known }.at(word.span));
        }
    };
    check("edition", &basis.edition, EDITIONS);
    check("loading standard", &basis.loading, LOADINGS);
    basis.classes.iter().for_each(|word| check("edition of the strength classes", word, CLASSES));
    basis.expressions.iter().for_each(|word| check("pair of expressions", word, EXPRESSIONS));
    let own = basis.combinations.list.iter().filter_map(|c| c.duration.as_ref());
    for duration in basis.cases.iter().filter_map(|c| c.duration.as_ref()).chain(own) {
        if super::time::class(&duration.value).is_none() {
            check("duration", duration, super::time::WORDS);
        }
    }
    for case in basis.cases.iter().skip(Nature::ALL.len()) {
        if case.reads_like(&Nature::ALL.map(combinations::letter)) {
            faults.push(Fault::TakenLetter { name: case.name.clone() }.at(basis.code.span));
        }
        if matches!(case.nature, Nature::Seismic | Nature::Rain) {
            faults.push(not_an_action(case.nature).at(basis.code.span));
        }
    }
    faults.extend(national::faults(basis));
    let country = national::country(basis);
    if let (true, Some(country), Some(word)) = (faults.is_empty(), country, &basis.expressions) {
        let own = tables::SET_B.rows().any(|row| row.text("country") == Some(country));
        let held = tables::SET_B.row(&[("country", country), ("expressions", &word.value)]).is_some();
        if own && !held {
            faults.push(Fault::NoExpressions { country: country.to_owned(), word: word.value.clone() }.at(word.span));
        }
    }
    faults
}

/// The fault of a load that no combination of this program has.
pub(super) fn not_an_action(nature: Nature) -> Fault {
    Fault::NotCoveredYet {
        what: format!("a {} load under the european code", nature.word()),
        help: "this version combines dead, live, roof-live, snow and wind loads",
    }
}

/// The standards that a job cites.
pub(super) fn cites(basis: &Basis) -> Vec<Cited> {
    let older = basis.classes.as_ref().is_some_and(|c| c.value == "EN338-2009");
    let national = match national::country(basis) {
        Some(_) => {
            "National choices are those of the country named in the basis where the tables hold one, else the recommended values; compare \
             with the National Annex before signing."
        }
        None => "Recommended values; no country is named, and no National Annex is taken in.",
    };
    vec![
        Cited {
            short: "EN 1995-1-1",
            brief: "EN 1995-1-1",
            title: "Eurocode 5: Design of timber structures, Part 1-1, EN 1995-1-1:2004 with A1:2008 and A2:2014",
            used_for: "all checks",
            note: national,
        },
        Cited {
            short: "EN 1990",
            brief: "EN 1990",
            title: "Eurocode: Basis of structural design, EN 1990:2002 with A1:2005",
            used_for: "combinations, companion factors",
            note: "",
        },
        Cited {
            short: "EN 1991-1-1",
            brief: "EN 1991-1-1",
            title: "Eurocode 1: Actions on structures, Part 1-1: Densities, self-weight, imposed loads, EN 1991-1-1:2002",
            used_for: "categories of use; imposed load on roofs apart from snow and wind",
            note: "Loads are the job file's own.",
        },
        if older {
            Cited {
                short: "EN 338",
                brief: "EN 338",
                title: "Structural timber: Strength classes, EN 338:2009",
                used_for: "values of solid timber",
                note: "An edition that is no longer in force.",
            }
        } else {
            Cited {
                short: "EN 338",
                brief: "EN 338",
                title: "Structural timber: Strength classes, EN 338:2016",
                used_for: "values of solid timber",
                note: "",
            }
        },
        Cited {
            short: "EN 14080",
            brief: "EN 14080",
            title: "Timber structures: Glued laminated timber and glued solid timber, EN 14080:2013",
            used_for: "values of glued laminated timber",
            note: "",
        },
    ]
}

/// Service class and country.
pub(super) fn conditions(basis: &Basis) -> Vec<String> {
    let mut said = vec![format!("service class {}", basis.service_class.as_ref().map_or(1, |c| c.value))];
    let row = national::country(basis).and_then(|country| tables::COUNTRIES.row(&[("country", country)]));
    said.push(match row.and_then(|row| row.text("name")) {
        Some(name) => format!("national choices of {name}"),
        None => "recommended values, no national choices".to_owned(),
    });
    said.push(format!("category of use {}", basis.use_category.as_ref().map_or("A", |c| c.value.as_str())));
    said
}
