//! The pre-planing regression over its range of speeds, beside what the lift models say there.

use serde::Serialize;
use uom::si::f64::{Angle, Force, Velocity};

use super::{Balance, LiftModel, Outcome, PrePlaning, Settings};
use crate::boat::{Boat, Fault};
use crate::field::si;
use crate::flag::Flags;

/// Steps from the lowest to the highest speed of the regression: one for each of its rows.
const STEPS: u32 = 10;

/// The regression for one boat with planes up, the lift models beside it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BeforePlaning {
    /// Speed by speed; none where the boat file does not give what the regression asks.
    pub rows: Vec<BeforePlaningRow>,
    /// What must be known of the regression.
    pub flags: Flags,
}

/// One speed, planes up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeforePlaningRow {
    /// The speed.
    #[serde(rename = "speed_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// Froude number by the cube root of the displaced volume.
    pub volume_froude_number: f64,
    /// By the regression.
    #[serde(rename = "resistance_n", serialize_with = "si")]
    pub resistance: Option<Force>,
    /// By each lift model; none where she does not run.
    #[serde(skip)]
    pub by_model: Vec<(LiftModel, Option<Force>, Outcome)>,
}

impl BeforePlaning {
    /// The regression for a boat beside some lift models, in their order.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn of(boat: &Boat, settings: &Settings, models: &[LiftModel]) -> Result<Self, Fault> {
        let Some(regression) = PrePlaning::of(boat, settings) else {
            return Ok(Self::default());
        };
        let [from, to] = regression.speeds();
        let balances: Vec<_> = models
            .iter()
            .map(|&model| (model, Balance::of(boat, &Settings { model, ..*settings })))
            .collect();
        let row = |step: u32| {
            // A hair inside, so that no rounding leaves the range.
            let share = (f64::from(step) / f64::from(STEPS)).clamp(1e-9, 1.0 - 1e-9);
            let speed = from + (to - from) * share;
            let by_model = balances.iter().map(|(model, balance)| {
                let point = balance.point(speed, Angle::default())?;
                Ok((*model, point.running.map(|r| r.resistance), point.outcome))
            });
            Ok(BeforePlaningRow {
                speed,
                volume_froude_number: (speed / from).value,
                resistance: regression.resistance(speed),
                by_model: by_model.collect::<Result<_, Fault>>()?,
            })
        };
        let rows = (0..=STEPS).map(row).collect::<Result<_, Fault>>()?;
        Ok(Self { rows, flags: regression.flags() })
    }
}
