//! The account of factors: reference value, every factor of Table 4.3.1, adjusted value.

use super::glued::Layup;
use super::prepared::{Bending, psi};
use super::{deflection, notation};
use crate::codes::account::factor;
use crate::codes::{Account, AccountColumn, AccountRow, Kind, Leading, Time};
use crate::equation::Letter;
use crate::units::{PSI, Ratio, decimals, figures, trimmed};

/// F_b, F_v, F_c⊥, E and, where stability is worked out, E_min.
pub(super) fn of(bending: &Bending, leading: &Leading<'_>) -> Account {
    let m = &bending.member;
    let step = |kind, symbol| leading.step(kind, symbol);
    let stress = |kind, symbol| step(kind, symbol).map_or_else(|| "–".to_owned(), |s| s.printed.clone());
    let modulus = |kind, symbol| step(kind, symbol).map_or_else(|| "–".to_owned(), |s| million(s.value * PSI.factor));
    // Of glued laminated timber the value of the axis and edge that govern, and the weak axis' modulus.
    let flat = matches!(bending.layup(), Some(Layup::Laminated { flat: true, .. }));
    let is_laminated = matches!(bending.layup(), Some(Layup::Laminated { .. }));
    let minimum = if is_laminated { "E'_y,min" } else { "E'_min" };
    let with_stability = step(Kind::Bending, minimum).is_some();
    let strength = match (is_laminated, flat) {
        (true, true) => {
            AccountColumn { letter: notation::F_by.letter(), reference: psi(m.F_by.value()), adjusted: stress(Kind::Bending, "F'_by") }
        }
        (true, false) if step(Kind::Bending, "F_bx-").is_some() => AccountColumn {
            letter: notation::F_bx_neg.letter(),
            reference: psi(m.F_bx_neg.value()),
            adjusted: stress(Kind::Bending, "F'_bx"),
        },
        (true, false) => AccountColumn {
            letter: notation::F_bx_pos.letter(),
            reference: psi(m.F_bx_pos.value()),
            adjusted: stress(Kind::Bending, "F'_bx"),
        },
        _ => AccountColumn { letter: notation::F_b.letter(), reference: psi(m.F_b.value()), adjusted: stress(Kind::Bending, "F'_b") },
    };
    let stability_modulus = if is_laminated {
        AccountColumn {
            letter: notation::E_y_min.letter(),
            reference: million(m.E_y_min.value()),
            adjusted: modulus(Kind::Bending, minimum),
        }
    } else {
        AccountColumn { letter: notation::E_min.letter(), reference: million(m.E_min.value()), adjusted: modulus(Kind::Bending, minimum) }
    };
    let properties = [
        strength,
        AccountColumn {
            letter: notation::F_v.letter(),
            reference: psi(if flat { m.F_vy } else { m.F_v }.value()),
            adjusted: stress(Kind::Shear, "F'_v"),
        },
        AccountColumn {
            letter: notation::F_c_perp.letter(),
            reference: psi(m.F_c_perp.value()),
            adjusted: stress(Kind::Bearing, "F'_c,perp"),
        },
        AccountColumn {
            letter: notation::E.letter(),
            reference: million(if flat { m.E_y } else { m.E }.value()),
            // As the deflections take it, also where none is limited.
            adjusted: million(deflection::stiffness(m, bending.layup()).value()),
        },
        stability_modulus,
    ];
    let count = if with_stability { 5 } else { 4 };
    // Each stress has the duration of the combination that its own check is worked for.
    let times = [Kind::Bending, Kind::Shear].map(|kind| leading.time(kind));
    let found = |kind, symbol| step(kind, symbol).map(|s| (factor(s.value), s.because.clone()));
    // A factor that was worked out says from what.
    let from = |kind, symbol, what: &str| step(kind, symbol).map(|s| format!("{what} {} {}", short(s.value), s.unit)).unwrap_or_default();
    let or_from = |(value, because): (String, String), from: String| if because.is_empty() { (value, from) } else { (value, because) };
    let stability = found(Kind::Bending, "C_L").unwrap_or_else(|| ("1.0".to_owned(), "no bending".to_owned()));
    let stability = or_from(stability, from(Kind::Bending, "l_u", "free length of the edge"));
    let volume = found(Kind::Bending, "C_V").unwrap_or_else(|| ("1.0".to_owned(), "not of this axis".to_owned()));
    let volume = or_from(volume, from(Kind::Bending, "L_0", "between points of zero moment"));
    let notched = found(Kind::Shear, "C_vr");
    let area = found(Kind::Bearing, "C_b").unwrap_or_else(|| ("1.0".to_owned(), "bearing is not checked".to_owned()));
    let area = or_from(area, from(Kind::Bearing, "l_b", "bearing length"));
    let mut rows = factors(bending, times, stability, volume, notched, area);
    rows.iter_mut().for_each(|row| row.values.truncate(count));
    Account {
        unit: "psi",
        columns: properties.into_iter().take(count).collect(),
        rows,
        reference: bending.resolved.material.table.clone(),
        remark: match (with_stability, is_laminated) {
            (true, true) => "E, E_y,min in 10⁶ psi",
            (true, false) => "E, E_min in 10⁶ psi",
            (false, _) => "E in 10⁶ psi",
        },
        adjusted_reference: bending.layup().map_or("NDS Table 4.3.1", Layup::table),
    }
}

fn factors(
    bending: &Bending,
    times: [Option<&Time>; 2],
    stability: (String, String),
    volume: (String, String),
    shear: Option<(String, String)>,
    area: (String, String),
) -> Vec<AccountRow> {
    let m = &bending.member;
    let one = |r: Ratio| Some(factor(r.value()));
    let because = |letter: &Letter| bending.facts.of(letter).map(|f| f.because.to_string()).unwrap_or_default();
    let [for_b, for_v] = times.map(|time| time.map(|t| factor(t.factor)));
    let why = Time::reasons(&["F_b", "F_v"].into_iter().zip(times).collect::<Vec<_>>());
    let mut rows = Vec::new();
    let clause = |letter: &Letter| bending.facts.of(letter).map(|f| f.reference.clone()).unwrap_or_default();
    let row = |letter, name, values: [Option<String>; 5], because, reference: &str| AccountRow {
        letter,
        name,
        values: values.to_vec(),
        because,
        reference: reference.to_owned(),
    };
    if bending.lrfd {
        let formats = [one(m.K_F_b), one(m.K_F_v), one(m.K_F_perp), None, one(m.K_F_E)];
        rows.push(row(notation::K_F_b.letter(), "format conversion", formats, "LRFD".to_owned(), "NDS Table N1"));
        let resistances = [one(m.phi_b), one(m.phi_v), one(m.phi_c), None, one(m.phi_E)];
        rows.push(row(notation::PHI.letter(), "resistance", resistances, "LRFD".to_owned(), "NDS Table N2"));
        let times = [for_b, for_v, None, None, None];
        rows.push(row(notation::lambda.letter(), "time effect", times, why, "NDS Table N3"));
    } else {
        rows.push(row(notation::C_D.letter(), "load duration", [for_b, for_v, None, None, None], why, "NDS Table 2.3.2"));
    }
    let all = |b: Ratio, v: Ratio, p: Ratio, e: Ratio| [one(b), one(v), one(p), one(e), one(e)];
    let only_b = |text: String| [Some(text), None, None, None, None];
    rows.push(row(
        notation::C_M_b.letter(),
        "wet service",
        all(m.C_M_b, m.C_M_v, m.C_M_perp, m.C_M_E),
        because(notation::C_M_b.letter()),
        &clause(notation::C_M_b.letter()),
    ));
    rows.push(row(
        notation::C_t_b.letter(),
        "temperature",
        all(m.C_t_b, m.C_t_v, m.C_t_perp, m.C_t_E),
        because(notation::C_t_b.letter()),
        of_temperature(bending.layup()),
    ));
    let [stability, volume] =
        if bending.layup().is_some() { lesser(stability, volume) } else { [stability, volume].map(|(v, why)| (Some(v), why)) };
    rows.push(row(notation::C_L.letter(), "beam stability", [stability.0, None, None, None, None], stability.1, "NDS 3.3.3"));
    if let Some(layup) = bending.layup() {
        let laminated = matches!(layup, Layup::Laminated { .. });
        rows.push(row(notation::C_V.letter(), "volume", [volume.0, None, None, None, None], volume.1, layup.of_volume()));
        if let Some((value, because)) = shear {
            rows.push(row(notation::C_vr.letter(), "shear reduction", [None, Some(value), None, None, None], because, "NDS 5.3.10"));
        }
        if laminated {
            rows.push(row(
                notation::C_c.letter(),
                "curvature",
                only_b(factor(m.C_c.value())),
                because(notation::C_c.letter()),
                "NDS 5.3.8",
            ));
            rows.push(row(
                notation::C_I.letter(),
                "stress interaction",
                only_b(factor(m.C_I.value())),
                because(notation::C_I.letter()),
                "NDS 5.3.9",
            ));
            if matches!(layup, Layup::Laminated { flat: true, .. }) {
                let why = because(notation::C_fu_b.letter());
                rows.push(row(notation::C_fu_b.letter(), "flat use", only_b(factor(m.C_fu_b.value())), why, "NDS 5.3.7"));
            }
        } else {
            rows.push(row(
                notation::C_r.letter(),
                "repetitive",
                only_b(factor(m.C_r.value())),
                because(notation::C_r.letter()),
                "NDS 8.3.7",
            ));
        }
        rows.push(row(notation::C_b.letter(), "bearing area", [None, None, Some(area.0), None, None], area.1, "NDS 3.10.4"));
        return rows;
    }
    rows.push(row(notation::C_F_b.letter(), "size", only_b(factor(m.C_F_b.value())), because(notation::C_F_b.letter()), "NDS 4.3.6"));
    let flat = [one(m.C_fu_b), None, None, one(m.C_fu_E), one(m.C_fu_E)];
    rows.push(row(notation::C_fu_b.letter(), "flat use", flat, because(notation::C_fu_b.letter()), "NDS 4.3.7"));
    rows.push(row(
        notation::C_i_b.letter(),
        "incising",
        all(m.C_i_b, m.C_i_v, m.C_i_perp, m.C_i_E),
        because(notation::C_i_b.letter()),
        "NDS 4.3.8",
    ));
    rows.push(row(notation::C_r.letter(), "repetitive", only_b(factor(m.C_r.value())), because(notation::C_r.letter()), "NDS 4.3.9"));
    rows.push(row(notation::C_b.letter(), "bearing area", [None, None, Some(area.0), None, None], area.1, "NDS 3.10.4"));
    rows
}

/// The clause of the temperature factor; its steps name the table.
pub(super) fn of_temperature(layup: Option<Layup>) -> &'static str {
    match layup {
        None => "NDS 4.3.4",
        Some(Layup::Laminated { .. }) => "NDS 5.3.4",
        Some(Layup::Composite { .. }) => "NDS 8.3.4",
    }
}

/// Of the stability and the volume factor the lesser counts, but a volume factor above 1 goes with any stability factor: of the one that
/// does not count its row says the value.
pub(super) fn lesser(stability: (String, String), volume: (String, String)) -> [(Option<String>, String); 2] {
    let value = |text: &str| text.parse::<f64>().unwrap_or(1.0);
    let (of_stability, of_volume) = (value(&stability.0), value(&volume.0));
    let counts = |(value, why): (String, String)| (Some(value), why);
    let idle = |(value, why): (String, String), other: &str| {
        (None, format!("{value}{}{why}: {other} is the lesser", if why.is_empty() { "" } else { ", " }))
    };
    if of_volume > 1.0 || of_stability == of_volume {
        [counts(stability), counts(volume)]
    } else if of_stability < of_volume {
        [counts(stability), idle(volume, "C_L")]
    } else {
        [idle(stability, "C_V"), counts(volume)]
    }
}

/// A number with four figures at most, without noughts behind.
fn short(number: f64) -> String {
    trimmed(number, 4)
}

/// A stress as printed; a modulus in millions of psi.
pub(super) fn psi_or_million(value: f64) -> String {
    if PSI.number(value) < 1e5 { psi(value) } else { million(value) }
}

/// A modulus in millions of psi: with two places, or four figures where these do not say it.
fn million(value: f64) -> String {
    let number = PSI.number(value) / 1e6;
    let two = decimals(number, 2);
    if (two.parse().unwrap_or(0.0) - number).abs() < 1e-9 { two } else { figures(number, 4) }
}
