//! From a load of the job file to loads square to the member, along it, each with where it comes from.

use super::across::{Lean, times};
use super::stand::{is_nothing, line};
use super::{Applied, HandedDown, Way};
use crate::analysis::Load as Acting;
use crate::codes::{Code, Resolved, Shown};
use crate::job::model::{Area, AreaOfCase, Arrival, Axis, Case, Eccentricity, Job, Load, LoadKind, Member, Nature, Slope};
use crate::units::{Length, decimals, figures, trimmed};

/// What a load of the job file needs to become a load on the beam.
pub(super) struct Frame<'a> {
    pub code: &'a dyn Code,
    pub job: &'a Job,
    pub member: &'a Member,
    pub cosine: f64,
    /// How the member leans; none: it stands upright.
    pub lean: Option<Lean>,
    pub handed: &'a [Option<HandedDown>],
    /// Whether it is said where loads come from.
    pub words: bool,
}

impl Frame<'_> {
    fn nature(&self, case: Case) -> Nature {
        self.job.basis.nature(case)
    }

    /// A load along a line, given in the job file, as it is square to the member and along it.
    fn square(&self, case: Case, load: f64) -> f64 {
        match self.nature(case) {
            Nature::Wind => load,
            Nature::Dead => load * self.cosine,
            _ => load * self.cosine * self.cosine,
        }
    }

    /// A force given in the job file as it is square to the member.
    fn square_force(&self, case: Case, force: f64) -> f64 {
        if self.nature(case) == Nature::Wind { force } else { force * self.cosine }
    }

    /// What a load on a sloping member is multiplied by, in words: its part square to the slope, per length along it.
    fn leaning(&self, case: Case) -> String {
        if self.cosine >= 1.0 {
            return String::new();
        }
        let angle = decimals(libm::acos(self.cosine).to_degrees(), 1);
        match self.nature(case) {
            Nature::Wind => String::new(),
            Nature::Dead => format!(" x cos {angle}°"),
            _ => format!(" x cos² {angle}°"),
        }
    }

    /// What an area load is multiplied by beyond what the member's own slope asks: dead load is per area of the surface that it lies on, whose
    /// slope may be another one than the member's (a hip, a valley, a ridge).
    fn lying(&self, case: Case, slope: Option<&Slope>) -> f64 {
        let slope = slope.filter(|_| self.nature(case) == Nature::Dead);
        slope.map_or(1.0, |slope| self.cosine / libm::cos(slope.angle.value().to_radians()))
    }

    /// The part of an area load that counts on a member that leans: snow and live load are on plan, widths along the surface that the
    /// member stands square on.
    fn on_plan(&self, case: Case) -> f64 {
        match (self.lean, self.nature(case)) {
            (None, _) | (_, Nature::Wind | Nature::Dead) => 1.0,
            (Some(lean), _) => lean.cosine,
        }
    }

    /// Where an area load comes from: `area roof, 15 psf x 0 to 8.5 ft x cos² 19.4° / cos 26.6°`.
    fn area_in_words(&self, area: &Area, one: &AreaOfCase, [first, last]: [Length; 2], slope: Option<&Slope>) -> String {
        if !self.words {
            return String::new();
        }
        let shown = self.code.shown();
        let width = match (first == last, first.is_zero(), last.is_zero()) {
            (true, ..) => wide(first.value(), shown),
            (_, true, _) => format!("0 to {}", wide(last.value(), shown)),
            (_, _, true) => format!("{} to 0", wide(first.value(), shown)),
            _ => format!("{} to {}", wide(first.value(), shown), wide(last.value(), shown)),
        };
        let leaning = match slope.filter(|_| self.nature(one.case) == Nature::Dead) {
            None => self.leaning(one.case),
            Some(slope) => {
                let own = libm::acos(self.cosine).to_degrees();
                let own = if self.cosine >= 1.0 { String::new() } else { format!(" x cos² {}°", decimals(own, 1)) };
                format!("{own} / cos {}°", decimals(slope.angle.value(), 1))
            }
        };
        let on_plan = match self.lean {
            Some(lean) if !matches!(self.nature(one.case), Nature::Wind | Nature::Dead) => format!(" x cos {}°", decimals(lean.angle, 1)),
            _ => String::new(),
        };
        format!("area {}, {} {} x {width}{leaning}{on_plan}", area.name, tidy(shown.area.number(one.load.value())), shown.area.name)
    }

    /// Puts a load on the beam: a vertical one with its parts about both axes where the member leans.
    fn put(&self, upright: bool, applied: Applied, into: &mut Vec<Applied>) {
        match self.lean {
            Some(lean) if upright => lean.resolve(applied, &format!("{}°", decimals(lean.angle, 1)), into),
            _ => into.push(applied),
        }
    }

    /// All loads of the member, its own weight first, reduced where it bears a part only; those that are nought left out.
    pub fn all(&self, length: f64, resolved: &Resolved) -> Vec<Applied> {
        let mut applied = Vec::new();
        if self.member.self_weight && resolved.weight > 0.0 {
            self.own_weight(length, resolved.weight, &mut applied);
        }
        for load in &self.member.loads {
            self.apply(load, &mut applied);
        }
        for reduced in &resolved.reduced {
            for one in applied.iter_mut().filter(|a| a.case == reduced.case) {
                one.load = times(&one.load, reduced.part);
                one.smallest = one.smallest.as_ref().map(|load| times(load, reduced.part));
                if self.words {
                    one.because.push_str(&format!(" x {} (reduced)", figures(reduced.part, 3)));
                }
            }
        }
        applied.retain(|a| !is_nothing(&a.load) || a.smallest.as_ref().is_some_and(|s| !is_nothing(s)));
        applied
    }

    /// The member's own weight, `weight` along its length.
    fn own_weight(&self, length: f64, weight: f64, into: &mut Vec<Applied>) {
        let because = "own weight".to_owned();
        let case = Nature::Dead.case();
        if self.member.role.is_upright() {
            into.push(self.along(case, weight * length, [0.0; 2], because));
            return;
        }
        let load = line(0.0, length, weight * self.cosine, weight * self.cosine);
        self.put(
            true,
            Applied { case, way: Way::Down, load, smallest: None, eccentricity: [0.0; 2], every: None, hung: false, because, from: None },
            into,
        );
    }

    /// A force along the member, at its head.
    fn along(&self, case: Case, force: f64, eccentricity: [f64; 2], because: String) -> Applied {
        let load = Acting::Point { at: self.member.spans.length().value(), force };
        Applied { case, way: Way::Along, load, smallest: None, eccentricity, every: None, hung: false, because, from: None }
    }

    /// How far a force stands off the axes, in words: `, 1 in off the strong axis`.
    fn off_axis(&self, eccentricity: [f64; 2]) -> String {
        let said = ["strong", "weak"].into_iter().zip(eccentricity).filter(|(_, e)| *e != 0.0);
        said.map(|(axis, e)| format!(", {} off the {axis} axis", wide(e, self.code.shown()))).collect()
    }

    /// Turns a load of the job file into loads on the beam.
    fn apply(&self, load: &Load, into: &mut Vec<Applied>) {
        let along = |plan: f64| plan / self.cosine;
        let plain = |case, load, because| Applied {
            case,
            way: Way::Down,
            load,
            smallest: None,
            eccentricity: [0.0; 2],
            every: None,
            hung: false,
            because,
            from: None,
        };
        // Wind is square to the surface, whatever the member does.
        let upright = |case| self.nature(case) != Nature::Wind;
        match &load.kind {
            LoadKind::Area { area, width, slope, from, to } => {
                let area = &self.job.areas[*area];
                let width = width.or(self.member.spacing.as_ref().map(|s| [s.value; 2]));
                let Some([first, last]) = width else { return };
                for one in &area.loads {
                    let (plan, lying) = (self.on_plan(one.case), self.lying(one.case, slope.as_ref()));
                    // A sum with nought has no sign where it is nought.
                    let square = |width: Length| self.square(one.case, (one.load * width).value()) * plan * lying + 0.0;
                    let over = self.area_in_words(area, one, [first, last], slope.as_ref());
                    // What a wall weighs goes down its studs; all else on it acts square to it.
                    if self.member.role.is_upright() && self.nature(one.case) == Nature::Dead {
                        let stretch = to.value() - from.value();
                        let words = format!("{over} x {}", wide(stretch, self.code.shown()));
                        into.push(self.along(one.case, 0.5 * (square(first) + square(last)) * stretch, [0.0; 2], words));
                        continue;
                    }
                    let load = line(along(from.value()), along(to.value()), square(first), square(last));
                    self.put(upright(one.case), plain(one.case, load, over), into);
                }
            }
            LoadKind::Line { case, start, end, from, to, about } => {
                let load = line(along(from.value()), along(to.value()), self.square(*case, start.value()), self.square(*case, end.value()));
                self.put(upright(*case), bending(*about, plain(*case, load, "line load".to_owned())), into);
            }
            LoadKind::Point { case, force, at, about } => {
                let load = Acting::Point { at: along(at.value()), force: self.square_force(*case, force.value()) };
                self.put(upright(*case), bending(*about, plain(*case, load, "point load".to_owned())), into);
            }
            LoadKind::Moment { case, moment, at, about } => {
                let load = Acting::Moment { at: along(at.value()), moment: moment.value() };
                into.push(bending(*about, plain(*case, load, "moment".to_owned())));
            }
            LoadKind::Axial { case, force, eccentricity } => {
                let because = format!("axial load{}", self.off_axis(eccentricity.both()));
                let along = self.along(*case, force.value(), eccentricity.both(), because);
                self.on_bracket(eccentricity, &along, into);
                into.push(along);
            }
            LoadKind::Thrust { from_member, every } => self.pulled(*from_member, *every, into),
            LoadKind::Reaction { from_member, support, or_supports, arrives, .. } => {
                let supports: Vec<usize> = std::iter::once(*support).chain(or_supports.iter().copied()).collect();
                self.receive(*from_member, &supports, arrives, into);
            }
        }
    }

    /// What a bracket at the side adds to its force, which goes down the column: a side load at mid-height, P_s = 3 a l_p P / l², a from the
    /// axis to the force, l_p from the foot to the bracket. NDS 15.4.2 (from memory).
    fn on_bracket(&self, eccentricity: &Eccentricity, along: &Applied, into: &mut Vec<Applied>) {
        let Some((height, arms)) = eccentricity.bracket() else { return };
        let length = self.member.spans.length().value();
        for (about, arm) in [Axis::Strong, Axis::Weak].into_iter().zip(arms).filter(|(_, arm)| *arm != 0.0) {
            let part = 3.0 * arm * height / (length * length);
            let sideways = |load: Acting| match load {
                Acting::Point { force, .. } => Acting::Point { at: 0.5 * length, force: part * force },
                other => other,
            };
            let shown = self.code.shown();
            let because = format!(
                "{}, bracket {} off the axis, {} up: 3 a l_p P / l² at mid-height (NDS 15.4.2)",
                along.because,
                wide(arm, shown),
                wide(height, shown)
            );
            let load = sideways(along.load);
            let smallest = along.smallest.map(sideways);
            into.push(bending(about, Applied { way: Way::Down, load, smallest, eccentricity: [0.0; 2], because, ..along.clone() }));
        }
    }

    /// The thrust of a rafter, one pull a case; of a row of rafters over the tie's own spacing.
    fn pulled(&self, giver: usize, every: Option<Length>, into: &mut Vec<Applied>) {
        let Some([largest, smallest]) = self.handed.get(giver).and_then(Option::as_ref).and_then(|handed| handed.thrust.as_ref()) else {
            return;
        };
        let mark = &self.job.members[giver].mark.value;
        let spacing = self.member.spacing.as_ref().map(|s| s.value);
        let (share, row) = match every.zip(spacing) {
            Some((every, spacing)) => {
                let shown = self.code.shown();
                ((spacing / every).value(), format!(", every {}, over {}", wide(every.value(), shown), wide(spacing.value(), shown)))
            }
            None => (1.0, String::new()),
        };
        let end = self.member.spans.length().value();
        for case in (0..self.job.basis.cases.len()).map(Case) {
            let make = |force: f64| Acting::Point { at: end, force: force * share };
            let (most, least) = (largest[case.0], smallest[case.0]);
            let differs = (most - least).abs() > 1e-9 * most.abs().max(least.abs());
            into.push(Applied {
                case,
                way: Way::Along,
                load: make(most),
                smallest: differs.then(|| make(least)),
                eccentricity: [0.0; 2],
                every: None,
                hung: false,
                because: format!("thrust of {mark}{row}"),
                from: Some((giver, 1)),
            });
        }
    }

    /// Where a received reaction comes from.
    fn reaction_in_words(&self, mark: &str, support: usize, ends: usize, arrives: &Arrival) -> String {
        let support = if ends > 1 { format!("{support}, the largest of {ends}") } else { support.to_string() };
        let because = match arrives {
            Arrival::At(_) | Arrival::Head { every: None, .. } => format!("reaction {mark}, support {support}"),
            Arrival::Head { every: Some(every), .. } => {
                let own = self.member.spacing.as_ref().map_or(0.0, |s| s.value.value());
                let shown = self.code.shown();
                format!("reaction {mark}, support {support}, every {}, over {}", wide(every.value(), shown), wide(own, shown))
            }
            Arrival::Every { spacing, .. } => {
                format!("reaction {mark}, support {support}, every {}", wide(spacing.value(), self.code.shown()))
            }
        };
        match arrives {
            Arrival::Head { eccentricity, .. } => format!("{because}{}", self.off_axis(eccentricity.both())),
            Arrival::At(_) | Arrival::Every { .. } => because,
        }
    }

    /// A received reaction, one load a case; of several supports the largest and the smallest of all.
    fn receive(&self, giver: usize, supports: &[usize], arrives: &Arrival, into: &mut Vec<Applied>) {
        let Some(handed) = self.handed.get(giver).and_then(Option::as_ref) else { return };
        let mark = &self.job.members[giver].mark.value;
        let hung = supports.iter().any(|support| self.job.members[giver].hangers.contains(support));
        for case in (0..self.job.basis.cases.len()).map(Case) {
            let of = |by_support: &[Vec<f64>], support: usize| by_support[support - 1][case.0];
            let Some(&first) = supports.first() else { return };
            let largest = supports.iter().map(|support| of(&handed.largest, *support)).fold(of(&handed.largest, first), f64::max);
            // The first of equal ones, whatever their last bits.
            let is_largest = |support: &usize| of(&handed.largest, *support) >= largest - 1e-9 * largest.abs();
            let support = supports.iter().copied().find(is_largest).unwrap_or(first);
            let smallest = supports.iter().map(|support| of(&handed.smallest, *support)).fold(of(&handed.smallest, first), f64::min);
            // A reaction is a vertical force whatever made it (reading 15).
            let make = |force: f64| match arrives {
                Arrival::At(at) => Acting::Point { at: at.value() / self.cosine, force: force * self.cosine },
                // A row of them over the stud's own spacing (reading 45).
                Arrival::Head { every, .. } => {
                    let spacing = self.member.spacing.as_ref().map(|s| s.value);
                    let share = every.zip(spacing).map_or(1.0, |(every, spacing)| (spacing / every).value());
                    Acting::Point { at: self.member.spans.length().value(), force: force * share }
                }
                Arrival::Every { spacing, from, to } => {
                    let spread = force * self.cosine * self.cosine / spacing.value();
                    line(from.value() / self.cosine, to.value() / self.cosine, spread, spread)
                }
            };
            let every = match arrives {
                Arrival::Every { spacing, .. } => Some(spacing.value() / self.cosine),
                Arrival::At(_) | Arrival::Head { .. } => None,
            };
            let because = if self.words { self.reaction_in_words(mark, support, supports.len(), arrives) } else { String::new() };
            let differs = (largest - smallest).abs() > 1e-9 * largest.abs().max(smallest.abs());
            let from = Some((giver, support));
            let (way, eccentricity) = match arrives {
                Arrival::Head { eccentricity, .. } => (Way::Along, eccentricity.both()),
                Arrival::At(_) | Arrival::Every { .. } => (Way::Down, [0.0; 2]),
            };
            let smallest = differs.then(|| make(smallest));
            let applied = Applied { case, way, load: make(largest), smallest, eccentricity, every, hung, because, from };
            if let Arrival::Head { eccentricity, .. } = arrives {
                self.on_bracket(eccentricity, &applied, into);
            }
            self.put(true, applied, into);
        }
    }
}

/// A load that bends a post, stud or tie about an axis.
fn bending(about: Axis, applied: Applied) -> Applied {
    let way = if about == Axis::Weak { Way::Across } else { Way::Down };
    Applied {
        way,
        because: if about == Axis::Weak { format!("{}, about the weak axis", applied.because) } else { applied.because },
        ..applied
    }
}

fn tidy(number: f64) -> String {
    trimmed(number, 4)
}

/// A width in the unit in which it is a round number.
fn wide(value: f64, shown: Shown) -> String {
    let (short, long) = (shown.section.number(value), shown.span.number(value));
    let round = |x: f64| (x - libm::round(x)).abs() < 1e-6;
    if short > 48.0 && round(long * 4.0) && shown.span.name != shown.section.name {
        format!("{} {}", tidy(long), shown.span.name)
    } else {
        format!("{} {}", tidy(short), shown.section.name)
    }
}
