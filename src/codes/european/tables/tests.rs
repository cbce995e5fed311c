//! What must hold in the tables, whatever their cells are.

use super::*;
use crate::table::{Row, Status, slice};

fn number(row: &Row<'_>, column: &str) -> f64 {
    row.number(column).unwrap_or_else(|| panic!("{column} of {}", row.name())).value
}

#[test]
fn every_file_is_a_table_and_is_listed() {
    slice::is_whole(ALL, "european");
}

/// The rules by which EN 384:2016 makes the other values of a class from f_m,k, E_0,mean and rho_k (from memory): value and half of the
/// step to which the standard rounds.
fn by_rule(row: &Row<'_>) -> [(&'static str, f64, f64); 8] {
    let (f_m, e, rho) = (number(row, "f_m_k"), number(row, "E_0_mean"), number(row, "rho_k"));
    let softwood = row.text("wood") == Some("softwood");
    let or = |soft: f64, hard: f64| if softwood { soft } else { hard };
    let across = or(0.007, if rho < 700.0 { 0.010 } else { 0.015 });
    [
        ("f_t_0_k", or(-3.07 + 0.73 * f_m, 0.6 * f_m), 0.25),
        ("f_c_0_k", 4.3 * f_m.sqrt(), 0.5),
        ("f_c_90_k", across * rho, 0.05),
        ("f_v_k", or((1.6 + 0.1 * f_m).min(4.0), (3.0 + 0.03 * f_m).min(5.0)), 0.05),
        ("E_0_05", or(0.67, 0.84) * e, 50.0),
        ("E_90_mean", e / or(30.0, 15.0), 5.0),
        ("G_mean", e / 16.0, 5.0),
        ("rho_mean", 1.2 * rho, 5.0),
    ]
}

#[test]
fn classes_of_2016_follow_the_rules_of_en_384() {
    // 0.6 x 24 = 14.4 stands in the table as 14; all others are within half a step.
    let exceptions = [("D24", "f_t_0_k")];
    let mut met = 0;
    for row in SOLID_2016.rows() {
        let class = row.text("class").unwrap();
        for (column, rule, half) in by_rule(&row) {
            let off = (number(&row, column) - rule).abs();
            let excepted = exceptions.contains(&(class, column));
            assert_eq!(off > half * 1.001, excepted, "{column} of {class}: {} against {rule}", number(&row, column));
            met += usize::from(!excepted);
        }
    }
    assert_eq!(met, 26 * 8 - 1);
}

/// The older edition: f_t,0 = 0.6 f_m and f_c,0 = 5 f_m^0.45 for softwood (EN 384:2004, from memory), the rest as today.
#[test]
fn softwood_classes_of_2009_follow_the_older_rules() {
    let exceptions = [
        ("C14", "f_t_0_k"),
        ("C16", "f_t_0_k"),
        ("C24", "f_t_0_k"),
        ("C45", "f_c_0_k"),
        ("C20", "rho_mean"),
        ("C27", "rho_mean"),
        ("C45", "rho_mean"),
    ];
    for row in SOLID_2009.rows().filter(|row| row.text("wood") == Some("softwood")) {
        let class = row.text("class").unwrap();
        let f_m = number(&row, "f_m_k");
        for (column, rule, half) in by_rule(&row) {
            let rule = match column {
                "f_t_0_k" => 0.6 * f_m,
                "f_c_0_k" => 5.0 * libm::pow(f_m, 0.45),
                _ => rule,
            };
            let off = (number(&row, column) - rule).abs();
            assert_eq!(off > half * 1.001, exceptions.contains(&(class, column)), "{column} of {class}: {off} off {rule}");
        }
    }
}

/// A higher class is not weaker, not softer and not lighter.
#[test]
fn values_rise_with_the_class() {
    let columns = ["f_m_k", "f_t_0_k", "f_c_0_k", "f_c_90_k", "f_v_k", "E_0_mean", "E_0_05", "G_mean", "rho_k", "rho_mean"];
    for (table, key, kinds) in [
        (&SOLID_2016, "wood", ["softwood", "hardwood"]),
        (&SOLID_2009, "wood", ["softwood", "hardwood"]),
        (&GLULAM, "lamination", ["homogeneous", "combined"]),
    ] {
        for kind in kinds {
            let rows: Vec<Row<'_>> = table.rows().filter(|r| r.text(key) == Some(kind)).collect();
            assert!(rows.len() >= 7, "{kind}");
            for pair in rows.windows(2) {
                for column in columns {
                    assert!(number(&pair[1], column) >= number(&pair[0], column), "{column} of {}", pair[1].name());
                }
            }
        }
    }
}

#[test]
fn k_mod_falls_with_duration_and_moisture() {
    let of = |material: &str, class: &str, duration: &str| {
        K_MOD.row(&[("material", material), ("service_class", class), ("duration", duration)]).map(|row| number(&row, "k_mod"))
    };
    let durations = ["permanent", "long-term", "medium-term", "short-term", "short-term to instantaneous", "instantaneous"];
    for material in K_MOD.keys("material") {
        for class in ["1", "2", "3"] {
            let values: Vec<f64> = durations.iter().filter_map(|d| of(material, class, d)).collect();
            assert!(values.len() == durations.len() || (class == "3" && material != "solid timber" && values.is_empty()));
            assert!(values.windows(2).all(|pair| pair[0] < pair[1]), "{material} in service class {class}: {values:?}");
        }
        for duration in durations {
            let values: Vec<f64> = ["1", "2", "3"].iter().filter_map(|class| of(material, class, duration)).collect();
            assert!(values.windows(2).all(|pair| pair[1] <= pair[0]), "{material}, {duration}");
        }
    }
}

#[test]
fn companion_factors_fall_from_combination_to_quasi_permanent_and_stay_within_one() {
    for row in PSI.rows().filter(|row| row.cell("psi_0").is_some_and(|cell| cell.status != Status::Unsure)) {
        let [psi_0, psi_1, psi_2] = ["psi_0", "psi_1", "psi_2"].map(|column| number(&row, column));
        assert!((0.0..=1.0).contains(&psi_0) && psi_2 <= psi_1 && psi_1 <= 1.0, "{}", row.name());
    }
}

/// Every choice that a nation makes is one that the recommended values have too: nothing stands in a country's row alone.
#[test]
fn national_rows_stand_beside_recommended_ones() {
    for (table, key) in
        [(&GAMMA_M, "material"), (&K_CR, "material"), (&DURATIONS, "load"), (&LIMITS, "class"), (&PSI, "category"), (&SET_B, "expressions")]
    {
        for row in table.rows() {
            let recommended = table.row(&[("country", "recommended"), (key, row.text(key).unwrap())]);
            assert!(recommended.is_some(), "{} {}", table.file(), row.name());
            let country = row.text("country").unwrap();
            assert!(country == "recommended" || COUNTRIES.row(&[("country", country)]).is_some(), "{} {country}", table.file());
        }
    }
}
