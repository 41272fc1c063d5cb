//! The running trim and the wetted length found together, by Newton's method on both balances.
//!
//! [`Search::root`](super::root::Search::root) closes the vertical balance anew at each trim that it
//! tries. Where a boat has at most one root and one wetted length to each trim, any trim and length at
//! which both balances hold is that root, however it was come by: so both are looked for at once,
//! which takes a third of the work. The slopes are those of the equations, but for the slight ones of
//! the friction, so that nearly each step squares what is left. Where the steps lead out of the trims
//! of the equations, or do not settle, the root is left to the other search.
//!
//! Lift and lever are powers of trim and length, nearly; so the unknowns are ln τ and ln λ^½, and the
//! balances are written as logarithms of what carries over what is carried.

use super::forces::{Around, Condition, Forces, Slope};
use super::root::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG};
use crate::hydro::lift_model::LiftModel;
use crate::hydro::pressure_centre::distance_slope;

/// Steps after which the root is left to the other search.
const MOST_STEPS: u32 = 12;
/// Longest step of ln τ or ln λ^½.
const LONGEST_STEP: f64 = 0.7;
/// How far outside the trims of the equations a step may lead, as a factor.
const OUTSIDE: f64 = 1.5;
/// Exponent of the trim in the dynamic lift with deadrise, about; only how fast the search closes depends on it.
const DYNAMIC_LIFT_BY_TRIM: f64 = 1.2;
/// Exponent of λ^½ in the dynamic lift with deadrise, about.
const DYNAMIC_LIFT_BY_ROOT: f64 = 1.1;

/// How closely both balances have to hold.
#[derive(Clone, Copy)]
pub(super) struct Close {
    /// Moment, N m.
    pub moment_n_m: f64,
    /// Vertical force, N.
    pub vertical_n: f64,
    /// What the next step would change the trim by, degrees.
    pub trim_deg: f64,
}

/// What is left of both balances, with its slopes by ln τ and ln λ^½.
struct Left {
    vertical_n: f64,
    /// ln of what holds up over what is held up, and ln of what turns the bow down over what turns it up.
    logarithms: [f64; 2],
    /// Slopes of both by ln τ.
    by_trim: [f64; 2],
    /// Slopes of both by ln λ^½.
    by_root: [f64; 2],
}

impl Left {
    /// Newton's step of ln τ and ln λ^½.
    fn step(&self) -> [f64; 2] {
        let Self { logarithms: [vertical, moment], by_trim, by_root, .. } = *self;
        let determinant = by_trim[0] * by_root[1] - by_root[0] * by_trim[1];
        let trim = by_root[0] * moment - by_root[1] * vertical;
        let root = by_trim[1] * vertical - by_trim[0] * moment;
        [trim / determinant, root / determinant]
    }
}

impl Condition<'_> {
    /// Whether both balances can be looked for together.
    pub(super) fn couples(&self) -> bool {
        let settings = &self.prism.settings;
        settings.method.is_full_balance()
            && settings.model == LiftModel::Savitsky1964
            && !settings.whisker_spray
    }

    /// Trim and length at which both balances hold, looked for from a trim; with it how often the forces were computed.
    pub(super) fn coupled_root(&self, start_deg: f64, close: Close) -> (Option<Forces>, u32) {
        let mut trim_deg = start_deg;
        // In balance the centre of pressure lies near the centre of gravity, at some 0.7 of the wetted length.
        let mut root = (self.prism.lcg_m / (0.7 * self.prism.beam_m)).sqrt();
        for steps in 1..=MOST_STEPS {
            let slope = Slope::new(trim_deg, self.prism);
            let around = self.around(&slope);
            let forces = self.with_the_rest(self.bottom(&slope, root), &slope, &around);
            let left = self.left(&forces, root, &slope, &around);
            let [by_trim, by_root] = left.step();
            if !(by_trim + by_root).is_finite() {
                return (None, steps);
            }
            if left.vertical_n.abs() <= close.vertical_n
                && forces.moment_n_m.abs() <= close.moment_n_m
                && by_trim.abs() * trim_deg <= close.trim_deg
            {
                let is_inside = (LEAST_TRIM_DEG..=LARGEST_TRIM_DEG).contains(&trim_deg);
                return (is_inside.then_some(forces), steps);
            }
            trim_deg *= by_trim.clamp(-LONGEST_STEP, LONGEST_STEP).exp();
            root *= by_root.clamp(-LONGEST_STEP, LONGEST_STEP).exp();
            if !(LEAST_TRIM_DEG / OUTSIDE..=LARGEST_TRIM_DEG * OUTSIDE).contains(&trim_deg) {
                return (None, steps);
            }
        }
        (None, MOST_STEPS)
    }

    /// What is left of both balances at a trim and a length.
    fn left(&self, forces: &Forces, root: f64, slope: &Slope, around: &Around) -> Left {
        let prism = self.prism;
        let (sin_thrust, cos_thrust) = (prism.sin_thrust, prism.cos_thrust_to_pressure());
        let [sin_warp, cos_warp] = prism.warp_slope;
        let trim = slope.trim_deg.to_radians();
        let along_keel_n = forces.along_keel_n();
        let [_, edge_drag_n] = around.plane_drag_n;

        // Slopes by ln τ and by ln λ^½: of the bottom's two forces, ...
        let normal_by_root_n = root * forces.normal_by_root_n;
        let by_slope_n = forces.normal_n * slope.pressure_sin / slope.pressure_cos * trim;
        let normal_by_n = [forces.length_answer * normal_by_root_n + by_slope_n, normal_by_root_n];
        let keel_by_n = self.along_keel_slopes_n(forces);
        // ... of the planes' drag and of what is wanted of the bottom, by ln τ alone, ...
        let pressure_drag_by_n = self.plane.lift_n / (slope.cos * slope.cos) * trim;
        let edge_drag_by_n = if edge_drag_n > 0.0 {
            edge_drag_n * slope.trim_deg / (slope.trim_deg + self.plane.deflection_deg)
        } else {
            0.0
        };
        let horizontal_by_n = pressure_drag_by_n + edge_drag_by_n;
        let turned_n = self.hull_load_n() * slope.sin_sum + around.horizontal_n * slope.cos_sum;
        let wanted_by_n = [-turned_n * trim - horizontal_by_n * slope.sin_sum, 0.0];
        // ... and of the thrust.
        let turned_n = forces.normal_n * slope.pressure_cos - along_keel_n * slope.sin
            + forces.thrust_n * slope.sin_sum;
        let thrust_by_trim_n = [turned_n * trim + horizontal_by_n, 0.0];

        let pressure_arm_m = (prism.lcg_m - forces.centre_of_pressure_m) * cos_warp
            + (prism.vcg_m - prism.pressure_height_m()) * sin_warp;
        let friction_arm_m = prism.vcg_m - prism.friction_height_m();
        let length_m = self.centre_of_pressure_factor * forces.wetted_length_ratio * prism.beam_m;
        // Centre of the bottom's pressure ahead of the mean trailing edge; its moment turns the bow up.
        let centre_m = forces.centre_of_pressure_m + self.plane.mean_edge_m;
        let centre_by_m = [0.0, 2.0 * length_m * distance_slope(centre_m / length_m)];
        let around_by_n_m = [
            self.turned_n_m(around, slope) * trim
                + pressure_drag_by_n * self.pressure_drag_arm_m(slope.sin, slope.cos)
                + edge_drag_by_n * self.edge_drag_arm_m(slope.sin, slope.cos),
            0.0,
        ];
        let up_n_m = forces.normal_n * centre_m * cos_warp;
        let down_n_m = forces.moment_n_m + up_n_m;
        let held_n = forces.normal_n * cos_thrust + along_keel_n * sin_thrust;
        let slopes = [0, 1].map(|by| {
            let thrust_by_n = (normal_by_n[by] * slope.pressure_sin
                + keel_by_n[by] * slope.cos
                + thrust_by_trim_n[by])
                / slope.cos_sum;
            let held_by_n = normal_by_n[by] * cos_thrust + keel_by_n[by] * sin_thrust;
            let up_by_n_m =
                (normal_by_n[by] * centre_m + forces.normal_n * centre_by_m[by]) * cos_warp;
            let moment_by_n_m = normal_by_n[by] * pressure_arm_m
                - forces.normal_n * centre_by_m[by] * cos_warp
                + keel_by_n[by] * friction_arm_m
                - thrust_by_n * prism.thrust_offset_m
                + around_by_n_m[by];
            [
                held_by_n / held_n - wanted_by_n[by] / around.wanted_n,
                (moment_by_n_m + up_by_n_m) / down_n_m - up_by_n_m / up_n_m,
            ]
        });
        Left {
            vertical_n: held_n - around.wanted_n,
            logarithms: [(held_n / around.wanted_n).ln(), (down_n_m / up_n_m).ln()],
            by_trim: slopes[0],
            by_root: slopes[1],
        }
    }

    /// Slope by the trim in radians of the moment of all but the bottom's pressure, friction and the thrust, at constant forces.
    fn turned_n_m(&self, around: &Around, slope: &Slope) -> f64 {
        let (lcg_m, vcg_m) = (self.prism.lcg_m, self.prism.vcg_m);
        let ahead_of_lift_m = lcg_m - self.plane.centre_m;
        let [pressure_drag_n, edge_drag_n] = around.plane_drag_n;
        let mut turned_n_m = -self.plane.lift_n * (ahead_of_lift_m * slope.sin + vcg_m * slope.cos)
            + pressure_drag_n * (ahead_of_lift_m * slope.cos - vcg_m * slope.sin)
            + edge_drag_n * (lcg_m * slope.cos - vcg_m * slope.sin);
        for [drag_n, height_m] in [self.air, self.appendages] {
            turned_n_m -= drag_n * (vcg_m - height_m) * slope.sin;
        }
        turned_n_m
    }

    /// Slopes of the friction by ln τ and ln λ^½, as the mean bottom speed and the line of friction have it, about.
    fn along_keel_slopes_n(&self, forces: &Forces) -> [f64; 2] {
        let slowed = (1.0 - forces.bottom_speed_squared) / forces.bottom_speed_squared;
        let coefficient = forces.friction_coefficient;
        let with_allowance = coefficient + self.prism.correlation_allowance;
        // ITTC 1957: d ln C_f/d ln Re = −2/(ln 10 (log₁₀ Re − 2)) = −2 (C_f/0.075)^½/ln 10.
        let by_reynolds = -2.0 / std::f64::consts::LN_10
            * (coefficient / 0.075).sqrt()
            * (coefficient / with_allowance);
        [[-slowed * DYNAMIC_LIFT_BY_TRIM, 0.0], [slowed * (2.0 - DYNAMIC_LIFT_BY_ROOT), 2.0]].map(
            |[speed_squared, length]| {
                let reynolds = 0.5 * speed_squared + length;
                forces.friction_n * (speed_squared + length + by_reynolds * reynolds)
            },
        )
    }
}
