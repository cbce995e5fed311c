//! A price list: what `size` chooses from when it looks for the cheapest.

use super::fault::Fault;
use super::keys::{Kind, Part};
use super::material;
use super::model::{Placed, SectionAsked};
use super::reader::{Reader, written};
use crate::units::{Length, kinds};
use crate::yaml::Node;

/// Prices of sections, of one ply and a length.
#[derive(Clone, Debug, PartialEq)]
pub struct Prices {
    /// The length that a price is for.
    pub per: Length,
    /// The prices, in file order.
    pub list: Vec<Price>,
}

/// The price of a section.
#[derive(Clone, Debug, PartialEq)]
pub struct Price {
    /// The section.
    pub section: Placed<SectionAsked>,
    /// Its species; none: any.
    pub species: Option<String>,
    /// Its grade, class or combination; none: any.
    pub grade: Option<String>,
    /// In whatever money the list is.
    pub price: f64,
}

/// Reads the list.
pub(super) fn read(reader: &mut Reader, node: &Node) -> Option<Prices> {
    let form = reader.form(node, Part::Prices)?;
    let per = form.node("per").and_then(|node| reader.positive(node, "per", kinds::LENGTH));
    let entry = form.entry("list")?;
    let items = reader.list(&entry.node, "list", &Kind::Map(Part::Price));
    let list = items.iter().filter_map(|item| price(reader, item)).collect();
    Some(Prices { per: per?.value, list })
}

fn price(reader: &mut Reader, node: &Node) -> Option<Price> {
    let form = reader.form(node, Part::Price)?;
    let section = form.node("section").and_then(|node| material::section(reader, node));
    let (species, grade) = (reader.text(&form, "species"), reader.text(&form, "grade"));
    let node = form.node("price")?;
    let price = reader.number(node, "price")?.value.value();
    if price <= 0.0 {
        reader.fault(&Fault::NotPositive { what: "`price`".into(), text: written(node) }, node.span);
        return None;
    }
    Some(Price { section: section?, species, grade, price })
}
