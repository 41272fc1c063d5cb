//! The least pair that does all duties: a search over span and chord.
//!
//! For a chord, the strain falls as the span grows, so that the least span
//! that does all is a root; the least area along that line is looked for over
//! the chord. Area alone leaves a nearly flat valley, so that within 2 % of it
//! the pair with the least design hinge moment is taken.

use std::cell::RefCell;

use super::bench::{Bench, FULL_STRAIN};
use super::demand::Limit;
use crate::balance::forces::PlaneSize;
use crate::numeric::{least_between, root_between};

/// Share of the least area within which the hinge moment decides.
pub const FLAT_SHARE: f64 = 0.02;
/// Chords at which the line of least spans is first looked at.
const FIRST_CHORDS: usize = 9;
/// Precision of a length, m.
const PRECISION_M: f64 = 1e-4;
/// Stands for the area of a chord with which nothing does all duties.
const LARGE_AREA_M2: f64 = 1e6;
/// Nearness at which a limit binds, as a share of it.
const NEAR: f64 = 3e-4;
/// Precision of an area, as a share of it.
const PRECISION_OF_AREA: f64 = 1e-5;

/// What keeps the least pair from being smaller.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Binding {
    /// A duty uses all the deflection it may.
    Duty,
    /// The duty's deflection reaches the end of the safe run.
    SafeRun,
    /// The chord is a tenth of the mean wetted length at a duty.
    TestedChord,
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
    /// The least area; that of the pair is within 2 % of it.
    pub area_m2: f64,
    pub binding: Vec<Binding>,
    /// The two ends of the valley: pairs within 2 % of the least area.
    pub valley: [PlaneSize; 2],
}

impl Bench<'_> {
    /// The least span that does all duties with a chord.
    ///
    /// The root is looked for at the tightest site alone; where another site is
    /// then strained more, the search goes on upward from there with that one.
    fn least_span_m(&self, chord_m: f64) -> Option<f64> {
        let [mut span_m, largest] = self.room.spans_m(chord_m)?;
        let enough_m = self.enough_span_m(chord_m, [span_m, largest])?;
        let size = |span_m: f64| PlaneSize { span_m, chord_m };
        for _ in 0..=self.sites.len() {
            let (place, strain) = self.tightest(size(span_m));
            if strain <= FULL_STRAIN {
                return Some(span_m);
            }
            let over = |span_m: f64| self.sites[place].need(size(span_m), &self.rules).strain - 1.0;
            let far = [enough_m, over(enough_m).min(-f64::MIN_POSITIVE)];
            span_m = root_between([span_m, strain - 1.0], far, 0.5 * (FULL_STRAIN - 1.0), over);
        }
        Some(enough_m)
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
        let strain = |span_m: f64| self.strain(size(span_m));
        if strain(largest - 0.01 * (largest - least)) >= strain(largest) {
            return None;
        }
        let best = least_between(least, largest, PRECISION_M, strain)?;
        (best[1] <= FULL_STRAIN).then_some(best[0])
    }

    /// The least pair, or none when no admissible pair does all duties.
    ///
    /// `start` in 0 to 1 shifts the chords that are looked at first; the result does not hang on it.
    pub fn least(&self, start: f64) -> Option<Least> {
        let [low, high] = self.room.chords_m()?;
        let line = RefCell::new(Vec::new());
        let area = |chord_m: f64| {
            let Some(span_m) = self.least_span_m(chord_m) else { return f64::INFINITY };
            let size = PlaneSize { span_m, chord_m };
            line.borrow_mut().push(size);
            size.area_m2()
        };
        let mut chords: Vec<f64> = chords(low, high, start);
        let mut areas: Vec<f64> = chords.iter().map(|&chord_m| area(chord_m)).collect();
        if areas.iter().all(|area_m2| area_m2.is_infinite()) {
            // The chords that serve may lie between those looked at.
            let closest = self.least_strain().filter(|size| self.does_all(*size))?;
            let place = chords.partition_point(|&chord_m| chord_m < closest.chord_m);
            chords.insert(place, closest.chord_m);
            areas.insert(place, area(closest.chord_m));
        }
        let best = (0..chords.len()).min_by(|&i, &j| areas[i].total_cmp(&areas[j]))?;
        if areas[best].is_infinite() {
            return None;
        }
        let [from, to] = self.feasible_around(&chords, &areas, best);
        // Outside the feasible chords the area has no value; a large one keeps the search inside.
        least_between(from, to, PRECISION_M, |chord_m| area(chord_m).min(LARGE_AREA_M2));
        area(from);
        area(to);
        let smallest = smallest_area(&line.borrow());
        let allowed_m2 = smallest.area_m2() * (1.0 + FLAT_SHARE);
        let within = |chord_m: f64| area(chord_m).min(LARGE_AREA_M2) / allowed_m2 - 1.0;
        walk_to_valley_end(smallest.chord_m, low, within);
        walk_to_valley_end(smallest.chord_m, high, within);
        let line = line.into_inner();
        let area_m2 = smallest_area(&line).area_m2();
        let valley = valley(line);
        let (first, last) = (*valley.first()?, *valley.last()?);
        let binding = self.binding(first);
        Some(Least { size: first, area_m2, binding, valley: [first, last] })
    }

    /// Chords around the best one between which the line of least spans exists.
    fn feasible_around(&self, chords: &[f64], areas: &[f64], best: usize) -> [f64; 2] {
        let end = |neighbour: Option<usize>| match neighbour {
            None => chords[best],
            Some(i) if areas[i].is_finite() => chords[i],
            Some(i) => self.edge_m(chords[best], chords[i]),
        };
        [end(best.checked_sub(1)), end((best + 1 < chords.len()).then_some(best + 1))]
    }

    /// The last chord with a least span on the way from one that has it to one that has not.
    fn edge_m(&self, mut inside: f64, mut outside: f64) -> f64 {
        while (outside - inside).abs() > PRECISION_M {
            let middle = 0.5 * (inside + outside);
            if self.least_span_m(middle).is_some() {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        inside
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
        let strains = self.needs(size).into_iter().flat_map(|need| need.strains);
        let strains = strains.map(|(strain, limit)| {
            let bound = match limit {
                Limit::Deflection | Limit::Duty => Binding::Duty,
                Limit::SafeRun => Binding::SafeRun,
                Limit::TestedChord => Binding::TestedChord,
            };
            (strain, bound)
        });
        let mut binding = Vec::new();
        for (share, bound) in strains.chain(limits) {
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
            let from_m = least.area_m2 * (1.0 - PRECISION_OF_AREA) / (2.0 * chord_m);
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
        valley(found).first().copied()
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

/// Walks from the floor of the valley to where `within` turns positive on the way to a limit.
fn walk_to_valley_end(floor: f64, limit: f64, mut within: impl FnMut(f64) -> f64) {
    if (limit - floor).abs() < PRECISION_M {
        return;
    }
    let at_limit = within(limit);
    if at_limit > 0.0 {
        root_between([floor, within(floor)], [limit, at_limit], PRECISION_OF_AREA, within);
    }
}

/// Pairs within 2 % of the least area of them, the one with the least design hinge moment first, then the widest.
fn valley(mut line: Vec<PlaneSize>) -> Vec<PlaneSize> {
    let Some(least_m2) = line.iter().map(|size| size.area_m2()).min_by(f64::total_cmp) else {
        return line;
    };
    let allowed_m2 = least_m2 * (1.0 + FLAT_SHARE) * (1.0 + 2.0 * PRECISION_OF_AREA);
    line.retain(|size| size.area_m2() <= allowed_m2);
    // The design hinge moment goes with chord² × span.
    let hinge = |size: &PlaneSize| size.chord_m * size.area_m2();
    line.sort_by(|a, b| hinge(a).total_cmp(&hinge(b)).then_with(|| b.span_m.total_cmp(&a.span_m)));
    line
}

fn smallest_area(line: &[PlaneSize]) -> PlaneSize {
    let by_area = |a: &&PlaneSize, b: &&PlaneSize| a.area_m2().total_cmp(&b.area_m2());
    *line.iter().min_by(by_area).expect("the line holds the best of the first chords")
}
