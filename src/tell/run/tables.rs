//! The tables of points.

use super::RunText;
use super::notes::Letters;
use crate::balance::sweep::Set;
use crate::balance::{LARGEST_TRIM_DEG, Outcome, Point, Running, fields};
use crate::boat::{Measure, degrees};
use crate::document::{Block, Column, Table, fixed};
use crate::field::{Digits, Field};

/// Deflections beside each other in one table.
const DEFLECTIONS_ACROSS: usize = 8;

/// What the first columns of the budget are.
const TOTALS: &str =
    "'total' is the resistance, '/weight' its share of the weight, 'effective' the power it takes.";

/// What is said of the friction of wet sides.
const SIDES: &str = "'sides' is an ESTIMATE of the friction of vertical sides that the flow off the chines meets again \
(Savitsky & Brown 1976), wet to a fifth of the beam, which is judged. It is in no total; chine flats and spray rails throw \
the water clear.";

/// Trim and resistance of all deflections beside each other; nothing for one deflection.
#[must_use]
pub fn side_by_side(run: &RunText<'_>) -> Vec<Block> {
    if run.sets.len() < 2 {
        return Vec::new();
    }
    let mut blocks = Vec::new();
    for sets in run.sets.chunks(DEFLECTIONS_ACROSS) {
        for (title, field) in [("Trim", fields::TRIM), ("Resistance", fields::RESISTANCE)] {
            let mut columns = vec![speeds(run, &sets[0].points)];
            for set in sets {
                let mut column = Column::field(&field, &set.points, run.units);
                let cells = column.cells.into_iter().zip(&set.points);
                column.cells = cells.map(|(cell, point)| or_outcome(cell, point)).collect();
                columns.push(column.named(&deflection_text(set)).in_unit(""));
            }
            let unit = field.quantity.symbol(run.units);
            blocks.extend(under(format!("{title} in {unit} by deflection of the planes"), columns));
        }
    }
    blocks
}

/// Every table of one deflection.
#[must_use]
pub fn table(run: &RunText<'_>, set: &Set) -> Vec<Block> {
    [attitude, resistance, planes, porpoising].into_iter().flat_map(|part| part(run, set)).collect()
}

/// A table under its heading.
pub(super) fn under(title: String, columns: Vec<Column>) -> Vec<Block> {
    vec![Block::Section(title), Block::Table(Table { columns, ..Table::default() })]
}

/// A heading about one deflection, which it names where there are planes.
pub(super) fn titled(run: &RunText<'_>, set: &Set, title: &str) -> String {
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
pub(super) fn or_outcome(cell: String, point: &Point) -> String {
    match point.outcome {
        Outcome::Running => cell,
        outcome => outcome.word().to_owned(),
    }
}

pub(super) fn speeds(run: &RunText<'_>, points: &[Point]) -> Column {
    let unit = run.units.speed;
    let values: Vec<_> = points.iter().map(|point| Some(unit.value(point.speed))).collect();
    let slow = values.iter().flatten().all(|&speed| speed < 10.0);
    Column::numbers("speed", unit.symbol(), fixed(&values, if slow { 2 } else { 1 }))
}

/// Trim, wetted length and draft, with the letters of the notes.
#[must_use]
pub fn attitude(run: &RunText<'_>, set: &Set) -> Vec<Block> {
    let points = &set.points;
    let letters = Letters::of(run);
    let notes = points.iter().map(|point| match point.outcome {
        Outcome::Running => letters.text(point.flags),
        outcome => format!("{outcome} {}", letters.text(point.flags)).trim_end().to_owned(),
    });
    let shown = [
        fields::SPEED_COEFFICIENT,
        fields::TRIM,
        fields::WETTED_LENGTH_RATIO,
        fields::WETTED_KEEL,
        fields::WETTED_CHINE,
        fields::DRAFT,
    ];
    let mut columns = vec![speeds(run, points)];
    columns.extend(shown.iter().map(|field| Column::field(field, points, run.units)));
    columns.extend([sides_wet(run, points), Column::words("notes", notes.collect())]);
    columns.retain(|column| !column.is_blank());
    under(titled(run, set, "Running attitude"), columns)
}

/// Length over which the sides are wet, where they are anywhere.
fn sides_wet(run: &RunText<'_>, points: &[Point]) -> Column {
    let field = Field {
        value: |point| fields::SIDE_WETTED_LENGTH.si(point).filter(|&length_m| length_m > 0.0),
        ..fields::SIDE_WETTED_LENGTH
    };
    Column::field(&field, points, run.units)
}

/// Resistance and its parts; nothing where she runs at no speed.
#[must_use]
pub fn resistance(run: &RunText<'_>, set: &Set) -> Vec<Block> {
    if !runs_somewhere(set) {
        return Vec::new();
    }
    let points = &set.points;
    let weight = run.boat.weight().force();
    let share = numbers(points, &|r| (r.resistance / weight).value);
    let total = Column::field(&fields::RESISTANCE, points, run.units).named("total");
    // Each part with the decimals of the total, so that they can be added by eye.
    let digits = Digits::Decimals(decimals_in(&total.cells));
    let mut columns = vec![
        speeds(run, points),
        total,
        Column::numbers("/weight", "", fixed(&share, 3)),
        Column::field(&fields::EFFECTIVE_POWER, points, run.units).named("effective"),
    ];
    let is_there = |field: &Field<Point>| {
        points.iter().any(|point| field.si(point).is_some_and(|force_n| force_n != 0.0))
    };
    let parts = [
        fields::PRESSURE_DRAG,
        fields::FRICTION_DRAG,
        fields::SPRAY_DRAG,
        Field { label: "planes", ..fields::PLANE_DRAG },
        fields::AIR_DRAG,
        fields::APPENDAGE_DRAG,
        fields::HUMP_DRAG,
        fields::SIDE_FRICTION,
    ];
    for part in parts.into_iter().filter(is_there) {
        columns.push(Column::field(&Field { digits, ..part }, points, run.units));
    }
    let wet = is_there(&fields::SIDE_FRICTION);
    let notes =
        [Some(TOTALS), wet.then_some(SIDES)].into_iter().flatten().map(str::to_owned).collect();
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
pub fn planes(run: &RunText<'_>, set: &Set) -> Vec<Block> {
    let points = &set.points;
    if !points.iter().any(|p| p.running.is_some_and(|r| r.lift_per_degree.is_some())) {
        return Vec::new();
    }
    let weight = run.boat.weight().force();
    let share = numbers(points, &|r| 100.0 * (r.plane_lift / weight).value);
    let column = |field| Column::field(field, points, run.units);
    let mut columns = vec![speeds(run, points)];
    if share.iter().flatten().any(|&share| share != 0.0) {
        columns.extend([
            column(&fields::PLANE_LIFT),
            Column::numbers("of weight", "%", fixed(&share, 1)),
            column(&fields::PLANE_DRAG),
        ]);
    }
    columns.extend([&fields::LIFT_PER_DEGREE, &fields::TRIM_PER_DEGREE].map(column));
    under(titled(run, set, "What the planes do"), columns)
}

/// Trim beside the porpoising limits; nothing where she runs at no speed.
#[must_use]
pub fn porpoising(run: &RunText<'_>, set: &Set) -> Vec<Block> {
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
        Column::field(&fields::TRIM, points, run.units),
        Column::numbers(
            "limit, Day & Haag",
            "deg",
            fixed(&numbers(points, &|r| r.porpoising.day_haag_deg), 1),
        ),
        Column::numbers("limit, Celano", "deg", celano.collect()),
        Column::field(&fields::PORPOISING_MARGIN, points, run.units).named("margin to the lower"),
        Column::words("trim is", verdicts.collect()),
    ];
    under(titled(run, set, "Porpoising"), columns)
}
