//! Physical quantities: their dimension is part of their type, their unit is not part of them.
//!
//! A [`Q`] is a number in N, mm and s with a dimension in its type, so that rustc refuses a stress where a force is due. What rides
//! along (`T`) is nothing, or a pen that writes the calculation down (see [`crate::equation`]). Units exist only at the borders:
//! [`read`] takes `13 ft 6 in`, `40 psf` or `24 N/mm2`, [`Unit`] prints.

mod decimal;
mod dimension;
mod figures;
mod quantity;
mod reading;
mod table;
mod trace;

pub use dimension::{Dim, Dimension, Dimensionless, Exponents, N1, N2, N3, N4, N5, N6, Over, P1, P2, P3, P4, P5, P6, Root, Times, Z0};
pub use figures::{at_least, decimals, fewest, figures, grouped, is_short, push_grouped, rounded, shortest, trimmed};
pub use quantity::{
    Acceleration, Area, AreaLoad, AreaMass, Degrees, Density, Force, Frequency, Inertia, Length, Letter, Limit, LineLoad, Mass, Mobility,
    Modulus, Moment, Q, Ratio, Rigidity, Seconds, Stress, WidthRigidity, cube, ln, max, min, number, pow, quantity, raised, ratio, sq,
    sqrt,
};
pub use reading::{Misread, read, read_angle, read_number, read_temperature};
pub use table::{
    FT, FT2, HZ, IN, IN2, IN3, IN4, KG, KG_PER_M2, KG_PER_M3, KIP, KN, KN_M, KN_PER_M, KPA, LBF, LBF_FT, LBF_IN, M, M_PER_NS2, M_PER_S2,
    MM, MM2, MM3, MM4, MPA, N, N_M2_PER_M, N_PER_MM2, NONE, PCF, PLF, PSF, PSI, SECOND, UNITS, Unit, kinds,
};
pub use trace::{Line, Op, Trace};
