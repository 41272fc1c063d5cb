//! Getting on plane in short: what it was computed with, and each way of using the planes in sentences.

use uom::si::f64::{Time, Velocity};
use uom::si::ratio::percent;
use uom::si::{angle::degree, time::second};

use super::super::words::{digits, speed_text};
use super::Told;
use crate::behaviour::from_rest::Way;
use crate::behaviour::on_plane::{ADDED_MASS_SHARE, Ending, HumpKind, Run};
use crate::boat::measure::plain_number;
use crate::document::{Block, Fact};
use crate::units::number_with_decimals;

/// What the times do not count.
const LEAST_TIMES: &str = "The times are the least there can be: full thrust from the first moment, at the trims of steady running. Real engines take seconds to run up, and their propellers slip; compare the ways with each other rather than with a stopwatch.";

/// `planes held at 7.5 deg`.
fn way_text(one: &Told<'_>, way: Way) -> String {
    match way {
        Way::Up if one.answer.pair.is_none() => "Without planes".to_owned(),
        Way::Up => "Planes up".to_owned(),
        Way::Held(deflection) => {
            format!("Planes held at {} deg", plain_number(deflection.get::<degree>()))
        }
        Way::Best => "Planes used best".to_owned(),
    }
}

/// What it was computed with: loading, planes, thrust, mass, and the speed to reach.
#[must_use]
pub fn inputs(one: &Told<'_>) -> Vec<Block> {
    let (answer, units) = (&one.answer, one.units);
    let mut facts = super::super::words::loading(one.boat);
    facts.push(Fact::new("Planes", one.pair.sentence(units)));
    let thrust = &answer.thrust;
    let efficiency = thrust.efficiency();
    let mark = |key: &str| {
        if thrust.estimates().any(|e| e.key == key) { " ESTIMATED" } else { "" }
    };
    let of_power = if efficiency.is_curve() {
        "by the curve of the boat file".to_owned()
    } else {
        let hump = efficiency.at(Velocity::default()).get::<percent>();
        let planing = efficiency.at(answer.target * 100.0).get::<percent>();
        format!(
            "{planing:.0} % when planing (Cv 2), {hump:.0} % up to Cv 1{}",
            mark("drive.propulsive_efficiency")
        )
    };
    facts.push(Fact::new(
        "Thrust",
        format!(
            "{} {} of rated power; of it reaches the water {of_power}; never above the bollard pull, {} {}{}",
            digits(units.power.value(answer.power), 3),
            units.power.symbol(),
            digits(units.force.value(thrust.bollard_pull()), 3),
            units.force.symbol(),
            mark("drive.bollard_pull")
        ),
    ));
    let mass = one.boat.weight().mass;
    facts.push(Fact::new(
        "Mass",
        format!(
            "{} {}, and {} % more for the water that moves with her (5 to 10 % is usual)",
            digits(units.mass.value(mass), 4),
            units.mass.symbol(),
            100.0 * ADDED_MASS_SHARE
        ),
    ));
    let why = if answer.target_is_asked {
        "as asked"
    } else {
        "past the hump, and planing by Cv/sqrt(wetted length in beams), a mark on a gradual change"
    };
    facts.push(Fact::new("To reach", format!("{}, {why}", speed_text(answer.target, units))));
    vec![Block::Terms(facts)]
}

fn seconds(time: Time) -> String {
    number_with_decimals(time.get::<second>(), 1)
}

/// Each way of using the planes in sentences, and the top speed beside that of the boat file.
#[must_use]
pub fn in_short(one: &Told<'_>) -> Vec<Block> {
    let way = |run: &Run| Fact::new(way_text(one, run.way), sentences(one, run));
    vec![
        Block::Section("In short".to_owned()),
        Block::Terms(one.answer.runs.iter().map(way).collect()),
        Block::Paragraph(LEAST_TIMES.to_owned()),
        Block::Paragraph(against_the_file(one)),
    ]
}

fn sentences(one: &Told<'_>, run: &Run) -> String {
    let units = one.units;
    let mut text = match (run.time, run.distance) {
        (Some(time), Some(distance)) => format!(
            "{} from rest in {} s and {} {}. ",
            speed_text(one.answer.target, one.units),
            seconds(time),
            digits(units.length.value(distance), 2),
            units.length.symbol()
        ),
        _ => not_reached(one, run),
    };
    if let Some(hump) = &run.hump {
        let place = match hump.kind {
            HumpKind::Thrust => "Tightest at",
            HumpKind::Trim => "No peak on the way; the bow rides highest at",
        };
        let left = hump.margin().get::<percent>();
        let spare = if left >= 0.0 {
            let power = hump.power_margin(one.answer.power);
            format!(
                "she uses {:.0} % of the thrust; {} {} are to spare",
                100.0 - left,
                digits(units.power.value(power), 2),
                units.power.symbol()
            )
        } else {
            format!("she would need {:.0} % of the thrust", 100.0 - left)
        };
        text.push_str(&format!("{place} {}: {spare}. ", speed_text(hump.speed, one.units)));
    }
    if let Some(least) = run.least_planing_speed {
        text.push_str(&format!("Slowest steady planing {}. ", speed_text(least, one.units)));
    }
    text.push_str(&top(one, run));
    text
}

fn not_reached(one: &Told<'_>, run: &Run) -> String {
    let target = speed_text(one.answer.target, one.units);
    match (run.stops_at, run.ending) {
        (None, Ending::NoBalance(outcome)) => {
            format!("she finds no balance: {} ", outcome.meaning())
        }
        (Some(stop), Ending::NoBalance(outcome)) => format!(
            "SHE DOES NOT REACH {target} IN BALANCE: from {} on, {} ",
            speed_text(stop, one.units),
            outcome.meaning()
        ),
        (Some(stop), _) => format!(
            "SHE DOES NOT REACH {target}: at {} the resistance has grown to the thrust. ",
            speed_text(stop, one.units)
        ),
        (None, _) => format!("no time to {target} was found. "),
    }
}

fn top(one: &Told<'_>, run: &Run) -> String {
    if let Some(held) = run.could_hold {
        return format!(
            "Once past that she could hold up to {}; she does not get there by herself.",
            speed_text(held, one.units)
        );
    }
    match (run.reaches, run.stops_at, run.ending) {
        (true, Some(stop), Ending::ThrustSpent) => {
            format!("Thrust meets resistance at {}.", speed_text(stop, one.units))
        }
        (true, Some(stop), Ending::NoBalance(outcome)) => {
            format!("Above {}: {}", speed_text(stop, one.units), outcome.meaning())
        }
        (true, None, _) => {
            "The thrust exceeds the resistance at every speed that was looked at.".to_owned()
        }
        _ => String::new(),
    }
}

/// The top speed of the boat file beside that of the thrust.
fn against_the_file(one: &Told<'_>) -> String {
    let given = one.boat.drive().top_speed;
    let estimated = one.boat.estimates().iter().any(|e| e.key == "drive.top_speed");
    let source = if estimated { "estimated for the boat file" } else { "of the boat file" };
    let fit = one.answer.fitting_efficiency.map_or_else(String::new, |share| {
        format!(
            " Planes up, thrust and resistance would meet there at a propulsive efficiency of {:.0} %.",
            share.get::<percent>()
        )
    });
    let Some(found) = one.answer.runs.first().and_then(Run::top_speed) else {
        return format!("The top speed {source} is {}.{fit}", speed_text(given, one.units));
    };
    let more = 100.0 * ((found / given).value - 1.0);
    let side = if more >= 0.0 { "above" } else { "below" };
    format!(
        "Top speed: planes up {}, {:.0} % {side} that {source}, {}.{fit} A measured top speed is the better of the two.",
        speed_text(found, one.units),
        more.abs(),
        speed_text(given, one.units)
    )
}
