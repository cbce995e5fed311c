//! What the loads of closed forms are made of.

use super::Scene;
use crate::codes::Found;
use crate::equation::{LOADS, Step};
use crate::job::model::Case;
use crate::units::{UNITS, trimmed};

impl Scene<'_> {
    /// The lines of a check; the load of a closed form says of which cases it is made.
    pub(super) fn steps(&self, found: &Found) -> Vec<Step> {
        let mut steps = found.worked.steps.clone();
        for step in steps.iter_mut().filter(|step| step.reference == LOADS && step.because.is_empty()) {
            let Some(unit) = UNITS.iter().find(|unit| unit.name == step.unit) else { continue };
            let of = |loads: &[f64; 2]| if unit.exponents[0] < 0 { loads[0] } else { loads[1] };
            let upward = found.made_of.iter().map(|(.., loads)| of(loads)).sum::<f64>() < 0.0;
            let term = |(case, factor, loads): &(Case, f64, [f64; 2])| {
                let load = of(loads) * if upward { -1.0 } else { 1.0 };
                let letter = self.code.letter(&self.job.basis, *case);
                let factor = if *factor == 1.0 { String::new() } else { format!("{} ", trimmed(*factor, 4)) };
                (load != 0.0).then(|| format!("{factor}{letter} = {}", trimmed(unit.number(load), 4)))
            };
            let terms: Vec<String> = found.made_of.iter().filter_map(term).collect();
            step.because = format!("{}{}", if upward { "upward: " } else { "" }, terms.join(", "));
        }
        steps
    }
}
