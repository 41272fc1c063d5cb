//! The running trim: the root of the pitch moment between 1° and 15°.
//!
//! Bow-down moments are positive. A root where the moment rises with trim is
//! stable: a bow pushed up is pushed back. On boats of usual proportions there
//! is at most one root and it is stable (a test scans for others); elsewhere
//! the whole interval is searched and the stable root of least trim is taken.

use super::forces::{Condition, FINEST_TOLERANCE, Forces};

/// Least trim at which a boat counts as running, degrees.
pub const LEAST_TRIM_DEG: f64 = 1.0;
/// Largest trim of the lift equation, degrees.
pub const LARGEST_TRIM_DEG: f64 = 15.0;

/// Residual moment, as a share of weight × beam, at which the search stops.
const MOMENT_TOLERANCE: f64 = 1e-10;
/// Coarsest convergence of the vertical balance while the root is far, as a share of the weight.
const COARSEST_TOLERANCE: f64 = 1e-6;
/// Steps of the search through the whole interval.
const SEARCH_STEPS: u32 = 56;
/// First step away from a start, as a factor on the trim.
const FIRST_STEP: f64 = 1.12;

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
    /// The moment is bow-down throughout, or the planes lift as much as the boat weighs.
    BowDown,
    /// The moment is bow-up throughout.
    BowUp,
}

/// One boat at one speed, while its root is looked for.
pub(crate) struct Search<'a> {
    condition: &'a Condition<'a>,
    scale_n_m: f64,
    last: Option<Sample>,
    /// Residual evaluations so far.
    pub evaluations: u32,
}

/// A trim with its forces and its moment over weight × beam.
#[derive(Clone, Copy)]
struct Sample {
    trim_deg: f64,
    moment: f64,
    forces: Forces,
    /// How far the vertical balance was closed.
    tolerance: f64,
}

impl<'a> Search<'a> {
    pub fn new(condition: &'a Condition<'a>) -> Self {
        Self {
            condition,
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
            self.single_root(start_deg)
        } else {
            self.searched_root()
        }
    }

    /// Forces and moment at a trim, no finer than the last moment shows to be needed.
    fn sample(&mut self, trim_deg: f64) -> Sample {
        let last_moment = self.last.as_ref().map_or(f64::INFINITY, |last| last.moment.abs());
        let tolerance = (1e-6 * last_moment).clamp(FINEST_TOLERANCE, COARSEST_TOLERANCE);
        self.sample_to(trim_deg, tolerance)
    }

    fn sample_to(&mut self, trim_deg: f64, tolerance: f64) -> Sample {
        let nearby = self.last.as_ref().map(|last| &last.forces);
        let forces = self.condition.forces(trim_deg, nearby, tolerance);
        self.evaluations += 1;
        // A hull with nothing left to carry is beyond bow-down.
        let moment =
            if forces.lifted_off { f64::INFINITY } else { forces.moment_n_m / self.scale_n_m };
        let sample = Sample { trim_deg, moment, forces, tolerance };
        self.last = Some(sample);
        sample
    }

    /// Steps from the start towards the root until it is bracketed.
    fn single_root(&mut self, start_deg: Option<f64>) -> Root {
        let start_deg = start_deg.unwrap_or(4.0).clamp(LEAST_TRIM_DEG, LARGEST_TRIM_DEG);
        let mut near = self.sample(start_deg);
        let bow_down = near.moment > 0.0;
        let mut step = FIRST_STEP;
        loop {
            let (limit_deg, outcome) = if bow_down {
                (LEAST_TRIM_DEG, Root::BowDown)
            } else {
                (LARGEST_TRIM_DEG, Root::BowUp)
            };
            if near.moment == 0.0 {
                return Root::Found { forces: near.forces, stable: true };
            }
            #[allow(clippy::float_cmp)]
            if near.trim_deg == limit_deg {
                return outcome;
            }
            let next_deg = if bow_down { near.trim_deg / step } else { near.trim_deg * step };
            let next = self.sample(next_deg.clamp(LEAST_TRIM_DEG, LARGEST_TRIM_DEG));
            if (next.moment > 0.0) != bow_down {
                let (low, high) = if bow_down { (next, near) } else { (near, next) };
                return Root::Found { forces: self.refine(low, high), stable: true };
            }
            near = next;
            step *= step;
        }
    }

    /// Looks at the whole interval, and between samples where the moment turns back towards zero.
    fn searched_root(&mut self) -> Root {
        let ratio = (LARGEST_TRIM_DEG / LEAST_TRIM_DEG).powf(1.0 / f64::from(SEARCH_STEPS));
        let mut samples: Vec<Sample> = (0..SEARCH_STEPS)
            .map(|step| LEAST_TRIM_DEG * ratio.powi(i32::try_from(step).unwrap_or(i32::MAX)))
            .chain([LARGEST_TRIM_DEG])
            .map(|trim_deg| self.sample(trim_deg))
            .collect();
        for turn in self.turns(&samples).into_iter().rev() {
            let place = samples.partition_point(|sample| sample.trim_deg < turn.trim_deg);
            samples.insert(place, turn);
        }
        let crossing = |rising: bool| {
            samples.windows(2).position(|pair| {
                (pair[0].moment <= 0.0) == rising && (pair[1].moment > 0.0) == rising
            })
        };
        let (at, stable) = match (crossing(true), crossing(false)) {
            (Some(at), _) => (at, true),
            (None, Some(at)) => (at, false),
            (None, None) if samples[0].moment > 0.0 => return Root::BowDown,
            (None, None) => return Root::BowUp,
        };
        let (low, high) = (samples[at], samples[at + 1]);
        Root::Found { forces: self.refine(low, high), stable }
    }

    /// Extremes between samples that may reach across zero although the samples do not.
    fn turns(&mut self, samples: &[Sample]) -> Vec<Sample> {
        const GOLDEN: f64 = 0.618_033_988_749_895;
        let mut found = Vec::new();
        for triple in samples.windows(3) {
            let side = triple[1].moment.signum();
            let turns = triple.iter().all(|sample| sample.moment * side > 0.0)
                && triple[1].moment * side < triple[0].moment * side
                && triple[1].moment * side < triple[2].moment * side;
            if !turns {
                continue;
            }
            let (mut low, mut high) = (triple[0].trim_deg, triple[2].trim_deg);
            for _ in 0..30 {
                let width = GOLDEN * (high - low);
                let (left, right) = (self.sample(high - width), self.sample(low + width));
                let better = if left.moment * side < right.moment * side { left } else { right };
                if better.moment * side <= 0.0 {
                    found.push(better);
                    break;
                }
                if left.moment * side < right.moment * side {
                    high = right.trim_deg;
                } else {
                    low = left.trim_deg;
                }
            }
        }
        found
    }

    /// Root of a bracketed moment by Chandrupatla's method in 1/τ, where the moment is straighter.
    ///
    /// Source: Chandrupatla, T. R. (1997), A new hybrid quadratic/bisection
    /// algorithm for finding the zero of a nonlinear function without using
    /// derivatives, Advances in Engineering Software 28.
    fn refine(&mut self, low: Sample, high: Sample) -> Forces {
        let place = |sample: &Sample| 1.0 / sample.trim_deg;
        let (mut a, mut b) = (high, low);
        let mut c;
        let mut share = 0.5;
        if a.moment.is_finite() && b.moment.is_finite() {
            share = a.moment / (a.moment - b.moment);
        }
        for _ in 0..200 {
            let best = if a.moment.abs() < b.moment.abs() { a } else { b };
            let width = (place(&b) - place(&a)).abs();
            if best.moment.abs() <= MOMENT_TOLERANCE || width <= 4.0 * f64::EPSILON * place(&best) {
                if best.tolerance <= FINEST_TOLERANCE {
                    return best.forces;
                }
                let finest = self.sample_to(best.trim_deg, FINEST_TOLERANCE);
                if finest.moment.abs() <= MOMENT_TOLERANCE || width <= 1e-12 * place(&best) {
                    return finest.forces;
                }
                if (finest.moment > 0.0) == (a.moment > 0.0) {
                    a = finest;
                } else {
                    b = finest;
                }
            }
            let margin = 2.0 * f64::EPSILON * place(&best) / width;
            let share_kept = share.clamp(margin, 1.0 - margin);
            let next = self.sample(1.0 / (place(&a) + share_kept * (place(&b) - place(&a))));
            if (next.moment > 0.0) == (a.moment > 0.0) {
                c = a;
            } else {
                c = b;
                b = a;
            }
            a = next;
            share = quadratic_share([&a, &b, &c]);
        }
        a.forces
    }
}

/// Where to sample next between a and b, by inverse quadratic interpolation where it is safe, else the middle.
fn quadratic_share([a, b, c]: [&Sample; 3]) -> f64 {
    let [xa, xb, xc] = [a, b, c].map(|sample| 1.0 / sample.trim_deg);
    let [fa, fb, fc] = [a, b, c].map(|sample| sample.moment);
    let xi = (xa - xb) / (xc - xb);
    let phi = (fa - fb) / (fc - fb);
    if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
        let share = fa / (fb - fa) * fc / (fb - fc)
            + (xc - xa) / (xb - xa) * fa / (fc - fa) * fb / (fc - fb);
        if share.is_finite() { share } else { 0.5 }
    } else {
        0.5
    }
}

impl Condition<'_> {
    /// Whether the boat is of the usual proportions in which the moment has at most one root.
    ///
    /// Several need a high centre of gravity or a far-off thrust line on a fast,
    /// light boat, where friction and thrust turn the boat as much as the bottom does.
    pub fn has_one_root(&self) -> bool {
        let prism = self.prism;
        let beams = |length_m: f64| length_m / prism.beam_m;
        (0.0..=0.6).contains(&beams(prism.vcg_m))
            && (-0.4..=0.7).contains(&beams(prism.thrust_offset_m))
            && prism.thrust_angle_deg().abs() <= 16.0
            && prism.deadrise_deg <= 30.0
            && self.speed_coefficient <= 7.0
            && prism.load_coefficient() >= 0.1
            && self.air[0] + self.appendages[0] <= 0.1 * prism.weight_n
    }
}
