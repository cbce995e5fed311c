//! Which values of a material the checks of a member read: an engineer's own material is asked for these, and for no others (reading 41).

use super::section::Resolved as Section;
use crate::codes::assumed;
use crate::job::model::{Arrival, Axis, Job, LoadKind, Member, Standing};

/// What the checks of a member read beside bearing across the grain.
#[derive(Clone, Copy, Debug)]
pub(super) struct Needs {
    /// Bending, shear, deflection and stability: all but a plate.
    pub bending: bool,
    /// F_c: columns, and bearing at an angle to the grain.
    pub along: bool,
    /// Bending with the top in tension.
    pub hogging: bool,
    /// Bending, shear and stiffness about the weak axis.
    pub weak: bool,
    /// Bearing on the side of a glued member laid flat.
    pub side: bool,
    /// Stability about the weak axis: lateral buckling of a beam, buckling of a column.
    pub stability: bool,
}

impl Needs {
    /// Of a member with a section.
    pub(super) fn of(job: &Job, member: &Member, section: &Section) -> Self {
        let flat = member.conditions.flat.is_some();
        match &member.standing {
            Some(standing) => Self {
                bending: true,
                along: true,
                hogging: bends(member, Axis::Strong),
                weak: bends(member, Axis::Weak),
                side: false,
                stability: buckles(standing),
            },
            None => {
                let hogging = assumed::may_hog(job, member);
                let slender = !flat && !section.depth.at_most(f64::from(member.plies.value) * section.width);
                Self {
                    bending: true,
                    along: member.slope.is_some(),
                    hogging,
                    weak: member.tilt.is_some() || flat,
                    side: flat,
                    stability: slender && assumed::may_turn_over(job, member),
                }
            }
        }
    }

    /// Of a plate under a post or stud: bearing across the grain alone.
    pub(super) const fn of_plate() -> Self {
        Self { bending: false, along: false, hogging: false, weak: false, side: false, stability: false }
    }
}

/// Whether a column may buckle about its weak axis, or turn over when it is bent about its strong one.
fn buckles(standing: &Standing) -> bool {
    !standing.weak.is_throughout() || standing.effective_weak.is_some()
}

/// Whether a post, stud or tie is bent about an axis.
fn bends(member: &Member, axis: Axis) -> bool {
    member.loads.iter().any(|load| match &load.kind {
        LoadKind::Line { about, .. } | LoadKind::Point { about, .. } | LoadKind::Moment { about, .. } => *about == axis,
        LoadKind::Axial { eccentricity, .. } | LoadKind::Reaction { arrives: Arrival::Head { eccentricity, .. }, .. } => match axis {
            Axis::Strong => eccentricity.strong.is_some(),
            Axis::Weak => eccentricity.weak.is_some(),
        },
        LoadKind::Area { .. } | LoadKind::Reaction { .. } => axis == Axis::Strong,
        LoadKind::Thrust { .. } => false,
    })
}
