//! Span tables that are law: every cell of the floor, ceiling and rafter tables here, recomputed through the job file and the engine.
//!
//! A joist is checked at the tabulated span. Bending grows with the square of the span and deflection with its cube, so the two ratios
//! give the longest span that passes; rounded to the nearest inch it must be the tabulated one. The tables' own assumptions are in
//! their headings: clear span, bending under all load, deflection under live load alone, nothing else governs.
//!
//! Traps: IBC Table 2308.7.2(2) rests on the values of Douglas Fir-Larch before 2001, which enter here as a custom material; spans
//! over 26 ft are not tabulated (`>26`, or capped at 26-0).

use std::path::Path;

/// Values of Douglas Fir-Larch on which IBC Table 2308.7.2(2) rests, as its file says: F_b and E, psi.
const DOUGLAS_FIR_BEFORE_2001: [(&str, u32, u32); 4] =
    [("SS", 1450, 1_900_000), ("No.1", 1000, 1_700_000), ("No.2", 875, 1_600_000), ("No.3", 500, 1_400_000)];

struct Cell {
    file: String,
    species: String,
    grade: String,
    size: String,
    spacing: String,
    live: String,
    dead: String,
    limit: String,
    feet: String,
    inches: String,
    agrees: String,
}

fn cells() -> Vec<Cell> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/spans");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path()).collect();
    files.retain(|f| f.extension().is_some_and(|e| e == "csv") && !f.to_string_lossy().contains("headers"));
    files.sort();
    let mut cells = Vec::new();
    for file in files {
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(&file).unwrap();
        let header = reader.headers().unwrap().clone();
        for record in reader.records() {
            let record = record.unwrap();
            let of = |name: &str| record[header.iter().position(|h| h == name).unwrap()].to_owned();
            cells.push(Cell {
                file: file.file_name().unwrap().to_string_lossy().into_owned(),
                species: of("species"),
                grade: of("grade"),
                size: of("size"),
                spacing: of("spacing_in"),
                live: of("live_psf"),
                dead: of("dead_psf"),
                limit: of("limit"),
                feet: of("span_ft"),
                inches: of("span_in"),
                agrees: of("agrees"),
            });
        }
    }
    cells
}

fn material(cell: &Cell) -> String {
    if cell.file.starts_with("ibc") && cell.species == "DF-L" {
        let (_, stress, modulus) = DOUGLAS_FIR_BEFORE_2001.iter().find(|(grade, ..)| *grade == cell.grade).unwrap();
        return format!(
            "{{custom: DF-L before 2001, kind: sawn, source: heading of the table's file, values: {{F_b: {stress} psi, F_v: 95 psi, \
             F_c_perp: 625 psi, F_c: 1300 psi, E: {modulus} psi, E_min: 580000 psi}}}}"
        );
    }
    let species = match cell.species.as_str() {
        "DF-L" => "Douglas Fir-Larch",
        "S-P-F" => "Spruce-Pine-Fir",
        "S.Pine" => "Southern Pine",
        other => panic!("species {other}"),
    };
    let grade = match (cell.species.as_str(), cell.grade.as_str()) {
        (_, "SS") => "Select Structural",
        ("S-P-F", "No.1" | "No.2" | "No.1/No.2") => "No.1/No.2",
        ("S.Pine", "No.3") => "No.3 and Stud",
        (_, grade) => grade,
    };
    format!("{{species: {species}, grade: {grade}}}")
}

/// The longest span that passes, inches, by the engine.
fn longest(cell: &Cell, tried: f64) -> f64 {
    let case = match cell.file.as_str() {
        f if f.contains("snow") => "snow",
        f if f.contains("rafter") => "roof-live",
        _ => "live",
    };
    let job = format!(
        "job: {{title: Span table, date: 2026-01-05}}\n\
         basis: {{code: american, edition: NDS-2018, method: ASD, loading: ASCE7-16, moisture: dry, temperature: 100 F}}\n\
         areas: {{a: {{dead: {} psf, {case}: {} psf}}}}\n\
         members:\n  - mark: T\n    use: joist\n    section: {}\n    material: {}\n    spacing: {} in\n    spans: [{tried} in]\n    \
         braced: {{top: sheathed}}\n    limits: {{live: {}, total: none}}\n    loads: [{{area: a}}]\n",
        cell.dead,
        cell.live,
        cell.size,
        material(cell),
        cell.spacing,
        cell.limit,
    );
    let source = latewood::text::Source::read("span", job.as_bytes()).unwrap();
    let checked = latewood::check(&source, false).unwrap_or_else(|faults| panic!("{faults:?}\n{job}"));
    let member = checked.results.member("T").unwrap();
    let ratio = |check: &str| member.checks.iter().find(|c| c.check == check && c.leading).unwrap().ratio;
    (tried / ratio("bending").sqrt()).min(tried / libm::cbrt(ratio("deflection")))
}

#[test]
fn every_cell_agrees_to_the_nearest_inch() {
    let cells = cells();
    let mut wrong = Vec::new();
    for cell in &cells {
        let over = cell.feet.starts_with('>');
        let tabulated = if over { 312.0 } else { 12.0 * cell.feet.parse::<f64>().unwrap() + cell.inches.parse::<f64>().unwrap() };
        let found = longest(cell, tabulated);
        let capped = over || cell.agrees.contains("cap");
        // A length within 0.02 in of a half inch rounds either way: the law's own sums were rounded before.
        let near = (found.round() - tabulated).abs() < 0.5 || ((found - tabulated).abs() - 0.5).abs() < 0.02;
        let agrees = if capped { found >= 312.0 - 0.5 } else { near };
        if !agrees {
            wrong.push(format!(
                "{} {} {} {} at {} in: {found:.2} in, printed {tabulated}",
                cell.file, cell.species, cell.grade, cell.size, cell.spacing
            ));
        }
    }
    assert_eq!(cells.len(), 506, "cells in the files");
    assert!(wrong.is_empty(), "{} of {} cells differ:\n{}", wrong.len(), cells.len(), wrong.join("\n"));
}
