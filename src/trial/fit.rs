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
use super::reading::{Kind, Reading};
use super::robust::{Loss, scale};
use super::unknown::{COLUMNS, Unknown};

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
pub(super) const ENOUGH_FOR_A_SCALE: usize = 6;
/// Way from a place within which its slopes serve, in spreads.
const SAME_SLOPES: f64 = 0.02;
/// Stiffness of the wall at a limit of an unknown.
const WALL: f64 = 1.0e3;
/// Largest size of the simplex at the start, in spreads.
const SIMPLEX: f64 = 0.3;

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

/// A place on the way, with what the equations say there.
struct Standing {
    place: Place,
    predictions: Vec<Prediction>,
    /// In usual errors.
    residuals: Vec<f64>,
    /// Slopes, and the place nearby that they were made at.
    slopes: Option<(Place, Jacobian)>,
}

fn distance(one: &Place, other: &Place) -> f64 {
    one.iter().zip(other).map(|(a, b)| (a - b) * (a - b)).sum::<f64>().sqrt()
}

impl Fit<'_> {
    /// The best place; none when the steps do not settle.
    pub fn run(&self) -> Option<Settled> {
        let mut at = self.standing([0.0; COLUMNS], None);
        let mut scales = vec![1.0; self.readings.len()];
        for _ in 0..3 {
            self.descend(&mut at, &scales, Loss::Huber)?;
            scales = self.scales(&at.residuals);
        }
        self.descend(&mut at, &scales, Loss::Biweight)?;
        let residuals = at.residuals.iter().zip(&scales).map(|(r, scale)| r / scale).collect();
        Some(Settled { place: at.place, scales, residuals })
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

    /// What the equations say at a place, and the residuals; predictions at a place nearby save work.
    fn standing(&self, place: Place, near: Option<&[Prediction]>) -> Standing {
        let predictions = self.model.at(&place).predict_all(self.measurements, near);
        let residual = |reading: &Reading| reading.residual(&predictions[reading.measurement]);
        let residuals = self.readings.iter().map(residual).collect();
        Standing { place, predictions, residuals, slopes: None }
    }

    /// Slopes of the computed values by some columns, in usual errors for each spread; central
    /// differences where the balance moves.
    pub fn jacobian(&self, place: &Place, columns: &[usize]) -> Jacobian {
        self.jacobian_at(&self.standing(*place, None), columns)
    }

    fn jacobian_at(&self, at: &Standing, columns: &[usize]) -> Jacobian {
        let mut jacobian = vec![[0.0; COLUMNS]; self.readings.len()];
        for &column in columns {
            if let Some(slopes) = self.model.direct_slopes(column, self.measurements) {
                for (row, reading) in jacobian.iter_mut().zip(self.readings) {
                    row[column] = reading.slope(slopes[reading.measurement]);
                }
                continue;
            }
            let moved = |step: f64| {
                let mut moved = at.place;
                moved[column] += step;
                self.standing(moved, Some(&at.predictions)).residuals
            };
            let (ahead, behind) = (moved(SLOPE_STEP), moved(-SLOPE_STEP));
            for (row, (ahead, behind)) in jacobian.iter_mut().zip(ahead.iter().zip(&behind)) {
                row[column] = (behind - ahead) / (2.0 * SLOPE_STEP);
            }
        }
        jacobian
    }

    fn columns(&self) -> Vec<usize> {
        self.fitted.iter().map(|unknown| unknown.index()).collect()
    }

    /// Loss of residuals at a place, with the walls at the limits.
    fn loss(&self, place: &Place, residuals: &[f64], scales: &[f64], loss: Loss) -> f64 {
        let of_readings: f64 = residuals.iter().zip(scales).map(|(r, s)| loss.value(r / s)).sum();
        let wall = |unknown: &Unknown| {
            let (least, largest) = self.model.prior.limits[unknown.index()];
            let at = place[unknown.index()];
            let beyond = (least - at).max(at - largest).max(0.0);
            WALL * beyond * beyond
        };
        of_readings + self.fitted.iter().map(wall).sum::<f64>()
    }

    /// Gauss–Newton steps until they settle; none when they do not.
    fn descend(&self, at: &mut Standing, scales: &[f64], loss: Loss) -> Option<()> {
        let columns = self.columns();
        let mut cost = self.loss(&at.place, &at.residuals, scales, loss);
        for _ in 0..MOST_STEPS {
            let (made_at, jacobian) = at
                .slopes
                .take()
                .filter(|(made_at, _)| distance(made_at, &at.place) <= SAME_SLOPES)
                .unwrap_or_else(|| (at.place, self.jacobian_at(at, &columns)));
            let mut step = self.step(&at.place, &at.residuals, &jacobian, scales, loss)?;
            at.slopes = Some((made_at, jacobian));
            // A step that overshoots is halved until the loss falls.
            loop {
                if step.iter().map(|x| x * x).sum::<f64>().sqrt() <= SETTLED {
                    return Some(());
                }
                let mut place = at.place;
                for (column, change) in columns.iter().zip(&step) {
                    place[*column] += change;
                }
                let tried = self.standing(place, Some(&at.predictions));
                let tried_cost = self.loss(&tried.place, &tried.residuals, scales, loss);
                if tried_cost < cost {
                    *at = Standing { slopes: at.slopes.take(), ..tried };
                    cost = tried_cost;
                    break;
                }
                step.iter_mut().for_each(|change| *change *= 0.5);
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
