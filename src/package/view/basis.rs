//! Basis of design: codes, data of the site, loads, build-ups, combinations, limits, scope, and the assumption register.

use super::{NOT_GIVEN, Scene, sheet_label};
use crate::job::model::Moisture;
use crate::package::markup::{Markup, inserted, literal};
use crate::package::words;
use crate::results::{Combination, LoadCase, Value};
use crate::units::{AreaLoad, KPA, PSF, decimals};
use serde::Serialize;

/// What the basis says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Basis {
    standards: Vec<Standard>,
    conditions: String,
    site: Vec<[Markup; 3]>,
    area_unit: &'static str,
    areas: Vec<[Markup; 4]>,
    build_ups: Vec<Sum>,
    strength: Vec<Combined>,
    deflection: Markup,
    has_deflection: bool,
    /// Combinations of loss of balance, where the code has them.
    balance: Option<Markup>,
    deflection_reference: Markup,
    limits: Vec<[Markup; 4]>,
    included: String,
    not_included: Markup,
    assumptions: Vec<Assumption>,
    counted: String,
    deferred: Vec<Deferred>,
    /// For a checker, who looks up the tables themselves.
    brief: bool,
}

#[derive(Debug, Serialize)]
struct Standard {
    short: String,
    used_for: String,
    note: String,
}

#[derive(Debug, Serialize)]
struct Sum {
    name: String,
    layers: Vec<[String; 2]>,
    sum: String,
}

#[derive(Debug, Serialize)]
struct Combined {
    number: String,
    name: Markup,
    duration: Markup,
    reference: String,
}

#[derive(Debug, Serialize)]
struct Assumption {
    id: String,
    text: Markup,
    from: String,
    members: Markup,
    confirm: String,
    open: bool,
}

#[derive(Debug, Serialize)]
struct Deferred {
    id: String,
    text: Markup,
    forces: Markup,
    by: String,
}

impl Basis {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let (job, results) = (scene.job, scene.results);
        let open = results.assumptions.iter().filter(|a| a.open).count();
        let standards =
            results.standards.iter().map(|s| Standard { short: s.short.clone(), used_for: s.used_for.clone(), note: s.note.clone() });
        // What single members make of them stands on their sheets.
        let of = |purpose: &str| results.combinations.iter().filter(|c| c.members.is_empty() && c.purpose == purpose).collect::<Vec<_>>();
        let (strength, mut deflection) = (of("strength"), of("deflection"));
        // One that is all of a case that the job has not stands for nothing here.
        deflection.retain(|c| c.factors.keys().all(|name| results.cases.iter().any(|case| case.name == *name)));
        let balance: Vec<&str> = of("balance").iter().map(|c| c.name.as_str()).collect();
        let mut references: Vec<&str> = deflection.iter().map(|c| c.reference.as_str()).filter(|r| !r.is_empty()).collect();
        references.dedup();
        Self {
            standards: standards.collect(),
            conditions: conditions(scene),
            site: site(scene),
            area_unit: if scene.printing.in_feet() { "psf" } else { "kPa" },
            areas: areas(scene),
            build_ups: (job.build_ups.iter())
                .map(|b| Sum {
                    name: words::capital(&b.name.replace('-', " ")),
                    layers: b.layers.iter().map(|(name, weight)| [name.clone(), area(scene, *weight)]).collect(),
                    sum: (results.build_ups.iter())
                        .find(|sum| sum.name == b.name)
                        .map_or_else(|| area(scene, b.sum()), |sum| area_value(scene, &sum.sum)),
                })
                .collect(),
            strength: (strength.iter().enumerate())
                .map(|(i, c)| Combined {
                    number: c.number.clone(),
                    name: scene.lexicon.set(&spelled(scene, c)),
                    duration: scene.lexicon.set(&c.duration_factor),
                    // Said once, not on every line.
                    reference: if i > 0 && strength[i - 1].reference == c.reference { String::new() } else { c.reference.clone() },
                })
                .collect(),
            deflection: scene.lexicon.set(&deflection.iter().map(|c| spelled(scene, c)).collect::<Vec<_>>().join("; ")),
            has_deflection: !deflection.is_empty(),
            balance: (!balance.is_empty()).then(|| scene.lexicon.set(&balance.join("; "))),
            deflection_reference: scene.lexicon.set(&references.join("; ")),
            limits: limits(scene),
            included: format!(
                "strength and deflection of {} under the loads above, and what they hand down.",
                words::counted(results.members.len(), "member")
            ),
            not_included: scene.lexicon.set(&not_included(scene)),
            assumptions: assumptions(scene),
            counted: format!("{} in all, {open} open", results.assumptions.len()),
            deferred: deferred(scene),
            brief: scene.brief,
        }
    }
}

/// The name of a combination; one of the engineer's own is followed by its factors where its name does not give them.
fn spelled(scene: &Scene, combination: &Combination) -> String {
    let term = |case: &LoadCase| {
        let factor = *combination.factors.get(&case.name)?;
        let sign = if factor < 0.0 { "−" } else { "+" };
        let size = factor.abs();
        Some(if size == 1.0 { format!("{sign} {}", case.letter) } else { format!("{sign} {size} {}", case.letter) })
    };
    let terms: Vec<String> = scene.results.cases.iter().filter_map(term).collect();
    let terms = terms.join(" ");
    let terms = terms.strip_prefix("+ ").unwrap_or(&terms);
    let given = combination.reference == "job file" && !terms.is_empty() && terms != combination.name;
    if given { format!("{}: {terms}", combination.name) } else { combination.name.clone() }
}

fn conditions(scene: &Scene) -> String {
    let basis = &scene.job.basis;
    let mut said = scene.results.conditions.clone();
    let wet: Vec<String> =
        scene.members().filter(|(e, _)| e.conditions.moisture.is_some_and(|m| m != basis.moisture)).map(|(_, m)| m.mark.clone()).collect();
    if !wet.is_empty() {
        let other = if basis.moisture == Moisture::Wet { "dry" } else { "wet" };
        said.push(format!("{} {other}", words::list(&wet)));
    }
    format!("{}.", words::capital(&said.join("; ")))
}

fn site(scene: &Scene) -> Vec<[Markup; 3]> {
    let row = |item: &str, value: &str, source: Option<&String>| {
        let source = source.map_or_else(|| Markup::ours("*open:* source not given".to_owned()), |s| Markup::text(s));
        [Markup::text(item), Markup::text(value), source]
    };
    scene.job.basis.site.iter().map(|s| row(&s.item, &s.value, s.source.as_ref())).collect()
}

fn area(scene: &Scene, load: AreaLoad) -> String {
    let unit = if scene.printing.in_feet() { &PSF } else { &KPA };
    area_value(scene, &Value { value: unit.number(load.value()), unit: unit.name.to_owned() })
}

/// One place more than layers are usually given with, noughts kept, so that a column adds up by eye.
fn area_value(scene: &Scene, value: &Value) -> String {
    scene.printing.number(&decimals(value.value, if scene.printing.in_feet() { 1 } else { 3 }))
}

fn areas(scene: &Scene) -> Vec<[Markup; 4]> {
    let job = scene.job;
    let mut rows = Vec::new();
    for area_loads in &job.areas {
        for (i, one) in area_loads.loads.iter().enumerate() {
            let name = if i == 0 { words::capital(&area_loads.name.replace('-', " ")) } else { String::new() };
            let source = match one.build_up.and_then(|b| job.build_ups.get(b)) {
                Some(build_up) => format!("build-up {}, added up below", build_up.name.replace('-', " ")),
                None => "job file".to_owned(),
            };
            let case = job.basis.cases.get(one.case.0).map_or("", |c| c.name.as_str());
            rows.push([
                Markup::text(&name),
                scene.lexicon.set(words::case(scene.results, case)),
                Markup::text(&area(scene, one.load)),
                Markup::text(&source),
            ]);
        }
    }
    rows
}

/// Members with the same limits, the limits, and who chose them.
fn limits(scene: &Scene) -> Vec<[Markup; 4]> {
    let mut rows: Vec<(Vec<String>, Vec<String>, Vec<String>)> = Vec::new();
    for member in &scene.results.members {
        let (mut said, mut by) = (Vec::new(), Vec::new());
        for deflection in member.deflections.iter().filter(|d| !d.limit_as.is_empty()) {
            let text = format!("{} {}", deflection.what, deflection.limit_as);
            if !said.contains(&text) {
                said.push(text);
            }
            if !deflection.reference.is_empty() && !by.contains(&deflection.reference) {
                by.push(deflection.reference.clone());
            }
        }
        if said.is_empty() {
            continue;
        }
        // Live before total, spans before overhangs.
        let kinds: Vec<String> = member.deflections.iter().map(|d| d.what.clone()).collect();
        said.sort_by_key(|text| {
            let kind = text.split(' ').next().unwrap_or_default();
            (kinds.iter().position(|k| k == kind), text.contains(" 2L/"))
        });
        match rows.iter_mut().find(|(_, s, b)| *s == said && *b == by) {
            Some((marks, ..)) => marks.push(member.mark.clone()),
            None => rows.push((vec![member.mark.clone()], said, by)),
        }
    }
    rows.into_iter()
        .map(|(marks, said, by)| {
            [scene.lexicon.set(&marks.join(" ")), Markup::text(&said.join(", ")), scene.lexicon.set(&by.join("; ")), Markup::text("")]
        })
        .collect()
}

/// What the package leaves out: what no sheet checks, and what this program does not do.
pub(super) fn not_included(scene: &Scene) -> String {
    let mut items: Vec<String> = ["the lateral system", "uplift paths", "connections", "fire", "foundations"].map(str::to_owned).to_vec();
    for item in scene.results.members.iter().flat_map(|m| &m.not_checked) {
        if !items.iter().any(|known| known.trim_start_matches("the ") == item.as_str()) {
            items.push(item.clone());
        }
    }
    format!("{}.", items.join("; "))
}

fn assumptions(scene: &Scene) -> Vec<Assumption> {
    let one = |a: &crate::results::Assumption| Assumption {
        id: a.id.clone(),
        text: scene.lexicon.set(&a.text),
        from: words::origin(&a.from),
        members: if a.members.is_empty() { Markup::text("all") } else { links(&a.members) },
        confirm: if a.confirm.is_empty() && a.open { NOT_GIVEN.to_owned() } else { a.confirm.clone() },
        open: a.open,
    };
    scene.results.assumptions.iter().map(one).collect()
}

/// Marks with their links, side by side.
pub(super) fn links(marks: &[String]) -> Markup {
    let one = |mark: &String| format!("#to({}, {});", literal(&sheet_label(mark)), literal(mark));
    Markup::ours(marks.iter().map(one).collect::<Vec<_>>().join(" ")).read_as(marks.join(" "))
}

/// Parts left to others with the forces handed to them.
fn deferred(scene: &Scene) -> Vec<Deferred> {
    let one = |part: &crate::job::model::Deferred| {
        let mut forces = Vec::new();
        for member in &scene.results.members {
            for reaction in member.reactions.iter().filter(|r| r.received_by_kind("deferred").any(|id| id == part.id)) {
                let uplift = if reaction.smallest.force.value < 0.0 {
                    format!(", {} {}", reaction.smallest.combination, scene.printing.value(&reaction.smallest.force))
                } else {
                    String::new()
                };
                let said = format!(
                    ", support {}: {} {}{uplift}",
                    reaction.support,
                    reaction.largest.combination,
                    scene.printing.with_unit(&reaction.largest.force)
                );
                forces.push(format!("{}{}", links(std::slice::from_ref(&member.mark)).source(), inserted(&said)));
            }
        }
        Deferred {
            id: part.id.clone(),
            text: scene.lexicon.set(&part.text),
            forces: Markup::ours(if scene.brief {
                inserted("to be found")
            } else if forces.is_empty() {
                let lifted = scene.results.members.iter().flat_map(|m| &m.reactions).any(|r| r.smallest.force.value < 0.0);
                inserted(if lifted { "none named; net uplift is in the reaction schedule" } else { "none named" })
            } else {
                forces.join("\\ ")
            }),
            by: part.by.clone().unwrap_or_else(|| NOT_GIVEN.to_owned()),
        }
    };
    scene.job.about.deferred.iter().map(one).collect()
}
