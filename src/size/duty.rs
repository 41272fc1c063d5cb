//! Duties: where each one holds, what it asks for, and how it reads.

use uom::si::f64::{Length, Mass, Velocity};
use uom::si::{
    angle::degree,
    length::meter,
    mass::kilogram,
    ratio::{percent, ratio},
    torque::newton_meter,
    velocity::meter_per_second,
};

use super::demand::{Demand, DemandKind};
use super::loaded::Loaded;
use crate::balance::sweep::planing_start;
use crate::boat::measure::plain_number;
use crate::boat::{Duty, ListCause};
use crate::sentence::{Piece, Sentence, said};
use crate::units::UnitChoice;

/// Steps of the range of a duty at which it is looked at.
pub(crate) const RANGE_STEPS: u8 = 40;

/// The heeling moment of a list duty, positive when starboard goes down.
#[must_use]
pub fn list_moment_n_m(cause: ListCause) -> f64 {
    match cause {
        ListCause::Moment(moment) => moment.get::<newton_meter>(),
        ListCause::OffCentre { mass, distance } => {
            mass.get::<kilogram>()
                * crate::physical::STANDARD_GRAVITY_M_S2
                * distance.get::<meter>()
        }
    }
}

/// A mass off the centreline and its distance, each in whole units of the last place that anybody weighs or measures a person to.
#[must_use]
pub fn off_centre_texts(mass: Mass, distance: Length, units: UnitChoice) -> [String; 2] {
    let rounded = |value: f64, places: f64, unit| {
        format!("{} {unit}", plain_number((value * places).round() / places))
    };
    [
        rounded(units.mass.value(mass), 10.0, units.mass.symbol()),
        rounded(units.length.value(distance.abs()), 100.0, units.length.symbol()),
    ]
}

/// The condition of a duty as a sentence for a terminal.
#[must_use]
pub fn sentence(duty: &Duty, units: UnitChoice) -> String {
    duty_said(duty, units).to_string()
}

/// The condition of a duty as a sentence.
#[must_use]
pub fn duty_said(duty: &Duty, units: UnitChoice) -> Sentence {
    let written = |value: f64, unit| Piece::quantity(plain_number(value), unit);
    let speed = |speed: Velocity| written(units.speed.value(speed), units.speed.symbol());
    let between = |from: Velocity, to: Velocity| match from == to {
        true => said!["at ", speed(from)],
        false => said!["from ", speed(from), " to ", speed(to)],
    };
    match *duty {
        Duty::Relief { at_least, over } => {
            let off = written(at_least.get::<degree>(), "deg");
            let place = match over {
                None => ", at the hump".into(),
                Some([from, to]) => said![" ", between(from, to)],
            };
            said!["at least ", off, " off the trim with planes up", place]
        }
        Duty::HumpTrim { at_most, from, to } => {
            let at_most = written(at_most.get::<degree>(), "deg");
            said!["trim at most ", at_most, " ", between(from, to)]
        }
        Duty::LeastResistance { within, speed: at } => said![
            "resistance within ",
            written(within.get::<percent>(), "%"),
            " of the least that any pair reaches at ",
            speed(at),
        ],
        Duty::PorpoisingMargin { margin, up_to } => said![
            "trim at least ",
            written(margin.get::<degree>(), "deg"),
            " under the porpoising limit up to ",
            speed(up_to),
        ],
        Duty::List { cause: ListCause::Moment(moment), speed: at } => said![
            "a heeling moment of ",
            written(units.moment.value(moment), units.moment.symbol()),
            " levelled at ",
            speed(at),
        ],
        Duty::List { cause: ListCause::OffCentre { mass, distance }, speed: at } => {
            let [heavy, far] = off_centre_texts(mass, distance, units);
            let side = if distance.get::<meter>() < 0.0 { "to port" } else { "to starboard" };
            said![format!("{heavy} at {far} {side} levelled at "), speed(at)]
        }
    }
}

/// Speeds evenly over a range, both ends included.
pub(crate) fn range(from: f64, to: f64) -> impl Iterator<Item = f64> {
    (0..=RANGE_STEPS).map(move |step| from + (to - from) * f64::from(step) / f64::from(RANGE_STEPS))
}

/// The range of speeds a duty holds over in a loading condition, m/s; one value twice where it is a single speed.
pub(crate) fn speeds_m_s(duty: &Duty, own: &Loaded<'_>) -> [f64; 2] {
    let metres_per_second = |speed: Velocity| speed.get::<meter_per_second>();
    let planing_start_m_s = planing_start(own.boat).get::<meter_per_second>();
    match *duty {
        Duty::Relief { over: None, .. } => [own.hump_speed_m_s(); 2],
        Duty::Relief { over: Some(range), .. } => range.map(metres_per_second),
        Duty::HumpTrim { from, to, .. } => [from, to].map(metres_per_second),
        Duty::PorpoisingMargin { up_to, .. } => [planing_start_m_s, metres_per_second(up_to)],
        Duty::LeastResistance { speed, .. } | Duty::List { speed, .. } => {
            [metres_per_second(speed); 2]
        }
    }
}

/// What a duty demands at each speed; resistance limits are filled in later.
pub(crate) fn demand(duty: &Duty, place: usize) -> Demand {
    let kind = match *duty {
        Duty::Relief { at_least, .. } => {
            DemandKind::Relief { at_least_deg: at_least.get::<degree>() }
        }
        Duty::HumpTrim { at_most, .. } => DemandKind::Trim { at_most_deg: at_most.get::<degree>() },
        Duty::PorpoisingMargin { margin, .. } => {
            DemandKind::Margin { margin_deg: margin.get::<degree>() }
        }
        Duty::LeastResistance { within, .. } => {
            DemandKind::Resistance { at_most_n: 1.0 + within.get::<ratio>() }
        }
        Duty::List { cause, .. } => DemandKind::List { moment_n_m: list_moment_n_m(cause) },
    };
    Demand { duty: place, kind }
}
