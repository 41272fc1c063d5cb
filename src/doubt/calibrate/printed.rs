//! The printed values, each beside what is computed and what would move that.

use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::models::{Model, TABLE_1};
use crate::balance::{Method, ModelForm};
use crate::doubt::inputs::What;
use crate::hydro::{lift, pressure_centre};

/// The factors on the form of the model, in the order of every array here.
pub const FACTORS: [What; 3] = [What::Lift, What::CentreOfPressure, What::Resistance];

/// Wetted lengths, in beams, within which the plate's report is accurate and the equation tested.
const TESTED_LENGTH_RATIO: std::ops::RangeInclusive<f64> = 0.5..=4.0;

const PLATE: &str = include_str!("../../../data/published/WeinsteinKapryan1953FlatPlate.csv");
const RESULTS: &str = include_str!("../../../data/published/Savitsky1964Results.csv");

/// A published source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A flat plate in a tank.
    WeinsteinKapryan1953,
    /// An example worked by hand with the same equations.
    Savitsky1964,
    /// A towed model.
    Fridsma1969,
}

impl Source {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::WeinsteinKapryan1953, Self::Savitsky1964, Self::Fridsma1969];

    /// Author, year and what it is.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::WeinsteinKapryan1953 => "Weinstein & Kapryan 1953, flat plate in a tank",
            Self::Savitsky1964 => "Savitsky 1964, example worked by hand",
            Self::Fridsma1969 => "Fridsma 1969, model A in smooth water",
        }
    }
}

/// A printed value with what is computed.
#[derive(Clone, Debug, PartialEq)]
pub struct Printed {
    /// Where it stands.
    pub source: Source,
    /// What it is.
    pub name: String,
    /// What is printed.
    pub printed: f64,
    /// What is computed.
    pub computed: f64,
    /// Change of its logarithm for that of each factor.
    pub slopes: [f64; 3],
    /// Share of the square of its difference that is put down to each factor.
    pub put_down_to: [f64; 3],
}

impl Printed {
    /// Logarithm of printed over computed.
    #[must_use]
    pub fn log_ratio(&self) -> f64 {
        (self.printed / self.computed).ln()
    }
}

/// All printed values that say something of the form of the model.
#[must_use]
pub fn printed() -> Vec<Printed> {
    let mut all = plate();
    all.extend(example());
    all.extend(model());
    all
}

pub(super) fn rows<Row: DeserializeOwned>(text: &str) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.deserialize().collect::<Result<_, _>>().expect("the published data is sound")
}

#[derive(Deserialize)]
struct PlateRow {
    trim_deg: f64,
    speed_coefficient: f64,
    wetted_length_ratio: f64,
    lift_coefficient: f64,
}

/// Lift of a flat plate.
fn plate() -> Vec<Printed> {
    let tested = |row: &PlateRow| TESTED_LENGTH_RATIO.contains(&row.wetted_length_ratio);
    let value = |row: PlateRow| Printed {
        source: Source::WeinsteinKapryan1953,
        name: format!(
            "lift at Cv {:.2}, wetted {:.2} beams",
            row.speed_coefficient, row.wetted_length_ratio
        ),
        printed: row.lift_coefficient,
        computed: lift::flat_plate(row.trim_deg, row.wetted_length_ratio, row.speed_coefficient),
        slopes: [1.0, 0.0, 0.0],
        put_down_to: [1.0, 0.0, 0.0],
    };
    rows(PLATE).into_iter().filter(tested).map(value).collect()
}

#[derive(Deserialize)]
struct TableRow {
    trim_deg: f64,
    flat_plate_lift_coefficient: f64,
    wetted_length_ratio: f64,
    centre_of_pressure_share: f64,
}

#[derive(Deserialize)]
struct ResultRow {
    case: String,
    trim_deg: f64,
    drag_lbf: f64,
}

/// The worked example: lift and centres of pressure of its table, trim and drag of both its cases.
fn example() -> Vec<Printed> {
    let source = Source::Savitsky1964;
    let general = Model::savitsky_1964(Method::General1964);
    let table: Vec<TableRow> = rows(TABLE_1);
    let first = &table[0];
    let mut all = vec![Printed {
        source,
        name: "flat-plate lift coefficient".to_owned(),
        printed: first.flat_plate_lift_coefficient,
        computed: general.flat_plate_lift_coefficient(),
        slopes: [1.0, 0.0, 0.0],
        put_down_to: [1.0, 0.0, 0.0],
    }];
    all.extend(table.iter().map(|row| Printed {
        source,
        name: format!("centre of pressure at {} deg", row.trim_deg),
        printed: row.centre_of_pressure_share,
        computed: pressure_centre::share_of_wetted_length(
            row.wetted_length_ratio,
            general.speed_coefficient(),
        ),
        slopes: [0.0, 1.0, 0.0],
        put_down_to: [0.0, 1.0, 0.0],
    }));
    let results: Vec<ResultRow> = rows(RESULTS);
    for row in results {
        let method =
            if row.case == "general" { Method::General1964 } else { Method::Concurrent1964 };
        let drag_n = row.drag_lbf * crate::units::factor::N_PER_POUND_FORCE;
        let model = Model::savitsky_1964(method);
        all.extend(balanced(source, &row.case, &model, [row.trim_deg, drag_n]));
    }
    all
}

/// The towed model.
fn model() -> Vec<Printed> {
    let (model, printed) = Model::fridsma_1969();
    balanced(Source::Fridsma1969, "model A", &model, printed)
}

/// Trim and resistance of a balance.
fn balanced(source: Source, case: &str, model: &Model, printed: [f64; 2]) -> Vec<Printed> {
    /// Step of the logarithm of a factor for its slope.
    const STEP: f64 = 1e-3;
    let published = model.run(ModelForm::PUBLISHED);
    let slopes = [0, 1, 2].map(|factor| {
        let run = |step: f64| {
            let mut factors = [1.0; 3];
            factors[factor] = step.exp();
            let [lift, centre_of_pressure, resistance] = factors;
            model.run(ModelForm { lift, centre_of_pressure, resistance, ..ModelForm::PUBLISHED })
        };
        let (low, high) = (run(-STEP), run(STEP));
        [0, 1].map(|answer| (high[answer] / low[answer]).ln() / (2.0 * STEP))
    });
    let value = |answer: usize, name: &str, put_down_to: [f64; 3]| Printed {
        source,
        name: format!("{name}, {case}"),
        printed: printed[answer],
        computed: published[answer],
        slopes: slopes.map(|slope| slope[answer]),
        put_down_to,
    };
    vec![value(0, "running trim", [0.5, 0.5, 0.0]), value(1, "resistance", [0.0, 0.0, 1.0])]
}
