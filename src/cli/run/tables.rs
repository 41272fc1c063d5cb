//! The tables of points.

use uom::si::f64::{Force, Length};

use super::notes::Letters;
use super::text::deflection_text;
use super::{Run, Set};
use crate::balance::{LARGEST_TRIM_DEG, Outcome, Point, ResistanceParts, Running};
use crate::boat::degrees;
use crate::cli::screen::Screen;
use crate::cli::table::{Column, aligned, fixed, table};

/// Deflections beside each other in one table.
const DEFLECTIONS_ACROSS: usize = 8;

/// Takes one part of the resistance.
type Part = fn(&ResistanceParts) -> Force;

/// Trim and resistance of all deflections beside each other.
pub(super) fn side_by_side(run: &Run, screen: Screen) -> String {
    let force = run.units.force;
    let mut text = String::new();
    for sets in run.sets.chunks(DEFLECTIONS_ACROSS) {
        for (title, unit) in [("Trim", "deg"), ("Resistance", force.symbol())] {
            text.push_str(&format!(
                "\n{}\n",
                screen.heading(&format!("{title} in {unit} by deflection of the planes"))
            ));
            let mut columns = vec![speeds(run, &sets[0].points)];
            for set in sets {
                let of = |value: &dyn Fn(&Running) -> f64| numbers(&set.points, value);
                let cells = match title {
                    "Trim" => fixed(&of(&|r| degrees(r.trim)), 2),
                    _ => aligned(&of(&|r| force.value(r.resistance)), 4),
                };
                let cells = cells.into_iter().zip(&set.points).map(|(c, p)| or_outcome(c, p));
                columns.push(Column::numbers(&deflection_text(set), "", cells.collect()));
            }
            text.push_str(&table(&columns, screen));
        }
    }
    text
}

/// The tables of one deflection.
pub(super) fn of_set(run: &Run, set: &Set, letters: &Letters, screen: Screen) -> String {
    let suffix = match run.boat().planes() {
        None => String::new(),
        Some(_) => format!(", planes at {}", deflection_text(set)),
    };
    let mut text = String::new();
    let mut add = |title: &str, columns: &[Column]| {
        text.push_str(&format!("\n{}\n", screen.heading(&format!("{title}{suffix}"))));
        text.push_str(&table(columns, screen));
    };
    add("Running attitude", &attitude(run, &set.points, letters));
    if set.points.iter().any(|point| point.running.is_some()) {
        add("Resistance and its parts", &resistance(run, &set.points));
        if set.points.iter().any(|p| p.running.is_some_and(|r| r.lift_per_degree.is_some())) {
            add("What the planes do", &planes(run, &set.points));
        }
        add("Porpoising", &porpoising(run, &set.points));
    }
    text
}

fn numbers(points: &[Point], value: &dyn Fn(&Running) -> f64) -> Vec<Option<f64>> {
    points.iter().map(|point| point.running.as_ref().map(value)).collect()
}

/// The cell, or the outcome where the boat does not run.
fn or_outcome(cell: String, point: &Point) -> String {
    match point.outcome {
        Outcome::Running => cell,
        outcome => outcome.word().to_owned(),
    }
}

pub(super) fn speeds(run: &Run, points: &[Point]) -> Column {
    let unit = run.units.speed;
    let values: Vec<_> = points.iter().map(|point| Some(unit.value(point.speed))).collect();
    let slow = values.iter().flatten().all(|&speed| speed < 10.0);
    Column::numbers("speed", unit.symbol(), fixed(&values, if slow { 2 } else { 1 }))
}

fn attitude(run: &Run, points: &[Point], letters: &Letters) -> Vec<Column> {
    let unit = run.units.length;
    let length = |name: &str, value: fn(&Running) -> Length| {
        let cells = aligned(&numbers(points, &|r| unit.value(value(r))), 3);
        Column::numbers(name, unit.symbol(), cells)
    };
    let cv: Vec<_> = points.iter().map(|point| Some(point.speed_coefficient)).collect();
    let notes = points.iter().map(|point| match point.outcome {
        Outcome::Running => letters.text(point.flags),
        outcome => format!("{outcome} {}", letters.text(point.flags)).trim_end().to_owned(),
    });
    let mut columns = vec![
        speeds(run, points),
        Column::numbers("Cv", "", fixed(&cv, 2)),
        Column::numbers("trim", "deg", fixed(&numbers(points, &|r| degrees(r.trim)), 2)),
        Column::numbers(
            "wetted length",
            "beams",
            fixed(&numbers(points, &|r| r.wetted_length_ratio), 2),
        ),
        length("wetted keel", |r| r.wetted_keel),
        length("wetted chine", |r| r.wetted_chine),
        length("draft", |r| r.draft),
        Column::words("notes", notes.collect()),
    ];
    columns.retain(|column| !column.is_blank());
    columns
}

fn resistance(run: &Run, points: &[Point]) -> Vec<Column> {
    let unit = run.units.force;
    let weight = run.boat().weight().force();
    let force = |value: &dyn Fn(&Running) -> Force| numbers(points, &|r| unit.value(value(r)));
    let total = force(&|r| r.resistance);
    let share = numbers(points, &|r| (r.resistance / weight).value);
    let power = numbers(points, &|r| run.units.power.value(r.effective_power));
    let mut columns = vec![
        speeds(run, points),
        Column::numbers("resistance", unit.symbol(), aligned(&total, 4)),
        Column::numbers("of weight", "", fixed(&share, 3)),
        Column::numbers("eff. power", run.units.power.symbol(), aligned(&power, 3)),
    ];
    let parts: [(&str, Part); 7] = [
        ("pressure", |parts| parts.pressure),
        ("friction", |parts| parts.friction),
        ("spray", |parts| parts.spray),
        ("planes", |parts| parts.planes),
        ("air", |parts| parts.air),
        ("append.", |parts| parts.appendages),
        ("hump", |parts| parts.hump),
    ];
    // Each part with the decimals of the total, so that they can be added by eye.
    let decimals = decimals_in(&aligned(&total, 4));
    for (name, part) in parts {
        let values = force(&|r| part(&r.parts));
        if values.iter().flatten().any(|&value| value != 0.0) {
            columns.push(Column::numbers(name, unit.symbol(), fixed(&values, decimals)));
        }
    }
    columns
}

fn decimals_in(cells: &[String]) -> usize {
    cells.iter().filter_map(|cell| Some(cell.split_once('.')?.1.len())).max().unwrap_or(0)
}

fn planes(run: &Run, points: &[Point]) -> Vec<Column> {
    let unit = run.units.force;
    let force =
        |value: &dyn Fn(&Running) -> Force| aligned(&numbers(points, &|r| unit.value(value(r))), 4);
    let weight = run.boat().weight().force();
    let share = numbers(points, &|r| 100.0 * (r.plane_lift / weight).value);
    let optional = |value: &dyn Fn(&Running) -> Option<f64>| -> Vec<Option<f64>> {
        points.iter().map(|point| point.running.as_ref().and_then(value)).collect()
    };
    let one = optional(&|r| r.lift_per_degree.map(|lift| unit.value(lift)));
    let change = optional(&|r| r.trim_per_degree);
    let mut columns = vec![speeds(run, points)];
    if share.iter().flatten().any(|&share| share != 0.0) {
        columns.extend([
            Column::numbers("lift of both", unit.symbol(), force(&|r| r.plane_lift)),
            Column::numbers("of weight", "%", fixed(&share, 1)),
            Column::numbers("drag of both", unit.symbol(), force(&|r| r.plane_drag)),
        ]);
    }
    columns.extend([
        Column::numbers(
            "lift of one plane",
            &format!("{} per deg", unit.symbol()),
            aligned(&one, 3),
        ),
        Column::numbers("trim change", "deg per deg", fixed(&change, 3)),
    ]);
    columns
}

fn porpoising(run: &Run, points: &[Point]) -> Vec<Column> {
    let celano = points.iter().map(|point| {
        match point.running.as_ref().and_then(|r| r.porpoising.celano_deg) {
            Some(limit_deg) if limit_deg > LARGEST_TRIM_DEG => format!(">{LARGEST_TRIM_DEG}"),
            limit_deg => fixed(&[limit_deg], 1).concat(),
        }
    });
    let margin = numbers(points, &|r| degrees(r.porpoising_margin()));
    let verdicts = points.iter().map(|point| {
        let verdict = point.running.as_ref().map_or("", |r| match degrees(r.trim) {
            trim_deg if trim_deg <= r.porpoising.lower_deg() => "below both",
            trim_deg if trim_deg <= r.porpoising.upper_deg() => "between them",
            _ => "above both",
        });
        verdict.to_owned()
    });
    vec![
        speeds(run, points),
        Column::numbers("trim", "deg", fixed(&numbers(points, &|r| degrees(r.trim)), 2)),
        Column::numbers(
            "limit, Day & Haag",
            "deg",
            fixed(&numbers(points, &|r| r.porpoising.day_haag_deg), 1),
        ),
        Column::numbers("limit, Celano", "deg", celano.collect()),
        Column::numbers("margin to the lower", "deg", fixed(&margin, 1)),
        Column::words("trim is", verdicts.collect()),
    ]
}
