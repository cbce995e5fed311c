//! The reserve in a line of the sheet.

use super::Scene;
use crate::package::markup::Markup;
use crate::package::words;
use crate::results::{Member, Reserve};
use crate::units::decimals;

/// Above this a factor says no more than that there is plenty.
const PLENTY: f64 = 10.0;

/// `the load given here, each case alone: D 4.10 times (bending), L 1.37 times (bending).`
pub(super) fn line(scene: &Scene, member: &Member) -> Markup {
    let one = |reserve: &Reserve| {
        let (case, check) = (words::case(scene.results, &reserve.case), words::check(&reserve.governed_by));
        match reserve.factor {
            // Printed down: what is printed passes.
            Some(factor) if factor > PLENTY => format!("{case} more than {} times", decimals(PLENTY, 0)),
            Some(factor) if factor > 0.0 => format!("{case} {} times ({check})", decimals(libm::floor(factor * 100.0 + 1e-6) / 100.0, 2)),
            Some(_) => format!("{case} none, it fails even without it ({check})"),
            None => format!("{case} without bound"),
        }
    };
    // Of a member that is not checked, what was not looked at may have none.
    let reserve = if member.verdict.is_not_checked() { &[] } else { member.reserve.as_slice() };
    let said: Vec<String> = reserve.iter().map(one).collect();
    scene.lexicon.set(&if said.is_empty() { String::new() } else { format!("each case alone, as given here: {}", said.join(", ")) })
}
