//! Structured mutation of the example files and of a package, with properties that every answer must have.
//!
//! `LATEWOOD_TRIALS` sets how many mutants each test makes and `LATEWOOD_SEED` where the series begins. A failing mutant is printed whole,
//! so that it can become a case of its own.

mod jobs;
#[cfg(feature = "paper")]
mod packages;
