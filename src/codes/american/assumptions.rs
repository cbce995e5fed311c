//! What a member of this code takes for granted, for the assumption register.

use super::material::{Class, Resolved as Material};
use super::section::{self, Resolved as Section};
use super::underfoot::{self, Foot};
use crate::codes::assumed::{Assuming, natures_of, own_snow};
use crate::codes::{Assumed, Origin};
use crate::job::model::{Case, HoldsFor, Job, LimitedUse, LoadKind, Member, Moisture, Nature, Ridge, Use};

/// What is taken for live load that does not say its use.
pub(super) const OCCUPANCY: &str = "Live load is that of occupancy: λ 0.8. Storage would take 0.7 (NDS Table N3); a load case like live says so by \
     its `use-category`.";
/// Topics of what goes with the material, whatever the member does.
pub(super) const OF_MATERIAL: &[&str] = &["layup", "retardant", "composite", "own values", "rated"];
/// What is said of a member whose live load is reduced.
pub(super) const REDUCED: &str = "Live load `live` is reduced for the area that the member bears, where its sheet shows it, in all its combinations and its \
     deflections; tributary area, element and occupancy are as the job file says. What the member hands down is not reduced.";
/// The same of roof live load.
pub(super) const ROOF_REDUCED: &str = "Roof live load is reduced for the area that the member bears and the slope, where its sheet shows it (ASCE 7 \
     section 4.8); it is an ordinary roof, which nobody uses. What the member hands down is not reduced.";

/// The assumptions of a member.
pub(super) fn of(job: &Job, member: &Member, section: &Section, material: &Material, feet: &[Foot]) -> Vec<Assumed> {
    let mut said = Assuming::of(job, member);
    let wet = job.moisture(member) == Moisture::Wet;
    let laminated = material.class == Class::Laminated;
    said.confirm("moisture", moisture(laminated, wet), Origin::JobFile);
    said.edges();
    said.confirm("supports", "Every support holds both edges and keeps the member from turning (NDS 3.3.3.4).", Origin::Reading(3));
    if member.hangers.is_empty() {
        said.confirm(
            "shear",
            "Loads on the top face, bearing on the bottom face; in spans, loads within d of the support neglected in shear (NDS 3.4.3.1), on \
             overhangs none.",
            Origin::Reading(17),
        );
    }
    bearings(&mut said, job, member, section, feet);
    if member.spans.panels() > 1 {
        said.say(
            "patterns",
            "Live and roof live load are tried on every set of spans and overhangs, snow in full on the set and half on the rest.",
            Origin::Reading(4),
        );
    }
    said.handed_down(true);
    if member.plies.value > 1 {
        said.leave(
            "plies",
            "Plies act together: b is all of them, the size factor that of one. Their fastening is by others.",
            Origin::Reading(8),
        );
    }
    if member.self_weight {
        said.say("own weight", "Own weight by specific gravity at 19 % moisture (NDS Supplement 3.1.3).", Origin::Reading(9));
    }
    if matches!(member.role, Use::Joist | Use::Rafter)
        && member.system.as_ref().is_none_or(|said| said.value)
        && !material.class.is_timber()
        && !laminated
    {
        said.confirm("repetitive", "Joists and rafters are three or more.", Origin::Reading(21));
    }
    rafter(&mut said, job, member);
    leaning(&mut said, member);
    deflections(&mut said, job, member, section, material);
    live_load(&mut said, job, member);
    of_material(&mut said, member, material);
    own_snow_cases(&mut said, job, member);
    said.roof_loads(["roof live load", "unbalanced, drifted and sliding snow"]);
    said.list()
}

/// How supports are given, and what stands on the member.
fn bearings(said: &mut Assuming<'_>, job: &Job, member: &Member, section: &Section, feet: &[Foot]) {
    said.notches("Notches as given; no holes.");
    said.bearings("Bearing lengths as on the sheet, on a material that is no weaker.", Origin::JobFile);
    underfoot::assumptions(feet, said);
    let wide = if member.conditions.flat.is_some() { section.depth } else { section.width };
    let narrow = underfoot::narrow(job, member, f64::from(member.plies.value) * wide);
    if member.bearing.is_some() && !narrow.is_empty() {
        let text = format!(
            "The bearing of {} counts its whole width on {}, which is narrower than it: a cap or a plate, by others, has to give that width.",
            member.mark.value,
            narrow.join(" and ")
        );
        said.ask("narrow support", &text, Origin::Default);
    }
}

/// What goes with a slope, and with a ridge that carries nothing.
fn rafter(said: &mut Assuming<'_>, job: &Job, member: &Member) {
    if member.slope.is_some() {
        let upper = if member.ridge == Ridge::Beam { " What holds its upper end carries it: there is no thrust." } else { "" };
        let text = format!(
            "Rafters are analysed along the slope, square components only; dead load is per length of slope, snow and live load per length on \
             plan, wind square to the surface. Reactions are vertical; the horizontal part of wind goes to the lateral system.{upper}"
        );
        said.say("slope", &text, Origin::Reading(6));
    }
    if member.ridge == Ridge::Board {
        ridge_board(said, job, member);
    }
}

/// A pair of rafters that lean on each other: who holds its thrust.
fn ridge_board(said: &mut Assuming<'_>, job: &Job, member: &Member) {
    let index = job.members.iter().position(|other| other.mark == member.mark);
    let takes = |load: &crate::job::model::Load| matches!(load.kind, LoadKind::Thrust { from_member, .. } if Some(from_member) == index);
    let tied = job.members.iter().any(|other| other.loads.iter().any(takes));
    let end = if tied { "" } else { " Nothing in this job takes the thrust." };
    let place = if member.tie_up.is_zero() {
        "a tie at the height of the heel holds its thrust. A collar tie near the ridge does not"
    } else {
        "a tie above the heel, in the lower third of the rise, holds its thrust, and presses on the rafter where the sheet shows it; the \
         wall plates do not hold the heels inward or outward. A collar tie near the ridge holds no thrust"
    };
    let text = format!(
        "The rafter leans on its fellow, which is loaded alike, at a ridge board that carries nothing: all of its vertical load goes down at \
         the heel, and {place}.{end}"
    );
    if tied {
        said.confirm("ridge board", &text, Origin::JobFile);
    } else {
        said.ask("ridge board", &text, Origin::JobFile);
    }
}

/// A member whose depth leans.
fn leaning(said: &mut Assuming<'_>, member: &Member) {
    if member.tilt.is_none() {
        return;
    }
    let sideways = if member.weak_spans.is_some() {
        "side supports hold it across its depth, where the job file says"
    } else {
        "its supports hold it across its depth too"
    };
    said.confirm(
        "tilt",
        &format!(
            "A member that leans is square to its surface: vertical loads are resolved along and across its depth, wind and moments act \
             along it; widths and spacings run along the surface, dead load is per area of surface, snow and live load per area on plan; \
             {sideways}. Its supports receive the vertical reactions of its main spans."
        ),
        Origin::Reading(43),
    );
    if member.plies.value > 1 {
        said.say("plies across", "Across the depth each ply bends for itself.", Origin::Reading(43));
    }
}

/// Limits, and how the dead load counts in them.
fn deflections(said: &mut Assuming<'_>, job: &Job, member: &Member, section: &Section, material: &Material) {
    let wet = job.moisture(member) == Moisture::Wet;
    let own_limits = job.limits(member);
    let source = if own_limits { Origin::JobFile } else { Origin::Default };
    let text = match (own_limits, member.role.limited_as()) {
        (true, _) => "Deflection limits as on the basis page and the sheets.".to_owned(),
        (false, LimitedUse::Roof) => "Deflection limits of IBC Table 1604.3 for roof members by their ceiling.".to_owned(),
        (false, _) => "Deflection limits of IBC Table 1604.3 for floor members.".to_owned(),
    };
    said.confirm("limits", &text, source);
    if member.spans.has_overhang() {
        said.say("overhang", "On an overhang a limit takes twice its length (IBC Table 1604.3, note i).", Origin::Reading(7));
    }
    let green = member.conditions.green;
    let thick = section.nominal.0 >= 4.0 && material.glued.is_none();
    if wet || green == Some(true) {
        said.say(
            "total",
            "Total deflection takes the whole dead load: wet in service, or green when installed (IBC Table 1604.3, note d).",
            Origin::Reading(23),
        );
    } else {
        said.say(
            "total",
            "Total deflection takes half the dead load: dry when installed and in service (IBC Table 1604.3, note d).",
            Origin::Reading(23),
        );
        if thick && green.is_none() {
            said.ask(
                "installed",
                "Sawn sections 4 in and thicker are dry when installed. They are often delivered green; total deflection then takes the \
                 whole dead load.",
                Origin::Reading(23),
            );
        }
    }
}

/// Whether live load is reduced, and what it is of.
fn live_load(said: &mut Assuming<'_>, job: &Job, member: &Member) {
    let live = natures_of(job, member).any(|nature| nature == Nature::Live);
    if live {
        match &member.live_reduction {
            None => said.say("live load", "Live load is not reduced for the area that it acts on (ASCE 7 section 4.7).", Origin::Default),
            Some(_) => said.confirm("live load", REDUCED, Origin::JobFile),
        }
    }
    if member.live_reduction.is_some() && !live {
        said.confirm("live load", REDUCED, Origin::JobFile);
    }
    if member.roof_live_reduction.is_some() {
        said.confirm("roof live load", ROOF_REDUCED, Origin::JobFile);
    }
    if super::edition::is_lrfd(&job.basis) && has_plain_live(job) {
        said.ask("time effect", OCCUPANCY, Origin::Default);
    }
}

/// What goes with the material.
fn of_material(said: &mut Assuming<'_>, member: &Member, material: &Material) {
    let laminated = material.class == Class::Laminated;
    if laminated {
        said.confirm("layup", "Glued laminated timber is straight and prismatic, of one piece in its width or with its edge joints glued; curvature and stress \
             interaction factors do not apply (NDS 5.3.8, 5.3.9).", Origin::Default);
        said.say(
            "volume",
            "The volume factor takes the length between the points of zero moment around the section, in the combination and load set \
             looked at.",
            Origin::Reading(25),
        );
    }
    if member.conditions.retardant.is_some() {
        said.ask(
            "retardant",
            "Factors for fire-retardant treatment are the treater's, for its product, species and the temperature in service (NDS 2.3.4).",
            Origin::JobFile,
        );
    }
    if material.class == Class::Composite {
        said.ask(
            "composite",
            if member.standing.is_some() {
                "Structural composite lumber is used dry, within what its report covers: sizes, bearing, holes and fastening are as the \
                 report says."
            } else {
                "Structural composite lumber is used dry, bent about its strong axis, within what its report covers: sizes, bearing, holes \
                 and fastening are as the report says."
            },
            Origin::Reading(41),
        );
    }
    if let (Class::Custom | Class::CustomTimber, Some(holds_for)) = (material.class, material.holds_for) {
        own_values(said, holds_for);
    }
    if material.class == Class::Rated {
        said.ask("rated", "Shear and bearing values of machine stress rated lumber are those of its species' No.2.", Origin::Reading(25));
    }
}

/// What size an engineer's own values of sawn lumber hold for.
fn own_values(said: &mut Assuming<'_>, holds_for: HoldsFor) {
    let (text, from) = match holds_for {
        HoldsFor::Member => {
            let text = "Engineer-supplied values hold for the size of this member: C_F is applied where it is below 1 only, since the size of the \
                        pieces that they come from may be in them already.";
            (text.to_owned(), Origin::Reading(65))
        }
        HoldsFor::Depth(depth, _) => {
            let depth = section::inches(depth);
            let text = format!(
                "Engineer-supplied values hold for a depth of {depth} in: C_F reduces them in a deeper member, relative to that depth."
            );
            (text, Origin::Reading(65))
        }
        HoldsFor::Table(_) => {
            ("Engineer-supplied values are tabulated values: C_F of No.2 applies, also where it is above 1.".to_owned(), Origin::JobFile)
        }
    };
    said.ask("own values", &text, from);
}

/// Snow of the engineer's own cases.
fn own_snow_cases(said: &mut Assuming<'_>, job: &Job, member: &Member) {
    let snow = own_snow(job, member);
    if !snow.is_empty() {
        let names = snow.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
        let text = format!(
            "Snow of the engineer's own cases ({names}) lies where the job file says and weighs what it says; which of unbalanced, drifted, \
             sliding and partial snow ASCE 7 chapter 7 asks for here is not worked out."
        );
        said.ask("own snow", &text, Origin::JobFile);
    }
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
    let plain = |case: Case| job.basis.nature(case) == Nature::Live && job.basis.cases[case.0].use_category.is_none();
    job.members.iter().flat_map(|member| job.own_cases(member)).any(plain)
}
