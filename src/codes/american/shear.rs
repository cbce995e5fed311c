//! Shear parallel to grain. NDS 3.4.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{glued, notation, statics};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Ratio, Stress};

/// Ratio of actual to adjusted shear stress, away from notches.
pub fn shear<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Member { b, d, .. } = m;
    let V = statics::shear(m, q, how);
    eq!(f_v = 3.0 * V / (2.0 * b * d); "NDS Eq. 3.4-2");
    let F_v_adj = adjusted(m, q, how);
    eq!(ratio = f_v / F_v_adj; "NDS 3.4.1");
    Some(ratio)
}

/// The same across the depth of a member that leans; the standard adds nothing of the other axis to it.
pub fn across<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Member { b, d, F_vy, C_M_v, C_t_v, C_i_v, K_F_v, phi_v, .. } = m;
    let &Asked { C_D, lambda, V_y, .. } = q;
    eq!(f_vy = 3.0 * V_y / (2.0 * b * d); "NDS Eq. 3.4-2");
    let F_vy_adj = if how.layup.is_some() {
        glued::shear_across(m, q, how)
    } else if how.lrfd {
        eq!(F_vy_adj = F_vy * K_F_v * phi_v * lambda * C_M_v * C_t_v * C_i_v; "NDS Table 4.3.1");
        F_vy_adj
    } else {
        eq!(F_vy_adj = F_vy * C_D * C_M_v * C_t_v * C_i_v; "NDS Table 4.3.1");
        F_vy_adj
    };
    eq!(ratio = f_vy / F_vy_adj; "NDS 3.4.1");
    Some(ratio)
}

/// Adjusted shear design value.
pub fn adjusted<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Stress<T> {
    if let Some(layup) = how.layup {
        return glued::shear(m, q, how, layup);
    }
    let &Member { F_v, C_M_v, C_t_v, C_i_v, K_F_v, phi_v, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    if how.lrfd {
        eq!(F_v_adj = F_v * K_F_v * phi_v * lambda * C_M_v * C_t_v * C_i_v; "NDS Table 4.3.1");
        return F_v_adj;
    }
    eq!(F_v_adj = F_v * C_D * C_M_v * C_t_v * C_i_v; "NDS Table 4.3.1");
    F_v_adj
}
