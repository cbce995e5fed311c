//! Figures of handbooks, where a beam or a job file can say them.
//!
//! Not said by either: densities at other moisture contents than 19 %, shear deflection (sawn E holds it), moisture and shrinkage of clear
//! wood, the size effect of tests.

use latewood::analysis::{Beam, Load, Quantity, Side, Support};
use latewood::text::Source;

/// Bending constants k_b of d = k_b W L³/EI, W the whole load. Wood Handbook FPL-GTR-190 (2010) chapter 9, Table 9-1, read.
#[test]
fn deflection_constants_of_the_wood_handbook() {
    const L: f64 = 1000.0;
    let support = |at, fixed| Support { at, fixed };
    let simple = || vec![support(0.0, false), support(L, false)];
    let clamped = || vec![support(0.0, true), support(L, true)];
    let cantilever = || vec![support(0.0, true)];
    let uniform = || vec![Load::Line { from: 0.0, to: L, start: 1.0 / L, end: 1.0 / L }];
    let point = |at: f64| vec![Load::Point { at, force: 1.0 }];
    let quarters = || [0.25 * L, 0.75 * L].map(|at| Load::Point { at, force: 0.5 }).to_vec();
    let rows: [(Vec<Support>, Vec<Load>, f64, f64); 8] = [
        (simple(), uniform(), 0.5, 5.0 / 384.0),
        (clamped(), uniform(), 0.5, 1.0 / 384.0),
        (simple(), point(0.5 * L), 0.5, 1.0 / 48.0),
        (clamped(), point(0.5 * L), 0.5, 1.0 / 192.0),
        (simple(), quarters(), 0.5, 11.0 / 768.0),
        (simple(), quarters(), 0.25, 1.0 / 96.0),
        (cantilever(), uniform(), 1.0, 1.0 / 8.0),
        (cantilever(), point(L), 1.0, 1.0 / 3.0),
    ];
    for (supports, loads, at, constant) in rows {
        let diagram = Beam::new(L, supports).unwrap().solve(&loads);
        let found = diagram.value(Quantity::Deflection, at * L, Side::Left) / (L * L * L);
        assert!((found - constant).abs() < 1e-12, "{loads:?} at {at}: {found}, {constant}");
    }
}

/// The value of a letter in the leading check of a kind, and its unit.
fn step(job: &str, check: &str, symbol: &str) -> f64 {
    let source = Source::read("handbook", job.as_bytes()).unwrap();
    let results =
        latewood::check(&source, false).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false))).results;
    let check = results.members[0].checks.iter().find(|c| c.check == check && c.leading).unwrap();
    check.steps.iter().rev().find(|s| s.symbol == symbol).unwrap().value
}

/// Hankinson's formula, P 1500 and Q 625 psi: formula read in an encyclopedia (Hankinson's equation) and in the Wood Handbook; the figures
/// are its own arithmetic, 45° by hand 2 PQ/(P + Q). The angle between force and grain is 90° less the slope of a rafter.
#[test]
fn hankinson_by_the_slope_of_a_rafter() {
    for (angle, expected) in [(30.0, 1111.11), (45.0, 882.353), (60.0, 731.707), (75.0, 650.416)] {
        let job = format!(
            "job: {{title: Hankinson, date: 2026-01-05}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: R, use: rafter, slope: {} deg, section: 2x10, material: \
             {{custom: of the handbook, kind: sawn, source: the formula, values: {{F_b: 900 psi, F_v: 180 psi, F_c_perp: 625 psi, F_c: 1500 psi, \
             E: 1600 ksi, E_min: 580 ksi}}}}, spacing: 16 in, spans: [8 ft], bearing: 6 in, braced: {{top: sheathed}}, loads: [{{line: 50 plf, case: live}}]}}\n",
            90.0 - angle
        );
        let found = step(&job, "bearing", "F'_theta");
        assert!((found - expected).abs() < 1e-3 * expected, "{angle}°: {found}, {expected}");
    }
}

/// C_F of timbers deeper than 12 in, (12/d)^(1/9): NDS 4.3.6.2, from memory; the figures are its own arithmetic.
#[test]
fn size_factors_of_deep_timbers() {
    for (section, expected) in [("6x14", 0.986_998), ("6x16", 0.971_963), ("6x20", 0.947_484)] {
        let job = format!(
            "job: {{title: Size, date: 2026-01-05}}\nbasis: {{code: american}}\nmembers:\n  - {{mark: B, use: beam, section: {section}, \
             material: {{species: Douglas Fir-Larch, grade: No.1}}, spans: [20 ft], braced: {{top: continuous}}, loads: [{{line: 100 plf, case: live}}]}}\n"
        );
        let found = step(&job, "bending", "C_F");
        assert!((found - expected).abs() < 1e-6, "{section}: {found}, {expected}");
    }
}
