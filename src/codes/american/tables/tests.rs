//! What must hold in the tables, whatever their cells are.

use super::*;
use crate::table::{Row, slice};

const PROPERTIES: [&str; 7] = ["F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min"];

fn number(row: &Row<'_>, column: &str) -> f64 {
    row.number(column).unwrap_or_else(|| panic!("{column} of {}", row.name())).value
}

fn values() -> impl Iterator<Item = Row<'static>> {
    [&DIMENSION, &SOUTHERN_PINE, &TIMBERS].into_iter().flat_map(|table| table.rows())
}

#[test]
fn every_file_is_a_table_and_is_listed() {
    slice::is_whole(ALL, "american");
}

/// The relation by which the standard itself makes E_min from E (NDS 2018 Appendix D; from memory), rounded to 10 000 psi.
#[test]
fn e_min_follows_from_e() {
    let wanted = |e: f64, variation: f64| (1.03 * e * (1.0 - 1.645 * variation) / 1.66 / 1e4).round() * 1e4;
    for row in values() {
        assert_eq!(number(&row, "E_min"), wanted(number(&row, "E"), 0.25), "{}", row.name());
    }
    for row in MSR.rows() {
        assert_eq!(number(&row, "E_min"), wanted(number(&row, "E"), 0.11), "{}", row.name());
        let graded = row.name();
        let (bending, modulus) = graded.split_once("f-").and_then(|(f, e)| Some((f, e.strip_suffix('E')?))).unwrap();
        assert_eq!(bending.parse(), Ok(number(&row, "F_b")), "the grade's name says F_b");
        assert_eq!(modulus.parse::<f64>().unwrap() * 1e6, number(&row, "E"), "the grade's name says E");
    }
}

#[test]
fn values_lie_in_the_range_of_sawn_softwood_and_on_the_steps_of_the_standard() {
    let ranges = [(200.0, 3100.0), (100.0, 2500.0), (120.0, 200.0), (330.0, 850.0), (400.0, 2300.0), (0.8e6, 2.4e6), (0.29e6, 1.3e6)];
    let steps = [25.0, 25.0, 5.0, 5.0, 25.0, 1e5, 1e4];
    for row in values().chain(MSR.rows()) {
        for ((property, (least, most)), step) in PROPERTIES.into_iter().zip(ranges).zip(steps) {
            let Some(found) = row.number(property) else { continue };
            assert!((least..=most).contains(&found.value), "{property} {} of {}", found.value, row.name());
            // F_t of two machine grades is 1020, the one value off its step.
            let on_step = (found.value / step).fract() == 0.0 || (property == "F_t" && found.value == 1020.0);
            assert!(on_step, "{property} {} of {}", found.value, row.name());
        }
        if let Some(gravity) = row.number("G") {
            assert!((0.35..=0.57).contains(&gravity.value), "G of {}", row.name());
        }
    }
}

/// A better grade is not weaker: in every property and every species, class and width.
#[test]
fn values_fall_with_the_grade() {
    let ladders: [&[&str]; 8] = [
        &["Select Structural", "No.1 & Btr", "No.1", "No.2", "No.3"],
        &["Select Structural", "No.1/No.2", "No.3"],
        &["Construction", "Standard", "Utility"],
        &["Dense Select Structural", "Select Structural", "NonDense Select Structural"],
        &["No.1 Dense", "No.1", "No.1 NonDense"],
        &["No.2 Dense", "No.2", "No.2 NonDense"],
        &["Select Structural", "No.1", "No.2", "No.3 and Stud"],
        &[
            "Clear Structural",
            "Select Structural",
            "Select Structural, open grain",
            "No.1, open grain",
            "No.2, open grain",
            "No.3, open grain",
        ],
    ];
    let mut compared = 0;
    for table in [&DIMENSION, &SOUTHERN_PINE, &TIMBERS] {
        for species in table.keys("species") {
            for size in table.keys_among("size", &[("species", species)]) {
                for ladder in ladders {
                    let grade = |grade: &&str| {
                        table.rows().find(|r| ["species", "grade", "size"].map(|c| r.text(c)) == [species, *grade, size].map(Some))
                    };
                    let rows: Vec<Row<'_>> = ladder.iter().filter_map(grade).collect();
                    for pair in rows.windows(2) {
                        for property in PROPERTIES {
                            let (better, worse) = (number(&pair[0], property), number(&pair[1], property));
                            assert!(better >= worse, "{property}: {} {better}, {} {worse}", pair[0].name(), pair[1].name());
                            compared += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(compared > 400, "only {compared} pairs were there to compare");
}

/// The wider, the weaker: the size factor is in the values of Table 4B.
#[test]
fn southern_pine_falls_with_the_width() {
    for grade in SOUTHERN_PINE.keys("grade") {
        let rows: Vec<Row<'_>> = SOUTHERN_PINE.rows().filter(|row| row.text("grade") == Some(grade)).collect();
        for pair in rows.windows(2) {
            assert!(number(&pair[0], "width_from") < number(&pair[1], "width_from"));
            for (property, strictly) in [("F_b", true), ("F_t", true), ("F_c", false)] {
                let (narrow, wide) = (number(&pair[0], property), number(&pair[1], property));
                assert!(if strictly { narrow > wide } else { narrow >= wide }, "{property} of {}", pair[1].name());
            }
            assert_eq!(number(&pair[0], "E"), number(&pair[1], "E"), "E of {}", pair[1].name());
        }
    }
}

#[test]
fn machine_grades_rise_together() {
    let mut rows: Vec<Row<'_>> = MSR.rows().collect();
    rows.sort_by(|a, b| number(a, "F_b").total_cmp(&number(b, "F_b")));
    for pair in rows.windows(2) {
        assert!(number(&pair[0], "F_c") <= number(&pair[1], "F_c"), "F_c of {}", pair[1].name());
    }
}

#[test]
fn size_factors_fall_with_the_width_and_a_thick_piece_is_not_below_a_thin_one() {
    let at = |grade: &str, width: f64, thickness: f64, property: &str| {
        let inches = |n: f64| 25.4 * n;
        let row = SIZE.row_at(&[("grade", grade)], &[("width", inches(width)), ("thickness", inches(thickness))])?;
        row.number(property).map(|found| found.value)
    };
    for grade in ["Select Structural", "No.2", "No.1/No.2", "Select Structural, open grain", "Stud"] {
        for property in ["F_b", "F_t", "F_c"] {
            for thickness in [2.0, 3.0, 4.0] {
                let factors: Vec<f64> = [2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0]
                    .iter()
                    .filter_map(|w| at(grade, *w, thickness, property))
                    .collect();
                assert!(factors.len() == if grade == "Stud" { 5 } else { 10 } && factors.windows(2).all(|pair| pair[0] >= pair[1]));
            }
        }
        for width in [4.0, 6.0] {
            assert!(at(grade, width, 4.0, "F_b") >= at(grade, width, 2.0, "F_b"));
        }
    }
    // Printed beside worked figures: a 2x10 (MST 4.30), a 4x8 (textbook ch. 6), a 2x6 in tension and compression (MST 7.32), a 3x8 (MST 7.1).
    assert_eq!(at("No.2", 10.0, 2.0, "F_b"), Some(1.1));
    assert_eq!(at("No.1", 8.0, 4.0, "F_b"), Some(1.3));
    assert_eq!(at("No.1", 6.0, 2.0, "F_c"), Some(1.1));
    assert_eq!(at("Select Structural", 8.0, 3.0, "F_t"), Some(1.2));
    assert_eq!((at("Construction", 6.0, 2.0, "F_b"), at("Utility", 3.0, 2.0, "F_b")), (None, Some(0.4)));
}

#[test]
fn every_grade_has_a_size_factor_and_every_size_of_lumber_a_flat_one() {
    for row in DIMENSION.rows() {
        let (Some(grade), Some(species)) = (row.text("grade"), row.text("species")) else { panic!("{}", row.name()) };
        let known = SIZE.row_at(&[("grade", grade)], &[("width", 4.0 * 25.4), ("thickness", 2.0 * 25.4)]);
        assert!(known.is_some(), "{species} {grade}");
    }
    for size in SIZES.rows().filter(|row| row.text("size") == Some("Dimension Lumber")) {
        let at = ["width", "thickness"].map(|side| (side, number(&size, side) * 25.4));
        assert!(FLAT.row_at(&[], &at).is_some() && SIZE_SOUTHERN_PINE.row_at(&[], &at).is_some(), "{}", size.name());
        assert!(SIZE.row_at(&[("grade", "No.2")], &at).is_some(), "{}", size.name());
        assert!(SOUTHERN_PINE.row_at(&[("grade", "No.2")], &at).is_some(), "{}", size.name());
    }
}

#[test]
fn sizes_are_those_of_a_rectangle_dressed_by_its_rule() {
    for row in SIZES.rows() {
        let (b, d) = (number(&row, "b"), number(&row, "d"));
        let shape = [
            ("A", b * d),
            ("S_xx", b * d * d / 6.0),
            ("I_xx", b * d * d * d / 12.0),
            ("S_yy", d * b * b / 6.0),
            ("I_yy", d * b * b * b / 12.0),
        ];
        for (property, wanted) in shape {
            assert!((number(&row, property) - wanted).abs() <= 0.500_001e-4, "{property} of {}", row.name());
        }
        let (thickness, width) = (number(&row, "thickness"), number(&row, "width"));
        assert_eq!(row.text("nominal").map(str::to_owned), Some(format!("{thickness}x{width}")));
        let lumber = thickness <= 4.0;
        assert_eq!((b, d), (thickness - 0.5, width - if lumber && width >= 8.0 { 0.75 } else { 0.5 }), "{}", row.name());
        let class = match (lumber, width - thickness > 2.0) {
            (true, _) => "Dimension Lumber",
            (false, true) => "Beams & Stringers",
            (false, false) => "Posts & Timbers",
        };
        assert_eq!(row.text("size"), Some(class), "{}", row.name());
    }
}

/// Printed properties: a 2x6 (MST 7.32), a 4x8 (textbook ch. 6), a 4x12 (MST 6.19), a 6x18 (a homework key, coursehero.com 41257).
#[test]
fn sizes_agree_with_printed_properties() {
    for (size, property, printed, half) in [
        ("2x6", "A", 8.25, 0.005),
        ("2x6", "S_xx", 7.563, 0.0005),
        ("2x6", "I_xx", 20.80, 0.005),
        ("2x6", "S_yy", 2.063, 0.0005),
        ("2x6", "I_yy", 1.547, 0.0005),
        ("4x8", "S_xx", 30.66, 0.005),
        ("4x8", "I_xx", 111.1, 0.05),
        ("4x12", "A", 39.38, 0.005),
        ("4x12", "S_xx", 73.83, 0.005),
        ("4x12", "I_xx", 415.3, 0.05),
        ("6x18", "I_xx", 2456.0, 0.5),
    ] {
        let row = SIZES.row(&[("nominal", size)]).unwrap();
        assert!((number(&row, property) - printed).abs() <= half + 1e-9, "{property} of {size}");
    }
}

#[test]
fn factors_keep_their_side_of_one() {
    for table in [&WET, &TEMPERATURE, &INCISING, &FLAT_TIMBERS] {
        for row in table.rows() {
            assert!(PROPERTIES.iter().all(|p| (0.4..=1.0).contains(&number(&row, p))), "{} {}", table.file(), row.name());
        }
    }
    assert!(FLAT.rows().chain(REPETITIVE.rows()).all(|row| (1.0..=1.2).contains(&number(&row, "F_b"))));
    let duration: Vec<f64> = LOAD_DURATION.rows().map(|row| number(&row, "C_D")).collect();
    assert!(duration.windows(2).all(|pair| pair[0] < pair[1]) && duration.contains(&1.0));
    assert!(DURATION_OF_LOADS.rows().all(|row| LOAD_DURATION.row(&[("duration", row.text("duration").unwrap())]).is_some()));
}

#[test]
fn hot_wet_and_flat_follow_their_order() {
    for moisture in ["dry", "wet"] {
        let at = |t: f64, p: &str| TEMPERATURE.row_at(&[("moisture", moisture)], &[("temperature", t)]).map(|row| number(&row, p));
        for property in PROPERTIES {
            assert_eq!(at(100.0, property), Some(1.0));
            assert!(at(100.0, property) > at(100.1, property) && at(125.0, property) >= at(125.1, property));
        }
        assert_eq!(at(150.1, "F_b"), None);
    }
}

/// NDS Appendix N of 2005 makes K_F of strengths 2.16/phi (F_c_perp: 1.875/phi times 0.8), of E_min 1.5/phi (MST 4.17).
#[test]
fn format_conversion_follows_from_the_resistance_factor() {
    let row = |factor| LRFD.row(&[("factor", factor)]).unwrap();
    for (property, constant) in [("F_b", 2.16), ("F_t", 2.16), ("F_v", 2.16), ("F_c", 2.16), ("F_c_perp", 1.875 * 0.8), ("E_min", 1.5)] {
        let (converted, phi) = (number(&row("K_F"), property), number(&row("phi"), property));
        assert!((converted - constant / phi).abs() <= 0.005, "{property}");
    }
    assert!(row("K_F").number("E").is_none() && row("phi").number("E").is_none());
}

/// Bands meet: 1.63 l_u + 3 d and its neighbours agree at l_u/d of 7 and 14.3 as nearly as two decimals let them.
#[test]
fn effective_lengths_go_on_smoothly_from_band_to_band() {
    let at = |member: &str, loading: &str, ratio: f64| {
        let row = EFFECTIVE_LENGTH
            .row_at(&[("member", member), ("loading", loading), ("held_at_load", "held at the ends")], &[("ratio", ratio)])
            .unwrap();
        number(&row, "l_u") * ratio + number(&row, "d")
    };
    for (member, loading) in [
        ("cantilever", "uniform"),
        ("cantilever", "point at the free end"),
        ("single span", "uniform"),
        ("single span", "point at mid-span"),
        ("any member", "any other loading"),
    ] {
        assert!((at(member, loading, 6.999_999) - at(member, loading, 7.0)).abs() <= 0.02, "{member}, {loading}");
    }
    assert!((at("any member", "any other loading", 14.3) - at("any member", "any other loading", 14.300_001)).abs() <= 0.02);
    for row in EFFECTIVE_LENGTH.rows().filter(|row| row.text("ratio_from").is_none()) {
        assert!(number(&row, "l_u") <= 2.06 && number(&row, "d") == 0.0, "{}: nothing is worse than any other loading", row.name());
    }
}

/// C_b by the rule against the figures of NDS Table 3.10.4 (as in MST concept 06/08); at 4 in the rule gives 1.094 and the table 1.10.
#[test]
fn bearing_rule_gives_the_printed_factors() {
    let rule = BEARING.rows().next().unwrap();
    for (length, printed) in [(0.5, 1.75), (1.0, 1.38), (1.5, 1.25), (2.0, 1.19), (3.0, 1.13), (4.0, 1.10)] {
        assert!(length < number(&rule, "length_below"));
        assert!(((length + number(&rule, "added")) / length - printed).abs() <= 0.0065, "{length}");
    }
}

#[test]
fn combinations_are_named_by_their_factors() {
    for table in [&ASCE7_16_ASD, &ASCE7_16_LRFD, &ASCE7_22_ASD, &ASCE7_22_LRFD] {
        for row in table.rows() {
            let mut name = Vec::new();
            for load in ["D", "L", "Lr", "S", "R", "W", "E"] {
                match row.number(load).map(|found| found.value) {
                    Some(1.0) => name.push(load.to_owned()),
                    Some(factor) => name.push(format!("{factor} {load}")),
                    None => {}
                }
            }
            assert_eq!(row.text("name"), Some(name.join(" + ").as_str()), "{}", table.file());
            assert!(row.number("D").is_some());
        }
    }
}

/// Only the factors of snow differ between the two editions; they are smaller since snow itself is given at strength level.
#[test]
fn editions_differ_in_snow_only() {
    for (old, new) in [(&ASCE7_16_ASD, &ASCE7_22_ASD), (&ASCE7_16_LRFD, &ASCE7_22_LRFD)] {
        assert_eq!(old.rows().count(), new.rows().count());
        for (a, b) in old.rows().zip(new.rows()) {
            for load in ["D", "L", "Lr", "R", "W", "E"] {
                assert_eq!(a.number(load).map(|f| f.value), b.number(load).map(|f| f.value), "{load} of {}", a.name());
            }
            if let (Some(snow), Some(later)) = (a.number("S"), b.number("S")) {
                assert!(later.value < snow.value, "{}", a.name());
            }
        }
    }
}

#[test]
fn a_grade_is_found_as_it_is_written() {
    let width = |inches: f64| [("width", inches * 25.4)];
    let pine = |grade, inches| {
        SOUTHERN_PINE.row_at(&[("species", "Southern Pine"), ("grade", grade)], &width(inches)).map(|row| number(&row, "F_b"))
    };
    assert_eq!((pine("No.2", 4.0), pine("No.2", 10.0), pine("Stud", 6.0)), (Some(1100.0), Some(800.0), Some(575.0)));
    assert_eq!((pine("Construction", 4.0), pine("Construction", 6.0)), (Some(875.0), None));
    let spruce = DIMENSION.row(&[("species", "spruce-pine-fir"), ("grade", "No. 2")]);
    assert_eq!(spruce.and_then(|row| row.text("grade")), Some("No.1/No.2"));
    let timber = TIMBERS.row(&[("species", "Southern Pine"), ("grade", "No.1"), ("size", "Beams & Stringers")]);
    assert_eq!(timber.map(|row| row.name()).as_deref(), Some("Southern Pine (wet or dry), No.1, 5x5 and larger"));
}

/// What the worked problems themselves print (MST 4.17, 4.30, 6.31, 7.1): reference values of the cells that say they were read there.
#[test]
fn cells_that_say_read_are_what_the_worked_problems_print() {
    for (table, species, grade, printed) in [
        (&DIMENSION, "Hem-Fir", "No.2", [850.0, 525.0, 150.0, 405.0, 1300.0, 1.3e6, 0.47e6]),
        (&DIMENSION, "Douglas Fir-Larch", "No.1", [1000.0, 675.0, 180.0, 625.0, 1500.0, 1.7e6, 0.62e6]),
        (&TIMBERS, "Douglas Fir-Larch", "No.1", [1350.0, 675.0, 170.0, 625.0, 925.0, 1.6e6, 0.58e6]),
    ] {
        let row = table.row(&[("species", species), ("grade", grade)]).unwrap();
        for (property, value) in PROPERTIES.into_iter().zip(printed) {
            let found = row.number(property).unwrap();
            assert!(found.value == value && found.cell.status.is_read(), "{property} of {}", row.name());
        }
    }
}
