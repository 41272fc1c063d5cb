//! One corner of what is not known: a moment, and how each plane rolls the boat.

use uom::si::f64::Velocity;
use uom::si::{angle::degree, force::newton, length::meter};

use super::ListStudy;
use crate::boat::PlanePair;
use crate::plane::{effect, roll};

/// A moment with the roll moment of each plane for each degree past its dead band, port first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Corner {
    pub moment_n_m: f64,
    pub roll_n_m: [f64; 2],
    /// Deflection up to which each plate is above the bottom line and does nothing.
    pub dead_deg: [f64; 2],
}

impl Corner {
    /// How far past its dead band one plane levels the moment with the other up: starboard positive, port negative. None where a plane does not raise its side.
    pub fn alone_deg(&self) -> Option<f64> {
        if self.moment_n_m == 0.0 {
            return Some(0.0);
        }
        let roll_n_m = self.roll_n_m[self.deeper()];
        (roll_n_m > 0.0).then(|| self.moment_n_m / roll_n_m)
    }

    /// Index of the plane that raises the side pressed down.
    fn deeper(&self) -> usize {
        usize::from(self.moment_n_m > 0.0)
    }

    /// Deflection of the deeper plane where the other does nothing; none to level takes none.
    pub fn deepest_deg(&self) -> Option<f64> {
        let alone_deg = self.alone_deg()?.abs();
        Some(if alone_deg > 0.0 { alone_deg + self.dead_deg[self.deeper()] } else { 0.0 })
    }

    fn mean_dead_deg(&self) -> f64 {
        0.5 * (self.dead_deg[0] + self.dead_deg[1])
    }

    /// The least mean of a setting that levels the moment, the higher plane at the end of its dead band, where it begins to lift.
    pub fn least_mean_deg(&self) -> Option<f64> {
        let alone_deg = self.alone_deg()?.abs();
        Some(if alone_deg > 0.0 { 0.5 * alone_deg + self.mean_dead_deg() } else { 0.0 })
    }

    /// The deflections of a mean that level the moment.
    pub fn setting_deg(&self, mean_deg: f64) -> [f64; 2] {
        let past_deg = mean_deg - self.mean_dead_deg();
        if self.moment_n_m == 0.0 && past_deg <= 0.0 {
            return [mean_deg; 2];
        }
        let [port_n_m, starboard_n_m] = self.roll_n_m;
        let both_n_m = port_n_m + starboard_n_m;
        let starboard_deg = (self.moment_n_m + 2.0 * past_deg * port_n_m) / both_n_m;
        let [port_dead_deg, starboard_dead_deg] = self.dead_deg;
        [2.0 * past_deg - starboard_deg + port_dead_deg, starboard_deg + starboard_dead_deg]
    }

    /// The largest mean of a setting that levels the moment with no plane deeper than a limit.
    pub fn largest_mean_deg(&self, limit_deg: f64) -> f64 {
        let [port_n_m, starboard_n_m] = self.roll_n_m;
        let both_n_m = port_n_m + starboard_n_m;
        let [port_deg, starboard_deg] = self.dead_deg.map(|dead_deg| limit_deg - dead_deg);
        let by_starboard = (starboard_deg * both_n_m - self.moment_n_m) / (2.0 * port_n_m);
        let by_port = (port_deg * both_n_m + self.moment_n_m) / (2.0 * starboard_n_m);
        by_starboard.min(by_port) + self.mean_dead_deg()
    }

    /// The moment that is left with the planes at some deflections.
    pub fn left_n_m(&self, setting_deg: [f64; 2]) -> f64 {
        let [port_n_m, starboard_n_m] = self.roll_n_m;
        let past = |side: usize| (setting_deg[side] - self.dead_deg[side]).max(0.0);
        self.moment_n_m - (starboard_n_m * past(1) - port_n_m * past(0))
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
