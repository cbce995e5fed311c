//! From the loads of the job file to solved diagrams: by case, by panel, by the way received reactions stand.
//!
//! Rafters are analysed along the slope with the components square to it (reading 6); places of the job file are on plan and are
//! stretched here. Reactions go back to the vertical.

mod across;
mod along;
mod apply;
mod beside;
mod down;
mod held;
mod near;
mod raised;
mod sets;
mod slots;
mod stand;
mod statics;
mod upon;

use super::{Code, Held, Pattern, Prepared};
use crate::analysis::{Beam, Diagram, Load as Acting, Panel, Quantity, Side};
use crate::job::model::{Case, Job, Member, Ridge};
use crate::text::{Diagnostic, Faults};
pub use across::Across;
pub use along::Along;
use apply::Frame;
pub use beside::{Beside, LeftOut};
pub(super) use held::every;
use near::AllNear;
use raised::RaisedTie;
use slots::{ByPlace, Setting, Slots};
pub use statics::Statics;
use std::fmt::Display;
pub use upon::Upon;

/// Which way a load acts on a member, and so which axis it bends it about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Along the depth: it bends about the strong axis.
    Down,
    /// Across the depth: it bends about the weak axis. On members that lean only; positive to the side that they lean to.
    Across,
    /// Along the member: a force at its head, compression positive on posts and studs, tension on ties.
    Along,
}

/// A load as it acts on the analysed member, and where it comes from.
#[derive(Clone, Debug)]
pub struct Applied {
    /// Its case.
    pub case: Case,
    /// Which way it acts.
    pub way: Way,
    /// The load, square to the member, places along the member; a received reaction at its largest.
    pub load: Acting,
    /// The same with the reaction at its smallest, where that differs.
    pub smallest: Option<Acting>,
    /// How far a force along the member stands from its axis, over the depth and over the width; mm.
    pub eccentricity: [f64; 2],
    /// Received reactions that stand so far apart: tried as points too where a span holds few of them.
    pub every: Option<f64>,
    /// Whether it hangs on the side of the member; else it is on the top.
    pub hung: bool,
    /// Where it comes from, in words.
    pub because: String,
    /// The member, by its index, and the support, from 1, that hand it down.
    pub from: Option<(usize, usize)>,
}

/// One way in which the loads may stand: which panels carry the loads that come and go, and how received reactions stand.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadSet {
    /// Which arrangement of received reactions.
    pub arrangement: usize,
    /// Bit p: panel p carries the loads that come and go.
    pub mask: u64,
    /// Whether received reactions are placed as concentrated loads: the sheet's own trial, which is not handed down.
    pub points: bool,
    /// In words; empty for all panels, reactions at their largest, spread.
    pub words: String,
}

/// The largest and the smallest reactions handed down, by support, then by case; N, positive upward.
#[derive(Clone, Debug, Default)]
pub struct HandedDown {
    /// By support, by case.
    pub largest: Vec<Vec<f64>>,
    /// By support, by case.
    pub smallest: Vec<Vec<f64>>,
    /// The outward thrust of a rafter on a ridge board, by case, at its largest and at its smallest; N, tension in the tie positive.
    pub thrust: Option<[Vec<f64>; 2]>,
}

/// A member's beam with every load case solved panel by panel.
pub struct Arranged {
    /// Cosine of the slope; 1 for a level member.
    pub cosine: f64,
    /// Angle from the level, degrees.
    pub angle: f64,
    /// Whether it is a rafter that leans on its fellow at a ridge board: its last support carries nothing, and it thrusts.
    pub leans_on_fellow: bool,
    /// Whether the tie of such a pair stands above the heel.
    pub tie_is_up: bool,
    /// How the member stands across its depth; none where it does not lean.
    pub across: Option<Across>,
    /// Forces along the member; none on a member that spans.
    pub along: Option<Along>,
    /// Its panels.
    pub panels: Vec<Panel>,
    /// Places of the support lines.
    pub supports: Vec<f64>,
    /// Where it hands down: its support lines, or the foot of a post or stud.
    pub bearers: Vec<f64>,
    /// Posts and studs that stand on it.
    pub upon: Vec<Upon>,
    /// Loads in words and numbers.
    pub applied: Vec<Applied>,
    /// Cases that load the member.
    pub present: Vec<Case>,
    /// All load sets, the one with everything on first.
    pub sets: Vec<LoadSet>,
    /// Every end of a panel at a support.
    pub beside: Vec<Beside>,
    /// How the top and the bottom edge of every panel are held.
    pub held: Vec<[Held; 2]>,
    solved: Vec<Diagram>,
    /// The same for deflections, of a member that yields to shear too; else empty.
    yielding: Vec<Diagram>,
    /// Which of `solved`; the first has no loads.
    slots: ByPlace<usize>,
    /// Loads near the supports, by arrangement and side.
    near: AllNear,
    shapes: Vec<Vec<Shape>>,
    patterns: Vec<Pattern>,
    /// The part of a case that the member bears, where it is reduced by its area.
    parts: Vec<(Case, f64)>,
}

/// What of a case a closed form covers.
#[derive(Clone, Copy, Debug, Default)]
struct Shape {
    uniform: f64,
    mid: f64,
    other: bool,
}

/// The most panels of which every set is tried; beyond, a job is refused.
pub const MOST_PANELS: usize = crate::job::bounds::PANELS;

/// A member that cannot be solved: never left out in silence.
pub(super) fn unsolved(member: &Member, why: impl Display) -> Faults {
    let mark = &member.mark;
    vec![Diagnostic::bug("not-solved", format!("{} cannot be solved: {why}", mark.value), mark.span)]
}

impl Arranged {
    /// Sets out and solves a member: `weight` is its own weight along its length, `handed` what its members above hand down.
    ///
    /// # Errors
    /// A bug, which names the member: the job's reader lets no member through that cannot be solved.
    pub fn new(
        code: &dyn Code,
        job: &Job,
        member: &Member,
        prepared: &dyn Prepared,
        handed: &[Option<HandedDown>],
    ) -> Result<Self, Faults> {
        Self::set_out(code, job, member, prepared, handed, true)
    }

    /// The same without a word about where loads come from and how they stand: for tools that ask many times and print nothing.
    ///
    /// # Errors
    /// As [`Arranged::new`].
    pub fn quiet(
        code: &dyn Code,
        job: &Job,
        member: &Member,
        prepared: &dyn Prepared,
        handed: &[Option<HandedDown>],
    ) -> Result<Self, Faults> {
        Self::set_out(code, job, member, prepared, handed, false)
    }

    fn set_out(
        code: &dyn Code,
        job: &Job,
        member: &Member,
        prepared: &dyn Prepared,
        handed: &[Option<HandedDown>],
        words: bool,
    ) -> Result<Self, Faults> {
        let absent = |giver: &usize| handed.get(*giver).is_none_or(Option::is_none);
        if let Some(giver) = member.loads.iter().filter_map(|load| load.kind.giver()).find(absent) {
            return Err(unsolved(member, format_args!("{} has not handed down its reactions", job.members[giver].mark.value)));
        }
        let angle = member.slope.as_ref().map_or(0.0, |s| s.value.angle.value());
        let cosine = libm::cos(angle.to_radians());
        let length = member.spans.length().value() / cosine;
        let beam = Beam::new(length, along::supports(member, cosine)).map_err(|why| unsolved(member, why))?;
        let supports: Vec<f64> = beam.supports().iter().map(|s| s.at).collect();
        let bearers = if member.role.is_upright() { vec![0.0] } else { supports.clone() };
        let panels = beam.panels();
        let frame = Frame { code, job, member, cosine, lean: across::lean(member), handed, words };
        let mut applied = frame.all(length, prepared.resolved());
        let raised = RaisedTie::of(&frame, &beam);
        let mut present: Vec<Case> = applied.iter().map(|a| a.case).collect();
        present.sort_unstable();
        present.dedup();

        let arrangements = stand::arrangements(&applied, &panels);
        let beside = beside::all(&panels, &supports, |support| prepared.left_out(support));
        let setting = Setting { applied: &applied, panels: &panels, beside: &beside, raised: raised.as_ref() };
        let slots = Slots::of(&setting, &arrangements, job.basis.cases.len());
        let mut near = AllNear::of(&setting, &arrangements, job.basis.cases.len());
        if let Some(load) = slots.down.iter().chain(&slots.across).flatten().find(|load| !beam.carries(load)) {
            return Err(unsolved(member, format_args!("{load:?} is not on it")));
        }
        // Unit loads share the breaks of the loads that they stand for, so that both are seen from the same side.
        let mut solved = beam.solve_all(&[slots.down.clone(), near.units()].concat());
        near.solved(&beside, &solved.split_off(slots.down.len()));
        let patterns: Vec<Pattern> = job.basis.cases.iter().map(|c| code.pattern(c.nature)).collect();
        let patterned = present.iter().any(|c| matches!(patterns[c.0], Pattern::Sets { .. }));
        let shown = raised.map(|tie| tie.shown(&applied, &present));
        applied.extend(shown.into_iter().flatten());
        let sets = sets::all(&arrangements, &panels, patterned, &frame, &applied);
        let give_across = prepared.resolved().shear_give_across;
        let across = Across::new(member, &beam, give_across, &slots.down, &slots.across).map_err(|why| unsolved(member, why))?;
        let along = member.standing.is_some().then(|| Along::new(&applied, &arrangements, &patterns));
        let upon = Upon::all(job, member, handed, &arrangements, cosine);
        let give = prepared.resolved().shear_give;
        let yielding = if give > 0.0 { beam.with_shear(give).solve_all(&slots.down) } else { Vec::new() };
        Ok(Self {
            cosine,
            angle,
            leans_on_fellow: member.ridge == Ridge::Board,
            tie_is_up: member.tie_up.value() > 0.0,
            across,
            along,
            held: held::edges(member, &panels, &supports, cosine),
            bearers,
            panels,
            supports,
            upon,
            applied,
            present,
            sets,
            beside,
            solved,
            yielding,
            slots: slots.at,
            near,
            shapes: slots.shapes,
            patterns,
            parts: prepared.resolved().reduced.iter().map(|reduced| (reduced.case, reduced.part)).collect(),
        })
    }

    /// The part of a case at a place in a load set; what stands over a support is on with either panel beside it.
    fn part(&self, case: Case, place: usize, set: &LoadSet) -> f64 {
        let on = match place.checked_sub(self.panels.len()) {
            None => set.mask >> place & 1 != 0,
            Some(joint) => set.mask >> joint & 0b11 != 0,
        };
        match self.patterns[case.0] {
            Pattern::Sets { rest } if !on => rest,
            _ => 1.0,
        }
    }

    /// The member under a combination in a load set.
    pub fn combined(&self, factors: &[(Case, f64)], set: &LoadSet) -> Diagram {
        self.sum(&self.solved, factors, set)
    }

    /// The same for deflections: of a member that yields to shear, with what shear adds.
    pub fn deflected(&self, factors: &[(Case, f64)], set: &LoadSet) -> Diagram {
        self.sum(if self.yielding.is_empty() { &self.solved } else { &self.yielding }, factors, set)
    }

    /// The deflection at a place, as the whole diagram has it.
    pub fn deflection_at(&self, factors: &[(Case, f64)], set: &LoadSet, x: f64) -> f64 {
        let solved = if self.yielding.is_empty() { &self.solved } else { &self.yielding };
        Diagram::combined_value(&self.terms(solved, factors, set), Quantity::Deflection, x, Side::Left)
    }

    /// As combined, across the depth; none where the member does not lean.
    pub fn combined_across(&self, factors: &[(Case, f64)], set: &LoadSet) -> Option<Diagram> {
        Some(self.sum(&self.across.as_ref()?.solved, factors, set))
    }

    /// As deflected, across the depth; none where the member does not lean.
    pub fn deflected_across(&self, factors: &[(Case, f64)], set: &LoadSet) -> Option<Diagram> {
        let across = self.across.as_ref()?;
        Some(self.sum(if across.yielding.is_empty() { &across.solved } else { &across.yielding }, factors, set))
    }

    fn sum(&self, solved: &[Diagram], factors: &[(Case, f64)], set: &LoadSet) -> Diagram {
        Diagram::combine(&self.terms(solved, factors, set))
    }

    /// The solved diagrams that make up a combination, each with its factor.
    fn terms<'s>(&self, solved: &'s [Diagram], factors: &[(Case, f64)], set: &LoadSet) -> Vec<(f64, &'s Diagram)> {
        let by_case = &self.slots[set.arrangement];
        let mut terms: Vec<(f64, &Diagram)> = Vec::with_capacity(factors.len() * self.panels.len());
        for (case, factor) in factors {
            for (place, slot) in by_case[case.0].iter().enumerate().filter(|(_, slot)| **slot != 0) {
                let part = self.part(*case, place, set) * factor;
                if part != 0.0 {
                    terms.push((part, &solved[*slot]));
                }
            }
        }
        if terms.is_empty() {
            terms.push((1.0, &solved[0]));
        }
        terms
    }

    /// The closed form of a combination, where it has one.
    pub fn statics(&self, factors: &[(Case, f64)], set: &LoadSet) -> Statics {
        let [panel] = self.panels.as_slice() else { return Statics::Diagram };
        if panel.overhang {
            return Statics::Diagram;
        }
        let mut whole = Shape::default();
        for (case, factor) in factors {
            let shape = self.shapes[set.arrangement][case.0];
            let part = self.part(*case, 0, set) * factor;
            whole.uniform += part * shape.uniform;
            whole.mid += part * shape.mid;
            whole.other |= shape.other;
        }
        let span = panel.to - panel.from;
        match whole {
            Shape { other: true, .. } => Statics::Diagram,
            Shape { mid: 0.0, uniform, .. } => Statics::Uniform { load: uniform, span },
            Shape { uniform: 0.0, mid, .. } => Statics::MidPoint { force: mid, span },
            Shape { uniform, mid, .. } => Statics::Both { load: uniform, force: mid, span },
        }
    }

    /// What each case adds to the loads of a closed form: the case, its factor, its even load and its load at mid-span with that factor.
    pub fn made_of(&self, factors: &[(Case, f64)], set: &LoadSet) -> Vec<(Case, f64, [f64; 2])> {
        let part = |(case, factor): &(Case, f64)| {
            let (shape, part) = (self.shapes[set.arrangement][case.0], self.part(*case, 0, set) * factor);
            (*case, *factor, [part * shape.uniform, part * shape.mid])
        };
        factors.iter().map(part).filter(|(.., loads)| loads.iter().any(|load| *load != 0.0)).collect()
    }

    /// Whether the member is one span without overhangs.
    pub fn single(&self) -> bool {
        self.panels.len() == 1
    }
}
