//! Getting on plane told: time and distance from rest, the hump, and the speeds she reaches.

mod short;
mod short_form;

pub use short::{in_short, inputs};
pub use short_form::short_form;

use uom::si::f64::Velocity;
use uom::si::ratio::percent;
use uom::si::velocity::meter_per_second;
use uom::si::{angle::degree, time::second};

use super::saving;
use super::words::{section, speed_text};
use crate::balance::saving::Saving;
use crate::behaviour::from_rest::{Basis, Way};
use crate::behaviour::on_plane::{Brief, Effect, FullPowerRun, LikelyReach, OnPlane, RunPoint};
use crate::boat::Boat;
use crate::boat::measure::plain_number;
use crate::document::{Block, Column, Fact, Table, aligned, fixed};
use crate::flag::Flag;
use crate::size::PairUsed;
use crate::units::{UnitChoice, number_with_decimals};

/// Rows of the table by speed at most.
const ROWS: usize = 24;

/// What is told: the boat in one loading condition, getting on plane.
#[derive(Clone, Copy, Debug)]
pub struct OnPlaneText<'a> {
    /// The boat.
    pub boat: &'a Boat,
    /// Her planes.
    pub pair: PairUsed,
    /// The answer.
    pub answer: &'a OnPlane,
    /// Units of the output.
    pub units: UnitChoice,
}

/// All of it, in reading order.
#[must_use]
pub fn all(one: &OnPlaneText<'_>) -> Vec<Block> {
    [inputs, in_short, by_way, by_speed, estimates, notes]
        .iter()
        .flat_map(|part| part(one))
        .collect()
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

/// Each way of using the planes in one row.
#[must_use]
pub fn by_way(one: &OnPlaneText<'_>) -> Vec<Block> {
    let (runs, units) = (&one.answer.runs, one.units);
    let speed = |of: &dyn Fn(&FullPowerRun) -> Option<Velocity>| {
        let values: Vec<_> = runs.iter().map(|run| of(run).map(|v| units.speed.value(v))).collect();
        fixed(&values, 1)
    };
    let numbers = |of: &dyn Fn(&FullPowerRun) -> Option<f64>| -> Vec<Option<f64>> {
        runs.iter().map(of).collect()
    };
    let used = numbers(&|run| Some(100.0 - run.tightest.as_ref()?.margin().get::<percent>()));
    let spare = numbers(&|run| Some(units.power.value(run.tightest.as_ref()?.power_margin())));
    let likely = |of: &dyn Fn(&LikelyReach) -> String| -> Vec<String> {
        let cell = |run: &FullPowerRun| run.likely.as_ref().map_or_else(|| "-".to_owned(), of);
        runs.iter().map(cell).collect()
    };
    let unit = units.speed.symbol();
    let columns = vec![
        Column::words("planes", runs.iter().map(|run| short_name(run.way)).collect()),
        Column::numbers(
            &format!("time to {}", speed_text(one.answer.target, units)),
            "s",
            likely(&LikelyReach::seconds),
        ),
        Column::numbers(
            "distance",
            units.length.symbol(),
            likely(&|reach| reach.lengths(|length| units.length.value(length))),
        ),
        Column::numbers(
            "tightest",
            &format!("at {unit}"),
            speed(&|r| Some(r.tightest.as_ref()?.speed)),
        ),
        Column::numbers("thrust", "used, %", fixed(&used, 0)),
        Column::numbers("to spare", units.power.symbol(), fixed(&spare, 0)),
        Column::numbers("planes", &format!("from {unit}"), speed(&|r| r.least_planing_speed)),
        Column::numbers("top speed", unit, speed(&|r| r.top_speed())),
    ];
    vec![
        Block::Section("Full power from rest".to_owned()),
        Block::Table(Table { columns, ..Table::default() }),
    ]
}

/// The rows of the first run that are shown: even steps up to where the last run stops.
fn shown(one: &OnPlaneText<'_>) -> Vec<Velocity> {
    let unit = one.units.speed;
    let stops = one.answer.runs.iter().filter_map(FullPowerRun::top_speed);
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

/// Thrust, resistance, trim and time at each speed.
#[must_use]
pub fn by_speed(one: &OnPlaneText<'_>) -> Vec<Block> {
    let units = one.units;
    let speeds = shown(one);
    let at = |run: &FullPowerRun, of: &dyn Fn(&RunPoint) -> Option<f64>| {
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
    let letters = [("i", Basis::Interpolation), ("r", Basis::Regression)];
    let used = letters.into_iter().filter(|(letter, _)| bases.iter().any(|used| used == letter));
    let letters = used.map(|(letter, basis)| Fact::new(letter, basis.meaning())).collect();
    let note = "The thrust at full power, and the resistance with the planes up, held and used best, each with the time from rest for full thrust at once and everything as estimated: the range above is what to count on.";
    let table = Table { columns, notes: vec![note.to_owned()], ..Table::default() };
    section("By speed", vec![Block::Table(table), Block::Terms(letters)])
}

/// What the estimates do, planes up; nothing when all is known.
#[must_use]
pub fn estimates(one: &OnPlaneText<'_>) -> Vec<Block> {
    let effects = &one.answer.effects;
    if effects.is_empty() {
        return Vec::new();
    }
    let explanation = "With planes up, the answers move as shown when one value alone goes from the low to the high end of its likely range; left is a share of the thrust, where it is tightest; the time is for full thrust at once.";
    let units = one.units;
    let ends = |of: &dyn Fn(&Brief) -> Option<f64>, decimals: usize| -> Vec<String> {
        let cell = |end: &Option<Brief>| {
            let value = end.as_ref().and_then(of);
            value.map_or("none".to_owned(), |value| number_with_decimals(value, decimals))
        };
        effects.iter().map(|e| format!("{} .. {}", cell(&e.ends[0]), cell(&e.ends[1]))).collect()
    };
    let words = |of: &dyn Fn(&Effect) -> String| effects.iter().map(of).collect::<Vec<_>>();
    let columns = vec![
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
        Column::numbers("left", "there, %", ends(&|b| Some(b.margin?.get::<percent>()), 0)),
        Column::numbers(
            "top speed",
            units.speed.symbol(),
            ends(&|b| Some(units.speed.value(b.top_speed?)), 1),
        ),
    ];
    let rule = |effect: &Effect| format!("{}: {}.", effect.estimate.key, effect.estimate.rule);
    vec![
        Block::Alert("ESTIMATED: the file does not give these".to_owned()),
        Block::Paragraph(explanation.to_owned()),
        Block::Table(Table { columns, ..Table::default() }),
        Block::Points(effects.iter().map(rule).collect()),
    ]
}

/// Flags on the way to the target with the ways that raise them, and what the answer leaves out.
#[must_use]
pub fn notes(one: &OnPlaneText<'_>) -> Vec<Block> {
    let flag = |(flag, who): (Flag, String)| format!("{} Planes {who}.", flag.line());
    let mut points: Vec<String> = flags(one).into_iter().map(flag).collect();
    points.extend(one.answer.pair.map(|_| BEST.to_owned()));
    points.extend(one.answer.runs.iter().skip(1).filter_map(|run| even_at_hump(one, run)));
    points.push(LIMITS.to_owned());
    section(super::NOTES, vec![Block::Points(points)])
}

/// That the planes used in one way are about even at the hump, where wet sides may turn what they take off.
fn even_at_hump(one: &OnPlaneText<'_>, run: &FullPowerRun) -> Option<String> {
    let hump = run.tightest.as_ref()?;
    (one.answer.saving_at_hump(run)? == Saving::SidesMayTurn).then(|| {
        format!(
            "At her hump, {}, planes {} are {} with planes up: {}.",
            speed_text(hump.speed, one.units),
            short_name(run.way),
            saving::ABOUT_EVEN,
            "they press the bow down, and wet sides, which the balance leaves out, may turn what they take off"
        )
    })
}

const BEST: &str = "Used best: at each speed the deflection of least resistance that leaves 2 deg of trim. Where even planes up leave less, they stay up.";

const LIMITS: &str = "She is taken to have at each speed the trim at which she would run steadily, with the engines at \
full power at once; add the time they take to run up. The real thrust depends on the propeller, and below planing the resistance is the roughest number here.";

/// Each flag raised up to where planing begins, and with which use of the planes.
#[must_use]
pub fn flags(one: &OnPlaneText<'_>) -> Vec<(Flag, String)> {
    let raised = |run: &FullPowerRun| {
        let rows = run.rows.iter().filter(|row| row.speed <= one.answer.target);
        let thrust = one.answer.thrust.efficiency().flags();
        rows.fold(thrust, |all, row| all.union(row.flags))
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
