//! The load path: a member comes after all that rests on it.

use std::collections::BTreeSet;

/// Sorts members so that each comes after all that hand a reaction to it; otherwise in file order.
///
/// `links` are pairs of giver and receiver. A link that begins or ends outside of `0..members` is passed over.
///
/// # Errors
/// The circles, where there are any: in each, every member hands down to the next, and the last to the first.
pub fn sort(members: usize, links: &[(usize, usize)]) -> Result<Vec<usize>, Vec<Vec<usize>>> {
    let mut receivers = vec![Vec::new(); members];
    let mut givers = vec![Vec::new(); members];
    for (giver, receiver) in links.iter().copied().filter(|(a, b)| *a < members && *b < members) {
        receivers[giver].push(receiver);
        givers[receiver].push(giver);
    }
    let mut waiting: Vec<usize> = givers.iter().map(Vec::len).collect();
    let mut ready: BTreeSet<usize> = (0..members).filter(|member| waiting[*member] == 0).collect();
    let mut done = vec![false; members];
    let (mut path, mut circles) = (Vec::with_capacity(members), Vec::new());
    loop {
        while let Some(member) = ready.pop_first() {
            done[member] = true;
            path.push(member);
            for receiver in &receivers[member] {
                waiting[*receiver] -= 1;
                if waiting[*receiver] == 0 && !done[*receiver] {
                    ready.insert(*receiver);
                }
            }
        }
        let Some(left) = done.iter().position(|done| !done) else { break };
        // Everybody who is left waits for somebody who is left: going from giver to giver must come round.
        let circle = circle_above(left, &givers, &done);
        // The circle is told once; what hangs below it may hold others.
        ready.extend(circle.iter().copied());
        circles.push(circle);
    }
    if circles.is_empty() { Ok(path) } else { Err(circles) }
}

fn circle_above(start: usize, givers: &[Vec<usize>], done: &[bool]) -> Vec<usize> {
    let mut walked = vec![start];
    let mut step = vec![None; givers.len()];
    step[start] = Some(0);
    loop {
        let here = walked[walked.len() - 1];
        let Some(next) = givers[here].iter().copied().find(|giver| !done[*giver]) else { return walked };
        if let Some(first) = step[next] {
            let mut circle = walked.split_off(first);
            // Walked from receiver to giver; told from giver to receiver, beginning with the first in the file.
            circle.reverse();
            let least = circle.iter().enumerate().min_by_key(|(_, member)| **member).map_or(0, |(i, _)| i);
            circle.rotate_left(least);
            return circle;
        }
        step[next] = Some(walked.len());
        walked.push(next);
    }
}

#[cfg(test)]
mod tests {
    use super::sort;
    use proptest::prelude::*;

    #[test]
    fn receivers_come_after_givers() {
        assert_eq!(sort(4, &[(3, 0), (2, 3), (1, 0)]), Ok(vec![1, 2, 3, 0]));
        assert_eq!(sort(0, &[]), Ok(vec![]));
    }

    #[test]
    fn circles_are_told_from_giver_to_receiver() {
        assert_eq!(sort(5, &[(0, 1), (1, 2), (2, 0), (2, 3), (3, 4), (4, 3)]), Err(vec![vec![0, 1, 2], vec![3, 4]]));
    }

    proptest! {
        #[test]
        fn every_order_respects_every_link(members in 1usize..12, links in proptest::collection::vec((0usize..12, 0usize..12), 0..30)) {
            let links: Vec<_> = links.into_iter().filter(|(a, b)| *a < members && *b < members).collect();
            match sort(members, &links) {
                Ok(path) => {
                    let place = |member| path.iter().position(|m| *m == member).expect("everybody is in the path");
                    prop_assert_eq!(path.len(), members);
                    for (giver, receiver) in links {
                        prop_assert!(place(giver) < place(receiver));
                    }
                }
                Err(circles) => {
                    for circle in circles {
                        for (i, giver) in circle.iter().enumerate() {
                            prop_assert!(links.contains(&(*giver, circle[(i + 1) % circle.len()])));
                        }
                    }
                }
            }
        }
    }
}
