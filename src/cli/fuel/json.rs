//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use super::FuelOutput;
use crate::field::{InSi, written};

/// The boat in all loading conditions asked about.
pub(super) struct Written<'a>(pub &'a [FuelOutput]);

written! {
    Written<'_> as all {
        "held_deflection_deg": all.0[0].answer.held.in_si(),
        "fuel": all.0[0].answer.fuel.word(),
        "fuel_density_kg_m3": all.0[0].answer.density.in_si(),
        "specific_consumption_kg_per_j": all.0[0].answer.consumption.kg_per_joule(),
        "specific_consumption_g_per_kwh": all.0[0].answer.consumption.grams_per_kilowatt_hour(),
        "rated_power_w": all.0[0].answer.rated_power.in_si(),
        "estimates": all.0[0].answer.estimates,
        "boat_estimates": all.0[0].boat().estimates(),
        "conditions": all.0,
    }
    FuelOutput as one {
        "name": one.boat().condition().name,
        "cruise_is_asked": one.answer.cruise_is_asked,
        "at_cruise": one.answer.at_cruise,
        "rows": one.answer.rows,
    }
}
