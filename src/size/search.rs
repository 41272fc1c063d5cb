//! The least pair that does all duties: a search over span and chord.
//!
//! For a chord, the strain falls as the span grows, so that the least span
//! that does all is a root; the least area along that line is looked for over
//! the chord. Area alone leaves a nearly flat valley, so that within 2 % of it
//! the pair with the least design hinge moment is taken.

use std::cell::{Cell, RefCell};

use argmin::core::{CostFunction, Error, Executor, State};
use argmin::solver::neldermead::NelderMead;

use super::site::{Limit, Need, Rules, Site};
use crate::balance::forces::{PlaneSize, Prism};
use crate::numeric::{least_between, root_between};

/// Share of the least area within which the hinge moment decides.
pub const FLAT_SHARE: f64 = 0.02;
/// Chords at which the line of least spans is first looked at.
const FIRST_CHORDS: usize = 9;
/// Precision of a length, m.
const PRECISION_M: f64 = 1e-4;
/// Stands for the area of a chord with which nothing does all duties.
const LARGE_AREA_M2: f64 = 1e6;
/// Strain up to which a size counts as doing all duties.
const FULL_STRAIN: f64 = 1.0 + 1e-6;

/// Sizes that may be suggested.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Room {
    pub largest_span_m: f64,
    pub smallest_chord_m: f64,
    pub largest_chord_m: f64,
    pub smallest_aspect: f64,
    pub largest_aspect: f64,
}

impl Room {
    /// Least and largest span for a chord; none when the first is above the second.
    pub fn spans_m(&self, chord_m: f64) -> Option<[f64; 2]> {
        let least = self.smallest_aspect * chord_m;
        let largest = (self.largest_aspect * chord_m).min(self.largest_span_m);
        (least <= largest * (1.0 + 1e-12)).then_some([least.min(largest), largest])
    }

    /// Least and largest chord; none when there is no room for any plane.
    pub fn chords_m(&self) -> Option<[f64; 2]> {
        let largest = self.largest_chord_m.min(self.largest_span_m / self.smallest_aspect);
        (self.smallest_chord_m <= largest).then_some([self.smallest_chord_m, largest])
    }

    /// A pair in the middle of what may be suggested; none when there is no room for any.
    pub fn middle(&self) -> Option<PlaneSize> {
        let [low, high] = self.chords_m()?;
        let chord_m = (low * high).sqrt();
        let [least, largest] = self.spans_m(chord_m)?;
        Some(PlaneSize { span_m: 0.5 * (least + largest), chord_m })
    }

    /// Whether a size may be suggested.
    pub fn admits(&self, size: PlaneSize) -> bool {
        let slack = 1e-9;
        let aspect = size.span_m / size.chord_m;
        size.span_m <= self.largest_span_m + slack
            && size.chord_m >= self.smallest_chord_m - slack
            && aspect >= self.smallest_aspect - slack
            && aspect <= self.largest_aspect + slack
    }
}

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
    pub binding: Vec<Binding>,
    /// The two ends of the valley: pairs within 2 % of the least area.
    pub valley: [PlaneSize; 2],
}

/// A search over sizes for a set of sites.
pub(crate) struct Bench<'a> {
    pub sites: Vec<Site<'a>>,
    pub rules: Rules,
    pub room: Room,
    /// The site that last refused a size; only saves work.
    refused: Cell<usize>,
}

impl<'a> Bench<'a> {
    /// A bench for some sites.
    pub fn new(sites: Vec<Site<'a>>, rules: Rules, room: Room) -> Self {
        Self { sites, rules, room, refused: Cell::new(0) }
    }

    /// The same search for another boat or other settings, at the same speeds and with the same demands.
    pub fn with_prism<'b>(&self, prism: &'b Prism) -> Bench<'b> {
        let sites = self.sites.iter().map(|site| site.with_prism(prism)).collect();
        Bench::new(sites, self.rules, self.room)
    }

    /// Whether the boat does every duty with planes up.
    pub fn bare_does_all(&self) -> bool {
        let does = |site: &Site<'_>| site.demands.iter().all(|demand| site.bare_does(demand.kind));
        self.sites.iter().all(does)
    }

    /// What a size needs at every site.
    pub fn needs(&self, size: PlaneSize) -> Vec<Need> {
        self.sites.iter().map(|site| site.need(size, &self.rules)).collect()
    }

    /// The largest strain of a size over all sites.
    pub fn strain(&self, size: PlaneSize) -> f64 {
        self.tightest(size).1
    }

    /// Whether a size does all duties.
    ///
    /// The site that last said no is asked first.
    pub fn does_all(&self, size: PlaneSize) -> bool {
        let does = |place: usize| {
            let site = &self.sites[place];
            site.is_idle() || site.need(size, &self.rules).strain <= FULL_STRAIN
        };
        let first = self.refused.get();
        if first < self.sites.len() && !does(first) {
            return false;
        }
        let refused = (0..self.sites.len()).find(|&place| place != first && !does(place));
        if let Some(place) = refused {
            self.refused.set(place);
        }
        refused.is_none()
    }

    /// The site that strains a size most, with its strain.
    fn tightest(&self, size: PlaneSize) -> (usize, f64) {
        let mut tightest = (0, 0.0);
        for (place, site) in self.sites.iter().enumerate().filter(|(_, site)| !site.is_idle()) {
            let strain = site.need(size, &self.rules).strain;
            if strain > tightest.1 {
                tightest = (place, strain);
            }
        }
        tightest
    }

    /// The least span that does all duties with a chord.
    ///
    /// The root is looked for at the tightest site alone; where another site is
    /// then strained more, the search goes on upward from there with that one.
    fn least_span_m(&self, chord_m: f64) -> Option<f64> {
        let [mut span_m, largest] = self.room.spans_m(chord_m)?;
        let size = |span_m: f64| PlaneSize { span_m, chord_m };
        if !self.does_all(size(largest)) {
            return None;
        }
        for _ in 0..=self.sites.len() {
            let (place, strain) = self.tightest(size(span_m));
            if strain <= FULL_STRAIN {
                return Some(span_m);
            }
            let over = |span_m: f64| self.sites[place].need(size(span_m), &self.rules).strain - 1.0;
            let far = [largest, over(largest).min(-f64::MIN_POSITIVE)];
            span_m = root_between([span_m, strain - 1.0], far, 0.5 * (FULL_STRAIN - 1.0), over);
        }
        Some(span_m)
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
        let chords: Vec<f64> = chords(low, high, start);
        let areas: Vec<f64> = chords.iter().map(|&chord_m| area(chord_m)).collect();
        let best = (0..chords.len()).min_by(|&i, &j| areas[i].total_cmp(&areas[j]))?;
        if !areas[best].is_finite() {
            return None;
        }
        let [from, to] = self.feasible_around(&chords, &areas, best);
        // Outside the feasible chords the area has no value; a large one keeps the search inside.
        least_between(from, to, PRECISION_M, |chord_m| area(chord_m).min(LARGE_AREA_M2));
        area(from);
        area(to);
        let smallest = smallest_area(&line.borrow());
        let floor = smallest.chord_m;
        let within = |chord_m: f64| {
            area(chord_m).min(LARGE_AREA_M2) - smallest.area_m2() * (1.0 + FLAT_SHARE)
        };
        walk_to_valley_end(floor, low, within);
        walk_to_valley_end(floor, high, within);
        let mut valley = line.into_inner();
        let allowed = smallest_area(&valley).area_m2() * (1.0 + FLAT_SHARE) * (1.0 + 1e-9);
        valley.retain(|size| size.area_m2() <= allowed);
        // The design hinge moment goes with chord² × span.
        let hinge = |size: &PlaneSize| size.chord_m * size.area_m2();
        valley.sort_by(|a, b| hinge(a).total_cmp(&hinge(b)));
        let (first, last) = (*valley.first()?, *valley.last()?);
        Some(Least { size: first, binding: self.binding(first), valley: [first, last] })
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
        let near = |value: f64, limit: f64| (value / limit - 1.0).abs() < 1e-4;
        let mut binding = Vec::new();
        for need in self.needs(size) {
            if need.strain > 1.0 - 1e-4 {
                let bound = match need.limit {
                    Limit::Deflection | Limit::Duty => Binding::Duty,
                    Limit::SafeRun => Binding::SafeRun,
                    Limit::TestedChord => Binding::TestedChord,
                };
                if !binding.contains(&bound) {
                    binding.push(bound);
                }
            }
        }
        let aspect = size.span_m / size.chord_m;
        for (bound, name) in [
            (near(size.span_m, self.room.largest_span_m), Binding::Room),
            (near(size.chord_m, self.room.smallest_chord_m), Binding::SmallestChord),
            (near(aspect, self.room.smallest_aspect), Binding::SmallestAspect),
            (near(aspect, self.room.largest_aspect), Binding::LargestAspect),
        ] {
            if bound {
                binding.push(name);
            }
        }
        binding
    }

    /// The least pair in whole steps that does all duties, near a least pair.
    pub fn rounded(&self, size: PlaneSize, step_m: f64) -> Option<PlaneSize> {
        let spans = (size.span_m / step_m).floor();
        let chords = (size.chord_m / step_m).floor();
        let mut candidates: Vec<PlaneSize> = (0..5_u8)
            .flat_map(|i| (0..4_u8).map(move |j| (f64::from(i), f64::from(j))))
            .map(|(i, j)| PlaneSize {
                span_m: (spans + i) * step_m,
                chord_m: (chords + j) * step_m,
            })
            .filter(|candidate| self.room.admits(*candidate))
            .collect();
        candidates.sort_by(|a, b| {
            let hinge = |size: &PlaneSize| size.chord_m * size.area_m2();
            a.area_m2().total_cmp(&b.area_m2()).then(hinge(a).total_cmp(&hinge(b)))
        });
        candidates.into_iter().find(|candidate| self.does_all(*candidate))
    }

    /// Least resistance that any admissible pair reaches at a site with a safe run and a usable deflection.
    pub fn least_resistance_n(&self, site: &Site<'_>) -> f64 {
        const STEPS: u8 = 4;
        let none = PlaneSize { span_m: 0.0, chord_m: 0.0 };
        let mut least_n = site.resistance_n(none, 0.0);
        let Some([low, high]) = self.room.chords_m() else { return least_n };
        for i in 0..=STEPS {
            let chord_m = low + (high - low) * f64::from(i) / f64::from(STEPS);
            let Some([least, largest]) = self.room.spans_m(chord_m) else { continue };
            for j in 0..=STEPS {
                let span_m = least + (largest - least) * f64::from(j) / f64::from(STEPS);
                let size = PlaneSize { span_m, chord_m };
                let to_deg = site.safe_deg(size).min(self.rules.usable_deg);
                let from_deg = site.running_deg(size).min(to_deg);
                let [deflection_deg, resistance_n] = site.least_resistance(size, from_deg, to_deg);
                if site.chord_is_tested(size, deflection_deg) {
                    least_n = least_n.min(resistance_n);
                }
            }
        }
        least_n
    }

    /// The admissible pair that falls least short of the duties.
    pub fn least_strain(&self) -> Option<PlaneSize> {
        let [low, high] = self.room.chords_m()?;
        let size_at = |place: &[f64]| {
            let chord_m = low + place[0].clamp(0.0, 1.0) * (high - low);
            let [least, largest] = self.room.spans_m(chord_m).unwrap_or([0.0, 0.0]);
            PlaneSize { span_m: least + place[1].clamp(0.0, 1.0) * (largest - least), chord_m }
        };
        let grid = (0..=6_u8).flat_map(|i| (0..=6_u8).map(move |j| [i, j]));
        let start = grid
            .map(|place| place.map(|i| f64::from(i) / 6.0))
            .filter(|place| self.room.spans_m(size_at(place).chord_m).is_some())
            .min_by(|a, b| self.strain(size_at(a)).total_cmp(&self.strain(size_at(b))))?;
        let simplex = vec![
            start.to_vec(),
            vec![start[0] + if start[0] < 0.5 { 0.1 } else { -0.1 }, start[1]],
            vec![start[0], start[1] + if start[1] < 0.5 { 0.1 } else { -0.1 }],
        ];
        let polished = Executor::new(
            Strain { bench: self, size_at: &size_at },
            NelderMead::new(simplex).with_sd_tolerance(1e-6).ok()?,
        )
        .configure(|state| state.max_iters(60))
        .timer(false)
        .run()
        .ok()
        .and_then(|result| result.state().get_best_param().map(|place| size_at(place)));
        let first = size_at(&start);
        match polished {
            Some(size) if self.strain(size) < self.strain(first) => Some(size),
            _ => Some(first),
        }
    }
}

/// Strain over the unit square of chord and span, for the optimiser.
struct Strain<'b, 'a, F> {
    bench: &'b Bench<'a>,
    size_at: &'b F,
}

impl<F: Fn(&[f64]) -> PlaneSize> CostFunction for Strain<'_, '_, F> {
    type Param = Vec<f64>;
    type Output = f64;

    fn cost(&self, place: &Vec<f64>) -> Result<f64, Error> {
        Ok(self.bench.strain((self.size_at)(place)))
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
        root_between([floor, within(floor)], [limit, at_limit], 1e-6, within);
    }
}

fn smallest_area(line: &[PlaneSize]) -> PlaneSize {
    let by_area = |a: &&PlaneSize, b: &&PlaneSize| a.area_m2().total_cmp(&b.area_m2());
    *line.iter().min_by(by_area).expect("the line holds the best of the first chords")
}
