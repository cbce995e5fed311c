//! Span tables: the printed span passes, the next inch does not; rows, columns and refusals.

use latewood::study::spans::{Asked, Rounding, table};

fn pair(key: &str, value: &str) -> [String; 2] {
    [key.to_owned(), value.to_owned()]
}

fn asked() -> Asked {
    let grade = |species: &str, grade: &str| vec![pair("species", species), pair("grade", grade)];
    Asked {
        basis: vec![pair("code", "american")],
        role: "joist".to_owned(),
        slope: None,
        materials: vec![grade("Douglas Fir-Larch", "No.2"), grade("Hem-Fir", "Stud")],
        sections: ["2x4", "2x8", "2x12"].map(str::to_owned).to_vec(),
        spacings: ["12 in", "400 mm", "24 in"].map(str::to_owned).to_vec(),
        loads: vec![pair("dead", "10 psf"), pair("live", "40 psf")],
        limits: vec![pair("live", "L/360")],
        rounding: Rounding::Down,
    }
}

/// The governing ratio of a cell's joist at a span, by a job file of its own.
fn ratio(material: &str, section: &str, spacing: &str, inches: f64) -> f64 {
    let (species, grade) = material.rsplit_once(' ').unwrap();
    let job = format!(
        "job: {{title: Cell, date: 2026-01-05}}\nbasis: {{code: american}}\nareas: {{a: {{dead: 10 psf, live: 40 psf}}}}\nmembers:\n  - {{mark: T, use: joist, \
         section: {section}, material: {{species: {species}, grade: {grade}}}, spacing: {spacing}, spans: [{inches} in], braced: {{top: sheathed}}, \
         limits: {{live: L/360}}, loads: [{{area: a}}]}}\n"
    );
    let source = latewood::text::Source::read("cell", job.as_bytes()).unwrap();
    latewood::check(&source, false).unwrap().results.member("T").unwrap().governing.ratio
}

#[test]
fn a_printed_span_passes_and_the_next_inch_fails() {
    let table = table(&asked()).unwrap_or_else(|refused| panic!("{refused:?}"));
    assert_eq!(table.spacings.len(), 3);
    let mut cells = 0;
    for row in &table.rows {
        for (spacing, cell) in table.spacings.iter().zip(&row.cells) {
            let cell = cell.as_ref().unwrap();
            let (feet, inches) = cell.printed.split_once('-').unwrap();
            let printed = 12.0 * feet.parse::<f64>().unwrap() + inches.parse::<f64>().unwrap();
            let exact = 12.0 * cell.span.as_ref().unwrap().value;
            assert!((0.0..1.0).contains(&(exact - printed)), "{exact} {printed}");
            let at = |inches: f64| ratio(&row.material, &row.section, spacing, inches);
            // The span is given with ten figures.
            assert!((at(exact) - 1.0).abs() < 1e-8, "{} {} {spacing}: {} at {exact}", row.material, row.section, at(exact));
            assert!(at(printed) <= 1.0 && at(printed + 1.0) > 1.0, "{} {} {spacing}", row.material, row.section);
            cells += 1;
        }
    }
    // Stud of 2x12 takes the values of No.3: it is there.
    assert_eq!(cells, 18);
}

#[test]
fn what_no_job_file_could_say_is_refused_with_its_place() {
    let refused = |change: &dyn Fn(&mut Asked)| {
        let mut asked = asked();
        change(&mut asked);
        table(&asked).unwrap_err().faults.into_iter().map(|f| f.message).collect::<Vec<_>>().join("; ")
    };
    assert!(refused(&|a| a.materials[0][0][1] = "Hem-Fur".to_owned()).contains("Hem-Fur"));
    assert!(refused(&|a| a.loads[1][1] = "40".to_owned()).contains("no unit"));
    assert!(refused(&|a| a.sections[0] = "2x9".to_owned()).contains("2x9"));
    // A text can never become more than a text.
    let hostile = refused(&|a| a.spacings[0] = "16 in', loads: [], notes: ['x".to_owned());
    assert!(hostile.contains("spacing") || hostile.contains("unit"), "{hostile}");
}
