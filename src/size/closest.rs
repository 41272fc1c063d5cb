//! The admissible pair that falls least short, when none does all duties.

use argmin::core::{CostFunction, Error, Executor, State};
use argmin::solver::neldermead::NelderMead;

use super::bench::Bench;
use crate::balance::forces::PlaneSize;

/// Steps of the grid of chords and spans.
const STEPS: u8 = 6;
/// Difference of utilisations from which a size matters at a speed.
const MATTERS: f64 = 1e-6;

impl Bench<'_> {
    /// The admissible pair that falls least short of the duties; none when there is no room for any.
    ///
    /// Speeds at which no size makes a difference do not count, so that the pair
    /// is the best for what can be helped.
    pub fn least_utilisation(&self) -> Option<PlaneSize> {
        let share = |step: u8| f64::from(step) / f64::from(STEPS);
        let places: Vec<[f64; 2]> = (0..=STEPS)
            .flat_map(|i| (0..=STEPS).map(move |j| [share(i), share(j)]))
            .filter(|place| self.size_at(place).is_some())
            .collect();
        let utilisations: Vec<Vec<f64>> = places
            .iter()
            .filter_map(|place| Some(self.utilisations(self.size_at(place)?)))
            .collect();
        let matters: Vec<bool> = (0..self.sites.len())
            .map(|site| {
                let here = || utilisations.iter().map(|utilisations| utilisations[site]);
                here().fold(0.0, f64::max) - here().fold(f64::INFINITY, f64::min) > MATTERS
            })
            .collect();
        let worst = |utilisations: &[f64]| {
            let counted = utilisations.iter().zip(&matters).filter(|(_, matters)| **matters);
            counted.map(|(utilisation, _)| *utilisation).fold(0.0, f64::max)
        };
        let best = (0..places.len())
            .min_by(|&i, &j| worst(&utilisations[i]).total_cmp(&worst(&utilisations[j])))?;
        let cost = |size: PlaneSize| worst(&self.utilisations(size));
        let first = self.size_at(&places[best])?;
        let polished = self.polished(places[best], &cost);
        polished.filter(|size| cost(*size) < cost(first)).or(Some(first))
    }

    /// The same in whole steps, as planes are made: the best of those about the exact one; the exact one where none may be suggested.
    pub fn least_utilisation_in_steps(&self, step_m: f64) -> Option<PlaneSize> {
        let exact = self.least_utilisation()?;
        let is_near = |own_m: f64, exact_m: f64| (own_m - exact_m).abs() < step_m;
        let chords = self.room.chords_in_steps_m(step_m).into_iter();
        let chords = chords.filter(|&chord_m| is_near(chord_m, exact.chord_m));
        let sizes = chords.flat_map(|chord_m| {
            let spans = self.room.spans_in_steps_m(chord_m, exact.span_m - step_m, step_m);
            spans
                .filter(|&span_m| is_near(span_m, exact.span_m))
                .map(move |span_m| PlaneSize { span_m, chord_m })
        });
        let worst = |size: PlaneSize| self.utilisations(size).into_iter().fold(0.0, f64::max);
        let rated = sizes.map(|size| (worst(size), size));
        let best = rated.min_by(|a, b| a.0.total_cmp(&b.0));
        Some(best.map_or(exact, |(_, size)| size))
    }

    /// A pair at shares of the way through chords and spans.
    fn size_at(&self, place: &[f64]) -> Option<PlaneSize> {
        self.room.at_shares(place[0].clamp(0.0, 1.0), place[1].clamp(0.0, 1.0))
    }

    /// Utilisation of a size at each site.
    fn utilisations(&self, size: PlaneSize) -> Vec<f64> {
        self.sites.iter().map(|site| site.utilisation(size, &self.rules)).collect()
    }

    /// The best pair near a place on the grid.
    fn polished(&self, start: [f64; 2], cost: &dyn Fn(PlaneSize) -> f64) -> Option<PlaneSize> {
        let inward = |share: f64| if share < 0.5 { share + 0.1 } else { share - 0.1 };
        let simplex = vec![
            start.to_vec(),
            vec![inward(start[0]), start[1]],
            vec![start[0], inward(start[1])],
        ];
        let problem = Shortness { bench: self, cost };
        let solver = NelderMead::new(simplex).with_sd_tolerance(1e-6).ok()?;
        let found = Executor::new(problem, solver)
            .configure(|state| state.max_iters(60))
            .timer(false)
            .run()
            .ok()?;
        self.size_at(found.state().get_best_param()?)
    }
}

/// How far a pair falls short over the unit square of chord and span, for the optimiser.
struct Shortness<'b, 'a> {
    bench: &'b Bench<'a>,
    cost: &'b dyn Fn(PlaneSize) -> f64,
}

impl CostFunction for Shortness<'_, '_> {
    type Param = Vec<f64>;
    type Output = f64;

    fn cost(&self, place: &Vec<f64>) -> Result<f64, Error> {
        let size = self.bench.size_at(place);
        size.map(self.cost).ok_or_else(|| Error::msg("no such pair may be suggested"))
    }
}
