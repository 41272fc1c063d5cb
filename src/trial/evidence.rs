//! Everything on the table while a log is read out: what may be fitted, what is, and what stands against it.

use super::confidence::Intervals;
use super::fit::{Fit, Settled};
use super::information::{Jacobian, choose, expected_error};
use super::learned::{Learned, OUTLIER};
use super::model::Model;
use super::pair::Measurement;
use super::reading::{Kind, Reading, readings};
use super::refusal::Refusal;
use super::unknown::{COLUMNS, Unknown};

/// Scatter from which the readings contradict each other, in usual errors.
const LARGEST_SCALE: f64 = 4.0;
/// Largest share of readings that may be outliers.
const MOST_OUTLIERS: f64 = 0.3;

/// The measurements of a log beside the model that they are read with.
pub(super) struct Evidence<'a> {
    pub model: &'a Model,
    pub measurements: Vec<Measurement>,
    pub readings: Vec<Reading>,
    has_fuel_without_use: bool,
}

/// Unknowns that were fitted and then had to be left, with the reason.
pub(super) type Dropped = Vec<(Unknown, String)>;

impl<'a> Evidence<'a> {
    pub fn new(model: &'a Model, measurements: Vec<Measurement>, fuel: Option<f64>) -> Self {
        let readings = readings(model, &measurements, fuel);
        let has_fuel_without_use =
            fuel.is_none() && measurements.iter().any(|m| m.fuel.is_some() && m.power.is_none());
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
    pub fn allowed(&self) -> Vec<Unknown> {
        let says = |unknown: &Unknown| self.silence(*unknown).is_none();
        Unknown::ALL.into_iter().filter(says).collect()
    }

    /// Why the log says nothing about an unknown.
    pub fn silence(&self, unknown: Unknown) -> Option<&'static str> {
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
    pub fn learned(&self, mut allowed: Vec<Unknown>) -> Result<Learned, Refusal> {
        let every: Vec<usize> = (0..COLUMNS).collect();
        let before = self.fit(&Unknown::ALL).jacobian(&[0.0; COLUMNS], &every);
        let mut dropped = Dropped::new();
        loop {
            let choice = choose(&before, &allowed);
            if choice.fitted.is_empty() {
                return Err(self.undetermined(&before));
            }
            let fit = self.fit(&choice.fitted);
            let settled = fit.run().ok_or(Refusal::NotSettled)?;
            if let Some((unknown, reason)) = self.at_limit(&choice.fitted, &settled)? {
                allowed.retain(|&other| other != unknown);
                dropped.push((unknown, reason));
                continue;
            }
            contradiction(&settled)?;
            let intervals = Intervals::of(&fit, &settled).ok_or(Refusal::NotSettled)?;
            if let Some(unknown) = intervals.worse_than_before() {
                allowed.retain(|&other| other != unknown);
                let reason = "the runs scatter so much that they tell no more than was known";
                dropped.push((unknown, reason.to_owned()));
                continue;
            }
            let left = self.left(&choice.fitted, &dropped, &before);
            return Ok(self.told(&intervals, &settled, left, choice.condition));
        }
    }

    fn undetermined(&self, before: &Jacobian) -> Refusal {
        let spoken_of =
            |unknown: &Unknown| unknown.is_of_the_boat() && self.silence(*unknown).is_none();
        let each = Unknown::ALL.into_iter().filter(spoken_of);
        Refusal::Undetermined(each.map(|u| (u, expected_error(before, &[], u))).collect())
    }

    /// An unknown that the log drives to its limit, and what that means.
    fn at_limit(
        &self,
        fitted: &[Unknown],
        settled: &Settled,
    ) -> Result<Option<(Unknown, String)>, Refusal> {
        let prior = &self.model.prior;
        for &unknown in fitted {
            let (least, largest) = prior.limits[unknown.index()];
            let at = settled.place[unknown.index()];
            if at > least + 1e-3 && at < largest - 1e-3 {
                continue;
            }
            if unknown == Unknown::CentreOfGravity {
                let text = |place| prior.measure(unknown, place).to_string();
                return Err(Refusal::BeyondBelief { value: text(at), before: text(0.0) });
            }
            let way = if at <= least + 1e-3 { "below" } else { "above" };
            return Ok(Some((unknown, at_limit_text(unknown, way))));
        }
        Ok(None)
    }
}

fn contradiction(settled: &Settled) -> Result<(), Refusal> {
    let count = settled.residuals.len();
    let wild = settled.residuals.iter().filter(|residual| residual.abs() > OUTLIER).count();
    let scale = settled.scales.iter().fold(0.0, |most: f64, scale| most.max(*scale));
    if wild as f64 > MOST_OUTLIERS * count as f64 || scale > LARGEST_SCALE {
        return Err(Refusal::Contradictory { wild, count, scale });
    }
    Ok(())
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
