//! The boat to scale: what the equations know, and around it a sketch of a hull.
//!
//! Known are the keel line of the planing bottom, the chine beam and the deadrise: a prism. Bow,
//! sides and sheer are a sketch with proportions of common practice, no source; nothing is
//! computed from them.

use uom::si::angle::radian;
use uom::si::length::meter;

use crate::boat::{Boat, stern_height};

/// Where the chines begin to draw together, as a share of the bottom.
const FULL_BEAM_TO: f64 = 0.70;
/// Breadth at the sheer over that at the chine.
const FLARE: f64 = 1.10;
/// Steps of a curve.
const STEPS: usize = 24;

/// A point of the boat in metres: forward of the transom along the keel, and above the keel or to starboard.
pub(super) type Metres = [f64; 2];

/// The boat in metres.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shape {
    pub overall_m: f64,
    pub bottom_m: f64,
    pub beam_m: f64,
    pub chine_height_m: f64,
    pub transom_beam_m: f64,
    stern_height_m: f64,
    bow_height_m: f64,
    /// Tangent of the transom's lean, its top aft positive.
    lean: f64,
}

impl Shape {
    pub fn of(boat: &Boat) -> Self {
        let hull = boat.hull();
        let bottom_m = hull.bottom_length.get::<meter>();
        let beam_m = hull.chine_beam.get::<meter>();
        Self {
            overall_m: boat.helm().bow_forward.get::<meter>(),
            bottom_m,
            beam_m,
            chine_height_m: 0.5 * beam_m * hull.deadrise.get::<radian>().tan(),
            transom_beam_m: boat.transom().beam.get::<meter>(),
            stern_height_m: stern_height(hull).get::<meter>(),
            bow_height_m: boat.helm().bow_height.get::<meter>(),
            lean: boat.transom().rake.get::<radian>().tan(),
        }
    }

    /// Height of the sheer at the transom.
    pub fn stern_height_m(&self) -> f64 {
        self.stern_height_m
    }

    /// Height of the stem head.
    pub fn bow_height_m(&self) -> f64 {
        self.bow_height_m
    }

    fn top_of_transom(&self) -> Metres {
        [-self.lean * self.stern_height_m(), self.stern_height_m()]
    }

    /// Stem from the end of the straight keel to the stem head.
    pub fn stem(&self) -> Vec<Metres> {
        let (foot, head) = ([self.bottom_m, 0.0], [self.overall_m, self.bow_height_m()]);
        let overhang = self.overall_m - self.bottom_m;
        curve(foot, [self.bottom_m + 0.62 * overhang, 0.10 * self.bow_height_m()], head)
    }

    /// Chine from the transom to the stem: level where the bottom is a prism, then rising.
    pub fn chine(&self) -> Vec<Metres> {
        let from = FULL_BEAM_TO * self.bottom_m;
        let end = self.stem()[STEPS * 3 / 4];
        let mut line = vec![[-self.lean * self.chine_height_m, self.chine_height_m]];
        line.extend(curve(
            [from, self.chine_height_m],
            [0.5 * (from + end[0]), self.chine_height_m * 1.1],
            end,
        ));
        line
    }

    /// Sheer from the top of the transom to the stem head.
    pub fn sheer(&self) -> Vec<Metres> {
        let (from, to) = (self.top_of_transom(), [self.overall_m, self.bow_height_m()]);
        curve(from, [0.55 * self.overall_m, self.stern_height_m() * 1.02], to)
    }

    /// The whole side, keel first.
    pub fn profile(&self) -> Vec<Metres> {
        let mut outline = vec![[0.0, 0.0]];
        outline.extend(self.stem());
        outline.extend(self.sheer().into_iter().rev());
        outline
    }

    /// What of the side lies between keel and chine.
    pub fn bottom_panel(&self) -> Vec<Metres> {
        let mut outline = vec![[0.0, 0.0]];
        outline.extend(self.stem().into_iter().take(STEPS * 3 / 4 + 1));
        outline.extend(self.chine().into_iter().rev());
        outline
    }

    /// Half breadth at the chine from transom to stem.
    pub fn chine_plan(&self) -> Vec<Metres> {
        self.plan(0.5 * self.transom_beam_m, 0.5 * self.beam_m, 0.985 * self.overall_m)
    }

    /// Half breadth at the sheer.
    pub fn sheer_plan(&self) -> Vec<Metres> {
        let wide = FLARE * 0.5 * self.beam_m;
        self.plan(FLARE * 0.5 * self.transom_beam_m, wide, self.overall_m)
    }

    fn plan(&self, stern_m: f64, wide_m: f64, tip_m: f64) -> Vec<Metres> {
        let from = FULL_BEAM_TO * self.bottom_m;
        let mut line = vec![[0.0, stern_m], [0.3 * self.bottom_m, wide_m]];
        line.extend(curve([from, wide_m], [from + 0.62 * (tip_m - from), wide_m], [tip_m, 0.0]));
        line
    }

    /// Height above the keel of the bottom at a distance off the centreline.
    pub fn bottom_height_m(&self, off_centre_m: f64) -> f64 {
        self.chine_height_m * off_centre_m / (0.5 * self.beam_m)
    }
}

/// A quadratic curve from a to c that heads for b.
fn curve(a: Metres, b: Metres, c: Metres) -> Vec<Metres> {
    let at = |step: usize| {
        let t = step as f64 / STEPS as f64;
        let [u, v, w] = [(1.0 - t).powi(2), 2.0 * t * (1.0 - t), t * t];
        [u * a[0] + v * b[0] + w * c[0], u * a[1] + v * b[1] + w * c[1]]
    };
    (0..=STEPS).map(at).collect()
}

/// The wetted bottom of one side as the equations have it, seen from below: keel, stagnation line, chine, transom.
///
/// Points forward of the transom and off the centreline. With a dry chine it is a triangle.
pub(super) fn wetted_half(keel_m: f64, chine_m: f64, beam_m: f64) -> Vec<Metres> {
    let half_m = 0.5 * beam_m;
    if chine_m >= 0.0 {
        vec![[0.0, 0.0], [keel_m, 0.0], [chine_m, half_m], [0.0, half_m]]
    } else {
        vec![[0.0, 0.0], [keel_m, 0.0], [0.0, half_m * keel_m / (keel_m - chine_m)]]
    }
}
