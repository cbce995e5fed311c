//! Moments, shears and deflections in the closed forms that a reviewer knows; else the value is given and the diagram is the authority.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::notation;
use crate::codes::Statics;
use crate::eq;
use crate::equation::{Line, OfDimension, Symbol, Trace};
use crate::units::{Force, Length, LineLoad, Moment, cube, sq};

/// The moment of one span under an even load, a load at mid-span, or both; else as given.
pub fn moment<T: Trace>(q: &Asked<T>, how: &How) -> Moment<T> {
    let &Asked { q_d, F_d, l, .. } = q;
    match how.statics {
        Statics::Uniform { .. } => {
            eq!(M_yd = q_d * sq(l) / 8.0; "statics");
            M_yd
        }
        Statics::MidPoint { .. } => {
            eq!(M_yd = F_d * l / 4.0; "statics");
            M_yd
        }
        Statics::Both { .. } => {
            eq!(M_yd = q_d * sq(l) / 8.0 + F_d * l / 4.0; "statics");
            M_yd
        }
        Statics::Diagram => q.M_yd,
    }
}

/// The shear at the support of one span under an even load, a load at mid-span, or both; else as given.
pub fn shear<T: Trace>(q: &Asked<T>, how: &How) -> Force<T> {
    let &Asked { q_d, F_d, l, .. } = q;
    match how.statics {
        Statics::Uniform { .. } => {
            eq!(V_d = q_d * l / 2.0; "statics");
            V_d
        }
        Statics::MidPoint { .. } => {
            eq!(V_d = F_d / 2.0; "statics");
            V_d
        }
        Statics::Both { .. } => {
            eq!(V_d = q_d * l / 2.0 + F_d / 2.0; "statics");
            V_d
        }
        Statics::Diagram => q.V_d,
    }
}

/// An action of a deflection: its load along the line, its load at mid-span, its deflection as given, and the letter of it.
pub type Action<T> = (LineLoad<T>, Force<T>, Length<T>, &'static Symbol<<Length as OfDimension>::D>);

/// The deflection of one span at once, by bending and by shear, under one action.
pub fn deflection<T: Trace>(m: &Member<T>, l: Length<T>, (q, F, given, letter): Action<T>, statics: Statics) -> Length<T> {
    let &Member { A, I_y, E_mean, G_mean, .. } = m;
    let line = Line { clause: "beam theory", because: "bending and shear", source: "5.0 384.0 1.2 8.0 48.0 4.0" };
    match statics {
        Statics::Uniform { .. } => letter.is(5.0 * q * sq(sq(l)) / (384.0 * E_mean * I_y) + 1.2 * q * sq(l) / (8.0 * G_mean * A), line),
        Statics::MidPoint { .. } => letter.is(F * cube(l) / (48.0 * E_mean * I_y) + 1.2 * F * l / (4.0 * G_mean * A), line),
        Statics::Both { .. } | Statics::Diagram => given,
    }
}
