//! Vibration of floors: every span, once.

use super::{Found, Lost, Search};
use crate::codes::{Action, Demand, Places, Statics, Time, name_of};
use crate::job::model::{Case, Nature};

impl Search<'_> {
    /// What every span of a floor is asked for: panel and demand.
    pub(super) fn floor_demands(&self) -> impl Iterator<Item = Demand> {
        self.arranged.panels.iter().filter(|panel| !panel.overhang).map(|panel| Demand {
            time: 1.0,
            statics: Statics::Diagram,
            panel: panel.number,
            single: self.arranged.single(),
            at: 0.5 * (panel.from + panel.to),
            between: 0.0,
            action: Action::Floor { span: panel.to - panel.from },
        })
    }

    /// The checks of vibration, worked in every span, the worst of each leading.
    pub(super) fn floors(&self) -> Vec<Found> {
        let mut found = Vec::new();
        for (check, about) in self.prepared.resolved().checks.iter().enumerate().filter(|(_, about)| about.places == Places::Floors) {
            let time = Time { factor: 1.0, because: String::new() };
            let mut of_check: Vec<Found> = (self.floor_demands())
                .filter_map(|demand| {
                    let ratio = self.prepared.ratio(check, &demand)?;
                    Some(Found {
                        about: *about,
                        place: demand.panel,
                        combination: self.permanent(),
                        load_set: String::new(),
                        mask: self.arranged.sets[0].mask,
                        demand,
                        made_of: Vec::new(),
                        ratio,
                        worked: self.prepared.worked(check, &demand, &time),
                        time: time.clone(),
                        read: Vec::new(),
                        leading: false,
                        others: Vec::new(),
                    })
                })
                .collect();
            of_check.sort_by_key(|one| std::cmp::Reverse(one.ratio));
            let others = of_check.iter().skip(1);
            let others = others.map(|f| Lost { what: self.place_in_words(Places::Floors, f.place), ratio: f.ratio }).collect();
            if let Some(first) = of_check.first_mut() {
                (first.leading, first.others) = (true, others);
            }
            found.extend(of_check);
        }
        found
    }

    /// The permanent loads by their letters: the floor bears nothing else.
    fn permanent(&self) -> String {
        let basis = &self.job.basis;
        let dead = |case: &&Case| basis.nature(**case) == Nature::Dead;
        let factors: Vec<(Case, f64)> = self.arranged.present.iter().filter(dead).map(|case| (*case, 1.0)).collect();
        name_of(self.code, basis, &factors)
    }
}
