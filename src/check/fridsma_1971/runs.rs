//! All runs at hand, speed by speed: how the equations stand to them, and whether the middle of the range that is shown does.

use serde::Deserialize;

use super::{DataFile, SOURCE, model_displacement_length_ratio};
use crate::check::{Case, CheckError, Comparison, Tolerance};
use crate::hydro::seaway::{
    Groups, added_resistance_over_weight, bow_over_centre, centre_acceleration_g, range,
};
use crate::numeric::LIKELY_DEVIATIONS;

const RUNS: DataFile = DataFile {
    name: "Fridsma1971Runs.csv",
    text: include_str!("../../../data/published/Fridsma1971Runs.csv"),
};

/// V/√L of the runs, to the nearest of the three.
const SPEED_LENGTH_RATIOS: [f64; 3] = [2.0, 4.0, 6.0];
/// Standard errors that the mean of a few runs may lie from the middle of the range: nineteen in twenty do not.
const STANDARD_ERRORS: f64 = 2.0;

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    #[serde(rename = "run")]
    _run: u32,
    #[serde(rename = "configuration")]
    _configuration: String,
    length_beam_ratio: f64,
    deadrise_deg: f64,
    load_coefficient: f64,
    trim_deg: f64,
    speed_length_ratio: f64,
    wave_height_beam_ratio: f64,
    added_resistance_over_cube: f64,
    centre_acceleration_g: f64,
    bow_acceleration_g: f64,
}

/// What is measured, what the equation gives, and the factors that bound its range.
struct Beside {
    measured: f64,
    computed: f64,
    range: [f64; 2],
}

/// A quantity of the runs.
struct Quantity {
    of_equation: &'static str,
    of_middle: &'static str,
    unit: &'static str,
    beside: fn(&Row) -> Beside,
}

const QUANTITIES: [Quantity; 3] = [
    Quantity {
        of_equation: "peak at centre: equation",
        of_middle: "peak at centre: middle",
        unit: "g",
        beside: centre,
    },
    Quantity {
        of_equation: "peak at bow: equation",
        of_middle: "peak at bow: middle",
        unit: "g",
        beside: bow,
    },
    Quantity {
        of_equation: "added resistance: equation",
        of_middle: "added resistance: middle",
        unit: "w b^3",
        beside: added_resistance,
    },
];

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let rows: Vec<Row> = RUNS.rows()?;
    let mut all = Vec::new();
    for ratio in SPEED_LENGTH_RATIOS {
        let near = |row: &&Row| (row.speed_length_ratio - ratio).abs() < 0.5;
        let at_speed: Vec<Row> = rows.iter().filter(near).cloned().collect();
        for quantity in &QUANTITIES {
            all.extend(of(ratio, &at_speed, quantity));
        }
    }
    Ok(all)
}

/// Geometric means over the runs at a speed: the equation beside the tank, for information, and the middle of its range, judged.
fn of(ratio: f64, rows: &[Row], quantity: &Quantity) -> [Comparison; 2] {
    let all: Vec<Beside> = rows.iter().map(quantity.beside).collect();
    let mean = |value: &dyn Fn(&Beside) -> f64| geometric_mean(all.iter().map(value));
    let middle = |one: &Beside| one.computed * (one.range[0] * one.range[1]).sqrt();
    let measured = to_four_digits(mean(&|one| one.measured));
    let deviation = mean(&|one| (one.range[1] / one.range[0]).sqrt()).ln() / LIKELY_DEVIATIONS;
    let allowed = STANDARD_ERRORS * deviation / count(&all).sqrt();
    let case = Case::new(SOURCE, format!("V/sqrt L {ratio}, {} runs", all.len()));
    let equation = [measured, mean(&|one| one.computed)];
    let middle = [measured, mean(&middle)];
    let tolerance = Tolerance::Relative(allowed);
    [
        case.compare(quantity.of_equation, quantity.unit, equation, tolerance)
            .with_note(how_far(&all, quantity, ratio))
            .for_information(),
        case.compare(quantity.of_middle, quantity.unit, middle, tolerance).with_note(MIDDLE),
    ]
}

const MIDDLE: &str = "The middle of the range that `seaway` shows, which counts in how far all 65 runs of the report lie from the equation at \
    this speed. Geometric means; tolerance: two standard errors of so few runs.";

/// Scatter and coverage in words: the difference shown beside it is the bias.
fn how_far(all: &[Beside], quantity: &Quantity, ratio: f64) -> String {
    let name = quantity.of_equation.trim_end_matches(": equation");
    let squares = all.iter().map(|one| (one.computed / one.measured - 1.0).powi(2));
    let rms_percent = 100.0 * (squares.sum::<f64>() / count(all)).sqrt();
    let within = all.iter().filter(|one| one.is_within()).count();
    format!(
        "{name} at V/sqrt L {ratio}: the difference of the geometric means is the bias of the equation; rms of the runs \
         {rms_percent:.0} %; {within} of {} within the range shown for nine in ten.",
        all.len()
    )
}

impl Beside {
    fn is_within(&self) -> bool {
        let [low, high] = self.range.map(|factor| factor * self.computed);
        (low..=high).contains(&self.measured)
    }
}

#[allow(clippy::cast_precision_loss)]
fn count(all: &[Beside]) -> f64 {
    all.len() as f64
}

fn geometric_mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, count) = values.fold((0.0, 0.0), |(sum, count), x| (sum + x.ln(), count + 1.0));
    (sum / count).exp()
}

/// A mean of values of two and three digits has no more than four.
fn to_four_digits(value: f64) -> f64 {
    format!("{value:.3e}").parse().unwrap_or(value)
}

fn groups(row: &Row) -> Groups {
    Groups {
        displacement_length_ratio: model_displacement_length_ratio(
            row.load_coefficient,
            row.length_beam_ratio,
        ),
        load_coefficient: row.load_coefficient,
        length_beam_ratio: row.length_beam_ratio,
        deadrise_deg: row.deadrise_deg,
        trim_deg: row.trim_deg,
        wave_height_beam_ratio: row.wave_height_beam_ratio,
        speed_length_ratio: row.speed_length_ratio,
    }
}

fn centre(row: &Row) -> Beside {
    Beside {
        measured: row.centre_acceleration_g,
        computed: centre_acceleration_g(&groups(row)),
        range: range::centre(row.speed_length_ratio),
    }
}

fn bow(row: &Row) -> Beside {
    let groups = groups(row);
    Beside {
        measured: row.bow_acceleration_g,
        computed: centre_acceleration_g(&groups) * bow_over_centre(&groups),
        range: range::bow(row.speed_length_ratio),
    }
}

/// The speed held to the ends of 2 to 6, from which runs lie a hundredth or two.
fn added_resistance(row: &Row) -> Beside {
    let [slowest, _, fastest] = SPEED_LENGTH_RATIOS;
    let held = row.speed_length_ratio.clamp(slowest, fastest);
    let share = added_resistance_over_weight(&Groups { speed_length_ratio: held, ..groups(row) });
    Beside {
        measured: row.added_resistance_over_cube,
        computed: share.map_or(f64::NAN, |share| share * row.load_coefficient),
        range: range::added_resistance(row.speed_length_ratio),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fridsma (1971): of the 18 runs at hand, all peaks and 17 added resistances lie within the ranges for nine in ten.
    #[test]
    fn published_nine_in_ten_runs_lie_within_the_range_shown() {
        let rows: Vec<Row> = RUNS.rows().unwrap();
        assert_eq!(rows.len(), 18);
        let within = |quantity: &Quantity| {
            rows.iter().filter(|row| (quantity.beside)(row).is_within()).count()
        };
        assert_eq!(QUANTITIES.each_ref().map(within), [18, 18, 17]);
    }

    /// What is taken as one standard deviation of the added resistance is about one: two in three of 18 are 12.
    #[test]
    fn published_one_standard_deviation_holds_two_in_three_runs() {
        let rows: Vec<Row> = RUNS.rows().unwrap();
        let within = rows.iter().map(added_resistance).filter(|one| {
            let deviation = one.range[1].powf(1.0 / LIKELY_DEVIATIONS) - 1.0;
            (one.measured / one.computed - 1.0).abs() <= deviation
        });
        assert_eq!(within.count(), 12);
    }
}
