//! What the checks of posts, studs and ties are given, beside what those of bending members are.

#![allow(non_snake_case)]

use super::member::{Asked, How, Member};
use super::notation;
use crate::equation::{Pen, Tape};
use crate::given;
use crate::units::{Force, Length, Moment, Ratio, Stress};

given! {
    /// Force and moments along a member, and what buckling asks of it. Axis 1 is the strong one, bent over the depth; axis 2 the weak one.
    Axial {
        P: Force, M_e1: Moment, M_e2: Moment,
        l_1: Length, l_2: Length, K_e1: Ratio, K_e2: Ratio, d_1: Length, d_2: Length,
        c: Ratio, K_f: Ratio, slender_most: Ratio, d_h: Length,
        F_c_perp_plate: Stress, C_M_plate: Ratio,
    }
}

/// A member with its demand.
pub struct Loaded<T: Copy = ()> {
    /// Section, reference values, factors.
    pub m: Member<T>,
    /// What bending is asked.
    pub q: Asked<T>,
    /// What acts along it.
    pub x: Axial<T>,
}

impl Loaded {
    /// The same values on a tape.
    pub fn traced<'t>(&self, tape: &'t Tape) -> Loaded<Pen<'t>> {
        Loaded { m: self.m.traced(tape), q: self.q.traced(tape), x: self.x.traced(tape) }
    }
}

/// Which way the force along a member acts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// Compression.
    Press,
    /// Tension.
    Pull,
    /// Nothing acts along it.
    Nothing,
}

/// What is not a quantity.
#[derive(Clone, Copy, Debug)]
pub struct Manner {
    /// The choices of bending.
    pub how: How,
    /// Which way the force acts.
    pub sense: Sense,
    /// Whether side loads bend it about the strong axis, the weak axis.
    pub side: [bool; 2],
    /// Whether there is a shear beside a support.
    pub sideways: bool,
    /// Whether eccentric forces bend it about the strong axis, the weak axis.
    pub eccentric: [bool; 2],
    /// Whether it is held from buckling about the strong axis throughout.
    pub held_1: bool,
    /// The same about the weak axis.
    pub held_2: bool,
    /// Whether it is of plies joined by 15.3.
    pub built_up: bool,
    /// Whether holes are taken off in tension.
    pub holed: bool,
    /// Whether it stands on a plate.
    pub plate: bool,
}

impl Manner {
    /// Whether anything bends it about the strong axis.
    pub const fn bends_1(&self) -> bool {
        self.side[0] || self.eccentric[0]
    }

    /// Whether anything bends it about the weak axis.
    pub const fn bends_2(&self) -> bool {
        self.side[1] || self.eccentric[1]
    }
}
