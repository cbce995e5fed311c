//! `prove`: the verification report of this machine.

use super::arguments::{Prove, SheetFormat};
use super::{FAILS, output};
use crate::job::model::Date;
use crate::results::proof::{OfKind, Proof};
use crate::units::figures;
use anyhow::Result;

/// Runs every published case and every table that is law, and prints or writes what was found.
pub(super) fn run(arguments: &Prove) -> Result<u8> {
    let proof = crate::study::prove::prove();
    let form = output::format(arguments.format, arguments.output.as_deref());
    let bytes = match form {
        SheetFormat::Table => terminal(&proof).into_bytes(),
        SheetFormat::Csv => csv(&proof)?,
        SheetFormat::Json => serde_json::to_vec_pretty(&proof)?,
        SheetFormat::Pdf => pdf(&proof, output::dated(arguments.date)?)?,
    };
    output::print_or_write(&bytes, arguments.output.as_deref(), arguments.replace, form == SheetFormat::Pdf)?;
    Ok(if proof.agrees { 0 } else { FAILS })
}

#[cfg(feature = "paper")]
fn pdf(proof: &Proof, date: Date) -> Result<Vec<u8>> {
    Ok(crate::package::proof(proof, date)?)
}

#[cfg(not(feature = "paper"))]
fn pdf(_: &Proof, _: Date) -> Result<Vec<u8>> {
    anyhow::bail!("this build writes no PDF")
}

/// In short: what was compared, what differs, what could not be checked.
fn terminal(proof: &Proof) -> String {
    let c = &proof.counts;
    let mut text = format!(
        "{} {}: {} figures of {} cases, {} outside their tolerance; {} cells of {} tables that are law, {} differ ({} as they are known to)\n\n",
        proof.program.name,
        proof.program.version,
        c.figures,
        c.cases,
        c.figures_outside,
        c.cells,
        proof.laws.len(),
        c.cells_differing,
        c.cells_known
    );
    text.push_str(&kinds(proof));
    for one in &proof.abbreviations {
        text.push_str(&format!("{}: {}\n", one.short, one.meaning));
    }
    for case in &proof.cases {
        if !case.fault.is_empty() {
            text.push_str(&format!("  {} could not be run: {}\n", case.id, case.fault));
        }
        for f in case.figures.iter().filter(|f| !f.agrees) {
            let computed = f.computed.map_or_else(|| "nothing".to_owned(), |v| figures(v, 6));
            text.push_str(&format!(
                "  {}: {} {} {} under {}: {} {} {}, computed {computed} ({})\n",
                case.id,
                f.member,
                f.check,
                f.symbol,
                f.combination,
                f.kind.name(),
                f.expected,
                f.unit,
                f.because
            ));
        }
    }
    let rows: Vec<Vec<String>> = std::iter::once(["Table", "Cells", "Agree"].map(str::to_owned).to_vec())
        .chain(proof.laws.iter().map(|l| vec![format!("{}: {}", l.table, l.title), l.cells.len().to_string(), l.agreeing().to_string()]))
        .collect();
    text.push('\n');
    text.push_str(&output::columns(&rows, &[1, 2]));
    for law in &proof.laws {
        for cell in law.cells.iter().filter(|c| !c.agrees) {
            text.push_str(&format!(
                "  {}, {}: printed {}, computed {} {} ({})\n",
                law.table,
                cell.what,
                cell.printed,
                figures(cell.computed, 6),
                cell.unit,
                cell.because
            ));
        }
    }
    text.push_str(&format!("\nNot checked, or not confirmed ({}):\n", proof.not_checked.len()));
    for one in &proof.not_checked {
        text.push_str(&format!("  {}: {}\n", one.what, one.reason));
    }
    text.push_str("\nWhich values stand from memory is said cell by cell in the CSV and the JSON of this report.\n");
    text
}

/// What stands behind the figures: how many of each kind, and what the kind is worth.
fn kinds(proof: &Proof) -> String {
    let header = ["Figures", "Cases", "Number", "Outside", "What they are"].map(str::to_owned);
    let row = |of: &OfKind| {
        [of.kind.name().to_owned(), of.cases.to_string(), of.figures.to_string(), of.outside.to_string(), of.kind.meaning().to_owned()]
    };
    let c = &proof.counts;
    let law = [
        "tabulated law",
        &proof.laws.len().to_string(),
        &c.cells.to_string(),
        &c.cells_differing.to_string(),
        "cells of tables that are law",
    ]
    .map(str::to_owned);
    let rows: Vec<Vec<String>> = std::iter::once(header).chain(c.kinds.iter().map(row)).chain([law]).map(Vec::from).collect();
    output::columns(&rows, &[1, 2, 3])
}

/// A line a figure, then a line a cell, then a line a row of our tables with values that nobody could confirm.
fn csv(proof: &Proof) -> Result<Vec<u8>> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["kind", "source", "what", "expected", "computed", "difference", "tolerance", "unit", "agrees"])?;
    let number = |value: Option<f64>| value.map(|v| figures(v, 10)).unwrap_or_default();
    for case in &proof.cases {
        for f in &case.figures {
            let what = format!("{} {} {} {} {} {}", case.id, f.member, f.check, f.combination, f.place, f.symbol);
            let row = [number(Some(f.expected)), number(f.computed), number(f.difference), number(Some(f.tolerance))];
            let agrees = if f.agrees { "yes" } else { "no" };
            writer.write_record([f.kind.name(), case.source.as_str(), &what, &row[0], &row[1], &row[2], &row[3], &f.unit, agrees])?;
        }
    }
    for law in &proof.laws {
        for c in &law.cells {
            let row = [number(Some(c.computed)), number(c.difference)];
            let agrees = if c.agrees { "yes" } else { "no" };
            writer.write_record([
                "tabulated law",
                law.table.as_str(),
                &c.what,
                &c.printed,
                &row[0],
                &row[1],
                "nearest inch",
                &c.unit,
                agrees,
            ])?;
        }
    }
    for table in &proof.tables {
        for row in &table.unconfirmed {
            writer.write_record(["our copy", table.table.as_str(), row, "", "", "", "", "", "not confirmed"])?;
        }
    }
    writer.into_inner().map_err(|error| anyhow::anyhow!("cannot write the report: {error}"))
}
