//! Quantities in warnings, in the units of the job's code.

use crate::job::model::{CodeName, Job};
use crate::units::{FT, IN, KN, KN_PER_M, KPA, LBF, M, MM, PLF, PSF, Unit, trimmed};

/// The units of a job's code.
#[derive(Clone, Copy)]
pub(super) struct Words {
    inch_pound: bool,
}

impl Words {
    pub(super) fn of(job: &Job) -> Self {
        Self { inch_pound: job.basis.code.value == CodeName::American }
    }

    fn said(self, value: f64, inch_pound: &Unit, metric: &Unit) -> String {
        let unit = if self.inch_pound { inch_pound } else { metric };
        format!("{} {}", trimmed(unit.number(value), 5), unit.name)
    }

    /// A spacing.
    pub(super) fn spacing(self, value: f64) -> String {
        self.said(value, &IN, &MM)
    }

    /// A span.
    pub(super) fn span(self, value: f64) -> String {
        self.said(value, &FT, &M)
    }

    /// An area load.
    pub(super) fn area(self, value: f64) -> String {
        self.said(value, &PSF, &KPA)
    }

    /// A line load.
    pub(super) fn line(self, value: f64) -> String {
        self.said(value, &PLF, &KN_PER_M)
    }

    /// A force.
    pub(super) fn force(self, value: f64) -> String {
        self.said(value, &LBF, &KN)
    }
}
