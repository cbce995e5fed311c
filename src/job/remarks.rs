//! What others say of a package: a reviewer's comments, an independent checker's numbers.

use super::about::each;
use super::fault::Fault;
use super::keys::{Kind, Part};
use super::members::Marks;
use super::model::{Amount, Checker, CheckerNumber, Comment, Placed};
use super::reader::{Form, Reader, written};
use crate::units::{self, Force, Length, Misread, Moment, Stress, kinds};
use crate::yaml::Node;

/// Reads the comments.
pub(super) fn comments(reader: &mut Reader, file: &Form, marks: &Marks) -> Vec<Comment> {
    let comments = each(reader, file, "comments", Part::Comment, comment);
    for mark in comments.iter().filter_map(|comment| comment.mark.as_ref()) {
        known(reader, mark, marks);
    }
    comments
}

fn comment(reader: &mut Reader, form: &Form) -> Option<Comment> {
    let (number, comment) = (reader.text(form, "number"), reader.text(form, "comment"));
    let (reply, from) = (reader.text(form, "reply"), reader.text(form, "from"));
    let (mark, part) = (reader.placed_text(form, "mark"), reader.word(form, "part").map(|word| word.value));
    Some(Comment { number: number?, comment: comment?, reply, mark, part, from })
}

/// Reads the checker's numbers.
pub(super) fn checker(reader: &mut Reader, node: &Node, marks: &Marks) -> Option<Checker> {
    let form = reader.form(node, Part::Checker)?;
    let (by, date, means) = (reader.text(&form, "by"), reader.date(&form, "date"), reader.text(&form, "means"));
    let numbers = each(reader, &form, "numbers", Part::CheckerNumber, number);
    for number in &numbers {
        known(reader, &number.mark, marks);
    }
    Some(Checker { by: by?, date: date?, means, numbers })
}

fn number(reader: &mut Reader, form: &Form) -> Option<CheckerNumber> {
    let (mark, check) = (reader.placed_text(form, "mark"), reader.word(form, "check"));
    let ratio = form.node("ratio").and_then(|node| {
        let ratio = reader.number(node, "ratio")?;
        if ratio.value.value() >= 0.0 {
            return Some(ratio);
        }
        reader.fault(&Fault::Negative { what: "`ratio`".to_owned(), text: written(node) }, node.span);
        None
    });
    let mut amount = |name| form.node(name).and_then(|node| amount(reader, node, name));
    let (demand, capacity) = (amount("demand"), amount("capacity"));
    let (combination, remark) = (reader.text(form, "combination"), reader.text(form, "remark"));
    Some(CheckerNumber { mark: mark?, check: check?.value, ratio: ratio?.value, demand, capacity, combination, remark })
}

fn known(reader: &mut Reader, mark: &Placed<String>, marks: &Marks) {
    if marks.find(&mark.value).is_none() {
        reader.unknown_name(&mark.value, "member", marks.all(), mark.span);
    }
}

/// A stress, force, moment or length, whichever its unit says.
fn amount(reader: &mut Reader, node: &Node, what: &str) -> Option<Amount> {
    let text = reader.scalar(node, what, &Kind::Quantity(kinds::STRESS))?;
    let stress: Result<Stress, Misread> = units::read(text, kinds::STRESS);
    let read = stress
        .map(|q| (kinds::STRESS, q.value()))
        .or_else(|_| units::read(text, kinds::FORCE).map(|q: Force| (kinds::FORCE, q.value())))
        .or_else(|_| units::read(text, kinds::MOMENT).map(|q: Moment| (kinds::MOMENT, q.value())))
        .or_else(|_| units::read(text, kinds::LENGTH).map(|q: Length| (kinds::LENGTH, q.value())));
    match read {
        Ok((kind, value)) => Some(Amount { text: text.to_owned(), kind, value }),
        Err(_) => {
            let wanted = "a stress, force, moment or length with its unit, such as `950 psi` or `1200 lbf`".to_owned();
            reader.fault(&Fault::WrongText { text: written(node), what: format!("`{what}`"), wanted, nearest: None }, node.span);
            None
        }
    }
}
