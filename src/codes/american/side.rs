//! Side loads on posts, studs and ties: shear and deflection as of any bending member.

use super::loaded::{Loaded, Manner};
use super::{deflection, shear};
use crate::equation::Trace;
use crate::units::Ratio;

/// Shear by loads that bend it about the strong axis.
pub fn shear<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if !o.sideways {
        return None;
    }
    shear::shear(&l.m, &l.q, &o.how)
}

/// Shear by loads that bend it about the weak axis.
pub fn shear_across<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    shear::across(&l.m, &l.q, &o.how)
}

/// Deflection against its limit.
pub fn deflection<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    deflection::deflection(&l.m, &l.q, &o.how)
}
