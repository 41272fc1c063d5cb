//! How to measure her: the bottom in section with what is held to it, and the boat on two supports.
//!
//! Drawn in the proportions of the boat, so that she can be recognised; sides are a sketch.

use uom::si::angle::radian;
use uom::si::length::meter;

use super::pen;
use super::shape::{Metres, Shape};
use super::style::{BOTTOM, DIMENSION, FORM};
use crate::boat::Boat;
use crate::drawing::{Anchor, BRASS, Drawing, INK, PAPER, Point, View};

/// Size of a picture.
const SIZE_PX: [f64; 2] = [380.0, 250.0];
/// Letters that can be read where three stand side by side on paper.
const LETTERS_PX: f64 = 17.0;
/// Breadth of the bottom on the sheet.
const BOTTOM_PX: f64 = 250.0;
/// Height of the keel on the sheet, from above.
const KEEL_PX: f64 = 176.0;
/// Where the two supports stand, as shares of the bottom length from the transom.
const SUPPORTS: [f64; 2] = [0.12, 0.72];

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measuring {
    /// The angle of the bottom to level, on both sides.
    Deadrise,
    /// The breadth between the chines, by plumb lines.
    ChineBeam,
    /// The centre of gravity, by weighing at two points.
    CentreOfGravity,
}

impl Measuring {
    /// All of them, in the order in which they are told.
    pub const ALL: [Self; 3] = [Self::Deadrise, Self::ChineBeam, Self::CentreOfGravity];

    /// The picture in words.
    #[must_use]
    pub const fn description(self) -> &'static str {
        match self {
            Self::Deadrise => {
                "The V of the bottom from astern: an angle meter, A, lies square to the keel against the bottom on one side, another, B, on the other; each shows the angle to level."
            }
            Self::ChineBeam => {
                "The V of the bottom from astern: a plumb line hangs from the chine on either side to the floor, and the distance between the two is measured."
            }
            Self::CentreOfGravity => {
                "The boat from the side on two supports, each on a scale: the aft one, A, stands a distance a ahead of the transom, the forward one, F, a distance L ahead of A."
            }
        }
    }
}

/// How a value of a boat is measured, as SVG.
#[must_use]
pub fn measuring(boat: &Boat, what: Measuring) -> String {
    let mut art = Drawing::new(SIZE_PX, what.description(), FORM);
    match what {
        Measuring::Deadrise => deadrise(&mut art, boat),
        Measuring::ChineBeam => chine_beam(&mut art, boat),
        Measuring::CentreOfGravity => centre_of_gravity(&mut art, boat),
    }
    art.svg(what.description())
}

/// Keel and chines on the sheet, and the rise of one side there.
struct Section {
    keel: Point,
    half_px: f64,
    rise_px: f64,
}

impl Section {
    /// Draws the section of the bottom with its sides.
    fn draw(art: &mut Drawing, boat: &Boat) -> Self {
        let half_px = 0.5 * BOTTOM_PX;
        let rise_px = half_px * boat.hull().deadrise.get::<radian>().tan();
        let section = Self { keel: [0.5 * SIZE_PX[0], KEEL_PX], half_px, rise_px };
        let sheer = |side: f64| [section.keel[0] + side * 1.06 * half_px, 34.0];
        let outline =
            [sheer(-1.0), section.chine(-1.0), section.keel, section.chine(1.0), sheer(1.0)];
        art.part("picture-section", |art| {
            art.shape(&outline, Some(pen::SKETCH), Some(BOTTOM));
            art.open(&[section.chine(-1.0), section.keel, section.chine(1.0)], pen::OUTLINE);
        });
        section
    }

    fn chine(&self, side: f64) -> Point {
        [self.keel[0] + side * self.half_px, self.keel[1] - self.rise_px]
    }

    /// A point under the bottom: a share of the way to the chine, and so far below.
    fn below(&self, side: f64, share: f64, below_px: f64) -> Point {
        let slope = self.rise_px.hypot(self.half_px);
        let [x, y] = [self.half_px / slope, self.rise_px / slope];
        [
            self.keel[0] + side * (share * self.half_px + below_px * y),
            self.keel[1] - share * self.rise_px + below_px * x,
        ]
    }
}

fn deadrise(art: &mut Drawing, boat: &Boat) {
    let section = Section::draw(art, boat);
    let [left, right] = [0.04, 0.96].map(|share| [share * SIZE_PX[0], KEEL_PX]);
    art.line(left, right, pen::GHOST);
    art.text([0.5 * SIZE_PX[0], 22.0], LETTERS_PX, Anchor::Middle, "deadrise = (A + B) / 2");
    for (side, name) in [(-1.0, "A"), (1.0, "B")] {
        let gauge = [(0.45, 2.0), (0.75, 2.0), (0.75, 16.0), (0.45, 16.0)]
            .map(|(share, below)| section.below(side, share, below));
        art.shape(&gauge, Some(pen::EDGE), Some(BRASS));
        let at = section.below(side, 0.66, 42.0);
        art.text([at[0] + side * 18.0, KEEL_PX + 22.0], LETTERS_PX, Anchor::Middle, name);
    }
    art.text([right[0], KEEL_PX + 52.0], LETTERS_PX, Anchor::End, "level");
}

fn chine_beam(art: &mut Drawing, boat: &Boat) {
    let section = Section::draw(art, boat);
    let floor = SIZE_PX[1] - 26.0;
    art.line([20.0, floor], [SIZE_PX[0] - 20.0, floor], pen::EDGE);
    for side in [-1.0, 1.0] {
        let chine = section.chine(side);
        art.line(chine, [chine[0], floor - 10.0], pen::FINE);
        let bob =
            [[chine[0] - 4.0, floor - 12.0], [chine[0] + 4.0, floor - 12.0], [chine[0], floor]];
        art.shape(&bob, None, Some(INK));
    }
    let ends = [-1.0, 1.0].map(|side| [section.chine(side)[0], floor - 24.0]);
    let mut wide = DIMENSION;
    wide.text = LETTERS_PX;
    wide.level(art, ends, floor - 24.0, "chine beam");
}

fn centre_of_gravity(art: &mut Drawing, boat: &Boat) {
    let shape = Shape::of(boat);
    let per_m = 0.88 * SIZE_PX[0] / shape.overall_m;
    let view = View { origin: [0.07 * SIZE_PX[0], 132.0], per_m };
    art.part("picture-hull", |art| {
        art.shape(&view.all(&shape.profile()), Some(pen::SKETCH), Some(PAPER));
        art.shape(&view.all(&shape.bottom_panel()), Some(pen::SKETCH), Some(BOTTOM));
        art.line(view.at([0.0, 0.0]), view.at([shape.bottom_m, 0.0]), pen::OUTLINE);
    });
    let [aft, forward] = SUPPORTS.map(|share| view.at([share * shape.bottom_m, 0.0]));
    let transom = view.at([0.0, 0.0]);
    for (support, name) in [(aft, "A"), (forward, "F")] {
        let [x, y] = support;
        art.shape(
            &[[x, y], [x - 12.0, y + 22.0], [x + 12.0, y + 22.0]],
            Some(pen::EDGE),
            Some(PAPER),
        );
        art.rectangle([x - 24.0, y + 22.0], [x + 24.0, y + 46.0], Some(pen::EDGE), Some(BRASS));
        art.text([x, y + 34.0], LETTERS_PX, Anchor::Middle, name);
    }
    let low = SIZE_PX[1] - 22.0;
    let mut dimension = DIMENSION;
    dimension.text = LETTERS_PX;
    art.line(transom, [transom[0], low + 6.0], pen::FINE);
    dimension.level(art, [[aft[0], aft[1] + 46.0], [forward[0], forward[1] + 46.0]], low, "L");
    art.line([transom[0], low], [aft[0], low], pen::FINE);
    art.text_on_ground([0.5 * (transom[0] + aft[0]), low], LETTERS_PX, Anchor::Middle, 0.0, "a");
    let lcg = boat.weight().lcg.get::<meter>();
    cross(art, view.at([lcg, boat.weight().vcg.get::<meter>()]));
    art.text([0.5 * SIZE_PX[0], 20.0], LETTERS_PX, Anchor::Middle, "LCG = a + L × F / (A + F)");
}

/// Where the centre of gravity may lie.
fn cross(art: &mut Drawing, at: Metres) {
    art.circle(at, 8.0, Some(pen::EDGE), Some(PAPER));
    art.cross(at, 8.0, pen::EDGE);
}
