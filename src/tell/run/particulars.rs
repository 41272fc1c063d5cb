//! Which boat, with which values, and what was estimated.

use uom::si::f64::{Angle, Force, Length, Mass, Power, Velocity};
use uom::si::{
    angle::degree, kinematic_viscosity::square_meter_per_second, length::meter,
    mass_density::kilogram_per_cubic_meter,
};

use super::RunText;
use crate::balance::LiftModel;
use crate::boat::{Boat, DriveKind, Measure, Stations, WeightInput, degrees};
use crate::document::{Block, Fact};
use crate::hydro::warp;
use crate::input::BoatFile;
use crate::units::{
    ForceUnit, LengthUnit, MassUnit, PowerUnit, SpeedUnit, UnitChoice, UnitSystem, format_angle,
    number_with_decimals,
};

/// What marks a value that a rule supplied.
const ESTIMATED: &str = "ESTIMATED";
/// What marks a value that was taken from the stations of the bottom.
const FROM_STATIONS: &str = "from stations";

/// The values that she was run with, each in the units asked for and in those of the other system.
#[must_use]
pub fn particulars(run: &RunText<'_>) -> Vec<Block> {
    vec![Block::Terms(facts(run))]
}

/// The same with the file they come from, for who prints them without a document around them.
#[must_use]
pub fn particulars_from(run: &RunText<'_>, file: &BoatFile) -> Vec<Block> {
    let mut facts = facts(run);
    facts.push(Fact::new("From", origin(file)));
    vec![Block::Terms(facts)]
}

fn facts(run: &RunText<'_>) -> Vec<Fact> {
    let boat = run.boat;
    let unit = UnitPair::of(run.units);
    let loading = (boat.conditions().len() > 1).then(|| Fact::new("Loading", loading(boat)));
    let all = [
        ("Bottom", bottom(boat, &unit)),
        ("Weight", weight(boat, &unit)),
        ("Centre", centre_of_gravity(boat, &unit)),
        ("Drive", drive(boat, &unit)),
        ("Water", water(boat)),
        ("Planes", planes(boat, &unit)),
        ("Method", method(run)),
    ];
    let mut facts: Vec<Fact> = loading.into_iter().collect();
    facts.extend(all.map(|(name, value)| Fact::new(name, value)));
    if let Some(stations) = boat.stations() {
        let after_bottom = facts.iter().position(|fact| fact.name == "Weight").unwrap_or_default();
        facts.insert(after_bottom, Fact::new("Stations", of_stations(stations, &unit)));
    }
    facts
}

/// The list of stations, and what of it the equations take beside beam and deadrise.
fn of_stations(stations: &Stations, unit: &UnitPair) -> String {
    format!(
        "{} of {}, CRC-32 {}: deadrise {} at the transom and {} at mid-chine length ({} forward), which is {} a beam; chine to keel {}, so that the trim counts {} more for the lift and {} more for the drag",
        stations.rows().len(),
        stations.source(),
        stations.checksum(),
        tenth(stations.transom_deadrise()),
        tenth(stations.deadrise()),
        unit.length(stations.chine_length() / 2.0),
        tenth(stations.warp_per_beam()),
        hundredth(stations.chine_to_keel()),
        hundredth(effective(stations, warp::trim_for_lift_deg)),
        hundredth(effective(stations, warp::trim_for_drag_deg)),
    )
}

/// What the warp adds to the trim.
fn effective(stations: &Stations, rule: fn(f64, f64) -> f64) -> Angle {
    Angle::new::<degree>(rule(0.0, degrees(stations.chine_to_keel())))
}

fn tenth(angle: Angle) -> String {
    format!("{} deg", number_with_decimals(degrees(angle), 1))
}

fn hundredth(angle: Angle) -> String {
    format!("{} deg", number_with_decimals(degrees(angle), 2))
}

/// The unit asked for, and that of the other system beside it.
struct UnitPair {
    speed: [SpeedUnit; 2],
    force: [ForceUnit; 2],
    power: [PowerUnit; 2],
    length: [LengthUnit; 2],
    small_length: [LengthUnit; 2],
    mass: [MassUnit; 2],
}

impl UnitPair {
    fn of(units: UnitChoice) -> Self {
        let other: UnitChoice = match units.mass {
            MassUnit::Pound => UnitSystem::Marine.into(),
            MassUnit::Kilogram => UnitSystem::Imperial.into(),
        };
        Self {
            speed: [units.speed, other.speed],
            force: [units.force, other.force],
            power: [units.power, other.power],
            length: [units.length, other.length],
            small_length: [units.small_length, other.small_length],
            mass: [units.mass, other.mass],
        }
    }

    fn length(&self, length: Length) -> String {
        both(self.length.map(|unit| (unit.value(length), unit.symbol())), 3)
    }

    fn small_length(&self, length: Length) -> String {
        both(self.small_length.map(|unit| (unit.value(length), unit.symbol())), 3)
    }

    fn mass(&self, mass: Mass) -> String {
        both(self.mass.map(|unit| (unit.value(mass), unit.symbol())), 4)
    }

    fn force(&self, force: Force) -> String {
        both(self.force.map(|unit| (unit.value(force), unit.symbol())), 4)
    }

    fn power(&self, power: Power) -> String {
        both(self.power.map(|unit| (unit.value(power), unit.symbol())), 3)
    }

    fn speed(&self, speed: Velocity) -> String {
        both(self.speed.map(|unit| (unit.value(speed), unit.symbol())), 3)
    }
}

/// `2800 kg (6173 lb)`; once when both units are the same.
fn both([(first, unit), (second, other)]: [(f64, &str); 2], significant: usize) -> String {
    let first = format!("{} {unit}", significant_digits(first, significant));
    if unit == other {
        first
    } else {
        format!("{first} ({} {other})", significant_digits(second, significant))
    }
}

/// A number with so many significant digits, whole digits all kept.
pub(super) fn significant_digits(value: f64, significant: usize) -> String {
    let mut whole_digits = 1;
    let mut rest = value.abs();
    while rest >= 10.0 {
        rest /= 10.0;
        whole_digits += 1;
    }
    number_with_decimals(value, significant.saturating_sub(whole_digits))
}

/// The value with the mark behind it when a rule supplied it, or when it was taken from stations.
fn marked(boat: &Boat, key: &str, value: String) -> String {
    if boat.is_estimated(key) {
        format!("{value} {ESTIMATED}")
    } else if boat.stations_of(key).is_some() {
        format!("{value} {FROM_STATIONS}")
    } else {
        value
    }
}

/// The loading condition, and which others there are.
fn loading(boat: &Boat) -> String {
    let condition = boat.condition();
    let about = condition.about.as_ref().map_or_else(String::new, |about| format!(": {about}"));
    let others = boat.conditions().iter().filter(|other| other.name != condition.name);
    let others: Vec<String> = others.map(|other| format!("`{}`", other.name)).collect();
    format!("{}{about} (others, with --condition: {})", condition.name, others.join(", "))
}

fn bottom(boat: &Boat, unit: &UnitPair) -> String {
    let hull = boat.hull();
    let length = marked(boat, "hull.bottom_length", unit.length(hull.bottom_length));
    format!(
        "length {length}, chine beam {}, deadrise {}",
        marked(boat, "hull.chine_beam", unit.length(hull.chine_beam)),
        marked(boat, "hull.deadrise", deadrise(boat))
    )
}

/// As it was written, or to a tenth where it was computed from stations.
fn deadrise(boat: &Boat) -> String {
    let deadrise = boat.hull().deadrise;
    match boat.stations_of("hull.deadrise") {
        Some(_) => tenth(deadrise),
        None => format_angle(deadrise),
    }
}

fn weight(boat: &Boat, unit: &UnitPair) -> String {
    let weight = boat.weight();
    let from = match &boat.input().weight {
        WeightInput::Loads(loads) => format!(", the sum of {} loads", loads.len()),
        WeightInput::Totals { .. } => String::new(),
    };
    format!("mass {}, weight {}{from}", unit.mass(weight.mass), unit.force(weight.force()))
}

fn centre_of_gravity(boat: &Boat, unit: &UnitPair) -> String {
    let weight = boat.weight();
    let lcg =
        marked(boat, "weight.lcg", format!("{} forward of the transom", unit.length(weight.lcg)));
    let vcg = marked(boat, "weight.vcg", format!("{} above the keel", unit.length(weight.vcg)));
    let lcg = format!("{lcg}{}", trial_shift(boat, unit));
    let side = if weight.tcg < Length::new::<meter>(0.0) { "port" } else { "starboard" };
    let tcg = if weight.tcg.get::<meter>().abs() < 5e-4 {
        "on the centreline".to_owned()
    } else {
        format!("{} to {side}", unit.length(weight.tcg.abs()))
    };
    format!("{lcg}, {vcg}, {tcg}")
}

/// How far a sea trial moved the centre of gravity from where the weights have it.
fn trial_shift(boat: &Boat, unit: &UnitPair) -> String {
    let shift = boat.lcg_shift();
    if shift == Length::default() {
        return String::new();
    }
    let way = if shift > Length::default() { "forward" } else { "aft" };
    let trial = boat.input().trial.as_ref().and_then(|trial| trial.log.as_deref());
    let log = trial.map_or_else(String::new, |log| format!(", {log}"));
    format!(
        " (the sea trial{log} put it {} {way} of where the loads have it)",
        unit.length(shift.abs())
    )
}

fn drive(boat: &Boat, unit: &UnitPair) -> String {
    let drive = boat.drive();
    let kind = match drive.kind {
        Some(DriveKind::Outboard) => "outboard, ",
        Some(DriveKind::Sterndrive) => "sterndrive, ",
        Some(DriveKind::Shaft) => "shaft, ",
        Some(DriveKind::Pod) => "pod, ",
        Some(DriveKind::Jet) => "jet, ",
        None => "",
    };
    let power = drive.power.map_or_else(String::new, |power| format!("{}, ", unit.power(power)));
    let speed = marked(boat, "drive.top_speed", unit.speed(drive.top_speed));
    let angle = format!("{} to the keel", format_angle(drive.thrust_angle));
    let angle = marked(boat, "drive.thrust_angle", angle);
    let side = if drive.thrust_offset < Length::new::<meter>(0.0) { "above" } else { "below" };
    let offset = marked(
        boat,
        "drive.thrust_height",
        format!("{} {side} the centre of gravity", unit.length(drive.thrust_offset.abs())),
    );
    format!("{kind}{power}top speed {speed}; thrust at {angle}, {offset}")
}

fn water(boat: &Boat) -> String {
    let density = boat.water().density.get::<kilogram_per_cubic_meter>();
    let viscosity = boat.water().kinematic_viscosity.get::<square_meter_per_second>();
    let text = format!("{density:.1} kg/m^3, kinematic viscosity {:.4} mm^2/s", viscosity * 1e6);
    let temperature = boat.estimates().iter().find(|e| e.key == "water.temperature");
    temperature.map_or_else(
        || text.clone(),
        |estimate| format!("{text}, at {} {ESTIMATED}", estimate.value),
    )
}

fn planes(boat: &Boat, unit: &UnitPair) -> String {
    let effect = match boat.input().plane_effectiveness {
        Some(factor) => format!(
            "{}acting {} times as strongly as published (boat file)",
            if boat.planes().is_some() { "; " } else { "; any fitted are taken as " },
            Measure::Number(factor)
        ),
        None => String::new(),
    };
    let Some(pair) = boat.planes() else { return format!("none fitted{effect}") };
    let size = format!(
        "two, span {} each, chord {}",
        unit.small_length(pair.span),
        unit.small_length(pair.chord)
    );
    format!("{size}{effect}")
}

fn method(run: &RunText<'_>) -> String {
    let settings = &run.settings;
    let on = |on: bool| if on { "on" } else { "off" };
    let lift = match settings.model {
        LiftModel::Savitsky1964 => String::new(),
        LiftModel::Shuford1958 => format!("lift by {} (from memory), ", settings.model.word()),
    };
    format!(
        "{} balance, {lift}{} friction, roughness allowance {}, hump factor {}, whisker spray {}",
        settings.method.word(),
        settings.friction_line.word(),
        allowance(run),
        on(settings.hump_factor),
        on(settings.whisker_spray)
    )
}

/// The roughness allowance, and whose it is when the boat file gives it.
fn allowance(run: &RunText<'_>) -> String {
    let settings = &run.settings;
    let value = Measure::Number(settings.allowance_for(run.boat));
    let of_the_file = settings.correlation_allowance.is_none() && run.boat.roughness().is_some();
    if of_the_file { format!("{value} (of this boat)") } else { value.to_string() }
}

fn origin(file: &BoatFile) -> String {
    format!(
        "{}, CRC-32 {}, by planewright {}",
        file.name,
        file.checksum(),
        env!("CARGO_PKG_VERSION")
    )
}
