//! Fuel: specific consumption, and the units in which a flow and a use by distance are shown.

use uom::si::f64::{Length, Volume, VolumeRate};
use uom::si::{length::meter, volume::cubic_meter, volume_rate::cubic_meter_per_second};

use super::choice::UnitChoice;
use super::factor::{
    KG_PER_JOULE_IN_GRAM_PER_KILOWATT_HOUR, M_PER_MILE, M_PER_NAUTICAL_MILE, M3_PER_LITRE,
    M3_PER_US_GALLON, S_PER_HOUR,
};
use super::output_unit::{MassUnit, SpeedUnit};
use super::parse::parse_si;
use super::quantity_error::QuantityError;
use super::table::Dimension;

/// Mass of fuel burnt for each unit of work at the shaft.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct SpecificConsumption {
    kg_per_joule: f64,
}

impl SpecificConsumption {
    /// From kilograms for each joule.
    #[must_use]
    pub const fn from_kg_per_joule(kg_per_joule: f64) -> Self {
        Self { kg_per_joule }
    }

    /// From grams for each kilowatt hour.
    #[must_use]
    pub fn from_grams_per_kilowatt_hour(grams: f64) -> Self {
        Self { kg_per_joule: grams * KG_PER_JOULE_IN_GRAM_PER_KILOWATT_HOUR }
    }

    /// Kilograms for each joule.
    #[must_use]
    pub const fn kg_per_joule(self) -> f64 {
        self.kg_per_joule
    }

    /// Grams for each kilowatt hour.
    #[must_use]
    pub fn grams_per_kilowatt_hour(self) -> f64 {
        self.kg_per_joule / KG_PER_JOULE_IN_GRAM_PER_KILOWATT_HOUR
    }
}

/// Reads a specific consumption: g/kWh or lb/(hp h).
///
/// # Errors
/// If the text is not a finite number with a unit of specific consumption.
pub fn parse_specific_consumption(text: &str) -> Result<SpecificConsumption, QuantityError> {
    parse_si(text, Dimension::SpecificConsumption).map(SpecificConsumption::from_kg_per_joule)
}

/// Units in which fuel is shown: they follow those of mass and speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FuelUnits {
    gallons: bool,
    speed: SpeedUnit,
}

impl FuelUnits {
    /// US gallons beside pounds, else litres; for each nautical mile beside knots, statute mile
    /// beside miles per hour, else kilometre.
    #[must_use]
    pub fn of(units: UnitChoice) -> Self {
        Self { gallons: units.mass == MassUnit::Pound, speed: units.speed }
    }

    /// Unit of a flow.
    #[must_use]
    pub const fn flow_symbol(self) -> &'static str {
        if self.gallons { "US gal/h" } else { "L/h" }
    }

    /// Unit of a use by distance.
    #[must_use]
    pub const fn by_distance_symbol(self) -> &'static str {
        match (self.gallons, self.speed) {
            (false, SpeedUnit::Knot) => "L/nmi",
            (false, SpeedUnit::MilePerHour) => "L/mi",
            (false, _) => "L/km",
            (true, SpeedUnit::Knot) => "US gal/nmi",
            (true, SpeedUnit::MilePerHour) => "US gal/mi",
            (true, _) => "US gal/km",
        }
    }

    /// The distance that fuel is counted for, in words.
    #[must_use]
    pub const fn distance_name(self) -> &'static str {
        match self.speed {
            SpeedUnit::Knot => "nautical mile",
            SpeedUnit::MilePerHour => "mile",
            _ => "kilometre",
        }
    }

    fn m3(self) -> f64 {
        if self.gallons { M3_PER_US_GALLON } else { M3_PER_LITRE }
    }

    /// A flow as a number of its unit.
    #[must_use]
    pub fn flow(self, flow: VolumeRate) -> f64 {
        flow.get::<cubic_meter_per_second>() * S_PER_HOUR / self.m3()
    }

    /// Fuel used over a distance as a number of its unit.
    #[must_use]
    pub fn by_distance(self, fuel: Volume, distance: Length) -> f64 {
        let one_m = match self.speed {
            SpeedUnit::Knot => M_PER_NAUTICAL_MILE,
            SpeedUnit::MilePerHour => M_PER_MILE,
            _ => 1000.0,
        };
        fuel.get::<cubic_meter>() / self.m3() / (distance.get::<meter>() / one_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::UnitSystem;
    use approx::assert_relative_eq;

    /// 0.4 lb/(hp h) is 243.3 g/kWh in tables of engine makers' units; by NIST SP 811 (2008)
    /// 453.59237 g / 0.745 699 87 kWh = 608.277 g/kWh for 1 lb/(hp h). From memory.
    #[test]
    fn published_pounds_for_each_horsepower_hour() {
        let read = |text| parse_specific_consumption(text).unwrap().grams_per_kilowatt_hour();
        assert_relative_eq!(read("1 lb/(hp h)"), 608.277, max_relative = 1e-6);
        assert_relative_eq!(read("0.4 lb/hph"), 243.311, max_relative = 1e-5);
        assert_relative_eq!(read("243 g/kWh"), 243.0, max_relative = 1e-14);
        assert_relative_eq!(read("243 g/(kW h)"), 243.0, max_relative = 1e-14);
    }

    /// A US gallon is 231 cubic inches, 3.785 412 L (NIST SP 811, 2008; from memory).
    #[test]
    fn published_flows_and_uses_by_distance() {
        let litre_an_hour = VolumeRate::new::<cubic_meter_per_second>(1e-3 / 3600.0);
        let [marine, metric, imperial] =
            [UnitSystem::Marine, UnitSystem::Metric, UnitSystem::Imperial]
                .map(|system| FuelUnits::of(system.into()));
        assert_relative_eq!(marine.flow(litre_an_hour), 1.0, max_relative = 1e-14);
        assert_relative_eq!(imperial.flow(litre_an_hour), 1.0 / 3.785_412, max_relative = 1e-6);
        let (litre, metres) = (Volume::new::<cubic_meter>(1e-3), Length::new::<meter>(1852.0));
        assert_relative_eq!(marine.by_distance(litre, metres), 1.0, max_relative = 1e-14);
        assert_relative_eq!(metric.by_distance(litre, metres), 1.0 / 1.852, max_relative = 1e-14);
        // 1852 m are 1.150 779 miles.
        assert_relative_eq!(
            imperial.by_distance(litre, metres),
            1.0 / 3.785_412 / 1.150_779,
            max_relative = 1e-6
        );
        let symbols = [marine, metric, imperial].map(FuelUnits::by_distance_symbol);
        assert_eq!(symbols, ["L/nmi", "L/km", "US gal/mi"]);
    }

    #[test]
    fn error_a_unit_of_another_kind() {
        let error = parse_specific_consumption("240 g").unwrap_err();
        assert_eq!(
            error.to_string(),
            "`g` is a unit of mass, and a specific consumption is wanted here"
        );
        assert_eq!(
            error.help(),
            "write for example `5 g/kWh`; a specific consumption is a number with g/kWh or lb/(hp h)"
        );
    }
}
