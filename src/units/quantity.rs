//! The quantity and its arithmetic.

use super::{Dim, Exponents, Line, N1, N2, N3, NONE, Op, Over, P1, P2, P3, P4, Root, Times, Trace, Unit, Z0};
use std::fmt;
use std::marker::PhantomData;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A physical quantity: a number in N, mm and s, a dimension in the type, a trace (or none) beside it.
pub struct Q<D, T = ()> {
    pub(super) value: f64,
    pub(super) trace: T,
    dimension: PhantomData<D>,
}

/// A number without dimension.
pub type Ratio<T = ()> = Q<Dim<Z0, Z0, Z0>, T>;
/// An angle in degrees; without dimension.
pub type Degrees<T = ()> = Ratio<T>;
/// mm
pub type Length<T = ()> = Q<Dim<P1, Z0, Z0>, T>;
/// mm²
pub type Area<T = ()> = Q<Dim<P2, Z0, Z0>, T>;
/// Section modulus, mm³
pub type Modulus<T = ()> = Q<Dim<P3, Z0, Z0>, T>;
/// Second moment of area, mm⁴
pub type Inertia<T = ()> = Q<Dim<P4, Z0, Z0>, T>;
/// N
pub type Force<T = ()> = Q<Dim<Z0, P1, Z0>, T>;
/// N mm
pub type Moment<T = ()> = Q<Dim<P1, P1, Z0>, T>;
/// N/mm
pub type LineLoad<T = ()> = Q<Dim<N1, P1, Z0>, T>;
/// N/mm²
pub type Stress<T = ()> = Q<Dim<N2, P1, Z0>, T>;
/// Load on a surface, N/mm²
pub type AreaLoad<T = ()> = Stress<T>;
/// Weight per volume, N/mm³
pub type Density<T = ()> = Q<Dim<N3, P1, Z0>, T>;
/// Bending stiffness EI, N mm²
pub type Rigidity<T = ()> = Q<Dim<P2, P1, Z0>, T>;
/// Bending stiffness of a width, EI over that width, N mm
pub type WidthRigidity<T = ()> = Q<Dim<P1, P1, Z0>, T>;
/// A span of time, s
pub type Seconds<T = ()> = Q<Dim<Z0, Z0, P1>, T>;
/// Frequency, 1/s
pub type Frequency<T = ()> = Q<Dim<Z0, Z0, N1>, T>;
/// Acceleration, mm/s²
pub type Acceleration<T = ()> = Q<Dim<P1, Z0, N2>, T>;
/// Mass, N s²/mm
pub type Mass<T = ()> = Q<Dim<N1, P1, P2>, T>;
/// Mass on a surface, N s²/mm³
pub type AreaMass<T = ()> = Q<Dim<N3, P1, P2>, T>;
/// Velocity by a unit impulse, mm/(N s²)
pub type Mobility<T = ()> = Q<Dim<P1, N1, N2>, T>;

impl<D, T: Copy> Clone for Q<D, T> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<D, T: Copy> Copy for Q<D, T> {}

impl<D> Q<D> {
    /// A quantity from a number in N, mm and s. Prefer [`Unit`]s; this is the way in for numbers that come from [`crate::analysis`].
    pub const fn new(value: f64) -> Self {
        Self { value, trace: (), dimension: PhantomData }
    }

    /// The number in N, mm and s: the way out to [`crate::analysis`] and to printing.
    pub const fn value(self) -> f64 {
        self.value
    }

    /// The same quantity with a trace riding along.
    pub const fn traced<T>(self, trace: T) -> Q<D, T> {
        Q { value: self.value, trace, dimension: PhantomData }
    }
}

impl<D, T: Trace> Q<D, T> {
    #[inline(always)]
    const fn make(value: f64, trace: T) -> Self {
        Self { value, trace, dimension: PhantomData }
    }

    /// The number in a unit, for clauses that are not dimensionally consistent.
    pub fn number_in(self, unit: &Unit) -> f64 {
        self.value / unit.factor
    }

    /// Gives the value a symbol; the expression behind it becomes a step. Called by `eq!`.
    #[inline(always)]
    pub fn named(self, letter: &'static Letter, line: Line) -> Self {
        Self::make(self.value, self.trace.name(letter, self.value, line))
    }

    /// Exactly nought.
    pub fn is_zero(self) -> bool {
        self.value == 0.0
    }

    /// The ratio 1, on this value's tape.
    pub fn one(self) -> Ratio<T> {
        Q::make(1.0, self.trace.literal(1.0, &NONE))
    }

    /// No larger than the limit, but for the last bits: 12 in and 1 ft are one length. False for not-a-number.
    #[inline(always)]
    pub fn at_most(self, limit: impl Limit<D>) -> bool {
        let limit = limit.number();
        self.value <= limit + 1e-9 * limit.abs()
    }

    /// No smaller than the limit, but for the last bits. False for not-a-number.
    #[inline(always)]
    pub fn at_least(self, limit: impl Limit<D>) -> bool {
        let limit = limit.number();
        self.value >= limit - 1e-9 * limit.abs()
    }
}

/// A limit is a like quantity, or a bare number where the quantity is a ratio.
pub trait Limit<D> {
    /// The number in N, mm and s.
    fn number(&self) -> f64;
}
impl<D, T> Limit<D> for Q<D, T> {
    #[inline(always)]
    fn number(&self) -> f64 {
        self.value
    }
}
impl Limit<Dim<Z0, Z0, Z0>> for f64 {
    #[inline(always)]
    fn number(&self) -> f64 {
        *self
    }
}

impl<D, T: Trace> Add for Q<D, T> {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        Self::make(self.value + other.value, self.trace.binary(Op::Add, other.trace))
    }
}
impl<D, T: Trace> Sub for Q<D, T> {
    type Output = Self;
    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        Self::make(self.value - other.value, self.trace.binary(Op::Sub, other.trace))
    }
}
impl<A: Times<B>, B, T: Trace> Mul<Q<B, T>> for Q<A, T> {
    type Output = Q<A::Product, T>;
    #[inline(always)]
    fn mul(self, other: Q<B, T>) -> Self::Output {
        Q::make(self.value * other.value, self.trace.binary(Op::Mul, other.trace))
    }
}
impl<A: Over<B>, B, T: Trace> Div<Q<B, T>> for Q<A, T> {
    type Output = Q<A::Quotient, T>;
    #[inline(always)]
    fn div(self, other: Q<B, T>) -> Self::Output {
        Q::make(self.value / other.value, self.trace.binary(Op::Div, other.trace))
    }
}
impl<D> Neg for Q<D> {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.value)
    }
}

// Bare numbers mix in on either side; they are ratios.
impl<D, T: Trace> Mul<Q<D, T>> for f64 {
    type Output = Q<D, T>;
    #[inline(always)]
    fn mul(self, other: Q<D, T>) -> Q<D, T> {
        Q::make(self * other.value, other.trace.literal(self, &NONE).binary(Op::Mul, other.trace))
    }
}
impl<D, T: Trace> Div<f64> for Q<D, T> {
    type Output = Self;
    #[inline(always)]
    fn div(self, other: f64) -> Self {
        Self::make(self.value / other, self.trace.binary(Op::Div, self.trace.literal(other, &NONE)))
    }
}
impl<D, T: Trace> Div<Q<D, T>> for f64
where
    Dim<Z0, Z0, Z0>: Over<D>,
{
    type Output = Q<<Dim<Z0, Z0, Z0> as Over<D>>::Quotient, T>;
    #[inline(always)]
    fn div(self, other: Q<D, T>) -> Self::Output {
        Q::make(self / other.value, other.trace.literal(self, &NONE).binary(Op::Div, other.trace))
    }
}
impl<T: Trace> Add<Ratio<T>> for f64 {
    type Output = Ratio<T>;
    #[inline(always)]
    fn add(self, other: Ratio<T>) -> Ratio<T> {
        Q::make(self + other.value, other.trace.literal(self, &NONE).binary(Op::Add, other.trace))
    }
}
impl<T: Trace> Sub<Ratio<T>> for f64 {
    type Output = Ratio<T>;
    #[inline(always)]
    fn sub(self, other: Ratio<T>) -> Ratio<T> {
        Q::make(self - other.value, other.trace.literal(self, &NONE).binary(Op::Sub, other.trace))
    }
}

/// The smaller of two like quantities.
#[inline(always)]
pub fn min<D, T: Trace>(a: Q<D, T>, b: Q<D, T>) -> Q<D, T> {
    Q::make(a.value.min(b.value), a.trace.binary(Op::Min, b.trace))
}
/// The larger of two like quantities.
#[inline(always)]
pub fn max<D, T: Trace>(a: Q<D, T>, b: Q<D, T>) -> Q<D, T> {
    Q::make(a.value.max(b.value), a.trace.binary(Op::Max, b.trace))
}
/// `√q`
#[inline(always)]
pub fn sqrt<D: Root, T: Trace>(q: Q<D, T>) -> Q<D::Root, T> {
    Q::make(q.value.sqrt(), q.trace.unary(Op::Sqrt))
}
/// `q²`
#[inline(always)]
pub fn sq<D: Times<D>, T: Trace>(q: Q<D, T>) -> Q<D::Product, T> {
    Q::make(q.value * q.value, q.trace.unary(Op::Square))
}
/// `q³`
#[inline(always)]
pub fn cube<D: Times<D>, T: Trace>(q: Q<D, T>) -> Q<<D::Product as Times<D>>::Product, T>
where
    D::Product: Times<D>,
{
    Q::make(q.value * q.value * q.value, q.trace.unary(Op::Cube))
}
/// `qⁿ`, of a ratio.
#[inline(always)]
pub fn pow<T: Trace>(q: Ratio<T>, n: f64) -> Ratio<T> {
    Q::make(libm::pow(q.value, n), q.trace.unary(Op::Power(n)))
}
/// `ln q`, of a ratio.
#[inline(always)]
pub fn ln<T: Trace>(q: Ratio<T>) -> Ratio<T> {
    Q::make(libm::log(q.value), q.trace.unary(Op::Ln))
}
/// The number of `unit`s in `q` to a power, as so many of the unit again: for clauses that say so. The line must be coherent in the unit.
#[inline(always)]
pub fn raised<D, T: Trace>(q: Q<D, T>, power: Ratio<T>, unit: &Unit) -> Q<D, T> {
    Q::make(libm::pow(q.value / unit.factor, power.value) * unit.factor, q.trace.binary(Op::Raise, power.trace))
}
/// A number of the clause itself, on the tape of another value.
#[inline(always)]
pub fn number<D, T: Trace>(like: Q<D, T>, value: f64) -> Ratio<T> {
    Q::make(value, like.trace.literal(value, &NONE))
}
/// A quantity of the clause itself (0.375 in), on the tape of another value.
#[inline(always)]
pub fn quantity<D, E, T: Trace>(like: Q<E, T>, number: f64, unit: &'static Unit) -> Q<D, T> {
    let value = number * unit.factor;
    Q::make(value, like.trace.literal(value, unit))
}
/// A plain ratio.
pub const fn ratio(value: f64) -> Ratio {
    Q::new(value)
}

impl<D, T> fmt::Debug for Q<D, T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.value)
    }
}

impl<D> PartialEq for Q<D> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}

/// How a symbol of a code is written: on paper, in plain characters, and said.
///
/// One row of a code's `notation`. Its dimension is checked by rustc where a value is given the symbol.
#[derive(Debug)]
pub struct Letter {
    /// In plain characters, as in the results document: `F'_b`.
    pub plain: &'static str,
    /// As Typst math: `F'_b`.
    pub typst: &'static str,
    /// In words, for those who cannot see it: `F b prime`.
    pub words: &'static str,
    /// Its dimension.
    pub exponents: Exponents,
    /// The unit it is shown in, where that is not the coherent one.
    pub shown: &'static Unit,
}
