//! A span table.

use crate::job::model::Date;
use crate::package::words;
use crate::results::spans::{SpanCell, SpanTable};
use serde::Serialize;

/// What the sheet says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct SpanTableView {
    year: u16,
    month: u8,
    day: u8,
    title: String,
    facts: Vec<[String; 2]>,
    spacings: Vec<String>,
    groups: Vec<Group>,
    assumptions: Vec<String>,
    not_checked: String,
    program: String,
    #[serde(skip)]
    status: String,
}

/// The rows of a material.
#[derive(Debug, Serialize)]
struct Group {
    material: String,
    rows: Vec<Row>,
}

#[derive(Debug, Serialize)]
struct Row {
    section: String,
    cells: Vec<[String; 2]>,
}

impl SpanTableView {
    pub(in crate::package) fn of(table: &SpanTable, date: Date) -> Self {
        let said = |list: &[[String; 2]]| list.iter().map(|[name, value]| format!("{name} {value}")).collect::<Vec<_>>().join(", ");
        let limits = if table.limits.is_empty() { "those of the code".to_owned() } else { said(&table.limits) };
        let mut groups: Vec<Group> = Vec::new();
        for row in &table.rows {
            let one = Row { section: row.section.clone(), cells: row.cells.iter().map(|c| cell(c.as_ref())).collect() };
            match groups.iter_mut().find(|g| g.material == row.material) {
                Some(group) => group.rows.push(one),
                None => groups.push(Group { material: row.material.clone(), rows: vec![one] }),
            }
        }
        Self {
            year: date.year(),
            month: date.month(),
            day: date.day(),
            title: format!("Longest spans of {}s", table.role),
            facts: vec![
                ["Code".to_owned(), table.basis.join(", ")],
                ["Loads".to_owned(), said(&table.loads)],
                ["Deflection limits".to_owned(), limits],
                ["Spans".to_owned(), format!("between support lines, one span, {}", table.rounding)],
            ],
            spacings: table.spacings.clone(),
            groups,
            // The limits stand at the head; there is no basis page here.
            assumptions: table
                .assumptions
                .iter()
                .filter(|line| !line.starts_with("Deflection limits as on the basis page"))
                .cloned()
                .collect(),
            not_checked: table.not_checked.join("; "),
            program: format!("{} {}", table.program.name, table.program.version),
            status: "Span table; every condition of use is on its last page".to_owned(),
        }
    }

    /// The title at the head of every page.
    pub(in crate::package) fn title(&self) -> &str {
        &self.title
    }

    /// The status line of every page.
    pub(in crate::package) fn status(&self) -> String {
        self.status.clone()
    }
}

/// The span, and the check that stops it in a word.
fn cell(cell: Option<&SpanCell>) -> [String; 2] {
    match cell {
        Some(cell) => [cell.printed.clone(), words::check(&cell.governed_by)],
        None => ["–".to_owned(), String::new()],
    }
}
