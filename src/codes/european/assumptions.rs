//! What a member of this code takes for granted, for the assumption register.

use super::factors::{self, Rules};
use super::floor::Vibration;
use super::limits;
use super::material::Resolved as Material;
use super::national;
use crate::codes::Assumed;
use crate::job::model::{Bracing, Job, LoadKind, Member, Nature, Use};

const TOP_FREE: &str = "The top edge is held at supports only.";
const BOTTOM_FREE: &str = "The bottom edge is held at supports only.";

/// Whether the reader took a sentence as a default for a member.
fn source_of(job: &Job, member: &Member, text: &str) -> &'static str {
    let taken = job.defaults.iter().any(|d| d.text == text && d.members.contains(&member.mark.value));
    if taken { "default" } else { "job" }
}

/// The assumptions of a member.
pub(super) fn of(job: &Job, member: &Member, material: &Material, rules: &Rules, vibration: &Vibration) -> Vec<Assumed> {
    let mut list = Vec::new();
    let mut say = |topic, text: &str, from: &str, confirm: &str, open| {
        list.push(Assumed { topic, text: text.to_owned(), from: from.to_owned(), confirm: confirm.to_owned(), open });
    };
    let preparer = job.about.prepared_by.clone().unwrap_or_else(|| "engineer of record".to_owned());
    let preparer = preparer.as_str();
    let given = member.conditions.service_class.is_some() || job.basis.service_class.is_some();
    say("moisture", &format!("Service class {}.", rules.service_class), if given { "job" } else { "default" }, preparer, !given);
    match &member.top {
        Bracing::Sheathed => say("top edge", "Sheathing fixed to the top edge holds it throughout.", "job", preparer, false),
        Bracing::Continuous => say("top edge", "The top edge is held throughout, by other means than sheathing.", "job", preparer, false),
        Bracing::None => say("top edge", TOP_FREE, source_of(job, member, TOP_FREE), preparer, false),
        Bracing::Every(_) | Bracing::Places(_) => {
            say("top edge", "The top edge is held at the points shown on the sheet.", "job", preparer, false);
        }
    }
    let panels = member.spans.spans.len() + usize::from(!member.spans.left.is_zero()) + usize::from(!member.spans.right.is_zero());
    if panels > 1 && matches!(member.bottom, Bracing::None) {
        say("bottom edge", BOTTOM_FREE, source_of(job, member, BOTTOM_FREE), preparer, false);
    }
    say("supports", "Every support holds both edges and keeps the member from turning.", "reading 3", preparer, false);
    if member.hangers.is_empty() {
        say(
            "shear",
            "Supports bear from below, loads stand on top; downward point loads within h of a bearing's edge are left out of the shear \
             (EN 1995-1-1, 6.1.7(3)), even loads are not.",
            "reading 29",
            preparer,
            false,
        );
    }
    if member.notches.is_empty() {
        say("notches", "No notches; no holes.", "default", preparer, false);
    } else {
        say("notches", "Notches as given, square; no holes.", "job", preparer, false);
    }
    if member.bearing.is_none() {
        say(
            "bearing",
            "No bearing lengths given: bearing is not checked, and the support line stands for the face of the support.",
            "default",
            preparer,
            true,
        );
    } else {
        say(
            "bearing",
            "Bearing lengths as on the sheet, on a material that is no weaker; an end without overhang is flush with its bearing.",
            "reading 30",
            preparer,
            false,
        );
    }
    if panels > 1 {
        say("patterns", "Imposed loads are tried on every set of spans and overhangs; snow and wind stand on all.", "reading 4", "", false);
        say(
            "shear in analysis",
            "Moments and shears are those of bending alone; deflections are those of bending and shear together, the beam solved once more \
             with both.",
            "reading 7",
            "",
            false,
        );
    }
    say("combinations", "Permanent loads stand all with the superior or all with the inferior factor.", "reading 27", "", false);
    if member.loads.iter().any(|l| matches!(l.kind, LoadKind::Reaction { .. })) {
        say(
            "handed down",
            "A received reaction is, by case, that of the load set that makes it largest, then smallest; all stand so together. Where a \
             span holds fewer than six of them they are tried as single points too.",
            "reading 5",
            "",
            false,
        );
    }
    if member.plies.value > 1 {
        say(
            "plies",
            "Plies act together: b is all of them, in lateral buckling and bearing too. Their fastening is by others.",
            "reading 8",
            "",
            true,
        );
    }
    if member.self_weight {
        say(
            "own weight",
            &format!("Own weight by the mean density, {:.0} kg/m³ x 9.81 m/s².", factors::density(material)),
            "reading 9",
            "",
            false,
        );
    }
    let joined = matches!(member.top, Bracing::Sheathed | Bracing::Continuous) && member.spacing.is_some();
    if joined && member.system.is_none() {
        say(
            "system strength",
            "Members side by side are joined by a layer that carries load to the neighbours; that layer is checked by others for the \
             short-term load (EN 1995-1-1, 6.6).",
            "reading 29",
            preparer,
            true,
        );
    }
    if member.slope.is_some() {
        say(
            "slope",
            "Rafters are analysed along the slope, square components only; dead load is per length of slope, snow and imposed load per \
             length on plan, wind square to the surface. Reactions are vertical; the horizontal part of wind goes to the bracing.",
            "reading 6",
            "",
            false,
        );
    }
    let own_limits = !member.limits.0.is_empty() || job.basis.limits.iter().any(|(class, _)| class == limits::class(member));
    if own_limits {
        say("limits", "Deflection limits as on the basis page and the sheets.", "job", preparer, false);
    } else {
        say(
            "limits",
            "Deflection limits at the laxer end of EN 1995-1-1, Table 7.2, or the nation's: see the basis page.",
            "reading 26",
            preparer,
            true,
        );
    }
    if !member.spans.left.is_zero() || !member.spans.right.is_zero() {
        say("overhang", "On an overhang a limit takes twice its length (EN 1995-1-1, Table 7.2, cantilevers).", "reading 7", "", false);
    }
    if vibration.is_checked() {
        say(
            "vibration",
            "The floor is held at all its edges and bears no load but the permanent; the joists alone stiffen it along, the decking alone \
             across; each span is taken as if it stood alone (EN 1995-1-1, 7.3.3). The limits a and b suit the client.",
            "default",
            preparer,
            true,
        );
    }
    say("camber", "No camber: the net final deflection is the final one.", "default", "", false);
    if job.basis.use_category.is_none() {
        say("category", "Imposed floor loads are of category A.", "default", preparer, true);
    }
    let snow = present(job, member).contains(&Nature::Snow);
    if snow && !job.basis.snow_high {
        say("snow", "The site lies at 1000 m above sea level or lower.", "reading 27", preparer, false);
    }
    if national::country(&job.basis).is_none() {
        say("nation", "Recommended values stand for the nation's choices; snow and wind are short-term.", "reading 27", preparer, true);
    }
    if material.own {
        say(
            "own values",
            "Values of the engineer's own are characteristic values without size and system factors; with a density above 460 kg/m³ \
             (characteristic) solid timber is hardwood.",
            "reading 41",
            preparer,
            true,
        );
    }
    if let Some(missing) = missing_on_roof(job, member) {
        say("roof loads", &missing, "default", preparer, true);
    }
    list
}

/// The natures of the loads that the member is given by itself.
fn present(job: &Job, member: &Member) -> Vec<Nature> {
    (member.loads.iter())
        .flat_map(|l| match &l.kind {
            LoadKind::Area { area, .. } => job.areas[*area].loads.iter().map(|a| a.case).collect(),
            LoadKind::Line { case, .. } | LoadKind::Point { case, .. } | LoadKind::Moment { case, .. } | LoadKind::Axial { case, .. } => {
                vec![*case]
            }
            LoadKind::Reaction { .. } | LoadKind::Thrust { .. } => Vec::new(),
        })
        .map(|case| job.basis.cases[case.0].nature)
        .collect()
}

/// The roof loads that a roof member's loads leave out, as a sentence; none for other members.
fn missing_on_roof(job: &Job, member: &Member) -> Option<String> {
    let natures = present(job, member);
    let roof = member.role == Use::Rafter || natures.iter().any(|n| matches!(n, Nature::Snow | Nature::RoofLive));
    if !roof {
        return None;
    }
    let mut missing = Vec::new();
    if !natures.contains(&Nature::Wind) {
        missing.push("wind, uplift among it,");
    }
    if !natures.contains(&Nature::RoofLive) {
        missing.push("imposed load on the roof");
    }
    let own_snow = job.basis.cases.iter().skip(Nature::ALL.len()).any(|c| c.nature == Nature::Snow);
    if !own_snow {
        missing.push("drifted snow");
    }
    match missing.as_slice() {
        [] => None,
        [one] => Some(format!("No {} is given: it does not govern, or is added by others.", one.trim_end_matches(','))),
        [head @ .., last] => Some(format!("No {} and no {last} is given: they do not govern, or are added by others.", head.join(" no "))),
    }
}
