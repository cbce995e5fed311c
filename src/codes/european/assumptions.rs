//! What a member of this code takes for granted, for the assumption register.

use super::factors::{self, Rules};
use super::floor::Vibration;
use super::material::Resolved as Material;
use super::{national, section};
use crate::codes::assumed::{Assuming, natures_of};
use crate::codes::{Assumed, Origin};
use crate::job::model::{Bracing, HoldsFor, Job, LoadKind, Member, Nature};
use crate::units::trimmed;

/// The assumptions of a member.
pub(super) fn of(job: &Job, member: &Member, material: &Material, rules: &Rules, vibration: &Vibration) -> Vec<Assumed> {
    let mut said = Assuming::of(job, member);
    let given = member.conditions.service_class.is_some() || job.basis.service_class.is_some();
    let class = format!("Service class {}.", rules.service_class);
    if given {
        said.confirm("moisture", &class, Origin::JobFile);
    } else {
        said.ask("moisture", &class, Origin::Default);
    }
    said.edges();
    supports(&mut said, member);
    if member.spans.panels() > 1 {
        said.say(
            "patterns",
            "Imposed loads are tried on every set of spans and overhangs; snow and wind stand on all.",
            Origin::Reading(4),
        );
        said.say(
            "shear in analysis",
            "Moments and shears are those of bending alone; deflections are those of bending and shear together, the beam solved once more \
             with both.",
            Origin::Reading(7),
        );
    }
    said.say("combinations", "Permanent loads stand all with the superior or all with the inferior factor.", Origin::Reading(27));
    said.handed_down(true);
    if member.plies.value > 1 {
        said.leave(
            "plies",
            "Plies act together: b is all of them, in lateral buckling and bearing too. Their fastening is by others.",
            Origin::Reading(8),
        );
    }
    if member.self_weight {
        said.say(
            "own weight",
            &format!("Own weight by the mean density, {:.0} kg/m³ x 9.81 m/s².", factors::density(material)),
            Origin::Reading(9),
        );
    }
    let joined = matches!(member.top, Bracing::Sheathed | Bracing::Continuous) && member.spacing.is_some();
    if joined && member.system.is_none() {
        said.ask(
            "system strength",
            "Members side by side are joined by a layer that carries load to the neighbours; that layer is checked by others for the \
             short-term load (EN 1995-1-1, 6.6).",
            Origin::Reading(29),
        );
    }
    if member.slope.is_some() {
        said.say(
            "slope",
            "Rafters are analysed along the slope, square components only; dead load is per length of slope, snow and imposed load per \
             length on plan, wind square to the surface. Reactions are vertical; the horizontal part of wind goes to the bracing.",
            Origin::Reading(6),
        );
    }
    deflections(&mut said, job, member);
    if vibration.is_checked() {
        said.ask(
            "vibration",
            "The floor is held at all its edges and bears no load but the permanent; the joists alone stiffen it along, the decking alone \
             across; each span is taken as if it stood alone (EN 1995-1-1, 7.3.3). The limits a and b suit the client.",
            Origin::Default,
        );
    }
    match &member.camber {
        None => said.say("camber", "No camber: the net final deflection is the final one.", Origin::Default),
        Some(camber) => {
            let text = format!(
                "The member is made with a camber w_c of {} mm at mid-span, taken off its net final deflection (EN 1995-1-1, 7.2).",
                section::millimetres(camber.value)
            );
            said.confirm("camber", &text, Origin::JobFile);
        }
    }
    choices(&mut said, job, member);
    if let Some(holds_for) = material.own {
        own_values(&mut said, holds_for);
    }
    said.roof_loads(["imposed load on the roof", "drifted snow"]);
    said.list()
}

/// What size an engineer's own values hold for.
fn own_values(said: &mut Assuming<'_>, holds_for: HoldsFor) {
    let (size, from) = match holds_for {
        HoldsFor::Member => {
            let size = "hold for the size of this member: k_h is applied where it is below 1 only, since the size of the pieces that they come \
                        from may be in them already";
            (size.to_owned(), Origin::Reading(65))
        }
        HoldsFor::Depth(depth, _) => {
            let depth = section::millimetres(depth);
            (format!("hold for a depth of {depth} mm: k_h reduces them in a deeper member, relative to that depth"), Origin::Reading(65))
        }
        HoldsFor::Table(_) => ("are tabulated values: k_h applies, also where it is above 1".to_owned(), Origin::JobFile),
    };
    let text = format!(
        "Characteristic values supplied by the engineer {size}. They are without system factor; with a density above 460 kg/m³ (characteristic) \
         solid timber is hardwood."
    );
    said.ask("own values", &text, from);
}

/// How the member is supported, and cut.
fn supports(said: &mut Assuming<'_>, member: &Member) {
    said.confirm("supports", "Every support holds both edges and keeps the member from turning.", Origin::Reading(3));
    if member.hangers.is_empty() {
        said.confirm(
            "shear",
            "Loads on the top face, bearing on the bottom face; in spans, downward concentrated loads within h of a bearing's edge neglected in \
             shear (EN 1995-1-1, 6.1.7(3)), distributed loads not.",
            Origin::Reading(29),
        );
    }
    if member.spans.has_overhang() && member.loads.iter().any(|load| matches!(load.kind, LoadKind::Moment { .. })) {
        let text = format!(
            "An overhang under an applied moment: effective length {} times its length (classical theory; no row of EN 1995-1-1, Table 6.1).",
            trimmed(factors::effective::turned(), 2)
        );
        said.say("overhang moment", &text, Origin::Reading(54));
    }
    said.notches("Notches as given, square; no holes.");
    said.bearings(
        "Bearing lengths as on the sheet, on a material that is no weaker; an end without overhang is flush with its bearing.",
        Origin::Reading(30),
    );
}

/// Limits of deflection.
fn deflections(said: &mut Assuming<'_>, job: &Job, member: &Member) {
    if job.limits(member) {
        said.confirm("limits", "Deflection limits as on the basis page and the sheets.", Origin::JobFile);
    } else {
        said.ask(
            "limits",
            "Deflection limits at the laxer end of EN 1995-1-1, Table 7.2, or the nation's: see the basis page.",
            Origin::Reading(26),
        );
    }
    if member.spans.has_overhang() {
        said.say("overhang", "On an overhang a limit takes twice its length (EN 1995-1-1, Table 7.2, cantilevers).", Origin::Reading(7));
    }
}

/// What the basis leaves to the nation and to the use of the building.
fn choices(said: &mut Assuming<'_>, job: &Job, member: &Member) {
    if job.basis.use_category.is_none() {
        said.ask("category", "Imposed floor loads are of category A.", Origin::Default);
    }
    let snow = natures_of(job, member).any(|nature| nature == Nature::Snow);
    if snow && !job.basis.snow_high {
        said.confirm("snow", "The site lies at 1000 m above sea level or lower.", Origin::Reading(27));
    }
    if let Some((class, name)) = national::consequence(&job.basis) {
        let text = format!("Partial factors of actions are those of {name} for consequence class {class}; another class takes others.");
        said.confirm("consequence class", &text, Origin::Default);
    }
    if national::country(&job.basis).is_none() {
        said.ask("nation", "Recommended values stand for the nation's choices; snow and wind are short-term.", Origin::Reading(27));
    }
}
