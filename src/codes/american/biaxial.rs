//! Bending about both axes. NDS 3.9.2 with no force along the member.

#![allow(non_snake_case)]

use super::combined::{NEAR, PLENTY};
use super::member::{Asked, How, Member};
use super::{bending, glued, notation};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Ratio, Stress, number, sq};

/// Interaction of the two bending stresses. Axis 1 is the strong one, bent along the depth; axis 2 the weak one.
///
/// The second term grows without bound as f_b1 nears the critical stress of lateral buckling, and has no value at it: see
/// [`super::combined::PLENTY`]. More load never gives a smaller ratio.
pub fn biaxial_bending<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Asked { M_x, M_y, .. } = q;
    eq!(f_b1 = M_x / m.S; "NDS 3.3.2");
    eq!(f_b2 = M_y / m.S_y; "NDS 3.3.2");
    let (F_b_adj, F_bE) = bending::adjusted(m, q, how);
    let F_b2_adj = across(m, q, how);
    let sum_b = match F_bE {
        None => {
            eq!(sum_b = f_b1 / F_b_adj + f_b2 / F_b2_adj; "NDS Eq. 3.9-3"; "compression edge held: nothing is magnified");
            sum_b
        }
        Some(F_bE) if f_b1.at_least(F_bE) => {
            eq!(t_2 = PLENTY * sq(f_b1 / F_bE); "NDS Eq. 3.9-3"; "f_b1 is not below F_bE, as 3.9.2 asks: no value, the member fails; ten times the part stands for it");
            eq!(sum_b = f_b1 / F_b_adj + t_2; "NDS Eq. 3.9-3");
            sum_b
        }
        Some(F_bE) if !(f_b2 / (F_b2_adj * (1.0 - sq(f_b1 / F_bE)))).at_most(PLENTY) => {
            eq!(t_2 = number(f_b1 / F_bE, PLENTY); "NDS Eq. 3.9-3"; NEAR);
            eq!(sum_b = f_b1 / F_b_adj + t_2; "NDS Eq. 3.9-3");
            sum_b
        }
        Some(F_bE) => {
            eq!(sum_b = f_b1 / F_b_adj + f_b2 / (F_b2_adj * (1.0 - sq(f_b1 / F_bE))); "NDS Eq. 3.9-3");
            sum_b
        }
    };
    eq!(sum_most = f_b1.one(); "NDS Eq. 3.9-3");
    eq!(ratio = sum_b / sum_most; "NDS 3.9.2");
    Some(ratio)
}

/// Adjusted bending design value about the weak axis: no stability factor, for the depth is not more than the breadth (3.3.3.1).
pub fn across<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Stress<T> {
    if let Some(layup) = how.layup {
        return glued::across(m, q, how, layup, m.C_fu_y);
    }
    let &Member { F_by, C_M_b, C_t_b, C_F_y, C_fu_y, C_i_b, C_r_y, K_F_b, phi_b, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    if how.lrfd {
        eq!(F_b2_adj = F_by * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_F_y * C_fu_y * C_i_b * C_r_y; "NDS Table 4.3.1");
        return F_b2_adj;
    }
    eq!(F_b2_adj = F_by * C_D * C_M_b * C_t_b * C_F_y * C_fu_y * C_i_b * C_r_y; "NDS Table 4.3.1");
    F_b2_adj
}
