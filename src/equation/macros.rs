//! The three macros in which a code's equations are written. None hides control flow.

/// `eq!(f_b = M / S; "NDS 3.3.2")` binds `f_b`, checks its dimension against its letter in `notation`, and makes the line a step.
///
/// A third part says why, where the clause leaves a choice. The module that uses it has `use super::notation;`.
#[macro_export]
macro_rules! eq {
    ($name:ident = $value:expr; $clause:expr) => {
        $crate::eq!($name = $value; $clause; "");
    };
    ($name:ident = $value:expr; $clause:expr; $because:expr) => {
        let $name = notation::$name.is(
            $value,
            $crate::equation::Line { clause: $clause, because: $because, source: stringify!($value) },
        );
    };
}

/// Declares what a check is given: a struct of quantities and, for the pen, its traced twin whose fields print by `notation`.
#[macro_export]
macro_rules! given {
    ($(#[$meta:meta])* $name:ident { $($field:ident: $quantity:ident),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Clone, Copy)]
        #[allow(missing_docs)]
        pub struct $name<T: Copy = ()> { $(pub $field: $quantity<T>),* }

        impl $name {
            /// No value given yet: each is not-a-number, so that a check which reads one that its place does not give has no ratio
            /// and fails.
            #[allow(dead_code)]
            pub(crate) fn blank() -> Self {
                Self { $($field: $quantity::new(f64::NAN)),* }
            }

            /// The same values on a tape.
            pub fn traced<'t>(&self, tape: &'t $crate::equation::Tape) -> $name<$crate::equation::Pen<'t>> {
                $name { $($field: tape.given(&notation::$field, self.$field)),* }
            }

            /// The values with their letters, N, mm and s.
            #[allow(dead_code)]
            fn values(&self) -> impl Iterator<Item = (&'static $crate::equation::Letter, f64)> {
                [$((notation::$field.letter(), self.$field.value())),*].into_iter()
            }
        }
    };
}

/// Declares a code's letters: `f_b: Stress = "f_b", "f_(b)", "f b", &PSI;` (dimension, plain, Typst, words, unit shown).
#[macro_export]
macro_rules! notation {
    ($($name:ident: $quantity:ident = $plain:literal, $typst:literal, $words:literal, $unit:expr;)*) => {
        $(
            #[doc = concat!("`", $plain, "`: ", $words, ".")]
            pub static $name: $crate::equation::Symbol<<$quantity as $crate::equation::OfDimension>::D> =
                $crate::equation::Symbol::new($plain, $typst, $words, $unit);
        )*
    };
}
