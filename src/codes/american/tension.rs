//! Tension along the grain. NDS 3.8.

#![allow(non_snake_case)]

use super::loaded::{Loaded, Manner, Sense};
use super::{glued, notation};
use crate::eq;
use crate::equation::Trace;
use crate::units::{Area, Ratio, Stress};

/// Ratio of tension on the net section to its adjusted design value.
pub fn tension<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Pull {
        return None;
    }
    let f_t = stress(l, o);
    let F_t_adj = adjusted(l, o);
    eq!(ratio = f_t / F_t_adj; "NDS 3.8.1");
    Some(ratio)
}

/// Stress on the net section. NDS 3.1.2.
pub fn stress<T: Trace>(l: &Loaded<T>, o: &Manner) -> Stress<T> {
    let A = section(l, o);
    eq!(f_t = l.x.P / A; "NDS 3.8.1");
    f_t
}

/// The section that an axial force acts on: the net one where holes are given. NDS 3.1.2.
pub fn section<T: Trace>(l: &Loaded<T>, o: &Manner) -> Area<T> {
    let m = &l.m;
    if !o.holed {
        return m.A;
    }
    eq!(A_n = m.b * (m.d - l.x.d_h); "NDS 3.1.2");
    A_n
}

/// Adjusted tension design value.
pub fn adjusted<T: Trace>(l: &Loaded<T>, o: &Manner) -> Stress<T> {
    let (m, q) = (&l.m, &l.q);
    if let Some(layup) = o.how.layup {
        return glued::tension(m, q, &o.how, layup);
    }
    if o.how.lrfd {
        eq!(F_t_adj = m.F_t * m.K_F_t * m.phi_t * q.lambda * m.C_M_t * m.C_t_t * m.C_F_t * m.C_i_t; "NDS Table 4.3.1");
        return F_t_adj;
    }
    eq!(F_t_adj = m.F_t * q.C_D * m.C_M_t * m.C_t_t * m.C_F_t * m.C_i_t; "NDS Table 4.3.1");
    F_t_adj
}
