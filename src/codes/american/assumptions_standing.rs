//! What a post, stud or tie takes for granted, for the assumption register.

use super::glued::Layup;
use super::prepared::Bending;
use super::{assumptions, limits};
use crate::codes::Assumed;
use crate::job::model::{Arrival, Bracing, EndHeld, Job, LoadKind, Member, Moisture, Nature, Standing, Use};

/// The assumptions of a member.
pub(super) fn of(job: &Job, member: &Member, standing: &Standing, base: &Bending) -> Vec<Assumed> {
    // What goes with the material is the same as of any bending member.
    let mut list: Vec<Assumed> = base.assumes.iter().filter(|assumed| assumptions::OF_MATERIAL.contains(&assumed.topic)).cloned().collect();
    let mut say = |topic, text: &str, from: &str, confirm: &str, open| {
        list.push(Assumed { topic, text: text.to_owned(), from: from.to_owned(), confirm: confirm.to_owned(), open });
    };
    let preparer = job.about.prepared_by.clone().unwrap_or_else(|| "engineer of record".to_owned());
    let preparer = preparer.as_str();
    let wet = member.conditions.moisture.unwrap_or(job.basis.moisture) == Moisture::Wet;
    let laminated = matches!(base.layup(), Some(Layup::Laminated { .. }));
    say("moisture", assumptions::moisture(laminated, wet), "job", preparer, false);
    if laminated {
        let text = "Which face of a laminated post, stud or tie is its top is not said: where the layup is not balanced, bending about the \
             strong axis takes the value of the edge that may be stretched less.";
        say("top", text, "default", "", false);
        say("volume", "The volume factor of bending takes the whole length.", "reading 25", "", false);
    }
    if matches!(base.layup(), Some(Layup::Composite { .. })) {
        let text = "F_t of structural composite lumber is what its report gives for a member of this length, and F_by, where it is given, what \
             the report gives for loads on the wide face: no factor of size is applied to either. E and E_min hold about both axes where no other is given.";
        say("composite values", text, "reading 41", preparer, true);
    }
    for (topic, bracing, axis) in [("weak axis", &standing.weak, "weak"), ("strong axis", &standing.strong, "strong")] {
        let text = match bracing {
            Bracing::Sheathed => format!("Sheathing holds it throughout from buckling about the {axis} axis."),
            Bracing::Continuous => format!("It is held throughout from buckling about the {axis} axis, by other means than sheathing."),
            Bracing::None => continue,
            Bracing::Every(_) | Bracing::Places(_) => {
                format!("It is held from buckling about the {axis} axis at the points shown on the sheet.")
            }
        };
        say(topic, &text, "job", preparer, false);
    }
    if standing.has_free_end() {
        say("ends", "The free end is not held at all; the other one is fixed, and what fixes it is by others.", "job", preparer, true);
    } else {
        say("ends", "The ends are held from moving sideways (NDS Appendix G); by what is shown elsewhere.", "default", preparer, true);
        if standing.top == EndHeld::Fixed || standing.bottom == EndHeld::Fixed {
            say(
                "fixed ends",
                "A fixed end counts for buckling only; side loads bend the member as if it were pinned.",
                "default",
                "",
                false,
            );
        }
    }
    if standing.effective_strong.is_some() || standing.effective_weak.is_some() {
        say("effective length", "Effective lengths decided by hand are taken as they are (K_e 1.0).", "reading 10", preparer, true);
    }
    if standing.joined.is_some() {
        say(
            "plies",
            "The plies are of one depth and grade, run the full length and are joined as NDS 15.3.3 or 15.3.4 asks.",
            "job",
            preparer,
            true,
        );
        say("plies across", "Bent about the weak axis each ply bends for itself.", "reading 8", "", false);
    } else if member.plies.value > 1 {
        say("plies", "Nothing joins the plies: each one buckles for itself.", "reading 8", "", false);
    }
    if member.role != Use::Tie {
        say(
            "force",
            "The force at the foot, own weight in it, acts over the whole length; its moment by side loads at the worst place.",
            "reading 10",
            "",
            false,
        );
    }
    if is_eccentric(member) {
        say(
            "eccentricity",
            "The moment of an eccentric force is whole at the top and falls to nothing at the foot; the greatest moments of both axes are taken \
             together, with either sign. What comes and goes is tried on one side of the axis only, the force staying whole.",
            "reading 10",
            preparer,
            false,
        );
    }
    let row =
        |load: &crate::job::model::Load| matches!(&load.kind, LoadKind::Reaction { arrives: Arrival::Head { every: Some(_), .. }, .. });
    if member.loads.iter().any(row) {
        say(
            "row",
            "A row of reactions on a wall loads a stud over its own spacing; the plates between spread it.",
            "reading 45",
            preparer,
            false,
        );
    }
    if member.loads.iter().any(|l| matches!(l.kind, LoadKind::Reaction { .. } | LoadKind::Thrust { .. })) {
        let text = "A received reaction is, by case, that of the load set that makes it largest, then smallest; all stand so together.";
        say("handed down", text, "reading 5", "", false);
    }
    if member.self_weight {
        say("own weight", "Own weight by specific gravity at 19 % moisture (NDS Supplement 3.1.3).", "reading 9", "", false);
    }
    if member.role == Use::Stud && member.system != Some(false) {
        say("repetitive", "Studs are three or more.", "reading 21", preparer, false);
    }
    if member.live_reduction.is_some() {
        say("live load", assumptions::REDUCED, "job", preparer, false);
    }
    if member.roof_live_reduction.is_some() {
        say("roof live load", assumptions::ROOF_REDUCED, "job", preparer, false);
    }
    let natures = natures(job, member);
    if member.role == Use::Stud && !natures.contains(&Nature::Wind) {
        say("side loads", "No wind is given on this stud: it does not govern, or is added by others.", "default", preparer, true);
    }
    let asked = !member.limits.0.is_empty() || job.basis.limits.iter().any(|(class, _)| class == limits::class(member));
    let text = match (member.role, asked, standing.finish) {
        (Use::Tie, true, _) | (_, true, None) => "Deflection limits as on the basis page and the sheets.",
        (Use::Tie, false, _) => "Deflection limits of IBC Table 1604.3 for floor members.",
        (_, false, None) => "No limit on the deflection of walls is asked for.",
        (_, _, Some(_)) => {
            "Deflection under 0.42 of the wind load, by the finish of the wall (IBC Table 1604.3, note f); wind is that on components."
        }
    };
    let source = if asked || standing.finish.is_some() { "job" } else { "reading 23" };
    say("limits", text, source, preparer, false);
    if super::edition::is_lrfd(&job.basis) && assumptions::has_plain_live(job) {
        say("time effect", assumptions::OCCUPANCY, "default", preparer, true);
    }
    list
}

fn is_eccentric(member: &Member) -> bool {
    member.loads.iter().any(|load| match &load.kind {
        LoadKind::Axial { eccentricity, .. } | LoadKind::Reaction { arrives: Arrival::Head { eccentricity, .. }, .. } => {
            eccentricity.both() != [0.0; 2]
        }
        _ => false,
    })
}

fn natures(job: &Job, member: &Member) -> Vec<Nature> {
    let of = |load: &crate::job::model::Load| match &load.kind {
        LoadKind::Area { area, .. } => job.areas[*area].loads.iter().map(|a| a.case).collect(),
        LoadKind::Line { case, .. } | LoadKind::Point { case, .. } | LoadKind::Moment { case, .. } | LoadKind::Axial { case, .. } => {
            vec![*case]
        }
        LoadKind::Reaction { .. } | LoadKind::Thrust { .. } => Vec::new(),
    };
    member.loads.iter().flat_map(of).map(|case| job.basis.cases[case.0].nature).collect()
}
