//! Dense scans: the moment at many trims, the vertical balance at many wetted lengths.

use crate::balance::forces::{Condition, Forces};
use crate::balance::root::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG};
use crate::plane::effect;

/// Sign of the moment at many trims.
#[derive(Debug)]
pub struct Scan {
    pub trims_deg: Vec<f64>,
    /// Over weight × beam, positive bow down; none where nothing is left for the hull to carry.
    pub moments: Vec<Option<f64>>,
    /// Places from which the moment jumps across zero to the next trim, instead of passing through it.
    pub jumps: Vec<usize>,
    /// How many crossings are balances on the planes alone, which are no runs; they count among no crossings.
    pub on_planes: usize,
}

impl Scan {
    /// From 1° to 15° in equal ratios.
    pub fn of(condition: &Condition<'_>, steps: u32) -> Self {
        let ratio = LARGEST_TRIM_DEG / LEAST_TRIM_DEG;
        let trims_deg: Vec<f64> = (0..=steps)
            .map(|step| LEAST_TRIM_DEG * ratio.powf(f64::from(step) / f64::from(steps)))
            .collect();
        let mut nearby = None;
        let moments: Vec<_> = trims_deg
            .iter()
            .map(|&trim_deg| {
                let forces = condition.forces(trim_deg, nearby.as_ref(), 1e-11);
                nearby = Some(forces);
                checked_moment(condition, &forces)
            })
            .collect();
        let crosses =
            |pair: &[Option<f64>]| matches!(pair, [Some(a), Some(b)] if (*a > 0.0) != (*b > 0.0));
        let pairs = moments.windows(2).zip(trims_deg.windows(2)).enumerate();
        let mut jumps = Vec::new();
        let mut on_planes = 0;
        for (index, (_, trims)) in pairs.filter(|(_, (pair, _))| crosses(pair)) {
            let is_dry = is_on_planes(condition, trims[0], trims[1]);
            on_planes += usize::from(is_dry);
            if is_dry || is_jump(condition, trims[0], trims[1]) {
                jumps.push(index);
            }
        }
        Self { trims_deg, moments, jumps, on_planes }
    }

    fn crossing_pairs(&self, rising: bool) -> impl Iterator<Item = (f64, f64)> {
        let pairs = self.moments.windows(2).zip(self.trims_deg.windows(2)).enumerate();
        pairs.filter_map(move |(index, (pair, trims))| {
            let (low, high) = (pair[0]?, pair[1]?);
            let crosses = (low > 0.0) != (high > 0.0) && (high > low) == rising;
            (crosses && !self.jumps.contains(&index)).then_some((trims[0], trims[1]))
        })
    }

    pub fn first_crossing(&self, rising: bool) -> Option<(f64, f64)> {
        self.crossing_pairs(rising).next()
    }

    pub fn crossings(&self, rising: bool) -> usize {
        self.crossing_pairs(rising).count()
    }
}

/// Whether the moment changes its sign between two trims without ever being small: where several wetted lengths hold the boat up, one of them ends.
///
/// Halving the interval to rounding leaves a crossing with no moment, and a
/// jump with what it was.
fn is_jump(condition: &Condition<'_>, low_deg: f64, high_deg: f64) -> bool {
    if !condition.may_have_several_lengths() {
        return false;
    }
    let at = |trim_deg| moment(condition, trim_deg);
    let (mut low_deg, mut high_deg) = (low_deg, high_deg);
    let below = at(low_deg).is_some_and(|moment| moment > 0.0);
    for _ in 0..45 {
        let middle_deg = 0.5 * (low_deg + high_deg);
        match at(middle_deg) {
            None => return true,
            Some(moment) if (moment > 0.0) == below => low_deg = middle_deg,
            Some(_) => high_deg = middle_deg,
        }
    }
    match (at(low_deg), at(high_deg)) {
        (Some(low), Some(high)) => low.abs().min(high.abs()) > 1e-7,
        _ => true,
    }
}

/// Whether the moment passes through zero between two trims where nothing of the bottom is wet ahead of the transom, or
/// less than a fiftieth of its beam where the planes carry half of her weight or more: found by halving.
fn is_on_planes(condition: &Condition<'_>, mut low_deg: f64, mut high_deg: f64) -> bool {
    if condition.plane.lift_n <= 0.0 {
        return false;
    }
    let at = |trim_deg| moment(condition, trim_deg);
    let below = at(low_deg).is_some_and(|moment| moment > 0.0);
    for _ in 0..45 {
        let middle_deg = 0.5 * (low_deg + high_deg);
        match at(middle_deg) {
            None => return false,
            Some(moment) if (moment > 0.0) == below => low_deg = middle_deg,
            Some(_) => high_deg = middle_deg,
        }
    }
    let length = condition.forces(low_deg, None, 1e-11).wetted_length_ratio;
    let (prism, trim_rad) = (condition.prism, low_deg.to_radians());
    // The keel is wet by tan β/(2π tan τ) further than the mean: equations 9 and 11 of Savitsky (1964).
    let further =
        prism.deadrise_deg.to_radians().tan() / (2.0 * std::f64::consts::PI * trim_rad.tan());
    let ahead = length + further - condition.plane.mean_edge_m / prism.beam_m;
    let carries_half = condition.plane.lift_n >= 0.5 * prism.weight_n;
    ahead <= 0.0 || carries_half && length.min(ahead) < 0.02
}

/// Moment over weight × beam at a trim.
pub fn moment(condition: &Condition<'_>, trim_deg: f64) -> Option<f64> {
    checked_moment(condition, &condition.forces(trim_deg, None, 1e-11))
}

fn checked_moment(condition: &Condition<'_>, forces: &Forces) -> Option<f64> {
    if forces.lifted_off {
        return None;
    }
    let prism = condition.prism;
    let moment = forces.moment_n_m / (prism.weight_n * prism.beam_m);
    assert!(moment.is_finite(), "{forces:?}");
    assert!(forces.wetted_length_ratio > 0.0, "{forces:?}");
    Some(moment)
}

/// Where N cos ε + D sin ε passes what the thrust leaves to be held up.
#[derive(Debug, Default)]
pub struct Lengths {
    /// Intervals of λ^½ in which it rises through it, shortest first.
    pub rising: Vec<(f64, f64)>,
    pub falling: usize,
}

/// N, D and the drags are asked for one at a time, and put together here.
pub fn lengths(condition: &Condition<'_>, trim_deg: f64) -> Lengths {
    const STEPS: u32 = 600;
    let prism = condition.prism;
    let thrust = prism.thrust_angle_deg().to_radians();
    let sum = trim_deg.to_radians() + thrust;
    let plane = condition.plane;
    let tangent = trim_deg.to_radians().tan();
    let plane_drag_n: f64 =
        effect::drag_parts_n(plane.lift_n, trim_deg, tangent, plane.deflection_deg).iter().sum();
    let drag_n = plane_drag_n + condition.air[0] + condition.appendages[0];
    let wanted_n = (prism.weight_n - plane.lift_n) * sum.cos() - drag_n * sum.sin();
    let mut found = Lengths::default();
    if wanted_n <= 0.0 {
        return found;
    }
    let excess_n = |root: f64| {
        let forces = condition.bottom_at(trim_deg, root);
        forces.normal_n * thrust.cos() + forces.along_keel_n() * thrust.sin() - wanted_n
    };
    let mut last = (1e-4, excess_n(1e-4) > 0.0);
    for step in 1..=STEPS {
        let root = 10_f64.powf(-4.0 + 6.0 * f64::from(step) / f64::from(STEPS));
        let above = excess_n(root) > 0.0;
        if above && !last.1 {
            found.rising.push((last.0, root));
        }
        found.falling += usize::from(last.1 && !above);
        last = (root, above);
    }
    found
}
