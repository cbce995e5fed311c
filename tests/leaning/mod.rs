//! Laws of members that lean: what must hold whatever the figures are.

use latewood::results::{Check, Member, Results};

fn check(member: &str) -> Results {
    let job = format!(
        "job: {{title: Laws, number: T-05, date: 2026-02-02}}\nbasis: {{code: american}}\nareas: {{roof: {{dead: 12 psf, snow: 30 psf}}}}\n\
         members:\n  - {{mark: B1, use: beam, material: {{species: Douglas Fir-Larch, grade: No.1}}, {member}}}\n"
    );
    results(&job)
}

fn results(job: &str) -> Results {
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

/// EN 1995-1-1: a purlin of C24, 60 x 360 mm over 5 m at 20 degrees, held sideways at mid-span, 0.7 kN/m and 1.4 kN/m of snow on its top.
///
/// Its factored load is 1.35 x 0.7 + 1.5 x 1.4 = 3.045 kN/m, so that M_y = 3.045 cos 20 x 25/8 = 8.942 kN m and, over the side support,
/// M_z = 3.045 sin 20 x 6.25/8 = 0.8136 kN m: 6.900 and 3.767 N/mm2. f_m,y,d = 0.9 x 24/1.3 = 16.615, f_m,z,d = (150/60)^0.2 of it = 19.957.
/// l_ef = 0.9 x 5000 + 2 x 360 = 5220 mm, sigma_crit = 0.78 x 60^2 x 7400/(360 x 5220) = 11.058, lambda = sqrt(24/11.058) = 1.4733,
/// k_crit = 1/1.4733^2 = 0.4607. Bending alone: 6.900/(0.4607 x 16.615) = 0.9013. With the weak axis: 0.9013 + 0.7 x 3.767/19.957 = 1.0334.
#[test]
fn lateral_buckling_counts_in_bending_about_both_axes() {
    let results = results(
        "job: {title: Purlins, number: T-20, date: 2026-02-02}
basis: {code: european}
members:
  - mark: P1
    use: beam
    section: {width: 60 mm, depth: 360 mm}
    material: {class: C24}
    spans: [5 m]
    weak-spans: [2.5 m, 2.5 m]
    tilt: 20 deg
    bearing: 100 mm
    self-weight: no
    limits: {instant: none, final: none, net-final: none}
    loads: [{line: 0.7 kN/m, case: dead}, {line: 1.4 kN/m, case: snow}]
",
    );
    let purlin = &results.members[0];
    let ratio = |name| found(purlin, name, "1.35 G + 1.5 S").ratio;
    assert!((ratio("bending") - 0.9013).abs() < 1e-4, "{}", ratio("bending"));
    assert!((ratio("biaxial_bending") - 1.0334).abs() < 1e-4, "{}", ratio("biaxial_bending"));
    assert!(purlin.verdict.fails());
}
