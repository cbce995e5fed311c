//! What the European checks are given, and the choices that their clauses leave to the case.

#![allow(non_snake_case)]

use super::notation;
use super::vibration::Floor;
use crate::codes::Statics;
use crate::given;
use crate::job::model::Nature;
use crate::units::{
    Area, AreaLoad, AreaMass, Force, Inertia, Length, LineLoad, Mobility, Modulus, Moment, Ratio, Seconds, Stress, WidthRigidity,
};

given! {
    /// What the checks know of a member: section, characteristic values, and every factor that does not depend on the demand.
    Member {
        b: Length, b_1: Length, h: Length, h_number: Ratio, A: Area, W_y: Modulus, W_z: Modulus, I_y: Inertia, pi: Ratio,
        f_mk: Stress, f_vk: Stress, f_c0k: Stress, f_c90k: Stress, E_mean: Stress, E_05: Stress, G_mean: Stress, G_05: Stress,
        gamma_M: Ratio, k_sys: Ratio, k_cr: Ratio, k_c90: Ratio, k_n: Ratio, k_m: Ratio, k_def: Ratio,
        psi_0_Q: Ratio, psi_0_H: Ratio, psi_0_S: Ratio, psi_0_W: Ratio,
        psi_2_Q: Ratio, psi_2_H: Ratio, psi_2_S: Ratio, psi_2_W: Ratio, w_c: Length,
        s: Length, s_number: Ratio, b_floor: Length, E_d: Stress, t_d: Length, EI_b: WidthRigidity, EI_b_number: Ratio,
        g_floor: AreaLoad, m_floor: AreaMass, zeta: Seconds, F_1: Force, k_strut: Ratio, k_share: Ratio,
    }
}

given! {
    /// What a combination asks for at a place; what the place does not give is blank.
    Asked {
        k_mod: Ratio,
        q_d: LineLoad, F_d: Force, l: Length, M_yd: Moment, M_zd: Moment, V_d: Force, V_zd: Force, F_c90d: Force, F_cad: Force,
        l_braced: Length, m_l: Ratio, l_b: Length, a: Length, l_1in: Length, l_1out: Length, h_ef: Length, x: Length,
        sin_alpha: Ratio, cos_alpha: Ratio,
        g_k: LineLoad, q_k: LineLoad, q_Hk: LineLoad, s_k: LineLoad, w_k: LineLoad,
        G_k: Force, Q_k: Force, Q_Hk: Force, S_k: Force, W_k: Force,
        w_G: Length, w_Q: Length, w_H: Length, w_S: Length, w_W: Length, w_y: Length, w_z: Length, w_given: Length, w_most: Length,
        l_eq: Length, k_amp: Ratio, a_F: Length, b_v: Mobility,
    }
}

/// The size factor of a bending depth. EN 1995-1-1, 3.2(3), 3.3(3), 3.4(3).
#[derive(Clone, Copy, Debug)]
pub enum Size {
    /// It is 1, at this clause for this reason.
    One(&'static str, &'static str),
    /// The reference depth over the depth to a power, with a most.
    Power {
        /// mm.
        reference: f64,
        /// The power.
        exponent: f64,
        /// The most.
        most: f64,
        /// The clause.
        clause: &'static str,
    },
    /// Of values that hold for another depth: the part of them that is left at this one.
    Part(f64, &'static str),
}

impl Size {
    /// The factor of a depth in mm.
    pub(super) fn of(self, depth: f64) -> f64 {
        match self {
            Self::One(..) => 1.0,
            Self::Power { reference, exponent, most, .. } => libm::pow(reference / depth, exponent).min(most),
            Self::Part(part, _) => part,
        }
    }

    /// The clause.
    pub(super) const fn clause(self) -> &'static str {
        match self {
            Self::One(clause, _) | Self::Power { clause, .. } | Self::Part(_, clause) => clause,
        }
    }
}

/// What a deflection is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// At once, under the characteristic combination.
    Instant,
    /// Its variable part.
    Variable,
    /// With creep.
    Final,
    /// With creep, less the camber.
    NetFinal,
    /// With creep under the quasi-permanent combination, less the camber.
    QuasiPermanent,
    /// Of a combination of the engineer's own, as it stands.
    Own,
}

/// What is not a quantity: the choices that the clauses leave to the case.
#[derive(Clone, Copy, Debug)]
pub struct How {
    /// How the value comes about.
    pub statics: Statics,
    /// Why the compression edge is held throughout; none: at points.
    pub held: Option<&'static str>,
    /// How many depths are added to the effective length.
    pub depths: f64,
    /// Whether (6.32) holds: solid softwood.
    pub softwood: bool,
    /// Whether the shear modulus for stability stands in the table of values.
    pub shear_modulus: bool,
    /// The size factor on the depth.
    pub size: Size,
    /// The size factor on the breadth, for bending about the weak axis.
    pub size_weak: Size,
    /// How far a bearing counts beyond its edge, mm.
    pub added: f64,
    /// Whether another force acts on the member towards the span, towards its nearer end.
    pub forces_beside: [bool; 2],
    /// Why the factor of a bearing is 1; none: it counts.
    pub plain_bearing: Option<&'static str>,
    /// Whether the force on a bearing is square to the grain.
    pub square: bool,
    /// Whether the notch is on the side of the support.
    pub same_side: bool,
    /// Whether the notch is at a support: 6.5.2 has no rule for others.
    pub notched_support: bool,
    /// Whether the notch reaches past its bearing, so that what is left of the section bends.
    pub net_section: bool,
    /// What a deflection may be: the length over this number, where it was said so.
    pub over: Option<f64>,
    /// Whether the deflection is the resultant of both ways of a member that leans.
    pub both_ways: bool,
    /// Whether the deflection is upward, as a camber is.
    pub upward: bool,
    /// Whether the deflection is that of an overhang, whose limit takes twice its length.
    pub overhang: bool,
    /// Where the deflection limit stands.
    pub limits: &'static str,
    /// What the deflection is of.
    pub wanted: Wanted,
    /// The leading nature of its combination.
    pub leading: Option<Nature>,
    /// The rules of the floor; none where 7.3.3 is not for it.
    pub floor: Option<Floor>,
    /// How the part of each nature comes about; none where it is not in the combination.
    pub parts: [Option<Statics>; Nature::ALL.len()],
}
