//! Notches in bending members. NDS 3.4.3.2 and 3.1.2 (strength), 4.4.3 (how deep).

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{bending, notation, shear};
use crate::eq;
use crate::equation::Trace;
use crate::units::{IN, Ratio, min, number, quantity, sq};

/// Ratio of the shear at the support line, or the largest along a notch between the ends, to the shear strength at the notch; nothing is left
/// out of the shear.
pub fn notch<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Member { b, d, .. } = m;
    let &Asked { V, d_n, e_n, .. } = q;
    let F_v_adj = shear::adjusted(m, q, how);
    let V_r_adj = if how.tension_notch {
        eq!(V_r_adj = 2.0 * F_v_adj * b * d_n / 3.0 * sq(d_n / d); "NDS 3.4.3.2(a)");
        V_r_adj
    } else if how.inner_notch {
        eq!(V_r_adj = 2.0 * F_v_adj * b * d_n / 3.0; "NDS 3.4.3.2"; "compression edge, between the ends: what is left of the depth");
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

/// Ratio of bending stress on what is left of the section along a notch that reaches past its bearing; no benefit is taken for tapered
/// corners.
pub fn net_section<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    if !how.net_section {
        return None;
    }
    let &Asked { M, d_n, .. } = q;
    eq!(f_b = 6.0 * M / (m.b * sq(d_n)); "NDS 3.1.2"; "on the net section");
    let (F_b_adj, _) = bending::adjusted(m, q, how);
    eq!(ratio = f_b / F_b_adj; "NDS 3.3.1");
    Some(ratio)
}

/// Ratio of the depth of a notch to its limit, d over a number by the place of the notch; of glued laminated timber by the edge, in the
/// tension edge with a greatest depth as well.
pub fn depth<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let (&Asked { depth_n, .. }, limit) = (q, how.notch_limit);
    let d = m.d;
    let depth_most = if let Some(most) = limit.most {
        eq!(depth_most = min(d / number(d, limit.over), quantity::<_, _, T>(depth_n, most, &IN)); limit.clause);
        depth_most
    } else if how.inner_notch {
        eq!(depth_most = d / number(d, limit.over); limit.clause; "between the ends");
        depth_most
    } else {
        eq!(depth_most = d / number(d, limit.over); limit.clause);
        depth_most
    };
    eq!(ratio = depth_n / depth_most; limit.clause);
    Some(ratio)
}
