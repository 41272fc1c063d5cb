//! The card to cut out for the dashboard: four lines, which hold however she is loaded.

use super::gather::Gathered;
use super::helm::{Held, at_most, between, down_text, shown};
use crate::document::{Block, Column, CutOut};
use crate::size::ScheduleRow;

/// Lines of the card, at most.
const LINES: usize = 4;

/// The card; none where no speed has a setting.
pub(super) fn card(gathered: &Gathered) -> Option<Block> {
    let units = gathered.size.units;
    let rows = gathered.main_schedule();
    let settings: Vec<Held> = rows.iter().map(|row| setting(gathered, row)).collect();
    let lines = lines(&settings);
    let of = |value: &dyn Fn(usize, usize) -> String| {
        lines.iter().map(|&[from, to]| value(from, to)).collect()
    };
    let least = |from: usize, to: usize| least_of(&settings[from..=to]);
    let columns = vec![
        Column::words(
            "speed",
            of(&|from, to| between(shown(units, &rows[from]), shown(units, &rows[to]))),
        )
        .in_unit(units.speed.symbol()),
        Column::words("planes down", of(&|from, to| down_of(&settings[from..=to]))),
        Column::words("never beyond", of(&|from, to| at_most(least(from, to).most_deg))),
    ];
    let held = match gathered.size.boats.len() {
        1 => {
            "Straight ahead, calm water; between lines the smaller limit. Where a line has two numbers the table says which at what speed."
        }
        _ => {
            "Straight ahead, calm water, in every loading; between lines the smaller limit. Where a line has two numbers the table says which at what speed."
        }
    };
    let caution = "Bow drops, or she steers herself: ease off, planes up. Planes up before a following sea, a hard turn, going astern.";
    (!lines.is_empty()).then(|| {
        Block::CutOut(CutOut {
            title: format!("{}: trim planes", gathered.boat().name()),
            columns,
            notes: vec![held.to_owned()],
            caution: caution.to_owned(),
        })
    })
}

/// What the table has at a speed, and the least that any loading bears there.
fn setting(gathered: &Gathered, row: &ScheduleRow) -> Held {
    let all = (0..gathered.schedules.len()).map(|loading| Held::at(gathered, loading, row.speed));
    let most_deg = Held::least(all).most_deg;
    let main = Held::at(gathered, gathered.main_loading(), row.speed);
    Held { down_deg: main.down_deg.min(most_deg), most_deg }
}

/// What holds over some speeds: the least of each.
fn least_of(settings: &[Held]) -> Held {
    Held::least(settings.iter().copied())
}

/// The settings of some speeds, never beyond what is safe at all of them.
fn down_of(settings: &[Held]) -> String {
    let least = least_of(settings);
    let deepest_deg = settings.iter().map(|own| own.down_deg).fold(0.0, f64::max);
    let ends = [least.down_deg, deepest_deg.min(least.most_deg)];
    let [shallow, deep] = ends.map(|deg| down_text(Some(deg).filter(|&deg| deg > 0.0)));
    match (shallow == deep, shallow.strip_suffix('°')) {
        (true, _) => deep,
        (false, Some(number)) => format!("{number} to {deep}"),
        (false, None) => format!("{shallow} to {deep}"),
    }
}

/// First and last place of each line: as few degrees as may be are lost by telling the least of each line.
fn lines(settings: &[Held]) -> Vec<[usize; 2]> {
    let lost = |from: usize, to: usize| {
        let least = least_of(&settings[from..=to]);
        let of = |own: &Held| {
            (own.down_deg - least.down_deg).powi(2) + (own.most_deg - least.most_deg).powi(2)
        };
        settings[from..=to].iter().map(of).sum::<f64>()
    };
    // The best split of the first so many speeds into so many lines, from those with one line less.
    let mut best: Vec<(f64, Vec<[usize; 2]>)> =
        (0..settings.len()).map(|to| (lost(0, to), vec![[0, to]])).collect();
    for _ in 1..LINES {
        let fewer = best.clone();
        for (to, best) in best.iter_mut().enumerate().skip(1) {
            for from in 1..=to {
                let (before, split) = &fewer[from - 1];
                let all = before + lost(from, to);
                if all < best.0 - 1e-9 {
                    let mut split = split.clone();
                    split.push([from, to]);
                    *best = (all, split);
                }
            }
        }
    }
    best.pop().map_or_else(Vec::new, |(_, split)| split)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settings(pairs: &[(f64, f64)]) -> Vec<Held> {
        pairs.iter().map(|&(down_deg, most_deg)| Held { down_deg, most_deg }).collect()
    }

    #[test]
    fn regression_the_card_has_four_lines_at_most_that_never_say_more_than_the_table() {
        let all = settings(&[
            (12.0, 15.0),
            (10.0, 15.0),
            (8.0, 14.0),
            (6.0, 11.0),
            (3.0, 8.0),
            (0.0, 5.0),
            (0.0, 3.0),
        ]);
        let found = lines(&all);
        assert_eq!(found.len(), LINES);
        assert_eq!(found.first().unwrap()[0], 0);
        assert_eq!(found.last().unwrap()[1], all.len() - 1);
        assert!(found.windows(2).all(|pair| pair[1][0] == pair[0][1] + 1));
        for [from, to] in found {
            let line = least_of(&all[from..=to]);
            for own in &all[from..=to] {
                assert!(line.down_deg <= own.down_deg && line.most_deg <= own.most_deg);
            }
        }
    }

    #[test]
    fn regression_speeds_alike_share_a_line_and_few_speeds_lose_nothing() {
        assert_eq!(lines(&settings(&[(5.0, 9.0), (5.0, 9.0), (0.0, 4.0)])), [[0, 1], [2, 2]]);
        assert!(lines(&[]).is_empty());
    }
}
