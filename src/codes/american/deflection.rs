//! Deflection under the building code's limits. NDS 3.5.

#![allow(non_snake_case)]

use super::glued::{self, Layup};
use super::member::{Asked, How, Member};
use super::{notation, statics};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Ratio, Stress, sq, sqrt};

/// Ratio of a deflection to what it may be.
pub fn deflection<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let E_adj = stiffness(m, how.layup);
    let delta = if how.both_ways {
        let &Asked { delta_x, delta_y, .. } = q;
        stiffness_across(m, how.layup);
        eq!(delta = sqrt(sq(delta_x) + sq(delta_y)); "statics"; "both ways together");
        delta
    } else {
        statics::deflection(m, q, how, E_adj)
    };
    let L = q.L;
    let delta_most = match how.over {
        Some(over) if how.overhang => {
            eq!(delta_most = 2.0 * L / over; how.limits; "twice the length of an overhang (IBC Table 1604.3, note i)");
            delta_most
        }
        Some(over) => {
            eq!(delta_most = L / over; how.limits);
            delta_most
        }
        None => q.delta_most,
    };
    eq!(ratio = delta / delta_most; how.limits);
    Some(ratio)
}

/// Adjusted modulus of elasticity.
pub fn stiffness<T: Trace>(m: &Member<T>, layup: Option<Layup>) -> Stress<T> {
    if let Some(layup) = layup {
        return glued::modulus(m, layup);
    }
    let &Member { E, C_M_E, C_t_E, C_fu_E, C_i_E, .. } = m;
    eq!(E_adj = E * C_M_E * C_t_E * C_fu_E * C_i_E; "NDS Table 4.3.1");
    E_adj
}

/// The same about the weak axis.
pub fn stiffness_across<T: Trace>(m: &Member<T>, layup: Option<Layup>) -> Stress<T> {
    if let Some(layup) = layup {
        return glued::modulus_across(m, layup);
    }
    let &Member { E_y, C_M_E, C_t_E, C_fu_Ey, C_i_E, .. } = m;
    eq!(E_y_adj = E_y * C_M_E * C_t_E * C_fu_Ey * C_i_E; "NDS Table 4.3.1");
    E_y_adj
}
