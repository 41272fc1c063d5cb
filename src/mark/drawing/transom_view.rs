//! The whole transom seen from aft: starboard is on the right.

use uom::si::f64::Length;
use uom::si::length::meter;

use crate::boat::Obstacle;
use crate::drawing::geometry::Lean;
use crate::drawing::{Anchor, Drawing, PAPER, Point, Rect, View, width};
use crate::mark::face::{metres, slope};
use crate::mark::holes::HoleKind;
use crate::mark::pen;
use crate::mark::placement::{Bracket, Placement};
use crate::mark::say::{Say, SheetUnits};
use crate::mark::scale::scale_for;
use crate::mark::style::{DIMENSION, HATCH_MM, TINT};

/// Room kept around the hull for dimensions and texts: sides, above the break, below the keel.
const AROUND_MM: (f64, f64, f64) = (22.0, 16.0, 28.0);
/// Most that is drawn of a thing below the keel, as a share of the beam.
const BELOW_KEEL: f64 = 0.08;
/// Step between dimension lines.
const STEP_MM: f64 = 6.0;
/// Smallest circle that prints well.
const DOT_MM: f64 = 0.4;
/// Names of things on the transom: size and line step.
const NAME_MM: f64 = 2.1;
const NAME_STEP_MM: f64 = 2.8;

struct Drawer<'a> {
    sheet: &'a mut Drawing,
    placement: &'a Placement,
    view: View,
    say: Say,
}

/// Draws the view and returns its scale, 1 : n.
pub(super) fn draw(sheet: &mut Drawing, placement: &Placement, say: Say, region: Rect) -> f64 {
    let (sides, above, below) = AROUND_MM;
    let half_m = metres(placement.transom.beam) / 2.0;
    let high_m = highest_m(placement);
    let [wide, high] = [region.width(), region.height()];
    let room = [wide - 2.0 * sides, high - above - below];
    let depth_m = -lowest_m(placement);
    let scale = scale_for([2.0 * half_m, high_m + depth_m], room);
    let spare = room[1] - 1e3 * (high_m + depth_m) / scale;
    let keel = region.bottom - below - 0.5 * spare - 1e3 * depth_m / scale;
    let origin_mm = [0.5 * (region.left + region.right), keel];
    let mut drawer =
        Drawer { sheet, placement, view: View { origin: origin_mm, per_m: 1e3 / scale }, say };
    drawer.hull(high_m);
    let names = drawer.obstacles();
    drawer.centreline(high_m);
    for (name, low, high) in names {
        drawer.name(&name, low, high);
    }
    for side in [-1.0, 1.0] {
        drawer.plane(side);
    }
    drawer.along_edge();
    drawer.level();
    drawer.brackets(high_m);
    drawer.words(region);
    scale
}

/// Lowest point drawn, metres above the keel.
fn lowest_m(placement: &Placement) -> f64 {
    let reach = metres(placement.transom.beam) * BELOW_KEEL;
    let below = |thing: &Obstacle| base_m(placement, thing) + metres(thing.from);
    placement.transom.obstacles.iter().map(below).fold(0.0, f64::min).max(-reach)
}

/// Height at which the transom is broken off, metres above the keel.
fn highest_m(placement: &Placement) -> f64 {
    let chine = metres(placement.above_keel(placement.edge(), Length::default()));
    let top = metres(placement.above_keel(placement.outer, placement.top()));
    let things = placement.transom.obstacles.iter();
    let highest = things
        .map(|thing| base_m(placement, thing) + metres(thing.to))
        .fold(chine.max(top), f64::max);
    highest.min(2.0 * chine.max(top)) * 1.08
}

/// Bottom edge below the middle of an obstacle, metres above the keel.
fn base_m(placement: &Placement, thing: &Obstacle) -> f64 {
    let (sin, cos) = slope(&placement.transom);
    metres(thing.off_centre).abs() * sin / cos
}

impl Drawer<'_> {
    /// A point of one side (starboard 1, port −1) on the sheet.
    fn at(&self, side: f64, along: Length, up: Length) -> Point {
        self.view.at([
            side * metres(self.placement.off_centre(along, up)),
            metres(self.placement.above_keel(along, up)),
        ])
    }

    fn hull(&mut self, high_m: f64) {
        let edge = self.placement.edge();
        let zero = Length::default();
        let (port, keel, starboard) =
            (self.at(-1.0, edge, zero), self.at(1.0, zero, zero), self.at(1.0, edge, zero));
        let top = self.view.at([0.0, high_m])[1];
        let flare = 0.06 * (starboard[1] - top).abs();
        let (left, right) = ([port[0] - flare, top], [starboard[0] + flare, top]);
        self.sheet.open(&[left, port, keel, starboard, right], pen::OUTLINE);
        self.broken_line(left, right);
        self.waterline(high_m);
        self.middle(high_m);
        for strake in self.placement.transom.strakes.clone() {
            for side in [-1.0, 1.0] {
                self.strake(side, &strake);
            }
        }
    }

    /// The water at rest, where it is known.
    fn waterline(&mut self, high_m: f64) {
        let Some(up) = self.placement.waterline() else { return };
        let up_m = metres(up);
        if !(0.0..high_m).contains(&up_m) {
            return;
        }
        let (sin, cos) = slope(&self.placement.transom);
        let half_m = metres(self.placement.transom.beam) / 2.0;
        let wide_m = if up_m * cos < half_m * sin { up_m * cos / sin } else { half_m };
        let (port, starboard) = (self.view.at([-wide_m, up_m]), self.view.at([wide_m, up_m]));
        self.sheet.line(port, starboard, pen::WATER);
        // Outside the hull on port, where no dimension stands so high.
        let left = self.view.at([-half_m, up_m])[0] - 3.0;
        let height = format!("{} up", self.say.drawn(up));
        for (line, text) in ["waterline", "at rest", height.as_str()].into_iter().enumerate() {
            let at = [left, port[1] - 1.5 * NAME_STEP_MM + NAME_STEP_MM * line as f64];
            self.sheet.text(at, NAME_MM, Anchor::End, text);
        }
    }

    /// Notch, step or pod amidships, where no plane stands.
    fn middle(&mut self, high_m: f64) {
        let transom = &self.placement.transom;
        let Some(beam) = transom.middle_beam else { return };
        let half_m = metres(beam) / 2.0;
        let word = transom.form.word();
        let (sin, cos) = slope(transom);
        let (side_m, top_m) = (half_m * sin / cos, 0.9 * high_m);
        let corners =
            [[-half_m, side_m], [0.0, 0.0], [half_m, side_m], [half_m, top_m], [-half_m, top_m]];
        let corners = self.view.all(&corners);
        self.sheet.shape(&corners, Some(pen::HIDDEN), None);
        self.sheet.hatch(&corners, 3.0 * HATCH_MM, Lean::Forward, &pen::HATCH);
        let at = [0.5 * (corners[2][0] + corners[4][0]), corners[3][1] + 3.0];
        self.sheet.text_on_ground(at, NAME_MM, Anchor::Middle, 0.0, word);
    }

    fn centreline(&mut self, high_m: f64) {
        let (keel, top) = (self.view.at([0.0, 0.0]), self.view.at([0.0, high_m]));
        self.sheet.line([top[0], top[1] - 4.0], [keel[0], keel[1] + 4.0], pen::CENTRE);
    }

    /// The edge at which a drawing is broken off.
    fn broken_line(&mut self, left: Point, right: Point) {
        let mut points = vec![left];
        for share in [0.30, 0.70] {
            let x = left[0] + share * (right[0] - left[0]);
            let y = left[1];
            points.extend([[x - 2.0, y], [x - 0.8, y - 1.8], [x + 0.8, y + 1.8], [x + 2.0, y]]);
        }
        points.push(right);
        self.sheet.open(&points, pen::FINE);
    }

    fn strake(&mut self, side: f64, strake: &crate::boat::Strake) {
        let (sin, cos) = slope(&self.placement.transom);
        let (middle_m, half_m) = (metres(strake.off_centre), 0.5 * metres(strake.width));
        let edge_m = |off_m: f64| off_m * sin / cos;
        let (inner_m, outer_m) = (middle_m - half_m, middle_m + half_m);
        let foot_m = edge_m(inner_m) - metres(strake.depth);
        let shape = [
            self.view.at([side * inner_m, edge_m(inner_m)]),
            self.view.at([side * (inner_m + 0.4 * half_m), foot_m]),
            self.view.at([side * outer_m, edge_m(outer_m)]),
        ];
        self.sheet.open(&shape, pen::MEDIUM);
    }

    /// Draws what stands on the transom; returns names with lower left and upper right corner.
    fn obstacles(&mut self) -> Vec<(String, Point, Point)> {
        let mut names = Vec::new();
        for thing in self.placement.transom.obstacles.clone() {
            let base = base_m(self.placement, &thing);
            let (low_m, high_m) = (base + metres(thing.from), base + metres(thing.to));
            let low_m = low_m.max(lowest_m(self.placement));
            let high_m = high_m.min(highest_m(self.placement));
            let (middle_m, half_m) = (metres(thing.off_centre), 0.5 * metres(thing.width));
            let low = self.view.at([middle_m - half_m, low_m]);
            let high = self.view.at([middle_m + half_m, high_m]);
            self.sheet.rectangle(low, high, Some(pen::MEDIUM), Some(PAPER));
            let corners =
                Rect { left: low[0], top: high[1], right: high[0], bottom: low[1] }.corners();
            self.sheet.hatch(&corners, HATCH_MM, Lean::Forward, &pen::HATCH);
            names.push((thing.name, low, high));
        }
        names
    }

    /// Writes a name one word a line in a box, or above it where the box is too small.
    fn name(&mut self, name: &str, low: Point, high: Point) {
        let words: Vec<&str> = name.split_whitespace().collect();
        let widest = words.iter().map(|word| width(word, NAME_MM)).fold(0.0, f64::max);
        let tall = NAME_STEP_MM * words.len() as f64;
        let inside = widest + 2.0 < high[0] - low[0] && tall + 2.0 < low[1] - high[1];
        let first = if inside {
            0.5 * (low[1] + high[1] - tall + NAME_STEP_MM)
        } else {
            high[1] - tall + 0.5 * NAME_STEP_MM
        };
        for (line, word) in words.iter().enumerate() {
            let at = [0.5 * (low[0] + high[0]), first + NAME_STEP_MM * line as f64];
            self.sheet.text_on_ground(at, NAME_MM, Anchor::Middle, 0.0, word);
        }
    }

    fn plane(&mut self, side: f64) {
        let placement = self.placement;
        let (inner, outer, hinge) =
            (placement.inner, placement.outer, placement.transom.hinge_height);
        let leaf = hinge + placement.hardware.hinge_screws.leaf_height;
        let corners = [(inner, hinge), (outer, hinge), (outer, leaf), (inner, leaf)]
            .map(|(along, up)| self.at(side, along, up));
        self.sheet.shape(&corners, Some(pen::MEDIUM), Some(TINT));
        self.sheet.line(corners[0], corners[1], pen::OUTLINE);
        let screws = placement.hardware.bracket_screws;
        for bracket in &placement.brackets {
            let half = 0.5 * screws.across + screws.edge_distance;
            let outline = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(a, b)| {
                self.at(side, bracket.along + half * a, bracket.up + bracket.half_height * b)
            });
            self.sheet.shape(&outline, Some(pen::MEDIUM), None);
            let (foot, low) =
                (self.at(side, bracket.along, bracket.up), self.at(side, bracket.along, hinge));
            self.sheet.line(foot, low, pen::CENTRE);
        }
        for hole in &placement.holes {
            let at = self.at(side, hole.along, hole.up);
            let radius = hole.drill.map_or(0.0, |drill| self.view.length(metres(drill) / 2.0));
            match hole.kind {
                HoleKind::HingePilot
                | HoleKind::BracketPilot
                | HoleKind::HingeBolt
                | HoleKind::BracketBolt => {
                    self.sheet.cross(at, (1.6 * radius).max(0.9), pen::FINE);
                }
                HoleKind::Lead => {
                    self.sheet.circle(at, radius.max(DOT_MM), Some(pen::FINE), None);
                }
            }
        }
    }

    /// Starboard: distances along the bottom edge.
    fn along_edge(&mut self) {
        let (placement, say) = (self.placement, self.say);
        let zero = Length::default();
        let at = |along: Length| self.at(1.0, along, zero);
        let (inner, outer, edge) = (placement.inner, placement.outer, placement.edge());
        let points = [at(zero), at(inner), at(outer), at(edge)];
        let texts = [say.drawn(inner), say.drawn(outer - inner), say.drawn(edge - outer)];
        for (index, text) in texts.iter().enumerate() {
            DIMENSION.along(self.sheet, [points[index], points[index + 1]], STEP_MM, text);
        }
        DIMENSION.along(self.sheet, [points[0], points[2]], 2.0 * STEP_MM, &say.drawn(outer));
        DIMENSION.along(self.sheet, [points[0], points[3]], 3.0 * STEP_MM, &say.drawn(edge));
    }

    /// Port: the same marks, level.
    fn level(&mut self) {
        let (placement, say) = (self.placement, self.say);
        let zero = Length::default();
        let keel = self.at(1.0, zero, zero);
        let lowest = self.view.at([0.0, lowest_m(placement)])[1];
        let marks = [placement.inner, placement.outer, placement.edge()];
        for (index, along) in marks.into_iter().enumerate() {
            let point = self.at(-1.0, along, zero);
            let y = lowest + STEP_MM * (index as f64 + 1.0);
            let text = say.drawn(placement.off_centre(along, zero));
            DIMENSION.level(self.sheet, [point, keel], y, &text);
        }
    }

    fn brackets(&mut self, high_m: f64) {
        let (placement, say) = (self.placement, self.say);
        let top = self.view.at([0.0, high_m])[1];
        let brackets: Vec<Bracket> = placement.brackets.clone();
        for (index, bracket) in brackets.iter().enumerate() {
            let y = top - 4.5 - STEP_MM * index as f64;
            for side in [-1.0, 1.0] {
                let foot = self.at(side, bracket.along, bracket.up);
                let centre = self.view.at([0.0, high_m]);
                DIMENSION.level(self.sheet, [centre, foot], y, &say.drawn(bracket.off_centre));
            }
        }
    }

    fn words(&mut self, region: Rect) {
        let (left, right) = (region.left + 3.0, region.right - 3.0);
        let middle = 0.5 * (region.left + region.right);
        let title = "TRANSOM SEEN FROM AFT";
        self.sheet.text([left, region.top + 4.5], 3.2, Anchor::Start, title);
        let y = region.bottom - 3.2;
        let size = 2.2;
        self.sheet.text([left, y], size, Anchor::Start, "Port: level, off the centreline");
        let starboard = "Starboard: along the bottom edge, from the centreline";
        self.sheet.text([right, y], size, Anchor::End, starboard);
        self.sheet.text([left, region.bottom - 7.6], 3.2, Anchor::Start, "PORT");
        self.sheet.text([right, region.bottom - 7.6], 3.2, Anchor::End, "STARBOARD");
        let above = "Above the view: upper pins, level, off the centreline";
        self.sheet.text([left, region.top + 8.9], size, Anchor::Start, above);
        let hinge = format!(
            "Both sides alike, mirrored. Hinge line {} above the bottom edge, parallel to it",
            self.say.drawn(self.placement.transom.hinge_height)
        );
        self.sheet.text([right, region.top + 4.5], size, Anchor::End, &hinge);
        self.scale_bar([middle, y]);
    }

    /// A bar of a round length, so that the scale survives copying.
    fn scale_bar(&mut self, at: Point) {
        let inch = 0.0254;
        let lengths_m: [f64; 6] = match self.say.0 {
            SheetUnits::Millimetres | SheetUnits::Both => [1.0, 0.5, 0.2, 0.1, 0.05, 0.02],
            SheetUnits::Inches => {
                [48.0 * inch, 24.0 * inch, 12.0 * inch, 6.0 * inch, 2.0 * inch, inch]
            }
        };
        let fits = |length_m: &f64| self.view.length(*length_m) <= 55.0;
        let length_m = lengths_m.into_iter().find(fits).unwrap_or(lengths_m[5]);
        let long = self.view.length(length_m);
        let (from, y) = (at[0] - 0.5 * long, at[1] + 1.0);
        let bar = Rect { left: from, right: from + long, top: y - 1.2, bottom: y };
        self.sheet.bar(&bar, 4, &pen::FINE);
        let text = self.say.drawn(Length::new::<meter>(length_m));
        self.sheet.text([from + long + 1.5, y - 0.6], 2.2, Anchor::Start, &text);
        self.sheet.text([from - 1.5, y - 0.6], 2.2, Anchor::End, "0");
    }
}
