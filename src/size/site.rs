//! One speed at which duties must be done: what the boat needs there, for a size of plane.
//!
//! Deflections are looked for beyond what the hardware gives, so that a size
//! which is too small shows by how much.

use std::cell::{Cell, OnceCell};

use super::demand::{Demand, Rules};
use crate::balance::forces::{Condition, Forces, PlaneSize, Prism};
use crate::balance::root::{Precision, Root, Search};
use crate::balance::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG, TRIM_FLOOR_DEG};
use crate::flag::Flags;
use crate::hydro::porpoising::PorpoisingLimit;
use crate::numeric::{least_between, root_between};
use crate::plane::{effect, roll};

/// Deflection up to which a need is followed, degrees; far beyond any hardware.
pub(crate) const FARTHEST_DEG: f64 = 60.0;
/// Convergence of the vertical balance while a deflection is looked for, as a share of the weight.
const VERTICAL_TOLERANCE: f64 = 1e-10;
/// Precision of the deflection of least resistance, degrees; the resistance is flat there.
const LEAST_PRECISION_DEG: f64 = 0.02;

/// A resistance is less than at an end by at least this share, or the end is taken: in the dead band all are alike.
const LESS: f64 = 1e-5;

/// A speed with what is asked for there.
#[derive(Clone, Debug)]
pub(crate) struct Site<'a> {
    /// Index of the loading condition she is in.
    pub loaded: usize,
    pub bare: Condition<'a>,
    pub demands: Vec<Demand>,
    /// Deflection × area that sufficed for the resistance with the last size; only saves work.
    lift_that_sufficed: Cell<Option<f64>>,
    /// Trim last found here; only saves work.
    last_trim_deg: Cell<Option<f64>>,
    /// Forces last asked for at a trim; only saves work.
    last_forces: Cell<Option<Forces>>,
    /// Largest safe deflection of the last size; only saves work.
    last_safe_deg: Cell<Option<(PlaneSize, f64)>>,
    /// Trim near which the bare boat settles, where it is known from a boat nearly like her.
    pub bare_near_deg: Option<f64>,
    /// Where the bare boat settles; looked for once.
    bare_forces: OnceCell<Option<Forces>>,
    /// The porpoising limit with planes up; looked for once.
    bare_limit: OnceCell<PorpoisingLimit>,
}

impl<'a> Site<'a> {
    /// A speed in the loading condition of an index, of which this is the prism.
    pub fn new(loaded: usize, prism: &'a Prism, speed_m_s: f64) -> Self {
        Self {
            loaded,
            bare: prism.at(speed_m_s),
            demands: Vec::new(),
            lift_that_sufficed: Cell::new(None),
            last_trim_deg: Cell::new(None),
            last_forces: Cell::new(None),
            last_safe_deg: Cell::new(None),
            bare_near_deg: None,
            bare_forces: OnceCell::new(),
            bare_limit: OnceCell::new(),
        }
    }

    /// The same where it is known what is asked and how the bare boat settles.
    pub fn settled(
        loaded: usize,
        prism: &'a Prism,
        speed_m_s: f64,
        demands: Vec<Demand>,
        bare: Option<Forces>,
    ) -> Self {
        Self { demands, bare_forces: OnceCell::from(bare), ..Self::new(loaded, prism, speed_m_s) }
    }

    /// The porpoising limit with planes up.
    pub fn bare_limit(&self) -> &PorpoisingLimit {
        self.bare_limit.get_or_init(|| self.bare.porpoising_limit())
    }

    /// Where the boat settles with planes up; none when she does not run.
    pub fn settle_bare(&self) -> Option<&Forces> {
        let settled = || match self.bare_near_deg {
            Some(near_deg) => {
                stable(Search::to(Precision::OF_A_DUTY, &self.bare).root_near(near_deg))
            }
            None => settle(&self.bare),
        };
        self.bare_forces.get_or_init(settled).as_ref()
    }

    /// Where the boat settles with the planes of a size at a mean deflection; none when she does not run.
    pub fn settle(&self, size: PlaneSize, deflection_deg: f64) -> Option<Forces> {
        self.settle_at(&self.bare.with_planes(size, deflection_deg))
    }

    /// Where a condition of this site settles, begun from the last trim found here.
    fn settle_at(&self, condition: &Condition<'_>) -> Option<Forces> {
        let forces = settle_from(condition, self.last_trim_deg.get())?;
        self.last_trim_deg.set(Some(forces.trim_deg));
        Some(forces)
    }

    /// Forces at a trim, begun from those last found here, or from those of the bare boat.
    pub fn forces_near(&self, condition: &Condition<'_>, trim_deg: f64, tolerance: f64) -> Forces {
        let last = self.last_forces.get();
        let nearby = last.as_ref().or_else(|| self.settle_bare());
        let forces = condition.forces(trim_deg, nearby, tolerance);
        if !forces.lifted_off {
            self.last_forces.set(Some(forces));
        }
        forces
    }

    /// Resistance with the hump factor; infinite when she does not run.
    pub fn resistance_n(&self, size: PlaneSize, deflection_deg: f64) -> f64 {
        let condition = self.bare.with_planes(size, deflection_deg);
        self.settle_at(&condition)
            .map_or(f64::INFINITY, |forces| condition.resistance_parts_n(&forces).iter().sum())
    }

    /// Deflection that brings the boat down to a trim; zero when she lies under it already, the farthest when none was found.
    pub fn deflection_for_trim(&self, size: PlaneSize, trim_deg: f64) -> f64 {
        self.deflection_down_to(size, |_| trim_deg).unwrap_or(FARTHEST_DEG)
    }

    /// Deflection at which the boat lies at a trim that may depend on what the planes carry.
    ///
    /// At the wanted trim the moment rises nearly in proportion to the
    /// deflection, so that one residual for each step is enough. None when the
    /// search for it has not come to rest.
    fn deflection_down_to(
        &self,
        size: PlaneSize,
        wanted_deg: impl Fn(&Condition<'_>) -> f64,
    ) -> Option<f64> {
        let scale = self.bare.prism.weight_n * self.bare.prism.beam_m;
        let mut last: Option<Forces> = None;
        let mut moment = |deflection_deg: f64| {
            let condition = self.bare.with_planes(size, deflection_deg);
            if condition.hull_load_n() <= 0.0 {
                return f64::INFINITY;
            }
            let trim_deg = wanted_deg(&condition).clamp(LEAST_TRIM_DEG, LARGEST_TRIM_DEG);
            let forces = condition.forces(trim_deg, last.as_ref(), VERTICAL_TOLERANCE);
            if forces.lifted_off {
                return f64::INFINITY;
            }
            last = Some(forces);
            forces.moment_n_m / scale
        };
        let none = [0.0, moment(0.0)];
        if none[1] >= 0.0 {
            return Some(0.0);
        }
        let mut far = [5.0, moment(5.0)];
        while far[1] < 0.0 && far[0] < FARTHEST_DEG {
            far = [2.0 * far[0], moment(2.0 * far[0])];
        }
        if far[1] < 0.0 {
            return Some(FARTHEST_DEG);
        }
        Some(root_between(none, far, 1e-9, moment)?.min(FARTHEST_DEG))
    }

    /// Largest mean deflection without danger: trim not under 2°, bow not driven under. Zero when none is.
    pub fn safe_deg(&self, size: PlaneSize) -> f64 {
        match self.last_safe_deg.get() {
            Some((last, safe_deg)) if last == size => safe_deg,
            _ => {
                let safe_deg = self.deflection_for_trim(size, TRIM_FLOOR_DEG);
                self.last_safe_deg.set(Some((size, safe_deg)));
                safe_deg
            }
        }
    }

    /// Least deflection with a balance: zero but for a boat whose stern is too heavy for the speed.
    pub fn running_deg(&self, size: PlaneSize) -> f64 {
        self.deflection_for_trim(size, LARGEST_TRIM_DEG * (1.0 - 1e-6))
    }

    /// How far the trim lies under the lower porpoising limit, degrees; none when she does not run.
    pub fn margin_deg(&self, size: PlaneSize, deflection_deg: f64) -> Option<f64> {
        let condition = self.bare.with_planes(size, deflection_deg);
        let forces = self.settle_at(&condition)?;
        Some(condition.porpoising_limit().lower_deg() - forces.trim_deg)
    }

    /// Place and value of the least resistance between two deflections.
    pub fn least_resistance(&self, size: PlaneSize, from_deg: f64, to_deg: f64) -> [f64; 2] {
        let ends = [from_deg, to_deg].map(|at_deg| [at_deg, self.resistance_n(size, at_deg)]);
        let inside = (to_deg > from_deg)
            .then(|| {
                least_between(from_deg, to_deg, LEAST_PRECISION_DEG, |at_deg| {
                    self.resistance_n(size, at_deg)
                })
            })
            .flatten();
        let best_end = if ends[0][1] <= ends[1][1] { ends[0] } else { ends[1] };
        inside.filter(|inside| inside[1] < best_end[1] * (1.0 - LESS)).unwrap_or(best_end)
    }

    /// Roll moment of one plane for each degree of its deflection, reacted at a height above the keel.
    pub fn roll_per_degree_n_m(
        &self,
        size: PlaneSize,
        rules: &Rules,
        reaction_height_m: f64,
    ) -> f64 {
        let one_n = 0.5 * self.bare.lift_per_degree_n(size);
        let mid_span_m = rules.mid_span_m(size.span_m);
        one_n * roll::arm_m(mid_span_m, reaction_height_m, rules.transom_deadrise_deg())
    }

    /// Flags with planes up, or with a size at a mean deflection.
    pub fn flags(&self, planes: Option<(PlaneSize, f64)>) -> Flags {
        let condition = match planes {
            Some((size, deflection_deg)) => self.bare.with_planes(size, deflection_deg),
            None => self.bare.clone(),
        };
        crate::balance::point_at(&condition, None).flags
    }

    /// Trim with so much taken off that with planes up; off the largest trim there is where she does not run.
    pub fn relieved_trim_deg(&self, at_least_deg: f64) -> f64 {
        self.settle_bare().map_or(LARGEST_TRIM_DEG, |forces| forces.trim_deg) - at_least_deg
    }

    /// Whether porpoising may be judged here: on the published curves, and where planes were tested.
    pub fn porpoising_is_tested(&self, limit: &PorpoisingLimit) -> bool {
        !limit.clamped && effect::TESTED_SPEED_COEFFICIENT.contains(&self.bare.speed_coefficient)
    }

    /// Deflection up to which a plane of a size is dry.
    pub fn dead_band_deg(&self, size: PlaneSize) -> f64 {
        effect::dead_band_deg(self.bare.prism.hinge_height_m, size.chord_m)
    }

    /// Least deflection that keeps a margin under the porpoising limit.
    pub fn deflection_for_margin(&self, size: PlaneSize, margin_deg: f64) -> f64 {
        self.deflection_down_to(size, |condition| {
            condition.porpoising_limit().lower_deg() - margin_deg
        })
        .unwrap_or(FARTHEST_DEG)
    }

    /// Least deflection at which the resistance is no more than a limit, and whether there is one; else that of the least resistance.
    pub fn deflection_for_resistance(
        &self,
        size: PlaneSize,
        at_most_n: f64,
        from_deg: f64,
    ) -> (f64, bool) {
        let over = |deflection_deg: f64| self.over(size, deflection_deg, at_most_n);
        let first = [from_deg, over(from_deg)];
        if first[1] <= 0.0 {
            return (from_deg, true);
        }
        let enough = match self.enough_for_resistance(size, at_most_n, from_deg) {
            Ok(enough) => enough,
            Err(best_deg) => return (best_deg, false),
        };
        // On the near side of the limit, so that the demand is done.
        let mut done = enough;
        let root_deg = root_between(first, enough, 1e-9, |deflection_deg| {
            let value = over(deflection_deg);
            if value <= 0.0 && deflection_deg < done[0] {
                done = [deflection_deg, value];
            }
            value
        });
        let deflection_deg = root_deg.filter(|&root_deg| over(root_deg) <= 0.0).unwrap_or(done[0]);
        self.lift_that_sufficed.set(Some(deflection_deg * size.area_m2()));
        (deflection_deg, true)
    }

    /// A deflection at which the resistance is no more than a limit, with how far; else the safe deflection of the least resistance.
    ///
    /// About the lift that sufficed for the last size is tried before the least
    /// resistance is looked for.
    fn enough_for_resistance(
        &self,
        size: PlaneSize,
        at_most_n: f64,
        from_deg: f64,
    ) -> Result<[f64; 2], f64> {
        let over = |deflection_deg: f64| self.over(size, deflection_deg, at_most_n);
        if let Some(lift) = self.lift_that_sufficed.get() {
            let deflection_deg = 1.05 * lift / size.area_m2();
            if deflection_deg > from_deg {
                let value = over(deflection_deg);
                if value <= 0.0 {
                    return Ok([deflection_deg, value]);
                }
            }
        }
        let to_deg = self.safe_deg(size).max(from_deg);
        let [best_deg, _] = self.least_resistance(size, from_deg, to_deg);
        let value = over(best_deg);
        if value <= 0.0 { Ok([best_deg, value]) } else { Err(best_deg) }
    }

    /// How far the resistance lies above a limit, as a share of it; infinite when she does not run.
    fn over(&self, size: PlaneSize, deflection_deg: f64, at_most_n: f64) -> f64 {
        let resistance_n = self.resistance_n(size, deflection_deg);
        if resistance_n.is_finite() { resistance_n / at_most_n - 1.0 } else { f64::INFINITY }
    }
}

/// Where a condition settles; none when the boat does not run or the balance is unstable.
pub(crate) fn settle(condition: &Condition<'_>) -> Option<Forces> {
    settle_from(condition, None)
}

/// [`settle`] begun from a trim; it saves work and changes nothing.
fn settle_from(condition: &Condition<'_>, start_deg: Option<f64>) -> Option<Forces> {
    stable(Search::new(condition).root(start_deg))
}

fn stable(root: Root) -> Option<Forces> {
    match root {
        Root::Found { forces, stable: true } => Some(forces),
        _ => None,
    }
}
