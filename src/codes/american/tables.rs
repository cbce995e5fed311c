//! The files of reference values: one slice lists them all.

use crate::tables;

tables! {
    /// Effective length factors.
    END_FACTORS = "nds-g1-effective-length.csv";
    /// Coefficients of columns.
    COLUMNS = "nds-3.7.1-columns.csv";
    /// Coefficients of built-up columns.
    BUILT_UP = "nds-15.3.2-built-up.csv";
    /// Fasteners of built-up columns.
    BUILT_UP_FASTENERS = "nds-15.3-fasteners.csv";
    /// Dressed sizes.
    SIZES = "supplement-1b.csv";
    /// Dimension lumber.
    DIMENSION = "supplement-4a.csv";
    /// Southern Pine dimension lumber, by width.
    SOUTHERN_PINE = "supplement-4b.csv";
    /// Machine stress rated lumber.
    MSR = "supplement-4c.csv";
    /// Shear and bearing of machine stress rated lumber.
    MSR_FOOTNOTE = "supplement-4c-footnote.csv";
    /// Timbers 5x5 and larger.
    TIMBERS = "supplement-4d.csv";
    /// Glued laminated timber made for bending.
    GLULAM = "supplement-5a.csv";
    /// Glued laminated timber made for axial load.
    GLULAM_AXIAL = "supplement-5b.csv";
    /// Axial combinations that are bent deep.
    GLULAM_AXIAL_DEPTH = "supplement-5b-depth.csv";
    /// Finished widths and laminations of glued laminated timber.
    GLULAM_SIZES = "supplement-1c.csv";
    /// Wet service factors of glued laminated timber.
    GLULAM_WET = "supplement-5-wet.csv";
    /// Volume factor: exponents.
    VOLUME = "nds-5.3.6-volume.csv";
    /// Flat use factor of glued laminated timber.
    GLULAM_FLAT = "nds-5.3.7-flat.csv";
    /// Shear reduction factor of glued laminated timber.
    SHEAR_REDUCTION = "nds-5.3.10-shear.csv";
    /// Notch limits of glued laminated timber.
    GLULAM_NOTCHES = "nds-5.4.5-notches.csv";
    /// Size factors of dimension lumber.
    SIZE = "supplement-4a-size.csv";
    /// Size factors of Southern Pine.
    SIZE_SOUTHERN_PINE = "supplement-4b-size.csv";
    /// Flat use factors of dimension lumber.
    FLAT = "supplement-4-flat.csv";
    /// Flat use factors of beams and stringers.
    FLAT_TIMBERS = "supplement-4d-flat.csv";
    /// Wet service factors.
    WET = "supplement-4-wet.csv";
    /// Load duration factors.
    LOAD_DURATION = "nds-2.3.2-duration.csv";
    /// Durations of load cases.
    DURATION_OF_LOADS = "nds-2.3.2-loads.csv";
    /// Temperature factors.
    TEMPERATURE = "nds-2.3.3-temperature.csv";
    /// Effective lengths of bending members.
    EFFECTIVE_LENGTH = "nds-3.3.3-effective-length.csv";
    /// Bearing area factor: where it counts.
    BEARING = "nds-3.10.4-bearing.csv";
    /// Creep factors.
    CREEP = "nds-3.5.2-creep.csv";
    /// Which factor applies to which value.
    APPLICABILITY = "nds-4.3.1-applicability.csv";
    /// Size factor of deep timbers.
    SIZE_TIMBERS = "nds-4.3.6-size.csv";
    /// Incising factors.
    INCISING = "nds-4.3.8-incising.csv";
    /// Repetitive member factor.
    REPETITIVE = "nds-4.3.9-repetitive.csv";
    /// Notch limits.
    NOTCHES = "nds-4.4.3-notches.csv";
    /// Format conversion and resistance factors.
    LRFD = "nds-n-lrfd.csv";
    /// Time effect factors.
    TIME_EFFECT = "nds-n3-time-effect.csv";
    /// Combinations.
    ASCE7_16_ASD = "asce7-16-asd.csv";
    /// Combinations.
    ASCE7_16_LRFD = "asce7-16-lrfd.csv";
    /// Combinations.
    ASCE7_22_ASD = "asce7-22-asd.csv";
    /// Combinations.
    ASCE7_22_LRFD = "asce7-22-lrfd.csv";
    /// Live load element factors.
    LIVE_ELEMENTS = "asce7-4.7-elements.csv";
    /// Limits of the reduction of live load.
    LIVE_LIMITS = "asce7-4.7-limits.csv";
    /// Reduction of roof live load.
    ROOF_LIVE = "asce7-4.8-roof-live.csv";
    /// Deflection limits.
    DEFLECTION = "ibc-1604.3-deflection.csv";
    /// The part of the wind load that counts in the deflection of walls.
    DEFLECTION_WIND = "ibc-1604.3-wind.csv";
    /// The dead load that counts in total deflection.
    DEFLECTION_CREEP = "ibc-1604.3-creep.csv";
}

#[cfg(test)]
mod tests;
