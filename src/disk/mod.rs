//! Files that appear whole or not at all.
//!
//! A file is written under a hidden name beside its place (`.latewood-…part`), synced, and renamed over what was there. A run that is killed
//! before the rename leaves that hidden file behind; a later run that writes into the same folder takes it away. One that is being
//! written is never taken for one that was left: it is locked by its process, and younger than an hour.
//!
//! Where a user names the file, [`Place`] says first what is there: links are followed, and a pipe or a device is written into.

mod place;
mod whole;

pub(crate) use place::Place;
#[cfg(feature = "paper")]
pub(crate) use whole::write;
