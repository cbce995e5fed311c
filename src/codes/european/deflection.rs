//! Deflection at once and with creep, action by action. EN 1995-1-1, 2.2.3 and 7.2.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member, Wanted};
use super::{notation, statics};
use crate::eq;
use crate::equation::{Line, OfDimension, Symbol, Trace};
use crate::job::model::Nature;
use crate::units::{Length, Ratio, sq, sqrt};

/// Ratio of a deflection to what it may be.
pub fn deflection<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let w = wanted(m, q, how);
    let l = q.l;
    let w_most = match how.over {
        Some(over) if how.overhang => {
            eq!(w_most = 2.0 * l / over; how.limits; "twice the length of an overhang");
            w_most
        }
        Some(over) => {
            eq!(w_most = l / over; how.limits);
            w_most
        }
        None => q.w_most,
    };
    eq!(ratio = w / w_most; how.limits);
    Some(ratio)
}

fn wanted<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Length<T> {
    match how.wanted {
        Wanted::Own => both_ways(q, how).unwrap_or(q.w_given),
        Wanted::Instant | Wanted::Variable => {
            let sum = both_ways(q, how).or_else(|| at_once(m, q, how)).unwrap_or(q.w_given);
            eq!(w_inst = sum; "EN 1995-1-1, 2.2.3(2)");
            w_inst
        }
        Wanted::Final => {
            let sum = both_ways(q, how).or_else(|| with_creep(m, q, how)).unwrap_or(q.w_given);
            eq!(w_fin = sum; "EN 1995-1-1, 2.2.3 (2.2)");
            w_fin
        }
        Wanted::NetFinal | Wanted::QuasiPermanent => {
            let sum = both_ways(q, how).or_else(|| with_creep(m, q, how)).unwrap_or(q.w_given);
            let w_c = m.w_c;
            eq!(w_fin = sum; "EN 1995-1-1, 2.2.3 (2.2)");
            if how.upward {
                eq!(w_net_fin = w_fin + w_c; "EN 1995-1-1, 7.2 (7.2)"; "upward, as the camber is");
                w_net_fin
            } else if w_fin.at_most(w_c) {
                eq!(w_net_fin = w_c - w_fin; "EN 1995-1-1, 7.2 (7.2)"; "upward: the camber is more than the deflection");
                w_net_fin
            } else {
                eq!(w_net_fin = w_fin - w_c; "EN 1995-1-1, 7.2 (7.2)");
                w_net_fin
            }
        }
    }
}

/// The resultant of both ways of a member that leans; each way is given with its creep, action by action, from the diagram.
fn both_ways<T: Trace>(q: &Asked<T>, how: &How) -> Option<Length<T>> {
    let &Asked { w_y, w_z, .. } = q;
    how.both_ways.then(|| sqrt(sq(w_y) + sq(w_z)))
}

/// The deflection at once of each action present, with its nature.
fn actions<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Vec<(Nature, Length<T>)> {
    let mut found = Vec::new();
    for (nature, statics) in Nature::ALL.into_iter().zip(how.parts) {
        let (Some(statics), Some(action)) = (statics, action(q, nature)) else { continue };
        found.push((nature, statics::deflection(m, q.l, action, statics)));
    }
    found
}

fn action<T: Trace>(q: &Asked<T>, nature: Nature) -> Option<statics::Action<T>> {
    Some(match nature {
        Nature::Dead => (q.g_k, q.G_k, q.w_G, &notation::w_G),
        Nature::Live => (q.q_k, q.Q_k, q.w_Q, &notation::w_Q),
        Nature::RoofLive => (q.q_Hk, q.Q_Hk, q.w_H, &notation::w_H),
        Nature::Snow => (q.s_k, q.S_k, q.w_S, &notation::w_S),
        Nature::Wind => (q.w_k, q.W_k, q.w_W, &notation::w_W),
        Nature::Seismic | Nature::Rain => return None,
    })
}

/// The companion factors of a nature and the letter of its final deflection.
type Companion<T> = (Ratio<T>, Ratio<T>, &'static Symbol<<Length as OfDimension>::D>);

fn companion<T: Trace>(m: &Member<T>, nature: Nature) -> Companion<T> {
    match nature {
        Nature::RoofLive => (m.psi_0_H, m.psi_2_H, &notation::w_fin_H),
        Nature::Snow => (m.psi_0_S, m.psi_2_S, &notation::w_fin_S),
        Nature::Wind => (m.psi_0_W, m.psi_2_W, &notation::w_fin_W),
        _ => (m.psi_0_Q, m.psi_2_Q, &notation::w_fin_Q),
    }
}

/// The characteristic combination: the leading action whole, the others by ψ₀.
fn at_once<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Length<T>> {
    let parts = actions(m, q, how).into_iter().map(|(nature, w)| {
        let (psi_0, ..) = companion(m, nature);
        if nature == Nature::Dead || how.leading == Some(nature) { w } else { psi_0 * w }
    });
    parts.reduce(|sum, part| sum + part)
}

/// Final deflections by (2.3) to (2.5); under the quasi-permanent combination each variable action stands with ψ₂ alone.
fn with_creep<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Length<T>> {
    let k_def = m.k_def;
    let line = |clause| Line { clause, because: "", source: "1.0" };
    let parts = actions(m, q, how).into_iter().map(|(nature, w)| {
        let (psi_0, psi_2, letter) = companion(m, nature);
        if nature == Nature::Dead {
            notation::w_fin_G.is(w * (1.0 + k_def), line("EN 1995-1-1, 2.2.3 (2.3)"))
        } else if how.wanted == Wanted::QuasiPermanent {
            letter.is(w * (psi_2 * (1.0 + k_def)), line("EN 1995-1-1, 2.2.3(3)"))
        } else if how.leading == Some(nature) {
            letter.is(w * (1.0 + psi_2 * k_def), line("EN 1995-1-1, 2.2.3 (2.4)"))
        } else {
            letter.is(w * (psi_0 + psi_2 * k_def), line("EN 1995-1-1, 2.2.3 (2.5)"))
        }
    });
    parts.reduce(|sum, part| sum + part)
}
