//! Files that appear whole or not at all.
//!
//! A file is written under a hidden name beside its place (`.latewood-…part`), synced, and renamed over what was there. A run that is killed
//! before the rename leaves that hidden file behind; a later run that writes into the same folder takes it away. One that is being
//! written is never taken for one that was left: it is locked by its process, and younger than an hour.

mod whole;

pub(crate) use whole::write;
