//! Loads that are reduced by the area that a member bears.

use super::Scene;
use super::line::{Line, line};
use crate::package::markup::Markup;
use crate::package::words;
use crate::results::{Member, Reduced};
use serde::Serialize;

/// A load that is reduced by the area that the member bears, as printed.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Lessened {
    name: String,
    head: Markup,
    lines: Vec<Line>,
}

impl Lessened {
    /// Its lines of calculation.
    pub(in crate::package) fn steps(&self) -> usize {
        self.lines.len()
    }

    /// How tall it will be.
    pub(in crate::package) fn height(&self) -> f64 {
        22.0 + self.lines.iter().map(|l| l.height).sum::<f64>()
    }
}

/// The loads that are reduced: from what to what, and how.
pub(in crate::package) fn of(scene: &Scene, member: &Member) -> Vec<Lessened> {
    let one = |reduced: &Reduced| {
        let (from, to) = (scene.printing.with_unit(&reduced.from), scene.printing.with_unit(&reduced.to));
        let head = format!("{from} is {to} on this member, by the area that it bears. What it hands down is whole.");
        let last = reduced.steps.len().saturating_sub(1);
        Lessened {
            name: words::capital(&format!("{} load", reduced.case.replace('-', " "))),
            head: scene.lexicon.set(&head),
            lines: reduced.steps.iter().enumerate().map(|(i, step)| line(scene, step, i == 0 || i + 1 == last)).collect(),
        }
    };
    member.reduced.iter().map(one).collect()
}
