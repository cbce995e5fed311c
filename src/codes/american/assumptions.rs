//! What a member of this code takes for granted, for the assumption register.

use super::limits;
use super::material::{Class, Resolved as Material};
use super::section::Resolved as Section;
use crate::codes::Assumed;
use crate::job::model::{Bracing, Case, Job, LoadKind, MaterialAsked, Member, Moisture, Nature, Ridge, Use};

/// What is taken for live load that does not say its use.
pub(super) const OCCUPANCY: &str = "Live load is that of occupancy: λ 0.8. Storage would take 0.7 (NDS Table N3); a load case like live says so by \
     its `use-category`.";
/// Topics of what goes with the material, whatever the member does.
pub(super) const OF_MATERIAL: &[&str] = &["layup", "balance", "stability moduli", "retardant", "composite", "own values", "rated"];
/// What is said of a member whose live load is reduced.
pub(super) const REDUCED: &str = "Live load `live` is reduced for the area that the member bears, where its sheet shows it, in all its combinations and its \
     deflections; tributary area, element and occupancy are as the job file says. What the member hands down is not reduced.";
/// The same of roof live load.
pub(super) const ROOF_REDUCED: &str = "Roof live load is reduced for the area that the member bears and the slope, where its sheet shows it (ASCE 7 \
     section 4.8); it is an ordinary roof, which nobody uses. What the member hands down is not reduced.";
const TOP_FREE: &str = "The top edge is held at supports only.";
const BOTTOM_FREE: &str = "The bottom edge is held at supports only.";

/// Whether the reader took a sentence as a default for a member.
fn source_of(job: &Job, member: &Member, text: &str) -> &'static str {
    let taken = job.defaults.iter().any(|d| d.text == text && d.members.contains(&member.mark.value));
    if taken { "default" } else { "job" }
}

/// The assumptions of a member.
pub(super) fn of(job: &Job, member: &Member, section: &Section, material: &Material) -> Vec<Assumed> {
    let mut list = Vec::new();
    let mut say = |topic, text: &str, from: &str, confirm: &str, open| {
        list.push(Assumed { topic, text: text.to_owned(), from: from.to_owned(), confirm: confirm.to_owned(), open });
    };
    let preparer = job.about.prepared_by.clone().unwrap_or_else(|| "engineer of record".to_owned());
    let preparer = preparer.as_str();
    let wet = member.conditions.moisture.unwrap_or(job.basis.moisture) == Moisture::Wet;
    let laminated = material.class == Class::Laminated;
    say("moisture", moisture(laminated, wet), "job", preparer, false);
    match &member.top {
        Bracing::Sheathed => say("top edge", "Sheathing fixed to the top edge holds it throughout.", "job", preparer, false),
        Bracing::Continuous => say("top edge", "The top edge is held throughout, by other means than sheathing.", "job", preparer, false),
        Bracing::None => say("top edge", TOP_FREE, source_of(job, member, TOP_FREE), preparer, false),
        Bracing::Every(_) | Bracing::Places(_) => {
            say("top edge", "The top edge is held at the points shown on the sheet.", "job", preparer, false)
        }
    }
    let panels = member.spans.spans.len() + usize::from(!member.spans.left.is_zero()) + usize::from(!member.spans.right.is_zero());
    if panels > 1 && matches!(member.bottom, Bracing::None) {
        say("bottom edge", BOTTOM_FREE, source_of(job, member, BOTTOM_FREE), preparer, false);
    }
    say("supports", "Every support holds both edges and keeps the member from turning (NDS 3.3.3.4).", "reading 3", preparer, false);
    if member.hangers.is_empty() {
        say(
            "shear",
            "Supports bear from below, loads stand on top; loads within d of a face are left out of the shear (NDS 3.4.3.1).",
            "reading 17",
            preparer,
            false,
        );
    }
    if member.notches.is_empty() {
        say("notches", "No notches; no holes.", "default", preparer, false);
    } else {
        say("notches", "Notches as given; no holes.", "job", preparer, false);
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
        say("bearing", "Bearing lengths as on the sheet, on a material that is no weaker.", "job", preparer, false);
    }
    if panels > 1 {
        say(
            "patterns",
            "Live and roof live load are tried on every set of spans and overhangs, snow in full on the set and half on the rest.",
            "reading 4",
            "",
            false,
        );
    }
    let receives = member.loads.iter().any(|l| matches!(l.kind, LoadKind::Reaction { .. }));
    if receives {
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
            "Plies act together: b is all of them, the size factor that of one. Their fastening is by others.",
            "reading 8",
            "",
            true,
        );
    }
    if member.self_weight {
        say("own weight", "Own weight by specific gravity at 19 % moisture (NDS Supplement 3.1.3).", "reading 9", "", false);
    }
    if matches!(member.role, Use::Joist | Use::Rafter) && member.system != Some(false) && !material.class.is_timber() && !laminated {
        say("repetitive", "Joists and rafters are three or more.", "reading 21", preparer, false);
    }
    if member.slope.is_some() {
        let upper = if member.ridge == Ridge::Beam { " What holds its upper end carries it: there is no thrust." } else { "" };
        let text = format!(
            "Rafters are analysed along the slope, square components only; dead load is per length of slope, snow and live load per length on \
             plan, wind square to the surface. Reactions are vertical; the horizontal part of wind goes to the lateral system.{upper}"
        );
        say("slope", &text, "reading 6", "", false);
    }
    if member.ridge == Ridge::Board {
        let index = job.members.iter().position(|other| other.mark == member.mark);
        let takes =
            |load: &crate::job::model::Load| matches!(load.kind, LoadKind::Thrust { from_member, .. } if Some(from_member) == index);
        let tied = job.members.iter().any(|other| other.loads.iter().any(takes));
        let end = if tied { "" } else { " Nothing in this job takes the thrust." };
        let text = format!(
            "The rafter leans on its fellow, which is loaded alike, at a ridge board that carries nothing: all of its vertical load goes down at \
             the heel, and a tie at the height of the heel holds its thrust. A collar tie near the ridge does not, and a tie raised above the \
             heel bends the rafter, which is not covered.{end}"
        );
        say("ridge board", &text, "job", preparer, !tied);
    }
    if member.tilt.is_some() {
        let sideways = if member.weak_spans.is_some() {
            "side supports hold it across its depth, where the job file says"
        } else {
            "its supports hold it across its depth too"
        };
        say(
            "tilt",
            &format!(
                "A member that leans is square to its surface: vertical loads are resolved along and across its depth, wind and moments act \
                 along it; widths and spacings run along the surface, dead load is per area of surface, snow and live load per area on plan; \
                 {sideways}. Its supports receive the vertical reactions of its main spans."
            ),
            "reading 43",
            preparer,
            false,
        );
        if member.plies.value > 1 {
            say("plies across", "Across the depth each ply bends for itself.", "reading 43", "", false);
        }
    }
    let own_limits = !member.limits.0.is_empty() || job.basis.limits.iter().any(|(class, _)| class == limits::class(member));
    let source = if own_limits { "job" } else { "default" };
    let text = match (own_limits, limits::class(member)) {
        (true, _) => "Deflection limits as on the basis page and the sheets.".to_owned(),
        (false, "roof") => "Deflection limits of IBC Table 1604.3 for roof members by their ceiling.".to_owned(),
        (false, _) => "Deflection limits of IBC Table 1604.3 for floor members.".to_owned(),
    };
    say("limits", &text, source, preparer, false);
    if !member.spans.left.is_zero() || !member.spans.right.is_zero() {
        say("overhang", "On an overhang a limit takes twice its length (IBC Table 1604.3, note i).", "reading 7", "", false);
    }
    let green = member.conditions.green;
    let thick = section.nominal.0 >= 4.0 && material.glued.is_none();
    if wet || green == Some(true) {
        say(
            "total",
            "Total deflection takes the whole dead load: wet in service, or green when installed (IBC Table 1604.3, note d).",
            "reading 23",
            "",
            false,
        );
    } else {
        say(
            "total",
            "Total deflection takes half the dead load: dry when installed and in service (IBC Table 1604.3, note d).",
            "reading 23",
            "",
            false,
        );
        if thick && green.is_none() {
            say(
                "installed",
                "Sawn sections 4 in and thicker are dry when installed. They are often delivered green; total deflection then takes the \
                 whole dead load.",
                "reading 23",
                preparer,
                true,
            );
        }
    }
    let live = cases_of(job, member).iter().any(|case| job.basis.cases[case.0].nature == Nature::Live);
    if live {
        match &member.live_reduction {
            None => say("live load", "Live load is not reduced for the area that it acts on (ASCE 7 section 4.7).", "default", "", false),
            Some(_) => say("live load", REDUCED, "job", preparer, false),
        }
    }
    if member.live_reduction.is_some() && !live {
        say("live load", REDUCED, "job", preparer, false);
    }
    if member.roof_live_reduction.is_some() {
        say("roof live load", ROOF_REDUCED, "job", preparer, false);
    }
    if super::edition::is_lrfd(&job.basis) && has_plain_live(job) {
        say("time effect", OCCUPANCY, "default", preparer, true);
    }
    if laminated {
        say(
            "layup",
            "Glued laminated timber is straight and prismatic, of one piece in its width or with its edge joints glued; curvature and stress \
             interaction factors do not apply (NDS 5.3.8, 5.3.9).",
            "default",
            preparer,
            false,
        );
        say(
            "volume",
            "The volume factor takes the length between the points of zero moment around the section, in the combination and load set \
             looked at.",
            "reading 25",
            "",
            false,
        );
    }
    if let MaterialAsked::Custom { name, stresses, .. } = &member.material.value
        && material.glued.is_some()
    {
        let gives = |key: &str| stresses.iter().any(|(k, _)| k.value == key);
        if laminated && !gives("F_b_neg") {
            let text = format!("{name} is a balanced layup: no `F_b_neg` is given for bending that stretches the top.");
            say("balance", &text, "reading 41", preparer, true);
        }
        if laminated && !gives("E_y_min") {
            let text = format!("E_min of {name} holds about both axes.");
            say("stability moduli", &text, "reading 41", preparer, true);
        }
    }
    if member.conditions.retardant.is_some() {
        say(
            "retardant",
            "Factors for fire-retardant treatment are the treater's, for its product, species and the temperature in service (NDS 2.3.4).",
            "job",
            preparer,
            true,
        );
    }
    if material.class == Class::Composite {
        say(
            "composite",
            if member.standing.is_some() {
                "Structural composite lumber is used dry, within what its report covers: sizes, bearing, holes and fastening are as the \
                 report says."
            } else {
                "Structural composite lumber is used dry, bent about its strong axis, within what its report covers: sizes, bearing, holes \
                 and fastening are as the report says."
            },
            "reading 41",
            preparer,
            true,
        );
    }
    if material.class == Class::Custom {
        say(
            "own values",
            "Values of the engineer's own are without the size factor: that of Table 4A is applied to them.",
            "reading 41",
            preparer,
            true,
        );
    }
    if material.class == Class::Rated {
        say(
            "rated",
            "Shear and bearing values of machine stress rated lumber are those of its species' No.2.",
            "reading 25",
            preparer,
            true,
        );
    }
    let snow = own_snow(job, member);
    if !snow.is_empty() {
        let names = snow.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
        let text = format!(
            "Snow of the engineer's own cases ({names}) lies where the job file says and weighs what it says; which of unbalanced, drifted, \
             sliding and partial snow ASCE 7 chapter 7 asks for here is not worked out."
        );
        say("own snow", &text, "job", preparer, true);
    }
    if let Some(missing) = missing_on_roof(job, member) {
        say("roof loads", &missing, "default", preparer, true);
    }
    list
}

/// What is said of the moisture in service.
pub(super) const fn moisture(laminated: bool, wet: bool) -> &'static str {
    match (laminated, wet) {
        (false, true) => "Moisture content above 19 % in service.",
        (false, false) => "Moisture content at most 19 % in service.",
        (true, true) => "Moisture content of glued laminated timber 16 % or more in service.",
        (true, false) => "Moisture content of glued laminated timber below 16 % in service.",
    }
}

/// Whether a live load of the job does not say whether it is of occupancy or of storage.
pub(super) fn has_plain_live(job: &Job) -> bool {
    let plain = |case: Case| job.basis.cases[case.0].nature == Nature::Live && job.basis.cases[case.0].use_category.is_none();
    job.members.iter().flat_map(|member| cases_of(job, member)).any(plain)
}

/// The cases of a member's own loads; what other members hand down is said on their sheets.
fn cases_of(job: &Job, member: &Member) -> Vec<Case> {
    let cases = |kind: &LoadKind| match kind {
        LoadKind::Area { area, .. } => job.areas[*area].loads.iter().map(|a| a.case).collect(),
        LoadKind::Line { case, .. } | LoadKind::Point { case, .. } | LoadKind::Moment { case, .. } | LoadKind::Axial { case, .. } => {
            vec![*case]
        }
        LoadKind::Reaction { .. } | LoadKind::Thrust { .. } => Vec::new(),
    };
    member.loads.iter().flat_map(|load| cases(&load.kind)).collect()
}

/// Names of the engineer's own cases of snow that load a member itself.
fn own_snow<'a>(job: &'a Job, member: &Member) -> Vec<&'a str> {
    let mut own: Vec<Case> = cases_of(job, member).into_iter().filter(|case| case.0 >= Nature::ALL.len()).collect();
    own.sort_unstable();
    own.dedup();
    let cases = own.into_iter().map(|case| &job.basis.cases[case.0]);
    cases.filter(|case| case.nature == Nature::Snow).map(|case| case.name.as_str()).collect()
}

/// The roof loads that a roof member's loads leave out, as a sentence; none for other members.
fn missing_on_roof(job: &Job, member: &Member) -> Option<String> {
    let natures: Vec<Nature> = cases_of(job, member).into_iter().map(|case| job.basis.cases[case.0].nature).collect();
    let roof = member.role == Use::Rafter || natures.iter().any(|n| matches!(n, Nature::Snow | Nature::RoofLive));
    if !roof {
        return None;
    }
    let mut missing = Vec::new();
    if !natures.contains(&Nature::Wind) {
        missing.push("wind, uplift among it,");
    }
    if !natures.contains(&Nature::RoofLive) {
        missing.push("roof live load");
    }
    if own_snow(job, member).is_empty() {
        missing.push("unbalanced, drifted and sliding snow");
    }
    match missing.as_slice() {
        [] => None,
        [one] => Some(format!("No {} is given: it does not govern, or is added by others.", one.trim_end_matches(','))),
        [head @ .., last] => Some(format!("No {} and no {last} is given: they do not govern, or are added by others.", head.join(" no "))),
    }
}
