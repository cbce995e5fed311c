//! A member that leans: its loads along and across its depth, and the member as it is held sideways (reading 43).

use super::{Acting, Applied, Way};
use crate::analysis::{Beam, Diagram, Panel, Support, Unstable};
use crate::job::model::Member;

/// How far a member's depth leans from the vertical.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lean {
    /// Degrees.
    pub angle: f64,
    pub sine: f64,
    pub cosine: f64,
}

/// The lean of a member; none where it stands upright.
pub(super) fn lean(member: &Member) -> Option<Lean> {
    let angle = member.tilt.as_ref()?.value.value();
    let (sine, cosine) = (libm::sin(angle.to_radians()), libm::cos(angle.to_radians()));
    // In floating point the cosine of a right angle is not nought.
    let cosine = if angle >= 90.0 { 0.0 } else { cosine };
    (angle > 0.0).then_some(Lean { angle, sine, cosine })
}

impl Lean {
    /// A vertical load's parts along and across the depth.
    pub fn resolve(&self, applied: Applied, words: &str, into: &mut Vec<Applied>) {
        for (way, part, name) in [(Way::Down, self.cosine, "cos"), (Way::Across, self.sine, "sin")] {
            into.push(Applied {
                way,
                load: times(&applied.load, part),
                smallest: applied.smallest.as_ref().map(|load| times(load, part)),
                because: format!("{} x {name} {words}", applied.because),
                ..applied.clone()
            });
        }
    }
}

/// A member that leans, across its depth.
#[derive(Debug)]
pub struct Across {
    /// Its spans between side supports, and its overhangs.
    pub panels: Vec<Panel>,
    /// Places of its side supports.
    pub supports: Vec<f64>,
    /// What every list of loads does to it across its depth.
    pub(super) solved: Vec<Diagram>,
    /// The same for deflections, where it yields to shear too; else empty.
    pub(super) yielding: Vec<Diagram>,
    /// What the vertical parts of every list of loads do on the main supports: their reactions are handed down.
    pub(super) upright: Vec<Diagram>,
}

impl Across {
    /// Solves a member across its depth; none where it does not lean. `main` is the member on its main supports, `give` how it
    /// yields to shear.
    ///
    /// # Errors
    /// Where the side supports cannot hold it, which the job's reader refuses.
    pub(super) fn new(
        member: &Member,
        main: &Beam,
        give: f64,
        down: &[Vec<Acting>],
        across: &[Vec<Acting>],
    ) -> Result<Option<Self>, Unstable> {
        let loaded = across.iter().any(|list| !list.is_empty());
        let lean = match lean(member) {
            Some(lean) => lean,
            // A post, stud or tie is held at the same places about both axes.
            None if member.standing.is_some() && loaded => {
                let (panels, supports) = (main.panels(), main.supports().iter().map(|s| s.at).collect());
                let yielding = if give > 0.0 { main.clone().with_shear(give).solve_all(across) } else { Vec::new() };
                return Ok(Some(Self { panels, supports, solved: main.solve_all(across), yielding, upright: Vec::new() }));
            }
            None => return Ok(None),
        };
        let supports: Vec<f64> = match &member.weak_spans {
            None => main.supports().iter().map(|s| s.at).collect(),
            Some(spans) => {
                let mut at = member.spans.left.value();
                let further = spans.iter().map(|span| {
                    at += span.value.value();
                    at
                });
                [member.spans.left.value()].into_iter().chain(further.collect::<Vec<_>>()).collect()
            }
        };
        let beam = Beam::new(main.length(), supports.iter().map(|at| Support { at: *at, fixed: false }).collect())?;
        let upright: Vec<Vec<Acting>> = (down.iter().zip(across))
            .map(|(down, across)| {
                let vertical = down.iter().map(|load| times(load, lean.cosine));
                vertical.chain(across.iter().map(|load| times(load, lean.sine))).collect()
            })
            .collect();
        let (panels, solved, upright) = (beam.panels(), beam.solve_all(across), main.solve_all(&upright));
        let yielding = if give > 0.0 { beam.with_shear(give).solve_all(across) } else { Vec::new() };
        Ok(Some(Self { panels, supports, solved, yielding, upright }))
    }
}

/// A load, so many times as large.
pub(super) fn times(load: &Acting, factor: f64) -> Acting {
    match *load {
        Acting::Line { from, to, start, end } => Acting::Line { from, to, start: start * factor, end: end * factor },
        Acting::Point { at, force } => Acting::Point { at, force: force * factor },
        Acting::Moment { at, moment } => Acting::Moment { at, moment: moment * factor },
    }
}
