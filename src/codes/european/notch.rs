//! Beams notched at a support, EN 1995-1-1, 6.5.2; bending of what is left of the section, 6.1.6.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{bending, notation, shear};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Ratio, min, number, sq, sqrt};

/// Ratio of the shear stress in what is left of the depth to the reduced shear strength; nothing is left out of the shear.
///
/// The shorthand k₀ cuts the standard's (6.62) to two lines; it is ours. The notch is square: i = 0, so that 1.1 i^1.5 falls out.
pub fn notch<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    if !how.notched_support {
        return None;
    }
    let &Member { h, h_number, k_n, .. } = m;
    let &Asked { V_d, h_ef, x, .. } = q;
    let b_ef = shear::effective_breadth(m);
    eq!(tau_d = 3.0 * V_d / (2.0 * b_ef * h_ef); "EN 1995-1-1, 6.5.2 (6.60)");
    let f_vd = shear::strength(m, q);
    let k_v = if how.same_side {
        eq!(alpha = h_ef / h; "EN 1995-1-1, 6.5.2");
        eq!(k_notch = sqrt(alpha * (1.0 - alpha)) + 0.8 * x / h * sqrt(1.0 / alpha - sq(alpha)); "EN 1995-1-1, 6.5.2 (6.62)");
        eq!(k_v = min(k_n / (sqrt(h_number) * k_notch), number(h, 1.0)); "EN 1995-1-1, 6.5.2 (6.62)"; "square notch, i = 0");
        k_v
    } else {
        eq!(k_v = h.one(); "EN 1995-1-1, 6.5.2 (6.61)"; "notch on the side opposite to the support");
        k_v
    };
    eq!(f_vd_notch = k_v * f_vd; "EN 1995-1-1, 6.5.2 (6.60)");
    // The capacity is a line of its own on paper; the ratio spells it out.
    let _ = f_vd_notch;
    eq!(ratio = tau_d / (k_v * f_vd); "EN 1995-1-1, 6.5.2 (6.60)");
    Some(ratio)
}

/// Ratio of the bending stress on what is left of the depth, along a notch that reaches past its bearing. The size factor is that of the
/// whole depth, which is the smaller.
pub fn net_section<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    if !how.net_section {
        return None;
    }
    let &Asked { M_yd, h_ef, .. } = q;
    eq!(sigma_md = 6.0 * M_yd / (m.b * sq(h_ef)); "EN 1995-1-1, 6.1.6"; "on the net section");
    bending::against(m, q, how, sigma_md)
}
