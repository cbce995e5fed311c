//! The files of reference values: one slice lists them all.

use crate::tables;

tables! {
    /// Customary sections.
    SIZES = "en336-sizes.csv";
    /// Series of customary sections.
    SERIES = "en336-series.csv";
    /// Strength classes of solid timber.
    SOLID_2016 = "en338-2016.csv";
    /// The same, of the edition before.
    SOLID_2009 = "en338-2009.csv";
    /// Strength classes of glued laminated timber.
    GLULAM = "en14080-2013.csv";
    /// Modification factors.
    K_MOD = "en1995-3.1-kmod.csv";
    /// Deformation factors.
    K_DEF = "en1995-3.2-kdef.csv";
    /// Size factors.
    K_H = "en1995-3-kh.csv";
    /// System strength factor.
    K_SYS = "en1995-6.6-ksys.csv";
    /// Effective lengths for lateral buckling.
    EFFECTIVE_LENGTH = "en1995-6.1-effective-length.csv";
    /// Contact lengths and factor of bearings.
    BEARING = "en1995-6.1.5-bearing.csv";
    /// Factor of bending about both axes.
    K_M = "en1995-6.1.6-km.csv";
    /// Factor of notched members.
    NOTCH = "en1995-6.5-notch.csv";
    /// Countries.
    COUNTRIES = "countries.csv";
    /// Partial factors of materials.
    GAMMA_M = "en1995-2.3-gamma-m.csv";
    /// Crack factors.
    K_CR = "en1995-6.1.7-kcr.csv";
    /// Duration classes of actions.
    DURATIONS = "en1995-2.2-durations.csv";
    /// Limits of deflection.
    LIMITS = "en1995-7.2-limits.csv";
    /// Vibration of floors.
    VIBRATION = "en1995-7.3.3-vibration.csv";
    /// Companion factors.
    PSI = "en1990-a1.1-psi.csv";
    /// Partial factors of actions, strength.
    SET_B = "en1990-a1.2b-factors.csv";
    /// Partial factors of actions, equilibrium.
    SET_A = "en1990-a1.2a-factors.csv";
    /// Categories of use.
    CATEGORIES = "en1991-1-1-6.2-categories.csv";
}

#[cfg(test)]
mod tests;
