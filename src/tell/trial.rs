//! A sea trial told: what its log says about the boat, what it cannot say, and how to make one.

use std::path::Path;

use uom::si::ratio::ratio;

use super::words::section;
use crate::boat::measure::plain_number;
use crate::boat::{Measure, degrees};
use crate::document::{Block, Column, Table, fixed};
use crate::trial::guidance::{CLOSE, PAGE};
use crate::trial::{
    Averaged, Calibrated, Compared, FittedValue, Interval, Learned, LeftValue, Log, Pairing,
    Refusal, Unknown,
};
use crate::units::{UnitChoice, number_with_decimals};

/// What is told: the boat file beside the log of a trial that says something.
#[derive(Clone, Copy, Debug)]
pub struct TrialText<'a> {
    /// Name of the boat file.
    pub file: &'a str,
    /// What the log says.
    pub learned: &'a Learned,
    /// The boat file with what was learned.
    pub calibrated: &'a Calibrated,
    /// Where that was written, if it was.
    pub written: Option<&'a Path>,
    /// Units of the output.
    pub units: UnitChoice,
}

/// All that was learned, in reading order; [`notes`] follow it.
#[must_use]
pub fn all(told: &TrialText<'_>) -> Vec<Block> {
    [what_it_tells, left, compared, calibrated].iter().flat_map(|part| part(told)).collect()
}

/// Why a log says nothing, and what to do about it.
#[must_use]
pub fn refused(refusal: &Refusal) -> Vec<Block> {
    let problem = refusal.to_string();
    let mut letters = problem.chars();
    let sentence: String = letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect());
    let paragraphs = [
        format!("{sentence}."),
        format!("What to do: {}.", refusal.remedy()),
        "No boat file was written. `planewright trial --how` says how to make a trial.".to_owned(),
    ];
    let mut blocks = vec![Block::Alert("Nothing was learned".to_owned())];
    blocks.extend(paragraphs.map(Block::Paragraph));
    blocks
}

/// What changes in the boat file.
#[must_use]
pub fn calibrated(told: &TrialText<'_>) -> Vec<Block> {
    let what = match told.written {
        Some(path) => format!(
            "Written to {}; {} stays as it was. Changed or added:",
            path.display(),
            told.file
        ),
        None => "Not written (--report-only). It would change or add:".to_owned(),
    };
    let lines = told.calibrated.changes.iter().map(|(key, value)| format!("{key} = {value}\n"));
    section("Calibrated boat file", vec![Block::Paragraph(what), Block::Verbatim(lines.collect())])
}

/// What is unusual in the log, and the lines of it that were not used.
#[must_use]
pub fn notes(log: &Log, pairing: &Pairing, learned: Option<&Learned>) -> Vec<Block> {
    let unusual = log.warnings.iter().chain(&pairing.warnings);
    let mut notes: Vec<_> = unusual.map(|warning| format!("{}: {warning}", log.name)).collect();
    let unused = learned.into_iter().flat_map(|learned| &learned.unused);
    notes.extend(
        unused
            .map(|unused| format!("{}, {}: not used, {}.", log.name, unused.lines, unused.reason)),
    );
    section(super::NOTES, vec![Block::Warnings(notes)])
}

/// How to make a trial, and what to accept after planes were fitted.
#[must_use]
pub fn guide() -> Vec<Block> {
    let mut blocks = Vec::new();
    for (title, sentences) in PAGE {
        let points = sentences.iter().map(|&sentence| sentence.to_owned()).collect();
        blocks.extend(section(title, vec![Block::Points(points)]));
    }
    blocks.push(Block::Paragraph(CLOSE.to_owned()));
    blocks
}

/// A quantity of a trial with digits that fit it.
fn shown(unknown: Unknown, measure: Measure, units: UnitChoice) -> String {
    let (value, unit) = measure.in_units(units);
    match unknown {
        Unknown::CentreOfGravity => format!("{} {unit}", number_with_decimals(value, 2)),
        Unknown::PlaneEffectiveness => number_with_decimals(value, 2),
        Unknown::Roughness => number_with_decimals(value, 5),
        Unknown::InclinometerZero => format!("{} deg", number_with_decimals(value, 2)),
    }
}

/// An interval without units, which stand beside the value.
fn range(unknown: Unknown, interval: &Interval, units: UnitChoice) -> String {
    let end = |measure| {
        let text = shown(unknown, measure, units);
        text.split(' ').next().unwrap_or_default().to_owned()
    };
    format!("{} .. {}", end(interval.low), end(interval.high))
}

/// What was fitted, with its ranges, and what it means for the boat.
#[must_use]
pub fn what_it_tells(told: &TrialText<'_>) -> Vec<Block> {
    let units = told.units;
    let fitted = &told.learned.fitted;
    let of = |value: &dyn Fn(&FittedValue) -> String| fitted.iter().map(value).collect();
    let columns = vec![
        Column::words("what", of(&|f| f.unknown.short().to_owned())),
        Column::words("boat file", of(&|f| shown(f.unknown, f.before, units))),
        Column::words("the log says", of(&|f| shown(f.unknown, f.value, units))),
        Column::words("9 in 10", of(&|f| range(f.unknown, &f.interval, units))),
        Column::words("9 in 10, wide", of(&|f| range(f.unknown, &f.with_form, units))),
    ];
    let table = Table { columns, notes: vec![EXPLANATION.to_owned()], ..Table::default() };
    let meanings = fitted.iter().filter_map(|fitted| meaning(fitted, units)).collect();
    section("What the log tells", vec![Block::Table(table), Block::Points(meanings)])
}

const EXPLANATION: &str = "'9 in 10': in nine trials of ten like this one the value that makes these equations agree with the boat lies in the range; it counts the scatter of the log and the doubt of what was left as it was. '9 in 10, wide': the same with the error of the equations themselves, for the boat as she is. The centre of gravity is counted forward of the transom, the strength of the planes as a factor on the published equation.";

/// What a fitted value means for the boat.
fn meaning(fitted: &FittedValue, units: UnitChoice) -> Option<String> {
    let (before, value) = (fitted.before.value(), fitted.value.value());
    let inside = (fitted.interval.low.value()..=fitted.interval.high.value()).contains(&before);
    let verdict =
        if inside { "; what the boat file says is within the doubt of the log" } else { "" };
    match (fitted.unknown, fitted.value, fitted.before) {
        (Unknown::CentreOfGravity, Measure::Length(after), Measure::Length(from)) => {
            let moved = after - from;
            let way = if moved.value > 0.0 { "forward" } else { "aft" };
            let distance = shown(fitted.unknown, Measure::Length(moved.abs()), units);
            Some(format!(
                "The centre of gravity acts {distance} further {way} than the boat file has it{verdict}."
            ))
        }
        (Unknown::PlaneEffectiveness, ..) => {
            let share = 100.0 * (value / before - 1.0);
            let word = if share > 0.0 { "strongly" } else { "weakly" };
            Some(format!(
                "The planes act {:.0} % more {word} than the boat file has them{verdict}.",
                share.abs()
            ))
        }
        (Unknown::Roughness, ..) => {
            let word = if value > before { "rougher" } else { "smoother" };
            Some(format!("The bottom is {word} than the boat file has it{verdict}."))
        }
        _ => Some(format!(
            "The inclinometer showed {} on a level keel; it is taken off the readings below.",
            shown(fitted.unknown, fitted.value, units)
        )),
    }
}

/// What was not fitted, and why.
#[must_use]
pub fn left(told: &TrialText<'_>) -> Vec<Block> {
    let point = |left: &LeftValue| {
        let value = shown(left.unknown, left.value, told.units);
        format!("{}, {value}: {}.", left.unknown.spoken(), left.reason)
    };
    let points = told.learned.left.iter().map(point).collect();
    section("What stays as it was, and why", vec![Block::Points(points)])
}

/// Every measurement beside what is computed, before and after, and the outliers.
#[must_use]
pub fn compared(told: &TrialText<'_>) -> Vec<Block> {
    let learned = told.learned;
    let units = told.units;
    let all = &learned.compared;
    let numbers =
        |value: &dyn Fn(&Compared) -> Option<f64>| all.iter().map(value).collect::<Vec<_>>();
    let words = |value: &dyn Fn(&Compared) -> String| all.iter().map(value).collect::<Vec<_>>();
    let short = |c: &Compared| {
        let lines: Vec<String> = c.measurement.lines.iter().map(u64::to_string).collect();
        lines.join("+")
    };
    let speeds = numbers(&|c| Some(units.speed.value(c.measurement.speed)));
    let down = numbers(&|c| Some(degrees(c.measurement.deflection)));
    let share = |measured: Option<uom::si::f64::Power>, computed: Option<uom::si::f64::Power>| {
        Some(100.0 * ((measured? / computed?).value - 1.0))
    };
    let mut columns = vec![
        Column::words("lines", words(&short)),
        Column::numbers("speed", units.speed.symbol(), fixed(&speeds, 1)),
        Column::numbers("planes", "deg", fixed(&down, 1)),
        Column::numbers(
            "trim",
            "measured",
            fixed(&numbers(&|c| Some(degrees(c.trim_measured))), 2),
        ),
        Column::numbers(
            "trim by",
            "boat file",
            fixed(&numbers(&|c| Some(degrees(c.trim_before))), 2),
        ),
        Column::numbers(
            "left",
            "before",
            fixed(&numbers(&|c| Some(degrees(c.measurement.trim) - degrees(c.trim_before))), 2),
        ),
        Column::numbers(
            "left",
            "after",
            fixed(&numbers(&|c| Some(degrees(c.trim_measured) - degrees(c.trim_after))), 2),
        ),
    ];
    if all.iter().any(|c| c.power_measured.is_some()) {
        columns.push(Column::numbers(
            "power, %",
            "before",
            fixed(&numbers(&|c| share(c.power_measured, c.power_before)), 0),
        ));
        columns.push(Column::numbers(
            "power, %",
            "after",
            fixed(&numbers(&|c| share(c.power_measured, c.power_after)), 0),
        ));
    }
    columns.push(Column::words("note", words(&note)));
    let table = Table { columns, notes: vec![summary(learned)], ..Table::default() };
    section(
        "Measured and computed, before and after",
        vec![Block::Table(table), Block::Warnings(outliers(all))],
    )
}

fn note(compared: &Compared) -> String {
    let mut notes = Vec::new();
    if compared.trim_is_outlier() || compared.power_is_outlier() {
        notes.push("OUTLIER");
    }
    if compared.measurement.averaged == Averaged::OneRun {
        notes.push("one way");
    }
    notes.join(", ")
}

fn summary(learned: &Learned) -> String {
    let deg = |angle| number_with_decimals(degrees(angle), 2);
    let mut text = format!(
        "Trim in degrees, 'left' measured less computed. The differences in trim were {} deg (root mean square, outliers included), and are {} deg; a reading here scatters by {} deg.",
        deg(learned.rms_before),
        deg(learned.rms_after),
        deg(learned.trim_scatter)
    );
    if learned.compared.iter().any(|c| c.power_measured.is_some()) {
        let origin = if learned.efficiency_is_given {
            "as given"
        } else {
            "ASSUMED, and held doubtful by a tenth"
        };
        text.push_str(&format!(
            " Power is compared at a propulsive efficiency of {}, {origin}.",
            plain_number(learned.efficiency.get::<ratio>())
        ));
    }
    text
}

/// Readings that hardly counted, by their lines.
fn outliers(all: &[Compared]) -> Vec<String> {
    let mut found = Vec::new();
    for compared in all {
        let lines = compared.measurement.lines_text();
        let notes = match compared.measurement.notes.as_slice() {
            [] => String::new(),
            notes => format!(" (note: {})", notes.join("; ")),
        };
        if compared.trim_is_outlier() {
            let off = degrees(compared.trim_measured) - degrees(compared.trim_after);
            found.push(format!(
                "Outlier, hardly counted: {lines}: trim {} deg off, {:.1} times the scatter{notes}.",
                number_with_decimals(off, 2),
                compared.trim_residual.abs()
            ));
        }
        if compared.power_is_outlier() {
            let times = compared.power_residual.unwrap_or_default().abs();
            found.push(format!(
                "Outlier, hardly counted: {lines}: power off by {times:.1} times the scatter{notes}."
            ));
        }
    }
    found
}
