//! Closed forms of one span, and where they may stand for the diagram.

use crate::codes::Action;

/// How a moment or shear comes about, where a reviewer knows the closed form: one span without overhangs, N and mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Statics {
    /// A uniform load over the whole span.
    Uniform {
        /// N/mm.
        load: f64,
        /// mm.
        span: f64,
    },
    /// A point load at mid-span.
    MidPoint {
        /// N.
        force: f64,
        /// mm.
        span: f64,
    },
    /// Both together.
    Both {
        /// N/mm.
        load: f64,
        /// N.
        force: f64,
        /// mm.
        span: f64,
    },
    /// Anything else: the diagram is the authority.
    Diagram,
}

impl Statics {
    /// The closed form where it gives the value that is asked for, else the diagram (reading 54): loads that act opposite ways have their
    /// extremes elsewhere than at mid-span and at the support.
    pub fn giving(self, action: &Action) -> Self {
        let (closed, value) = match *action {
            Action::Moment { moment, .. } => (self.moment(), moment),
            Action::Along { strong, .. } => (self.moment(), strong.side),
            Action::Shear { force, from_line, reduced, .. } => (self.shear(if reduced { from_line } else { 0.0 }), force),
            _ => return self,
        };
        if (closed.abs() - value.abs()).abs() <= 1e-9 * value.abs() { self } else { Self::Diagram }
    }

    /// The moment at mid-span.
    fn moment(self) -> f64 {
        match self {
            Self::Uniform { load, span } => load * span * span / 8.0,
            Self::MidPoint { force, span } => force * span / 4.0,
            Self::Both { load, force, span } => load * span * span / 8.0 + force * span / 4.0,
            Self::Diagram => f64::NAN,
        }
    }

    /// The shear at this distance from a support.
    fn shear(self, from_line: f64) -> f64 {
        match self {
            Self::Uniform { load, span } => load * (0.5 * span - from_line),
            Self::MidPoint { force, .. } => 0.5 * force,
            Self::Both { load, force, span } => load * (0.5 * span - from_line) + 0.5 * force,
            Self::Diagram => f64::NAN,
        }
    }
}
