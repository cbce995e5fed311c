//! Compression along the grain, with column stability. NDS 3.6, 3.7; built-up columns 15.3.

#![allow(non_snake_case)]

use super::glued::{self, Layup};
use super::loaded::{Loaded, Manner, Sense};
use super::{bending, notation, tension};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Ratio, Stress, min, sq, sqrt};

/// A column under its force: the stress, what it may be, and the critical stress of each axis that is not held throughout.
#[derive(Clone, Copy)]
pub struct Column<T: Copy> {
    /// Compression stress.
    pub f_c: Stress<T>,
    /// Adjusted design value.
    pub F_c_adj: Stress<T>,
    /// Critical stress about the strong axis.
    pub F_cE1: Option<Stress<T>>,
    /// Critical stress about the weak axis.
    pub F_cE2: Option<Stress<T>>,
}

/// Ratio of compression along the grain to what stability leaves of it.
pub fn compression<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Press {
        return None;
    }
    let Column { f_c, F_c_adj, .. } = column(l, o);
    eq!(ratio = f_c / F_c_adj; "NDS 3.6.3");
    Some(ratio)
}

/// Stress along the grain; on the net section where holes are given, since where they are along the member is not. NDS 3.6.3.
fn stress<T: Trace>(l: &Loaded<T>, o: &Manner) -> Stress<T> {
    let A = tension::section(l, o);
    eq!(f_c = l.x.P / A; "NDS 3.6.3");
    f_c
}

/// Stress, critical stresses and adjusted design value.
pub fn column<T: Trace>(l: &Loaded<T>, o: &Manner) -> Column<T> {
    let f_c = stress(l, o);
    let F_c_star = crushing(l, o);
    let (F_cE1, F_cE2) = critical(l, o);
    let C_P = stability(l, o, F_c_star, F_cE1, F_cE2);
    eq!(F_c_adj = F_c_star * C_P; o.how.layup.map_or("NDS Table 4.3.1", Layup::table));
    Column { f_c, F_c_adj, F_cE1, F_cE2 }
}

/// Stress and critical stresses, for a condition that does not ask for the design value: it is the stress itself then.
pub fn pressed<T: Trace>(l: &Loaded<T>, o: &Manner) -> Column<T> {
    let f_c = stress(l, o);
    let (F_cE1, F_cE2) = critical(l, o);
    Column { f_c, F_c_adj: f_c, F_cE1, F_cE2 }
}

/// F_c with all factors but C_P. NDS 3.7.1.5.
pub fn crushing<T: Trace>(l: &Loaded<T>, o: &Manner) -> Stress<T> {
    let (m, q) = (&l.m, &l.q);
    if o.how.layup.is_some() {
        return glued::along(m, q, &o.how, "NDS 3.7.1.5");
    }
    if o.how.lrfd {
        eq!(F_c_star = m.F_c * m.K_F_c * m.phi_c * q.lambda * m.C_M_c * m.C_t_c * m.C_F_c * m.C_i_c; "NDS 3.7.1.5");
        return F_c_star;
    }
    eq!(F_c_star = m.F_c * q.C_D * m.C_M_c * m.C_t_c * m.C_F_c * m.C_i_c; "NDS 3.7.1.5");
    F_c_star
}

/// Critical buckling stress of each axis that is not held throughout.
fn critical<T: Trace>(l: &Loaded<T>, o: &Manner) -> (Option<Stress<T>>, Option<Stress<T>>) {
    if o.held_1 && o.held_2 {
        return (None, None);
    }
    let x = &l.x;
    if matches!(o.how.layup, Some(Layup::Laminated { .. })) {
        return critical_of_laminated(l, o);
    }
    let E_min_adj = bending::stiffness(&l.m, &o.how);
    let F_cE1 = (!o.held_1).then(|| {
        eq!(l_e1 = x.K_e1 * x.l_1; "NDS 3.7.1.2");
        eq!(F_cE1 = 0.822 * E_min_adj / sq(l_e1 / x.d_1); "NDS 3.7.1.5");
        F_cE1
    });
    let F_cE2 = (!o.held_2).then(|| {
        eq!(l_e2 = x.K_e2 * x.l_2; "NDS 3.7.1.2");
        eq!(F_cE2 = 0.822 * E_min_adj / sq(l_e2 / x.d_2); "NDS 3.7.1.5");
        F_cE2
    });
    (F_cE1, F_cE2)
}

/// The same of laminated timber, whose modulus is not the same about both axes.
fn critical_of_laminated<T: Trace>(l: &Loaded<T>, o: &Manner) -> (Option<Stress<T>>, Option<Stress<T>>) {
    let x = &l.x;
    let F_cE1 = (!o.held_1).then(|| {
        let E_x_min_adj = glued::buckling_modulus(&l.m, &o.how);
        eq!(l_e1 = x.K_e1 * x.l_1; "NDS 3.7.1.2");
        eq!(F_cE1 = 0.822 * E_x_min_adj / sq(l_e1 / x.d_1); "NDS 3.7.1.5");
        F_cE1
    });
    let F_cE2 = (!o.held_2).then(|| {
        let E_y_min_adj = bending::stiffness(&l.m, &o.how);
        eq!(l_e2 = x.K_e2 * x.l_2; "NDS 3.7.1.2");
        eq!(F_cE2 = 0.822 * E_y_min_adj / sq(l_e2 / x.d_2); "NDS 3.7.1.5");
        F_cE2
    });
    (F_cE1, F_cE2)
}

/// Column stability factor, between 0 and 1: that of the axis that gives less.
///
/// The shorthands r and α cut the standard's equation to one line each; they are ours.
fn stability<T: Trace>(l: &Loaded<T>, o: &Manner, F_c_star: Stress<T>, F_cE1: Option<Stress<T>>, F_cE2: Option<Stress<T>>) -> Ratio<T> {
    let c = l.x.c;
    let F_cE = match (F_cE1, F_cE2) {
        (None, None) => {
            eq!(C_P = c.one(); "NDS 3.7.1.1"; "held throughout about both axes");
            return C_P;
        }
        (F_cE1, Some(F_cE2)) if o.built_up => return built_up(l, F_c_star, F_cE1, F_cE2),
        (Some(F_cE1), Some(F_cE2)) => {
            let laminated = matches!(o.how.layup, Some(Layup::Laminated { .. }));
            let because = if laminated { "the axis that buckles first" } else { "the larger slenderness ratio governs" };
            eq!(F_cE = min(F_cE1, F_cE2); "NDS 3.7.1.3"; because);
            F_cE
        }
        (Some(one), None) | (None, Some(one)) => {
            eq!(F_cE = one; "NDS 3.7.1.3"; "held throughout about the other axis");
            F_cE
        }
    };
    eq!(r_c = F_cE / F_c_star; "NDS 3.7.1.5");
    eq!(alpha_c = (1.0 + r_c) / (2.0 * c); "NDS Eq. 3.7-1");
    eq!(C_P = alpha_c - sqrt(sq(alpha_c) - r_c / c); "NDS Eq. 3.7-1");
    C_P
}

/// The factor of a built-up column: K_f counts about the weak axis, where the plies may slide on each other. NDS 15.3.2.
fn built_up<T: Trace>(l: &Loaded<T>, F_c_star: Stress<T>, F_cE1: Option<Stress<T>>, F_cE2: Stress<T>) -> Ratio<T> {
    let (c, K_f) = (l.x.c, l.x.K_f);
    eq!(r_2 = F_cE2 / F_c_star; "NDS 15.3.2.4");
    eq!(alpha_2 = (1.0 + r_2) / (2.0 * c); "NDS Eq. 15.3-1");
    eq!(C_P2 = K_f * (alpha_2 - sqrt(sq(alpha_2) - r_2 / c)); "NDS Eq. 15.3-1");
    let Some(F_cE1) = F_cE1 else {
        eq!(C_P = C_P2; "NDS 15.3.2.4"; "held throughout about the strong axis");
        return C_P;
    };
    eq!(r_1 = F_cE1 / F_c_star; "NDS 15.3.2.4");
    eq!(alpha_1 = (1.0 + r_1) / (2.0 * c); "NDS Eq. 15.3-1");
    eq!(C_P1 = alpha_1 - sqrt(sq(alpha_1) - r_1 / c); "NDS Eq. 15.3-1"; "K_f 1.0 about the strong axis");
    eq!(C_P = min(C_P1, C_P2); "NDS 15.3.2.4");
    C_P
}

/// The larger slenderness ratio against its limit; does not apply where both axes are held throughout. NDS 3.7.1.4.
pub fn slenderness<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    let x = &l.x;
    if o.sense != Sense::Press || (o.held_1 && o.held_2) {
        return None;
    }
    let slender = if o.held_2 || (!o.held_1 && (x.K_e1 * x.l_1 / x.d_1).at_least(x.K_e2 * x.l_2 / x.d_2)) {
        eq!(l_e1 = x.K_e1 * x.l_1; "NDS 3.7.1.2");
        eq!(slender = l_e1 / x.d_1; "NDS 3.7.1.3"; "about the strong axis");
        slender
    } else {
        eq!(l_e2 = x.K_e2 * x.l_2; "NDS 3.7.1.2");
        eq!(slender = l_e2 / x.d_2; "NDS 3.7.1.3"; "about the weak axis");
        slender
    };
    eq!(ratio = slender / x.slender_most; "NDS 3.7.1.4");
    Some(ratio)
}

/// Bearing of the end grain at the foot; stability does not enter. NDS 3.10.1.
pub fn end_grain<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    let P = l.x.P;
    eq!(f_c = P / l.m.A; "NDS 3.10.1.1");
    let F_c_star = crushing(l, o);
    eq!(ratio = f_c / F_c_star; "NDS 3.10.1.1");
    Some(ratio)
}

/// Bearing of the plate under the foot, across its grain; none without a plate. NDS 3.10.2.
pub fn plate<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if !o.plate {
        return None;
    }
    let (m, x) = (&l.m, &l.x);
    eq!(f_c_perp = x.P / m.A; "NDS 3.10.2");
    eq!(C_b = m.d.one(); "NDS 3.10.4"; "the plate may end beside the foot");
    let F_c_perp_adj = if o.how.lrfd {
        eq!(F_c_perp_adj = x.F_c_perp_plate * m.K_F_perp * m.phi_c * x.C_M_plate * m.C_t_perp * C_b; "NDS Table 4.3.1");
        F_c_perp_adj
    } else {
        eq!(F_c_perp_adj = x.F_c_perp_plate * x.C_M_plate * m.C_t_perp * C_b; "NDS Table 4.3.1");
        F_c_perp_adj
    };
    eq!(ratio = f_c_perp / F_c_perp_adj; "NDS 3.10.2");
    Some(ratio)
}
