//! Entries that a job file says.

use super::Entry;
use crate::study::prove::cases::{Expected, Published, Tolerance};
use crate::units::decimals;

/// The entry as cases, each with its code.
pub(super) fn of(entry: &Entry) -> Vec<(&'static str, Published)> {
    match entry.id.as_str() {
        "hankinson-exponent" => vec![("american", hankinson(entry, ["P", "Q"], &["5", "10", "15", "20"], &["n_2"]))],
        "size-factor-codes" => vec![("american", timbers(entry)), ("european", solid_timber(entry))],
        _ => vec![("american", hankinson(entry, ["F_parallel_psi", "F_perp_psi"], &["10", "15", "30", "45", "60", "75", "90"], &[]))],
    }
}

fn published(entry: &Entry, job: String, expect: Vec<Expected>) -> Published {
    Published { id: entry.id.clone(), title: entry.title.clone(), source: entry.source.clone(), status: entry.status.clone(), job, expect }
}

fn expected(entry: &Entry, member: &str, [check, combination, symbol, unit]: [&str; 4], value: f64) -> Expected {
    Expected {
        member: member.to_owned(),
        check: check.to_owned(),
        combination: combination.to_owned(),
        symbol: symbol.to_owned(),
        value,
        unit: unit.to_owned(),
        tolerance: Tolerance::Absolute(entry.tolerance(value)),
        span: None,
        support: None,
        because: String::new(),
        status: None,
    }
}

/// The angle between force and grain is 90° less the slope of a rafter; a level beam is at 90°.
fn hankinson(entry: &Entry, [along, across]: [&str; 2], angles: &[&str], under: &[&str]) -> Published {
    let (p, q) = (entry.given(&[along]), entry.given(&[across]));
    let mut job = "job: {title: Hankinson, date: 2026-01-05}\nbasis: {code: american}\nmembers:\n".to_owned();
    let mut expect = Vec::new();
    for angle in angles {
        let path: Vec<&str> = under.iter().copied().chain([*angle]).collect();
        let degrees = angle.parse().unwrap_or(f64::NAN);
        let level = degrees > 89.9;
        let leans = if level { "use: beam".to_owned() } else { format!("use: rafter, slope: {} deg", decimals(90.0 - degrees, 0)) };
        job.push_str(&format!(
            "  - {{mark: R{angle}, {leans}, section: 2x10, self-weight: no, material: {{custom: of the handbook, kind: sawn, source: the formula, values: \
             {{F_b: 900 psi, F_v: 180 psi, F_c_perp: {q} psi, F_c: {p} psi, E: 1600 ksi, E_min: 580 ksi}}}}, spans: [8 ft], bearing: 6 in, \
             braced: {{top: sheathed}}, loads: [{{line: 50 plf, case: live}}]}}\n"
        ));
        let symbol = if level { "F'_c,perp" } else { "F'_theta" };
        expect.push(expected(entry, &format!("R{angle}"), ["bearing", "L", symbol, "psi"], entry.expected(&path)));
    }
    published(entry, job, expect)
}

/// C_F of timbers deeper than 12 in.
fn timbers(entry: &Entry) -> Published {
    let sizes = [("6x14", "nds_d_13.5"), ("6x16", "nds_d_15.5"), ("6x20", "nds_d_19.5")];
    let rest = "material: {species: Douglas Fir-Larch, grade: No.1}, spans: [20 ft], braced: {top: continuous}, loads: [{line: 100 plf, case: live}]";
    size_factors(entry, "american", sizes, str::to_owned, rest, ["bending", "D + L", "C_F", ""])
}

/// k_h of solid timber less than 150 mm deep.
fn solid_timber(entry: &Entry) -> Published {
    let depths = [("45", "ec5_h_45"), ("95", "ec5_h_95"), ("145", "ec5_h_145")];
    let section = |depth: &str| format!("{{width: 45 mm, depth: {depth} mm}}");
    let rest = "material: {class: C24}, spans: [1 m], self-weight: no, braced: {top: continuous}, loads: [{line: 0.5 kN/m, case: dead}]";
    size_factors(entry, "european", depths, section, rest, ["bending", "1.35 G", "k_h", ""])
}

/// A beam for each size, which stands with the name of its factor in the entry; `rest` is the same of all.
fn size_factors(
    entry: &Entry,
    code: &str,
    sizes: [(&str, &str); 3],
    section: impl Fn(&str) -> String,
    rest: &str,
    asked: [&str; 4],
) -> Published {
    let mut job = format!("job: {{title: Size factors, date: 2026-01-05}}\nbasis: {{code: {code}}}\nmembers:\n");
    let mut expect = Vec::new();
    for (size, key) in sizes {
        job.push_str(&format!("  - {{mark: B{size}, use: beam, section: {}, {rest}}}\n", section(size)));
        expect.push(expected(entry, &format!("B{size}"), asked, entry.expected(&[key])));
    }
    published(entry, job, expect)
}
