//! The boat to scale: what the equations know, and around it a sketch of a hull.
//!
//! Known are the keel line of the planing bottom, the chine beam and the deadrise, a prism; or keel
//! and chine by their stations. Bow, sides and sheer are a sketch with proportions of common
//! practice, no source; nothing is computed from them.

use uom::si::angle::radian;
use uom::si::length::meter;

use super::lines::Lines;
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
    /// Keel and chine, where stations give them.
    lines: Option<Lines>,
}

/// The stem stands at least so far ahead of the last station, as a factor.
const BEYOND_STATIONS: f64 = 1.02;

impl Shape {
    pub fn of(boat: &Boat) -> Self {
        let hull = boat.hull();
        let bottom_m = hull.bottom_length.get::<meter>();
        let beam_m = hull.chine_beam.get::<meter>();
        let stations = boat.stations();
        let last_m = stations.map_or(0.0, |own| own.chine_length().get::<meter>());
        let bow_m = boat.helm().bow_forward.get::<meter>();
        Self {
            overall_m: bow_m.max(BEYOND_STATIONS * last_m),
            lines: stations.map(Lines::of),
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

    /// Keel from the transom, as far as it is known.
    pub fn keel(&self) -> Vec<Metres> {
        match &self.lines {
            Some(lines) => lines.keel(),
            None => vec![[0.0, 0.0], [self.bottom_m, 0.0]],
        }
    }

    /// Stem from the end of the keel to the stem head.
    pub fn stem(&self) -> Vec<Metres> {
        let keel = self.keel();
        let (foot, head) = (keel[keel.len() - 1], [self.overall_m, self.bow_height_m()]);
        let overhang = self.overall_m - foot[0];
        let rise = 0.10 * (self.bow_height_m() - foot[1]);
        curve(foot, [foot[0] + 0.62 * overhang, foot[1] + rise], head)
    }

    /// Chine from the transom, as far as it is known.
    pub fn known_chine(&self) -> Vec<Metres> {
        match &self.lines {
            Some(lines) => {
                let mut line = lines.chine();
                line[0][0] = -self.lean * line[0][1];
                line
            }
            None => vec![
                [-self.lean * self.chine_height_m, self.chine_height_m],
                [FULL_BEAM_TO * self.bottom_m, self.chine_height_m],
            ],
        }
    }

    /// Chine from the transom to the stem: level where the bottom is a prism, then rising.
    pub fn chine(&self) -> Vec<Metres> {
        let mut line = self.known_chine();
        let stem = self.stem();
        let last = line[line.len() - 1];
        match &self.lines {
            Some(_) => {
                let higher = stem.iter().find(|at| at[1] > last[1] && at[0] > last[0]);
                line.push(*higher.unwrap_or(&stem[STEPS]));
            }
            None => {
                let end = stem[STEPS * 3 / 4];
                line.pop();
                line.extend(curve(
                    last,
                    [0.5 * (last[0] + end[0]), self.chine_height_m * 1.1],
                    end,
                ));
            }
        }
        line
    }

    /// Sheer from the top of the transom to the stem head.
    pub fn sheer(&self) -> Vec<Metres> {
        let (from, to) = (self.top_of_transom(), [self.overall_m, self.bow_height_m()]);
        curve(from, [0.55 * self.overall_m, self.stern_height_m() * 1.02], to)
    }

    /// The whole side, keel first.
    pub fn profile(&self) -> Vec<Metres> {
        let mut outline = self.keel();
        outline.pop();
        outline.extend(self.stem());
        outline.extend(self.sheer().into_iter().rev());
        outline
    }

    /// What of the side lies between keel and chine.
    pub fn bottom_panel(&self) -> Vec<Metres> {
        let chine = self.chine();
        let end = chine[chine.len() - 1];
        let mut outline = self.keel();
        outline.pop();
        outline.extend(self.stem().into_iter().take_while(|at| at[1] <= end[1]));
        outline.extend(chine.into_iter().rev());
        outline
    }

    /// Half breadth at the chine from transom to stem.
    pub fn chine_plan(&self) -> Vec<Metres> {
        let tip_m = 0.985 * self.overall_m;
        let Some(lines) = &self.lines else {
            return self.plan(0.5 * self.transom_beam_m, 0.5 * self.beam_m, tip_m);
        };
        let mut line = lines.half_beams();
        let last = line.pop().unwrap_or_default();
        line.extend(curve(
            last,
            [0.5 * (last[0] + tip_m), 0.7 * last[1]],
            [tip_m.max(last[0]), 0.0],
        ));
        line
    }

    /// The chine seen from below, as far as stations give it.
    pub fn known_chine_plan(&self) -> Vec<Metres> {
        self.lines.as_ref().map(Lines::half_beams).unwrap_or_default()
    }

    /// The bottom at the transom, seen from below: half of its breadth.
    pub fn stern_half_beam_m(&self) -> f64 {
        self.chine_plan()[0][1]
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

    /// Height above the keel line of the bottom at the transom, at a distance off the centreline.
    pub fn bottom_height_m(&self, off_centre_m: f64) -> f64 {
        self.height_m([0.0, off_centre_m])
    }

    /// Height above the keel line of the bottom, at a distance forward of the transom and off the centreline.
    fn height_m(&self, at: Metres) -> f64 {
        match &self.lines {
            Some(lines) => lines.bottom_height_m(at),
            None => self.chine_height_m * at[1] / (0.5 * self.beam_m),
        }
    }

    /// The wetted bottom of one side, seen from below: keel, stagnation line, chine, transom.
    ///
    /// How much of keel and chine is wet is that of the equations. With a dry chine it is a triangle.
    pub fn wetted_half(&self, keel_m: f64, chine_m: f64) -> Vec<Metres> {
        match &self.lines {
            None => wetted_half(keel_m, chine_m, self.beam_m),
            Some(lines) if chine_m > 0.0 => {
                let mut outline = vec![[0.0, 0.0], [keel_m, 0.0]];
                outline.extend(lines.chine_aft_of(chine_m));
                outline
            }
            Some(lines) => wetted_half(keel_m, chine_m, 2.0 * lines.half_beam_m(0.0)),
        }
    }

    /// The same seen from the side.
    pub fn wetted_side(&self, keel_m: f64, chine_m: f64) -> Vec<Metres> {
        let half = self.wetted_half(keel_m, chine_m).into_iter();
        let mut side: Vec<Metres> = half.map(|at| [at[0], self.height_m(at)]).collect();
        if self.lines.is_some() {
            // Along the keel, which need not be straight.
            let along = self.keel().into_iter().filter(|at| at[0] > 0.0 && at[0] < keel_m);
            side.splice(1..1, along);
        }
        side
    }

    /// The line at which the water parts, from keel to chine, seen from the side.
    pub fn parting_side(&self, keel_m: f64, chine_m: f64) -> Vec<Metres> {
        let half = self.wetted_half(keel_m, chine_m);
        half[1..3].iter().map(|&at| [at[0], self.height_m(at)]).collect()
    }

    /// Half of the beam where the line at which the water parts meets the chine.
    pub fn half_beam_m(&self, forward_m: f64) -> f64 {
        match &self.lines {
            Some(lines) => lines.half_beam_m(forward_m),
            None => 0.5 * self.beam_m,
        }
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
fn wetted_half(keel_m: f64, chine_m: f64, beam_m: f64) -> Vec<Metres> {
    let half_m = 0.5 * beam_m;
    if chine_m >= 0.0 {
        vec![[0.0, 0.0], [keel_m, 0.0], [chine_m, half_m], [0.0, half_m]]
    } else {
        vec![[0.0, 0.0], [keel_m, 0.0], [0.0, half_m * keel_m / (keel_m - chine_m)]]
    }
}
