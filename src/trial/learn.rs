//! What a log tells about a boat, and how surely.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Power, Ratio, Velocity};
use uom::si::{
    mass_density::kilogram_per_cubic_meter, power::watt, ratio::ratio, velocity::meter_per_second,
};

use super::fit::{Fit, Kind, Reading, Settled};
use super::information::{Covariance, LARGEST_SHARE, choose, expected_error};
use super::model::{Model, Placed};
use super::noise::{self, Slopes};
use super::pair::Measurement;
use super::refusal::Refusal;
use super::robust::Loss;
use super::unknown::{COLUMNS, Unknown};
use crate::balance::Settings;
use crate::boat::{Boat, FuelKind, Measure};
use crate::units::{UnitChoice, number_with_decimals};

/// Fewest measurements that can be judged.
const FEWEST: usize = 5;
/// Least ratio of the fastest to the slowest speed.
const LEAST_SPEED_RATIO: f64 = 1.2;
/// Residual from which a reading is called an outlier, in standard deviations of the scatter.
const OUTLIER: f64 = 3.0;
/// Scatter from which the readings contradict each other, in usual errors.
const LARGEST_SCALE: f64 = 4.0;
/// Largest share of readings that may be outliers.
const MOST_OUTLIERS: f64 = 0.3;
/// Share of the intervals.
const CONFIDENCE: f64 = 0.9;
/// Propulsive efficiency of a planing boat when none is given, and its spread. Common practice, no source.
const USUAL_EFFICIENCY: (f64, f64) = (0.52, 0.10);
/// Spread of one that is given. Common practice, no source.
const GIVEN_EFFICIENCY_SPREAD: f64 = 0.03;

/// What turns power and fuel into resistance.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Options {
    /// Propulsive efficiency: resistance × speed over shaft power; that of the boat when absent, or else 0.52, held very doubtful.
    pub efficiency: Option<Ratio>,
}

/// Shaft work from a cubic metre of fuel, J, when the boat file gives the specific consumption.
fn work_from_fuel_j_m3(boat: &Boat) -> Option<f64> {
    let propulsion = &boat.input().propulsion;
    let consumption = propulsion.specific_consumption?.kg_per_joule();
    let fuel = propulsion.fuel.unwrap_or_else(|| FuelKind::usual(boat.drive().kind));
    Some(fuel.density().get::<kilogram_per_cubic_meter>() / consumption)
}

/// A range that holds the true value in nine of ten trials.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: Measure,
    /// Upper end.
    pub high: Measure,
}

/// A value that the log told.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedValue {
    /// What it is.
    pub unknown: Unknown,
    /// What the boat file says.
    pub before: Measure,
    /// What the log says.
    pub value: Measure,
    /// From the scatter of the log and what was left open: these equations on this boat.
    pub interval: Interval,
    /// With the error of the equations as well: the boat as she is.
    pub with_form: Interval,
    /// Standard error over what was known before.
    pub share_of_doubt: f64,
}

/// A value that stays as it was.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftValue {
    /// What it is.
    pub unknown: Unknown,
    /// What it stays.
    pub value: Measure,
    /// Why, as a sentence.
    pub reason: String,
}

/// A measurement beside what the equations say for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// The measurement.
    pub measurement: Measurement,
    /// Trim by the boat file as it was.
    pub trim_before: Angle,
    /// Trim with what was learned.
    pub trim_after: Angle,
    /// Measured trim, less the zero of the inclinometer where that was fitted.
    pub trim_measured: Angle,
    /// Residual of trim over the scatter.
    pub trim_residual: f64,
    /// Shaft power measured or from fuel.
    pub power_measured: Option<Power>,
    /// Shaft power by the boat file as it was.
    pub power_before: Option<Power>,
    /// Shaft power with what was learned.
    pub power_after: Option<Power>,
    /// Residual of power over the scatter.
    pub power_residual: Option<f64>,
}

impl Compared {
    /// Whether the trim was hardly counted.
    #[must_use]
    pub fn trim_is_outlier(&self) -> bool {
        self.trim_residual.abs() > OUTLIER
    }
    /// Whether the power was hardly counted.
    #[must_use]
    pub fn power_is_outlier(&self) -> bool {
        self.power_residual.is_some_and(|residual| residual.abs() > OUTLIER)
    }
}

/// A measurement that is of no use.
#[derive(Clone, Debug, PartialEq)]
pub struct Unused {
    /// Its lines.
    pub lines: String,
    /// Why, as a sentence.
    pub reason: String,
}

/// Everything that a log told.
#[derive(Clone, Debug, PartialEq)]
pub struct Learned {
    /// What it told, in the order of [`Unknown::ALL`].
    pub fitted: Vec<FittedValue>,
    /// What stays as it was.
    pub left: Vec<LeftValue>,
    /// Every measurement used.
    pub compared: Vec<Compared>,
    /// Every measurement not used.
    pub unused: Vec<Unused>,
    /// Scatter of the trims, one standard deviation of a measurement of usual error.
    pub trim_scatter: Angle,
    /// Scatter of the trims about the boat file as it was: root of the mean square.
    pub rms_before: Angle,
    /// The same after, outliers left out of neither.
    pub rms_after: Angle,
    /// Largest over least eigenvalue of the information, each unknown in units of what was known.
    pub condition_number: f64,
    /// Propulsive efficiency that power was compared with.
    pub efficiency: Ratio,
    /// Whether that was given.
    pub efficiency_is_given: bool,
}

impl Learned {
    /// The fitted value of an unknown.
    #[must_use]
    pub fn value_of(&self, unknown: Unknown) -> Option<&FittedValue> {
        self.fitted.iter().find(|fitted| fitted.unknown == unknown)
    }
}

/// Learns from the measurements of a log.
///
/// # Errors
/// A [`Refusal`] when they cannot tell anything.
pub fn learn(
    boat: &Boat,
    settings: &Settings,
    measured: &[Measurement],
    options: &Options,
) -> Result<Learned, Refusal> {
    let efficiency = options.efficiency.or(boat.input().propulsion.efficiency);
    let given = efficiency.map(|given| (given, GIVEN_EFFICIENCY_SPREAD));
    let usual = (Ratio::new::<ratio>(USUAL_EFFICIENCY.0), USUAL_EFFICIENCY.1);
    let model = Model::new(boat, settings, given.unwrap_or(usual));
    let (measurements, unused) = usable(boat, &model, measured)?;
    let model = model.over(&measurements);
    let desk = Desk::new(&model, measurements, work_from_fuel_j_m3(boat));
    let allowed = desk.allowed();
    let mut learned = desk.learned(allowed)?;
    learned.unused = unused;
    learned.efficiency = given.unwrap_or(usual).0;
    learned.efficiency_is_given = given.is_some();
    Ok(learned)
}

/// The measurements that the equations cover, and those that are of no use.
fn usable(
    boat: &Boat,
    model: &Model,
    measured: &[Measurement],
) -> Result<(Vec<Measurement>, Vec<Unused>), Refusal> {
    let down = measured.iter().find(|m| m.deflection.value > 0.0);
    if let Some(down) = down.filter(|_| boat.planes().is_none()) {
        return Err(Refusal::NoPlanes { lines: down.lines_text() });
    }
    let (used, rest): (Vec<_>, Vec<_>) =
        measured.iter().cloned().partition(|measurement| model.planes_at(measurement));
    let unused = rest.iter().map(|measurement| Unused {
        lines: measurement.lines_text(),
        reason: "too slow: the equations begin at a speed coefficient of 1".to_owned(),
    });
    if used.len() < FEWEST {
        return Err(Refusal::TooFew { count: used.len(), least: FEWEST });
    }
    let speeds = || used.iter().map(|measurement| measurement.speed);
    let slowest = speeds().fold(used[0].speed, Velocity::min);
    let fastest = speeds().fold(used[0].speed, Velocity::max);
    if fastest.value < LEAST_SPEED_RATIO * slowest.value {
        let unit = UnitChoice::default().speed;
        let text =
            |speed| format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol());
        return Err(Refusal::OneSpeed { from: text(slowest), to: text(fastest) });
    }
    Ok((used, unused.collect()))
}

/// Everything on the table while a log is read out.
struct Desk<'a> {
    model: &'a Model,
    measurements: Vec<Measurement>,
    readings: Vec<Reading>,
    has_fuel_without_use: bool,
}

impl<'a> Desk<'a> {
    fn new(model: &'a Model, measurements: Vec<Measurement>, fuel: Option<f64>) -> Self {
        let mut readings = Vec::new();
        let mut has_fuel_without_use = false;
        let base = model.at(&[0.0; COLUMNS]);
        for (place, measurement) in measurements.iter().enumerate() {
            let slopes = slopes(&base, measurement);
            let error = noise::trim_deg(measurement, &slopes);
            readings.push(Reading::trim(place, measurement, error));
            match power_w(measurement, fuel) {
                Some(power_w) => readings.push(Reading {
                    measurement: place,
                    kind: Kind::Power,
                    measured: power_w.ln(),
                    error: noise::power_log(measurement, &slopes),
                }),
                None => has_fuel_without_use |= measurement.fuel.is_some(),
            }
        }
        Self { model, measurements, readings, has_fuel_without_use }
    }

    fn fit<'b>(&'b self, fitted: &'b [Unknown]) -> Fit<'b> {
        Fit {
            model: self.model,
            measurements: &self.measurements,
            readings: &self.readings,
            fitted,
        }
    }

    /// Unknowns that the log has anything to say about.
    fn allowed(&self) -> Vec<Unknown> {
        let says = |unknown: &Unknown| self.silence(*unknown).is_none();
        Unknown::ALL.into_iter().filter(says).collect()
    }

    /// Why the log says nothing about an unknown.
    fn silence(&self, unknown: Unknown) -> Option<&'static str> {
        let is_down = |m: &Measurement| m.deflection.value > 0.0;
        let has_power = self.readings.iter().any(|reading| reading.kind == Kind::Power);
        match unknown {
            Unknown::PlaneEffectiveness if !self.measurements.iter().any(is_down) => {
                Some("the planes stay up in every run: nothing shows how strongly they act")
            }
            Unknown::Roughness if !has_power && self.has_fuel_without_use => Some(
                "fuel flow tells nothing without drive.specific_consumption in the boat file, and trim alone hardly depends on roughness",
            ),
            Unknown::Roughness if !has_power => Some(
                "the log has neither power nor fuel, and trim alone hardly depends on roughness",
            ),
            _ => None,
        }
    }

    /// Fits what can be carried; what then turns out not to be is left, and the rest fitted again.
    fn learned(&self, mut allowed: Vec<Unknown>) -> Result<Learned, Refusal> {
        let every: Vec<usize> = (0..COLUMNS).collect();
        let before = self.fit(&Unknown::ALL).jacobian(&[0.0; COLUMNS], &every);
        let mut dropped: Vec<(Unknown, String)> = Vec::new();
        loop {
            let choice = choose(&before, &allowed);
            if choice.fitted.is_empty() {
                let expected = Unknown::ALL.into_iter().filter(|u| u.is_of_the_boat());
                let expected = expected.filter(|unknown| self.silence(*unknown).is_none());
                let each = expected.map(|u| (u, expected_error(&before, &[], u)));
                return Err(Refusal::Undetermined(each.collect()));
            }
            let fit = self.fit(&choice.fitted);
            let settled = fit.run().ok_or(Refusal::NotSettled)?;
            if let Some(unknown) = self.at_limit(&choice.fitted, &settled)? {
                allowed.retain(|&other| other != unknown);
                let (least, _) = self.model.prior.limits[unknown.place()];
                let way = if settled.place[unknown.place()] <= least { "below" } else { "above" };
                dropped.push((unknown, at_limit_text(unknown, way)));
                continue;
            }
            self.contradiction(&settled)?;
            let result = Solved::of(&fit, &settled).ok_or(Refusal::NotSettled)?;
            if let Some(unknown) = result.worse_than_before() {
                allowed.retain(|&other| other != unknown);
                dropped.push((
                    unknown,
                    "the runs scatter so much that they tell no more than was known".to_owned(),
                ));
                continue;
            }
            let left = self.left(&choice.fitted, &dropped, &before);
            return Ok(self.told(&result, &settled, left, choice.condition));
        }
    }

    /// An unknown that the log drives to its limit.
    fn at_limit(&self, fitted: &[Unknown], settled: &Settled) -> Result<Option<Unknown>, Refusal> {
        let prior = &self.model.prior;
        let at_limit = |unknown: &&Unknown| {
            let (least, largest) = prior.limits[unknown.place()];
            let at = settled.place[unknown.place()];
            at <= least + 1e-3 || at >= largest - 1e-3
        };
        match fitted.iter().find(at_limit) {
            Some(&Unknown::CentreOfGravity) => {
                let at = |place| prior.measure(Unknown::CentreOfGravity, place).to_string();
                Err(Refusal::BeyondBelief { value: at(settled.place[0]), before: at(0.0) })
            }
            other => Ok(other.copied()),
        }
    }

    fn contradiction(&self, settled: &Settled) -> Result<(), Refusal> {
        let count = settled.residuals.len();
        let wild = settled.residuals.iter().filter(|residual| residual.abs() > OUTLIER).count();
        let scale = settled.scales.iter().fold(0.0, |most: f64, scale| most.max(*scale));
        if wild as f64 > MOST_OUTLIERS * count as f64 || scale > LARGEST_SCALE {
            return Err(Refusal::Contradictory { wild, count, scale });
        }
        Ok(())
    }

    /// What stays as it was, and why.
    fn left(
        &self,
        fitted: &[Unknown],
        dropped: &[(Unknown, String)],
        before: &super::information::Jacobian,
    ) -> Vec<LeftValue> {
        let reason = |unknown: Unknown| {
            if let Some(silence) = self.silence(unknown) {
                return silence.to_owned();
            }
            if let Some((_, reason)) = dropped.iter().find(|(other, _)| *other == unknown) {
                return reason.clone();
            }
            match expected_error(before, fitted, unknown) {
                _ if unknown == Unknown::InclinometerZero => {
                    "it cannot be told from the centre of gravity in this log, so that its doubt is counted in the intervals".to_owned()
                }
                Some(error) => format!(
                    "the log would leave {:.0} % of the doubt there was, and {:.0} % is the most that is worth it",
                    100.0 * error,
                    100.0 * LARGEST_SHARE
                ),
                None => "it cannot be told from the others in this log".to_owned(),
            }
        };
        let left = Unknown::ALL.into_iter().filter(|unknown| !fitted.contains(unknown));
        left.map(|unknown| LeftValue {
            unknown,
            value: self.model.prior.measure(unknown, 0.0),
            reason: reason(unknown),
        })
        .collect()
    }

    fn told(
        &self,
        solved: &Solved<'_>,
        settled: &Settled,
        left: Vec<LeftValue>,
        condition_number: f64,
    ) -> Learned {
        let prior = &self.model.prior;
        let fitted = solved.fit.fitted.iter().enumerate().map(|(index, &unknown)| {
            let at = settled.place[unknown.place()];
            let interval = |half: f64| Interval {
                low: prior.measure(unknown, at - half),
                high: prior.measure(unknown, at + half),
            };
            FittedValue {
                unknown,
                before: prior.measure(unknown, 0.0),
                value: prior.measure(unknown, at),
                interval: interval(solved.half[index]),
                with_form: interval(solved.half_with_form[index]),
                share_of_doubt: solved.errors[index],
            }
        });
        let fitted = fitted.collect();
        let compared = self.compared(settled);
        let rms = |residual_deg: &dyn Fn(&Compared) -> f64| {
            let sum: f64 = compared.iter().map(|c| residual_deg(c).powi(2)).sum();
            Angle::new::<degree>((sum / compared.len() as f64).sqrt())
        };
        let deg = |angle: Angle| angle.get::<degree>();
        let rms_before = rms(&|c| deg(c.measurement.trim) - deg(c.trim_before));
        let rms_after = rms(&|c| deg(c.trim_measured) - deg(c.trim_after));
        let trims = self.readings.iter().zip(&settled.scales).filter(|(r, _)| r.kind == Kind::Trim);
        let errors: Vec<f64> = trims.map(|(reading, scale)| reading.error * scale).collect();
        let mean = errors.iter().sum::<f64>() / errors.len() as f64;
        Learned {
            fitted,
            left,
            compared,
            unused: Vec::new(),
            trim_scatter: Angle::new::<degree>(mean),
            rms_before,
            rms_after,
            condition_number,
            efficiency: Ratio::default(),
            efficiency_is_given: false,
        }
    }

    fn compared(&self, settled: &Settled) -> Vec<Compared> {
        let mut after = settled.place;
        let zero = Unknown::InclinometerZero;
        let zero_deg = self.model.prior.value(zero, after[zero.place()]);
        after[zero.place()] = 0.0;
        let (before, after) = (self.model.at(&[0.0; COLUMNS]), self.model.at(&after));
        let each = self.measurements.iter().enumerate().map(|(place, measurement)| {
            let (before, after) = (before.predict(measurement), after.predict(measurement));
            let of = |kind: Kind| {
                let found = self.readings.iter().zip(&settled.residuals);
                found.clone().find(|(r, _)| r.measurement == place && r.kind == kind)
            };
            let power = of(Kind::Power);
            let watts = |power_w: Option<f64>| power_w.map(Power::new::<watt>);
            Compared {
                trim_before: Angle::new::<degree>(before.trim_deg),
                trim_after: Angle::new::<degree>(after.trim_deg),
                trim_measured: measurement.trim - Angle::new::<degree>(zero_deg),
                trim_residual: of(Kind::Trim).map_or(0.0, |(_, residual)| *residual),
                power_measured: watts(power.map(|(reading, _)| reading.measured.exp())),
                power_before: watts(before.power_w.filter(|_| power.is_some())),
                power_after: watts(after.power_w.filter(|_| power.is_some())),
                power_residual: power.map(|(_, residual)| *residual),
                measurement: measurement.clone(),
            }
        });
        each.collect()
    }
}

fn at_limit_text(unknown: Unknown, way: &str) -> String {
    let why = match unknown {
        Unknown::Roughness if way == "below" => {
            ": less power was measured than a smooth bottom takes, so that the propulsive efficiency is likely better than was taken"
        }
        Unknown::Roughness => {
            ": more power was measured than even a foul bottom takes, so that the propulsive efficiency is likely worse than was taken"
        }
        Unknown::PlaneEffectiveness => {
            ": check that the deflections are those of the planes, in degrees, and not a share of their travel"
        }
        _ => "",
    };
    format!("the log asks for a value {way} what can be believed{why}")
}

/// Shaft power of a measurement, measured or from its fuel.
fn power_w(measurement: &Measurement, work_from_fuel_j_m3: Option<f64>) -> Option<f64> {
    let from_fuel = || Some(measurement.fuel?.value * work_from_fuel_j_m3?);
    measurement.power.map(|power| power.value).or_else(from_fuel)
}

/// How trim and power go with speed and deflection, by differences.
fn slopes(base: &Placed<'_>, measurement: &Measurement) -> Slopes {
    let speed_m_s = measurement.speed.get::<meter_per_second>();
    let deflection_deg = measurement.deflection.get::<degree>();
    let near = Some(measurement.trim.get::<degree>());
    let at = |speed_m_s, deflection_deg| base.predict_at(speed_m_s, deflection_deg, near);
    let (step_m_s, step_deg) = (0.01 * speed_m_s, 0.5);
    let (faster, slower) =
        (at(speed_m_s + step_m_s, deflection_deg), at(speed_m_s - step_m_s, deflection_deg));
    let trim_by_deflection = if deflection_deg > step_deg {
        let (deep, shallow) =
            (at(speed_m_s, deflection_deg + step_deg), at(speed_m_s, deflection_deg - step_deg));
        (deep.trim_deg - shallow.trim_deg) / (2.0 * step_deg)
    } else {
        0.0
    };
    let power = match (faster.power_w, slower.power_w) {
        (Some(faster), Some(slower)) => (faster / slower).ln() / (2.0 * step_m_s),
        _ => 2.0 / speed_m_s,
    };
    Slopes {
        trim_by_speed: (faster.trim_deg - slower.trim_deg) / (2.0 * step_m_s),
        trim_by_deflection,
        power_by_speed: power,
    }
}

/// Half widths of the intervals of the fitted unknowns, in their spreads.
struct Solved<'a> {
    fit: &'a Fit<'a>,
    half: Vec<f64>,
    half_with_form: Vec<f64>,
    /// Standard errors.
    errors: Vec<f64>,
}

impl<'a> Solved<'a> {
    /// Intervals from the linearised covariance of the estimate.
    ///
    /// The scatter part is that of an M-estimate, κ² Σψ²/(n − p)/(mean ψ')² (JᵀJ)⁻¹
    /// with κ = 1 + p/n var ψ'/(mean ψ')², over the n readings that are no
    /// outliers (Huber 1981, Robust Statistics, section 7.6, from memory), with
    /// Student's t for n − p degrees of freedom. What was left open and the
    /// error of the equations are independent of it and add as squares.
    fn of(fit: &'a Fit<'a>, settled: &Settled) -> Option<Self> {
        let every: Vec<usize> = (0..COLUMNS).collect();
        let mut jacobian = fit.jacobian(&settled.place, &every);
        for (row, scale) in jacobian.iter_mut().zip(&settled.scales) {
            row.iter_mut().for_each(|slope| *slope /= scale);
        }
        let kept: Vec<bool> = settled.residuals.iter().map(|r| r.abs() <= OUTLIER).collect();
        let weights: Vec<f64> = kept.iter().map(|&kept| f64::from(u8::from(kept))).collect();
        let covariance = Covariance::of(&jacobian, &weights, fit.fitted)?;
        let residuals: Vec<f64> = settled
            .residuals
            .iter()
            .zip(&kept)
            .filter_map(|(residual, kept)| kept.then_some(*residual))
            .collect();
        let (count, fitted) = (residuals.len() as f64, fit.fitted.len() as f64);
        let freedom = count - fitted;
        if freedom < 1.0 {
            return None;
        }
        let loss = Loss::Biweight;
        let mean =
            |value: &dyn Fn(f64) -> f64| residuals.iter().map(|r| value(*r)).sum::<f64>() / count;
        let slope = mean(&|r| loss.slope(r));
        let spread = mean(&|r| (loss.slope(r) - slope).powi(2));
        let kappa = 1.0 + fitted / count * spread / (slope * slope);
        let pull = mean(&|r| loss.pull(r).powi(2)) * count / freedom;
        let factor = kappa * kappa * pull / (slope * slope);
        let two_sided = 0.5 * (1.0 + CONFIDENCE);
        let student = StudentsT::new(0.0, 1.0, freedom).ok()?.inverse_cdf(two_sided);
        let normal = Normal::standard().inverse_cdf(two_sided);
        let part = |index: usize| {
            let scatter = factor * covariance.scatter[(index, index)];
            (scatter, covariance.left[index], covariance.form[index])
        };
        let all = || (0..fit.fitted.len()).map(part);
        let squared = |scatter: f64, other: f64| {
            (student * student * scatter + normal * normal * other).sqrt()
        };
        Some(Self {
            fit,
            half: all().map(|(scatter, left, _)| squared(scatter, left)).collect(),
            half_with_form: all()
                .map(|(scatter, left, form)| squared(scatter, left + form))
                .collect(),
            errors: all().map(|(scatter, left, _)| (scatter + left).sqrt()).collect(),
        })
    }

    /// The unknown that came out worst, if it is known no better than before.
    fn worse_than_before(&self) -> Option<Unknown> {
        let named = self.fit.fitted.iter().zip(&self.errors);
        let worst = named.max_by(|a, b| a.1.total_cmp(b.1))?;
        (*worst.1 > 1.0).then_some(*worst.0)
    }
}
