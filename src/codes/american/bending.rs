//! Bending about the strong axis, with beam stability. NDS 3.3.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{glued, notation, statics};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Ratio, Stress, number, sq, sqrt};

/// Ratio of actual to adjusted bending stress.
///
/// The stability factor is always a step of its own: where the compression edge is held, it is 1 and says so.
pub fn bending<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let M = statics::moment(q, how);
    eq!(f_b = M / m.S; "NDS 3.3.2");
    let (F_b_adj, _) = adjusted(m, q, how);
    eq!(ratio = f_b / F_b_adj; "NDS 3.3.1");
    Some(ratio)
}

/// Adjusted bending design value about the strong axis; with it the critical stress of lateral buckling, where that was worked out.
pub fn adjusted<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> (Stress<T>, Option<Stress<T>>) {
    if let Some(layup) = how.layup {
        return glued::bending(m, q, how, layup);
    }
    let &Member { F_b, C_M_b, C_t_b, C_F_b, C_fu_b, C_i_b, C_r, K_F_b, phi_b, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    if let Some(because) = held(m, how) {
        eq!(C_L = m.d.one(); because.0; because.1);
        if how.lrfd {
            eq!(F_b_adj = F_b * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_L * C_F_b * C_fu_b * C_i_b * C_r; "NDS Table 4.3.1");
            (F_b_adj, None)
        } else {
            eq!(F_b_adj = F_b * C_D * C_M_b * C_t_b * C_L * C_F_b * C_fu_b * C_i_b * C_r; "NDS Table 4.3.1");
            (F_b_adj, None)
        }
    } else {
        let F_b_star = if how.lrfd {
            eq!(F_b_star = F_b * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_F_b * C_i_b * C_r; "NDS 3.3.3.8");
            F_b_star
        } else {
            eq!(F_b_star = F_b * C_D * C_M_b * C_t_b * C_F_b * C_i_b * C_r; "NDS 3.3.3.8");
            F_b_star
        };
        let (C_L, F_bE) = stability(m, q, how, F_b_star);
        eq!(F_b_adj = F_b_star * C_L * C_fu_b; "NDS Table 4.3.1");
        (F_b_adj, Some(F_bE))
    }
}

/// Clause and reason why the stability factor is 1 without a calculation; none: it has to be worked out.
pub fn held<T: Trace>(m: &Member<T>, how: &How) -> Option<(&'static str, &'static str)> {
    if m.d.at_most(m.b) {
        return Some(("NDS 3.3.3.1", "depth not more than breadth"));
    }
    how.held.map(|because| ("NDS 3.3.3.3", because))
}

/// Beam stability factor, always between 0 and 1, and the critical stress that it comes from. NDS 3.3.3.
///
/// The shorthands r and α cut the standard's equation 3.3-6 to one line each; they are ours.
pub fn stability<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, F_b_star: Stress<T>) -> (Ratio<T>, Stress<T>) {
    let R_B = slenderness_ratio(m, q, how);
    let E_min_adj = stiffness(m, how);
    eq!(F_bE = 1.20 * E_min_adj / sq(R_B); "NDS 3.3.3.8");
    eq!(r = F_bE / F_b_star; "NDS 3.3.3.8");
    eq!(alpha = (1.0 + r) / 1.9; "NDS Eq. 3.3-6");
    eq!(C_L = alpha - sqrt(sq(alpha) - r / 0.95); "NDS Eq. 3.3-6");
    (C_L, F_bE)
}

/// Adjusted modulus for stability.
pub fn stiffness<T: Trace>(m: &Member<T>, how: &How) -> Stress<T> {
    if let Some(layup) = how.layup {
        return glued::stability_modulus(m, how, layup);
    }
    let &Member { E_min, C_M_E, C_t_E, C_i_E, C_fu_E, K_F_E, phi_E, .. } = m;
    if how.lrfd {
        eq!(E_min_adj = E_min * K_F_E * phi_E * C_M_E * C_t_E * C_fu_E * C_i_E; "NDS Table 4.3.1");
        return E_min_adj;
    }
    eq!(E_min_adj = E_min * C_M_E * C_t_E * C_fu_E * C_i_E; "NDS Table 4.3.1");
    E_min_adj
}

/// Slenderness ratio of a beam. NDS 3.3.3.6, effective length by Table 3.3.3.
pub fn slenderness_ratio<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Ratio<T> {
    let &Member { b, d, .. } = m;
    let l_u = q.l_u;
    let (unbraced, depths) = how.effective;
    let l_e = if depths == 0.0 {
        eq!(l_e = number(l_u, unbraced) * l_u; "NDS Table 3.3.3");
        l_e
    } else {
        eq!(l_e = number(l_u, unbraced) * l_u + number(l_u, depths) * d; "NDS Table 3.3.3");
        l_e
    };
    eq!(R_B = sqrt(l_e * d / sq(b)); "NDS Eq. 3.3-5");
    R_B
}

/// Slenderness ratio against its limit; does not apply where the compression edge is held throughout. NDS 3.3.3.7.
pub fn slenderness<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    if held(m, how).is_some() {
        return None;
    }
    let R_B = slenderness_ratio(m, q, how);
    eq!(ratio = R_B / q.R_B_most; "NDS 3.3.3.7");
    Some(ratio)
}
