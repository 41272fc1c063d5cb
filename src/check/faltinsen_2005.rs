//! Restoring coefficients of a planing prism (Faltinsen 2005): slopes of lift and centre of pressure in heave and pitch.
//!
//! The boat is held at constant speed, lifted a little, and turned bow up a
//! little about her centre of gravity. What the vertical force and the pitch
//! moment lose for each is what restores her: C33 and C53 for heave, C35 and
//! C55 for pitch, the first figure being what answers. Wetted keel and chine
//! follow the keel's depth and slope; friction is left out.

use std::f64::consts::PI;

use serde::Deserialize;

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::hydro::{lift, pressure_centre, wetted};

const SOURCE: &str = "Faltinsen (2005), Hydrodynamics of High-Speed Marine Vehicles, 9.26";

const DATA: DataFile = DataFile {
    name: "Faltinsen2005Restoring.csv",
    text: include_str!("../../data/published/Faltinsen2005Restoring.csv"),
};

/// Half of the last digit printed.
const HALF_DIGIT: Tolerance = Tolerance::Absolute(0.0005);
/// One unit of the last digit printed.
const ONE_DIGIT: Tolerance = Tolerance::Absolute(0.001);
/// Step of the differences, in beams and radians.
const STEP: f64 = 1e-5;

const AS_THE_BOOK: &str = "To the printed digit when wetted keel and chine differ by tan(deadrise)/(pi x trim in radians), for small trims, as the \
    book has it. Heave does not ask for that difference.";
const LAST_DIGIT: &str = "As above; one unit of the last digit, by how the book rounds on its way.";
const WITH_TANGENT: &str = "With the program's own difference of wetted keel and chine, tan(deadrise)/(pi tan(trim)): at 6 deg of trim it is 0.4 % \
    less, which is the whole change. For information.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    deadrise_deg: f64,
    trim_deg: f64,
    wetted_length_ratio: f64,
    speed_coefficient: f64,
    lcg_beam_ratio: f64,
    vcg_beam_ratio: f64,
    c33: f64,
    c35: f64,
    c53: f64,
    c55: f64,
}

/// Wetted keel less wetted chine over the beam, from deadrise and trim in degrees.
type KeelMinusChine = fn(f64, f64) -> f64;

/// C33, C35, C53 and C55 over ρ g b², b³, b³ and b⁴.
type Restoring = [f64; 4];

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let row: Row = DATA.row("the prism", |_| true)?;
    let as_the_book = restoring(&row, small_trims);
    let with_tangent = restoring(&row, wetted::keel_minus_chine);
    let mut all = Vec::from(beside(&row, "small trims", as_the_book, AS_THE_BOOK));
    if let Some(last) = all.last_mut() {
        last.tolerance = ONE_DIGIT;
        last.note = Some(LAST_DIGIT.into());
    }
    let own = beside(&row, "as the program", with_tangent, WITH_TANGENT);
    all.extend(own.map(Comparison::for_information));
    Ok(all)
}

fn beside(row: &Row, name: &str, computed: Restoring, note: &'static str) -> [Comparison; 4] {
    let case = Case::new(SOURCE, name);
    let printed = [row.c33, row.c35, row.c53, row.c55];
    let names = ["C33/(rho g b^2)", "C35/(rho g b^3)", "C53/(rho g b^3)", "C55/(rho g b^4)"];
    [0, 1, 2, 3].map(|index| {
        let values = [printed[index], computed[index]];
        case.compare(names[index], "", values, HALF_DIGIT).with_note(note)
    })
}

/// (1/π) tan β/τ: the difference for small trims, τ in radians.
fn small_trims(deadrise_deg: f64, trim_deg: f64) -> f64 {
    deadrise_deg.to_radians().tan() / (PI * trim_deg.to_radians())
}

/// Minus the change of vertical force and pitch moment with heave up and pitch bow up, by central differences.
fn restoring(row: &Row, keel_minus_chine: KeelMinusChine) -> Restoring {
    let trim = row.trim_deg.to_radians();
    let keel = row.wetted_length_ratio + 0.5 * keel_minus_chine(row.deadrise_deg, row.trim_deg);
    // Height of the centre of gravity above the water, in beams.
    let height = row.vcg_beam_ratio * trim.cos() - (keel - row.lcg_beam_ratio) * trim.sin();
    let at = |heave: f64, pitch: f64| {
        let (height, trim) = (height + heave, trim + pitch);
        let keel = row.lcg_beam_ratio + (row.vcg_beam_ratio * trim.cos() - height) / trim.sin();
        let trim_deg = trim.to_degrees();
        let lambda = keel - 0.5 * keel_minus_chine(row.deadrise_deg, trim_deg);
        force_and_moment(row, trim_deg, lambda)
    };
    let slope = |ahead: [f64; 2], behind: [f64; 2]| {
        [0, 1].map(|index| -(ahead[index] - behind[index]) / (2.0 * STEP))
    };
    let [c33, c53] = slope(at(STEP, 0.0), at(-STEP, 0.0));
    let [c35, c55] = slope(at(0.0, STEP), at(0.0, -STEP));
    [c33, c35, c53, c55]
}

/// Vertical force over ρ g b³, and its moment about the centre of gravity over ρ g b⁴, bow up positive.
fn force_and_moment(row: &Row, trim_deg: f64, lambda: f64) -> [f64; 2] {
    let flat = lift::flat_plate(trim_deg, lambda, row.speed_coefficient);
    let force = 0.5 * row.speed_coefficient.powi(2) * lift::with_deadrise(flat, row.deadrise_deg);
    let centre = lambda * pressure_centre::share_of_wetted_length(lambda, row.speed_coefficient);
    [force, force * (centre - row.lcg_beam_ratio)]
}
