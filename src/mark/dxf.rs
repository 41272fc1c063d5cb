//! The transom from aft at full size as a DXF file: every hole on both sides.
//!
//! Millimetres in the face of the transom: to the right is starboard, up is above the keel. So the
//! holes stand where the sheet has them, to a ten-thousandth of a millimetre.

use uom::si::f64::Length;
use uom::si::length::millimeter;

use super::face::slope;
use super::holes::HoleKind;
use super::placement::Placement;
use super::say::SheetUnits;
use crate::drawing::Point;
use crate::drawing::dxf::{Dxf, Layer};

const fn layer(name: &'static str, colour: u8, dashed: bool) -> Layer {
    Layer { name, colour, dashed }
}

const EDGE: Layer = layer("BOTTOM_EDGE", 7, false);
const CENTRE: Layer = layer("CENTRELINE", 7, true);
const WATER: Layer = layer("WATERLINE", 5, true);
const THINGS: Layer = layer("IN_THE_WAY", 8, false);
const HINGE: Layer = layer("HINGE_LEAF", 3, false);
const BRACKET: Layer = layer("BRACKET", 3, false);
const PILOTS: Layer = layer("HOLES_PILOT", 1, false);
const THROUGH: Layer = layer("HOLES_THROUGH", 1, false);
const LEAD: Layer = layer("LEAD_THROUGH", 6, false);
const NAMES: Layer = layer("NAMES", 7, false);
const LAYERS: [Layer; 10] =
    [EDGE, CENTRE, WATER, THINGS, HINGE, BRACKET, PILOTS, THROUGH, LEAD, NAMES];

/// Height of letters.
const LETTER_MM: f64 = 5.0;
/// Arm of the cross for a hole of which nobody says how wide it is: a circle might be cut.
const CROSS_MM: f64 = 4.0;
/// How far edges and centreline are drawn up.
const UP_MM: f64 = 300.0;

fn mm(length: Length) -> f64 {
    length.get::<millimeter>()
}

struct Drawer<'a> {
    dxf: Dxf,
    placement: &'a Placement,
}

/// The file.
pub(super) fn file(placement: &Placement) -> String {
    let mut drawer = Drawer { dxf: Dxf::new(&LAYERS), placement };
    drawer.hull();
    drawer.things();
    for side in [-1.0, 1.0] {
        drawer.plane(side);
        drawer.holes(side);
    }
    drawer.words();
    drawer.dxf.file()
}

impl Drawer<'_> {
    fn at(&self, side: f64, along: Length, up: Length) -> Point {
        let off = mm(self.placement.off_centre(along, up));
        [side * off, mm(self.placement.above_keel(along, up))]
    }

    fn box_at(&self, side: f64, along: [Length; 2], up: [Length; 2]) -> [Point; 4] {
        [(0, 0), (1, 0), (1, 1), (0, 1)].map(|(i, j)| self.at(side, along[i], up[j]))
    }

    fn hull(&mut self) {
        let zero = Length::default();
        let keel = [0.0, 0.0];
        for side in [-1.0, 1.0] {
            let chine = self.at(side, self.placement.edge(), zero);
            self.dxf.line(EDGE, keel, chine);
            self.dxf.line(EDGE, chine, [chine[0], chine[1] + UP_MM]);
        }
        let high = mm(self.placement.top()).max(UP_MM);
        self.dxf.line(CENTRE, keel, [0.0, high]);
        if let Some(waterline) = self.placement.waterline() {
            let half = 0.5 * mm(self.placement.transom.beam);
            self.dxf.line(WATER, [-half, mm(waterline)], [half, mm(waterline)]);
        }
        if let Some(beam) = self.placement.transom.middle_beam {
            let half = 0.5 * mm(beam);
            let corners = [[-half, 0.0], [half, 0.0], [half, UP_MM], [-half, UP_MM]];
            self.dxf.outline(THINGS, &corners);
        }
    }

    fn things(&mut self) {
        let (sin, cos) = slope(&self.placement.transom);
        for thing in &self.placement.transom.obstacles {
            let (middle, half) = (mm(thing.off_centre), 0.5 * mm(thing.width));
            let base = middle.abs() * sin / cos;
            let (low, high) = (base + mm(thing.from), base + mm(thing.to));
            let (left, right) = (middle - half, middle + half);
            self.dxf.outline(THINGS, &[[left, low], [right, low], [right, high], [left, high]]);
            self.dxf.text(THINGS, [left, high + 2.0], LETTER_MM, &thing.name);
        }
    }

    fn plane(&mut self, side: f64) {
        let (placement, hinge) = (self.placement, self.placement.hinge.height);
        let leaf = hinge + placement.hardware.hinge_screws.leaf_height;
        let corners = self.box_at(side, [placement.inner, placement.outer], [hinge, leaf]);
        self.dxf.outline(HINGE, &corners);
        let screws = placement.hardware.bracket_screws;
        let half = 0.5 * screws.across + screws.edge_distance;
        for bracket in &placement.brackets {
            let along = [bracket.along - half, bracket.along + half];
            let up = [bracket.up - bracket.half_height, bracket.up + bracket.half_height];
            let corners = self.box_at(side, along, up);
            self.dxf.outline(BRACKET, &corners);
        }
    }

    fn holes(&mut self, side: f64) {
        for hole in &self.placement.holes {
            let at = self.at(side, hole.along, hole.up);
            let layer = match hole.kind {
                HoleKind::HingePilot | HoleKind::BracketPilot => PILOTS,
                HoleKind::HingeBolt | HoleKind::BracketBolt => THROUGH,
                HoleKind::Lead => LEAD,
            };
            let drill = hole.metric_drill_sold();
            match drill {
                Some(drill) => self.dxf.circle(layer, at, 0.5 * mm(drill)),
                None => self.cross(layer, at),
            }
            let reach = drill.map_or(CROSS_MM, |drill| 0.5 * mm(drill));
            let name = [at[0] + reach + 1.0, at[1] + 1.0];
            self.dxf.text(NAMES, name, 0.6 * LETTER_MM, &hole.name);
        }
    }

    fn cross(&mut self, layer: Layer, [x, y]: Point) {
        self.dxf.line(layer, [x - CROSS_MM, y], [x + CROSS_MM, y]);
        self.dxf.line(layer, [x, y - CROSS_MM], [x, y + CROSS_MM]);
    }

    fn words(&mut self) {
        let placement = self.placement;
        let sum = placement.checksum.as_deref().unwrap_or("");
        let lines = [
            format!(
                "{}: trim planes on the transom, seen from aft, 1:1, millimetres",
                placement.boat
            ),
            format!("For {}", placement.source_words()),
            "x: off the centreline, starboard positive; y: above the keel, in the face".to_owned(),
            "Do not drill from this file alone: read the marking-out sheet".to_owned(),
            format!("Planewright {} {sum}", env!("CARGO_PKG_VERSION")),
        ];
        let lines = placement.warnings(SheetUnits::Millimetres).into_iter().chain(lines);
        let left = -0.5 * mm(placement.transom.beam);
        for (index, line) in lines.enumerate() {
            let y = -40.0 - 1.6 * LETTER_MM * index as f64;
            self.dxf.text(NAMES, [left, y], LETTER_MM, &line);
        }
    }
}
