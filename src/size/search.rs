//! The least pair that does all duties: a search over span and chord.
//!
//! For a chord, the utilisation falls as the span grows, so that the least span
//! that does all is a root; the least area along that line is looked for over
//! the chord. Area alone leaves a nearly flat valley, so that within 2 % of it
//! the pair with the least design hinge moment is taken.

use super::bench::{Bench, FULL_UTILISATION};
use super::demand::Limit;
use super::line::{FLAT_SHARE, Line, PRECISION_OF_AREA, flattest};
use crate::balance::forces::PlaneSize;
use crate::numeric::{least_between, root_between};

/// Chords at which the line of least spans is first looked at.
const FIRST_CHORDS: usize = 9;
/// Precision of a length, m.
const PRECISION_M: f64 = 1e-4;
/// Utilisation over full at which a root counts as found.
const ROOT_UTILISATION: f64 = 0.5 * (FULL_UTILISATION - 1.0);
/// Rounds of adding speeds before all chords are looked at.
const SETTLING_ROUNDS: usize = 4;
/// Nearness at which a limit binds, as a share of it.
const NEAR: f64 = 3e-4;

/// What keeps the least pair from being smaller.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Binding {
    /// A duty uses all the deflection it may.
    Duty,
    /// The duty's deflection reaches 2° of trim.
    SafeRun,
    /// The span takes all the room on the transom.
    Room,
    /// The smallest chord allowed.
    SmallestChord,
    /// The smallest span/chord allowed.
    SmallestAspect,
    /// The largest span/chord allowed.
    LargestAspect,
}

/// The least pair, before it is rounded to sizes that can be had.
#[derive(Clone, Debug)]
pub(crate) struct Least {
    pub size: PlaneSize,
    /// The pair of least area; that of the one taken is within 2 % of it.
    pub floor: PlaneSize,
    pub binding: Vec<Binding>,
    /// The two ends of the valley: pairs within 2 % of the least area.
    pub valley: [PlaneSize; 2],
}

impl Bench<'_> {
    /// The least span that does all duties with a chord.
    ///
    /// The root is looked for at the tightest site alone; where another site is
    /// then used more, the search goes on upward from there with that one.
    pub fn least_span_m(&self, chord_m: f64) -> Option<f64> {
        let [mut span_m, largest] = self.room.spans_m(chord_m)?;
        let size = |span_m: f64| PlaneSize { span_m, chord_m };
        if self.does_all(size(span_m)) {
            return Some(span_m);
        }
        let near_m = self.span_near_last_m(chord_m, [span_m, largest]);
        if near_m.is_some() {
            return near_m;
        }
        let enough_m = self.enough_span_m(chord_m, [span_m, largest])?;
        for _ in 0..=self.sites.len() {
            let (index, utilisation) = self.tightest(size(span_m));
            if utilisation <= FULL_UTILISATION {
                break;
            }
            let over = |span_m: f64| self.sites[index].utilisation(size(span_m), &self.rules) - 1.0;
            let far = [enough_m, over(enough_m).min(-f64::MIN_POSITIVE)];
            span_m = root_between([span_m, utilisation - 1.0], far, ROOT_UTILISATION, over)?;
            self.last_root.set(Some((index, size(span_m).area_m2())));
        }
        Some(span_m)
    }

    /// The least span where the last chord's area and tightest site lead close to it.
    fn span_near_last_m(&self, chord_m: f64, [least, largest]: [f64; 2]) -> Option<f64> {
        /// Share by which the area may move from one chord to the next.
        const MOVE: f64 = 0.01;
        let (index, area_m2) = self.last_root.get()?;
        let size = |span_m: f64| PlaneSize { span_m, chord_m };
        let over = |span_m: f64| self.sites[index].utilisation(size(span_m), &self.rules) - 1.0;
        let last_m = area_m2 / (2.0 * chord_m);
        let [below, above] = [1.0 - MOVE, 1.0 + MOVE].map(|share| share * last_m);
        if below < least || above > largest {
            return None;
        }
        let [low, high] = [below, above].map(|span_m| [span_m, over(span_m)]);
        if low[1] <= 0.0 || high[1] > 0.0 {
            return None;
        }
        let span_m = root_between(low, high, ROOT_UTILISATION, over)?;
        self.does_all(size(span_m)).then(|| {
            self.last_root.set(Some((index, size(span_m).area_m2())));
            span_m
        })
    }

    /// A span that does all duties with a chord: the largest, or one that drives the bow down less.
    ///
    /// Wider planes need less deflection; but a list is levelled with more lift
    /// when their middle lies further in.
    fn enough_span_m(&self, chord_m: f64, [least, largest]: [f64; 2]) -> Option<f64> {
        let size = |span_m: f64| PlaneSize { span_m, chord_m };
        if self.does_all(size(largest)) {
            return Some(largest);
        }
        let utilisation = |span_m: f64| self.utilisation(size(span_m));
        if utilisation(largest - 0.01 * (largest - least)) >= utilisation(largest) {
            return None;
        }
        let best = least_between(least, largest, PRECISION_M, utilisation)?;
        (best[1] <= FULL_UTILISATION).then_some(best[0])
    }

    /// The least pair, or none when no admissible pair does all duties.
    ///
    /// `start` in 0 to 1 shifts the chords that are looked at first; the result does not depend on it.
    pub fn least(&self, start: f64) -> Option<Least> {
        let [low, high] = self.room.chords_m()?;
        let line = Line::at(self, &chords(low, high, start));
        if line.is_empty() {
            // The chords that serve may lie between those looked at.
            let closest = self.least_utilisation().filter(|size| self.does_all(*size))?;
            line.area_m2(closest.chord_m);
        }
        let (valley, floor) = line.valley()?;
        let (first, last) = (*valley.first()?, *valley.last()?);
        let binding = self.binding(first);
        Some(Least { size: first, floor, binding, valley: [first, last] })
    }

    /// Adds the speeds that ask most of the least pair with one chord, before all chords are looked at.
    pub fn settle_speeds(&mut self) {
        let Some(middle) = self.room.middle() else { return };
        for _ in 0..SETTLING_ROUNDS * self.loaded.len() {
            let Some(span_m) = self.least_span_m(middle.chord_m) else { return };
            if !self.add_overlooked_speed(PlaneSize { span_m, ..middle }) {
                return;
            }
        }
    }

    /// What keeps a least pair from being smaller.
    fn binding(&self, size: PlaneSize) -> Vec<Binding> {
        let near = |share: f64| (share - 1.0).abs() < NEAR;
        let room = &self.room;
        let aspect = size.span_m / size.chord_m;
        let limits = [
            (size.span_m / room.largest_span_m, Binding::Room),
            (size.chord_m / room.smallest_chord_m, Binding::SmallestChord),
            (aspect / room.smallest_aspect, Binding::SmallestAspect),
            (aspect / room.largest_aspect, Binding::LargestAspect),
        ];
        let utilisations = self.needs(size).into_iter().flat_map(|need| need.utilisations);
        let utilisations = utilisations.map(|(utilisation, limit)| {
            let bound = match limit {
                Limit::Deflection | Limit::Duty => Binding::Duty,
                Limit::SafeRun => Binding::SafeRun,
            };
            (utilisation, bound)
        });
        let mut binding = Vec::new();
        for (share, bound) in utilisations.chain(limits) {
            if near(share) && !binding.contains(&bound) {
                binding.push(bound);
            }
        }
        binding
    }

    /// The least pair in whole steps that does all duties; none when no pair in whole steps does.
    ///
    /// For each chord the least span in steps that does all; then the choice is
    /// the same as among exact sizes. No pair is smaller than the least exact one.
    pub fn rounded(&self, least: &Least, step_m: f64) -> Option<PlaneSize> {
        let mut chords = self.room.chords_in_steps_m(step_m);
        let away = |chord_m: &f64| (chord_m - least.size.chord_m).abs();
        chords.sort_by(|a, b| away(a).total_cmp(&away(b)));
        let mut found: Vec<PlaneSize> = Vec::new();
        let mut enough_m2 = f64::INFINITY;
        for chord_m in chords {
            let from_m = least.floor.area_m2() * (1.0 - PRECISION_OF_AREA) / (2.0 * chord_m);
            let sizes = self.room.spans_in_steps_m(chord_m, from_m, step_m);
            let does = sizes
                .map(|span_m| PlaneSize { span_m, chord_m })
                .take_while(|size| size.area_m2() <= enough_m2)
                .find(|size| self.does_all(*size));
            if let Some(size) = does {
                enough_m2 = enough_m2.min(size.area_m2() * (1.0 + FLAT_SHARE));
                found.push(size);
            }
        }
        flattest(found).first().copied()
    }
}

/// Chords to look at first, from end to end, moved by a share of their spacing.
fn chords(low: f64, high: f64, start: f64) -> Vec<f64> {
    #[allow(clippy::cast_precision_loss)]
    let at = |i: f64| low * (high / low).powf(i / (FIRST_CHORDS - 1) as f64);
    let mut chords = vec![low];
    #[allow(clippy::cast_precision_loss)]
    chords.extend((1..FIRST_CHORDS - 1).map(|i| at(i as f64 + 0.9 * (start - 0.5))));
    chords.push(high);
    chords
}
