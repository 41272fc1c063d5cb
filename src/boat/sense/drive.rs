//! Questions about power and top speed, where only one of them is given.
//!
//! Where both are, the balance says whether they belong together.

use uom::si::f64::{Power, Velocity};
use uom::si::{
    mass_density::kilogram_per_cubic_meter, power::kilowatt, velocity::meter_per_second,
};

use super::figures::Figures;
use super::slip::{POWERS, SPEEDS, slips};
use super::{Draft, Guess, Question, within, write};
use crate::boat::{Boat, Measure};
use crate::physical::STANDARD_GRAVITY_M_S2;

/// Usual rated power for each tonne of a planing boat, kW.
const POWER_KW_T: [f64; 2] = [10.0, 220.0];
/// Usual top speed of a planing boat as a volume Froude number V/√(g ∇^⅓).
const FROUDE: [f64; 2] = [1.7, 7.0];

const POWER: &str = "drive.power";
const SPEED: &str = "drive.top_speed";

/// Whether the power is that of a boat of her mass; only where the top speed is estimated from it.
pub(super) fn power_against_mass(boat: &Boat, figures: &Figures) -> Option<Question> {
    let given = boat.input().drive;
    let power = given.power.filter(|_| given.top_speed.is_none())?;
    let tonnes = figures.mass_kg / 1000.0;
    let fits = |power: Power| within(power.get::<kilowatt>() / tonnes, POWER_KW_T);
    if fits(power) {
        return None;
    }
    let value = Measure::Power(power);
    let unit = boat.input().written.unit_of(POWER, value);
    let fitting = slips(value, unit, POWERS).into_iter().filter(|slip| fits(power * slip.factor));
    let guesses = fitting.map(|slip| Guess::new(slip.cause, write(POWER, &slip.write))).collect();
    let otherwise = Guess::new(
        "the power of one engine of several, or of another boat",
        "give the rated shaft power of all engines together, and the top speed if it is known",
    );
    let [low, high] = POWER_KW_T;
    let asked = Draft {
        word: "power-against-mass",
        key: POWER,
        about: "her power",
        value,
        usual: POWER_KW_T.map(|each| Measure::Power(Power::new::<kilowatt>(each * tonnes))),
        rule: format!("{low} to {high} kW for each tonne; her top speed is estimated from it"),
    };
    Some(asked.with(boat, guesses, otherwise))
}

/// Whether boats of her mass run so fast; only where the power is not given.
pub(super) fn speed_against_size(boat: &Boat, figures: &Figures) -> Option<Question> {
    let given = boat.input().drive;
    let speed = given.top_speed.filter(|_| given.power.is_none())?;
    let density = boat.water().density.get::<kilogram_per_cubic_meter>();
    let edge_m = (figures.mass_kg / density).cbrt();
    let one_m_s = (STANDARD_GRAVITY_M_S2 * edge_m).sqrt();
    let fits = |speed: Velocity| within(speed.get::<meter_per_second>() / one_m_s, FROUDE);
    if fits(speed) {
        return None;
    }
    let value = Measure::Speed(speed);
    let unit = boat.input().written.unit_of(SPEED, value);
    let fitting = slips(value, unit, SPEEDS).into_iter().filter(|slip| fits(speed * slip.factor));
    let guesses = fitting.map(|slip| Guess::new(slip.cause, write(SPEED, &slip.write))).collect();
    let otherwise = Guess::new(
        "another boat's speed, or a boat that is not made to plane",
        "measure it in calm water loaded as described, and give the power, which tells more",
    );
    let [low, high] = FROUDE;
    let asked = Draft {
        word: "speed-against-size",
        key: SPEED,
        about: "her top speed",
        value,
        usual: FROUDE
            .map(|froude| Measure::Speed(Velocity::new::<meter_per_second>(froude * one_m_s))),
        rule: format!("a volume Froude number of {low} to {high} at her mass"),
    };
    Some(asked.with(boat, guesses, otherwise))
}
