//! How much of the engines' power reaches the water, and what it costs in fuel.

use uom::si::f64::{Force, MassDensity, Power, Ratio, Velocity};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::{force::newton, power::watt, ratio::ratio};

use super::estimate::Estimate;
use super::input::DriveKind;
use super::measure::{Measure, Named, given};
use crate::units::SpecificConsumption;

/// Propulsion as described, beside where the thrust acts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PropulsionInput {
    /// Share of the shaft power that does work on the boat when she planes.
    pub efficiency: Option<Ratio>,
    /// The same by speed, when it is known: it then holds at every speed.
    pub efficiency_curve: Vec<EfficiencyAt>,
    /// Thrust at rest with full power.
    pub bollard_pull: Option<Force>,
    /// What the engines burn.
    pub fuel: Option<FuelKind>,
    /// Fuel burnt for each unit of work at the shaft.
    pub specific_consumption: Option<SpecificConsumption>,
}

impl PropulsionInput {
    /// Its values by their keys.
    pub(super) fn measures(&self) -> Named {
        given([
            ("propulsive_efficiency", self.efficiency.map(Into::into)),
            ("bollard_pull", self.bollard_pull.map(Into::into)),
            ("specific_consumption", self.specific_consumption.map(Into::into)),
        ])
    }
}

/// One point of a curve of propulsive efficiency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EfficiencyAt {
    /// The speed.
    pub speed: Velocity,
    /// Effective power over shaft power there.
    pub efficiency: Ratio,
}

impl EfficiencyAt {
    /// Its values by their keys.
    pub(super) fn measures(&self) -> Named {
        given([
            ("speed", Some(self.speed.into())),
            ("propulsive_efficiency", Some(self.efficiency.into())),
        ])
    }
}

/// What the engines burn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FuelKind {
    /// Petrol.
    Petrol,
    /// Diesel.
    Diesel,
}

impl FuelKind {
    /// Words, in the order of the kinds.
    pub const WORDS: &[&str] = &["petrol", "diesel"];

    /// The word in a boat file and in every output.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Petrol => "petrol",
            Self::Diesel => "diesel",
        }
    }

    /// What engines of a drive usually burn: outboards and legs petrol, others diesel. Common practice, no source.
    #[must_use]
    pub const fn usual(drive: Option<DriveKind>) -> Self {
        match drive {
            Some(DriveKind::Shaft | DriveKind::Pod | DriveKind::Jet) => Self::Diesel,
            Some(DriveKind::Outboard | DriveKind::Sterndrive) | None => Self::Petrol,
        }
    }

    /// Density at 15 °C: in the middle of what the standards admit, EN 228 (720 to 775 kg/m³) and EN 590 (820 to 845 kg/m³). From memory.
    #[must_use]
    pub fn density(self) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(match self {
            Self::Petrol => 745.0,
            Self::Diesel => 835.0,
        })
    }
}

/// Propulsive efficiency of a planing boat: 0.52, likely 0.45 to 0.60. Common practice, no source.
#[must_use]
pub fn usual_efficiency() -> Estimate {
    let [low, value, high] =
        [0.45, 0.52, 0.60].map(|share| Measure::Share(Ratio::new::<ratio>(share)));
    let rule =
        "0.50 to 0.55 is usual of planing boats, with clean bottoms and well-chosen propellers"
            .to_owned();
    Estimate { key: "drive.propulsive_efficiency", value, low, high, rule }
}

/// Least and largest propulsive efficiency that is believed of a planing boat. Common practice, no source.
pub const BELIEVABLE_EFFICIENCY: [f64; 2] = [0.25, 0.75];
/// How far off an efficiency from power and top speed may be, as a share of it. A judgement, no source: the resistance is known to about a tenth, what her engines give and her top speed to some 5 % each.
const IMPLIED_EFFICIENCY_DOUBT: f64 = 0.15;

/// Propulsive efficiency that resistance and power imply at top speed, η_D = R V/P; held within what can be believed.
#[must_use]
pub fn implied_efficiency(asked: Ratio) -> Estimate {
    let [least, largest] = BELIEVABLE_EFFICIENCY;
    let percent = |share: f64| format!("{:.0} %", 100.0 * share);
    let share = asked.get::<ratio>();
    let used = share.clamp(least, largest);
    let mut rule =
        "what drive.power and drive.top_speed ask for: resistance there with planes up, \
        times speed, over power; 50 to 55 % is usual where both are measured rather than claimed"
            .to_owned();
    if !believable_efficiency(asked) {
        rule.push_str(&format!(
            "; that is {}, which is not believed of a propeller: {} is used. Check power, top speed \
             and mass",
            percent(share),
            percent(used)
        ));
    }
    let [low, value, high] = [1.0 - IMPLIED_EFFICIENCY_DOUBT, 1.0, 1.0 + IMPLIED_EFFICIENCY_DOUBT]
        .map(|factor| Measure::Share(Ratio::new::<ratio>(factor * used)));
    Estimate { key: "drive.propulsive_efficiency", value, low, high, rule }
}

/// Whether an efficiency is believed of a planing boat.
#[must_use]
pub fn believable_efficiency(efficiency: Ratio) -> bool {
    let [least, largest] = BELIEVABLE_EFFICIENCY;
    (least..=largest).contains(&efficiency.get::<ratio>())
}

/// Thrust at rest over that at top speed, at the least. A judgement, no source: a propeller pushes more the slower it goes.
const LEAST_BOLLARD_SHARE: f64 = 1.25;

/// Thrust at rest from power: 55 N for each kW, likely 40 to 80; never less than a quarter above the thrust at top speed. Common practice, no source.
#[must_use]
pub fn usual_bollard_pull(power: Power, at_top_speed: Force) -> Estimate {
    let [low, value, high] = [40.0, 55.0, 80.0].map(|newtons_per_kilowatt| {
        let pull = Force::new::<newton>(newtons_per_kilowatt * power.get::<watt>() / 1000.0);
        Measure::Force(pull.max(LEAST_BOLLARD_SHARE * at_top_speed))
    });
    let rule =
        "55 N for each kW of drive.power (9 lbf for each hp), usual of propellers chosen for \
        planing speeds; no less than a quarter above the thrust at top speed"
            .to_owned();
    Estimate { key: "drive.bollard_pull", value, low, high, rule }
}

/// Specific consumption by fuel: petrol 300 g/kWh, likely 260 to 360; diesel 220, likely 200 to 250. Common practice, no source.
#[must_use]
pub fn usual_consumption(given: Option<FuelKind>, drive: Option<DriveKind>) -> Estimate {
    let fuel = given.unwrap_or_else(|| FuelKind::usual(drive));
    let mut grams = match fuel {
        FuelKind::Petrol => [260.0, 300.0, 360.0],
        FuelKind::Diesel => [200.0, 220.0, 250.0],
    };
    let mut rule = format!("usual of {} engines near their best load", fuel.word());
    if given.is_none() {
        grams = [200.0, grams[1], 360.0];
        rule.push_str("; drive.fuel is not given");
    }
    let [low, value, high] = grams.map(|grams| {
        Measure::Consumption(SpecificConsumption::from_grams_per_kilowatt_hour(grams))
    });
    Estimate { key: "drive.specific_consumption", value, low, high, rule }
}
