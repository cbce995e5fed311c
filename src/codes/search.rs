//! The search for what governs: every combination, every load set, every critical place.

use super::arrange::{Arranged, inward};
use super::{
    Action, CheckAbout, Code, Combination, DeflectionCase, Demand, Held, LoadSet, Notched, Pattern, Places, Prepared, Purpose, Statics, Time, Worked,
    reduce,
};
use crate::analysis::{Diagram, Quantity};
use crate::job::model::{Bracing, Case, DeflectionLimit, End, Job, Member, NotchPlace};

/// A check at the place, in the combination and load set where it is worst.
#[derive(Clone, Debug)]
pub struct Found {
    /// The row of the code's list.
    pub about: CheckAbout,
    /// Panel, or support from 1 (of a bearing or a notch).
    pub place: usize,
    /// The combination as printed.
    pub combination: String,
    /// The load set in words; empty where everything is on.
    pub load_set: String,
    /// The panels that carry what comes and goes.
    pub mask: u64,
    /// The demand.
    pub demand: Demand,
    /// Demand over capacity.
    pub ratio: f64,
    /// The check written down.
    pub worked: Worked,
    /// The load duration that it was worked with.
    pub time: Time,
    /// Whether it is the worst of its kind.
    pub leading: bool,
    /// What lost against it, worst first.
    pub others: Vec<Lost>,
}

/// A check that lost, in short.
#[derive(Clone, Debug, PartialEq)]
pub struct Lost {
    /// The combination, or the place.
    pub what: String,
    /// Its ratio.
    pub ratio: f64,
}

/// A deflection at the place and in the load set where it is worst.
#[derive(Clone, Debug)]
pub struct Deflected {
    /// What it is.
    pub case: DeflectionCase,
    /// Panel.
    pub panel: usize,
    /// Place, mm.
    pub at: f64,
    /// Value, mm.
    pub value: f64,
    /// Limit, mm, and how it was said: denominator and the length it divides.
    pub limit: Option<(f64, Option<(f64, f64)>)>,
}

/// A vertical reaction, N.
#[derive(Clone, Debug)]
pub struct Reacted {
    /// Place, mm.
    pub at: f64,
    /// Each case, on all panels.
    pub by_case: Vec<(Case, f64)>,
    /// The largest, and its combination.
    pub largest: (String, f64),
    /// The smallest.
    pub smallest: (String, f64),
}

/// A diagram worth drawing.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// The combination.
    pub combination: String,
    /// The load set in words.
    pub load_set: String,
    /// Panels that carry what comes and goes.
    pub mask: u64,
    /// What it shows.
    pub quantity: Quantity,
    /// The diagram; deflections still times EI.
    pub diagram: Diagram,
    /// All load sets of the same combination; empty where there is only one.
    pub all: Vec<Diagram>,
}

/// Everything found out about a member.
pub struct Checked {
    /// The worst of each check at each place, governing first, each kind's worst before its others.
    pub found: Vec<Found>,
    /// Deflections.
    pub deflections: Vec<Deflected>,
    /// Reactions, by support.
    pub reactions: Vec<Reacted>,
    /// Diagrams of the governing shear, moment and deflection.
    pub drawn: Vec<Drawn>,
}

/// A candidate: where, and how bad.
struct Candidate {
    check: usize,
    place: usize,
    combination: usize,
    set: usize,
    demand: Demand,
    ratio: f64,
}

/// One member, ready to be searched.
pub struct Search<'a> {
    /// The code.
    pub code: &'a dyn Code,
    /// The job.
    pub job: &'a Job,
    /// The member.
    pub member: &'a Member,
    /// The member against the code's tables.
    pub prepared: &'a dyn Prepared,
    /// The member solved.
    pub arranged: &'a Arranged,
}

/// Moments, shears and forces smaller than this part of the largest are nought.
const NOUGHT: f64 = 1e-7;

impl Search<'_> {
    /// Finds what governs. With `all`, every combination that lost is worked out too.
    pub fn run(&self, combinations: &[Combination], all: bool) -> Checked {
        let strength: Vec<Combination> = combinations.iter().filter(|c| c.purpose == Purpose::Strength).cloned().collect();
        let strength = reduce(self.code, &self.job.basis, &strength, &self.arranged.present);
        let times: Vec<Time> = strength.iter().map(|c| self.prepared.time(c, &c.factors)).collect();
        let mut candidates: Vec<Candidate> = Vec::new();
        let mut reactions: Vec<Reacted> = self.no_reactions();
        for (i, combination) in strength.iter().enumerate() {
            for (j, set) in self.sets_of(&combination.factors) {
                let diagram = self.arranged.combined(&combination.factors, set);
                let vertical = self.arranged.reactions(&self.job.basis, &combination.factors, set);
                for (reacted, force) in reactions.iter_mut().zip(&vertical).filter(|_| !set.points) {
                    if reacted.largest.0.is_empty() || *force > reacted.largest.1 + NOUGHT * force.abs() {
                        reacted.largest = (combination.name.clone(), *force);
                    }
                    if reacted.smallest.0.is_empty() || *force < reacted.smallest.1 - NOUGHT * force.abs() {
                        reacted.smallest = (combination.name.clone(), *force);
                    }
                }
                let at = Instance { factors: &combination.factors, set, diagram: &diagram, vertical: &vertical, time: times[i].factor };
                self.demands(&at, &mut |check, place, demand| {
                    if let Some(ratio) = self.prepared.ratio(check, &demand) {
                        keep(&mut candidates, Candidate { check, place, combination: i, set: j, demand, ratio });
                    }
                });
            }
        }
        let mut found = self.settle(&candidates, &strength, &times, all);
        let (deflections, worst) = self.deflections();
        found.extend(worst);
        order(&mut found);
        let drawn = self.draw(&found, &strength);
        Checked { found, deflections, reactions, drawn }
    }

    fn no_reactions(&self) -> Vec<Reacted> {
        let full = &self.arranged.sets[0];
        let by_case: Vec<(Case, Vec<f64>)> =
            self.arranged.present.iter().map(|c| (*c, self.arranged.reactions_of(&self.job.basis, *c, full))).collect();
        (0..self.arranged.supports.len())
            .map(|i| Reacted {
                at: self.arranged.supports[i],
                by_case: by_case.iter().map(|(c, r)| (*c, r[i])).collect(),
                largest: (String::new(), 0.0),
                smallest: (String::new(), 0.0),
            })
            .collect()
    }

    /// The load sets that make a difference to a combination: without a load that comes and goes, everything is on.
    fn sets_of<'s>(&'s self, factors: &'s [(Case, f64)]) -> impl Iterator<Item = (usize, &'s LoadSet)> {
        let patterned =
            factors.iter().any(|(c, _)| matches!(self.code.pattern(self.job.basis.cases[c.0].nature), Pattern::Sets { .. }));
        let all = self.arranged.sets[0].mask;
        self.arranged.sets.iter().enumerate().filter(move |(_, set)| patterned || set.mask == all)
    }

    fn demands(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, usize, Demand)) {
        for (check, about) in self.prepared.checks().iter().enumerate() {
            match about.places {
                Places::Moments => self.moments(at, &mut |place, demand| visit(check, place, demand)),
                Places::Shears => self.shears(at, &mut |place, demand| visit(check, place, demand)),
                Places::Bearings => self.bearings(at, &mut |place, demand| visit(check, place, demand)),
                Places::Notches => self.notches(at, &mut |place, demand| visit(check, place, demand)),
                Places::Deflections => {}
            }
        }
    }

    fn demand(&self, at: &Instance<'_>, panel: usize, x: f64, action: Action) -> Demand {
        let statics = self.arranged.statics(at.factors, at.set);
        Demand { time: at.time, statics, panel: self.arranged.panels[panel].number, single: self.arranged.single(), at: x, action }
    }

    fn moments(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        let last = self.arranged.panels.last().map_or(0.0, |p| p.to);
        let whole = at.diagram.extremes(Quantity::Moment, 0.0, last);
        let least = NOUGHT * whole.largest.value.max(-whole.smallest.value);
        for (i, panel) in self.arranged.panels.iter().enumerate() {
            let extremes = at.diagram.extremes(Quantity::Moment, panel.from, panel.to);
            for (extreme, sign) in [(extremes.largest, 1.0), (extremes.smallest, -1.0)] {
                if extreme.value * sign > least {
                    let held = self.held(i, extreme.value > 0.0);
                    let demand = self.demand(at, i, extreme.x, Action::Moment { moment: extreme.value, held });
                    // A closed form is for the moment at mid-span.
                    visit(panel.number, demand);
                }
            }
        }
    }

    /// How the edge that a moment compresses is held within a panel: supports and points of the bracing divide it.
    fn held(&self, panel: usize, top: bool) -> Held {
        let bracing = if top { &self.member.top } else { &self.member.bottom };
        let panel = &self.arranged.panels[panel];
        let cosine = self.arranged.cosine;
        let length = self.arranged.panels.last().map_or(0.0, |p| p.to);
        let mut points: Vec<f64> = match bracing {
            Bracing::Sheathed => return Held::Throughout(true),
            Bracing::Continuous => return Held::Throughout(false),
            Bracing::None => Vec::new(),
            Bracing::Places(places) => places.iter().map(|p| p.value() / cosine).collect(),
            Bracing::Every(spacing) => {
                let step = spacing.value() / cosine;
                (0..=(length / step) as usize).map(|k| k as f64 * step).collect()
            }
        };
        points.extend(&self.arranged.supports);
        points.retain(|x| *x >= panel.from - 1e-6 && *x <= panel.to + 1e-6);
        // The free end of an overhang is an end of the gap, held or not.
        points.extend([panel.from, panel.to]);
        points.sort_by(f64::total_cmp);
        Held::Gap(points.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max))
    }

    fn shears(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        for (i, side) in self.arranged.beside.iter().enumerate() {
            let uplift = at.diagram.reactions[side.support - 1] < 0.0;
            let notched = self.notch_at(side.support).is_some();
            let full = at.diagram.value(Quantity::Shear, side.line, inward(side));
            let reduced = side.section != side.line && !uplift && !notched;
            let force = if reduced {
                at.diagram.value(Quantity::Shear, side.section, inward(side)) + self.arranged.near(at.factors, at.set, i)
            } else {
                full
            };
            let face = if side.section == side.line { 0.0 } else { self.face(side.support) };
            let section = if reduced { side.section } else { side.line };
            let action = Action::Shear { force: force.abs(), full: full.abs(), support: side.support, face, reduced };
            let mut demand = self.demand(at, side.panel, section, action);
            // Loads that pull upward within the span may leave more shear there than beside the support.
            let panel = &self.arranged.panels[side.panel];
            let (a, b) = if side.sign > 0.0 { (section, 0.5 * (panel.from + panel.to)) } else { (0.5 * (panel.from + panel.to), section) };
            if b > a {
                let extremes = at.diagram.extremes(Quantity::Shear, a, b);
                for extreme in [extremes.largest, extremes.smallest] {
                    if extreme.value.abs() > force.abs() * (1.0 + 1e-9) {
                        let force = extreme.value.abs();
                        let action = Action::Shear { force, full: full.abs(), support: side.support, face, reduced: false };
                        demand = Demand { at: extreme.x, statics: Statics::Diagram, action, ..demand };
                    }
                }
            }
            visit(panel.number, demand);
        }
    }

    /// Half the bearing length of a support; nought where none is given.
    fn face(&self, support: usize) -> f64 {
        self.member.bearing.as_ref().and_then(|b| b.get(support - 1)).map_or(0.0, |l| 0.5 * l.value.value())
    }

    fn bearings(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        let Some(bearing) = &self.member.bearing else { return };
        let last = self.arranged.panels.last().map_or(0.0, |p| p.to);
        for (i, (line, force)) in self.arranged.supports.iter().zip(at.vertical).enumerate() {
            let Some(length) = bearing.get(i).map(|l| l.value.value()) else { continue };
            if *force > 0.0 {
                let to_end = (line.min(last - line) - 0.5 * length).max(0.0);
                let angle = 90.0 - self.arranged.angle;
                let action = Action::Bearing { force: *force, support: i + 1, length, to_end, angle };
                let panel = self.arranged.panels.iter().position(|p| p.to >= *line).unwrap_or(0);
                visit(i + 1, self.demand(at, panel, *line, action));
            }
        }
    }

    /// The notch over an end support.
    fn notch_at(&self, support: usize) -> Option<&crate::job::model::Notch> {
        self.member.notches.iter().find(|n| match n.at {
            NotchPlace::End(End::Left) => support == 1 && self.member.spans.left.is_zero(),
            NotchPlace::End(End::Right) => support == self.arranged.supports.len() && self.member.spans.right.is_zero(),
            NotchPlace::At(_) => false,
        })
    }

    fn notches(&self, at: &Instance<'_>, visit: &mut impl FnMut(usize, Demand)) {
        for side in &self.arranged.beside {
            let Some(notch) = self.notch_at(side.support) else { continue };
            let force = at.diagram.value(Quantity::Shear, side.line, inward(side)).abs();
            let upward = at.diagram.reactions[side.support - 1] < 0.0;
            let beyond = (notch.length.value() / self.arranged.cosine - 2.0 * self.face(side.support)).max(0.0);
            let notch = Notched { tension: notch.bottom != upward, depth: notch.depth.value.value(), beyond };
            visit(side.support, self.demand(at, side.panel, side.line, Action::Notch { force, support: side.support, notch }));
        }
    }

    /// Picks the worst of each check at each place, has it worked, and lists what lost.
    fn settle(&self, candidates: &[Candidate], combinations: &[Combination], times: &[Time], all: bool) -> Vec<Found> {
        let checks = self.prepared.checks();
        let mut found = Vec::new();
        for (check, about) in checks.iter().enumerate() {
            let of_check: Vec<&Candidate> = candidates.iter().filter(|c| c.check == check).collect();
            let mut places: Vec<usize> = of_check.iter().map(|c| c.place).collect();
            places.sort_unstable();
            places.dedup();
            let Some(leading) = worst(of_check.iter().copied()) else { continue };
            let others = self.lost(about, &of_check, leading, combinations, times);
            for place in places {
                let here = || of_check.iter().copied().filter(move |c| c.place == place);
                let Some(first) = worst(here()) else { continue };
                let wanted = here().filter(|c| all || std::ptr::eq(*c, first));
                for candidate in wanted {
                    let leads = std::ptr::eq(candidate, leading);
                    let time = &times[candidate.combination];
                    let set = &self.arranged.sets[candidate.set];
                    found.push(Found {
                        about: *about,
                        place,
                        combination: combinations[candidate.combination].name.clone(),
                        load_set: set.words.clone(),
                        mask: set.mask,
                        demand: candidate.demand,
                        ratio: candidate.ratio,
                        worked: self.prepared.worked(check, &candidate.demand, time),
                        time: time.clone(),
                        leading: leads,
                        others: if leads { others.clone() } else { Vec::new() },
                    });
                }
            }
        }
        found
    }

    fn lost(&self, about: &CheckAbout, of_check: &[&Candidate], leading: &Candidate, combinations: &[Combination], times: &[Time]) -> Vec<Lost> {
        let mut lost = Vec::new();
        for (i, combination) in combinations.iter().enumerate().filter(|(i, _)| *i != leading.combination) {
            if let Some(other) = worst(of_check.iter().copied().filter(|c| c.combination == i)) {
                // What does not depend on the combination is not said again for each of them.
                if (other.ratio - leading.ratio).abs() > 1e-9 {
                    let time = times[i].factor;
                    let also = if time == times[leading.combination].factor { String::new() } else { format!(" ({})", self.code.time_in_words(&self.job.basis, time)) };
                    lost.push(Lost { what: format!("{}{also}", combination.name), ratio: other.ratio });
                }
            }
        }
        lost.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
        let mut places: Vec<usize> = of_check.iter().map(|c| c.place).filter(|p| *p != leading.place).collect();
        places.sort_unstable();
        places.dedup();
        for place in places {
            if let Some(other) = worst(of_check.iter().copied().filter(|c| c.place == place)) {
                lost.push(Lost { what: self.place_in_words(about.places, place), ratio: other.ratio });
            }
        }
        lost
    }

    fn place_in_words(&self, places: Places, place: usize) -> String {
        match places {
            Places::Bearings | Places::Notches => format!("support {place}"),
            _ => match self.arranged.panels.iter().find(|p| p.number == place) {
                Some(panel) if panel.overhang && self.arranged.panels.iter().filter(|p| p.overhang).count() == 1 => "overhang".to_owned(),
                Some(panel) if panel.overhang && place == 0 => "left overhang".to_owned(),
                Some(panel) if panel.overhang => "right overhang".to_owned(),
                _ => format!("span {place}"),
            },
        }
    }

    fn deflections(&self) -> (Vec<Deflected>, Vec<Found>) {
        let rigidity = self.prepared.rigidity();
        let checks = self.prepared.checks();
        let check = checks.iter().position(|c| c.places == Places::Deflections);
        let (mut deflected, mut found): (Vec<Deflected>, Vec<Found>) = (Vec::new(), Vec::new());
        for case in self.prepared.deflections(&self.arranged.present) {
            let mut best: Vec<Option<(f64, f64, usize)>> = vec![None; self.arranged.panels.len()];
            for (j, set) in self.sets_of(&case.factors) {
                let diagram = self.arranged.combined(&case.factors, set);
                for (i, panel) in self.arranged.panels.iter().enumerate() {
                    let extremes = diagram.extremes(Quantity::Deflection, panel.from, panel.to);
                    for extreme in [extremes.largest, extremes.smallest] {
                        let value = extreme.value * case.times / rigidity;
                        if best[i].is_none_or(|(v, ..)| value.abs() > v.abs() * (1.0 + 1e-9)) {
                            best[i] = Some((value, extreme.x, j));
                        }
                    }
                }
            }
            for (panel, best) in self.arranged.panels.iter().zip(best) {
                let Some((value, at, set)) = best.filter(|(v, ..)| v.abs() > 0.0) else { continue };
                let length = (panel.to - panel.from) * if panel.overhang { 2.0 } else { 1.0 };
                let limit = match case.limit {
                    Some(DeflectionLimit::SpanOver(n)) => Some((length / n, Some((n, length)))),
                    Some(DeflectionLimit::Length(l)) => Some((l.value(), None)),
                    Some(DeflectionLimit::Off) | None => None,
                };
                if let (Some(check), Some((limit, limit_as))) = (check, limit) {
                    let set = &self.arranged.sets[set];
                    let action = Action::Deflection { deflection: value, limit, limit_as, what: case.what };
                    let demand = Demand {
                        time: 1.0,
                        statics: if panel.overhang { Statics::Diagram } else { self.arranged.statics(&case.factors, set) },
                        panel: panel.number,
                        single: self.arranged.single(),
                        at,
                        action,
                    };
                    let time = Time { factor: 1.0, because: case.reference.clone() };
                    if let Some(ratio) = self.prepared.ratio(check, &demand) {
                        found.push(Found {
                            about: checks[check],
                            place: panel.number,
                            combination: case.combination.clone(),
                            load_set: set.words.clone(),
                            mask: set.mask,
                            demand,
                            ratio,
                            worked: self.prepared.worked(check, &demand, &time),
                            time,
                            leading: false,
                            others: Vec::new(),
                        });
                    }
                }
                deflected.push(Deflected { case: case.clone(), panel: panel.number, at, value, limit });
            }
        }
        // Of each panel the worst stands among the checks; all stand among the deflections.
        found.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
        let mut seen = Vec::new();
        let rest: Vec<Lost> = found.iter().skip(1).map(|f| self.deflection_lost(f)).collect();
        found.retain(|f| {
            let new = !seen.contains(&f.place);
            seen.push(f.place);
            new
        });
        if let Some(first) = found.first_mut() {
            first.leading = true;
            first.others = rest;
        }
        (deflected, found)
    }

    fn deflection_lost(&self, found: &Found) -> Lost {
        let what = match found.demand.action {
            Action::Deflection { what, .. } => what,
            _ => "",
        };
        let place = if self.arranged.single() { String::new() } else { format!(", {}", self.place_in_words(Places::Deflections, found.place)) };
        Lost { what: format!("{what}, {}{place}", found.combination), ratio: found.ratio }
    }

    fn draw(&self, found: &[Found], combinations: &[Combination]) -> Vec<Drawn> {
        let leading = |places: Places| found.iter().find(|f| f.about.places == places && f.leading && !f.about.only_failing);
        let mut drawn = Vec::new();
        for (quantity, first, second) in
            [(Quantity::Shear, Places::Shears, Places::Moments), (Quantity::Moment, Places::Moments, Places::Shears)]
        {
            let Some(governing) = leading(first).or_else(|| leading(second)) else { continue };
            let Some(combination) = combinations.iter().find(|c| c.name == governing.combination) else { continue };
            drawn.push(self.drawing(quantity, governing, &combination.factors));
        }
        let cases = self.prepared.deflections(&self.arranged.present);
        if let Some(governing) = leading(Places::Deflections)
            && let Action::Deflection { what, .. } = governing.demand.action
            && let Some(case) = cases.iter().find(|c| c.what == what && c.combination == governing.combination)
        {
            drawn.push(self.drawing(Quantity::Deflection, governing, &case.factors));
        }
        drawn
    }

    fn drawing(&self, quantity: Quantity, governing: &Found, factors: &[(Case, f64)]) -> Drawn {
        let sets: Vec<(usize, &LoadSet)> = self.sets_of(factors).collect();
        let set = sets.iter().find(|(_, s)| s.words == governing.load_set).map_or(&self.arranged.sets[0], |(_, s)| *s);
        let all = if sets.len() > 1 { sets.iter().map(|(_, s)| self.arranged.combined(factors, s)).collect() } else { Vec::new() };
        Drawn {
            combination: governing.combination.clone(),
            load_set: set.words.clone(),
            mask: set.mask,
            quantity,
            diagram: self.arranged.combined(factors, set),
            all,
        }
    }
}

/// A combination in a load set, solved.
struct Instance<'a> {
    factors: &'a [(Case, f64)],
    set: &'a LoadSet,
    diagram: &'a Diagram,
    vertical: &'a [f64],
    time: f64,
}

/// Keeps the worst candidate of each check, place and combination; the first of equals.
fn keep(candidates: &mut Vec<Candidate>, new: Candidate) {
    let same = |c: &&mut Candidate| c.check == new.check && c.place == new.place && c.combination == new.combination;
    match candidates.iter_mut().rev().find(same) {
        Some(known) if is_worse(new.ratio, known.ratio) => *known = new,
        Some(_) => {}
        None => candidates.push(new),
    }
}

/// Not-a-number is the worst of all.
fn is_worse(a: f64, b: f64) -> bool {
    a.is_nan() || a > b * (1.0 + 1e-9)
}

fn worst<'c>(candidates: impl Iterator<Item = &'c Candidate>) -> Option<&'c Candidate> {
    candidates.reduce(|best, next| if is_worse(next.ratio, best.ratio) { next } else { best })
}

/// Governing first, each kind's worst before the others of its kind; a check that governs only where it fails stands behind while it passes.
fn order(found: &mut [Found]) {
    let rank = |f: &Found| if f.about.only_failing && f.ratio <= 1.0 + 1e-9 { -1.0 } else { f.ratio };
    let mut kinds: Vec<(&'static str, f64)> = found.iter().filter(|f| f.leading).map(|f| (f.about.name, rank(f))).collect();
    kinds.sort_by(|a, b| b.1.total_cmp(&a.1));
    let place = |name: &str| kinds.iter().position(|(n, _)| *n == name).unwrap_or(kinds.len());
    found.sort_by(|a, b| place(a.about.name).cmp(&place(b.about.name)).then(b.leading.cmp(&a.leading)).then(b.ratio.total_cmp(&a.ratio)));
}
