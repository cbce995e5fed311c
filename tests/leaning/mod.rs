//! Laws of members that lean: what must hold whatever the figures are.

use latewood::results::{Check, Member, Results};

fn check(member: &str) -> Results {
    let job = format!(
        "job: {{title: Laws, number: T-05, date: 2026-02-02}}\nbasis: {{code: american}}\nareas: {{roof: {{dead: 12 psf, snow: 30 psf}}}}\n\
         members:\n  - {{mark: B1, use: beam, material: {{species: Douglas Fir-Larch, grade: No.1}}, {member}}}\n"
    );
    let source = latewood::text::Source::read("job", job.as_bytes()).unwrap();
    latewood::check(&source, true).unwrap_or_else(|f| panic!("{}", latewood::cli::snippet::render(&source, &f, false))).results
}

fn found<'a>(member: &'a Member, name: &str, combination: &str) -> &'a Check {
    member
        .checks
        .iter()
        .find(|c| c.check == name && c.combination == combination)
        .unwrap_or_else(|| panic!("no {name} under {combination}"))
}

fn step(check: &Check, symbol: &str) -> f64 {
    check.steps.iter().rev().find(|s| s.symbol == symbol).unwrap_or_else(|| panic!("no {symbol}")).value
}

/// The parts of a vertical load are the sides of a right triangle; with the same spans both ways, so are the moments.
#[test]
fn moments_are_the_parts_of_the_upright_one() {
    let upright = 70.0 * 13.0 * 13.0 / 8.0;
    for tilt in [5.0_f64, 18.43, 45.0, 80.0] {
        let results =
            check(&format!("section: 4x8, tilt: {tilt} deg, spans: [13 ft], self-weight: no, loads: [{{line: 70 plf, case: snow}}]"));
        let both = found(&results.members[0], "biaxial_bending", "S");
        let (x, y) = (step(both, "M_x"), step(both, "M_y"));
        assert!((x - upright * libm::cos(tilt.to_radians())).abs() < 1e-7 * upright, "{tilt}: {x}");
        assert!((libm::hypot(x, y) - upright).abs() < 1e-7 * upright, "{tilt}: {x}, {y}");
        assert!((both.at.value - 6.5).abs() < 1e-6, "{tilt}: at {}", both.at.value);
        let deflection = found(&results.members[0], "deflection", "S");
        assert!((libm::hypot(step(deflection, "delta_x"), step(deflection, "delta_y")) / step(deflection, "delta") - 1.0).abs() < 1e-9);
    }
}

/// A square timber bends the same way whichever way it leans; its biaxial sum is f_b (cos + sin) / F'_b.
#[test]
fn a_square_timber_goes_by_cosine_and_sine() {
    for tilt in [10.0_f64, 30.0, 45.0] {
        let results =
            check(&format!("section: 6x6, tilt: {tilt} deg, spans: [10 ft], self-weight: no, loads: [{{line: 70 plf, case: snow}}]"));
        let upright = check("section: 6x6, spans: [10 ft], self-weight: no, loads: [{line: 70 plf, case: snow}]");
        let plain = found(&upright.members[0], "bending", "S").ratio;
        let both = found(&results.members[0], "biaxial_bending", "S").ratio;
        let (sine, cosine) = libm::sincos(tilt.to_radians());
        assert!((both - plain * (sine + cosine)).abs() < 1e-9, "{tilt}: {both}");
        let (leaning, standing) = (found(&results.members[0], "deflection", "S"), found(&upright.members[0], "deflection", "S"));
        assert!((step(leaning, "delta") - step(standing, "delta")).abs() < 1e-8, "the resultant is the upright deflection");
    }
}

/// The worst place between the axes' extremes is found: against a fine walk over both diagrams in closed form.
#[test]
fn the_worst_place_is_found_between_the_extremes() {
    // Side supports at 1/4 and at the ends: the weak moment peaks where the strong one does not.
    let (l, a, q) = (16.0_f64, 4.0_f64, 60.0_f64);
    for tilt in [8.0_f64, 20.0, 35.0] {
        let member = format!(
            "section: 4x10, tilt: {tilt} deg, spans: [16 ft], weak-spans: [4 ft, 12 ft], braced: {{top: sheathed}}, self-weight: no, \
             loads: [{{line: 60 plf, case: snow}}]"
        );
        let results = check(&member);
        let both = found(&results.members[0], "biaxial_bending", "S");
        let (sine, cosine) = libm::sincos(tilt.to_radians());
        let (f_1, f_2) = (step(both, "F'_b"), step(both, "F'_b2"));
        // Two unequal spans under a uniform load: the three-moment equation.
        let b = l - a;
        let middle = -q * sine * (a * a * a + b * b * b) / (8.0 * l);
        let across = |x: f64| {
            let (from, span, left, right) = if x <= a { (0.0, a, 0.0, middle) } else { (a, b, middle, 0.0) };
            let t = x - from;
            left + (right - left) * t / span + q * sine * t * (span - t) / 2.0
        };
        let (s_1, s_2) = (3.5 * 9.25 * 9.25 / 6.0, 9.25 * 3.5 * 3.5 / 6.0);
        let sum = |x: f64| 12.0 * (q * cosine * x * (l - x) / 2.0 / s_1 / f_1 + across(x).abs() / s_2 / f_2);
        let worst = (0..=160_000).map(|i| sum(l * f64::from(i) / 160_000.0)).fold(0.0, f64::max);
        assert!((both.ratio - worst).abs() < 1e-7 * worst, "{tilt}: {} found at {}, {worst} by walking", both.ratio, both.at.value);
    }
}
