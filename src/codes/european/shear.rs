//! Shear along the grain, with cracks. EN 1995-1-1, 6.1.7.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{notation, statics};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Length, Ratio, Stress};

/// Ratio of the shear stress to the shear strength, away from notches.
pub fn shear<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let h = m.h;
    let V_d = statics::shear(q, how);
    let b_ef = effective_breadth(m);
    eq!(tau_d = 3.0 * V_d / (2.0 * b_ef * h); "EN 1995-1-1, 6.1.7");
    let f_vd = strength(m, q);
    eq!(ratio = tau_d / f_vd; "EN 1995-1-1, 6.1.7 (6.13)");
    Some(ratio)
}

/// The breadth that is left between cracks.
pub fn effective_breadth<T: Trace>(m: &Member<T>) -> Length<T> {
    let &Member { b, k_cr, .. } = m;
    eq!(b_ef = k_cr * b; "EN 1995-1-1, 6.1.7 (6.13a)");
    b_ef
}

/// Design strength in shear.
pub fn strength<T: Trace>(m: &Member<T>, q: &Asked<T>) -> Stress<T> {
    let &Member { f_vk, gamma_M, k_sys, .. } = m;
    let k_mod = q.k_mod;
    eq!(f_vd = k_mod * k_sys * f_vk / gamma_M; "EN 1995-1-1, (2.14)");
    f_vd
}
