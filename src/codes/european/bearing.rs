//! Compression across the grain on a bearing, and at an angle to the grain. EN 1995-1-1, 6.1.5 and 6.2.2.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::notation;
use crate::eq;
use crate::equation::Trace;
use crate::units::{Force, Length, MM, Ratio, Stress, min, quantity, sq};

/// Ratio of the stress on a bearing to the strength.
///
/// Square to the grain the effective contact length counts; at an angle the contact length alone.
pub fn bearing<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let b = m.b;
    let &Asked { F_c90d, l_b, .. } = q;
    if how.square {
        let l_ef = contact(q, how);
        eq!(sigma_c90d = F_c90d / (b * l_ef); "EN 1995-1-1, 6.1.5 (6.4)");
        let (k_c90, f_c90d) = across(m, q, how);
        eq!(ratio = sigma_c90d / (k_c90 * f_c90d); "EN 1995-1-1, 6.1.5 (6.3)");
        return Some(ratio);
    }
    let &Asked { sin_alpha, cos_alpha, .. } = q;
    let F_cad = q.F_cad;
    eq!(sigma_cad = F_cad / (b * l_b); "EN 1995-1-1, 6.2.2");
    let (k_c90, f_c90d) = across(m, q, how);
    let f_c0d = along(m, q);
    eq!(f_cad = f_c0d / (f_c0d / (k_c90 * f_c90d) * sq(sin_alpha) + sq(cos_alpha)); "EN 1995-1-1, 6.2.2 (6.16)");
    eq!(ratio = sigma_cad / f_cad; "EN 1995-1-1, 6.2.2 (6.16)");
    Some(ratio)
}

/// Effective contact length: more on each side, but not beyond the member's end, the contact length, or half-way to the next force on that
/// side.
fn contact<T: Trace>(q: &Asked<T>, how: &How) -> Length<T> {
    let &Asked { l_b, l_1in, l_1out, a, .. } = q;
    let most = quantity(l_b, how.added, &MM);
    let [force_inside, force_outside] = how.forces_beside;
    let l_in = if force_inside {
        eq!(l_in = min(min(most, l_b), l_1in / 2.0); "EN 1995-1-1, 6.1.5(1)"; "towards the span");
        l_in
    } else {
        eq!(l_in = min(most, l_b); "EN 1995-1-1, 6.1.5(1)"; "towards the span, no other force there");
        l_in
    };
    let l_out = if force_outside {
        eq!(l_out = min(min(most, a), min(l_b, l_1out / 2.0)); "EN 1995-1-1, 6.1.5(1)"; "towards the member's nearer end");
        l_out
    } else {
        eq!(l_out = min(min(most, a), l_b); "EN 1995-1-1, 6.1.5(1)"; "towards the member's nearer end, no other force there");
        l_out
    };
    eq!(l_ef = l_b + l_in + l_out; "EN 1995-1-1, 6.1.5(1)");
    l_ef
}

/// The factor of the bearing and the design strength across the grain, and both as a line of their own.
fn across<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> (Ratio<T>, Stress<T>) {
    let &Member { f_c90k, gamma_M, k_sys, .. } = m;
    let k_mod = q.k_mod;
    eq!(f_c90d = k_mod * k_sys * f_c90k / gamma_M; "EN 1995-1-1, (2.14)");
    let k_c90 = match how.plain_bearing {
        Some(because) => {
            eq!(k_c90 = m.h.one(); "EN 1995-1-1, 6.1.5(2)"; because);
            k_c90
        }
        None => m.k_c90,
    };
    eq!(f_c90d_held = k_c90 * f_c90d; "EN 1995-1-1, 6.1.5 (6.3)");
    // The capacity is a line of its own on paper; what uses it spells it out.
    let _ = f_c90d_held;
    (k_c90, f_c90d)
}

/// Design strength along the grain.
fn along<T: Trace>(m: &Member<T>, q: &Asked<T>) -> Stress<T> {
    let &Member { f_c0k, gamma_M, k_sys, .. } = m;
    let k_mod = q.k_mod;
    eq!(f_c0d = k_mod * k_sys * f_c0k / gamma_M; "EN 1995-1-1, (2.14)");
    f_c0d
}

/// The bearing length that would do under a force with this k_mod, for a bearing whose length is not given: nothing is added to it and
/// no factor taken.
pub fn length_for(m: &Member, k_mod: f64, force: f64) -> Length {
    let strength = Ratio::new(k_mod) * m.k_sys * m.f_c90k / m.gamma_M;
    Force::new(force) / (strength * m.b)
}
