//! Panel ends at supports, and what a code leaves out of the shear next to them.

use crate::analysis::{Panel, Side};

/// Concentrated loads this close to a shear section, mm, count as if they were at it (reading 61).
pub(super) const AT_SECTION: f64 = 0.1;

/// What a code leaves out of the shear next to a support; lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LeftOut {
    /// Nothing: V counts from the support line on.
    Nothing,
    /// Distributed loads within `depth` of the face; concentrated loads there count x/depth, x from the face. NDS 3.4.3.1.
    WithinDepth {
        /// From the support line to the face of the support.
        face: f64,
        /// The depth of the member.
        depth: f64,
    },
    /// Concentrated loads within this distance of the support line. EN 1995-1-1, 6.1.7(3).
    Concentrated {
        /// From the support line.
        within: f64,
    },
}

impl LeftOut {
    /// From the support line to the section beyond which nothing is left out.
    pub fn length(self) -> f64 {
        match self {
            Self::Nothing => 0.0,
            Self::WithinDepth { face, depth } => face + depth,
            Self::Concentrated { within } => within,
        }
    }

    /// The part of a downward concentrated load that counts, at this distance from the support line.
    pub(super) fn part(self, from_line: f64) -> f64 {
        match self {
            _ if from_line >= self.length() - AT_SECTION => 1.0,
            Self::WithinDepth { face, depth } => (from_line - face).max(0.0) / depth,
            Self::Nothing | Self::Concentrated { .. } => 0.0,
        }
    }
}

/// The end of a panel at a support.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside {
    /// Support, from 1.
    pub support: usize,
    /// The panel, an index into the panels.
    pub panel: usize,
    /// The support line.
    pub line: f64,
    /// +1: the panel is at the right of the support.
    pub sign: f64,
    /// What is left out of the shear here.
    pub left_out: LeftOut,
}

impl Beside {
    /// The section beyond which nothing is left out of the shear; the support line where nothing is left out at all.
    pub fn section(&self) -> f64 {
        self.line + self.sign * self.left_out.length()
    }

    /// The side of a place that looks away from the support.
    pub fn inward(&self) -> Side {
        if self.sign > 0.0 { Side::Right } else { Side::Left }
    }
}

/// Every end of a panel at a support; `left_out` is the code's rule at a support, counted from 0.
///
/// On an overhang V counts everywhere (reading 61), and so it does in a span whose two sections meet (reading 17).
pub(super) fn all(panels: &[Panel], supports: &[f64], left_out: impl Fn(usize) -> LeftOut) -> Vec<Beside> {
    let mut beside = Vec::new();
    for (index, (panel, ends)) in panels.iter().zip(sides(panels, supports)).enumerate() {
        let rules = ends.map(|end| end.map_or(LeftOut::Nothing, |(support, ..)| left_out(support)));
        let between = panel.to - panel.from - rules.iter().map(|rule| rule.length()).sum::<f64>();
        let counts_everywhere = panel.overhang || between <= 0.0;
        for ((support, line, sign), rule) in ends.into_iter().zip(rules).filter_map(|(end, rule)| Some((end?, rule))) {
            let left_out = if counts_everywhere { LeftOut::Nothing } else { rule };
            beside.push(Beside { support: support + 1, panel: index, line, sign, left_out });
        }
    }
    beside
}

/// The ends of every panel that lie on a support: which one, from 0, its place, and the sign of the way into the panel.
fn sides<'p>(panels: &'p [Panel], supports: &'p [f64]) -> impl Iterator<Item = [Option<(usize, f64, f64)>; 2]> + 'p {
    panels.iter().map(|panel| {
        let at = |x: f64| supports.iter().position(|s| (s - x).abs() < 1e-6 * panel.to.max(1.0));
        [(panel.from, 1.0), (panel.to, -1.0)].map(|(x, sign)| at(x).map(|support| (support, x, sign)))
    })
}
