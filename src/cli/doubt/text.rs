//! The answer as text for a person.

use uom::si::f64::Velocity;

use super::Doubted;
use crate::boat::measure::plain_number;
use crate::boat::{Source, Tolerance, Toleranced, Width, bound_of, degrees};
use crate::cli::charts_text;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::cli::table::{Column, fixed, table};
use crate::doubt::{
    Basis, DutiesDoubt, Influence, Influences, Input, LIKELY_SHARES, Likely, SpeedDoubt, Spread,
    What, why_so_wide,
};
use crate::input::tolerances_as_toml;
use crate::units::{UnitChoice, number_with_decimals};

/// Influences shown of each answer.
const SHOWN: usize = 6;
/// Rank correlation under which an input does not matter.
const MATTERS: f64 = 0.1;

/// All of it, one loading condition after the other.
pub(super) fn report(all: &[Doubted], duties: &DutiesDoubt, screen: Screen) -> String {
    let blocks: Vec<String> = all.iter().map(|doubted| block(doubted, screen)).collect();
    let fitted = all[0].boat().planes();
    let duties = super::duties::text(duties, all[0].units, fitted, screen);
    format!("{}\n{duties}\n{}", blocks.join("\n\n"), paragraph("", CAUTION))
}

fn block(doubted: &Doubted, screen: Screen) -> String {
    let boat = doubted.boat();
    let mut text = format!("{}\n", screen.heading(&boat.full_name()));
    if let Some(scenario) = &boat.input().scenario {
        text.push_str(&paragraph("", scenario));
    }
    text.push_str(&in_short(doubted, screen));
    text.push_str(&speeds(doubted, screen));
    for (title, influences) in [
        ("What the trim at the hump follows", &doubted.running.hump_trim),
        ("What the resistance at cruise follows", &doubted.running.cruise_resistance),
    ] {
        if let Some(influences) = influences {
            text.push_str(&follows(title, influences, doubted.units, screen));
        }
    }
    text.push_str(&to_measure(doubted, screen));
    text.push_str(&inputs(doubted, screen));
    text.push_str(&notes(doubted, screen));
    text
}

fn speed(speed: Velocity, units: UnitChoice) -> String {
    format!("{} {}", number_with_decimals(units.speed.value(speed), 1), units.speed.symbol())
}

fn planes(doubted: &Doubted) -> String {
    match (doubted.boat().planes(), degrees(doubted.running.request.deflection)) {
        (None, _) => "without planes".to_owned(),
        (Some(_), 0.0) => "with her planes up".to_owned(),
        (Some(_), deg) => format!("with her planes {} deg down", plain_number(deg)),
    }
}

/// What was done, and the two speeds people ask about first.
fn in_short(doubted: &Doubted, screen: Screen) -> String {
    let running = &doubted.running;
    let request = &running.request;
    let mut text = format!("\n{}\n", screen.heading("In short"));
    text.push_str(&paragraph(
        "  ",
        &format!(
            "{} boats nearly like this one were drawn (seed {}), each as far off as her values and the equations may be, and run {}. Of every number below the median is given, and the range that holds nine boats in ten.",
            request.draws,
            request.seed,
            planes(doubted)
        ),
    ));
    let units = doubted.units;
    for (where_, influences) in
        [("At the hump", &running.hump_trim), ("At cruise", &running.cruise_resistance)]
    {
        let Some(influences) = influences else { continue };
        let row = running.speeds.iter().find(|row| row.speed == influences.speed);
        let Some((row, trim)) = row.and_then(|row| Some((row, row.trim?))) else { continue };
        let lead = format!("  {where_}, {}: ", speed(row.speed, units));
        text.push_str(&paragraph(&lead, &landmark(row, trim.map(degrees), units)));
    }
    text
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

fn speeds(doubted: &Doubted, screen: Screen) -> String {
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
    format!("\n{}\n{}", screen.heading("Speed by speed"), table(&columns, screen))
}

fn follows(title: &str, influences: &Influences, units: UnitChoice, screen: Screen) -> String {
    let shown: Vec<&Influence> = influences.of.iter().take(SHOWN).collect();
    let columns = [
        Column::words("input", shown.iter().map(|i| i.what.name().to_owned()).collect()),
        Column::numbers(
            "rank",
            "correlation",
            shown.iter().map(|i| format!("{:+.2}", i.rank_correlation)).collect(),
        ),
    ];
    let heading = screen.heading(&format!("{title}, {}", speed(influences.speed, units)));
    format!("\n{heading}\n{}", table(&columns, screen))
}

/// What to measure to narrow the answers.
fn to_measure(doubted: &Doubted, screen: Screen) -> String {
    let mut text = format!("\n{}\n", screen.heading("What to measure"));
    for (answer, influences) in [
        ("trim at the hump", &doubted.running.hump_trim),
        ("resistance at cruise", &doubted.running.cruise_resistance),
    ] {
        if let Some(influences) = influences {
            text.push_str(&paragraph("  ", &advice(answer, influences)));
        }
    }
    let first = doubted.running.hump_trim.as_ref().and_then(first_value);
    if let Some(What::Value(of)) = first.map(|influence| influence.what) {
        let inputs = &doubted.running.inputs;
        let is_brochure = |input: &&Input| input.basis == Basis::TakenAsBrochure;
        let known = inputs.iter().filter(is_brochure).find(|input| input.what == What::Value(of));
        let why = known.map_or(String::new(), |_| {
            format!("{} counts as taken from a brochure: {}. ", of.key(), why_so_wide(of))
        });
        let so = "When it is known better, say so in the boat file, for example:";
        text.push_str(&paragraph("  ", &format!("{why}{so}")));
        text.push('\n');
        let tolerance = Tolerance { of, width: Width::Source(Source::Measured) };
        for line in tolerances_as_toml(&[tolerance]).lines() {
            text.push_str(&format!("    {line}\n"));
        }
    }
    text
}

/// The value of the boat that matters most, if any does.
fn first_value(influences: &Influences) -> Option<&Influence> {
    influences
        .of
        .iter()
        .find(|influence| influence.what.is_found_ashore())
        .filter(|influence| influence.rank_correlation.abs() >= MATTERS)
}

/// One plain sentence on what narrows an answer.
fn advice(answer: &str, influences: &Influences) -> String {
    let Some(first) = influences.of.first() else {
        return format!("Nothing is in doubt about the {answer}.");
    };
    let said = |influence: &Influence| {
        format!("{} ({:+.2})", influence.what.name(), influence.rank_correlation)
    };
    match (first.what, first_value(influences)) {
        (what, _) if what.is_found_ashore() => format!(
            "The {answer} follows the {} most of all; to narrow it, {}.",
            said(first),
            first.what.remedy()
        ),
        (_, Some(value)) => format!(
            "The {answer} follows the {} most of all; to narrow it, {}. Of what can be measured ashore the {} matters most; {}.",
            said(first),
            first.what.remedy(),
            said(value),
            value.what.remedy()
        ),
        (_, None) => format!(
            "The {answer} follows the {} most of all; to narrow it, {}.",
            said(first),
            first.what.remedy()
        ),
    }
}

fn inputs(doubted: &Doubted, screen: Screen) -> String {
    let list = &doubted.running.inputs;
    let of = |value: &dyn Fn(&Input) -> String| list.iter().map(value).collect();
    let columns = [
        Column::words("input", of(&|input| input.what.word().to_owned())),
        Column::words("nine in ten lie within", of(&|input| width(input, doubted.units))),
        Column::words("known", of(&|input| basis(&input.basis).to_owned())),
    ];
    let mut text =
        format!("\n{}\n{}", screen.heading("What is not known exactly"), table(&columns, screen));
    text.push_str(&paragraph(
        "  ",
        "Widths by how a value was come by are common practice, no source; `planewright doubt --calibration` shows where those of the equations come from.",
    ));
    text
}

/// The likely range about the value used.
fn width(input: &Input, units: UnitChoice) -> String {
    let [low, high] = LIKELY_SHARES.map(|share| input.spread.quantile(share));
    match (input.spread, input.what) {
        (Spread::Factor { .. }, _) => {
            format!("{:+.0} % .. {:+.0} %", 100.0 * (low - 1.0), 100.0 * (high - 1.0))
        }
        (Spread::Step { .. }, What::Value(of)) => {
            let (factor, unit) = step_unit(of, units);
            format!("{} .. {} {unit}", signed(factor * low), signed(factor * high))
        }
        (Spread::Step { .. }, _) => format!("{} .. {}", signed(low), signed(high)),
        (Spread::Either, _) => "transom or trailing edge, one as likely".to_owned(),
    }
}

fn signed(value: f64) -> String {
    let sign = if value < 0.0 { "-" } else { "+" };
    format!("{sign}{}", plain_number((1e3 * value.abs()).round() / 1e3))
}

/// A step of one in the unit of the bounds table, in the unit asked for.
fn step_unit(of: Toleranced, units: UnitChoice) -> (f64, &'static str) {
    match bound_of(of.key()).map_or("", |bound| bound.unit) {
        "m" => {
            let metre = uom::si::f64::Length::new::<uom::si::length::meter>(1.0);
            (units.length.value(metre), units.length.symbol())
        }
        unit => (1.0, unit),
    }
}

fn basis(basis: &Basis) -> &'static str {
    match basis {
        Basis::Stated => "stated in the file",
        Basis::Source(source) => source.word(),
        Basis::TakenAsBrochure => "not stated: as a brochure",
        Basis::Estimate => "ESTIMATED by a rule",
        Basis::Calibrated => "held against published tests",
        Basis::Judged => "judged, no source",
    }
}

fn notes(doubted: &Doubted, screen: Screen) -> String {
    let mut text = String::new();
    for warning in &doubted.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    text.push_str(&charts_text(&doubted.charts));
    if text.is_empty() {
        return text;
    }
    format!("\n{}\n{text}", screen.heading("Notes"))
}
