//! The second opinion as JSON.

use serde::Serialize;
use uom::si::{force::newton, length::meter, velocity::meter_per_second};

use super::Run;
use crate::balance::series::SeriesRow;
use crate::boat::degrees;
use crate::hydro::series_62::Outside;

/// What the tank series says at a speed, planes up, beside what is computed; null where either says nothing.
#[derive(Serialize)]
pub(super) struct SecondOpinionRecord<'a> {
    condition: &'a str,
    source: &'static str,
    speed_m_s: f64,
    volume_froude_number: f64,
    trim_deg: Option<f64>,
    resistance_n: Option<f64>,
    wetted_length_m: Option<f64>,
    equivalent_lcg_m: Option<f64>,
    computed_outcome: &'static str,
    computed_trim_deg: Option<f64>,
    computed_resistance_n: Option<f64>,
    computed_wetted_length_m: Option<f64>,
    trim_apart_deg: Option<f64>,
    resistance_apart_share: Option<f64>,
    wetted_length_apart_m: Option<f64>,
    outside: Vec<OutsideRecord>,
}

/// What of the boat lies outside the models.
#[derive(Serialize)]
struct OutsideRecord {
    quantity: &'static str,
    value: f64,
    tested_from: f64,
    tested_to: f64,
}

impl From<&Outside> for OutsideRecord {
    fn from(outside: &Outside) -> Self {
        Self {
            quantity: outside.quantity,
            value: outside.value,
            tested_from: *outside.tested.start(),
            tested_to: *outside.tested.end(),
        }
    }
}

impl<'a> SecondOpinionRecord<'a> {
    pub fn all(run: &'a Run) -> Vec<Self> {
        let condition = run.boat().condition().name.as_str();
        run.second_opinion.rows.iter().map(|row| Self::of(condition, row)).collect()
    }

    fn of(condition: &'a str, row: &SeriesRow) -> Self {
        let series = row.series.as_ref().ok();
        let computed = row.computed.running;
        let outside = row.series.as_ref().err().map(Vec::as_slice).unwrap_or_default();
        Self {
            condition,
            source: "radojcic-1991",
            speed_m_s: row.speed().get::<meter_per_second>(),
            volume_froude_number: row.volume_froude_number,
            trim_deg: series.map(|says| degrees(says.trim)),
            resistance_n: series.map(|says| says.resistance.get::<newton>()),
            wetted_length_m: series.map(|says| says.wetted_length.get::<meter>()),
            equivalent_lcg_m: series.map(|says| says.equivalent_lcg.get::<meter>()),
            computed_outcome: row.computed.outcome.word(),
            computed_trim_deg: computed.map(|running| degrees(running.trim)),
            computed_resistance_n: computed.map(|running| running.resistance.get::<newton>()),
            computed_wetted_length_m: row.computed_wetted_length().map(|l| l.get::<meter>()),
            trim_apart_deg: row.trim_apart().map(degrees),
            resistance_apart_share: row.resistance_apart(),
            wetted_length_apart_m: row.wetted_length_apart().map(|l| l.get::<meter>()),
            outside: outside.iter().map(OutsideRecord::from).collect(),
        }
    }
}
