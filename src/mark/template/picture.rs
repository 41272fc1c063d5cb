//! What the template shows, at full size before it is cut into pages.
//!
//! The bottom edge lies level on the paper; outboard is to the right on starboard and to the left
//! on port, as the transom is seen from aft.

use uom::si::f64::Length;
use uom::si::length::millimeter;

use crate::boat::transom::Side;
use crate::drawing::{Anchor, Drawing, Mark, Point};
use crate::mark::face::slope;
use crate::mark::holes::{Hole, HoleKind};
use crate::mark::pen;
use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say};
use crate::mark::style::FORM;

/// Paper beyond the marks: sideways, above, below.
const BEYOND_MM: (f64, f64, f64) = (8.0, 6.0, 12.0);
/// Bottom edge shown beyond the plane when the centreline is too far off.
const BESIDE_PLANE_MM: f64 = 40.0;
/// How far the lines of the plane's ends are drawn above its hinge leaf.
const END_LINE_MM: f64 = 70.0;
/// How far up the centreline is drawn.
const CENTRELINE_MM: f64 = 105.0;
const CROSS_BEYOND_MM: f64 = 3.0;
const LABEL_MM: f64 = 2.6;
/// Radius of a lead-through of which nobody says how wide it is.
const LEAD_MM: f64 = 3.0;

/// The template of one side.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::mark) struct Picture {
    pub side: Side,
    pub size_mm: Point,
    pub marks: Vec<Mark>,
    /// Middle and radius of every hole.
    pub holes: Vec<(Point, f64)>,
    /// Height on the paper of the bottom edge.
    pub edge_mm: f64,
    /// Whether centreline and chine are on it.
    pub whole_edge: bool,
}

struct Drawer<'a> {
    sheet: Drawing,
    placement: &'a Placement,
    say: Say,
    side: Side,
    /// Stretch of the bottom edge shown, from the centreline.
    from_mm: f64,
    to_mm: f64,
    top_mm: f64,
}

fn mm(length: Length) -> f64 {
    length.get::<millimeter>()
}

impl Picture {
    /// From the centreline to the chine.
    pub fn whole_edge(placement: &Placement, say: Say, side: Side) -> Self {
        Self::between(placement, say, side, (0.0, mm(placement.edge())), true)
    }

    /// The plane and a little of the bottom edge beside it.
    pub fn plane_only(placement: &Placement, say: Say, side: Side) -> Self {
        let from = (mm(placement.inner) - BESIDE_PLANE_MM).max(0.0);
        let to = (mm(placement.outer) + BESIDE_PLANE_MM).min(mm(placement.edge()));
        Self::between(placement, say, side, (from, to), false)
    }

    fn between(
        placement: &Placement,
        say: Say,
        side: Side,
        (from_mm, to_mm): (f64, f64),
        whole_edge: bool,
    ) -> Self {
        let (beside, above, below) = BEYOND_MM;
        let top_mm = mm(placement.top());
        let size_mm = [to_mm - from_mm + 2.0 * beside, top_mm + above + below];
        let sheet = Drawing::new(size_mm, "", FORM);
        let mut drawer = Drawer { sheet, placement, say, side, from_mm, to_mm, top_mm };
        drawer.edge(whole_edge);
        drawer.plane();
        drawer.brackets();
        let holes = placement.holes.iter().map(|hole| drawer.hole(hole)).collect();
        let [_, edge_mm] = drawer.at(0.0, 0.0);
        Self { side, size_mm, marks: drawer.sheet.marks, holes, edge_mm, whole_edge }
    }
}

impl Drawer<'_> {
    /// A point of the transom on the picture, millimetres from the centreline and above the edge.
    fn at(&self, along_mm: f64, up_mm: f64) -> Point {
        let (beside, above, _) = BEYOND_MM;
        let y = above + self.top_mm - up_mm;
        let x = match self.side {
            Side::Port => beside + self.to_mm - along_mm,
            Side::Starboard | Side::Both => beside + along_mm - self.from_mm,
        };
        [x, y]
    }

    /// 1 when outboard is to the right, −1 when it is to the left.
    fn outward(&self) -> f64 {
        if self.side == Side::Port { -1.0 } else { 1.0 }
    }

    fn upright_label(&mut self, along_mm: f64, up_mm: f64, text: &str) {
        let at = self.at(along_mm, up_mm);
        self.sheet.turned_text(at, LABEL_MM, Anchor::Start, -90.0, text);
    }

    fn edge(&mut self, whole_edge: bool) {
        let (from, to) = (self.at(self.from_mm, 0.0), self.at(self.to_mm, 0.0));
        self.sheet.line(from, to, pen::MEDIUM);
        let hinge = mm(self.placement.transom.hinge_height);
        let middle = 0.5 * (self.from_mm + self.to_mm);
        // Repeated so that every page that shows the edge shows its name.
        let steps = ((self.to_mm - self.from_mm) / 140.0).ceil().max(1.0);
        for step in 0..steps as usize {
            let share = (step as f64 + 0.5) / steps;
            let along = self.from_mm + share * (self.to_mm - self.from_mm);
            let at = self.at(along, -4.0);
            let text = "bottom edge of the hull: cut or fold here";
            self.sheet.text(at, LABEL_MM, Anchor::Middle, text);
        }
        if whole_edge {
            self.centreline();
            self.chine(hinge);
        } else {
            let text = format!(
                "centreline {} from the inner edge, along the bottom edge",
                self.say.length(self.placement.inner)
            );
            let at = self.at(middle, -8.5);
            self.sheet.text(at, LABEL_MM, Anchor::Middle, &text);
        }
    }

    /// The centreline leans outboard on a picture whose bottom edge lies level.
    fn centreline(&mut self) {
        let (sin, cos) = slope(&self.placement.transom);
        let high = self.top_mm.min(CENTRELINE_MM);
        let (foot, top) = (self.at(0.0, 0.0), self.at(high * sin / cos, high));
        self.sheet.line(foot, top, pen::CENTRE);
        self.sheet.cross(foot, 4.0, pen::FINE);
        let turn = self.outward() * slope(&self.placement.transom).0.asin().to_degrees() - 90.0;
        let up = 0.3 * high;
        let at = self.at(up * sin / cos + 3.0, up);
        self.sheet.turned_text(at, LABEL_MM, Anchor::Start, turn, "CENTRELINE of the boat");
    }

    fn chine(&mut self, hinge_mm: f64) {
        let edge = mm(self.placement.edge());
        self.sheet.cross(self.at(edge, 0.0), 4.0, pen::FINE);
        let (low, high) = (self.at(edge, 0.0), self.at(edge, 35.0 + hinge_mm));
        self.sheet.line(low, high, pen::MEDIUM);
        self.upright_label(edge - 3.0, 6.0, "CHINE corner");
    }

    fn plane(&mut self) {
        let placement = self.placement;
        let (inner, outer) = (mm(placement.inner), mm(placement.outer));
        let hinge = mm(placement.transom.hinge_height);
        let leaf = hinge + mm(placement.hardware.hinge_screws.leaf_height);
        let high = (leaf + END_LINE_MM).min(self.top_mm);
        let (low, end) = (self.at(inner, hinge), self.at(outer, hinge));
        self.sheet.line(low, end, pen::OUTLINE);
        let (leaf_from, leaf_to) = (self.at(inner, leaf), self.at(outer, leaf));
        self.sheet.line(leaf_from, leaf_to, pen::FINE);
        for (along, name, distance, inside) in [
            (inner, "INNER EDGE", placement.inner, 3.0),
            (outer, "OUTER EDGE", placement.outer, -3.0),
        ] {
            let (low, high) = (self.at(along, -3.0), self.at(along, high));
            self.sheet.line(low, high, pen::MEDIUM);
            let text = format!("{name}: {} off the centreline", self.say.length(distance));
            self.upright_label(along + inside, leaf + 4.0, &text);
        }
        let span = outer - inner;
        let steps = (span / 140.0).ceil().max(1.0);
        for step in 0..steps as usize {
            let along = inner + span * (step as f64 + 0.5) / steps;
            let text =
                format!("HINGE LINE, {} up", self.say.length(placement.transom.hinge_height));
            let at = self.at(along, leaf + 3.0);
            self.sheet.text(at, LABEL_MM, Anchor::Middle, "upper edge of the hinge leaf");
            let at = self.at(along, hinge + 2.4);
            self.sheet.text(at, 2.2, Anchor::Middle, &text);
        }
    }

    fn brackets(&mut self) {
        let screws = self.placement.hardware.bracket_screws;
        for bracket in self.placement.brackets.clone() {
            let (along, up) = (mm(bracket.along), mm(bracket.up));
            let half = 0.5 * mm(screws.across) + mm(screws.edge_distance);
            let tall = mm(bracket.half_height);
            let corners =
                [(-half, -tall), (half, -tall), (half, tall), (-half, tall), (-half, -tall)]
                    .map(|(out, rise)| self.at(along + out, up + rise));
            self.sheet.open(&corners, pen::MEDIUM);
            let (low, high) = (self.at(along, 0.0), self.at(along, self.top_mm));
            self.sheet.line(low, high, pen::CENTRE);
            let text = format!("L {} above hinge line", self.say.length(bracket.above_hinge));
            for (beside, text) in [(-3.0, "settle at the dry fit"), (3.0, text.as_str())] {
                let at = self.at(along + beside, up - tall - 4.0);
                self.sheet.turned_text(at, LABEL_MM, Anchor::End, -90.0, text);
            }
        }
    }

    /// Draws a hole as wide as the drill that is named beside it; gives its middle and radius.
    fn hole(&mut self, hole: &Hole) -> (Point, f64) {
        let at = self.at(mm(hole.along), mm(hole.up));
        let radius = hole.drill_sold(self.say).map_or(LEAD_MM, |drill| 0.5 * mm(drill));
        let pen = if hole.drill.is_some() { pen::FINE } else { pen::HIDDEN };
        self.sheet.circle(at, radius, Some(pen), None);
        let next = if hole.kind.is_pilot() { Next::Nearest } else { Next::Larger };
        let drill =
            hole.drill.map_or_else(|| "as stated,".to_owned(), |drill| self.say.drill(drill, next));
        match hole.kind {
            HoleKind::HingeBolt | HoleKind::BracketBolt => {
                self.sheet.cross(at, radius + CROSS_BEYOND_MM, pen::FINE);
                let text = format!("{} {drill} through", hole.name);
                let place = [at[0], at[1] - radius - CROSS_BEYOND_MM - 1.8];
                self.sheet.text(place, 2.2, Anchor::Middle, &text);
            }
            HoleKind::Lead => {
                self.sheet.cross(at, radius + CROSS_BEYOND_MM, pen::FINE);
                let place = [at[0], at[1] - radius - CROSS_BEYOND_MM - 4.8];
                let text = format!("{} {drill} through", hole.name);
                self.sheet.text_on_ground(place, 2.2, Anchor::Middle, 0.0, &text);
            }
            HoleKind::HingePilot | HoleKind::BracketPilot => {
                self.sheet.cross(at, radius + CROSS_BEYOND_MM, pen::FINE);
                let text = format!("{} {drill}", hole.name);
                let place = [at[0], at[1] - radius - CROSS_BEYOND_MM - 1.8];
                self.sheet.text(place, 2.2, Anchor::Middle, &text);
            }
        }
        (at, radius)
    }
}
