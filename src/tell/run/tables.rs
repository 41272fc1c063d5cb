//! The tables of points.

use uom::si::f64::{Force, Length};

use super::Run;
use super::notes::Letters;
use crate::balance::sweep::Set;
use crate::balance::{LARGEST_TRIM_DEG, Outcome, Point, ResistanceParts, Running};
use crate::boat::{Measure, degrees};
use crate::document::{Block, Column, Table, aligned, fixed};

/// Deflections beside each other in one table.
const DEFLECTIONS_ACROSS: usize = 8;

/// What is said of the friction of wet sides.
const SIDES: &str = "'wet sides' is an ESTIMATE of the friction of vertical sides that the flow off the chines meets again \
(Savitsky & Brown 1976), wet to a fifth of the beam, which is judged. It is in no resistance; chine flats and spray rails throw \
the water clear.";

/// Takes one part of the resistance.
type Part = fn(&ResistanceParts) -> Force;

/// Trim and resistance of all deflections beside each other; nothing for one deflection.
#[must_use]
pub fn side_by_side(run: &Run<'_>) -> Vec<Block> {
    if run.sets.len() < 2 {
        return Vec::new();
    }
    let force = run.units.force;
    let mut blocks = Vec::new();
    for sets in run.sets.chunks(DEFLECTIONS_ACROSS) {
        for (title, unit) in [("Trim", "deg"), ("Resistance", force.symbol())] {
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
            blocks.extend(under(format!("{title} in {unit} by deflection of the planes"), columns));
        }
    }
    blocks
}

/// Every table of one deflection.
#[must_use]
pub fn table(run: &Run<'_>, set: &Set) -> Vec<Block> {
    [attitude, resistance, planes, porpoising].into_iter().flat_map(|part| part(run, set)).collect()
}

/// A table under its heading.
pub(super) fn under(title: String, columns: Vec<Column>) -> Vec<Block> {
    vec![Block::Section(title), Block::Table(Table { columns, ..Table::default() })]
}

/// A heading about one deflection, which it names where there are planes.
pub(super) fn titled(run: &Run<'_>, set: &Set, title: &str) -> String {
    match run.boat.planes() {
        None => title.to_owned(),
        Some(_) => format!("{title}, planes at {}", deflection_text(set)),
    }
}

fn runs_somewhere(set: &Set) -> bool {
    set.points.iter().any(|point| point.running.is_some())
}

/// `5 deg`.
pub(super) fn deflection_text(set: &Set) -> String {
    Measure::Angle(set.deflection).to_string()
}

pub(super) fn numbers(points: &[Point], value: &dyn Fn(&Running) -> f64) -> Vec<Option<f64>> {
    points.iter().map(|point| point.running.as_ref().map(value)).collect()
}

/// The cell, or the outcome where the boat does not run.
fn or_outcome(cell: String, point: &Point) -> String {
    match point.outcome {
        Outcome::Running => cell,
        outcome => outcome.word().to_owned(),
    }
}

pub(super) fn speeds(run: &Run<'_>, points: &[Point]) -> Column {
    let unit = run.units.speed;
    let values: Vec<_> = points.iter().map(|point| Some(unit.value(point.speed))).collect();
    let slow = values.iter().flatten().all(|&speed| speed < 10.0);
    Column::numbers("speed", unit.symbol(), fixed(&values, if slow { 2 } else { 1 }))
}

/// Trim, wetted length and draft, with the letters of the notes.
#[must_use]
pub fn attitude(run: &Run<'_>, set: &Set) -> Vec<Block> {
    let points = &set.points;
    let letters = Letters::of(run);
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
        sides_wet(run, points),
        Column::words("notes", notes.collect()),
    ];
    columns.retain(|column| !column.is_blank());
    under(titled(run, set, "Running attitude"), columns)
}

/// Length over which the sides are wet, where they are anywhere.
fn sides_wet(run: &Run<'_>, points: &[Point]) -> Column {
    let unit = run.units.length;
    let wet = |point: &Point| {
        let length = point.running?.side_wetted_length;
        (length > Length::default()).then(|| unit.value(length))
    };
    let values: Vec<_> = points.iter().map(wet).collect();
    Column::numbers("sides wet", unit.symbol(), aligned(&values, 3))
}

/// Resistance and its parts; nothing where she runs at no speed.
#[must_use]
pub fn resistance(run: &Run<'_>, set: &Set) -> Vec<Block> {
    if !runs_somewhere(set) {
        return Vec::new();
    }
    let points = &set.points;
    let unit = run.units.force;
    let weight = run.boat.weight().force();
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
    let side = numbers(points, &|r| unit.value(r.side_friction));
    let wet = side.iter().flatten().any(|&friction| friction > 0.0);
    if wet {
        columns.push(Column::numbers("wet\nsides", unit.symbol(), fixed(&side, decimals)));
    }
    let notes = wet.then(|| SIDES.to_owned()).into_iter().collect();
    vec![
        Block::Section(titled(run, set, "Resistance and its parts")),
        Block::Table(Table { columns, notes, ..Table::default() }),
    ]
}

fn decimals_in(cells: &[String]) -> usize {
    cells.iter().filter_map(|cell| Some(cell.split_once('.')?.1.len())).max().unwrap_or(0)
}

/// Lift, drag and effect of the planes; nothing without them.
#[must_use]
pub fn planes(run: &Run<'_>, set: &Set) -> Vec<Block> {
    let points = &set.points;
    if !points.iter().any(|p| p.running.is_some_and(|r| r.lift_per_degree.is_some())) {
        return Vec::new();
    }
    let unit = run.units.force;
    let force =
        |value: &dyn Fn(&Running) -> Force| aligned(&numbers(points, &|r| unit.value(value(r))), 4);
    let weight = run.boat.weight().force();
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
    under(titled(run, set, "What the planes do"), columns)
}

/// Trim beside the porpoising limits; nothing where she runs at no speed.
#[must_use]
pub fn porpoising(run: &Run<'_>, set: &Set) -> Vec<Block> {
    if !runs_somewhere(set) {
        return Vec::new();
    }
    let points = &set.points;
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
    let columns = vec![
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
    ];
    under(titled(run, set, "Porpoising"), columns)
}
