//! Tables 1 and 2: where the boat of the worked example settles.

use serde::Deserialize;
use uom::si::angle::degree;
use uom::si::f64::Angle;
use uom::si::{force::newton, power::watt, velocity::meter_per_second};

use super::boat::{self, Example, Given};
use super::{Case, CheckError, Comparison, DataFile, SOURCE, TWO_DENSITIES, Tolerance, table_1};
use crate::balance::forces::Prism;
use crate::balance::{Balance, LiftModel, Method, Running, Settings};
use crate::hydro::wetted;
use crate::units::factor::{N_PER_POUND_FORCE, W_PER_HORSEPOWER};

const LOADING: DataFile = DataFile {
    name: "Savitsky1964Loading.csv",
    text: include_str!("../../../data/published/Savitsky1964Loading.csv"),
};
const RESULTS: DataFile = DataFile {
    name: "Savitsky1964Results.csv",
    text: include_str!("../../../data/published/Savitsky1964Results.csv"),
};

/// Half of the last digit printed, for numbers printed to 0.01.
const HALF_HUNDREDTH: Tolerance = Tolerance::Absolute(0.005);
/// Half of the last digit printed, for numbers printed to 0.001.
const HALF_THOUSANDTH: Tolerance = Tolerance::Absolute(0.0005);
/// One digit of the author's own reading of his figure.
const PORPOISING: Tolerance = Tolerance::Absolute(0.1);
/// Half of the last digit of the general case's 2.3°; also what the charts leave of the concurrent case's 2.23°.
const TRIM: Tolerance = Tolerance::Absolute(0.05);
/// Resistance, power, and the wetted length that carries most of it.
const RESULT: Tolerance = Tolerance::Relative(0.01);
/// A formula from two printed numbers of three digits.
const WETTED_LENGTH: Tolerance = Tolerance::Relative(0.005);

const ROUNDED_TRIM: &str = "The paper rounds its interpolated trim to 2.3 deg.";
const PARABOLA: &str = "Not printed: where a parabola through the three printed residual moments is zero, to a hundredth.";
const LENGTH_AT_ROUNDED_TRIM: &str =
    "Belongs to the paper's rounded 2.3 deg, not to the balance; not judged.";
const FROM_PRINTED: &str = "From the printed wetted length / beam and trim.";
const READ_BY_AUTHOR: &str = "The author's reading of the Day & Haag (1952) curves in his figure 18, and the only limit that is printed. The \
    program interpolates a machine's reading of the drawn curves, 0.3 deg more or less: this checks one point of that \
    reading, not the curves.";
const FULL_BALANCE: &str = "All forces, where the paper's general case leaves small ones out; beside the general case as printed. Shuford's \
    lift is from memory. Not judged.";
const CONCURRENT_POWER: &str =
    "The printed drag and speed give 1106 hp; the paper prints 1100. Densities as for the drag.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Loading {
    speed_coefficient: f64,
    lift_coefficient: f64,
    root_of_half_lift_coefficient: f64,
    porpoising_limit_deg: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Printed {
    case: String,
    trim_deg: f64,
    wetted_length_ratio: f64,
    drag_lbf: f64,
    effective_power_hp: f64,
    wetted_keel_ft: Option<f64>,
    wetted_chine_ft: Option<f64>,
    draft_ft: Option<f64>,
}

pub(super) fn comparisons(example: &Example) -> Result<Vec<Comparison>, CheckError> {
    let general_run = run(example, Method::General1964)?;
    let mut all = Vec::from(loading(example, &general_run)?);
    all.extend(general(example, &general_run)?);
    all.extend(concurrent(&run(example, Method::Concurrent1964)?)?);
    for model in LiftModel::ALL {
        let settings = Settings { model, ..example.settings(Method::Full) };
        all.extend(full(model, &balanced(example, &settings)?)?);
    }
    Ok(all)
}

fn run(example: &Example, method: Method) -> Result<Running, CheckError> {
    balanced(example, &example.settings(method))
}

fn balanced(example: &Example, settings: &Settings) -> Result<Running, CheckError> {
    let point = Balance::of(&example.boat, settings)
        .point(example.speed(), Angle::new::<degree>(0.0))
        .map_err(|fault| CheckError::Boat { case: boat::CASE, faults: fault.into() })?;
    point.running.ok_or(CheckError::NotRunning { case: boat::CASE, outcome: point.outcome })
}

fn loading(example: &Example, running: &Running) -> Result<[Comparison; 4], CheckError> {
    let row: Loading = LOADING.row("the boat", |_| true)?;
    let prism = Prism::new(&example.boat, &example.settings(Method::General1964));
    let condition = prism.at(example.speed().get::<meter_per_second>());
    let coefficient = prism.weight_n / condition.area_pressure_n();
    let case = Case::new(SOURCE, "speed and load");
    let speed = [row.speed_coefficient, condition.speed_coefficient];
    let lift = [row.lift_coefficient, coefficient];
    let root = [row.root_of_half_lift_coefficient, (0.5 * coefficient).sqrt()];
    let limit = [row.porpoising_limit_deg, running.porpoising.day_haag_deg];
    Ok([
        case.compare("speed coefficient", "", speed, HALF_HUNDREDTH),
        case.compare("lift coefficient", "", lift, HALF_THOUSANDTH),
        case.compare("sqrt(lift coefficient / 2)", "", root, HALF_THOUSANDTH),
        case.compare("porpoising limit", "deg", limit, PORPOISING).with_note(READ_BY_AUTHOR),
    ])
}

fn general(example: &Example, running: &Running) -> Result<Vec<Comparison>, CheckError> {
    let printed: Printed = RESULTS.row("general", |row: &Printed| row.case == "general")?;
    let case = Case::new(SOURCE, "general case");
    let trim_deg = running.trim.get::<degree>();
    let length = [printed.wetted_length_ratio, running.wetted_length_ratio];
    let hundredths = (100.0 * table_1::interpolated_trim_deg()?).round();
    let interpolated = [hundredths / 100.0, trim_deg];
    let mut all = vec![
        case.compare("running trim", "deg", [printed.trim_deg, trim_deg], TRIM)
            .with_note(ROUNDED_TRIM),
        case.compare("trim, interpolated", "deg", interpolated, TRIM).with_note(PARABOLA),
        case.compare("wetted length / beam", "", length, RESULT)
            .with_note(LENGTH_AT_ROUNDED_TRIM)
            .for_information(),
    ];
    all.extend(drag_and_power(&case, &printed, running));
    all.extend(wetted_lengths(&case, &printed, &example.given)?);
    Ok(all)
}

fn concurrent(running: &Running) -> Result<Vec<Comparison>, CheckError> {
    let printed: Printed = RESULTS.row("concurrent", |row: &Printed| row.case == "concurrent")?;
    let case = Case::new(SOURCE, "concurrent case");
    let trim = [printed.trim_deg, running.trim.get::<degree>()];
    let length = [printed.wetted_length_ratio, running.wetted_length_ratio];
    let [drag, power] = drag_and_power(&case, &printed, running);
    Ok(vec![
        case.compare("running trim", "deg", trim, TRIM),
        case.compare("wetted length / beam", "", length, RESULT),
        drag,
        power.with_note(CONCURRENT_POWER),
    ])
}

/// The full balance by a lift model, beside the general case: for information, since the paper knows neither.
fn full(model: LiftModel, running: &Running) -> Result<[Comparison; 3], CheckError> {
    let printed: Printed = RESULTS.row("general", |row: &Printed| row.case == "general")?;
    let case = Case::new(SOURCE, format!("full balance, {}", model.name()));
    let trim = [printed.trim_deg, running.trim.get::<degree>()];
    let length = [printed.wetted_length_ratio, running.wetted_length_ratio];
    let [drag, _] = drag_and_power(&case, &printed, running);
    let trim = case.compare("running trim", "deg", trim, TRIM);
    let length = case.compare("wetted length / beam", "", length, RESULT);
    Ok([trim, length, drag].map(|each| each.with_note(FULL_BALANCE).for_information()))
}

fn drag_and_power(case: &Case, printed: &Printed, running: &Running) -> [Comparison; 2] {
    let drag = [printed.drag_lbf, running.resistance.get::<newton>() / N_PER_POUND_FORCE];
    let power_hp = running.effective_power.get::<watt>() / W_PER_HORSEPOWER;
    [
        case.compare("drag", "lbf", drag, RESULT).with_note(TWO_DENSITIES),
        case.compare("effective power", "hp", [printed.effective_power_hp, power_hp], RESULT)
            .with_note(TWO_DENSITIES),
    ]
}

/// Wetted lengths and draft from the printed mean wetted length and trim.
fn wetted_lengths(
    case: &Case,
    printed: &Printed,
    given: &Given,
) -> Result<[Comparison; 3], CheckError> {
    let no_lengths = CheckError::NoRow { file: RESULTS.name, wanted: "wetted lengths" };
    let (Some(keel_ft), Some(chine_ft), Some(draft_ft)) =
        (printed.wetted_keel_ft, printed.wetted_chine_ft, printed.draft_ft)
    else {
        return Err(no_lengths);
    };
    let (lambda, trim_deg) = (printed.wetted_length_ratio, printed.trim_deg);
    let keel = wetted::keel(lambda, given.deadrise_deg, trim_deg);
    let chine = wetted::chine(lambda, given.deadrise_deg, trim_deg);
    let draft = wetted::draft(keel, trim_deg);
    let [keel, chine, draft] = [(keel_ft, keel), (chine_ft, chine), (draft_ft, draft)]
        .map(|(printed_ft, beams)| [printed_ft, beams * given.beam_ft]);
    Ok([
        case.compare("wetted keel", "ft", keel, WETTED_LENGTH),
        case.compare("wetted chine", "ft", chine, WETTED_LENGTH),
        case.compare("draft", "ft", draft, HALF_HUNDREDTH),
    ]
    .map(|each| each.with_note(FROM_PRINTED)))
}
