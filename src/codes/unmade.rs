//! Checks that are asked for and that nothing is checked against, as every code tells them.

use super::DeflectionCase;
use crate::job::model::{Basis, Case, DeflectionLimit, DeflectionOf, Nature};

/// Limits in force that no deflection of the member is compared with, though a load acts that they look at.
///
/// `variable` tells the natures that the limits look at beside permanent loads; that on wind looks at wind alone. A combination of the
/// engineer's own counts for the limit that it is compared with; without permanent load the deflection under variable loads is the
/// total one.
pub(super) fn limits(
    basis: &Basis,
    present: &[Case],
    variable: impl Fn(Nature) -> bool,
    limits: &[(DeflectionOf, Option<DeflectionLimit>)],
    cases: &[DeflectionCase],
) -> Vec<String> {
    let any = |of: &dyn Fn(Nature) -> bool| present.iter().any(|case| of(basis.nature(*case)));
    let permanent = any(&|nature| nature == Nature::Dead);
    let looks_at_a_load = |what: DeflectionOf| match what {
        DeflectionOf::Live => any(&variable),
        DeflectionOf::Wind => any(&|nature| nature == Nature::Wind),
        _ => permanent || any(&variable),
    };
    let covers = |case: &DeflectionCase, what: DeflectionOf, limit: DeflectionLimit| {
        let counts = match case.what {
            DeflectionOf::Own => true,
            DeflectionOf::Live if what == DeflectionOf::Total && !permanent => true,
            of => of == what,
        };
        counts && case.limit == Some(limit) && case.factors.iter().any(|(_, factor)| *factor != 0.0)
    };
    let in_force = limits.iter().filter_map(|(what, limit)| Some((*what, (*limit)?))).filter(|(_, limit)| *limit != DeflectionLimit::Off);
    let unmade = in_force.filter(|(what, limit)| looks_at_a_load(*what) && !cases.iter().any(|case| covers(case, *what, *limit)));
    unmade.map(|(what, _)| format!("deflection limit ({}): no combination to compare with it", what.word())).collect()
}
