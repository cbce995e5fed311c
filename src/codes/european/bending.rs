//! Bending about the strong axis, with lateral torsional buckling. EN 1995-1-1, 6.1.6 and 6.3.3.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member, Size};
use super::{notation, statics};
use crate::eq;
use crate::equation::{OfDimension, Trace};
use crate::units::{Length, MM, Ratio, Stress, cube, min, number, pow, quantity, sq, sqrt};

/// Ratio of the bending stress to the bending strength, reduced by lateral torsional buckling.
///
/// The factor of buckling is always a step of its own: where the compression edge is held, it is 1 and says so.
pub fn bending<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Option<Ratio<T>> {
    let M_yd = statics::moment(q, how);
    eq!(sigma_md = M_yd / m.W_y; "EN 1995-1-1, 6.1.6");
    against(m, q, how, sigma_md)
}

/// Ratio of a bending stress to the bending strength, reduced by lateral torsional buckling.
pub fn against<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, sigma_md: Stress<T>) -> Option<Ratio<T>> {
    let &Member { f_mk, gamma_M, k_sys, .. } = m;
    let k_mod = q.k_mod;
    let k_h = size(m.h, how.size);
    eq!(f_md = k_mod * k_sys * k_h * f_mk / gamma_M; "EN 1995-1-1, (2.14)");
    let k_crit = buckling(m, q, how);
    if k_crit.at_least(1.0) {
        eq!(ratio = sigma_md / f_md; "EN 1995-1-1, 6.1.6 (6.11)");
        return Some(ratio);
    }
    eq!(f_md_crit = k_crit * f_md; "EN 1995-1-1, 6.3.3 (6.33)");
    // The capacity is a line of its own on paper; the ratio spells it out.
    let _ = f_md_crit;
    eq!(ratio = sigma_md / (k_crit * f_md); "EN 1995-1-1, 6.3.3 (6.33)");
    Some(ratio)
}

/// Size factor of a depth.
pub fn size<T: Trace>(depth: Length<T>, size: Size) -> Ratio<T> {
    match size {
        Size::One(clause, because) => {
            eq!(k_h = depth.one(); clause; because);
            k_h
        }
        Size::Part(part, clause) => {
            eq!(k_h = number(depth, part); clause; "from the depth that the own value holds for");
            k_h
        }
        Size::Power { reference, exponent, most, clause } => {
            eq!(k_h = min(pow(quantity::<<Length as OfDimension>::D, _, T>(depth, reference, &MM) / depth, exponent), number(depth, most)); clause);
            k_h
        }
    }
}

/// Factor of lateral torsional buckling, between 0 and 1. The characteristic strength in it is without size factor.
pub fn buckling<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Ratio<T> {
    if let Some(because) = how.held {
        eq!(k_crit = m.h.one(); "EN 1995-1-1, 6.3.3(5)"; because);
        return k_crit;
    }
    if m.h.at_most(m.b) {
        eq!(k_crit = m.h.one(); "EN 1995-1-1, 6.3.3"; "depth not more than breadth: it cannot tip");
        return k_crit;
    }
    let lambda_relm = slenderness(m, q, how);
    if lambda_relm.at_most(0.75) {
        eq!(k_crit = m.h.one(); "EN 1995-1-1, 6.3.3 (6.34)"; "relative slenderness at most 0.75");
        return k_crit;
    }
    if lambda_relm.at_most(1.4) {
        eq!(k_crit = 1.56 - 0.75 * lambda_relm; "EN 1995-1-1, 6.3.3 (6.34)");
        return k_crit;
    }
    eq!(k_crit = 1.0 / sq(lambda_relm); "EN 1995-1-1, 6.3.3 (6.34)");
    k_crit
}

/// Relative slenderness in bending. EN 1995-1-1, (6.30) to (6.32).
fn slenderness<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Ratio<T> {
    let &Member { b, h, W_y, f_mk, E_mean, E_05, G_mean, pi, .. } = m;
    let &Asked { l_braced, m_l, .. } = q;
    let l_ef = if how.depths > 0.0 {
        eq!(l_ef = m_l * l_braced + number(h, how.depths) * h; "EN 1995-1-1, Table 6.1"; "load on the top edge");
        l_ef
    } else if how.depths < 0.0 {
        eq!(l_ef = m_l * l_braced - number(h, -how.depths) * h; "EN 1995-1-1, Table 6.1"; "load pulls upward");
        l_ef
    } else {
        eq!(l_ef = m_l * l_braced; "EN 1995-1-1, Table 6.1");
        l_ef
    };
    let sigma_mcrit = if how.softwood {
        eq!(sigma_mcrit = 0.78 * sq(b) * E_05 / (h * l_ef); "EN 1995-1-1, 6.3.3 (6.32)");
        sigma_mcrit
    } else {
        let G_05 = if how.shear_modulus {
            m.G_05
        } else {
            eq!(G_05 = G_mean * E_05 / E_mean; "common practice"; "EN 338 has no value for it");
            G_05
        };
        eq!(I_z = h * cube(b) / 12.0; "geometry");
        eq!(I_tor = h * cube(b) / 3.0 * (1.0 - 0.63 * b / h); "geometry");
        eq!(sigma_mcrit = pi * sqrt(E_05 * I_z * G_05 * I_tor) / (l_ef * W_y); "EN 1995-1-1, 6.3.3 (6.31)");
        sigma_mcrit
    };
    eq!(lambda_relm = sqrt(f_mk / sigma_mcrit); "EN 1995-1-1, 6.3.3 (6.30)");
    lambda_relm
}
