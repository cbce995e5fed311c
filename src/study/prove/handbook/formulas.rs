//! Entries that the program's own functions give.

use super::Entry;
use crate::analysis::{Beam, Load, Quantity, Side, Support};
use crate::codes::american::weight::density_pcf;
use crate::results::proof::Figure;
use serde_yaml::Value;

/// Weights by specific gravity and moisture.
pub(super) fn weights(entry: &Entry) -> Vec<Figure> {
    match entry.id.as_str() {
        "density-nds-30pct" => {
            vec![entry.figure("pcf", entry.expected(&["pcf"]), "pcf", density_pcf(entry.given(&["G"]), entry.given(&["mc_pct"])))]
        }
        "density-nds-table" => {
            let of = |gravity: &str, moisture: &str| {
                let (key, column) = (format!("G_{gravity}"), format!("mc_{moisture}"));
                let number = |text: &str| text.parse().unwrap_or(f64::NAN);
                entry.figure(
                    &format!("G {gravity}, {moisture} %"),
                    entry.expected(&[key.as_str(), column.as_str()]),
                    "pcf",
                    density_pcf(number(gravity), number(moisture)),
                )
            };
            let grid = ["0.35", "0.42", "0.43", "0.50", "0.55"].into_iter().flat_map(|g| ["0", "12", "15", "19"].map(|m| (g, m)));
            grid.map(|(gravity, moisture)| of(gravity, moisture)).collect()
        }
        _ => {
            let density = density_pcf(entry.given(&["G"]), entry.given(&["mc_pct"]));
            let of = |section: &str| {
                let sides = entry.given.get("sections_in").and_then(|sections| sections.get(section)).and_then(Value::as_sequence);
                let area: f64 = sides.map_or(f64::NAN, |sides| sides.iter().filter_map(Value::as_f64).product());
                entry.figure(section, entry.expected(&[section]), "plf", density * area / 144.0)
            };
            ["2x4", "2x10", "6x12"].map(of).to_vec()
        }
    }
}

/// A beam of length 1: how it is held, what is on it (1 in all), and where its deflection is asked for.
type Case = (&'static str, &'static [(f64, bool)], Loaded, f64);

#[derive(Clone, Copy)]
enum Loaded {
    Evenly,
    At(f64),
    AtQuarters,
}

const SIMPLE: &[(f64, bool)] = &[(0.0, false), (1.0, false)];
const CLAMPED: &[(f64, bool)] = &[(0.0, true), (1.0, true)];
const CANTILEVER: &[(f64, bool)] = &[(0.0, true)];

static TABLE: [Case; 8] = [
    ("uniform, simple, midspan", SIMPLE, Loaded::Evenly, 0.5),
    ("uniform, clamped, midspan", CLAMPED, Loaded::Evenly, 0.5),
    ("midspan load, simple", SIMPLE, Loaded::At(0.5), 0.5),
    ("midspan load, clamped", CLAMPED, Loaded::At(0.5), 0.5),
    ("outer quarter points, simple, midspan", SIMPLE, Loaded::AtQuarters, 0.5),
    ("outer quarter points, simple, load point", SIMPLE, Loaded::AtQuarters, 0.25),
    ("uniform, cantilever, free end", CANTILEVER, Loaded::Evenly, 1.0),
    ("end load, cantilever, free end", CANTILEVER, Loaded::At(1.0), 1.0),
];

/// The deflection of a case with EI 1 and this EI over its shear stiffness.
fn deflection((_, held, loaded, at): &Case, give: f64) -> f64 {
    let supports = held.iter().map(|(at, fixed)| Support { at: *at, fixed: *fixed }).collect();
    let loads = match loaded {
        Loaded::Evenly => vec![Load::Line { from: 0.0, to: 1.0, start: 1.0, end: 1.0 }],
        Loaded::At(at) => vec![Load::Point { at: *at, force: 1.0 }],
        Loaded::AtQuarters => [0.25, 0.75].map(|at| Load::Point { at, force: 0.5 }).to_vec(),
    };
    let beam = Beam::new(1.0, supports).expect("the beams of the table are held").with_shear(give);
    beam.solve(&loads).value(Quantity::Deflection, *at, Side::Left)
}

/// k_b and k_s of d = k_b W L³/(E I) + k_s W L/(G A'), by the solver with and without shear.
pub(super) fn constants(entry: &Entry) -> Vec<Figure> {
    TABLE
        .iter()
        .flat_map(|case| {
            let (bending, both) = (deflection(case, 0.0), deflection(case, 1.0));
            [
                entry.figure(&format!("k_b, {}", case.0), entry.expected(&[case.0, "kb_value"]), "", bending),
                entry.figure(&format!("k_s, {}", case.0), entry.expected(&[case.0, "ks"]), "", both - bending),
            ]
        })
        .collect()
}

/// Bending and shear deflection of a rectangle under an even load, G a sixteenth of E.
pub(super) fn shear(entry: &Entry) -> Vec<Figure> {
    let [b, h, length, load, modulus] = ["b_in", "h_in", "L_in", "w_plf", "E_psi"].map(|key| entry.given(&[key]));
    let rigidity = modulus * b * h * h * h / 12.0;
    // EI over G A', A' = 5 b h / 6, on a length of 1.
    let give = rigidity / (modulus / 16.0 * 5.0 / 6.0 * b * h) / (length * length);
    let scale = load / 12.0 * length * length * length * length / rigidity;
    let case = &TABLE[0];
    let (bending, both) = (scale * deflection(case, 0.0), scale * deflection(case, give));
    vec![
        entry.figure("bending", entry.expected(&["bending_in"]), "in", bending),
        entry.figure("shear", entry.expected(&["shear_in"]), "in", both - bending),
        entry.figure("both", entry.expected(&["total_in"]), "in", both),
        entry.figure("shear over bending", entry.expected(&["ratio_shear_to_bending"]), "", both / bending - 1.0),
    ]
}
