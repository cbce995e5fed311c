//! What a post, stud or tie takes for granted, for the assumption register.

use super::assumptions;
use super::glued::Layup;
use super::prepared::Bending;
use crate::codes::assumed::{Assuming, natures_of};
use crate::codes::{Assumed, Origin};
use crate::job::model::{Arrival, Bracing, DeflectionOf, EndHeld, Job, LoadKind, Member, Moisture, Nature, Standing, Use};

/// The assumptions of a member.
pub(super) fn of(job: &Job, member: &Member, standing: &Standing, base: &Bending) -> Vec<Assumed> {
    // What goes with the material is the same as of any bending member.
    let mut said = Assuming::of(job, member);
    said.take(base.resolved.assumes.iter().filter(|assumed| assumptions::OF_MATERIAL.contains(&assumed.topic)).cloned());
    let wet = job.moisture(member) == Moisture::Wet;
    of_material(&mut said, wet, base);
    held(&mut said, standing);
    if standing.joined.is_some() {
        said.ask(
            "plies",
            "The plies are of one depth and grade, run the full length and are joined as NDS 15.3.3 or 15.3.4 asks.",
            Origin::JobFile,
        );
        said.say("plies across", "Bent about the weak axis each ply bends for itself.", Origin::Reading(8));
    } else if member.plies.value > 1 {
        said.say("plies", "Nothing joins the plies: each one buckles for itself.", Origin::Reading(8));
    }
    forces(&mut said, member);
    said.handed_down(false);
    if member.self_weight {
        said.say("own weight", "Own weight by specific gravity at 19 % moisture (NDS Supplement 3.1.3).", Origin::Reading(9));
    }
    if member.role == Use::Stud && member.system.as_ref().is_none_or(|said| said.value) {
        said.confirm("repetitive", "Studs are three or more.", Origin::Reading(21));
    }
    if member.live_reduction.is_some() {
        said.confirm("live load", assumptions::REDUCED, Origin::JobFile);
    }
    if member.roof_live_reduction.is_some() {
        said.confirm("roof live load", assumptions::ROOF_REDUCED, Origin::JobFile);
    }
    if member.role == Use::Stud && !natures_of(job, member).any(|nature| nature == Nature::Wind) {
        said.ask("side loads", "No wind is given on this stud: it does not govern, or is added by others.", Origin::Default);
    }
    limits(&mut said, job, member, standing);
    if super::edition::is_lrfd(&job.basis) && assumptions::has_plain_live(job) {
        said.ask("time effect", assumptions::OCCUPANCY, Origin::Default);
    }
    said.list()
}

/// Moisture, and what glued material takes for granted of a column.
fn of_material(said: &mut Assuming<'_>, wet: bool, base: &Bending) {
    let laminated = matches!(base.layup(), Some(Layup::Laminated { .. }));
    said.confirm("moisture", assumptions::moisture(laminated, wet), Origin::JobFile);
    if laminated {
        let text = "Which face of a laminated post, stud or tie is its top is not said: where the layup is not balanced, bending about the \
             strong axis takes the value of the edge that may be stretched less.";
        said.say("top", text, Origin::Default);
        said.say("volume", "The volume factor of bending takes the whole length.", Origin::Reading(25));
    }
    if matches!(base.layup(), Some(Layup::Composite { .. })) {
        let text = "F_t of structural composite lumber is what its report gives for a member of this length, and F_by, where it is given, what \
             the report gives for loads on the wide face: no factor of size is applied to either. E and E_min hold about both axes where no other is given.";
        said.ask("composite values", text, Origin::Reading(41));
    }
}

/// How the ends are held, and the member between them.
fn held(said: &mut Assuming<'_>, standing: &Standing) {
    for (topic, bracing, axis) in [("weak axis", &standing.weak, "weak"), ("strong axis", &standing.strong, "strong")] {
        let text = match bracing {
            Bracing::Sheathed => format!("Sheathing holds it throughout from buckling about the {axis} axis."),
            Bracing::Continuous => format!("It is held throughout from buckling about the {axis} axis, by other means than sheathing."),
            Bracing::None => continue,
            Bracing::Every(_) | Bracing::Places(_) => {
                format!("It is held from buckling about the {axis} axis at the points shown on the sheet.")
            }
        };
        said.confirm(topic, &text, Origin::JobFile);
    }
    if standing.has_free_end() {
        said.ask("ends", "The free end is not held at all; the other one is fixed, and what fixes it is by others.", Origin::JobFile);
    } else {
        said.ask("ends", "The ends are held from moving sideways (NDS Appendix G); by what is shown elsewhere.", Origin::Default);
        if standing.top == EndHeld::Fixed || standing.bottom == EndHeld::Fixed {
            said.say(
                "fixed ends",
                "A fixed end counts for buckling only; side loads bend the member as if it were pinned.",
                Origin::Default,
            );
        }
    }
    if standing.effective_strong.is_some() || standing.effective_weak.is_some() {
        said.ask("effective length", "Effective lengths decided by hand are taken as they are (K_e 1.0).", Origin::Reading(10));
    }
}

/// How forces along the member act.
fn forces(said: &mut Assuming<'_>, member: &Member) {
    if member.role != Use::Tie {
        said.say(
            "force",
            "The force at the foot, own weight in it, acts over the whole length; its moment by side loads at the worst place.",
            Origin::Reading(10),
        );
    }
    if is_eccentric(member) {
        said.confirm("eccentricity", "The moment of an eccentric force is whole at the top and falls to nothing at the foot; the greatest moments of both axes are taken \
             together, with either sign. What comes and goes is tried on one side of the axis only, the force staying whole.", Origin::Reading(10));
    }
    if has_bracket(member) {
        said.ask(
            "bracket",
            "A force on a bracket at the side goes down the column whole, and bends it as a side load 3 a l_p P / l² at mid-height (NDS 15.4.2, \
             from memory); a positive distance bends it the way a positive side load does. The bracket and its fastening are by others.",
            Origin::Reading(25),
        );
    }
    let row =
        |load: &crate::job::model::Load| matches!(&load.kind, LoadKind::Reaction { arrives: Arrival::Head { every: Some(_), .. }, .. });
    if member.loads.iter().any(row) {
        said.confirm(
            "row",
            "A row of reactions on a wall loads a stud over its own spacing; the plates between spread it.",
            Origin::Reading(45),
        );
    }
}

/// Limits of deflection.
fn limits(said: &mut Assuming<'_>, job: &Job, member: &Member, standing: &Standing) {
    let asked = job.limits(member);
    let under_wind = job.limit(member, DeflectionOf::Wind).is_some();
    let text = match (member.role, asked, standing.finish.filter(|_| !under_wind)) {
        (Use::Tie, true, _) | (_, true, None) => "Deflection limits as on the basis page and the sheets, under the whole load.",
        (Use::Tie, false, _) => "Deflection limits of IBC Table 1604.3 for floor members.",
        (_, false, None) => "No limit on the deflection of walls is asked for.",
        (_, _, Some(_)) => {
            "Deflection under 0.42 of the wind load, by the finish of the wall (IBC Table 1604.3, note f); wind is that on components."
        }
    };
    let source = if asked || standing.finish.is_some() { Origin::JobFile } else { Origin::Reading(23) };
    said.confirm("limits", text, source);
}

fn is_eccentric(member: &Member) -> bool {
    member.loads.iter().any(|load| match &load.kind {
        LoadKind::Axial { eccentricity, .. } | LoadKind::Reaction { arrives: Arrival::Head { eccentricity, .. }, .. } => {
            eccentricity.both() != [0.0; 2]
        }
        _ => false,
    })
}

fn has_bracket(member: &Member) -> bool {
    member.loads.iter().any(|load| match &load.kind {
        LoadKind::Axial { eccentricity, .. } | LoadKind::Reaction { arrives: Arrival::Head { eccentricity, .. }, .. } => {
            eccentricity.bracket().is_some()
        }
        _ => false,
    })
}
