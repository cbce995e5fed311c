//! The table of units.

use super::{Exponents, Q, Ratio};

/// A unit: what it is called and how many N, mm and s it is.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// Its name as printed and in the results document.
    pub name: &'static str,
    /// Other ways in which a job file may write it.
    pub also: &'static [&'static str],
    /// Its dimension.
    pub exponents: Exponents,
    /// One of it in N, mm and s.
    pub factor: f64,
    /// What it measures, where the dimension alone does not say: a stress or a load on a surface.
    pub kind: &'static str,
}

impl Unit {
    /// So many of this unit. The dimension is the caller's to get right; a debug build asserts it.
    pub fn of<D: super::Dimension>(&self, number: f64) -> Q<D> {
        debug_assert_eq!(D::EXPONENTS, self.exponents, "{} is not of this dimension", self.name);
        Q::new(number * self.factor)
    }

    /// How many of this unit a number in N, mm and s is.
    pub fn number(&self, value: f64) -> f64 {
        value / self.factor
    }
}

const INCH: f64 = 25.4;
const POUND: f64 = 4.448_221_615_260_5;

/// The words for what a quantity is, as they stand in messages.
pub mod kinds {
    /// Length.
    pub const LENGTH: &str = "length";
    /// Force.
    pub const FORCE: &str = "force";
    /// Load on a surface.
    pub const AREA_LOAD: &str = "load on a surface";
    /// Load along a line.
    pub const LINE_LOAD: &str = "load along a line";
    /// Stress.
    pub const STRESS: &str = "stress";
    /// Moment.
    pub const MOMENT: &str = "moment";
    /// Density.
    pub const DENSITY: &str = "weight per volume";
    /// A surface.
    pub const AREA: &str = "area";
    /// Mass on a surface, by its weight.
    pub const MASS: &str = "mass on a surface";
    /// Bending stiffness of a width.
    pub const WIDTH_STIFFNESS: &str = "bending stiffness of a width";
    /// Geometry of sections.
    pub const SECTION: &str = "property of a section";
}
use kinds::{AREA, AREA_LOAD, DENSITY, FORCE, LENGTH, LINE_LOAD, MASS, MOMENT, SECTION, STRESS, WIDTH_STIFFNESS};

macro_rules! units {
    ($($(#[$doc:meta])* $id:ident = $name:literal, [$($also:literal),*], [$l:literal, $f:literal], $factor:expr, $kind:expr;)*) => {
        $(
            #[doc = concat!("`", $name, "`")]
            pub static $id: Unit = Unit { name: $name, also: &[$($also),*], exponents: [$l, $f, 0], factor: $factor, kind: $kind };
        )*
        /// Every unit that a job file may use; a unit of two kinds (psf, psi) may be used for both.
        pub static UNITS: &[&Unit] = &[$(&$id),*];
    };
}

units! {
    IN = "in", ["inch", "inches", "\""], [1, 0], INCH, LENGTH;
    FT = "ft", ["foot", "feet", "'"], [1, 0], 12.0 * INCH, LENGTH;
    MM = "mm", [], [1, 0], 1.0, LENGTH;
    CM = "cm", [], [1, 0], 10.0, LENGTH;
    M = "m", ["metre", "metres", "meter", "meters"], [1, 0], 1000.0, LENGTH;
    LBF = "lbf", ["lb", "lbs"], [0, 1], POUND, FORCE;
    KIP = "kip", ["kips"], [0, 1], 1000.0 * POUND, FORCE;
    N = "N", [], [0, 1], 1.0, FORCE;
    KN = "kN", [], [0, 1], 1000.0, FORCE;
    KGF = "kgf", [], [0, 1], 9.806_65, FORCE;
    PSF = "psf", ["lbf/ft2", "lb/ft2"], [-2, 1], POUND / (144.0 * INCH * INCH), AREA_LOAD;
    KSF = "ksf", ["kip/ft2"], [-2, 1], 1000.0 * POUND / (144.0 * INCH * INCH), AREA_LOAD;
    KPA = "kPa", ["kN/m2"], [-2, 1], 1e-3, AREA_LOAD;
    PA = "Pa", ["N/m2"], [-2, 1], 1e-6, AREA_LOAD;
    KGF_PER_M2 = "kgf/m2", [], [-2, 1], 9.806_65e-6, AREA_LOAD;
    PLF = "plf", ["lbf/ft", "lb/ft", "lbs/ft"], [-1, 1], POUND / (12.0 * INCH), LINE_LOAD;
    PLI = "lbf/in", ["lb/in", "pli"], [-1, 1], POUND / INCH, LINE_LOAD;
    KLF = "klf", ["kip/ft"], [-1, 1], 1000.0 * POUND / (12.0 * INCH), LINE_LOAD;
    KN_PER_M = "kN/m", ["N/mm"], [-1, 1], 1.0, LINE_LOAD;
    N_PER_M = "N/m", [], [-1, 1], 1e-3, LINE_LOAD;
    KGF_PER_M = "kgf/m", [], [-1, 1], 9.806_65e-3, LINE_LOAD;
    PSI = "psi", ["lbf/in2", "lb/in2"], [-2, 1], POUND / (INCH * INCH), STRESS;
    KSI = "ksi", [], [-2, 1], 1000.0 * POUND / (INCH * INCH), STRESS;
    MPA = "MPa", ["N/mm2"], [-2, 1], 1.0, STRESS;
    GPA = "GPa", ["kN/mm2"], [-2, 1], 1000.0, STRESS;
    LBF_FT = "lbf ft", ["lbf.ft", "lbf-ft", "ft-lbf", "lb.ft", "lb-ft", "ft-lb", "ft.lbf", "lb ft"], [1, 1], POUND * 12.0 * INCH, MOMENT;
    LBF_IN = "lbf in", ["lbf.in", "lbf-in", "in-lbf", "lb.in", "in-lb", "lb-in"], [1, 1], POUND * INCH, MOMENT;
    KIP_FT = "kip ft", ["kip.ft", "kip-ft"], [1, 1], 12_000.0 * POUND * INCH, MOMENT;
    KN_M = "kN m", ["kN.m", "kN-m", "kNm"], [1, 1], 1e6, MOMENT;
    N_M = "N m", ["N.m", "N-m", "Nm"], [1, 1], 1e3, MOMENT;
    KIP_IN = "kip in", ["kip.in", "kip-in"], [1, 1], 1000.0 * POUND * INCH, MOMENT;
    PCF = "pcf", ["lbf/ft3", "lb/ft3"], [-3, 1], POUND / (1728.0 * INCH * INCH * INCH), DENSITY;
    KN_PER_M3 = "kN/m3", [], [-3, 1], 1e-6, DENSITY;
    KG_PER_M3 = "kg/m3", [], [-3, 1], 9.81e-9, DENSITY;
    FT2 = "ft2", ["sf", "sqft"], [2, 0], 144.0 * INCH * INCH, AREA;
    M2 = "m2", [], [2, 0], 1e6, AREA;
    KG_ON_M2 = "kg/m2", [], [-2, 1], 9.81e-6, MASS;
    KN_M2_PER_M = "kN m2/m", ["kN.m2/m", "kNm2/m"], [1, 1], 1e6, WIDTH_STIFFNESS;
    N_M2_PER_M = "N m2/m", ["N.m2/m", "Nm2/m"], [1, 1], 1e3, WIDTH_STIFFNESS;
    IN2 = "in2", [], [2, 0], INCH * INCH, SECTION;
    IN3 = "in3", [], [3, 0], INCH * INCH * INCH, SECTION;
    IN4 = "in4", [], [4, 0], INCH * INCH * INCH * INCH, SECTION;
    MM2 = "mm2", [], [2, 0], 1.0, SECTION;
    MM3 = "mm3", [], [3, 0], 1.0, SECTION;
    MM4 = "mm4", [], [4, 0], 1.0, SECTION;
}

/// Stress and stiffness as the Eurocodes print them; a job file reads `MPa` and `N/mm2` alike.
pub static N_PER_MM2: Unit = Unit { name: "N/mm2", also: &[], exponents: [-2, 1, 0], factor: 1.0, kind: STRESS };

/// Frequency.
pub static HZ: Unit = Unit { name: "Hz", also: &[], exponents: [0, 0, -1], factor: 1.0, kind: "frequency" };
/// Mass.
pub static KG: Unit = Unit { name: "kg", also: &[], exponents: [-1, 1, 2], factor: 1e-3, kind: "mass" };
/// Mass on a surface, as mass; a job file gives it by its weight.
pub static KG_PER_M2: Unit = Unit { name: "kg/m2", also: &[], exponents: [-3, 1, 2], factor: 1e-9, kind: MASS };
/// Acceleration.
pub static M_PER_S2: Unit = Unit { name: "m/s2", also: &[], exponents: [1, 0, -2], factor: 1000.0, kind: "acceleration" };
/// Velocity by a unit impulse.
pub static M_PER_NS2: Unit =
    Unit { name: "m/(N s2)", also: &[], exponents: [1, -1, -2], factor: 1000.0, kind: "velocity by a unit impulse" };
/// A second that a clause leaves unsaid: EN 1995-1-1 (7.4) takes a frequency as its number of Hz.
pub static SECOND: Unit = Unit { name: "", also: &[], exponents: [0, 0, 1], factor: 1.0, kind: "time" };

/// The unit of a number without dimension.
pub static NONE: Unit = Unit { name: "", also: &[], exponents: [0, 0, 0], factor: 1.0, kind: "number" };

impl From<f64> for Ratio {
    fn from(number: f64) -> Self {
        Self::new(number)
    }
}
