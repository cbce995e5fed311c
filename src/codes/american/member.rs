//! What the American checks are given, and how a line of theirs depends on the method.

#![allow(non_snake_case)]

use super::notation;
use crate::given;
use crate::units::{Area, Dimension, Dimensionless, Force, Inertia, Length, LineLoad, Modulus, Moment, Ratio, Stress};

given! {
    /// What the checks know of a member: section, reference values, and every factor of Table 4.3.1 that does not depend on the demand.
    ///
    /// A letter that a clause gives for several properties has a field for each of them.
    Member {
        b: Length, d: Length, A: Area, S: Modulus, I: Inertia, S_y: Modulus, I_y: Inertia,
        F_b: Stress, F_v: Stress, F_t: Stress, F_c: Stress, F_c_perp: Stress, E: Stress, E_min: Stress,
        C_M_b: Ratio, C_M_v: Ratio, C_M_t: Ratio, C_M_c: Ratio, C_M_perp: Ratio, C_M_E: Ratio,
        C_t_b: Ratio, C_t_v: Ratio, C_t_t: Ratio, C_t_c: Ratio, C_t_perp: Ratio, C_t_E: Ratio,
        C_F_b: Ratio, C_F_t: Ratio, C_F_c: Ratio, C_fu_b: Ratio, C_fu_E: Ratio,
        C_i_b: Ratio, C_i_v: Ratio, C_i_t: Ratio, C_i_c: Ratio, C_i_perp: Ratio, C_i_E: Ratio,
        C_r: Ratio,
        F_bx_pos: Stress, F_bx_neg: Stress, F_vx: Stress, E_x: Stress, E_x_min: Stress, E_y_min: Stress, C_c: Ratio, C_I: Ratio,
        b_most: Length, d_size: Length,
        F_by: Stress, F_vy: Stress, E_y: Stress, C_F_y: Ratio, C_fu_y: Ratio, C_fu_Ey: Ratio, C_r_y: Ratio,
        K_F_b: Ratio, K_F_v: Ratio, K_F_t: Ratio, K_F_c: Ratio, K_F_perp: Ratio, K_F_E: Ratio,
        phi_b: Ratio, phi_v: Ratio, phi_t: Ratio, phi_c: Ratio, phi_E: Ratio,
    }
}

impl Member {
    /// Whether a table had no value for one of the factors.
    pub fn has_gap(&self) -> bool {
        self.values().any(|(letter, value)| letter.exponents == Dimensionless::EXPONENTS && value.is_nan())
    }
}

given! {
    /// What a combination asks for at a place; what the place does not give is blank.
    Asked {
        C_D: Ratio, lambda: Ratio,
        w: LineLoad, P: Force, L: Length,
        M: Moment, M_x: Moment, M_y: Moment, V_y: Force, delta_x: Length, delta_y: Length, V: Force, R: Force, delta: Length, delta_most: Length,
        L_0: Length, C_vr: Ratio,
        l_u: Length, l_b: Length, b_b: Length, d_n: Length, e_n: Length, depth_n: Length,
        sin_theta: Ratio, cos_theta: Ratio, R_B_most: Ratio,
    }
}

/// What is not a quantity: the choices that the clauses leave to the case.
#[derive(Clone, Copy, Debug)]
pub struct How {
    /// What a glued member is; none: sawn lumber.
    pub layup: Option<super::glued::Layup>,
    /// Load and resistance factor design; else allowable stress design.
    pub lrfd: bool,
    /// How the value comes about.
    pub statics: crate::codes::Statics,
    /// Why the compression edge is held throughout; none: at points.
    pub held: Option<&'static str>,
    /// The row of Table 3.3.3: how many unbraced lengths and how many depths.
    pub effective: (f64, f64),
    /// Whether loads near the support are left out of the shear.
    pub reduced: bool,
    /// Why the bearing-area factor is 1; none: the bearing is short and stands away from the member's end, and it counts.
    pub plain_bearing: Option<&'static str>,
    /// Whether the force on a bearing is square to the grain.
    pub square: bool,
    /// Whether the notch is in the tension edge.
    pub tension_notch: bool,
    /// Whether the notch is between the ends.
    pub inner_notch: bool,
    /// Whether the notch reaches past its bearing, so that what is left of the section bends.
    pub net_section: bool,
    /// How deep the notch may be.
    pub notch_limit: NotchLimit,
    /// What the bearing-area factor adds to the bearing length, in.
    pub added: f64,
    /// What a deflection may be: the length over this number, where it was said so.
    pub over: Option<f64>,
    /// Whether the deflection is the resultant of both ways, of a member that leans.
    pub both_ways: bool,
    /// Whether the deflection is that of an overhang, whose limit takes twice its length.
    pub overhang: bool,
    /// Where the deflection limit stands.
    pub limits: &'static str,
}

/// How deep a notch may be. NDS 4.4.3, 5.4.5.
#[derive(Clone, Copy, Debug)]
pub struct NotchLimit {
    /// The depth of the member over this number.
    pub over: f64,
    /// Nor more than this, in.
    pub most: Option<f64>,
    /// Its clause.
    pub clause: &'static str,
}
