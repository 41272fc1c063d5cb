//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::f64::Length;
use uom::si::{
    angle::degree, force::newton, length::meter, mass_density::kilogram_per_cubic_meter,
    power::watt, ratio::ratio, velocity::meter_per_second, volume::cubic_meter,
    volume_rate::cubic_meter_per_second,
};

use super::Answered;
use crate::behaviour::fuel::{Burn, Row};
use crate::boat::Estimate;
use crate::flag::Flags;

pub(super) fn object(all: &[Answered]) -> Answer<'_> {
    let first = &all[0];
    Answer {
        held_deflection_deg: first.answer.held.get::<degree>(),
        fuel: first.answer.fuel.word(),
        fuel_density_kg_m3: first.answer.density.get::<kilogram_per_cubic_meter>(),
        specific_consumption_kg_per_j: first.answer.consumption.kg_per_joule(),
        specific_consumption_g_per_kwh: first.answer.consumption.grams_per_kilowatt_hour(),
        rated_power_w: first.answer.rated_power.map(|power| power.get::<watt>()),
        estimates: &first.answer.estimates,
        boat_estimates: first.boat().estimates(),
        conditions: all.iter().map(ConditionRecord::of).collect(),
    }
}

#[derive(Serialize)]
pub(super) struct Answer<'a> {
    held_deflection_deg: f64,
    fuel: &'static str,
    fuel_density_kg_m3: f64,
    specific_consumption_kg_per_j: f64,
    specific_consumption_g_per_kwh: f64,
    rated_power_w: Option<f64>,
    estimates: &'a [Estimate],
    boat_estimates: &'a [Estimate],
    conditions: Vec<ConditionRecord<'a>>,
}

#[derive(Serialize)]
struct ConditionRecord<'a> {
    name: &'a str,
    cruise_is_asked: bool,
    at_cruise: RowRecord,
    rows: Vec<RowRecord>,
}

impl<'a> ConditionRecord<'a> {
    fn of(one: &'a Answered) -> Self {
        Self {
            name: &one.boat().condition().name,
            cruise_is_asked: one.answer.cruise_is_asked,
            at_cruise: RowRecord::of(&one.answer.at_cruise),
            rows: one.answer.rows.iter().map(RowRecord::of).collect(),
        }
    }
}

#[derive(Serialize)]
struct RowRecord {
    speed_m_s: f64,
    propulsive_efficiency: f64,
    planes_up: Option<BurnRecord>,
    held: Option<BurnRecord>,
    best: Option<BurnRecord>,
    held_change: Option<f64>,
    best_change: Option<f64>,
    held_saving: Option<&'static str>,
    best_saving: Option<&'static str>,
}

impl RowRecord {
    fn of(row: &Row) -> Self {
        let change = |burn: Option<Burn>| Some(burn?.more_than(&row.up?).get::<ratio>());
        let saving = |burn: Option<Burn>| Some(burn?.saving(&row.up?).word());
        let record = |burn: &Option<Burn>| burn.as_ref().map(BurnRecord::of);
        Self {
            speed_m_s: row.speed.get::<meter_per_second>(),
            propulsive_efficiency: row.efficiency.get::<ratio>(),
            planes_up: record(&row.up),
            held: record(&row.held),
            best: record(&row.best),
            held_change: change(row.held),
            best_change: change(row.best),
            held_saving: saving(row.held),
            best_saving: saving(row.best),
        }
    }
}

#[derive(Serialize)]
struct BurnRecord {
    deflection_deg: f64,
    trim_deg: f64,
    resistance_n: f64,
    side_friction_estimate_n: f64,
    effective_power_w: f64,
    shaft_power_w: f64,
    fuel_m3_per_s: f64,
    fuel_m3_per_m: f64,
    #[serde(flatten)]
    flags: Flags,
}

impl BurnRecord {
    fn of(burn: &Burn) -> Self {
        let metre = Length::new::<meter>(1.0);
        Self {
            deflection_deg: burn.deflection.get::<degree>(),
            trim_deg: burn.trim.get::<degree>(),
            resistance_n: burn.resistance.get::<newton>(),
            side_friction_estimate_n: burn.side_friction.get::<newton>(),
            effective_power_w: burn.effective_power.get::<watt>(),
            shaft_power_w: burn.shaft_power.get::<watt>(),
            fuel_m3_per_s: burn.flow.get::<cubic_meter_per_second>(),
            fuel_m3_per_m: burn.over(metre).get::<cubic_meter>(),
            flags: burn.flags,
        }
    }
}
