//! Vibration of residential floors. EN 1995-1-1, 7.3.3.
//!
//! The clause is for floors held at their edges whose first frequency is above 8 Hz; others are not checked here, and the sheet says so.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::notation;
use crate::eq;
use crate::equation::{OfDimension, Trace};
use crate::units::{
    Acceleration, AreaMass, Frequency, HZ, KG, Length, M_PER_NS2, M_PER_S2, Mass, Ratio, WidthRigidity, cube, ln, max, number, pow,
    quantity, raised, sq, sqrt,
};

type Of<Q> = <Q as OfDimension>::D;

/// What a floor's rules leave to the case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floor {
    /// Whether the share of one joist comes from the British rule, which counts shear by a factor.
    pub british: bool,
    /// Whether the mass is that of the permanent loads; else it is given.
    pub loaded: bool,
    /// Whether the stiffness across is that of decking; else it is given.
    pub decked: bool,
}

/// Ratio of what the floor gives under a single force to the limit a. EN 1995-1-1, 7.3.3 (7.3).
pub fn stiffness<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let a_F = q.a_F;
    let w_F = deflection(m, q, how.floor?);
    eq!(ratio = w_F / a_F; "EN 1995-1-1, 7.3.3 (7.3)");
    Some(ratio)
}

/// What the floor gives under a single force of 1 kN.
pub fn deflection<T: Trace>(m: &Member<T>, q: &Asked<T>, floor: Floor) -> Length<T> {
    let &Member { A, I_y, E_mean, G_mean, F_1, .. } = m;
    let &Asked { l, l_eq, k_amp, .. } = q;
    if floor.british {
        let k_dist = shared(m, floor);
        eq!(w_F = k_dist * F_1 * cube(l_eq) * k_amp / (48.0 * E_mean * I_y); "EN 1995-1-1, 7.3.3"; "choice of GB");
        return w_F;
    }
    let k_dist = m.k_share;
    eq!(w_F = k_dist * (F_1 * cube(l) / (48.0 * E_mean * I_y) + 1.2 * F_1 * l / (4.0 * G_mean * A)); "beam theory"; "bending and shear");
    w_F
}

/// The part of a single force that one joist takes by the British rule.
fn shared<T: Trace>(m: &Member<T>, floor: Floor) -> Ratio<T> {
    let &Member { s_number, k_strut, EI_b_number, .. } = m;
    // The line itself takes the stiffness as a number of its unit.
    let _ = across(m, floor);
    eq!(k_dist = max(k_strut * (0.38 - 0.08 * ln(14.0 * EI_b_number / pow(s_number, 4.0))), number(k_strut, 0.30)); "EN 1995-1-1, 7.3.3"; "choice of GB");
    k_dist
}

/// Ratio of the velocity by a unit impulse to what it may be. EN 1995-1-1, 7.3.3 (7.4).
pub fn velocity<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let &Member { b_floor, zeta, .. } = m;
    let &Asked { l, b_v, .. } = q;
    let floor = how.floor?;
    let m_floor = mass(m, floor);
    let EI_l = along(m);
    let EI_b = across(m, floor);
    let f_1 = frequency(m, q, EI_l, m_floor);
    let forty = quantity::<Of<Frequency>, _, T>(f_1, 40.0, &HZ);
    let n_40 = if f_1.at_least(forty) {
        eq!(n_40 = number(f_1, 0.0); "EN 1995-1-1, 7.3.3 (7.7)"; "the first frequency is 40 Hz or above");
        n_40
    } else {
        eq!(n_40 = pow((sq(forty / f_1) - number(f_1, 1.0)) * pow(b_floor / l, 4.0) * EI_l / EI_b, 0.25); "EN 1995-1-1, 7.3.3 (7.7)");
        n_40
    };
    let more = quantity::<Of<Mass>, _, T>(l, 200.0, &KG);
    eq!(v = 4.0 * (0.4 + 0.6 * n_40) / (m_floor * b_floor * l + more); "EN 1995-1-1, 7.3.3 (7.6)");
    eq!(v_most = raised(b_v, f_1 * zeta - number(f_1, 1.0), &M_PER_NS2); "EN 1995-1-1, 7.3.3 (7.4)");
    eq!(ratio = v / v_most; "EN 1995-1-1, 7.3.3 (7.4)");
    Some(ratio)
}

/// The first frequency of a floor. EN 1995-1-1, 7.3.3 (7.5).
pub fn first<T: Trace>(m: &Member<T>, q: &Asked<T>, floor: Floor) -> Frequency<T> {
    frequency(m, q, along(m), mass(m, floor))
}

fn frequency<T: Trace>(m: &Member<T>, q: &Asked<T>, EI_l: WidthRigidity<T>, m_floor: AreaMass<T>) -> Frequency<T> {
    let (pi, l) = (m.pi, q.l);
    eq!(f_1 = pi / (2.0 * sq(l)) * sqrt(EI_l / m_floor); "EN 1995-1-1, 7.3.3 (7.5)");
    f_1
}

/// Mass of the permanent loads alone: the floor is unloaded. EN 1995-1-1, 7.3.3(3).
fn mass<T: Trace>(m: &Member<T>, floor: Floor) -> AreaMass<T> {
    if !floor.loaded {
        return m.m_floor;
    }
    let g_floor = m.g_floor;
    eq!(m_floor = g_floor / quantity::<Of<Acceleration>, _, T>(g_floor, 9.81, &M_PER_S2); "EN 1995-1-1, 7.3.3(3)");
    m_floor
}

/// Stiffness of a width along the joists, of the joists alone.
pub fn along<T: Trace>(m: &Member<T>) -> WidthRigidity<T> {
    let &Member { E_mean, I_y, s, .. } = m;
    eq!(EI_l = E_mean * I_y / s; "EN 1995-1-1, 7.3.3(4)"; "the joists alone");
    EI_l
}

/// Stiffness of a width across the joists.
pub fn across<T: Trace>(m: &Member<T>, floor: Floor) -> WidthRigidity<T> {
    let &Member { E_d, t_d, .. } = m;
    if !floor.decked {
        return m.EI_b;
    }
    eq!(EI_b = E_d * cube(t_d) / 12.0; "EN 1995-1-1, 7.3.3(5)"; "the decking alone");
    EI_b
}
