//! What a trial tells, as text for a person.

use uom::si::ratio::ratio;

use super::{Outcome, Trial};
use crate::boat::measure::plain_number;
use crate::boat::{Measure, degrees};
use crate::cli::charts_text;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::cli::table::{Column, fixed, table};
use crate::trial::{Averaged, Compared, FittedValue, Interval, Refusal, Unknown};
use crate::units::{UnitChoice, number_with_decimals};

/// All of it.
pub(super) fn report(trial: &Trial, screen: Screen) -> String {
    let mut text = format!("{}\n", screen.heading(&format!("{}, sea trial", trial.boat().name())));
    text.push_str(&paragraph("", &origin(trial)));
    match &trial.outcome {
        Ok(outcome) => {
            text.push_str(&told(trial, outcome, screen));
            text.push_str(&left(trial, outcome, screen));
            text.push_str(&compared(trial, outcome, screen));
            text.push_str(&file(trial, outcome, screen));
        }
        Err(refusal) => text.push_str(&refused(refusal, screen)),
    }
    text.push_str(&notes(trial, screen));
    text.push('\n');
    text.push_str(&paragraph("", CAUTION));
    text
}

fn origin(trial: &Trial) -> String {
    format!(
        "{}, CRC-32 {}, and {}, CRC-32 {}, by planewright {}",
        trial.log.name,
        trial.log.checksum,
        trial.file.name,
        trial.file.checksum(),
        env!("CARGO_PKG_VERSION")
    )
}

fn refused(refusal: &Refusal, screen: Screen) -> String {
    let mut text = format!("\n{}\n", screen.warning("Nothing was learned"));
    let problem = refusal.to_string();
    let mut letters = problem.chars();
    let sentence: String = letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect());
    text.push_str(&paragraph("  ", &format!("{sentence}.")));
    text.push_str(&paragraph("  What to do: ", &format!("{}.", refusal.remedy())));
    text.push_str(&paragraph(
        "  ",
        "No boat file was written. `planewright trial --how` says how to make a trial.",
    ));
    text
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

fn told(trial: &Trial, outcome: &Outcome, screen: Screen) -> String {
    let units = trial.units;
    let fitted = &outcome.learned.fitted;
    let of = |value: &dyn Fn(&FittedValue) -> String| fitted.iter().map(value).collect();
    let columns = [
        Column::words("what", of(&|f| f.unknown.short().to_owned())),
        Column::words("boat file", of(&|f| shown(f.unknown, f.before, units))),
        Column::words("the log says", of(&|f| shown(f.unknown, f.value, units))),
        Column::words("9 in 10", of(&|f| range(f.unknown, &f.interval, units))),
        Column::words("9 in 10, wide", of(&|f| range(f.unknown, &f.with_form, units))),
    ];
    let mut text =
        format!("\n{}\n{}", screen.heading("What the log tells"), table(&columns, screen));
    text.push_str(&paragraph("  ", EXPLANATION));
    for fitted in fitted {
        if let Some(sentence) = meaning(fitted, units) {
            text.push_str(&paragraph("  - ", &sentence));
        }
    }
    text
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

fn left(trial: &Trial, outcome: &Outcome, screen: Screen) -> String {
    if outcome.learned.left.is_empty() {
        return String::new();
    }
    let mut text = format!("\n{}\n", screen.heading("What stays as it was, and why"));
    for left in &outcome.learned.left {
        let value = shown(left.unknown, left.value, trial.units);
        text.push_str(&paragraph(
            "  - ",
            &format!("{}, {value}: {}.", left.unknown.spoken(), left.reason),
        ));
    }
    text
}

fn compared(trial: &Trial, outcome: &Outcome, screen: Screen) -> String {
    let learned = &outcome.learned;
    let units = trial.units;
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
    let mut text = format!(
        "\n{}\n{}",
        screen.heading("Measured and computed, before and after"),
        table(&columns, screen)
    );
    text.push_str(&paragraph("  ", &summary(outcome)));
    text.push_str(&outliers(all));
    text
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

fn summary(outcome: &Outcome) -> String {
    let learned = &outcome.learned;
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
fn outliers(all: &[Compared]) -> String {
    let mut text = String::new();
    for compared in all {
        let lines = compared.measurement.lines_text();
        let notes = match compared.measurement.notes.as_slice() {
            [] => String::new(),
            notes => format!(" (note: {})", notes.join("; ")),
        };
        if compared.trim_is_outlier() {
            let off = degrees(compared.trim_measured) - degrees(compared.trim_after);
            text.push_str(&paragraph(
                "  ! ",
                &format!(
                    "Outlier, hardly counted: {lines}: trim {} deg off, {:.1} times the scatter{notes}.",
                    number_with_decimals(off, 2),
                    compared.trim_residual.abs()
                ),
            ));
        }
        if compared.power_is_outlier() {
            let times = compared.power_residual.unwrap_or_default().abs();
            text.push_str(&paragraph(
                "  ! ",
                &format!("Outlier, hardly counted: {lines}: power off by {times:.1} times the scatter{notes}."),
            ));
        }
    }
    text
}

fn file(trial: &Trial, outcome: &Outcome, screen: Screen) -> String {
    let mut text = format!("\n{}\n", screen.heading("Calibrated boat file"));
    let what = match &outcome.written {
        Some(path) => format!(
            "Written to {}; {} stays as it was. Changed or added:",
            path.display(),
            trial.file.name
        ),
        None => "Not written (--report-only). It would change or add:".to_owned(),
    };
    text.push_str(&paragraph("  ", &what));
    for (key, value) in &outcome.calibrated.changes {
        text.push_str(&paragraph("    ", &format!("{key} = {value}")));
    }
    text
}

fn notes(trial: &Trial, screen: Screen) -> String {
    let mut text = String::new();
    for warning in trial.log.warnings.iter().chain(&trial.pairing.warnings) {
        text.push_str(&paragraph(
            "  ! ",
            &screen.warning(&format!("{}: {warning}", trial.log.name)),
        ));
    }
    if let Ok(outcome) = &trial.outcome {
        for unused in &outcome.learned.unused {
            let sentence =
                format!("{}, {}: not used, {}.", trial.log.name, unused.lines, unused.reason);
            text.push_str(&paragraph("  ! ", &screen.warning(&sentence)));
        }
        text.push_str(&charts_text(&outcome.charts));
    }
    for warning in &trial.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    if text.is_empty() {
        return text;
    }
    format!("\n{}\n{text}", screen.heading("Notes"))
}
