//! The size factor of sawn lumber, and what of it an engineer's own values take. NDS 4.3.6, reading 65.

use super::{ONE, Reader};
use crate::codes::american::material::{Class, size_in_words};
use crate::codes::american::{notation, section, tables};
use crate::equation::Symbol;
use crate::job::model::HoldsFor;
use crate::table::Row;
use crate::units::{Dimensionless, IN, Length, Ratio};

/// What own values take of a size factor, and why: all of it where they are tabulated ones; else what it is below 1, from the depth that
/// they hold for (reading 65). `here`: of the member; `at`: of a depth; `source`: where the factor comes from.
fn of_own(holds_for: HoldsFor, here: f64, at: impl Fn(Length) -> f64, source: &str) -> (f64, String) {
    let (reference, source) = match holds_for {
        HoldsFor::Table(_) => return (here, format!("{source}; tabulated value")),
        HoldsFor::Member => (1.0, source.to_owned()),
        HoldsFor::Depth(depth, _) => {
            (at(depth), format!("{source}, over that of {} in, which the value holds for", section::inches(depth)))
        }
    };
    let factor = here / reference;
    if factor > 1.0 { (1.0, format!("{source}: above 1, not taken of an own value")) } else { (factor, source) }
}

impl Reader<'_> {
    /// C_F on F_b and F_c. NDS 4.3.6.
    pub(super) fn size(&mut self) -> (Ratio, Ratio) {
        let alone = |because: &str| (ONE, ONE, because.to_owned());
        let (b, c, reference, because) = match self.material.class {
            Class::Dimension | Class::Custom => {
                return (self.size_of_dimension("F_b", &notation::C_F_b), self.size_of_dimension("F_c", &notation::C_F_c));
            }
            Class::Timber | Class::CustomTimber => return (self.size_of_timber(), ONE),
            Class::SouthernPine => {
                let row = self.southern_pine();
                let (b, c) = (row.as_ref().and_then(|r| r.number("F_b")), row.as_ref().and_then(|r| r.number("F_c")));
                (self.keep(b), self.keep(c), "NDS 4.3.6, Supp. Table 4B", "size is in the reference value".to_owned())
            }
            Class::Laminated | Class::Composite => {
                let (b, c, because) = alone("the volume factor stands for it");
                (b, c, "NDS 5.3.6", because)
            }
            Class::Rated => {
                let (b, c, because) = alone("machine stress rated");
                (b, c, "NDS 4.3.6, Supp. Table 4C", because)
            }
        };
        self.facts.state(&notation::C_F_b, reference, because.clone());
        self.facts.state(&notation::C_F_c, reference, because);
        (b, c)
    }

    /// C_F on F_t, of posts, studs and ties. NDS 4.3.6.
    pub(super) fn size_in_tension(&mut self) -> Ratio {
        match self.material.class {
            _ if self.entry.standing.is_none() => ONE,
            Class::Dimension | Class::Custom => self.size_of_dimension("F_t", &notation::C_F_t),
            Class::SouthernPine => {
                self.facts.state(&notation::C_F_t, "NDS 4.3.6", "size is in the reference value");
                let found = self.southern_pine().and_then(|row| row.number("F_t"));
                self.keep(found)
            }
            Class::Rated | Class::Timber | Class::CustomTimber | Class::Laminated | Class::Composite => {
                self.facts.state(&notation::C_F_t, "NDS 4.3.6", "no size factor on F_t");
                ONE
            }
        }
    }

    /// C_F of Table 4A on a property; own values take their part of that of No.2.
    fn size_of_dimension(&mut self, property: &str, letter: &'static Symbol<Dimensionless>) -> Ratio {
        let grade = if self.material.grade.is_empty() { "No.2" } else { self.material.grade.as_str() };
        let (thickness, width) = self.section.nominal;
        let row = |width: f64| {
            let at = [("thickness", IN.factor * thickness), ("width", IN.factor * width)];
            let row = tables::SIZE.row_at(&[("grade", grade)], &at);
            match row.as_ref().and_then(|r| r.text("use_grade")) {
                Some(other) => tables::SIZE.row_at(&[("grade", other)], &at),
                None => row,
            }
        };
        let size = size_in_words(self.section);
        let table = self.keep(row(width).and_then(|r| r.number(property)));
        let Some(holds_for) = self.material.holds_for else {
            self.facts.state(letter, "NDS 4.3.6, Supp. Table 4A", size);
            return table;
        };
        let at = |depth: Length| row(section::nominal_of(depth.number_in(&IN))).and_then(|r| r.bare(property)).unwrap_or(f64::NAN);
        let (factor, because) = of_own(holds_for, table.value(), at, &format!("{size}, as No.2"));
        self.facts.state(letter, "NDS 4.3.6, Supp. Table 4A", because);
        Ratio::new(factor)
    }

    fn southern_pine(&self) -> Option<Row<'static>> {
        let (thickness, width) = self.section.nominal;
        tables::SIZE_SOUTHERN_PINE.row_at(&[], &[("thickness", IN.factor * thickness), ("width", IN.factor * width)])
    }

    /// C_F of a timber on F_b: of one that is deeper than 12 in and loaded on its narrow face. NDS 4.3.6.2.
    fn size_of_timber(&mut self) -> Ratio {
        let row = tables::SIZE_TIMBERS.row(&[("property", "F_b")]);
        let number = |column: &str| row.as_ref().and_then(|r| r.bare(column)).unwrap_or(f64::NAN);
        let (above, reference, root) = (number("d_above"), number("d_reference"), number("root"));
        let factor = |inches: f64| if inches > above + 1e-9 { libm::pow(reference / inches, 1.0 / root) } else { 1.0 };
        let inches = self.section.depth.number_in(&IN);
        let (factor, because) = match self.material.holds_for {
            _ if self.entry.conditions.flat.is_some() => (1.0, "load on the wide face".to_owned()),
            Some(holds_for @ HoldsFor::Depth(..)) => {
                of_own(holds_for, factor(inches), |depth| factor(depth.number_in(&IN)), &format!("({reference}/d)^(1/{root})"))
            }
            _ if inches > above + 1e-9 => (factor(inches), format!("{reference}/{inches} to the power of 1/{root}")),
            _ => (1.0, format!("depth at most {above} in")),
        };
        self.facts.state(&notation::C_F_b, "NDS 4.3.6.2", because.clone());
        self.facts.state(&notation::C_F_c, "NDS 4.3.6.2", because);
        Ratio::new(factor)
    }
}
