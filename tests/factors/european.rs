//! The same of the European code: size factor of own values, values asked for, camber, forces in print, bearings beside a load.

use latewood::results::Results;

fn run(basis: &str, member: &str) -> Result<Results, String> {
    let text = format!(
        "job: {{title: Factors, number: T-14, date: 2026-02-02}}\nbasis: {{code: european{basis}}}\nmembers:\n  - {{mark: B1, use: beam, \
         self-weight: no, {member}}}\n"
    );
    let source = latewood::text::Source::read("job", text.as_bytes()).unwrap();
    latewood::check(&source, true).map(|checked| checked.results).map_err(|f| latewood::cli::snippet::render(&source, &f, false))
}

fn check(basis: &str, member: &str) -> Results {
    run(basis, member).unwrap_or_else(|told| panic!("{told}"))
}

fn step(results: &Results, check: &str, symbol: &str) -> f64 {
    let checks = results.members[0].checks.iter().filter(|c| c.check == check);
    let found = checks.flat_map(|c| &c.steps).find(|step| step.symbol == symbol);
    found.unwrap_or_else(|| panic!("no {symbol} in {check}")).value
}

/// A beam of own values of a kind.
fn own(kind: &str, depth: f64, keys: &str, values: &str) -> String {
    format!(
        "section: {{width: 60 mm, depth: {depth} mm}}, spans: [3 m], braced: {{top: continuous}}, loads: [{{line: 1 kN/m, case: dead}}], material: \
         {{custom: Own, kind: {kind}, source: report 3{keys}, values: {{f_m_k: 24 MPa, f_v_k: 3.5 MPa, f_c_90_k: 2.5 MPa, E_0_mean: 11000 MPa, \
         G_mean: 690 MPa{values}}}}}"
    )
}

/// EN 1995-1-1, 3.2(3): (150/h)^0.2, at most 1.3; 3.3(3): (600/h)^0.1, at most 1.1; 3.4(3): (300/h)^s, at most 1.2. Of an own value what is
/// below 1; from the depth that it holds for.
#[test]
fn own_values_take_the_size_factor_below_one() {
    let (table, sawn, lvl) = (", size-factor: table", ", rho_k: 350 kg/m3", ", size_exponent: 0.15");
    let pow = libm::pow;
    for (kind, depth, keys, values, k_h) in [
        ("sawn", 95.0, "", sawn, 1.0),
        ("sawn", 95.0, table, sawn, pow(150.0 / 95.0, 0.2)),
        ("sawn", 200.0, ", depth: 100 mm", sawn, pow(100.0 / 150.0, 0.2)),
        ("sawn", 120.0, ", depth: 100 mm", sawn, pow(100.0 / 120.0, 0.2)),
        ("sawn", 80.0, ", depth: 100 mm", sawn, 1.0),
        ("glulam", 300.0, "", "", 1.0),
        ("glulam", 300.0, table, "", pow(600.0 / 300.0, 0.1)),
        ("glulam", 600.0, ", depth: 300 mm", "", pow(300.0 / 600.0, 0.1)),
        ("composite", 240.0, "", "", 1.0),
        ("composite", 240.0, table, lvl, pow(300.0 / 240.0, 0.15)),
        ("composite", 400.0, "", lvl, pow(300.0 / 400.0, 0.15)),
    ] {
        let results = check("", &own(kind, depth, keys, values));
        let found = step(&results, "bending", "k_h");
        assert!((found - k_h).abs() < 1e-9, "{kind} of {depth} mm{keys}: {found}, by hand {k_h}");
    }
    // Deeper than 300 mm the strength falls with the exponent that only its maker knows.
    assert!(run("", &own("composite", 400.0, "", "")).unwrap_err().contains("does not give `size_exponent`"));
}

/// G_0,05 is no G_mean, and E_0,05 no E_0,mean: both are asked for where the beam may turn over, and the hand figure takes them.
#[test]
fn five_percent_values_are_asked_for_where_a_beam_may_turn_over() {
    let free = own("glulam", 300.0, "", "").replace("continuous", "none");
    let told = run("", &free).unwrap_err();
    assert!(told.contains("does not give `E_0_05`") && told.contains("does not give `G_05`"), "{told}");
    let given = own("glulam", 300.0, "", ", E_0_05: 9000 MPa, G_05: 500 MPa").replace("continuous", "none");
    // l_ef = 0.9 x 3000 + 2 x 300; I_tor of a solid rectangle with 1 - 0.63 b/h.
    let (b, h, l_ef) = (60.0_f64, 300.0_f64, 3300.0_f64);
    let (i_z, i_tor) = (h * b * b * b / 12.0, h * b * b * b / 3.0 * (1.0 - 0.63 * b / h));
    let by_hand = std::f64::consts::PI * (9000.0 * i_z * 500.0 * i_tor).sqrt() / (l_ef * b * h * h / 6.0);
    let found = step(&check("", &given), "bending", "sigma_m,crit");
    assert!((found / by_hand - 1.0).abs() < 1e-9, "{found}, by hand {by_hand}");
}

const BEAM: &str = "section: {width: 80 mm, depth: 200 mm}, material: {class: C24}, spans: [4 m], braced: {top: continuous}, \
                    loads: [{line: 1 kN/m, case: dead}, {line: 2 kN/m, case: live}]";

/// EN 1995-1-1, 7.2 (7.2): w_net,fin = w_fin - w_c. C24, 80 x 200, 4 m, 1 + 2 kN/m of category A, service class 2: bending and shear of 1
/// kN/m at once, final 1.8 of dead and 1 + 0.3 x 0.8 of live.
#[test]
fn camber_is_taken_off_the_net_final_deflection() {
    let basis = ", service-class: 2, use-category: A";
    let (b, h, l, e, g) = (80.0_f64, 200.0_f64, 4000.0_f64, 11_000.0, 690.0);
    let unit = 5.0 * l * l * l * l / (384.0 * e * b * h * h * h / 12.0) + 1.2 * l * l / (8.0 * g * b * h);
    let w_fin = unit * 1.8 + 2.0 * unit * 1.24;
    let of = |camber: &str, combination: &str| {
        let results = check(basis, &format!("{BEAM}{camber}"));
        let found = results.members[0].deflections.iter().find(|d| d.what == "net-final" && d.combination == combination).unwrap();
        (found.value.value, found.ratio.unwrap(), results)
    };
    let (whole, ..) = of("", "G + Q with creep");
    assert!((whole / w_fin - 1.0).abs() < 1e-9, "{whole}, by hand {w_fin}");
    let (net, ratio, results) = of(", camber: 10 mm", "G + Q with creep");
    assert!((net - (w_fin - 10.0)).abs() < 1e-7, "{net}");
    assert!((ratio - (w_fin - 10.0) / (4000.0 / 250.0)).abs() < 1e-7, "{ratio}");
    assert!(results.assumptions.iter().any(|a| a.text.contains("camber w_c of 10 mm")));
    // 12 mm is more than what permanent load alone makes, 10.6 mm: upward, and said.
    let (alone, ratio, results) = of(", camber: 12 mm", "G with creep");
    assert!((alone - (1.8 * unit - 12.0)).abs() < 1e-7 && (ratio - (12.0 - 1.8 * unit) / 16.0).abs() < 1e-7, "{alone} {ratio}");
    assert!(results.members[0].notes.iter().any(|note| note.contains("more than the deflection")));
    // The check takes what the list of deflections has.
    let (_, ratio, results) = of(", camber: 40 mm, limits: {instant: none, final: none}", "G with creep");
    let governing = results.members[0].checks.iter().find(|c| c.check == "deflection").unwrap();
    assert!((governing.ratio - ratio).abs() < 1e-7 && ratio > 1.0, "{} {ratio}", governing.ratio);
}

#[test]
fn a_camber_that_makes_no_sense_is_refused() {
    assert!(run("", &format!("{BEAM}, camber: -10 mm")).is_err());
    let two = BEAM.replace("[4 m]", "[4 m, 4 m]");
    assert!(run("", &format!("{two}, camber: 10 mm")).unwrap_err().contains("several spans"));
    let american = "job: {title: Camber, number: T-15, date: 2026-02-02}\nbasis: {code: american}\nmembers:\n  - {mark: B1, use: beam, section: 4x12, \
                    material: {species: Hem-Fir, grade: No.2}, spans: [8 ft], camber: 1 in, loads: [{line: 20 plf, case: dead}]}\n";
    let source = latewood::text::Source::read("job", american.as_bytes()).unwrap();
    let told = latewood::check(&source, true).err().map(|f| latewood::cli::snippet::render(&source, &f, false)).unwrap();
    assert!(told.contains("`camber`"), "{told}");
}

#[test]
fn national_factors_say_their_consequence_class() {
    for (country, name) in [("NL", "Netherlands"), ("DE", "Germany"), ("GB", "United Kingdom")] {
        let results = check(&format!(", country: {country}"), BEAM);
        let text = format!("those of {name} for consequence class CC2");
        assert!(results.assumptions.iter().any(|a| a.text.contains(&text)), "{country}");
    }
}

/// EQU: 0.9 x 0.1 - 1.5 x 0.2 = -0.21 kN/m on 2 m, 0.21 kN at each end: three significant figures, never nought (reading 57).
#[test]
fn a_small_uplift_is_printed() {
    let light =
        BEAM.replace("1 kN/m", "0.1 kN/m").replace("{line: 2 kN/m, case: live}", "{line: -0.2 kN/m, case: wind}").replace("4 m", "2 m");
    let results = check("", &light);
    let notes = &results.members[0].notes;
    assert!(notes.iter().any(|note| note.contains("support 1: 0.210 kN under 0.9 G + 1.5 W")), "{notes:?}");
}

/// EN 1995-1-1, 6.1.5(1): a bearing counts 30 mm more on a side, at most half the clear distance l_1 to the next force. A load at 90 mm from
/// the line of a bearing of 100 mm leaves 40 mm clear: 20 mm; at 130 mm 80 mm: 30 mm.
#[test]
fn a_bearing_beside_a_load_counts_half_the_clear_distance() {
    for (at, more) in [(90.0, 20.0), (130.0, 30.0)] {
        let member =
            format!("{BEAM}, bearing: 100 mm").replace("{line: 2 kN/m, case: live}", &format!("{{point: 1 kN, case: live, at: {at} mm}}"));
        let results = check("", &member);
        let bearing = results.members[0].checks.iter().find(|c| c.check == "bearing" && c.support == Some(1)).unwrap();
        let l_ef = bearing.steps.iter().find(|s| s.symbol == "l_ef").unwrap().value;
        assert!((l_ef - 100.0 - more).abs() < 1e-9, "{at} mm: {l_ef}");
    }
}
