//! The line of least spans over the chords, and its valley: the pairs whose area is within 2 % of the least.

use std::cell::RefCell;

use super::bench::Bench;
use crate::balance::forces::PlaneSize;
use crate::numeric::{least_between, root_between};

/// Share of the least area within which the hinge moment decides.
pub const FLAT_SHARE: f64 = 0.02;
/// Precision of an area, as a share of it.
pub(crate) const PRECISION_OF_AREA: f64 = 1e-6;
/// Precision of a chord, m: where the line ends, and of the least area, which may lie at a kink.
const PRECISION_M: f64 = 1e-5;
/// Stands for the area of a chord with which nothing does all duties.
const LARGE_AREA_M2: f64 = 1e6;

/// A chord with the area of its least pair; infinite where no span does all duties.
#[derive(Clone, Copy, Debug)]
struct Sample {
    chord_m: f64,
    area_m2: f64,
}

impl Sample {
    fn size(&self) -> PlaneSize {
        PlaneSize { span_m: self.area_m2 / (2.0 * self.chord_m), chord_m: self.chord_m }
    }
}

/// The line of least spans, as far as it has been looked at.
pub(crate) struct Line<'b, 'a> {
    bench: &'b Bench<'a>,
    samples: RefCell<Vec<Sample>>,
}

impl<'b, 'a> Line<'b, 'a> {
    /// A line looked at for some chords.
    pub fn at(bench: &'b Bench<'a>, chords: &[f64]) -> Self {
        let line = Self { bench, samples: RefCell::new(Vec::new()) };
        for &chord_m in chords {
            line.area_m2(chord_m);
        }
        line
    }

    /// Area of the least pair of a chord.
    pub fn area_m2(&self, chord_m: f64) -> f64 {
        let area_m2 = self
            .bench
            .least_span_m(chord_m)
            .map_or(f64::INFINITY, |span_m| PlaneSize { span_m, chord_m }.area_m2());
        let mut samples = self.samples.borrow_mut();
        let index = samples.partition_point(|sample| sample.chord_m < chord_m);
        samples.insert(index, Sample { chord_m, area_m2 });
        area_m2
    }

    /// Index of the sample of least area; none when nothing does all duties with any chord.
    fn smallest(&self) -> Option<usize> {
        let samples = self.samples.borrow();
        (0..samples.len())
            .filter(|&index| samples[index].area_m2.is_finite())
            .min_by(|&i, &j| samples[i].area_m2.total_cmp(&samples[j].area_m2))
    }

    /// Whether some pair does all duties.
    pub fn is_empty(&self) -> bool {
        self.smallest().is_none()
    }

    /// Looks for the least area and both ends of its valley; the pairs of the valley, best first, and the one of least area.
    pub fn valley(&self) -> Option<(Vec<PlaneSize>, PlaneSize)> {
        self.find_floor()?;
        let allowed_m2 = self.samples.borrow()[self.smallest()?].area_m2 * (1.0 + FLAT_SHARE);
        for down in [true, false] {
            self.find_end(allowed_m2, down)?;
        }
        let samples = self.samples.borrow();
        let finite = samples.iter().filter(|sample| sample.area_m2.is_finite());
        Some((flattest(finite.map(Sample::size).collect()), samples[self.smallest()?].size()))
    }

    /// Looks for the least area between the neighbours of the smallest sample, and of each other one
    /// that is smaller than both of its own and hardly larger than it: where another speed begins to
    /// govern the line has a kink, and may fall on both sides of it.
    fn find_floor(&self) -> Option<()> {
        self.smallest()?;
        let between: Vec<[f64; 2]> = self
            .lowest()
            .into_iter()
            .map(|index| [true, false].map(|down| self.feasible_neighbour_m(index, down)))
            .collect();
        for [low, high] in between {
            if high - low > PRECISION_M {
                // Outside the feasible chords the area has no value; a large one keeps the search inside.
                let area = |chord_m: f64| self.area_m2(chord_m).min(LARGE_AREA_M2);
                least_between(low, high, PRECISION_M, area);
            }
        }
        Some(())
    }

    /// Indices of the samples that lie lower than both neighbours and within 2 % of the smallest.
    fn lowest(&self) -> Vec<usize> {
        let samples = self.samples.borrow();
        let areas: Vec<f64> = samples.iter().map(|sample| sample.area_m2).collect();
        let allowed_m2 = areas.iter().copied().fold(f64::INFINITY, f64::min) * (1.0 + FLAT_SHARE);
        let is_lowest = |index: &usize| {
            let near = &areas[index.saturating_sub(1)..=(index + 1).min(areas.len() - 1)];
            areas[*index] <= allowed_m2 && near.iter().all(|&other| areas[*index] <= other)
        };
        (0..areas.len()).filter(is_lowest).collect()
    }

    /// The neighbouring chord of a sample, or the last chord towards it with a least span.
    fn feasible_neighbour_m(&self, index: usize, down: bool) -> f64 {
        let here = self.samples.borrow()[index];
        match self.neighbour(index, down) {
            None => here.chord_m,
            Some(next) if next.area_m2.is_finite() => next.chord_m,
            Some(next) => self.edge_m(here.chord_m, next.chord_m),
        }
    }

    fn neighbour(&self, index: usize, down: bool) -> Option<Sample> {
        let next = if down { index.checked_sub(1)? } else { index + 1 };
        self.samples.borrow().get(next).copied()
    }

    /// The last chord with a least span on the way from one that has it to one that has not.
    fn edge_m(&self, mut inside_m: f64, mut outside_m: f64) -> f64 {
        while (outside_m - inside_m).abs() > PRECISION_M {
            let middle_m = 0.5 * (inside_m + outside_m);
            if self.area_m2(middle_m).is_finite() {
                inside_m = middle_m;
            } else {
                outside_m = middle_m;
            }
        }
        inside_m
    }

    /// Walks from the floor over the samples to where the area leaves what is allowed, and looks for the place.
    fn find_end(&self, allowed_m2: f64, down: bool) -> Option<()> {
        let mut index = self.smallest()?;
        while let Some(next) = self.neighbour(index, down)
            && next.area_m2 <= allowed_m2
        {
            index = if down { index - 1 } else { index + 1 };
        }
        let inside = self.samples.borrow()[index];
        let Some(outside) = self.neighbour(index, down) else { return Some(()) };
        if outside.area_m2.is_infinite() {
            let edge_m = self.edge_m(inside.chord_m, outside.chord_m);
            if (edge_m - inside.chord_m).abs() > PRECISION_M {
                return self.find_end(allowed_m2, down);
            }
            return Some(());
        }
        let over = |area_m2: f64| area_m2.min(LARGE_AREA_M2) / allowed_m2 - 1.0;
        let [inside, outside] = [inside, outside].map(|at| [at.chord_m, over(at.area_m2)]);
        root_between(inside, outside, PRECISION_OF_AREA, |chord_m| over(self.area_m2(chord_m)))
            .map(|_| ())
    }
}

/// Pairs within 2 % of the least area of them, the one with the least design hinge moment first, then the widest.
pub(crate) fn flattest(mut pairs: Vec<PlaneSize>) -> Vec<PlaneSize> {
    let Some(least_m2) = pairs.iter().map(|size| size.area_m2()).min_by(f64::total_cmp) else {
        return pairs;
    };
    let allowed_m2 = least_m2 * (1.0 + FLAT_SHARE) * (1.0 + 2.0 * PRECISION_OF_AREA);
    pairs.retain(|size| size.area_m2() <= allowed_m2);
    // The design hinge moment goes with chord² × span.
    let hinge = |size: &PlaneSize| size.chord_m * size.area_m2();
    pairs.sort_by(|a, b| hinge(a).total_cmp(&hinge(b)).then_with(|| b.span_m.total_cmp(&a.span_m)));
    pairs
}
