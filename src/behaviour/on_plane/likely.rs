//! How long it may take: a range, since thrust, resistance and engines are none of them known well.

use uom::si::f64::{Length, Time};
use uom::si::{length::meter, time::second};

use super::run::Course;
use crate::balance::Settings;
use crate::behaviour::from_rest::FromRest;
use crate::behaviour::surge::Surge;
use crate::behaviour::thrust::Thrust;
use crate::boat::{Boat, Estimate, Measure};
use crate::units::number_with_decimals;

/// How far off the resistance on the way to planing may be, as a share of it. A judgement: tank tests scatter about the equations by 8 to 13 % near the hump (Fridsma 1969, Series 62).
pub const RESISTANCE_DOUBT: f64 = 0.15;
/// Time that engines take to come to full power, counted as if they gave nothing until then: the least and the most, seconds. Common practice, no source.
pub const ENGINE_RUN_UP_S: [f64; 2] = [1.0, 3.0];

/// Time and distance to the target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// Time from opening the throttles.
    pub time: Time,
    /// Distance.
    pub distance: Length,
}

/// The likely range of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LikelyReach {
    /// With the strongest likely thrust, the least resistance and the quickest engines.
    pub least: Reach,
    /// With the weakest thrust, the most resistance and the slowest engines; none when she does not get there so.
    pub most: Option<Reach>,
}

impl LikelyReach {
    /// `3 to 8` in seconds; `3 or more` when it is not sure that she gets there at all.
    #[must_use]
    pub fn seconds(&self) -> String {
        let of = |reach: &Reach| reach.time.get::<second>();
        range(of(&self.least), self.most.as_ref().map(of))
    }

    /// The same in a unit of length, by the value of a length in it.
    #[must_use]
    pub fn lengths(&self, value: impl Fn(Length) -> f64) -> String {
        range(value(self.least.distance), self.most.map(|most| value(most.distance)))
    }
}

/// What follows the least of a range that has no end.
const OR_MORE: &str = " or more";

/// A range with its unit: `3 to 8 s`, `3 s or more`.
#[must_use]
pub fn in_unit(range: &str, unit: &str) -> String {
    match range.strip_suffix(OR_MORE) {
        Some(least) => format!("{least} {unit}{OR_MORE}"),
        None => format!("{range} {unit}"),
    }
}

fn range(least: f64, most: Option<f64>) -> String {
    let Some(most) = most else { return format!("{}{OR_MORE}", number_with_decimals(least, 0)) };
    let decimals = usize::from(most - least < 1.0);
    let [least, most] = [least, most].map(|value| number_with_decimals(value, decimals));
    format!("{least} to {most}")
}

/// The thrust with everything that is estimated of it at one end of its likely range.
pub(super) fn thrust_at(
    boat: &Boat,
    settings: &Settings,
    thrust: &Thrust,
    end: fn(&Estimate) -> Measure,
) -> Thrust {
    let moved = thrust.estimates().try_fold(boat.clone(), |boat, estimate| {
        boat.with_estimate(estimate.key, end(estimate)).ok()
    });
    moved.and_then(|boat| Thrust::of(&boat, settings).ok()).unwrap_or_else(|| thrust.clone())
}

/// The likely range for one way of using the planes; none when the target is out of reach even at the best.
pub(super) fn likely(
    course: &Course<'_>,
    [weak, strong]: [&Thrust; 2],
    from_rest: &FromRest,
) -> Option<LikelyReach> {
    let [quick_s, slow_s] = ENGINE_RUN_UP_S;
    let with = |surge: Surge, run_up_s: f64| Reach {
        time: Time::new::<second>(surge.time_s + run_up_s),
        distance: Length::new::<meter>(surge.distance_m),
    };
    let best = Course { thrust: strong, resistance: 1.0 - RESISTANCE_DOUBT, ..*course };
    let worst = Course { thrust: weak, resistance: 1.0 + RESISTANCE_DOUBT, ..*course };
    let least = with(best.reach(from_rest)?, quick_s);
    Some(LikelyReach { least, most: worst.reach(from_rest).map(|surge| with(surge, slow_s)) })
}
