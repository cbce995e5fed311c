//! `spans`: span tables for the terminal, as CSV, as JSON, as a PDF sheet.

use super::arguments::{Round, SheetFormat, Spans};
use super::{REFUSED, output};
use crate::job::model::Date;
use crate::results::spans::SpanTable;
use crate::study::spans::{self, Asked, Rounding};
use crate::units::figures;
use anyhow::{Context, Result, bail};

/// Makes a table and prints it, or writes it.
pub(super) fn run(arguments: &Spans) -> Result<u8> {
    let asked = asked(arguments)?;
    let table = match spans::table(&asked) {
        Ok(table) => table,
        Err(refused) => {
            super::show(&refused.source, &refused.faults);
            return Ok(REFUSED);
        }
    };
    let form = output::format(arguments.format, arguments.output.as_deref());
    let bytes = match form {
        SheetFormat::Table => terminal(&table).into_bytes(),
        SheetFormat::Csv => csv(&table)?,
        SheetFormat::Json => serde_json::to_vec_pretty(&table)?,
        SheetFormat::Pdf => pdf(&table, output::dated(arguments.date)?)?,
    };
    output::print_or_write(&bytes, arguments.output.as_deref(), arguments.replace, form == SheetFormat::Pdf)
}

#[cfg(feature = "paper")]
fn pdf(table: &SpanTable, date: Date) -> Result<Vec<u8>> {
    Ok(crate::package::span_table(table, date)?)
}

#[cfg(not(feature = "paper"))]
fn pdf(_: &SpanTable, _: Date) -> Result<Vec<u8>> {
    bail!("this build writes no PDF")
}

/// What the arguments ask for.
fn asked(arguments: &Spans) -> Result<Asked> {
    let pairs = |list: &[String], what: &str| {
        let split = |text: &String| {
            let (key, value) = text.split_once('=').with_context(|| format!("{what} `{text}` is not of the form NAME=VALUE"))?;
            Ok([key.trim().to_owned(), value.trim().to_owned()])
        };
        list.iter().map(split).collect::<Result<Vec<_>>>()
    };
    let mut basis = vec![["code".to_owned(), arguments.code.clone()]];
    basis.extend(pairs(&arguments.basis, "--basis")?);
    let key = |key: &str, value: &String| [key.to_owned(), value.clone()];
    let mut materials: Vec<Vec<[String; 2]>> = Vec::new();
    for species in &arguments.species {
        materials.extend(arguments.grade.iter().map(|grade| vec![key("species", species), key("grade", grade)]));
    }
    materials.extend(arguments.class.iter().map(|class| vec![key("class", class)]));
    if materials.is_empty() {
        bail!("name a material: --species and --grade, or --class");
    }
    Ok(Asked {
        basis,
        role: arguments.role.clone(),
        slope: arguments.slope.clone(),
        materials,
        sections: arguments.section.clone(),
        spacings: arguments.spacing.clone(),
        loads: pairs(&arguments.load, "--load")?,
        limits: pairs(&arguments.limit, "--limit")?,
        rounding: if arguments.round == Round::Nearest { Rounding::Nearest } else { Rounding::Down },
    })
}

/// For people: a row a material and section, a column a spacing; what stops a span behind it.
fn terminal(table: &SpanTable) -> String {
    let said = |list: &[[String; 2]]| list.iter().map(|[name, value]| format!("{name} {value}")).collect::<Vec<_>>().join(", ");
    let limits = if table.limits.is_empty() { "limits of the code".to_owned() } else { format!("limits {}", said(&table.limits)) };
    let mut text = format!(
        "Longest spans of {}s between support lines, {}; {}; {limits}; {}\n\n",
        table.role,
        table.rounding,
        said(&table.loads),
        table.basis.join(", ")
    );
    let mut rows = vec![["Material".to_owned(), "Section".to_owned()].into_iter().chain(table.spacings.clone()).collect::<Vec<_>>()];
    for row in &table.rows {
        let cells = row.cells.iter().map(|cell| match cell {
            Some(cell) if cell.governed_by.is_empty() => cell.printed.clone(),
            Some(cell) => format!("{} {}", cell.printed, letter(&cell.governed_by)),
            None => "-".to_owned(),
        });
        rows.push([row.material.clone(), row.section.clone()].into_iter().chain(cells).collect());
    }
    text.push_str(&output::columns(&rows, &[]));
    text.push_str("\nWhat stops a span: b bending, v shear, d deflection, c bearing, o another check. Not checked: ");
    text.push_str(&table.not_checked.join("; "));
    text.push_str(".\nTaken for granted:\n");
    for line in &table.assumptions {
        text.push_str(&format!("  {line}\n"));
    }
    text
}

/// The letter of a check behind a span.
pub(super) fn letter(check: &str) -> &'static str {
    match check {
        "bending" => "b",
        "shear" => "v",
        "deflection" => "d",
        "bearing" => "c",
        _ => "o",
    }
}

/// For programs: a line a cell.
fn csv(table: &SpanTable) -> Result<Vec<u8>> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let unit = table.rows.iter().flat_map(|r| r.cells.iter().flatten()).find_map(|c| c.span.as_ref()).map_or("", |s| s.unit.as_str());
    writer.write_record(["material", "section", "spacing", "span", &format!("span_exact_{unit}"), "governed_by"])?;
    for row in &table.rows {
        for (spacing, cell) in table.spacings.iter().zip(&row.cells) {
            let Some(cell) = cell else { continue };
            let exact = cell.span.as_ref().map(|s| figures(s.value, 10)).unwrap_or_default();
            writer.write_record([&row.material, &row.section, spacing, &cell.printed, &exact, &cell.governed_by])?;
        }
    }
    writer.into_inner().map_err(|error| anyhow::anyhow!("cannot write the table: {error}"))
}
