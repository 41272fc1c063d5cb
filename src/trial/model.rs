//! What the equations say a trial should have shown, for any values of the unknowns.

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;
use uom::si::{angle::degree, velocity::meter_per_second};

use super::pair::Measurement;
use super::unknown::{COLUMNS, EFFICIENCY, FORM_OPINION, FORM_SLOPE, Prior, Unknown};
use crate::balance::forces::{PlaneSize, Prism};
use crate::balance::root::{Root, Search};
use crate::balance::{
    LARGEST_TRIM_DEG, LEAST_TRIM_DEG, LiftModel, PLANING_SPEED_COEFFICIENT, Settings,
};
use crate::boat::{Boat, ThrustLine};

/// A boat on trial: her balance with everything that a log may tell left open.
#[derive(Clone, Debug)]
pub(super) struct Model {
    prism: Prism,
    /// The same boat by the other lift model.
    other: Prism,
    planes: Option<PlaneSize>,
    /// Whether the thrust line is known by its height at the transom, so that its distance from the centre of gravity moves with it.
    thrust_by_height: bool,
    pub prior: Prior,
    efficiency: f64,
    /// Middle and half width of the logarithms of the speeds of the log.
    speeds: (f64, f64),
}

/// What the equations say for one measurement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Prediction {
    /// Trim that the inclinometer shows, degrees; 1 or 15 where the boat finds no balance.
    pub trim_deg: f64,
    /// Shaft power; none where the boat does not run.
    pub power_w: Option<f64>,
}

/// Values of the unknowns and of what is reckoned with, in spreads from what was known before.
pub(super) type Place = [f64; COLUMNS];

impl Model {
    pub fn new(boat: &Boat, settings: &Settings, efficiency: (Ratio, f64)) -> Self {
        let line = boat.input().drive.thrust_line;
        Self {
            prism: Prism::of(&boat.particulars(), settings),
            other: Prism::of(
                &boat.particulars(),
                &Settings { model: other(settings.model), ..*settings },
            ),
            planes: boat.planes().map(PlaneSize::from),
            thrust_by_height: !matches!(line, Some(ThrustLine::BelowCentreOfGravity(_))),
            prior: Prior::of(boat, settings, efficiency.1),
            efficiency: efficiency.0.get::<ratio>(),
            speeds: (0.0, 1.0),
        }
    }

    /// Takes note of the speeds of a log, between which an error of the equations may lean.
    pub fn over(mut self, measurements: &[Measurement]) -> Self {
        let logs = || measurements.iter().map(|m| m.speed.value.ln());
        let least = logs().fold(f64::INFINITY, f64::min);
        let largest = logs().fold(f64::NEG_INFINITY, f64::max);
        self.speeds = (0.5 * (least + largest), (0.5 * (largest - least)).max(0.05));
        self
    }

    /// Whether the boat planes at a measurement.
    pub fn planes_at(&self, measurement: &Measurement) -> bool {
        let speed_m_s = measurement.speed.get::<meter_per_second>();
        self.prism.speed_coefficient(speed_m_s) >= PLANING_SPEED_COEFFICIENT
    }

    /// The boat with the unknowns at a place.
    pub fn at(&self, place: &Place) -> Placed<'_> {
        let prism = self.moved(&self.prism, place);
        // The other model is only asked where its difference counts.
        let other = (place[FORM_OPINION] != 0.0).then(|| self.moved(&self.other, place));
        Placed { model: self, prism, other, place: *place }
    }

    fn moved(&self, prism: &Prism, place: &Place) -> Prism {
        let mut prism = prism.clone();
        let lcg_m = self.prior.value(Unknown::CentreOfGravity, place[0]);
        if self.thrust_by_height {
            // f = (VCG − h − LCG tan ε) cos ε.
            prism.thrust_offset_m -= (lcg_m - prism.lcg_m) * prism.sin_thrust;
        }
        prism.lcg_m = lcg_m;
        prism.effectiveness = self.prior.value(Unknown::PlaneEffectiveness, place[1]);
        prism.correlation_allowance = self.prior.value(Unknown::Roughness, place[2]);
        prism
    }
}

/// The model with its unknowns at one place.
pub(super) struct Placed<'a> {
    model: &'a Model,
    prism: Prism,
    other: Option<Prism>,
    place: Place,
}

impl Placed<'_> {
    /// What the equations say for a measurement.
    pub fn predict(&self, measurement: &Measurement) -> Prediction {
        let speed_m_s = measurement.speed.get::<meter_per_second>();
        let deflection_deg = measurement.deflection.get::<degree>();
        let measured_deg = measurement.trim.get::<degree>();
        self.predict_at(speed_m_s, deflection_deg, Some(measured_deg))
    }

    /// The same for all measurements; predictions at a place nearby save work.
    pub fn predict_all(
        &self,
        measurements: &[Measurement],
        near: Option<&[Prediction]>,
    ) -> Vec<Prediction> {
        let one = |(index, measurement): (usize, &Measurement)| {
            let near_deg = near.map(|near| near[index].trim_deg);
            let speed_m_s = measurement.speed.get::<meter_per_second>();
            let near_deg = near_deg.or_else(|| Some(measurement.trim.get::<degree>()));
            self.predict_at(speed_m_s, measurement.deflection.get::<degree>(), near_deg)
        };
        measurements.iter().enumerate().map(one).collect()
    }

    pub fn predict_at(
        &self,
        speed_m_s: f64,
        deflection_deg: f64,
        near_deg: Option<f64>,
    ) -> Prediction {
        let model = self.model;
        let mut own = model.balanced(&self.prism, speed_m_s, deflection_deg, near_deg);
        if let Some(other) = &self.other {
            let theirs = model.balanced(other, speed_m_s, deflection_deg, near_deg);
            let share = self.place[FORM_OPINION] * model.prior.spread[FORM_OPINION];
            own.trim_deg += share * (theirs.trim_deg - own.trim_deg);
            own.power_w = match (own.power_w, theirs.power_w) {
                (Some(own_w), Some(their_w)) => Some(own_w * (their_w / own_w).powf(share)),
                (power_w, _) => power_w,
            };
        }
        let spread = &model.prior.spread;
        let added_deg = self.place[Unknown::InclinometerZero.index()]
            * spread[Unknown::InclinometerZero.index()]
            + self.place[FORM_SLOPE] * spread[FORM_SLOPE] * model.lean(speed_m_s);
        let better = (self.place[EFFICIENCY] * spread[EFFICIENCY]).exp();
        Prediction {
            trim_deg: own.trim_deg + added_deg,
            power_w: own.power_w.map(|power_w| power_w / better),
        }
    }
}

impl Model {
    /// Where a speed lies among those of the log: −1 at the slowest, 1 at the fastest.
    fn lean(&self, speed_m_s: f64) -> f64 {
        let (middle, half) = self.speeds;
        ((speed_m_s.ln() - middle) / half).clamp(-1.0, 1.0)
    }

    /// Slopes of trim, degrees, and of the logarithm of power by a column that does not move the balance.
    pub fn direct_slopes(
        &self,
        column: usize,
        measurements: &[Measurement],
    ) -> Option<Vec<[f64; 2]>> {
        let spread = self.prior.spread[column];
        let lean = |measurement: &Measurement| {
            self.lean(measurement.speed.get::<meter_per_second>()) * spread
        };
        let each = measurements.iter();
        match column {
            EFFICIENCY => Some(each.map(|_| [0.0, -spread]).collect()),
            FORM_SLOPE => Some(each.map(|measurement| [lean(measurement), 0.0]).collect()),
            _ if column == Unknown::InclinometerZero.index() => {
                Some(each.map(|_| [spread, 0.0]).collect())
            }
            _ => None,
        }
    }

    /// Trim and shaft power at a speed, with the zero of the inclinometer and the efficiency as taken.
    fn balanced(
        &self,
        prism: &Prism,
        speed_m_s: f64,
        deflection_deg: f64,
        near_deg: Option<f64>,
    ) -> Prediction {
        let mut condition = prism.at(speed_m_s);
        if let Some(size) = self.planes {
            condition = condition.with_planes(size, deflection_deg);
        }
        let mut search = Search::new(&condition);
        let root = match near_deg {
            Some(near_deg) => search.root_near(near_deg),
            None => search.root(None),
        };
        match root {
            Root::Found { forces, .. } => {
                let resistance_n: f64 = condition.resistance_parts_n(&forces).iter().sum();
                let power_w = Some(resistance_n * speed_m_s / self.efficiency);
                Prediction { trim_deg: forces.trim_deg, power_w }
            }
            Root::BowDown => Prediction { trim_deg: LEAST_TRIM_DEG, power_w: None },
            Root::BowUp => Prediction { trim_deg: LARGEST_TRIM_DEG, power_w: None },
        }
    }
}

/// The lift model that a balance is not computed with.
const fn other(model: LiftModel) -> LiftModel {
    match model {
        LiftModel::Savitsky1964 => LiftModel::Shuford1958,
        LiftModel::Shuford1958 => LiftModel::Savitsky1964,
    }
}
