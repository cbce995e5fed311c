//! Where the members of a load path stand: rows from the ground up, places in a row near what they are joined to.

/// Something that takes room in a row: a member, or a line that passes through.
#[derive(Clone, Debug)]
pub(super) struct Item {
    /// Room to the left of its middle.
    pub(super) left: f64,
    /// Room to the right of its middle.
    pub(super) right: f64,
    /// Its row, counted from the ground.
    pub(super) row: usize,
    /// Its middle.
    pub(super) x: f64,
}

/// A line from an item down to one in the row below it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Link {
    /// The upper item.
    pub(super) upper: usize,
    /// From its middle to where the line leaves it.
    pub(super) leaves: f64,
    /// The lower item.
    pub(super) lower: usize,
}

/// Rows by steps from the ground, no row wider than the paper: what does not fit stands one row higher.
///
/// `rests_on` lists what each member rests on, `wide` how much room each takes.
pub(super) fn rows(rests_on: &[Vec<usize>], wide: &[f64], paper: f64) -> Vec<usize> {
    let n = wide.len();
    let mut row: Vec<Option<usize>> = vec![None; n];
    let mut level = 0;
    while row.iter().any(Option::is_none) && level <= 2 * n {
        let mut used = 0.0;
        let ready: Vec<usize> = (0..n).filter(|i| row[*i].is_none() && rests_on[*i].iter().all(|below| row[*below].is_some())).collect();
        for i in ready {
            if used == 0.0 || used + wide[i] <= paper {
                row[i] = Some(level);
                used += wide[i];
            }
        }
        level += 1;
    }
    row.into_iter().map(|r| r.unwrap_or(0)).collect()
}

/// Sweeps over the rows; after so many, places no longer move by a visible amount.
const SWEEPS: usize = 14;

/// Gives every item its place: near the items it is joined to, clear of its neighbours, within the paper.
pub(super) fn place(items: &mut [Item], links: &[Link], paper: f64) {
    let rows = items.iter().map(|i| i.row).max().map_or(0, |r| r + 1);
    let mut order: Vec<Vec<usize>> = (0..rows).map(|r| (0..items.len()).filter(|i| items[*i].row == r).collect()).collect();
    for row in &order {
        let mut x = 0.0;
        for i in row {
            x += items[*i].left;
            items[*i].x = x;
            x += items[*i].right;
        }
    }
    for sweep in 0..SWEEPS {
        let upward = sweep % 2 == 0;
        let through: Vec<usize> = if upward { (0..rows).collect() } else { (0..rows).rev().collect() };
        for r in through {
            let wanted: Vec<(usize, f64)> = order[r].iter().map(|i| (*i, wanted(*i, items, links, upward))).collect();
            let mut sorted = wanted;
            sorted.sort_by(|a, b| a.1.total_cmp(&b.1));
            settle(items, &sorted, paper);
            order[r] = sorted.into_iter().map(|(i, _)| i).collect();
        }
    }
}

/// Where an item would best stand: the mean of what its lines ask for; where it has none on this side, where it is.
fn wanted(item: usize, items: &[Item], links: &[Link], upward: bool) -> f64 {
    let below = links.iter().filter(|l| l.upper == item).map(|l| items[l.lower].x - l.leaves);
    let above = links.iter().filter(|l| l.lower == item).map(|l| items[l.upper].x + l.leaves);
    let asked: Vec<f64> = if upward { below.collect() } else { above.collect() };
    if asked.is_empty() { items[item].x } else { asked.iter().sum::<f64>() / asked.len() as f64 }
}

/// Least squares under the order given: neighbours that want the same place share it out among them.
fn settle(items: &mut [Item], wanted: &[(usize, f64)], paper: f64) {
    let mut offset = 0.0;
    let mut offsets = Vec::with_capacity(wanted.len());
    for (n, (i, _)) in wanted.iter().enumerate() {
        if n > 0 {
            offset += items[wanted[n - 1].0].right + items[*i].left;
        }
        offsets.push(offset);
    }
    let placed = in_order(&wanted.iter().zip(&offsets).map(|((_, x), o)| x - o).collect::<Vec<_>>());
    let (Some(first), Some(last)) = (wanted.first(), wanted.last()) else { return };
    let least = items[first.0].left;
    let most = (paper - items[last.0].right - offset).max(least);
    for (n, (i, _)) in wanted.iter().enumerate() {
        items[*i].x = placed[n].clamp(least, most) + offsets[n];
    }
}

/// The nearest numbers that never fall (pooling adjacent violators).
pub(super) fn in_order(values: &[f64]) -> Vec<f64> {
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for value in values {
        pools.push((*value, 1));
        while let [.., (a, n), (b, m)] = pools[..] {
            if a <= b {
                break;
            }
            pools.truncate(pools.len() - 2);
            pools.push(((a * n as f64 + b * m as f64) / (n + m) as f64, n + m));
        }
    }
    pools.into_iter().flat_map(|(value, n)| std::iter::repeat_n(value, n)).collect()
}

/// The track of each level line in a gap, so that no two on one track meet.
pub(super) fn tracks(lines: &[(f64, f64)]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..lines.len()).collect();
    let ends = |i: usize| (lines[i].0.min(lines[i].1), lines[i].0.max(lines[i].1));
    order.sort_by(|a, b| ends(*a).0.total_cmp(&ends(*b).0));
    let mut reach: Vec<f64> = Vec::new();
    let mut tracks = vec![0; lines.len()];
    for i in order {
        let (from, to) = ends(i);
        let free = reach.iter().position(|end| *end + 4.0 < from);
        let track = free.unwrap_or_else(|| {
            reach.push(0.0);
            reach.len() - 1
        });
        reach[track] = to;
        tracks[i] = track;
    }
    tracks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pooled_numbers_never_fall_and_keep_their_sum() {
        let given = [3.0, 1.0, 2.0, 8.0, 7.0];
        let pooled = in_order(&given);
        assert!(pooled.windows(2).all(|w| w[0] <= w[1]));
        assert!((pooled.iter().sum::<f64>() - given.iter().sum::<f64>()).abs() < 1e-12);
    }

    #[test]
    fn a_row_never_leaves_the_paper_and_nothing_overlaps() {
        let item = |row| Item { left: 30.0, right: 40.0, row, x: 0.0 };
        let mut items: Vec<Item> = (0..7).map(|_| item(1)).chain([item(0)]).collect();
        let links: Vec<Link> = (0..7).map(|i| Link { upper: i, leaves: 25.0, lower: 7 }).collect();
        place(&mut items, &links, 498.0);
        let mut row: Vec<&Item> = items[..7].iter().collect();
        row.sort_by(|a, b| a.x.total_cmp(&b.x));
        assert!(row.windows(2).all(|w| w[0].x + w[0].right <= w[1].x - w[1].left + 1e-9));
        assert!(row[0].x >= 30.0 - 1e-9 && row[6].x <= 498.0 - 40.0 + 1e-9);
    }

    #[test]
    fn what_rests_on_something_stands_above_it() {
        let rows = rows(&[vec![2], vec![2], vec![], vec![0]], &[100.0, 100.0, 100.0, 100.0], 150.0);
        assert_eq!(rows[2], 0);
        assert!(rows[0] > 0 && rows[1] > 0 && rows[0] != rows[1] && rows[3] > rows[0]);
    }
}
