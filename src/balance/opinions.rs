//! The same points by each lift model: how far the answers lie apart for the theory alone.

use uom::si::f64::Force;
use uom::si::force::newton;

use super::sweep::{Set, sweep};
use super::{Balance, LiftModel, Point, Running, Settings};
use crate::boat::{Boat, Fault, degrees};

/// The points by another lift model than the one chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct Opinion {
    /// The other model.
    pub model: LiftModel,
    /// For each deflection: the points by speed.
    pub sets: Vec<Vec<Point>>,
}

impl Opinion {
    /// What every lift model but that of the settings says about the points of some sets.
    ///
    /// # Errors
    /// As [`Balance::point`]: the 1964 cases know only the lift of their own paper.
    pub fn others(boat: &Boat, settings: &Settings, sets: &[Set]) -> Result<Vec<Self>, Fault> {
        let others = LiftModel::ALL.into_iter().filter(|&model| model != settings.model);
        others.map(|model| Self::of(boat, &Settings { model, ..*settings }, sets)).collect()
    }

    fn of(boat: &Boat, settings: &Settings, sets: &[Set]) -> Result<Self, Fault> {
        let balance = Balance::of(boat, settings);
        let again = |set: &Set| {
            let speeds: Vec<_> = set.points.iter().map(|point| point.speed).collect();
            sweep(&balance, &speeds, set.deflection)
        };
        Ok(Self { model: settings.model, sets: sets.iter().map(again).collect::<Result<_, _>>()? })
    }
}

/// How far the models lie apart at a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Of the running trim, degrees.
    pub trim_deg: f64,
    /// Of the mean wetted length, beams.
    pub wetted_length_ratio: f64,
    /// Of the resistance.
    pub resistance: Force,
    /// Of the resistance, over the mean of the models.
    pub resistance_share: f64,
}

impl Spread {
    /// Largest less least over the models; none where the boat does not run by one of them.
    #[must_use]
    pub fn of(points: &[&Point]) -> Option<Self> {
        let running: Vec<Running> = points.iter().map(|p| p.running).collect::<Option<_>>()?;
        let apart = |value: &dyn Fn(&Running) -> f64| {
            let values = running.iter().map(value);
            let [least, most] = values
                .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| {
                    [low.min(x), high.max(x)]
                });
            most - least
        };
        let newtons = |r: &Running| r.resistance.get::<newton>();
        let mean_n = running.iter().map(newtons).sum::<f64>() / running.len() as f64;
        let resistance_n = apart(&newtons);
        Some(Self {
            trim_deg: apart(&|r| degrees(r.trim)),
            wetted_length_ratio: apart(&|r| r.wetted_length_ratio),
            resistance: Force::new::<newton>(resistance_n),
            resistance_share: resistance_n / mean_n,
        })
    }
}

/// The points of one deflection by every model, the chosen one first.
#[derive(Clone, Debug)]
pub struct Beside<'a> {
    /// Each model with its points.
    pub models: Vec<(LiftModel, &'a [Point])>,
}

impl<'a> Beside<'a> {
    /// The set at an index of the list, with what the opinions say about it.
    #[must_use]
    pub fn of(chosen: LiftModel, sets: &'a [Set], opinions: &'a [Opinion], index: usize) -> Self {
        let chosen = (chosen, sets[index].points.as_slice());
        let others = opinions.iter().map(|o| (o.model, o.sets[index].as_slice()));
        Self { models: std::iter::once(chosen).chain(others).collect() }
    }

    /// One spread for each speed.
    #[must_use]
    pub fn spreads(&self) -> Vec<Option<Spread>> {
        let speeds = self.models[0].1.len();
        (0..speeds)
            .map(|at| {
                let points: Vec<_> = self.models.iter().map(|(_, points)| &points[at]).collect();
                Spread::of(&points)
            })
            .collect()
    }
}
