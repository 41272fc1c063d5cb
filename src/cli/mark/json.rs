//! The placement as one JSON object: SI units, angles in degrees, holes of one side; the other is its mirror image.

use serde::Serialize;
use uom::si::length::meter;

use crate::boat::degrees;
use crate::cli::strength::{CheckRecord, HeldRecord};
use crate::mark::Placement;

/// The whole placement.
#[derive(Serialize)]
pub(super) struct Record<'a> {
    /// What must be read first; null where everything holds as it comes.
    warning: Option<&'static str>,
    checks: Vec<CheckRecord>,
    hinge: HeldRecord,
    bracket: HeldRecord,
    inner_edge_along_m: f64,
    outer_edge_along_m: f64,
    inner_edge_level_m: f64,
    outer_edge_level_m: f64,
    hinge_height_m: f64,
    gauge_height_m: f64,
    retracted_deflection_deg: f64,
    full_deflection_deg: f64,
    brackets: Vec<BracketRecord>,
    holes: Vec<HoleRecord<'a>>,
    notes: Vec<&'static str>,
    caution_of_the_work: &'static str,
}

#[derive(Serialize)]
struct BracketRecord {
    pin_along_m: f64,
    pin_level_m: f64,
    pin_above_hinge_m: f64,
    pin_up_m: f64,
}

#[derive(Serialize)]
struct HoleRecord<'a> {
    name: &'a str,
    purpose: &'static str,
    along_m: f64,
    up_m: f64,
    level_m: f64,
    drill_m: f64,
    /// Null when it goes through.
    depth_m: Option<f64>,
}

impl<'a> Record<'a> {
    /// Of a placement.
    pub fn of(placement: &'a Placement) -> Self {
        let zero = uom::si::f64::Length::new::<meter>(0.0);
        let level = |along| placement.off_centre(along, zero).get::<meter>();
        let bracket = |bracket: &crate::mark::Bracket| BracketRecord {
            pin_along_m: bracket.along.get::<meter>(),
            pin_level_m: bracket.off_centre.get::<meter>(),
            pin_above_hinge_m: bracket.above_hinge.get::<meter>(),
            pin_up_m: bracket.up.get::<meter>(),
        };
        let hole = |hole: &'a crate::mark::holes::Hole| HoleRecord {
            name: &hole.name,
            purpose: hole.kind.words(),
            along_m: hole.along.get::<meter>(),
            up_m: hole.up.get::<meter>(),
            level_m: placement.off_centre(hole.along, hole.up).get::<meter>(),
            drill_m: hole.drill.get::<meter>(),
            depth_m: hole.depth.map(|depth| depth.get::<meter>()),
        };
        Self {
            warning: placement.warning(),
            checks: placement.holding.checks.iter().map(CheckRecord::from).collect(),
            hinge: HeldRecord::from(&placement.holding.bolts.hinge),
            bracket: HeldRecord::from(&placement.holding.bolts.bracket),
            inner_edge_along_m: placement.inner.get::<meter>(),
            outer_edge_along_m: placement.outer.get::<meter>(),
            inner_edge_level_m: level(placement.inner),
            outer_edge_level_m: level(placement.outer),
            hinge_height_m: placement.transom.hinge_height.get::<meter>(),
            gauge_height_m: placement.gauge.trailing_edge.get::<meter>(),
            retracted_deflection_deg: degrees(placement.travel.0),
            full_deflection_deg: degrees(placement.travel.1),
            brackets: placement.brackets.iter().map(bracket).collect(),
            holes: placement.holes.iter().map(hole).collect(),
            notes: placement.notes.iter().map(crate::mark::Note::word).collect(),
            caution_of_the_work: "Measure twice on the boat itself, look behind the transom before any hole, and follow the makers of parts, boat and sealant, local codes and licensed practice.",
        }
    }
}
