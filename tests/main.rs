//! One test program: one link of the typesetter.

#[cfg(test)]
mod areas;
#[cfg(test)]
mod columns;
#[cfg(test)]
mod combinations;
#[cfg(test)]
mod factors;
#[cfg(test)]
mod faults;
#[cfg(test)]
mod fuzz;
#[cfg(test)]
mod handbook;
#[cfg(test)]
mod house;
#[cfg(test)]
mod jobs;
#[cfg(test)]
mod leaning;
#[cfg(all(test, feature = "paper"))]
mod life;
#[cfg(test)]
mod load_path;
#[cfg(test)]
mod notches;
#[cfg(test)]
mod onepass;
#[cfg(all(test, feature = "paper"))]
mod pages;
#[cfg(test)]
mod published;
#[cfg(test)]
mod random;
#[cfg(test)]
mod reserve;
#[cfg(all(test, feature = "paper"))]
mod revised;
#[cfg(test)]
mod shears;
#[cfg(test)]
mod size;
#[cfg(test)]
mod spans;
#[cfg(test)]
mod terminal;
#[cfg(test)]
mod thrust;
#[cfg(test)]
mod underfoot;
#[cfg(test)]
mod verdicts;
#[cfg(test)]
mod warnings;

#[test]
fn every_fault_is_told_to_the_letter() {
    faults::run();
}

#[test]
fn hostile_files_are_refused_without_a_panic() {
    faults::hostile();
}
