//! Adjusted values of glued laminated timber (NDS 5.3) and of structural composite lumber (NDS 8.3), with the volume factor.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::{bending, notation};
use crate::eq;
use crate::equation::Trace;
use crate::units::{FT, IN, Length, Ratio, Stress, pow, quantity};

/// What of a glued member the checks have to know beside its quantities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Layup {
    /// Glued laminated timber.
    Laminated {
        /// Laid flat: its loads run along the wide faces of the laminations.
        flat: bool,
        /// The moment stretches the top.
        hogging: bool,
        /// The volume factor is the root of this degree.
        root: f64,
    },
    /// Structural composite lumber; its size factor is that of its report.
    Composite {
        /// The exponent of the size factor.
        exponent: f64,
    },
}

const LAMINATED: &str = "NDS Table 5.3.1";
const COMPOSITE: &str = "NDS Table 8.3.1";

/// Adjusted bending design value about the strong axis; with it the critical stress of lateral buckling, where that was worked out.
///
/// The lesser of the volume and the stability factor counts, never both (5.3.6); only a composite's volume factor above 1 goes with
/// the stability factor (8.3.6).
pub fn bending<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, layup: Layup) -> (Stress<T>, Option<Stress<T>>) {
    let &Member { C_M_b, C_t_b, C_fu_b, C_r, C_c, C_I, K_F_b, phi_b, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    if let Layup::Laminated { flat: true, .. } = layup {
        return (across(m, q, how, layup, C_fu_b), None);
    }
    let C_V = volume(m, q, layup);
    let held = bending::held(m, how);
    let root = reference(m, layup);
    let larger = matches!(layup, Layup::Composite { .. }) && !C_V.at_most(C_V.one());
    let (C_L, F_bE) = if let Some(because) = held {
        eq!(C_L = m.d.one(); because.0; because.1);
        (C_L, None)
    } else {
        let F_b_star = starred(m, q, how, layup, larger.then_some(C_V));
        let (C_L, F_bE) = bending::stability(m, q, how, F_b_star);
        if larger {
            eq!(F_b_adj = F_b_star * C_L; COMPOSITE);
            return (F_b_adj, Some(F_bE));
        }
        (C_L, Some(F_bE))
    };
    let lesser = if larger || C_V.at_most(C_L) { C_V } else { C_L };
    let because = match (larger, layup) {
        (true, _) => "a volume factor above 1 counts (8.3.6)",
        (_, Layup::Laminated { .. }) => "the lesser of C_L and C_V (5.3.6)",
        (_, Layup::Composite { .. }) => "the lesser of C_L and C_V (8.3.6)",
    };
    let adjusted = match (layup, how.lrfd) {
        (Layup::Laminated { .. }, false) => {
            eq!(F_bx_adj = root * C_D * C_M_b * C_t_b * lesser * C_c * C_I; LAMINATED; because);
            F_bx_adj
        }
        (Layup::Laminated { .. }, true) => {
            eq!(F_bx_adj = root * K_F_b * phi_b * lambda * C_M_b * C_t_b * lesser * C_c * C_I; LAMINATED; because);
            F_bx_adj
        }
        (Layup::Composite { .. }, false) => {
            eq!(F_b_adj = root * C_D * C_M_b * C_t_b * lesser * C_r; COMPOSITE; because);
            F_b_adj
        }
        (Layup::Composite { .. }, true) => {
            eq!(F_b_adj = root * K_F_b * phi_b * lambda * C_M_b * C_t_b * lesser * C_r; COMPOSITE; because);
            F_b_adj
        }
    };
    (adjusted, F_bE)
}

/// Reference value of bending about the strong axis: of laminated timber that of the edge that is stretched.
fn reference<T: Trace>(m: &Member<T>, layup: Layup) -> Stress<T> {
    match layup {
        Layup::Laminated { hogging: true, .. } => m.F_bx_neg,
        Layup::Laminated { .. } => m.F_bx_pos,
        Layup::Composite { .. } => m.F_b,
    }
}

/// F_b with all factors but the stability and the volume factor; a composite's volume factor above 1 stays. NDS 3.3.3.8.
fn starred<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, layup: Layup, above: Option<Ratio<T>>) -> Stress<T> {
    let &Member { C_M_b, C_t_b, C_r, C_c, C_I, K_F_b, phi_b, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    let root = reference(m, layup);
    match (layup, above, how.lrfd) {
        (Layup::Laminated { .. }, _, false) => {
            eq!(F_b_star = root * C_D * C_M_b * C_t_b * C_c * C_I; "NDS 3.3.3.8");
            F_b_star
        }
        (Layup::Laminated { .. }, _, true) => {
            eq!(F_b_star = root * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_c * C_I; "NDS 3.3.3.8");
            F_b_star
        }
        (Layup::Composite { .. }, Some(C_V), false) => {
            eq!(F_b_star = root * C_D * C_M_b * C_t_b * C_V * C_r; "NDS 3.3.3.8"; "a volume factor above 1 counts (8.3.6)");
            F_b_star
        }
        (Layup::Composite { .. }, Some(C_V), true) => {
            eq!(F_b_star = root * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_V * C_r; "NDS 3.3.3.8"; "a volume factor above 1 counts (8.3.6)");
            F_b_star
        }
        (Layup::Composite { .. }, None, false) => {
            eq!(F_b_star = root * C_D * C_M_b * C_t_b * C_r; "NDS 3.3.3.8");
            F_b_star
        }
        (Layup::Composite { .. }, None, true) => {
            eq!(F_b_star = root * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_r; "NDS 3.3.3.8");
            F_b_star
        }
    }
}

/// F_b with all factors but the stability factor, the volume factor among them: of the tension edge beside tension. NDS 3.9.1.
pub fn unstabilised<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, layup: Layup) -> Stress<T> {
    let &Member { C_M_b, C_t_b, C_r, C_c, C_I, K_F_b, phi_b, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    let (root, C_V) = (reference(m, layup), volume(m, q, layup));
    match (layup, how.lrfd) {
        (Layup::Laminated { .. }, false) => {
            eq!(F_b_star = root * C_D * C_M_b * C_t_b * C_V * C_c * C_I; "NDS 3.9.1");
            F_b_star
        }
        (Layup::Laminated { .. }, true) => {
            eq!(F_b_star = root * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_V * C_c * C_I; "NDS 3.9.1");
            F_b_star
        }
        (Layup::Composite { .. }, false) => {
            eq!(F_b_star = root * C_D * C_M_b * C_t_b * C_V * C_r; "NDS 3.9.1");
            F_b_star
        }
        (Layup::Composite { .. }, true) => {
            eq!(F_b_star = root * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_V * C_r; "NDS 3.9.1");
            F_b_star
        }
    }
}

/// F_b with all factors but the volume factor, the stability factor among them: of the compression edge beside tension. NDS 3.9.1.
pub fn unreduced<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, layup: Layup) -> Stress<T> {
    let F_b_star = starred(m, q, how, layup, None);
    let C_L = if let Some(because) = bending::held(m, how) {
        eq!(C_L = m.d.one(); because.0; because.1);
        C_L
    } else {
        bending::stability(m, q, how, F_b_star).0
    };
    eq!(F_b_starred = F_b_star * C_L; "NDS 3.9.1");
    F_b_starred
}

/// Volume factor. NDS 5.3.6, 8.3.6.
fn volume<T: Trace>(m: &Member<T>, q: &Asked<T>, layup: Layup) -> Ratio<T> {
    let &Member { d, .. } = m;
    match layup {
        Layup::Laminated { root, .. } => {
            let L_0 = q.L_0;
            let b = if m.b.at_most(m.b_most) { m.b } else { m.b_most };
            let long: Length<T> = quantity(L_0, 21.0, &FT);
            let deep: Length<T> = quantity(d, 12.0, &IN);
            let wide: Length<T> = quantity(b, 5.125, &IN);
            let part = 1.0 / root;
            eq!(C_V = pow(long / L_0, part) * pow(deep / d, part) * pow(wide / b, part); "NDS Eq. 5.3-1");
            if C_V.at_most(C_V.one()) {
                return C_V;
            }
            eq!(C_V = d.one(); "NDS Eq. 5.3-1"; "the formula gives more; 1 at most");
            C_V
        }
        Layup::Composite { exponent: 0.0 } => {
            eq!(C_V = d.one(); "NDS 8.3.6"; "no size_exponent given, d no more than size_depth: not raised");
            C_V
        }
        Layup::Composite { exponent } => {
            eq!(C_V = pow(m.d_size / d, exponent); "NDS 8.3.6"; "as its report says");
            C_V
        }
    }
}

/// Adjusted bending design value of a glued member whose loads run along the wide faces of its laminations, or of a composite's strands:
/// no volume and no stability factor; a composite's is as its report gives it for loads so directed.
pub fn across<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, layup: Layup, C_fu: Ratio<T>) -> Stress<T> {
    let &Member { F_by, C_M_b, C_t_b, K_F_b, phi_b, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    match (layup, how.lrfd) {
        (Layup::Laminated { .. }, true) => {
            eq!(F_by_adj = F_by * K_F_b * phi_b * lambda * C_M_b * C_t_b * C_fu; LAMINATED);
            F_by_adj
        }
        (Layup::Laminated { .. }, false) => {
            eq!(F_by_adj = F_by * C_D * C_M_b * C_t_b * C_fu; LAMINATED);
            F_by_adj
        }
        (Layup::Composite { .. }, true) => {
            eq!(F_by_adj = F_by * K_F_b * phi_b * lambda * C_M_b * C_t_b; COMPOSITE);
            F_by_adj
        }
        (Layup::Composite { .. }, false) => {
            eq!(F_by_adj = F_by * C_D * C_M_b * C_t_b; COMPOSITE);
            F_by_adj
        }
    }
}

/// Adjusted modulus for buckling about the strong axis, that of bending over the depth. NDS 3.7.1.5 with Table 5.3.1.
pub fn buckling_modulus<T: Trace>(m: &Member<T>, how: &How) -> Stress<T> {
    let &Member { E_x_min, C_M_E, C_t_E, K_F_E, phi_E, .. } = m;
    if how.lrfd {
        eq!(E_x_min_adj = E_x_min * K_F_E * phi_E * C_M_E * C_t_E; LAMINATED);
        return E_x_min_adj;
    }
    eq!(E_x_min_adj = E_x_min * C_M_E * C_t_E; LAMINATED);
    E_x_min_adj
}

/// Adjusted tension design value along the grain: no size factor; a composite's is as its report gives it for the length.
pub fn tension<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, layup: Layup) -> Stress<T> {
    let &Member { F_t, C_M_t, C_t_t, K_F_t, phi_t, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    if how.lrfd {
        eq!(F_t_adj = F_t * K_F_t * phi_t * lambda * C_M_t * C_t_t; layup.table());
        return F_t_adj;
    }
    eq!(F_t_adj = F_t * C_D * C_M_t * C_t_t; layup.table());
    F_t_adj
}

/// Adjusted modulus for stability: that of bending about the weak axis.
pub fn stability_modulus<T: Trace>(m: &Member<T>, how: &How, layup: Layup) -> Stress<T> {
    let &Member { E_min, E_y_min, C_M_E, C_t_E, K_F_E, phi_E, .. } = m;
    match (layup, how.lrfd) {
        (Layup::Laminated { .. }, false) => {
            eq!(E_y_min_adj = E_y_min * C_M_E * C_t_E; LAMINATED);
            E_y_min_adj
        }
        (Layup::Laminated { .. }, true) => {
            eq!(E_y_min_adj = E_y_min * K_F_E * phi_E * C_M_E * C_t_E; LAMINATED);
            E_y_min_adj
        }
        (Layup::Composite { .. }, false) => {
            eq!(E_min_adj = E_min * C_M_E * C_t_E; COMPOSITE);
            E_min_adj
        }
        (Layup::Composite { .. }, true) => {
            eq!(E_min_adj = E_min * K_F_E * phi_E * C_M_E * C_t_E; COMPOSITE);
            E_min_adj
        }
    }
}

/// Adjusted shear design value, with the shear reduction factor of 5.3.10 where that applies.
pub fn shear<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, layup: Layup) -> Stress<T> {
    let &Member { C_M_v, C_t_v, K_F_v, phi_v, .. } = m;
    let &Asked { C_D, lambda, C_vr, .. } = q;
    match (layup, how.lrfd) {
        (Layup::Laminated { flat, .. }, lrfd) => {
            let root = if flat { m.F_vy } else { m.F_vx };
            if lrfd {
                eq!(F_v_adj = root * K_F_v * phi_v * lambda * C_M_v * C_t_v * C_vr; LAMINATED);
                return F_v_adj;
            }
            eq!(F_v_adj = root * C_D * C_M_v * C_t_v * C_vr; LAMINATED);
            F_v_adj
        }
        (Layup::Composite { .. }, true) => {
            eq!(F_v_adj = m.F_v * K_F_v * phi_v * lambda * C_M_v * C_t_v; COMPOSITE);
            F_v_adj
        }
        (Layup::Composite { .. }, false) => {
            eq!(F_v_adj = m.F_v * C_D * C_M_v * C_t_v; COMPOSITE);
            F_v_adj
        }
    }
}

/// The same across the depth of a member that leans.
pub fn shear_across<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Stress<T> {
    let &Member { F_vy, C_M_v, C_t_v, K_F_v, phi_v, .. } = m;
    let &Asked { C_D, lambda, C_vr, .. } = q;
    if how.lrfd {
        eq!(F_vy_adj = F_vy * K_F_v * phi_v * lambda * C_M_v * C_t_v * C_vr; LAMINATED);
        return F_vy_adj;
    }
    eq!(F_vy_adj = F_vy * C_D * C_M_v * C_t_v * C_vr; LAMINATED);
    F_vy_adj
}

/// Adjusted bearing design value across the grain; `C_b` is settled.
pub fn bearing<T: Trace>(m: &Member<T>, how: &How, layup: Layup, C_b: Ratio<T>) -> Stress<T> {
    let &Member { F_c_perp, C_M_perp, C_t_perp, K_F_perp, phi_c, .. } = m;
    if how.lrfd {
        eq!(F_c_perp_adj = F_c_perp * K_F_perp * phi_c * C_M_perp * C_t_perp * C_b; layup.table());
        return F_c_perp_adj;
    }
    eq!(F_c_perp_adj = F_c_perp * C_M_perp * C_t_perp * C_b; layup.table());
    F_c_perp_adj
}

/// Compression design value along the grain without the column stability factor.
pub fn along<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, clause: &'static str) -> Stress<T> {
    let &Member { F_c, C_M_c, C_t_c, K_F_c, phi_c, .. } = m;
    let &Asked { C_D, lambda, .. } = q;
    if how.lrfd {
        eq!(F_c_star = F_c * K_F_c * phi_c * lambda * C_M_c * C_t_c; clause);
        return F_c_star;
    }
    eq!(F_c_star = F_c * C_D * C_M_c * C_t_c; clause);
    F_c_star
}

/// Adjusted modulus of elasticity in the way that the member bends.
pub fn modulus<T: Trace>(m: &Member<T>, layup: Layup) -> Stress<T> {
    let &Member { E, E_x, E_y, C_M_E, C_t_E, .. } = m;
    let root = match layup {
        Layup::Laminated { flat: true, .. } => E_y,
        Layup::Laminated { .. } => E_x,
        Layup::Composite { .. } => E,
    };
    eq!(E_adj = root * C_M_E * C_t_E; layup.table());
    E_adj
}

/// The same about the weak axis.
pub fn modulus_across<T: Trace>(m: &Member<T>, layup: Layup) -> Stress<T> {
    let &Member { E_y, C_M_E, C_t_E, .. } = m;
    eq!(E_y_adj = E_y * C_M_E * C_t_E; layup.table());
    E_y_adj
}

impl Layup {
    /// Where its factors are listed.
    pub const fn table(self) -> &'static str {
        match self {
            Self::Laminated { .. } => LAMINATED,
            Self::Composite { .. } => COMPOSITE,
        }
    }

    /// Clause of its volume factor.
    pub const fn of_volume(self) -> &'static str {
        match self {
            Self::Laminated { .. } => "NDS 5.3.6",
            Self::Composite { .. } => "NDS 8.3.6",
        }
    }
}
