//! The whole interval of trims looked at, for boats on which the moment may have several roots.

use super::root::{COARSEST_TOLERANCE, LARGEST_TRIM_DEG, LEAST_TRIM_DEG, Root, Sample, Search};

/// Steps through the whole interval for an answer that is shown by itself.
const STEPS: i32 = 56;
/// Steps for one of very many boats, of which one in thousands may be told a root beside its own.
const STEPS_OF_MANY: i32 = 20;
/// How far inside an end a second sample is taken, as a share of the trim: it shows which way the moment goes from there.
const INSIDE: f64 = 1e-3;
/// Halvings that find where the hull ceases to carry anything: what is left of the step between two samples is under 1e-12 of it.
const HALVINGS: u32 = 40;
/// Gain of four golden sections, as a share of what is left to zero, below which zero is not reached.
const LEAST_GAIN: f64 = 0.02;
/// Golden sections towards the extreme of the moment between two samples: what is left of them is under 1e-8, and the moment is level there.
const EXTREME_STEPS: u32 = 40;

impl Search<'_> {
    /// The stable root of least trim; else the unstable one of least trim; else what the moment at 15° says.
    /// A balance on the planes alone is none: it leaves the bow to be driven under.
    ///
    /// Between 1° and 15° there may be trims at which planes and thrust carry
    /// the whole boat. They have no moment; where they begin is found first, so
    /// that roots are looked for between trims that have one.
    pub(super) fn surveyed_root(&mut self, is_of_many: bool) -> Root {
        let samples = self.through_the_interval(if is_of_many { STEPS_OF_MANY } else { STEPS });
        let samples = self.with_edges(&samples);
        let samples = self.with_turns(&samples);
        let mut is_on_planes = false;
        for stable in [true, false] {
            for pair in samples.windows(2).filter(|pair| crosses(pair, stable)) {
                let Some(forces) = self.refine(pair[0], pair[1]) else { continue };
                if self.condition.is_on_bottom(&forces) {
                    return Root::Found { forces, stable };
                }
                is_on_planes = true;
            }
        }
        if is_on_planes {
            return Root::BowDown;
        }
        match samples.last() {
            Some(last) if last.moment < 0.0 => Root::BowUp,
            _ => Root::BowDown,
        }
    }

    /// Forces and moment no finer than the sign of the moment needs.
    fn surveyed(&mut self, trim_deg: f64) -> Sample {
        self.sure_sample(trim_deg, COARSEST_TOLERANCE)
    }

    fn through_the_interval(&mut self, steps: i32) -> Vec<Sample> {
        let ratio = (LARGEST_TRIM_DEG / LEAST_TRIM_DEG).powf(1.0 / f64::from(steps));
        let mut trims_deg: Vec<f64> =
            (0..steps).map(|step| LEAST_TRIM_DEG * ratio.powi(step)).collect();
        trims_deg.insert(1, LEAST_TRIM_DEG * (1.0 + INSIDE));
        trims_deg.extend([LARGEST_TRIM_DEG * (1.0 - INSIDE), LARGEST_TRIM_DEG]);
        trims_deg.into_iter().map(|trim_deg| self.surveyed(trim_deg)).collect()
    }

    /// Adds the last trims at which the hull still carries something.
    fn with_edges(&mut self, samples: &[Sample]) -> Vec<Sample> {
        let mut all = vec![samples[0]];
        for pair in samples.windows(2) {
            let (low, high) = (pair[0], pair[1]);
            match (low.moment.is_finite(), high.moment.is_finite()) {
                (true, false) => {
                    let edge = self.edge(low, high);
                    let inside_deg = edge.trim_deg - INSIDE * (edge.trim_deg - low.trim_deg);
                    all.extend([self.surveyed(inside_deg), edge]);
                }
                (false, true) => {
                    let edge = self.edge(high, low);
                    let inside_deg = edge.trim_deg + INSIDE * (high.trim_deg - edge.trim_deg);
                    all.extend([edge, self.surveyed(inside_deg)]);
                }
                _ => {}
            }
            all.push(high);
        }
        all
    }

    /// The trim nearest to `lifted` at which the hull still carries something.
    fn edge(&mut self, carrying: Sample, lifted: Sample) -> Sample {
        let (mut edge, mut beyond_deg) = (carrying, lifted.trim_deg);
        for _ in 0..HALVINGS {
            let middle = self.surveyed(0.5 * (edge.trim_deg + beyond_deg));
            if middle.moment.is_finite() {
                edge = middle;
            } else {
                beyond_deg = middle.trim_deg;
            }
        }
        edge
    }

    /// Adds the extremes between samples that reach across zero although the samples do not.
    fn with_turns(&mut self, samples: &[Sample]) -> Vec<Sample> {
        let mut all = samples.to_vec();
        for triple in samples.windows(3) {
            let side = triple[1].moment.signum();
            let [before, middle, after] = [0, 1, 2].map(|at| triple[at].moment * side);
            let turns = after.is_finite() && 0.0 < middle && middle < before && middle < after;
            if turns && let Some(turn) = self.beyond_zero(triple[0], triple[2], side) {
                let index = all.partition_point(|sample| sample.trim_deg < turn.trim_deg);
                all.insert(index, turn);
            }
        }
        all
    }

    /// The first trim found on the other side of zero, on the way to the extreme between two samples by golden section.
    fn beyond_zero(&mut self, low: Sample, high: Sample, side: f64) -> Option<Sample> {
        const GOLDEN: f64 = 0.618_033_988_749_895;
        let (mut low_deg, mut high_deg) = (low.trim_deg, high.trim_deg);
        let inner = |low_deg: f64, high_deg: f64| {
            let width_deg = GOLDEN * (high_deg - low_deg);
            [high_deg - width_deg, low_deg + width_deg]
        };
        let [mut left, mut right] =
            inner(low_deg, high_deg).map(|trim_deg| self.surveyed(trim_deg));
        // The best of each of the last four steps.
        let mut seen = [f64::INFINITY; 4];
        for _ in 0..EXTREME_STEPS {
            let better = if left.moment * side < right.moment * side { left } else { right };
            let value = better.moment * side;
            if value <= 0.0 {
                return Some(better);
            }
            // Each four steps leave of what can still be gained less than they gained themselves.
            if seen[0] - value < LEAST_GAIN * value {
                return None;
            }
            seen = [seen[1], seen[2], seen[3], value];
            if left.moment * side < right.moment * side {
                high_deg = right.trim_deg;
                right = left;
                left = self.surveyed(inner(low_deg, high_deg)[0]);
            } else {
                low_deg = left.trim_deg;
                left = right;
                right = self.surveyed(inner(low_deg, high_deg)[1]);
            }
        }
        None
    }
}

/// Whether the moment crosses zero between two trims, rising or falling.
fn crosses(pair: &[Sample], rising: bool) -> bool {
    let [low, high] = [pair[0].moment, pair[1].moment];
    low.is_finite() && high.is_finite() && (low > 0.0) != (high > 0.0) && (high > low) == rising
}
