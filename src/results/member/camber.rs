//! What a camber leaves of a deflection.

use super::Scene;
use crate::units::trimmed;

impl Scene<'_> {
    /// A camber that is more than the deflection which it offsets.
    pub(super) fn camber(&self) -> Option<String> {
        let unit = self.shown.section;
        let shown = |mm: f64| format!("{} {}", trimmed(unit.number(mm), 3), unit.name);
        let more = |d: &&crate::codes::Deflected| d.case.camber > 0.0 && d.value < d.case.camber;
        let least = self.walked.checked.deflections.iter().filter(more).min_by(|a, b| a.value.total_cmp(&b.value))?;
        Some(format!(
            "The camber of {} is more than the deflection of {} under {}: the member stays curved upward there.",
            shown(least.case.camber),
            shown(least.value),
            least.case.combination
        ))
    }
}
