//! Notches at the ends of bending members. NDS 3.4.3.2 (strength) and 4.4.3 (how deep).

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{notation, shear};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Ratio, sq};

/// Ratio of the shear at the support line to the shear strength at the notch; nothing is left out of the shear.
pub fn notch<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Member { b, d, .. } = m;
    let &Asked { V, d_n, e_n, .. } = q;
    let F_v_adj = shear::adjusted(m, q, how);
    let V_r_adj = if how.tension_notch {
        eq!(V_r_adj = 2.0 * F_v_adj * b * d_n / 3.0 * sq(d_n / d); "NDS 3.4.3.2(a)");
        V_r_adj
    } else if e_n.at_most(d_n) {
        eq!(V_r_adj = 2.0 * F_v_adj * b / 3.0 * (d - (d - d_n) / d_n * e_n); "NDS 3.4.3.2(e)");
        V_r_adj
    } else {
        eq!(V_r_adj = 2.0 * F_v_adj * b * d_n / 3.0; "NDS 3.4.3.2(e)"; "the notch runs on farther than the depth left over it");
        V_r_adj
    };
    eq!(ratio = V / V_r_adj; "NDS 3.4.3.2");
    Some(ratio)
}

/// Ratio of the depth of an end notch to the quarter of the depth that it may have.
pub fn depth<T: Trace>(m: &Member<T>, q: &Asked<T>, _: &How) -> Option<Ratio<T>> {
    let depth_n = q.depth_n;
    eq!(depth_most = m.d / 4.0; "NDS 4.4.3");
    eq!(ratio = depth_n / depth_most; "NDS 4.4.3");
    Some(ratio)
}
