//! Work on all cores: every item for itself, the answers in the order of the items.

use std::num::NonZero;
use std::sync::LazyLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// How many cores there are; the system reads several files to tell.
static CORES: LazyLock<usize> = LazyLock::new(|| thread::available_parallelism().map_or(1, NonZero::get));

/// Does the same work for every item. Answers do not depend on how many cores there are, nor on which of them did what.
pub(crate) fn each<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    // Takes the next item that nobody works on, until there is none.
    let share = || {
        let mut done: Vec<(usize, R)> = Vec::new();
        loop {
            let i = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(i) else { break done };
            done.push((i, work(item)));
        }
    };
    let mut done = thread::scope(|scope| {
        // Where the system gives no thread, the others do its share.
        let others: Vec<_> = (1..items.len().min(*CORES)).filter_map(|_| thread::Builder::new().spawn_scoped(scope, share).ok()).collect();
        let mut done = share();
        for other in others {
            done.extend(other.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        }
        done
    });
    done.sort_unstable_by_key(|(i, _)| *i);
    done.into_iter().map(|(_, answer)| answer).collect()
}

#[cfg(test)]
mod tests {
    use super::each;

    #[test]
    fn answers_stand_in_the_order_of_the_items() {
        let items: Vec<u64> = (0..1000).collect();
        // The first items are the longest.
        let work = |n: &u64| (0..(1000 - n) * 50).fold(*n, |sum, k| sum.wrapping_mul(31).wrapping_add(k));
        assert_eq!(each(&items, work), items.iter().map(work).collect::<Vec<_>>());
        assert!(each(&[], work).is_empty());
    }

    #[test]
    #[should_panic(expected = "seven")]
    fn a_panic_is_passed_on() {
        each(&(0..20).collect::<Vec<u32>>(), |n| assert!(*n != 7, "seven"));
    }
}
