//! Notches at the ends of bending members. NDS 3.4.3.2 (strength) and 4.4.3 (how deep).

#![allow(non_snake_case)]

use super::glued::Layup;
use super::member::{Asked, How, Member};
use super::{notation, shear};
use crate::eq;
use crate::equation::Trace;
use crate::units::{IN, Ratio, min, quantity, sq};

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
///
/// Of glued laminated timber the depth that 5.4.5 allows, by the edge.
pub fn depth<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Asked { depth_n, .. } = q;
    if let Some(Layup::Laminated { .. }) = how.layup {
        let depth_most = if !how.tension_notch {
            eq!(depth_most = 2.0 * m.d / 5.0; "NDS 5.4.5.2");
            depth_most
        } else {
            eq!(depth_most = min(m.d / 10.0, quantity::<_, _, T>(depth_n, 3.0, &IN)); "NDS 5.4.5.1");
            depth_most
        };
        eq!(ratio = depth_n / depth_most; "NDS 5.4.5");
        return Some(ratio);
    }
    eq!(depth_most = m.d / 4.0; "NDS 4.4.3");
    eq!(ratio = depth_n / depth_most; "NDS 4.4.3");
    Some(ratio)
}
