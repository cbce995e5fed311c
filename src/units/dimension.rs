//! Dimensions as types: exponents of length, force and time.

use std::marker::PhantomData;

/// Exponents of length, force and time.
pub type Exponents = [i8; 3];

/// A dimension: whole exponents of length, force and time, each from −6 to 6.
pub struct Dim<L, F, S>(PhantomData<(L, F, S)>);

/// No dimension.
pub type Dimensionless = Dim<Z0, Z0, Z0>;

/// The exponents of a dimension type, as numbers.
pub trait Dimension {
    /// Length, force, time.
    const EXPONENTS: Exponents;
}

/// A whole number as a type.
pub trait Int {
    /// The number.
    const N: i8;
}

/// `Self + B`.
pub trait Plus<B> {
    /// The sum.
    type Sum;
}

/// `Self − B`.
pub trait Minus<B> {
    /// The difference.
    type Difference;
}

/// Half of an even number.
pub trait Half {
    /// The half.
    type Half;
}

macro_rules! ints {
    ($($name:ident = $n:literal: [$($sum:tt)*];)*) => {
        $(
            #[doc = concat!("The exponent ", stringify!($n), ".")]
            pub struct $name;
            impl Int for $name { const N: i8 = $n; }
            ints!(@row $name [N6 N5 N4 N3 N2 N1 Z0 P1 P2 P3 P4 P5 P6] [$($sum)*]);
        )*
    };
    (@row $a:ident [] []) => {};
    (@row $a:ident [$b:ident $($rest:ident)*] [_ $($sums:tt)*]) => { ints!(@row $a [$($rest)*] [$($sums)*]); };
    (@row $a:ident [$b:ident $($rest:ident)*] [$c:ident $($sums:tt)*]) => {
        impl Plus<$b> for $a { type Sum = $c; }
        impl Minus<$b> for $c { type Difference = $a; }
        ints!(@row $a [$($rest)*] [$($sums)*]);
    };
}

// A row is a number with its sums with −6 … 6, a stroke where the sum leaves the range.
ints! {
    N6 = -6: [_  _  _  _  _  _  N6 N5 N4 N3 N2 N1 Z0];
    N5 = -5: [_  _  _  _  _  N6 N5 N4 N3 N2 N1 Z0 P1];
    N4 = -4: [_  _  _  _  N6 N5 N4 N3 N2 N1 Z0 P1 P2];
    N3 = -3: [_  _  _  N6 N5 N4 N3 N2 N1 Z0 P1 P2 P3];
    N2 = -2: [_  _  N6 N5 N4 N3 N2 N1 Z0 P1 P2 P3 P4];
    N1 = -1: [_  N6 N5 N4 N3 N2 N1 Z0 P1 P2 P3 P4 P5];
    Z0 = 0:  [N6 N5 N4 N3 N2 N1 Z0 P1 P2 P3 P4 P5 P6];
    P1 = 1:  [N5 N4 N3 N2 N1 Z0 P1 P2 P3 P4 P5 P6 _ ];
    P2 = 2:  [N4 N3 N2 N1 Z0 P1 P2 P3 P4 P5 P6 _  _ ];
    P3 = 3:  [N3 N2 N1 Z0 P1 P2 P3 P4 P5 P6 _  _  _ ];
    P4 = 4:  [N2 N1 Z0 P1 P2 P3 P4 P5 P6 _  _  _  _ ];
    P5 = 5:  [N1 Z0 P1 P2 P3 P4 P5 P6 _  _  _  _  _ ];
    P6 = 6:  [Z0 P1 P2 P3 P4 P5 P6 _  _  _  _  _  _ ];
}

macro_rules! halves { ($($n:ident: $half:ident),*) => { $(impl Half for $n { type Half = $half; })* } }
halves!(N6: N3, N4: N2, N2: N1, Z0: Z0, P2: P1, P4: P2, P6: P3);

impl<L: Int, F: Int, S: Int> Dimension for Dim<L, F, S> {
    const EXPONENTS: Exponents = [L::N, F::N, S::N];
}

/// The dimension of a product.
#[diagnostic::on_unimplemented(message = "the product of `{Self}` and `{B}` leaves the range of exponents")]
pub trait Times<B> {
    /// `Self × B`.
    type Product;
}

/// The dimension of a quotient.
#[diagnostic::on_unimplemented(message = "the quotient of `{Self}` and `{B}` leaves the range of exponents")]
pub trait Over<B> {
    /// `Self / B`.
    type Quotient;
}

/// The dimension of a square root.
#[diagnostic::on_unimplemented(message = "`{Self}` has an odd exponent: it has no square root")]
pub trait Root {
    /// `√Self`.
    type Root;
}

impl<L: Plus<M>, F: Plus<G>, S: Plus<R>, M, G, R> Times<Dim<M, G, R>> for Dim<L, F, S> {
    type Product = Dim<L::Sum, F::Sum, S::Sum>;
}

impl<L: Minus<M>, F: Minus<G>, S: Minus<R>, M, G, R> Over<Dim<M, G, R>> for Dim<L, F, S> {
    type Quotient = Dim<L::Difference, F::Difference, S::Difference>;
}

impl<L: Half, F: Half, S: Half> Root for Dim<L, F, S> {
    type Root = Dim<L::Half, F::Half, S::Half>;
}
