//! What a span table is asked for, and how it is read: as a job file of a few members, so that words, units and limits are a job's.

use super::Read;
use crate::text::{Faults, Source};

/// What a table is asked for; texts as they stand in a job file.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// Keys of `basis`: the code, and what of edition, method, moisture … is not the default.
    pub basis: Vec<[String; 2]>,
    /// `joist`, `rafter` …
    pub role: String,
    /// The slope of rafters; their spans are on plan.
    pub slope: Option<String>,
    /// Keys of each material: species and grade, or a class.
    pub materials: Vec<Vec<[String; 2]>>,
    /// Names of sections.
    pub sections: Vec<String>,
    /// Spacings, the columns.
    pub spacings: Vec<String>,
    /// Area loads by case.
    pub loads: Vec<[String; 2]>,
    /// Deflection limits by name.
    pub limits: Vec<[String; 2]>,
    /// How spans are rounded in print.
    pub rounding: Rounding,
}

/// How spans are rounded in print.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Rounding {
    /// Down: what is printed passes.
    #[default]
    Down,
    /// To the nearest, as tables of the law are.
    Nearest,
}

impl Rounding {
    /// In words; in feet and inches, or in metres.
    pub(super) const fn words(self, feet: bool) -> &'static str {
        match (self, feet) {
            (Self::Down, true) => "rounded down to the inch",
            (Self::Down, false) => "rounded down to 10 mm",
            (Self::Nearest, true) => "rounded to the nearest inch",
            (Self::Nearest, false) => "rounded to the nearest 10 mm",
        }
    }
}

/// Why a table cannot be made: the job file that it was read as, and what is wrong with it.
#[derive(Clone, Debug)]
pub struct Refused {
    /// The text.
    pub source: Source,
    /// What is wrong.
    pub faults: Faults,
}

impl Asked {
    /// Reads what was asked for.
    pub(super) fn read(&self) -> Result<Read, Box<Refused>> {
        let text = self.job();
        let source = match Source::read("the span table as a job file", text.as_bytes()) {
            Ok(source) => source,
            Err(refused) => return Err(Box::new(Refused { source: refused.0, faults: vec![refused.1] })),
        };
        let job = match crate::job::read(&source).whole() {
            Ok(job) => job,
            Err(faults) => return Err(Box::new(Refused { source, faults })),
        };
        let Some(code) = crate::codes::of(&job.basis) else {
            return Err(Box::new(Refused { faults: crate::job::not_covered_code(&job.basis), source }));
        };
        let faults = code.faults(&job.basis);
        if !faults.is_empty() {
            return Err(Box::new(Refused { source, faults }));
        }
        let of = |letter: char| job.members.iter().filter(move |m| m.mark.value.starts_with(letter));
        let materials = of('M').map(|m| m.material.clone()).collect();
        let sections = of('S').map(|m| m.section.clone()).collect();
        let spacings = of('C').map(|m| m.spacing.clone()).collect();
        let Some(member) = job.members.first().cloned() else { return Err(Box::new(Refused { source, faults })) };
        Ok(Read { source, code, member, materials, sections, spacings, job })
    }

    /// The job file: a member for each material, each section and each spacing.
    fn job(&self) -> String {
        let mut text = format!(
            "job: {{title: Span table, date: 2026-01-05}}\nbasis: {{{}}}\nareas: {{load: {{{}}}}}\nmembers:\n",
            pairs(&self.basis),
            pairs(&self.loads)
        );
        let (first, last) = (String::new(), Vec::new());
        let (material, section, spacing) =
            (self.materials.first().unwrap_or(&last), self.sections.first().unwrap_or(&first), self.spacings.first().unwrap_or(&first));
        let slope = self.slope.as_ref().map(|slope| format!("slope: {}, ", quoted(slope))).unwrap_or_default();
        let mut member = |mark: String, material: &[[String; 2]], section: &str, spacing: &str| {
            let limits = if self.limits.is_empty() { String::new() } else { format!("limits: {{{}}}, ", pairs(&self.limits)) };
            text.push_str(&format!(
                "  - {{mark: {mark}, use: {}, material: {{{}}}, section: {}, spacing: {}, spans: [3 m], braced: {{top: sheathed}}, {slope}{limits}loads: [{{area: load}}]}}\n",
                quoted(&self.role),
                pairs(material),
                quoted(section),
                quoted(spacing)
            ));
        };
        for (i, one) in self.materials.iter().enumerate() {
            member(format!("M{i}"), one, section, spacing);
        }
        for (i, one) in self.sections.iter().enumerate() {
            member(format!("S{i}"), material, one, spacing);
        }
        for (i, one) in self.spacings.iter().enumerate() {
            member(format!("C{i}"), material, section, one);
        }
        text
    }
}

fn pairs(list: &[[String; 2]]) -> String {
    list.iter().map(|[key, value]| format!("{}: {}", quoted(key), quoted(value))).collect::<Vec<_>>().join(", ")
}

/// A text of the command line, which can never become more than a text of the job file.
fn quoted(text: &str) -> String {
    let plain: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    format!("'{}'", plain.replace('\'', "''"))
}
