//! Trim and resistance with their likely ranges, what they follow, and what to measure.

use uom::si::f64::Velocity;

use super::{Doubted, follows_most, in_a_sentence};
use crate::boat::measure::plain_number;
use crate::boat::{Source, Tolerance, Width, degrees};
use crate::document::{Block, Column, Fact, Table, fixed};
use crate::doubt::{
    Basis, Influence, Influences, Input, Likely, RunningDoubt, SpeedDoubt, What, why_so_wide,
};
use crate::input::tolerances_as_toml;
use crate::units::{UnitChoice, number_with_decimals};

/// Influences shown of each answer.
const SHOWN: usize = 6;
/// Rank correlation under which an input does not matter.
const MATTERS: f64 = 0.1;

fn speed(speed: Velocity, units: UnitChoice) -> String {
    format!("{} {}", number_with_decimals(units.speed.value(speed), 1), units.speed.symbol())
}

pub(super) fn planes(doubted: &Doubted<'_>) -> String {
    match (doubted.boat.planes(), degrees(doubted.running.request.deflection)) {
        (None, _) => "without planes".to_owned(),
        (Some(_), 0.0) => "with her planes up".to_owned(),
        (Some(_), deg) => format!("with her planes {} deg down", plain_number(deg)),
    }
}

/// What was done, and the two speeds people ask about first.
#[must_use]
pub fn in_short(doubted: &Doubted<'_>) -> Vec<Block> {
    let running = doubted.running;
    let request = &running.request;
    let done = format!(
        "{} boats nearly like this one were drawn (seed {}), each as far off as her values and the equations may be, and run {}. Of every number below the median is given, and the range that holds nine boats in ten.",
        request.draws,
        request.seed,
        planes(doubted)
    );
    vec![
        Block::Section("In short".to_owned()),
        Block::Paragraph(done),
        Block::Terms(landmarks(doubted)),
    ]
}

/// The two speeds people ask about first.
pub(super) fn landmarks(doubted: &Doubted<'_>) -> Vec<Fact> {
    let (running, units) = (doubted.running, doubted.units);
    let at = |(place, influences): (&str, &Option<Influences>)| {
        let influences = influences.as_ref()?;
        let row = running.speeds.iter().find(|row| row.speed == influences.speed)?;
        let name = format!("{place}, {}", speed(row.speed, units));
        Some(Fact::new(name, landmark(row, row.trim?.map(degrees), units)))
    };
    let both = [("At the hump", &running.hump_trim), ("At cruise", &running.cruise_resistance)];
    both.into_iter().filter_map(at).collect()
}

fn landmark(row: &SpeedDoubt, trim: Likely<f64>, units: UnitChoice) -> String {
    let range = |range: Likely<f64>, decimals: usize, unit: &str| {
        let [low, median, high] = [range.low, range.median, range.high]
            .map(|value| number_with_decimals(value, decimals));
        format!("{median} {unit}, likely {low} to {high}")
    };
    let mut sentence = format!("trim {}", range(trim, 1, "deg"));
    if let Some(resistance) = row.resistance {
        let force = units.force;
        let resistance = resistance.map(|resistance| force.value(resistance));
        sentence.push_str(&format!("; resistance {}", range(resistance, 0, force.symbol())));
    }
    if row.running_share < 1.0 {
        sentence.push_str(&format!(
            "; {} of the boats drawn run in balance there",
            share(row.running_share)
        ));
    }
    sentence.push('.');
    sentence
}

/// A share in per cent; one that is not quite all never reads as all.
fn share(value: f64) -> String {
    if value < 1.0 && value > 0.995 {
        return format!("{:.2} %", (1e4 * value).floor() / 100.0);
    }
    format!("{:.0} %", 100.0 * value)
}

/// Trim and resistance at every speed, each with the range that holds nine boats in ten.
#[must_use]
pub fn speeds(doubted: &Doubted<'_>) -> Vec<Block> {
    let units = doubted.units;
    let rows = &doubted.running.speeds;
    let of =
        |value: &dyn Fn(&SpeedDoubt) -> Option<f64>| rows.iter().map(value).collect::<Vec<_>>();
    let trim =
        |part: fn(&Likely<f64>) -> f64| of(&|row| row.trim.map(|trim| part(&trim.map(degrees))));
    let force = |part: fn(&Likely<f64>) -> f64| {
        let forces = of(&|row| row.resistance.map(|r| part(&r.map(|r| units.force.value(r)))));
        fixed(&forces, 0)
    };
    let columns = [
        Column::numbers(
            "speed",
            units.speed.symbol(),
            fixed(&of(&|row| Some(units.speed.value(row.speed))), 1),
        ),
        Column::numbers("run", "of draws", rows.iter().map(|r| share(r.running_share)).collect()),
        Column::numbers(
            "as described",
            "trim deg",
            fixed(&of(&|row| row.nominal_trim.map(degrees)), 2),
        ),
        Column::numbers("trim low", "5 %", fixed(&trim(|range| range.low), 2)),
        Column::numbers("median", "deg", fixed(&trim(|range| range.median), 2)),
        Column::numbers("high", "95 %", fixed(&trim(|range| range.high), 2)),
        Column::numbers("resistance low", "5 %", force(|range| range.low)),
        Column::numbers("median", units.force.symbol(), force(|range| range.median)),
        Column::numbers("high", "95 %", force(|range| range.high)),
    ];
    under("Speed by speed", columns.into())
}

fn under(title: &str, columns: Vec<Column>) -> Vec<Block> {
    vec![Block::Section(title.to_owned()), Block::Table(Table { columns, ..Table::default() })]
}

/// What the trim at the hump and the resistance at cruise follow most.
#[must_use]
pub fn influences(doubted: &Doubted<'_>) -> Vec<Block> {
    let both = [
        ("What the trim at the hump follows", &doubted.running.hump_trim),
        ("What the resistance at cruise follows", &doubted.running.cruise_resistance),
    ];
    let told = both.into_iter().filter_map(|(title, influences)| {
        let influences = influences.as_ref()?;
        let title = format!("{title}, {}", speed(influences.speed, doubted.units));
        Some(under(&title, influence_columns(influences)))
    });
    told.flatten().collect()
}

fn influence_columns(influences: &Influences) -> Vec<Column> {
    let shown: Vec<&Influence> = influences.of.iter().take(SHOWN).collect();
    vec![
        Column::words("input", shown.iter().map(|i| i.what.name().to_owned()).collect()),
        Column::numbers(
            "rank",
            "correlation",
            shown.iter().map(|i| format!("{:+.2}", i.rank_correlation)).collect(),
        ),
    ]
}

/// What to measure to narrow the answers.
#[must_use]
pub fn to_measure(doubted: &Doubted<'_>) -> Vec<Block> {
    let running = doubted.running;
    let hump = running.hump_trim.as_ref().map(|hump| of_hump(running, hump));
    let cruise = running.cruise_resistance.as_ref();
    let cruise = cruise.map(|cruise| advice("resistance at cruise", cruise));
    let advice = hump.into_iter().chain(cruise).map(Block::Paragraph);
    let mut blocks = vec![Block::Section("What to measure".to_owned())];
    blocks.extend(advice);
    blocks.extend(to_see(doubted));
    let first = running.hump_trim.as_ref().and_then(first_value);
    if let Some(What::Value(of)) = first.map(|influence| influence.what) {
        let is_brochure = |input: &&Input| input.basis == Basis::TakenAsBrochure;
        let inputs = &running.inputs;
        let known = inputs.iter().filter(is_brochure).find(|input| input.what == What::Value(of));
        let why = known.map_or(String::new(), |_| {
            format!("{} counts as taken from a brochure: {}. ", of.key(), why_so_wide(of))
        });
        let so = "When it is known better, say so in the boat file, for example:";
        blocks.push(Block::Paragraph(format!("{why}{so}")));
        let tolerance = Tolerance { of, width: Width::Source(Source::Measured) };
        blocks.push(Block::Verbatim(tolerances_as_toml(&[tolerance])));
    }
    blocks
}

/// How to read a trim on the water, where none was.
fn to_see(doubted: &Doubted<'_>) -> Vec<Block> {
    let (running, units) = (doubted.running, doubted.units);
    let (None, Some(hump)) = (&running.seen, &running.hump_trim) else { return Vec::new() };
    let how = "One trim read on the water says more than any of it. Lay an inclinometer, a telephone's will do, on something that is level with the keel line; hold the speed steady near the hump in calm water, planes up; and write into the boat file, with the trim that you read:";
    let lines = format!("[[seen]]\nspeed = \"{}\"\ntrim = \"... deg\"\n", speed(hump.speed, units));
    vec![Block::Paragraph(how.to_owned()), Block::Verbatim(lines)]
}

/// The value of the boat that matters most, if any does.
fn first_value(influences: &Influences) -> Option<&Influence> {
    influences
        .of
        .iter()
        .find(|influence| influence.what.is_found_ashore())
        .filter(|influence| influence.rank_correlation.abs() >= MATTERS)
}

/// What narrows the trim at the hump, where a trim read on the water has not done so already.
pub(super) fn of_hump(running: &RunningDoubt, influences: &Influences) -> String {
    let answer = "trim at the hump";
    match (&running.seen, influences.of.first()) {
        (Some(_), Some(first)) if !first.what.is_found_ashore() => {
            let ashore = first_value(influences).map_or_else(String::new, in_ashore);
            format!(
                "What was read on the water has narrowed the {answer} already; what is left follows {} most of all.{ashore}",
                in_a_sentence(first.what)
            )
        }
        _ => advice(answer, influences),
    }
}

fn in_ashore(value: &Influence) -> String {
    format!(
        " Of what can be measured ashore {} matters most; {}.",
        in_a_sentence(value.what),
        value.what.remedy()
    )
}

/// One plain sentence on what narrows an answer.
fn advice(answer: &str, influences: &Influences) -> String {
    let Some(first) = influences.of.first() else {
        return format!("Nothing is in doubt about the {answer}.");
    };
    let most = follows_most(&format!("The {answer}"), first);
    match (first.what, first_value(influences)) {
        (what, _) if what.is_found_ashore() => most,
        (_, None) => most,
        (_, Some(value)) => format!("{most}{}", in_ashore(value)),
    }
}
