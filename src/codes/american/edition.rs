//! Editions, methods and loading standards, and what is held of each.

use super::fault::Fault;
use crate::codes::Cited;
use crate::job::model::{Basis, Moisture, Nature};
use crate::text::Faults;
use crate::units::fewest;

/// Editions held, the default first.
pub(super) static EDITIONS: &[&str] = &["NDS-2018", "NDS-2024"];
/// Methods, the default first.
pub(super) static METHODS: &[&str] = &["ASD", "LRFD"];
/// Loading standards.
pub(super) static LOADINGS: &[&str] = &["ASCE7-16", "ASCE7-22"];

/// What a reviewer asks of the site's data, and the words by which an item of the job file is known to give it.
pub(super) static SITE_ITEMS: &[(&str, &[&str])] = &[
    ("Risk category", &["risk"]),
    ("Occupancy", &["occupancy", "use group"]),
    ("Ground snow load", &["ground snow"]),
    ("Snow exposure factor", &["snow exposure", "c_e", "ce "]),
    ("Snow thermal factor", &["thermal", "c_t"]),
    ("Snow importance factor", &["snow importance", "i_s"]),
    ("Basic wind speed", &["wind speed"]),
    ("Wind exposure category", &["wind exposure", "exposure category"]),
    ("Seismic design category", &["seismic"]),
];

/// Whether the job is designed by load and resistance factors.
pub(super) fn is_lrfd(basis: &Basis) -> bool {
    basis.method.as_ref().is_some_and(|m| m.value == "LRFD")
}

/// Words of the basis that this code does not know.
pub(super) fn faults(basis: &Basis) -> Faults {
    let mut faults = Faults::new();
    let mut check = |what: &'static str, word: &crate::job::model::Placed<String>, known: &'static [&'static str]| {
        if !known.contains(&word.value.as_str()) {
            faults.push(Fault::UnknownWord { what, word: word.value.clone(), known }.at(word.span));
        }
    };
    check("edition", &basis.edition, EDITIONS);
    check("loading standard", &basis.loading, LOADINGS);
    if let Some(method) = &basis.method {
        check("method", method, METHODS);
    }
    for case in basis.cases.iter().skip(Nature::ALL.len()) {
        if case.reads_like(&Nature::ALL.map(super::combinations::letter)) {
            faults.push(Fault::TakenLetter { name: case.name.clone() }.at(basis.code.span));
        }
    }
    for case in &basis.cases {
        let Some(word) = &case.use_category else { continue };
        if case.nature != Nature::Live {
            faults.push(Fault::NoLiveLoad { name: case.name.clone(), like: case.nature.word() }.at(word.span));
        } else if !super::time::USE_CATEGORIES.contains(&word.value.as_str()) {
            faults.push(
                Fault::UnknownWord { what: "use category", word: word.value.clone(), known: super::time::USE_CATEGORIES }.at(word.span),
            );
        }
    }
    let own = basis.combinations.list.iter().filter_map(|c| c.duration.as_ref());
    for duration in basis.cases.iter().filter_map(|c| c.duration.as_ref()).chain(own) {
        if super::time::class(&duration.value).is_none() {
            faults.push(Fault::UnknownWord { what: "duration", word: duration.value.clone(), known: super::time::WORDS }.at(duration.span));
        }
    }
    faults
}

/// Moisture and temperature in service.
pub(super) fn conditions(basis: &Basis) -> Vec<String> {
    let moisture = if basis.moisture == Moisture::Wet { "wet" } else { "dry" };
    let degrees = fewest(basis.temperature.value.value(), 0..=1);
    vec![moisture.to_owned(), format!("sustained temperature at most {degrees} °F")]
}

/// The standards that a job cites.
pub(super) fn cites(basis: &Basis) -> Vec<Cited> {
    let nds_2024 = basis.edition.value == "NDS-2024";
    let asce_22 = basis.loading.value == "ASCE7-22";
    let method = if is_lrfd(basis) { "all checks, LRFD" } else { "all checks, ASD" };
    vec![
        if nds_2024 {
            Cited {
                short: "NDS 2024",
                brief: "NDS 2024",
                title: "National Design Specification for Wood Construction, ANSI/AWC NDS-2024",
                used_for: method,
                note: "Chapters 3 and 4 are taken as in the 2018 edition, clause numbers included; the new provisions of 2024 for shear in \
                       bending members and for groups of connections are not held. Compare with the printed 2024 edition before sealing.",
            }
        } else {
            Cited {
                short: "NDS 2018",
                brief: "NDS 2018",
                title: "National Design Specification for Wood Construction, ANSI/AWC NDS-2018",
                used_for: method,
                note: "",
            }
        },
        Cited {
            short: "NDS Supplement 2018",
            brief: "NDS Supp.",
            title: "NDS Supplement, Design Values for Wood Construction",
            used_for: "sections, reference design values",
            note: if nds_2024 {
                "Design values are those of the 2018 Supplement; changes of 2024, and of Hem-Fir (North) on 1 April 2025, are not held."
            } else {
                ""
            },
        },
        if asce_22 {
            Cited {
                short: "ASCE 7-22",
                brief: "ASCE 7-22",
                title: "Minimum Design Loads and Associated Criteria for Buildings and Other Structures, ASCE/SEI 7-22",
                used_for: "load combinations, partial snow",
                note: "Snow is a strength-level load in this edition; tornado loads are not held.",
            }
        } else {
            Cited {
                short: "ASCE 7-16",
                brief: "ASCE 7-16",
                title: "Minimum Design Loads and Associated Criteria for Buildings and Other Structures, ASCE/SEI 7-16",
                used_for: "load combinations, partial snow",
                note: "",
            }
        },
        Cited {
            short: "IBC 2021",
            brief: "IBC 2021",
            title: "International Building Code, Table 1604.3",
            used_for: "deflection limits",
            note: "Limits of the 2021 edition; compare them with the edition adopted where the building stands.",
        },
    ]
}
