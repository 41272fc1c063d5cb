//! One corner of what is not known: a moment, and how each plane rolls the boat.

use uom::si::f64::Velocity;
use uom::si::{angle::degree, force::newton, length::meter};

use super::ListStudy;
use crate::boat::PlanePair;
use crate::plane::{effect, roll};

/// A moment with the roll moment of each plane for each degree, port first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Corner {
    pub moment_n_m: f64,
    pub roll_n_m: [f64; 2],
}

impl Corner {
    /// Deflection of one plane that levels the moment with the other up: starboard positive, port negative. None where a plane does not raise its side.
    pub fn alone_deg(&self) -> Option<f64> {
        if self.moment_n_m == 0.0 {
            return Some(0.0);
        }
        let roll_n_m = self.roll_n_m[usize::from(self.moment_n_m > 0.0)];
        (roll_n_m > 0.0).then(|| self.moment_n_m / roll_n_m)
    }

    /// The deflections of a mean that level the moment.
    pub fn setting_deg(&self, mean_deg: f64) -> [f64; 2] {
        let [port_n_m, starboard_n_m] = self.roll_n_m;
        let both_n_m = port_n_m + starboard_n_m;
        let starboard_deg = (self.moment_n_m + 2.0 * mean_deg * port_n_m) / both_n_m;
        [2.0 * mean_deg - starboard_deg, starboard_deg]
    }

    /// The largest mean of a setting that levels the moment with no plane deeper than a limit.
    pub fn largest_mean_deg(&self, limit_deg: f64) -> f64 {
        let [port_n_m, starboard_n_m] = self.roll_n_m;
        let all_n_m = limit_deg * (port_n_m + starboard_n_m);
        let by_starboard = (all_n_m - self.moment_n_m) / (2.0 * port_n_m);
        let by_port = (all_n_m + self.moment_n_m) / (2.0 * starboard_n_m);
        by_starboard.min(by_port)
    }

    /// The moment that is left with the planes at some deflections.
    pub fn left_n_m(&self, [port_deg, starboard_deg]: [f64; 2]) -> f64 {
        let [port_n_m, starboard_n_m] = self.roll_n_m;
        self.moment_n_m - (starboard_n_m * starboard_deg - port_n_m * port_deg)
    }
}

impl ListStudy<'_> {
    /// Roll moment of one plane for each degree of its deflection: by height of the reaction, then by spread of the lift.
    pub(super) fn roll_per_degree_n_m(&self, size: PlanePair, speed: Velocity) -> [[f64; 2]; 2] {
        let lift =
            effect::lift_per_degree(size, self.boat.hull(), self.boat.water().density, speed);
        let lift_n = self.settings.effectiveness * lift.get::<newton>();
        let transom = self.boat.transom();
        roll::arms_m(
            transom.mid_span_off_centre(size.span).get::<meter>(),
            self.boat.weight().vcg.get::<meter>(),
            transom.deadrise.get::<degree>(),
        )
        .map(|arms_m| arms_m.map(|arm_m| lift_n * arm_m))
    }
}
