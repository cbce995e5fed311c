//! The adjustment-factor table of every example and test job: down each column the reference value times its factors is the value that
//! the checks take.

use latewood::results::{AccountColumn, Member};
use std::path::{Path, PathBuf};

fn jobs() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folders = ["examples", "tests/jobs"].map(|folder| root.join(folder));
    let files = folders.iter().flat_map(|folder| std::fs::read_dir(folder).unwrap()).map(|entry| entry.unwrap().path());
    let mut jobs: Vec<PathBuf> = files.filter(|path| path.extension().is_some_and(|ext| ext == "yaml")).collect();
    jobs.sort();
    jobs
}

/// A factor as it is printed: `0.85`, `1/1.3`.
fn number(printed: &str) -> f64 {
    let plain = printed.replace([',', '\u{2009}'], "");
    match plain.split_once('/') {
        Some((one, over)) => one.parse::<f64>().unwrap() / over.parse::<f64>().unwrap(),
        None => plain.parse().unwrap_or_else(|_| panic!("no number: {printed}")),
    }
}

fn product(member: &Member, column: usize) -> f64 {
    let rows = member.account.rows.iter().map(|row| row.values[column].as_str()).filter(|text| !text.is_empty());
    rows.fold(number(&member.account.columns[column].reference), |product, text| product * number(text))
}

/// Symbols of the adjusted value of a property in the checks.
fn adjusted(column: &AccountColumn) -> Vec<String> {
    let plain = column.symbol.as_str();
    match plain {
        "F_bx+" | "F_bx-" => vec!["F'_bx".to_owned()],
        "F_b" => ["F'_b", "F_b*", "F'_b2"].map(str::to_owned).to_vec(),
        "F_v" => ["F'_v", "F'_vy"].map(str::to_owned).to_vec(),
        "E" | "E_x" => vec!["E'".to_owned()],
        "f_m,k" => ["k_crit f_m,d", "f_m,d"].map(str::to_owned).to_vec(),
        "f_v,k" => vec!["f_v,d".to_owned()],
        "f_c,90,k" => ["k_c,90 f_c,90,d", "f_c,90,d"].map(str::to_owned).to_vec(),
        "E_0,mean" => Vec::new(),
        other => vec![other.replacen('_', "'_", 1)],
    }
}

/// Factors are printed with four figures, values with four or five: the product may be off by so much.
const PRINTED: f64 = 1.5e-3;

fn agrees(one: f64, other: f64) -> bool {
    (one / other - 1.0).abs() < PRINTED
}

#[test]
fn every_column_gives_the_value_that_the_checks_take() {
    let mut wrong = Vec::new();
    let mut columns = 0;
    for path in jobs() {
        let text = std::fs::read(&path).unwrap();
        let source = latewood::text::Source::read("job", &text).unwrap();
        let results = latewood::check(&source, true).unwrap().results;
        for member in &results.members {
            for (index, column) in member.account.columns.iter().enumerate().filter(|(_, column)| column.adjusted != "–") {
                columns += 1;
                let (said, product) = (number(&column.adjusted), product(member, index));
                let place = format!("{} {} {}", path.file_name().unwrap().to_string_lossy(), member.mark, column.symbol);
                if !agrees(product, said) {
                    wrong.push(format!("{place}: {product} by its factors, {said} printed"));
                }
                let symbols = adjusted(column);
                let steps = member.checks.iter().flat_map(|check| &check.steps).filter(|step| symbols.contains(&step.symbol));
                let taken: Vec<f64> = steps.map(|step| step.value).collect();
                let taken_so = |value: &f64| agrees(*value, said) || agrees(*value / 1e6, said);
                if !taken.is_empty() && !taken.iter().any(taken_so) {
                    wrong.push(format!("{place}: {said} printed, {taken:?} in the checks"));
                }
            }
        }
    }
    assert!(columns > 200, "{columns}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A 6x12 beam and stringer of No.1 laid flat, without deflection limits: E 1,600,000 psi times 0.9 (Supplement Table 4D, flat use) is 1.44.
#[test]
fn flat_use_is_in_the_modulus_also_where_no_deflection_is_limited() {
    let results = super::check(
        "use: beam, section: 6x12, material: {species: Douglas Fir-Larch, grade: No.1}, conditions: {flat: yes}, self-weight: no, \
         limits: {live: none, total: none}, loads: [{line: 100 plf, case: dead}]",
    );
    let member = &results.members[0];
    let index = member.account.columns.iter().position(|column| column.symbol == "E").unwrap();
    assert_eq!((member.account.columns[index].reference.as_str(), member.account.columns[index].adjusted.as_str()), ("1.60", "1.44"));
    assert!((product(member, index) - 1.44).abs() < 1e-9);
}

/// A post bent about both axes by side loads: its column F_b is of one axis, with that axis' factors, whichever it is.
#[test]
fn one_column_is_of_one_axis() {
    for loads in [
        "{line: 20 plf, case: wind, about: strong}, {line: 10 plf, case: wind, about: weak}",
        "{line: 10 plf, case: wind, about: weak}",
        "{line: 20 plf, case: wind, about: strong}",
        "{line: 20 plf, case: wind, about: strong}, {line: 10 plf, case: live, about: weak}, {axial: 500 lbf, case: live}",
    ] {
        for wood in [
            "section: 2x12, material: {species: Hem-Fir, grade: No.2}",
            "section: 6x14, material: {species: Douglas Fir-Larch, grade: No.1}",
            "section: 5-1/8x12, material: {combination: 24F-V4}",
        ] {
            let text = format!(
                "job: {{title: Axes, number: T-16, date: 2026-02-02}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: P1, use: post, {wood}, \
                 self-weight: no, length: 9 ft, loads: [{{axial: 2 kip, case: dead}}, {loads}]}}\n"
            );
            let source = latewood::text::Source::read("job", text.as_bytes()).unwrap();
            let results = latewood::check(&source, true).unwrap().results;
            let member = &results.members[0];
            for (index, column) in member.account.columns.iter().enumerate().filter(|(_, column)| column.adjusted != "–") {
                let (said, product) = (number(&column.adjusted), product(member, index));
                assert!(agrees(product, said), "{wood}, {loads}: {}: {product} by its factors, {said} printed", column.symbol);
            }
        }
    }
}
