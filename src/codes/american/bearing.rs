//! Bearing across the grain and at an angle to it. NDS 3.10.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{glued, notation};
use crate::eq;
use crate::equation::Trace;
use crate::units::{IN, Length, Ratio, Stress, quantity, sq};

/// Ratio of the bearing stress to its adjusted design value; no load duration enters across the grain.
pub fn bearing<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Asked { R, l_b, .. } = q;
    eq!(f_c_perp = R / (m.b * l_b); "NDS 3.10.2");
    against(m, q, how, f_c_perp)
}

/// The same under the foot of a post or stud that stands on the member.
pub fn underfoot<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Asked { R, l_b, b_b, .. } = q;
    eq!(f_c_perp = R / (b_b * l_b); "NDS 3.10.2");
    against(m, q, how, f_c_perp)
}

fn against<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, f_c_perp: Stress<T>) -> Option<Ratio<T>> {
    let F_c_perp_adj = across(m, q, how);
    if how.square {
        eq!(ratio = f_c_perp / F_c_perp_adj; "NDS 3.10.2");
        return Some(ratio);
    }
    let &Asked { sin_theta, cos_theta, .. } = q;
    let F_c_star = along(m, q, how);
    eq!(F_theta_adj = F_c_star * F_c_perp_adj / (F_c_star * sq(sin_theta) + F_c_perp_adj * sq(cos_theta)); "NDS 3.10.3");
    eq!(ratio = f_c_perp / F_theta_adj; "NDS 3.10.3");
    Some(ratio)
}

fn across<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Stress<T> {
    let &Member { F_c_perp, C_M_perp, C_t_perp, C_i_perp, K_F_perp, phi_c, .. } = m;
    let l_b = q.l_b;
    let C_b = if let Some(because) = how.plain_bearing {
        eq!(C_b = l_b.one(); "NDS 3.10.4"; because);
        C_b
    } else {
        eq!(C_b = (l_b + quantity::<_, _, T>(l_b, how.added, &IN)) / l_b; "NDS Eq. 3.10-2");
        C_b
    };
    if let Some(layup) = how.layup {
        return glued::bearing(m, how, layup, C_b);
    }
    if how.lrfd {
        eq!(F_c_perp_adj = F_c_perp * K_F_perp * phi_c * C_M_perp * C_t_perp * C_i_perp * C_b; "NDS Table 4.3.1");
        return F_c_perp_adj;
    }
    eq!(F_c_perp_adj = F_c_perp * C_M_perp * C_t_perp * C_i_perp * C_b; "NDS Table 4.3.1");
    F_c_perp_adj
}

fn along<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Stress<T> {
    if how.layup.is_some() {
        return glued::along(m, q, how, "NDS 3.10.1");
    }
    let &Member { F_c, C_M_c, C_t_c, C_F_c, C_i_c, K_F_c, phi_c, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    if how.lrfd {
        eq!(F_c_star = F_c * K_F_c * phi_c * lambda * C_M_c * C_t_c * C_F_c * C_i_c; "NDS 3.10.1");
        return F_c_star;
    }
    eq!(F_c_star = F_c * C_D * C_M_c * C_t_c * C_F_c * C_i_c; "NDS 3.10.1");
    F_c_star
}

/// The bearing length that would do under a force, for a bearing whose length is not given: no bearing-area factor is taken.
pub fn length_for(m: &Member, force: f64) -> Length {
    let allowed = m.F_c_perp * m.K_F_perp * m.phi_c * m.C_M_perp * m.C_t_perp * m.C_i_perp;
    crate::units::Force::new(force) / (allowed * m.b)
}
