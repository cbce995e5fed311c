//! Moments, shears and deflections in the closed forms that a reviewer knows; else the value is given and the diagram is the authority.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::notation;
use crate::codes::Statics;
use crate::eq;
use crate::equation::Trace;
use crate::units::{Force, Length, Moment, Stress, cube, sq};

/// The moment of one span under a uniform or mid-span load; else as given.
pub fn moment<T: Trace>(q: &Asked<T>, how: &How) -> Moment<T> {
    let &Asked { w, P, L, .. } = q;
    match how.statics {
        Statics::Uniform { .. } => {
            eq!(M = w * sq(L) / 8.0; "statics");
            M
        }
        Statics::MidPoint { .. } => {
            eq!(M = P * L / 4.0; "statics");
            M
        }
        Statics::Both { .. } | Statics::Diagram => q.M,
    }
}

/// The shear of one span under a uniform or mid-span load, loads near the support left out where that is allowed; else as given.
pub fn shear<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How) -> Force<T> {
    let &Asked { w, P, L, l_b, .. } = q;
    match (how.statics, how.reduced) {
        (Statics::Uniform { .. }, true) => {
            eq!(V = w * (L / 2.0 - l_b / 2.0 - m.d); "NDS 3.4.3.1");
            V
        }
        (Statics::Uniform { .. }, false) => {
            eq!(V = w * L / 2.0; "statics");
            V
        }
        (Statics::MidPoint { .. }, _) => {
            eq!(V = P / 2.0; "statics");
            V
        }
        (Statics::Both { .. } | Statics::Diagram, _) => q.V,
    }
}

/// The deflection of one span under a uniform or mid-span load; else as given.
pub fn deflection<T: Trace>(m: &Member<T>, q: &Asked<T>, how: &How, E_adj: Stress<T>) -> Length<T> {
    let &Asked { w, P, L, .. } = q;
    let I = m.I;
    match how.statics {
        Statics::Uniform { .. } => {
            eq!(delta = 5.0 * w * sq(sq(L)) / (384.0 * E_adj * I); "beam theory");
            delta
        }
        Statics::MidPoint { .. } => {
            eq!(delta = P * cube(L) / (48.0 * E_adj * I); "beam theory");
            delta
        }
        Statics::Both { .. } | Statics::Diagram => q.delta,
    }
}
