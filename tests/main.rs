//! One test program: one link of the typesetter.

#[cfg(test)]
mod faults;
#[cfg(test)]
mod house;
#[cfg(test)]
mod jobs;
#[cfg(all(test, feature = "paper"))]
mod pages;
#[cfg(test)]
mod published;
#[cfg(test)]
mod spans;
#[cfg(test)]
mod terminal;
