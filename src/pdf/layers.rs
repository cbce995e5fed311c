//! What lies over a package: stamps of this program, and what something else appended.

use super::digest::{Standing, standing};
use super::stamp::{Stamp, stamped};

/// Layers that are looked under.
const MOST: usize = 16;

/// One layer of a file.
#[derive(Clone, Debug)]
pub struct Layer<'a> {
    /// The file up to here and with it.
    pub with: &'a [u8],
    /// The file under it.
    pub under: &'a [u8],
    /// The stamp; none where something else appended it.
    pub stamp: Option<Stamp>,
}

/// The layers over a package, the last first; none where its digest does not hold.
pub fn layers(bytes: &[u8]) -> Vec<Layer<'_>> {
    let (mut layers, mut with) = (Vec::new(), bytes);
    while layers.len() < MOST {
        let (under, stamp) = match standing(with) {
            Standing::Appended { to } => (&with[..to], None),
            Standing::Whole => match stamped(with) {
                Some((length, stamp)) => (&with[..length], Some(stamp)),
                None => break,
            },
            Standing::Altered | Standing::Missing => break,
        };
        layers.push(Layer { with, under, stamp });
        with = under;
    }
    layers
}

/// The package under all layers, as it was issued.
pub fn issued(bytes: &[u8]) -> &[u8] {
    layers(bytes).last().map_or(bytes, |layer| layer.under)
}
