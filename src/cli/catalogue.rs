//! `catalogue`: what this program knows, and where its copies of the tables come from.

use super::output;
use crate::codes::{self, Code};
use crate::job::model::Nature;
use crate::table::{Status, Table};
use crate::units::UNITS;
use anyhow::Result;

/// Prints species, grades, sizes, editions, cases and units, and the standing of every table.
pub(super) fn run() -> Result<u8> {
    let mut text = String::new();
    for code in codes::ALL {
        of_code(*code, &mut text);
    }
    text.push_str("\nLoad cases\n  ");
    text.push_str(&Nature::ALL.map(Nature::word).join(", "));
    text.push_str("; your own under `basis: {cases: …}`\n\nUnits\n");
    let mut kinds: Vec<&str> = UNITS.iter().map(|u| u.kind).collect();
    kinds.dedup();
    for kind in kinds.into_iter().filter(|k| *k != crate::units::kinds::SECTION) {
        let names: Vec<&str> = UNITS.iter().filter(|u| u.kind == kind).map(|u| u.name).collect();
        text.push_str(&format!("  {kind}: {}\n", names.join(", ")));
    }
    output::print(&text)
}

fn of_code(code: &dyn Code, text: &mut String) {
    text.push_str(&format!("Code {}: editions {}\n", code.name().word(), code.editions().join(", ")));
    for table in code.tables() {
        of_table(table, text);
    }
}

/// A table: its name, what it holds, how its values stand here; of a table of lumber, species and grades.
fn of_table(table: &Table, text: &mut String) {
    let heading = table.heading();
    text.push_str(&format!("\n{heading}\n  {}\n  {}; {}\n", heading.title, standing(table), heading.status));
    let has = |column: &str| table.columns().iter().any(|c| c == column);
    if has("species") && has("grade") {
        for species in table.keys("species") {
            let grades = table.keys_among("grade", &[("species", species)]);
            text.push_str(&format!("  {species}: {}\n", grades.join(", ")));
        }
    } else if has("nominal") {
        text.push_str(&format!("  {}\n", table.keys("nominal").join(", ")));
    } else if heading.keys == ["class"] {
        text.push_str(&format!("  {}\n", table.keys("class").join(", ")));
    } else if heading.keys == ["name"] {
        text.push_str(&format!("  {}\n", table.keys("name").join(", ")));
    } else if heading.keys == ["grade"] {
        text.push_str(&format!("  {}\n", table.keys("grade").join(", ")));
    }
}

/// How many values were read, computed, or stand from memory.
fn standing(table: &Table) -> String {
    let (mut read, mut computed, mut memory, mut fixed, mut twice) = (0, 0, 0, 0, 0);
    for row in table.rows() {
        for column in table.columns() {
            match row.number(column).map(|found| found.cell.status) {
                Some(Status::Read(_) | Status::Part(_)) => read += 1,
                Some(Status::Computed) => computed += 1,
                Some(Status::Fixed) => (memory, fixed) = (memory + 1, fixed + 1),
                Some(Status::Twice(_)) => (memory, twice) = (memory + 1, twice + 1),
                Some(Status::Memory | Status::Unsure) => memory += 1,
                None => {}
            }
        }
    }
    let mut text = format!("{read} values read, {computed} computed, {memory} from memory");
    if fixed > 0 {
        text.push_str(&format!(" ({fixed} of them fixed by what a law prints)"));
    }
    if twice > 0 {
        text.push_str(&format!(" ({twice} of them recalled in two ways)"));
    }
    text
}
