//! The arrows of the forces, and what they stand for.

use uom::si::force::newton;
use uom::si::length::meter;

use super::Scene;
use super::pen;
use super::pose::Pose;
use super::shape::{Metres, Shape};
use super::style::{FORCE_HEAD, TEXT_PX};
use crate::balance::{Budget, Contribution};
use crate::drawing::geometry::{distance, minus, plus, times, unit};
use crate::drawing::{Anchor, Drawing, INK, PAPER, Point, View};
use crate::units::{ForceUnit, UnitChoice, number_with_decimals};

/// Length of the arrow of the weight, as a share of the width of the picture.
const WEIGHT_SHARE: f64 = 0.115;
/// How many times longer forces are drawn that are small beside the weight.
const SMALL_FORCES_LONGER: f64 = 4.0;
/// Share of the weight under which a force is small.
const SMALL: f64 = 0.25;
/// Shortest arrow, pixels.
const SHORTEST_PX: f64 = 16.0;
/// Gap between an arrow's tail and the ring of its letter, pixels.
const RING_PX: f64 = 12.0;
/// Width of an entry of the key, pixels.
const ENTRY_PX: f64 = 232.0;

/// The letter of a force by its place in the budget: A, B, C …
#[must_use]
pub fn letter(place: usize) -> char {
    ('A'..='Z').nth(place).unwrap_or('+')
}

fn magnitude_n(force: &Contribution) -> f64 {
    force.forward.get::<newton>().hypot(force.up.get::<newton>())
}

/// `46.5 kN` or `8214 N`, as the unit asks.
pub(super) fn magnitude_text(force: &Contribution, units: UnitChoice) -> String {
    let unit = units.force;
    let value = unit.value(uom::si::f64::Force::new::<newton>(magnitude_n(force)));
    let decimals = if unit == ForceUnit::Kilonewton { 2 } else { 0 };
    format!("{} {}", number_with_decimals(value, decimals), unit.symbol())
}

/// Height that the key takes.
pub(super) fn key_height_px(budget: &Budget, width_px: f64) -> f64 {
    let columns = (width_px / ENTRY_PX).floor().max(1.0);
    let rows = (budget.contributions.len() as f64 / columns).ceil();
    34.0 + 22.0 * rows
}

/// One arrow on the sheet.
struct Arrow {
    tail: Point,
    tip: Point,
    /// Whether its tail stands where the force acts.
    pulls: bool,
}

/// Draws every force where it acts, each with its letter.
pub(super) fn draw(art: &mut Drawing, scene: &Scene<'_>, shape: &Shape, pose: &Pose, view: &View) {
    let Some(budget) = scene.budget else { return };
    let weight_n = scene.boat.weight().force().get::<newton>();
    art.part("picture-forces", |art| {
        centre_of_gravity(art, scene, pose, view);
        let mut taken: Vec<Point> = Vec::new();
        for (place, force) in budget.contributions.iter().enumerate() {
            let arrow = arrow(force, weight_n, scene.frame.width_px(), shape, pose, view);
            FORCE_HEAD.arrow(art, arrow.tail, arrow.tip, pen::FORCE_LINE);
            let ring = free_spot(&arrow, &taken);
            balloon(art, ring, letter(place));
            taken.push(ring);
        }
    });
}

/// A letter in a ring.
fn balloon(art: &mut Drawing, at: Point, letter: char) {
    art.circle(at, 9.5, Some(pen::EDGE), Some(PAPER));
    art.text(at, 12.5, Anchor::Middle, &letter.to_string());
}

/// Where the arrow stands: pushing forces with their tip where they act, pulling ones with their tail there.
fn arrow(
    force: &Contribution,
    weight_n: f64,
    width_px: f64,
    shape: &Shape,
    pose: &Pose,
    view: &View,
) -> Arrow {
    let share = magnitude_n(force) / weight_n;
    let longer = if share < SMALL { SMALL_FORCES_LONGER } else { 1.0 };
    let long_px = (share * longer * WEIGHT_SHARE * width_px).max(SHORTEST_PX);
    let size_n = magnitude_n(force).max(f64::MIN_POSITIVE);
    // Down the sheet is positive.
    let way = [force.forward.get::<newton>() / size_n, -force.up.get::<newton>() / size_n];
    let place = view.at(pose.at(acts_at(force, shape)));
    let along = |from: Point, px: f64| plus(from, times(way, px));
    if way[1] > 0.7 || way[0] < -0.7 {
        Arrow { tail: place, tip: along(place, long_px), pulls: true }
    } else {
        Arrow { tail: along(place, -long_px), tip: place, pulls: false }
    }
}

/// Where a force is drawn. A force may be moved along its line: the thrust is drawn at the transom.
fn acts_at(force: &Contribution, shape: &Shape) -> Metres {
    let at = [force.acts_forward.get::<meter>(), force.acts_above_keel.get::<meter>()];
    if force.name == "thrust" { [-0.02 * shape.overall_m, at[1]] } else { at }
}

/// A place for the letter at the free end, else at the other, else further out.
fn free_spot(arrow: &Arrow, taken: &[Point]) -> Point {
    let way = unit(minus(arrow.tip, arrow.tail));
    let beside = |from: Point, px: f64| plus(from, times(way, px));
    let ends = |px: f64| {
        let (tail, tip) = (beside(arrow.tail, -px), beside(arrow.tip, px));
        if arrow.pulls { [tip, tail] } else { [tail, tip] }
    };
    let [near, far] = [ends(RING_PX), ends(3.0 * RING_PX)];
    let candidates = [near[0], near[1], far[0], far[1]];
    let is_free = |at: &Point| taken.iter().all(|other| distance(*at, *other) > 2.0 * RING_PX);
    candidates.into_iter().find(is_free).unwrap_or(candidates[0])
}

/// The usual sign of a centre of gravity.
fn centre_of_gravity(art: &mut Drawing, scene: &Scene<'_>, pose: &Pose, view: &View) {
    let weight = scene.boat.weight();
    let at = view.at(pose.at([weight.lcg.get::<meter>(), weight.vcg.get::<meter>()]));
    let radius = 7.0;
    let quarter = |from: f64| -> Vec<Point> {
        let arc = (0..=8).map(|step| {
            let (sin, cos) = (from + 90.0 * f64::from(step) / 8.0).to_radians().sin_cos();
            [at[0] + radius * cos, at[1] + radius * sin]
        });
        std::iter::once(at).chain(arc).collect()
    };
    art.circle(at, radius, Some(pen::EDGE), Some(PAPER));
    for from in [0.0, 180.0] {
        art.shape(&quarter(from), None, Some(INK));
    }
}

/// What each letter stands for, in columns from `top` down.
pub(super) fn key(art: &mut Drawing, scene: &Scene<'_>, budget: &Budget, top: f64) {
    let columns = (scene.frame.width_px() / ENTRY_PX).floor().max(1.0) as usize;
    art.part("picture-key", |art| {
        for (place, force) in budget.contributions.iter().enumerate() {
            let x = 16.0 + ENTRY_PX * (place % columns) as f64;
            let y = top + 14.0 + 22.0 * (place / columns) as f64;
            balloon(art, [x, y], letter(place));
            let text = format!("{} {}", force.name, magnitude_text(force, scene.units));
            art.text([x + 15.0, y], TEXT_PX, Anchor::Start, &text);
        }
        let rows = budget.contributions.len().div_ceil(columns);
        let note = format!(
            "Forces below a quarter of the weight are drawn {SMALL_FORCES_LONGER:.0} times longer."
        );
        let y = top + 18.0 + 22.0 * rows as f64;
        art.text([7.0, y], 12.0, Anchor::Start, &note);
    });
}
