//! Bending about both axes, and shear across the depth. EN 1995-1-1, 6.1.6 and 6.1.7.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member, Size};
use super::{bending, notation, shear};
use crate::eq;
use crate::equation::{OfDimension, Trace};
use crate::units::{Length, MM, Ratio, max, min, number, pow, quantity};

/// The larger of (6.11) and (6.12). EN 1995-1-1 has no rule for lateral buckling together with bending about the weak axis: k_crit of
/// 6.3.3 stands on the strength about the strong axis in both, which is common practice.
pub fn biaxial_bending<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Member { W_y, W_z, f_mk, gamma_M, k_sys, k_m, .. } = m;
    let &Asked { k_mod, M_yd, M_zd, .. } = q;
    eq!(sigma_myd = M_yd / W_y; "EN 1995-1-1, 6.1.6");
    eq!(sigma_mzd = M_zd / W_z; "EN 1995-1-1, 6.1.6");
    let k_hy = strong(m, how);
    let k_hz = weak(m, how);
    eq!(f_myd = k_mod * k_sys * k_hy * f_mk / gamma_M; "EN 1995-1-1, (2.14)");
    eq!(f_mzd = k_mod * k_sys * k_hz * f_mk / gamma_M; "EN 1995-1-1, (2.14)");
    let k_crit = bending::buckling(m, q, how);
    let u = if k_crit.at_least(1.0) {
        eq!(u_1 = sigma_myd / f_myd + k_m * sigma_mzd / f_mzd; "EN 1995-1-1, 6.1.6 (6.11)");
        eq!(u_2 = k_m * sigma_myd / f_myd + sigma_mzd / f_mzd; "EN 1995-1-1, 6.1.6 (6.12)");
        eq!(u = max(u_1, u_2); "EN 1995-1-1, 6.1.6");
        u
    } else {
        eq!(u_1 = sigma_myd / (k_crit * f_myd) + k_m * sigma_mzd / f_mzd; "EN 1995-1-1, 6.1.6 (6.11)"; "k_crit of 6.3.3: common practice");
        eq!(u_2 = k_m * sigma_myd / (k_crit * f_myd) + sigma_mzd / f_mzd; "EN 1995-1-1, 6.1.6 (6.12)"; "k_crit of 6.3.3: common practice");
        eq!(u = max(u_1, u_2); "EN 1995-1-1, 6.1.6");
        u
    };
    eq!(u_most = u.one(); "EN 1995-1-1, 6.1.6");
    eq!(ratio = u / u_most; "EN 1995-1-1, 6.1.6");
    Some(ratio)
}

fn strong<T: Trace>(m: &Member<T>, how: &How) -> Ratio<T> {
    match how.size {
        Size::One(clause, because) => {
            eq!(k_hy = m.h.one(); clause; because);
            k_hy
        }
        Size::Part(part, clause) => {
            eq!(k_hy = number(m.h, part); clause; "from the depth that the own value holds for");
            k_hy
        }
        Size::Power { reference, exponent, most, clause } => {
            eq!(k_hy = min(pow(quantity::<<Length as OfDimension>::D, _, T>(m.h, reference, &MM) / m.h, exponent), number(m.h, most)); clause);
            k_hy
        }
    }
}

fn weak<T: Trace>(m: &Member<T>, how: &How) -> Ratio<T> {
    let b_1 = m.b_1;
    match how.size_weak {
        Size::One(clause, because) => {
            eq!(k_hz = b_1.one(); clause; because);
            k_hz
        }
        Size::Part(part, clause) => {
            eq!(k_hz = number(b_1, part); clause; "from the depth that the own value holds for");
            k_hz
        }
        Size::Power { reference, exponent, most, clause } => {
            eq!(k_hz = min(pow(quantity::<<Length as OfDimension>::D, _, T>(b_1, reference, &MM) / b_1, exponent), number(b_1, most)); clause);
            k_hz
        }
    }
}

/// Ratio of the shear stress across the depth to the shear strength.
pub fn across<T: Trace>(m: &Member<T>, q: &Asked<T>, _: &How) -> Option<Ratio<T>> {
    let &Member { b, h, k_cr, .. } = m;
    let V_zd = q.V_zd;
    eq!(h_cr = k_cr * h; "EN 1995-1-1, 6.1.7 (6.13a)");
    eq!(tau_zd = 3.0 * V_zd / (2.0 * b * h_cr); "EN 1995-1-1, 6.1.7");
    let f_vd = shear::strength(m, q);
    eq!(ratio = tau_zd / f_vd; "EN 1995-1-1, 6.1.7 (6.13)");
    Some(ratio)
}
