//! The running trim: the root of the pitch moment between 1° and 15°.
//!
//! Bow-down moments are positive. A root where the moment rises with trim is
//! stable: a bow pushed up is pushed back. On boats of usual proportions there
//! is at most one root and it is stable (a test scans for others); elsewhere
//! the whole interval is surveyed and the stable root of least trim is taken.

use super::coupled::Close;
use super::forces::{Condition, FINEST_TOLERANCE, Forces};
use super::point::PLANES_CARRY_HALF;
use super::{LiftModel, ModelForm};
use crate::hydro::wetted;
use crate::numeric::{MOST_STEPS, quadratic_share};

/// Least trim at which a boat counts as running, degrees.
pub const LEAST_TRIM_DEG: f64 = 1.0;
/// Largest trim of the lift equation, degrees.
pub const LARGEST_TRIM_DEG: f64 = 15.0;

/// How closely a root is looked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Precision {
    /// Residual moment, as a share of weight × beam, at which the search stops.
    moment: f64,
    /// Error of the trim, degrees, at which the search stops.
    trim_deg: f64,
    /// Convergence of the vertical balance, as a share of the weight.
    vertical: f64,
}

impl Precision {
    /// For every answer that is shown by itself.
    pub const FINEST: Self = Self { moment: 1e-10, trim_deg: 1e-8, vertical: FINEST_TOLERANCE };
    /// For one of very many boats whose trims spread over tenths of a degree.
    ///
    /// The search stops when a hundredth of a degree is left by the slope of its bracket; a test
    /// holds what is really left under 0.015 degrees, 0.004 in the root mean square.
    pub const OF_A_DRAW: Self =
        Self { moment: f64::INFINITY, trim_deg: 1e-2, vertical: COARSEST_TOLERANCE };
    /// For one of many boats of which it is asked whether something is taken off that trim.
    pub const OF_A_DUTY: Self = Self { moment: f64::INFINITY, trim_deg: 1e-4, vertical: 1e-7 };
}

/// Residual moment, as a share of weight × beam, with which a trim known to rounding still is a root.
const LARGEST_MOMENT: f64 = 1e-9;
/// Coarsest convergence of the vertical balance while the root is far, as a share of the weight.
pub(super) const COARSEST_TOLERANCE: f64 = 1e-6;
/// Share of the last moment to which the vertical balance is closed next.
const TOLERANCE_OF_MOMENT: f64 = 1e-6;
/// What an error of the vertical balance can make of the moment: no lever is longer, in beams.
const LONGEST_LEVER: f64 = 100.0;
/// How far past the expected root the first step from a start goes, over the way there.
const FIRST_STEP_PAST: f64 = 1.2;
/// Least and largest first step, as factors on the trim.
const FIRST_STEPS: [f64; 2] = [1.003, 2.0];
/// Least second step from a start, as a factor on the trim; each further one is the square of the last.
const SECOND_STEP: f64 = 1.12;
/// Largest angle between chine and keel for which the scans found no second root, degrees.
const LARGEST_WARP_DEG: f64 = 3.0;
/// Wetted length, over the beam, mean or of the keel ahead of the transom, under which a bottom whose planes carry half of her weight or more holds her no longer. Judged: centimetres of water under boats of some metres.
const LEAST_WETTED_BEAMS: f64 = 0.02;
/// Where a search begins that was given no start, degrees.
const USUAL_TRIM_DEG: f64 = 4.0;

/// What the search found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Root {
    /// A balance.
    Found {
        /// Forces there.
        forces: Forces,
        /// Whether the boat returns to it when disturbed.
        stable: bool,
    },
    /// The moment is bow-down throughout, or planes and thrust carry the boat off the water.
    BowDown,
    /// The moment is bow-up throughout.
    BowUp,
}

/// One boat at one speed, while its root is looked for.
pub(crate) struct Search<'a> {
    pub(super) condition: &'a Condition<'a>,
    precision: Precision,
    scale_n_m: f64,
    last: Option<Sample>,
    /// Residual evaluations so far.
    pub evaluations: u32,
}

/// A trim with its forces and its moment over weight × beam.
#[derive(Clone, Copy)]
pub(super) struct Sample {
    pub trim_deg: f64,
    /// Infinite where nothing is left for the hull to carry: there is no balance to have a moment.
    pub moment: f64,
    pub forces: Forces,
}

impl<'a> Search<'a> {
    pub fn new(condition: &'a Condition<'a>) -> Self {
        Self::to(Precision::FINEST, condition)
    }

    /// A search that stops at a precision of its own.
    pub fn to(precision: Precision, condition: &'a Condition<'a>) -> Self {
        Self {
            condition,
            precision,
            scale_n_m: condition.prism.weight_n * condition.prism.beam_m,
            last: None,
            evaluations: 0,
        }
    }

    /// The root; `start_deg` only saves evaluations, the root is the same from any start.
    pub fn root(&mut self, start_deg: Option<f64>) -> Root {
        if self.condition.hull_load_n() <= 0.0 {
            return Root::BowDown;
        }
        if self.condition.has_one_root() {
            if let Some(forces) = self.coupled_root(start_deg) {
                return Root::Found { forces, stable: true };
            }
            if let Some(root) = self.single_root(start_deg) {
                return root;
            }
        }
        self.last = None;
        let is_of_many = self.precision != Precision::FINEST;
        // Where several roots may lie, none is told from another but by a close look.
        self.precision = Precision::FINEST;
        self.surveyed_root(is_of_many)
    }

    /// The root at which a boat is that was seen near a trim: the stable one that the trim leads to, or else that of [`Search::root`].
    pub fn root_near(&mut self, seen_deg: f64) -> Root {
        if self.condition.has_one_root() {
            return self.root(Some(seen_deg));
        }
        if self.condition.hull_load_n() > 0.0
            && let Some(root @ Root::Found { forces, .. }) = self.single_root(Some(seen_deg))
            && self.condition.is_on_bottom(&forces)
        {
            return root;
        }
        self.last = None;
        self.root(None)
    }

    /// Forces and moment at a trim: no finer than the last moment shows to be needed, but fine enough that the sign is sure.
    pub(super) fn sample(&mut self, trim_deg: f64) -> Sample {
        let last_moment = self.last.as_ref().map_or(f64::INFINITY, |last| last.moment.abs());
        let finest = self.precision.vertical;
        let tolerance = (TOLERANCE_OF_MOMENT * last_moment).clamp(finest, COARSEST_TOLERANCE);
        self.sure_sample(trim_deg, tolerance)
    }

    /// Forces and moment to a tolerance of the vertical balance, and to the finest where the sign of the moment asks for it.
    pub(super) fn sure_sample(&mut self, trim_deg: f64, tolerance: f64) -> Sample {
        let sample = self.sample_to(trim_deg, tolerance);
        let finest = self.precision.vertical;
        if tolerance > finest && sample.moment.abs() < LONGEST_LEVER * tolerance {
            return self.sample_to(trim_deg, finest);
        }
        sample
    }

    fn sample_to(&mut self, trim_deg: f64, tolerance: f64) -> Sample {
        let nearby = self.last.as_ref().map(|last| &last.forces);
        let forces = self.condition.forces(trim_deg, nearby, tolerance);
        self.evaluations += 1;
        let moment =
            if forces.lifted_off { f64::INFINITY } else { forces.moment_n_m / self.scale_n_m };
        let sample = Sample { trim_deg, moment, forces };
        self.last = Some(sample);
        sample
    }

    /// The root by trim and length together, where that settles.
    fn coupled_root(&mut self, start_deg: Option<f64>) -> Option<Forces> {
        if !self.condition.couples() {
            return None;
        }
        let close = Close {
            moment_n_m: self.precision.moment * self.scale_n_m,
            vertical_n: self.precision.vertical * self.condition.prism.weight_n,
            trim_deg: self.precision.trim_deg,
        };
        let (found, evaluations) = self.condition.coupled_root(start_of(start_deg), close);
        self.evaluations += evaluations;
        found
    }

    /// Steps from the start towards the root until it is bracketed; none when that leads to a trim at which the hull carries nothing.
    fn single_root(&mut self, start_deg: Option<f64>) -> Option<Root> {
        let mut near = self.sample(start_of(start_deg));
        let bow_down = near.moment > 0.0;
        let (limit_deg, outcome) = if bow_down {
            (LEAST_TRIM_DEG, Root::BowDown)
        } else {
            (LARGEST_TRIM_DEG, Root::BowUp)
        };
        let mut step = self.first_step(&near);
        #[allow(clippy::float_cmp)]
        while near.moment.is_finite() {
            if near.moment == 0.0 {
                return Some(Root::Found { forces: near.forces, stable: true });
            }
            if near.trim_deg == limit_deg {
                return Some(outcome);
            }
            let next_deg = if bow_down { near.trim_deg / step } else { near.trim_deg * step };
            let next = self.sample(next_deg.clamp(LEAST_TRIM_DEG, LARGEST_TRIM_DEG));
            if next.moment.is_finite() && (next.moment > 0.0) != bow_down {
                let (low, high) = if bow_down { (next, near) } else { (near, next) };
                return self.refine(low, high).map(|forces| Root::Found { forces, stable: true });
            }
            near = next;
            step = (step * step).max(SECOND_STEP);
        }
        None
    }

    /// First step away from a start, as a factor on the trim: a little past the root to expect.
    ///
    /// The lever of the bottom goes with the wetted length and so with a known
    /// power of the trim; the other moments hardly change.
    fn first_step(&self, near: &Sample) -> f64 {
        let forces = &near.forces;
        let lever = forces.normal_n * forces.centre_of_pressure_m / self.scale_n_m;
        let exponent = 2.0 * forces.length_answer;
        let way = (1.0 + near.moment / lever).ln().abs() / exponent;
        let [least, largest] = FIRST_STEPS;
        let step = (FIRST_STEP_PAST * way).exp();
        if step.is_finite() { step.clamp(least, largest) } else { SECOND_STEP }
    }

    /// Root of a bracketed moment by Chandrupatla's method in 1/τ, where the moment is straighter.
    ///
    /// As [`crate::numeric::root_between`], with a stop of its own: by moment and
    /// by trim. None when the bracket closes on a jump instead, or not at all.
    pub(super) fn refine(&mut self, low: Sample, high: Sample) -> Option<Forces> {
        let place = |sample: &Sample| 1.0 / sample.trim_deg;
        let (mut a, mut b) = (high, low);
        let mut share = a.moment / (a.moment - b.moment);
        for _ in 0..MOST_STEPS {
            let best = if a.moment.abs() < b.moment.abs() { a } else { b };
            let width = (place(&b) - place(&a)).abs();
            let narrowest = 2.0 * f64::EPSILON * place(&best);
            if settled(self.precision, &best, &a, &b) {
                return Some(best.forces);
            }
            if width <= 2.0 * narrowest {
                return (best.moment.abs() <= LARGEST_MOMENT).then_some(best.forces);
            }
            let margin = narrowest / width;
            let share_kept = share.clamp(margin, 1.0 - margin);
            let next = self.sample(1.0 / (place(&a) + share_kept * (place(&b) - place(&a))));
            let c;
            if (next.moment > 0.0) == (a.moment > 0.0) {
                c = a;
            } else {
                c = b;
                b = a;
            }
            a = next;
            let [a_point, b_point, c_point] =
                [a, b, c].map(|sample: Sample| [place(&sample), sample.moment]);
            share = quadratic_share(a_point, b_point, c_point);
        }
        None
    }
}

/// Where a search begins, degrees.
fn start_of(start_deg: Option<f64>) -> f64 {
    let start_deg = start_deg.filter(|start| start.is_finite()).unwrap_or(USUAL_TRIM_DEG);
    start_deg.clamp(LEAST_TRIM_DEG, LARGEST_TRIM_DEG)
}

/// Whether the better end of a bracket is the root: by its moment, and by the trim that the moment is worth on the bracket's slope.
fn settled(precision: Precision, best: &Sample, a: &Sample, b: &Sample) -> bool {
    let moment = best.moment.abs();
    moment <= precision.moment
        && moment * (a.trim_deg - b.trim_deg).abs()
            <= precision.trim_deg * (a.moment - b.moment).abs()
}

impl Condition<'_> {
    /// Whether a balance is a run on the bottom, and not one on the planes with a strip of water under the bottom.
    ///
    /// Forces that nearly vanish can be had to balance by such a strip, which the next wave takes away. The
    /// wetted length begins at the trailing edge of the planes: what is wet behind the transom is no bottom.
    pub fn is_on_bottom(&self, forces: &Forces) -> bool {
        let length = forces.wetted_length_ratio;
        let keel = wetted::keel(length, self.prism.deadrise_deg, forces.trim_deg)
            - self.plane.mean_edge_m / self.prism.beam_m;
        let is_carried_by_her = self.planes_share() < PLANES_CARRY_HALF;
        keel > 0.0 && (is_carried_by_her || length.min(keel) >= LEAST_WETTED_BEAMS)
    }

    /// Whether the boat is of the usual proportions in which the moment has at most one root, and that a stable one.
    ///
    /// Several need a high centre of gravity or a far-off thrust line on a fast
    /// or lightly loaded bottom, where friction and thrust turn the boat as much
    /// as the bottom does, or weight so far aft that the levers of the bottom
    /// are short. The limits were found by scanning; a test scans again.
    pub fn has_one_root(&self) -> bool {
        let prism = self.prism;
        let beams = |length_m: f64| length_m / prism.beam_m;
        let hull_share = self.hull_load_n() / prism.weight_n;
        (0.0..=0.6).contains(&beams(prism.vcg_m))
            && (-0.4..=0.6).contains(&beams(prism.thrust_offset_m))
            && beams(prism.lcg_m) >= 0.85
            && prism.thrust_angle_deg().abs() <= 14.0
            && prism.deadrise_deg <= 28.0
            && (prism.chine_to_keel_deg == 0.0
                || prism.settings.model == LiftModel::Savitsky1964
                    && (0.0..=LARGEST_WARP_DEG).contains(&prism.chine_to_keel_deg))
            && self.speed_coefficient <= 7.0
            && prism.correlation_allowance <= 0.001
            && prism.settings.form.is_usual()
            && (prism.settings.model == LiftModel::Savitsky1964
                || prism.settings.form == ModelForm::PUBLISHED)
            && hull_share >= 0.5
            && prism.load_coefficient() * hull_share >= 0.1
            && self.air[0] + self.appendages[0] <= 0.1 * prism.weight_n
    }
}
