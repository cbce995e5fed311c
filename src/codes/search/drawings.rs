//! Diagrams worth drawing: of the governing shear, moment and deflection.

use super::{Drawn, Found, Search};
use crate::analysis::Quantity;
use crate::codes::{Action, Combination, DeflectionCase, LoadSet, Places};
use crate::job::model::Case;

impl Search<'_> {
    /// The diagrams of a member's sheet.
    pub(super) fn draw(&self, found: &[Found], combinations: &[Combination], deflections: &[DeflectionCase]) -> Vec<Drawn> {
        let leading = |places: Places| found.iter().find(|f| f.about.places == places && f.leading && !f.about.only_failing);
        let mut drawn = Vec::new();
        for (quantity, first, second) in
            [(Quantity::Shear, Places::Shears, Places::Moments), (Quantity::Moment, Places::Moments, Places::Shears)]
        {
            let Some(governing) = leading(first).or_else(|| leading(second)) else { continue };
            let Some(combination) = combinations.iter().find(|c| c.name == governing.combination) else { continue };
            drawn.push(self.drawing(quantity, governing, &combination.factors));
        }
        if let Some(governing) = leading(Places::Deflections)
            && let Action::Deflection { what, .. } = governing.demand.action
            && let Some(case) = deflections.iter().find(|c| c.what == what && c.combination == governing.combination)
        {
            drawn.push(self.drawing(Quantity::Deflection, governing, &case.factors));
        }
        drawn
    }

    fn drawing(&self, quantity: Quantity, governing: &Found, factors: &[(Case, f64)]) -> Drawn {
        let sets: Vec<(usize, &LoadSet)> = self.sets_of(factors).collect();
        let set = sets.iter().find(|(_, s)| s.words == governing.load_set).map_or(&self.arranged.sets[0], |(_, s)| *s);
        let diagram = |set: &LoadSet| match quantity {
            Quantity::Deflection => self.arranged.deflected(factors, set),
            Quantity::Shear | Quantity::Moment => self.arranged.combined(factors, set),
        };
        let all = if sets.len() > 1 { sets.iter().map(|(_, s)| diagram(s)).collect() } else { Vec::new() };
        Drawn {
            combination: governing.combination.clone(),
            load_set: set.words.clone(),
            mask: set.mask,
            quantity,
            diagram: diagram(set),
            all,
        }
    }
}
