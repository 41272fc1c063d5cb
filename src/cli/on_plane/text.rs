//! The answer as text for a person.

use uom::si::f64::{Time, Velocity};
use uom::si::ratio::percent;
use uom::si::velocity::meter_per_second;
use uom::si::{angle::degree, time::second};

use super::Answered;
use crate::behaviour::from_rest::{Basis, Way};
use crate::behaviour::on_plane::{ADDED_MASS_SHARE, Brief, Effect, Ending, HumpKind, Row, Run};
use crate::boat::measure::plain_number;
use crate::cli::charts_text;
use crate::cli::pair::{digits, head, named};
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::cli::table::{Column, aligned, fixed, table};
use crate::flag::{Flag, Flags};
use crate::units::number_with_decimals;

/// Rows of the table by speed at most.
const ROWS: usize = 24;

/// All of it, one loading condition after the other.
pub(super) fn report(all: &[Answered], screen: Screen) -> String {
    let blocks: Vec<String> = all.iter().map(|one| block(one, screen)).collect();
    format!("{}\n{}", blocks.join("\n\n"), paragraph("", CAUTION))
}

fn block(one: &Answered, screen: Screen) -> String {
    let mut text = head(&one.file, screen);
    text.push_str(&inputs(one));
    text.push_str(&format!("\n{}\n", screen.heading("In short")));
    for run in &one.answer.runs {
        let who = format!("  {}: ", way_text(one, run.way));
        text.push_str(&paragraph(&who, &sentences(one, run)));
    }
    text.push_str(&paragraph("  ", &against_the_file(one)));
    text.push_str(&format!("\n{}\n", screen.heading("Full power from rest")));
    text.push_str(&by_way(one, screen));
    text.push_str(&format!("\n{}\n", screen.heading("By speed")));
    text.push_str(&by_speed(one, screen));
    text.push_str(&effects(one, screen));
    text.push_str(&notes(one, screen));
    text
}

/// `planes held at 7.5 deg`.
pub(super) fn way_text(one: &Answered, way: Way) -> String {
    match way {
        Way::Up if one.answer.pair.is_none() => "Without planes".to_owned(),
        Way::Up => "Planes up".to_owned(),
        Way::Held(deflection) => {
            format!("Planes held at {} deg", plain_number(deflection.get::<degree>()))
        }
        Way::Best => "Planes used best".to_owned(),
    }
}

/// `held at 7.5 deg`, in a table.
fn short_name(way: Way) -> String {
    match way {
        Way::Up => "up".to_owned(),
        Way::Held(deflection) => {
            format!("held at {} deg", plain_number(deflection.get::<degree>()))
        }
        Way::Best => "used best".to_owned(),
    }
}

fn inputs(one: &Answered) -> String {
    let (answer, units) = (&one.answer, one.units);
    let mut text = named("Planes", &one.pair.sentence(units));
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
    text.push_str(&named(
        "Thrust",
        &format!(
            "{} {} of rated power; of it reaches the water {of_power}; never above the bollard pull, {} {}{}",
            digits(units.power.value(answer.power), 3),
            units.power.symbol(),
            digits(units.force.value(thrust.bollard_pull()), 3),
            units.force.symbol(),
            mark("drive.bollard_pull")
        ),
    ));
    let mass = one.boat().weight().mass;
    text.push_str(&named(
        "Mass",
        &format!(
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
    text.push_str(&named("To reach", &format!("{}, {why}", speed_text(one, answer.target))));
    text
}

fn speed_text(one: &Answered, speed: Velocity) -> String {
    let unit = one.units.speed;
    format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol())
}

fn seconds(time: Time) -> String {
    number_with_decimals(time.get::<second>(), 1)
}

fn sentences(one: &Answered, run: &Run) -> String {
    let units = one.units;
    let mut text = match (run.time, run.distance) {
        (Some(time), Some(distance)) => format!(
            "{} from rest in {} s and {} {}. ",
            speed_text(one, one.answer.target),
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
        text.push_str(&format!("{place} {}: {spare}. ", speed_text(one, hump.speed)));
    }
    if let Some(least) = run.least_planing_speed {
        text.push_str(&format!("Slowest steady planing {}. ", speed_text(one, least)));
    }
    text.push_str(&top(one, run));
    text
}

fn not_reached(one: &Answered, run: &Run) -> String {
    let target = speed_text(one, one.answer.target);
    match (run.stops_at, run.ending) {
        (None, Ending::NoBalance(outcome)) => {
            format!("she finds no balance: {} ", outcome.meaning())
        }
        (Some(stop), Ending::NoBalance(outcome)) => format!(
            "SHE DOES NOT REACH {target} IN BALANCE: from {} on, {} ",
            speed_text(one, stop),
            outcome.meaning()
        ),
        (Some(stop), _) => format!(
            "SHE DOES NOT REACH {target}: at {} the resistance has grown to the thrust. ",
            speed_text(one, stop)
        ),
        (None, _) => format!("no time to {target} was found. "),
    }
}

fn top(one: &Answered, run: &Run) -> String {
    if let Some(held) = run.could_hold {
        return format!(
            "Once past that she could hold up to {}; she does not get there by herself.",
            speed_text(one, held)
        );
    }
    match (run.reaches, run.stops_at, run.ending) {
        (true, Some(stop), Ending::ThrustSpent) => {
            format!("Thrust meets resistance at {}.", speed_text(one, stop))
        }
        (true, Some(stop), Ending::NoBalance(outcome)) => {
            format!("Above {}: {}", speed_text(one, stop), outcome.meaning())
        }
        (true, None, _) => {
            "The thrust exceeds the resistance at every speed that was looked at.".to_owned()
        }
        _ => String::new(),
    }
}

/// The top speed of the boat file beside that of the thrust.
fn against_the_file(one: &Answered) -> String {
    let given = one.boat().drive().top_speed;
    let estimated = one.boat().estimates().iter().any(|e| e.key == "drive.top_speed");
    let source = if estimated { "estimated for the boat file" } else { "of the boat file" };
    let fit = one.answer.fitting_efficiency.map_or_else(String::new, |share| {
        format!(
            " Planes up, thrust and resistance would meet there at a propulsive efficiency of {:.0} %.",
            share.get::<percent>()
        )
    });
    let Some(found) = one.answer.runs.first().and_then(Run::top_speed) else {
        return format!("The top speed {source} is {}.{fit}", speed_text(one, given));
    };
    let more = 100.0 * ((found / given).value - 1.0);
    let side = if more >= 0.0 { "above" } else { "below" };
    format!(
        "Top speed: planes up {}, {:.0} % {side} that {source}, {}.{fit} A measured top speed is the better of the two.",
        speed_text(one, found),
        more.abs(),
        speed_text(one, given)
    )
}

fn by_way(one: &Answered, screen: Screen) -> String {
    let (runs, units) = (&one.answer.runs, one.units);
    let speed = |of: &dyn Fn(&Run) -> Option<Velocity>| {
        let values: Vec<_> = runs.iter().map(|run| of(run).map(|v| units.speed.value(v))).collect();
        fixed(&values, 1)
    };
    let numbers =
        |of: &dyn Fn(&Run) -> Option<f64>| -> Vec<Option<f64>> { runs.iter().map(of).collect() };
    let hump_share = numbers(&|run| Some(100.0 - run.hump.as_ref()?.margin().get::<percent>()));
    let spare =
        numbers(&|run| Some(units.power.value(run.hump.as_ref()?.power_margin(one.answer.power))));
    let unit = units.speed.symbol();
    table(
        &[
            Column::words("planes", runs.iter().map(|run| short_name(run.way)).collect()),
            Column::numbers("time", "s", fixed(&numbers(&|r| Some(r.time?.get::<second>())), 1)),
            Column::numbers(
                "distance",
                units.length.symbol(),
                fixed(&numbers(&|r| Some(units.length.value(r.distance?))), 0),
            ),
            Column::numbers("hump at", unit, speed(&|r| Some(r.hump.as_ref()?.speed))),
            Column::numbers("thrust used", "there, %", fixed(&hump_share, 0)),
            Column::numbers("to spare", units.power.symbol(), fixed(&spare, 0)),
            Column::numbers(
                "slowest",
                &format!("planing, {unit}"),
                speed(&|r| r.least_planing_speed),
            ),
            Column::numbers("top speed", unit, speed(&|r| r.top_speed())),
        ],
        screen,
    )
}

/// The rows of the first run that are shown: even steps up to where the last run stops.
fn shown(one: &Answered) -> Vec<Velocity> {
    let unit = one.units.speed;
    let stops = one.answer.runs.iter().filter_map(Run::top_speed);
    let last = stops.map(|v| unit.value(v)).fold(unit.value(one.answer.target), f64::max);
    let steps = [1.0, 2.0, 5.0, 10.0];
    let step = steps.into_iter().find(|step| last / step <= ROWS as f64).unwrap_or(20.0);
    let one_unit =
        Velocity::new::<meter_per_second>(1.0 / unit.value(Velocity::new::<meter_per_second>(1.0)));
    let count = (last / step).ceil();
    let mut speeds = Vec::new();
    let mut at = 1.0;
    while at <= count {
        speeds.push(one_unit * step * at);
        at += 1.0;
    }
    speeds
}

fn by_speed(one: &Answered, screen: Screen) -> String {
    let units = one.units;
    let speeds = shown(one);
    let at = |run: &Run, of: &dyn Fn(&Row) -> Option<f64>| {
        speeds.iter().map(|&speed| run.at(speed, of)).collect::<Vec<_>>()
    };
    let force = units.force;
    let values: Vec<_> = speeds.iter().map(|&v| Some(units.speed.value(v))).collect();
    let runs = &one.answer.runs;
    let mut columns = vec![
        Column::numbers("speed", units.speed.symbol(), fixed(&values, 0)),
        Column::numbers(
            "thrust",
            force.symbol(),
            aligned(&at(&runs[0], &|row| Some(force.value(row.thrust))), 4),
        ),
    ];
    for run in runs {
        let name = match run.way {
            Way::Up => "up",
            Way::Held(_) => "held",
            Way::Best => "best",
        };
        let drag = at(run, &|row| Some(force.value(row.resistance?)));
        let time = at(run, &|row| Some(row.time?.get::<second>()));
        let trim = at(run, &|row| Some(row.trim?.get::<degree>()));
        columns.push(Column::numbers(&format!("{name}:"), force.symbol(), aligned(&drag, 4)));
        if run.way == Way::Best {
            let down = at(run, &|row| Some(row.deflection?.get::<degree>()));
            columns.push(Column::numbers("planes", "deg", fixed(&down, 1)));
        }
        if !matches!(run.way, Way::Held(_)) {
            columns.push(Column::numbers("trim", "deg", fixed(&trim, 1)));
        }
        columns.push(Column::numbers("time", "s", fixed(&time, 1)));
    }
    let basis = speeds.iter().map(|&speed| match runs[0].basis_at(speed) {
        Some(Basis::Interpolation) => "i".to_owned(),
        Some(Basis::Regression) => "r".to_owned(),
        _ => String::new(),
    });
    let bases: Vec<String> = basis.collect();
    columns.push(Column::words("", bases.clone()));
    let mut text = table(&columns, screen);
    text.push_str(&paragraph(
        "  ",
        "The thrust at full power, and the resistance with the planes up, held and used best, each with the time from rest.",
    ));
    for (letter, basis) in [("i", Basis::Interpolation), ("r", Basis::Regression)] {
        if bases.iter().any(|used| used == letter) {
            text.push_str(&paragraph(&format!("  {letter}  "), basis.meaning()));
        }
    }
    text
}

/// What the estimates do, planes up; nothing when all is known.
fn effects(one: &Answered, screen: Screen) -> String {
    let effects = &one.answer.effects;
    if effects.is_empty() {
        return String::new();
    }
    let mut text = format!("\n{}\n", screen.warning("ESTIMATED: the file does not give these"));
    text.push_str(&paragraph(
        "  ",
        "With planes up, the answers move as shown when one value alone goes from the low to the high end of its likely range; left at the hump is a share of the thrust.",
    ));
    let units = one.units;
    let ends = |of: &dyn Fn(&Brief) -> Option<f64>, decimals: usize| -> Vec<String> {
        let cell = |end: &Option<Brief>| {
            let value = end.as_ref().and_then(of);
            value.map_or("none".to_owned(), |value| number_with_decimals(value, decimals))
        };
        effects.iter().map(|e| format!("{} .. {}", cell(&e.ends[0]), cell(&e.ends[1]))).collect()
    };
    let words = |of: &dyn Fn(&Effect) -> String| effects.iter().map(of).collect::<Vec<_>>();
    text.push_str(&table(
        &[
            Column::words("value", words(&|e| e.estimate.key.to_owned())),
            Column::words(
                "used",
                words(&|e| {
                    let (value, unit) = e.estimate.value.in_units(units);
                    format!("{} {unit}", plain_number(value))
                }),
            ),
            Column::words(
                "likely range",
                words(&|e| {
                    let ends = [e.estimate.low, e.estimate.high];
                    let [low, high] = ends.map(|end| plain_number(end.in_units(units).0));
                    format!("{low} .. {high}")
                }),
            ),
            Column::numbers("time", "s", ends(&|b| Some(b.time?.get::<second>()), 1)),
            Column::numbers("left at", "hump, %", ends(&|b| Some(b.margin?.get::<percent>()), 0)),
            Column::numbers(
                "top speed",
                units.speed.symbol(),
                ends(&|b| Some(units.speed.value(b.top_speed?)), 1),
            ),
        ],
        screen,
    ));
    for effect in effects {
        let estimate = &effect.estimate;
        text.push_str(&paragraph("  - ", &format!("{}: {}.", estimate.key, estimate.rule)));
    }
    text
}

/// Flags on the way to the target, with the speeds they hold for.
fn notes(one: &Answered, screen: Screen) -> String {
    let mut text = String::new();
    for (flag, who) in flags(one) {
        text.push_str(&paragraph("  - ", &format!("{flag} ({who}): {}", flag.meaning())));
    }
    if one.answer.pair.is_some() {
        text.push_str(&paragraph("  - ", BEST));
    }
    text.push_str(&paragraph("  - ", LIMITS));
    for warning in &one.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    text.push_str(&charts_text(&one.charts));
    format!("\n{}\n{text}", screen.heading("Notes"))
}

const BEST: &str = "Used best: at each speed the deflection of least resistance that leaves a safe run, with 2 deg of trim and \
the wetted keel within the bottom. Where even planes up leave none, they stay up.";

const LIMITS: &str = "She is taken to have at each speed the trim at which she would run steadily, with the engines at \
full power at once; add the time they take to run up. The real thrust depends on the propeller, and below planing the resistance is the roughest number here.";

/// Each flag raised up to where planing begins, and with which use of the planes.
pub(super) fn flags(one: &Answered) -> Vec<(Flag, String)> {
    let raised = |run: &Run| {
        let rows = run.rows.iter().filter(|row| row.speed <= one.answer.target);
        rows.fold(Flags::default(), |all, row| all.union(row.flags))
    };
    let by_run: Vec<_> = one.answer.runs.iter().map(|run| (run.way, raised(run))).collect();
    let who = |flag: Flag| {
        let names =
            by_run.iter().filter(|(_, flags)| flags.contains(flag)).map(|(way, _)| match way {
                Way::Up => "up",
                Way::Held(_) => "held",
                Way::Best => "best",
            });
        names.collect::<Vec<_>>().join(", ")
    };
    Flag::ALL.into_iter().map(|flag| (flag, who(flag))).filter(|(_, who)| !who.is_empty()).collect()
}
