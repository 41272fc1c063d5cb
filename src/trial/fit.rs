//! The robust fit: the values of the unknowns that agree best with the readings.
//!
//! Gauss–Newton: each step minimises the robust loss of the residuals,
//! linearised in the unknowns, by the simplex method of Nelder & Mead (1965),
//! Computer Journal 7, so that the running trim is only computed once for each
//! slope. First with Huber's loss, which has one valley, while the scale is
//! found from the median residual; then with the biweight at that scale, as
//! Yohai (1987), Annals of Statistics 15, advises (from memory).

use argmin::core::{CostFunction, Error, Executor, State, TerminationReason, TerminationStatus};
use argmin::solver::neldermead::NelderMead;

use super::information::Jacobian;
use super::model::{Model, Place, Prediction};
use super::pair::Measurement;
use super::robust::{Loss, scale};
use super::unknown::{COLUMNS, Unknown};
use uom::si::angle::degree;

/// Gauss–Newton steps at most.
const MOST_STEPS: u32 = 40;
/// Step at which the fit has settled, in spreads of the unknowns.
const SETTLED: f64 = 1e-4;
/// Step of the slopes, in spreads.
const SLOPE_STEP: f64 = 0.05;
/// Readings are never held to be better than this share of the usual error: with few of them the
/// median may by chance be tiny, and good readings would then look wild.
const LEAST_SCALE: f64 = 0.7;
/// Readings of a kind that have a scale of their own.
const ENOUGH_FOR_A_SCALE: usize = 6;
/// Residual, in usual errors, where the boat finds no balance and has no power.
const NO_BALANCE: f64 = 20.0;
/// Stiffness of the wall at a limit of an unknown.
const WALL: f64 = 1.0e3;
/// Largest size of the simplex at the start, in spreads.
const SIMPLEX: f64 = 0.3;

/// What a reading reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Trim, degrees.
    Trim,
    /// Logarithm of the shaft power, W.
    Power,
}

/// One reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reading {
    /// Place of its measurement.
    pub measurement: usize,
    pub kind: Kind,
    pub measured: f64,
    /// One standard deviation as usual on a trial.
    pub error: f64,
}

impl Reading {
    pub fn trim(measurement: usize, of: &Measurement, error: f64) -> Self {
        Self { measurement, kind: Kind::Trim, measured: of.trim.get::<degree>(), error }
    }

    /// What the equations say for it; none where the boat finds no balance.
    fn predicted(&self, prediction: &Prediction) -> Option<f64> {
        match self.kind {
            Kind::Trim => Some(prediction.trim_deg),
            Kind::Power => prediction.power_w.map(f64::ln),
        }
    }

    /// Measured less computed, in usual errors.
    pub fn residual(&self, prediction: &Prediction) -> f64 {
        let away = |computed| (self.measured - computed) / self.error;
        self.predicted(prediction).map_or(NO_BALANCE, away)
    }
}

/// A fit of some unknowns to the readings of a log.
pub(super) struct Fit<'a> {
    pub model: &'a Model,
    pub measurements: &'a [Measurement],
    pub readings: &'a [Reading],
    pub fitted: &'a [Unknown],
}

/// Where a fit settled.
#[derive(Clone, Debug)]
pub(super) struct Settled {
    pub place: Place,
    /// Scale of each reading, in usual errors.
    pub scales: Vec<f64>,
    /// Residual of each reading, over its scale.
    pub residuals: Vec<f64>,
}

impl Fit<'_> {
    /// The best place; none when the steps do not settle.
    pub fn run(&self) -> Option<Settled> {
        let mut place = [0.0; COLUMNS];
        let mut scales = vec![1.0; self.readings.len()];
        for _ in 0..3 {
            place = self.descend(place, &scales, Loss::Huber)?;
            scales = self.scales(&self.residuals(&place));
        }
        place = self.descend(place, &scales, Loss::Biweight)?;
        let residuals = self.residuals(&place);
        let residuals = residuals.iter().zip(&scales).map(|(r, scale)| r / scale).collect();
        Some(Settled { place, scales, residuals })
    }

    /// Scale of each reading: that of its kind, or of all where its kind is few.
    fn scales(&self, residuals: &[f64]) -> Vec<f64> {
        let of = |wanted: &dyn Fn(Kind) -> bool| {
            let kept =
                self.readings.iter().zip(residuals).filter(|(reading, _)| wanted(reading.kind));
            kept.map(|(_, residual)| *residual).collect::<Vec<_>>()
        };
        let all = scale(residuals, self.fitted.len());
        let of_kind = |kind: Kind| {
            let own = of(&|other| other == kind);
            let enough = own.len() >= ENOUGH_FOR_A_SCALE;
            // The unknowns are shared out among the kinds as the readings are.
            let share = self.fitted.len() * own.len() / residuals.len().max(1);
            if enough { scale(&own, share.max(1)) } else { all }.max(LEAST_SCALE)
        };
        let (trim, power) = (of_kind(Kind::Trim), of_kind(Kind::Power));
        let each = self.readings.iter();
        each.map(|reading| if reading.kind == Kind::Trim { trim } else { power }).collect()
    }

    /// Residuals at a place, in usual errors.
    pub fn residuals(&self, place: &Place) -> Vec<f64> {
        let placed = self.model.at(place);
        let predictions: Vec<_> = self.measurements.iter().map(|m| placed.predict(m)).collect();
        self.readings.iter().map(|r| r.residual(&predictions[r.measurement])).collect()
    }

    /// Slopes of the computed values by some columns, in usual errors for each spread; central differences.
    pub fn jacobian(&self, place: &Place, columns: &[usize]) -> Jacobian {
        let mut jacobian = vec![[0.0; COLUMNS]; self.readings.len()];
        for &column in columns {
            let moved = |step: f64| {
                let mut moved = *place;
                moved[column] += step;
                self.residuals(&moved)
            };
            let (ahead, behind) = (moved(SLOPE_STEP), moved(-SLOPE_STEP));
            for (row, (ahead, behind)) in jacobian.iter_mut().zip(ahead.iter().zip(&behind)) {
                row[column] = (behind - ahead) / (2.0 * SLOPE_STEP);
            }
        }
        jacobian
    }

    fn columns(&self) -> Vec<usize> {
        self.fitted.iter().map(|unknown| unknown.place()).collect()
    }

    /// Loss of residuals at a place, with the walls at the limits.
    fn loss(&self, place: &Place, residuals: &[f64], scales: &[f64], loss: Loss) -> f64 {
        let of_readings: f64 = residuals.iter().zip(scales).map(|(r, s)| loss.value(r / s)).sum();
        let wall = |unknown: &Unknown| {
            let (least, largest) = self.model.prior.limits[unknown.place()];
            let at = place[unknown.place()];
            let beyond = (least - at).max(at - largest).max(0.0);
            WALL * beyond * beyond
        };
        of_readings + self.fitted.iter().map(wall).sum::<f64>()
    }

    /// Gauss–Newton steps from a start until they settle.
    fn descend(&self, start: Place, scales: &[f64], loss: Loss) -> Option<Place> {
        let columns = self.columns();
        let mut place = start;
        let mut residuals = self.residuals(&place);
        let mut cost = self.loss(&place, &residuals, scales, loss);
        for _ in 0..MOST_STEPS {
            let jacobian = self.jacobian(&place, &columns);
            let mut step = self.step(&place, &residuals, &jacobian, scales, loss)?;
            let mut size = step.iter().map(|x| x * x).sum::<f64>().sqrt();
            // A step that overshoots is halved until the loss falls.
            loop {
                if size <= SETTLED {
                    return Some(place);
                }
                let mut tried = place;
                for (column, change) in columns.iter().zip(&step) {
                    tried[*column] += change;
                }
                let tried_residuals = self.residuals(&tried);
                let tried_cost = self.loss(&tried, &tried_residuals, scales, loss);
                if tried_cost < cost {
                    (place, residuals, cost) = (tried, tried_residuals, tried_cost);
                    break;
                }
                step.iter_mut().for_each(|change| *change *= 0.5);
                size *= 0.5;
            }
        }
        None
    }

    /// The step to the least loss of the linearised residuals.
    fn step(
        &self,
        place: &Place,
        residuals: &[f64],
        jacobian: &Jacobian,
        scales: &[f64],
        loss: Loss,
    ) -> Option<Vec<f64>> {
        let linear = Linear { fit: self, place, residuals, jacobian, scales, loss };
        let count = self.fitted.len();
        let corner = |moved: Option<usize>| {
            (0..count).map(|at| if moved == Some(at) { SIMPLEX } else { 0.0 }).collect::<Vec<_>>()
        };
        let simplex = std::iter::once(corner(None)).chain((0..count).map(|at| corner(Some(at))));
        let solver = NelderMead::new(simplex.collect()).with_sd_tolerance(1e-11).ok()?;
        let result = Executor::new(linear, solver)
            .configure(|state| state.max_iters(2000))
            .timer(false)
            .run()
            .ok()?;
        let state = result.state();
        let converged = matches!(
            state.get_termination_status(),
            TerminationStatus::Terminated(TerminationReason::SolverConverged)
        );
        state.get_best_param().filter(|_| converged).cloned()
    }
}

/// The loss near a place, with residuals that go straight.
struct Linear<'a> {
    fit: &'a Fit<'a>,
    place: &'a Place,
    residuals: &'a [f64],
    jacobian: &'a Jacobian,
    scales: &'a [f64],
    loss: Loss,
}

impl CostFunction for Linear<'_> {
    type Param = Vec<f64>;
    type Output = f64;

    fn cost(&self, step: &Vec<f64>) -> Result<f64, Error> {
        let columns = self.fit.columns();
        let mut place = *self.place;
        for (column, change) in columns.iter().zip(step) {
            place[*column] += change;
        }
        let moved = |(residual, row): (&f64, &[f64; COLUMNS])| {
            let along = columns.iter().zip(step).map(|(column, change)| row[*column] * change);
            residual - along.sum::<f64>()
        };
        let residuals: Vec<f64> = self.residuals.iter().zip(self.jacobian).map(moved).collect();
        let value = self.fit.loss(&place, &residuals, self.scales, self.loss);
        if value.is_finite() { Ok(value) } else { Err(Error::msg("the loss is not a number")) }
    }
}
