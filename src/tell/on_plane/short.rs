//! Getting on plane in short: what it was computed with, and each way of using the planes in sentences.

use uom::si::angle::degree;
use uom::si::ratio::percent;

use super::super::words::{digits, speed_text};
use super::OnPlaneText;
use crate::behaviour::from_rest::Way;
use crate::behaviour::on_plane::{
    ADDED_MASS_SHARE, ENGINE_RUN_UP_S, Ending, FullPowerRun, LikelyReach, RESISTANCE_DOUBT,
    TightestKind, in_unit,
};
use crate::behaviour::thrust::EfficiencyBasis;
use crate::boat::measure::plain_number;
use crate::document::{Block, Fact};

/// Why the times are a range.
pub(super) fn why_a_range(one: &OnPlaneText<'_>) -> String {
    let [quick, slow] = ENGINE_RUN_UP_S.map(plain_number);
    let doubt = 100.0 * RESISTANCE_DOUBT;
    let estimated = match one.answer.thrust.estimates().count() {
        0 => "the resistance at its likely ends",
        _ => "the thrust and the resistance at their likely ends",
    };
    format!(
        "The times are a range: {estimated} (resistance {doubt:.0} % either way, a judgement from the scatter of tank tests), \
         and {quick} to {slow} s for the engines to come to full power (common practice, no source). \
         Compare the ways with each other rather than with a stopwatch."
    )
}

/// `planes held at 7.5 deg`.
pub(super) fn way_text(one: &OnPlaneText<'_>, way: Way) -> String {
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
pub fn inputs(one: &OnPlaneText<'_>) -> Vec<Block> {
    let (answer, units) = (&one.answer, one.units);
    let mut facts = super::super::words::loading(one.boat);
    facts.push(Fact::new("Planes", one.pair.sentence(units)));
    let thrust = &answer.thrust;
    let efficiency = thrust.efficiency();
    let mark = |key: &str| {
        if thrust.estimates().any(|e| e.key == key) { " ESTIMATED" } else { "" }
    };
    let force = |force| format!("{} {}", digits(units.force.value(force), 3), units.force.symbol());
    let bollard = format!("{}{}", force(thrust.bollard_pull()), mark("drive.bollard_pull"));
    let law = if efficiency.basis() == EfficiencyBasis::Curve {
        format!("by the efficiencies of the boat file, never above the bollard pull, {bollard}")
    } else {
        let top = one.boat.drive().top_speed;
        format!(
            "it falls from the bollard pull, {bollard}, along a smooth curve (common practice, no source) to {} at {}, where {:.0} % of the power reaches the water{}",
            force(thrust.at(top)),
            speed_text(top, units),
            efficiency.when_planing().get::<percent>(),
            mark("drive.propulsive_efficiency")
        )
    };
    facts.push(Fact::new(
        "Thrust",
        format!(
            "{} {} of rated power; {law}",
            digits(units.power.value(answer.power), 3),
            units.power.symbol()
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

/// Each way of using the planes in sentences, and the top speed beside that of the boat file.
#[must_use]
pub fn in_short(one: &OnPlaneText<'_>) -> Vec<Block> {
    let way = |run: &FullPowerRun| Fact::new(way_text(one, run.way), sentences(one, run));
    vec![
        Block::Section("In short".to_owned()),
        Block::Terms(one.answer.runs.iter().map(way).collect()),
        Block::Paragraph(why_a_range(one)),
        Block::Paragraph(against_the_file(one)),
    ]
}

pub(super) fn sentences(one: &OnPlaneText<'_>, run: &FullPowerRun) -> String {
    let units = one.units;
    let mut text = match (&run.likely, run.reaches) {
        (Some(likely), true) => format!("{}. ", reached(one, likely)),
        (Some(likely), false) => {
            format!("{}At the best {}. ", not_reached(one, run), reached(one, likely))
        }
        (None, _) => not_reached(one, run),
    };
    if let Some(tightest) = &run.tightest {
        let place = match tightest.kind {
            TightestKind::Peak => "Tightest at",
            TightestKind::AtHump => "Ever less is left on the way; at the hump,",
        };
        let left = tightest.margin().get::<percent>();
        let spare = if left >= 0.0 {
            let power = tightest.power_margin();
            format!(
                "she uses {:.0} % of the thrust; {} {} are to spare",
                100.0 - left,
                digits(units.power.value(power), 2),
                units.power.symbol()
            )
        } else {
            format!("she would need {:.0} % of the thrust", 100.0 - left)
        };
        text.push_str(&format!("{place} {}: {spare}. ", speed_text(tightest.speed, one.units)));
    }
    if let Some(least) = run.least_planing_speed {
        text.push_str(&format!("Slowest steady planing {}. ", speed_text(least, one.units)));
    }
    text.push_str(&top(one, run));
    text
}

/// The target with the likely time and distance.
fn reached(one: &OnPlaneText<'_>, likely: &LikelyReach) -> String {
    let unit = one.units.length;
    format!(
        "{} from rest in {} and {}{}",
        speed_text(one.answer.target, one.units),
        in_unit(&likely.seconds(), "s"),
        in_unit(&likely.lengths(|length| unit.value(length)), unit.symbol()),
        match likely.most {
            Some(_) => "",
            // Whoever reaches the top speed of the file is over the hump.
            None if !one.boat.is_estimated("drive.top_speed") => {
                "; at the worst it takes long, and the thrust is only just enough"
            }
            None => ", AT THE WORST NOT AT ALL",
        }
    )
}

fn not_reached(one: &OnPlaneText<'_>, run: &FullPowerRun) -> String {
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

fn top(one: &OnPlaneText<'_>, run: &FullPowerRun) -> String {
    if let Some(held) = run.could_hold {
        return format!(
            "Once past that she could hold up to {}; she does not get there by herself.",
            speed_text(held, one.units)
        );
    }
    match (run.reaches, run.stops_at, run.ending) {
        (true, Some(stop), Ending::ThrustSpent) => {
            let beside = match one.boat.is_estimated("drive.top_speed") {
                false => String::new(),
                true => format!(
                    ", {} by the rule of thumb that stands for her top speed elsewhere: measure it and give drive.top_speed",
                    speed_text(one.boat.drive().top_speed, one.units)
                ),
            };
            format!("Thrust meets resistance at {}{beside}.", speed_text(stop, one.units))
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
fn against_the_file(one: &OnPlaneText<'_>) -> String {
    let given = one.boat.drive().top_speed;
    let estimated = one.boat.is_estimated("drive.top_speed");
    let source = if estimated { "estimated for the boat file" } else { "of the boat file" };
    let basis = one.answer.thrust.efficiency().basis();
    let Some(found) = one.answer.runs.first().and_then(FullPowerRun::top_speed) else {
        return format!("The top speed {source} is {}.", speed_text(given, one.units));
    };
    let found_text = speed_text(found, one.units);
    if basis == EfficiencyBasis::Implied {
        return format!(
            "Top speed: planes up {found_text}; that of the boat file, {}, is what the thrust was made to fit, with the loads as they are listed.",
            speed_text(given, one.units)
        );
    }
    let fit = one.answer.fitting_efficiency.map_or_else(String::new, |share| {
        format!(
            " Planes up, thrust and resistance would meet there at a propulsive efficiency of {:.0} %.",
            share.get::<percent>()
        )
    });
    let more = 100.0 * ((found / given).value - 1.0);
    let side = if more >= 0.0 { "above" } else { "below" };
    format!(
        "Top speed: planes up {found_text}, {:.0} % {side} that {source}, {}.{fit} A measured top speed is the better of the two.",
        more.abs(),
        speed_text(given, one.units)
    )
}
