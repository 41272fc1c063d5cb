//! Duties as the solver knows them: what each demands, and over which speeds.

use uom::si::f64::Velocity;
use uom::si::{angle::degree, ratio::ratio, velocity::meter_per_second};

use super::demand::{Demand, DemandKind};
use super::loaded::Loaded;
use crate::balance::sweep::planing_start;
use crate::boat::{Aim, Duty};

/// Steps of the range of a duty at which it is looked at.
pub(crate) const RANGE_STEPS: u8 = 40;

/// Speeds evenly over a range, both ends included.
pub(crate) fn range(from: f64, to: f64) -> impl Iterator<Item = f64> {
    (0..=RANGE_STEPS).map(move |step| from + (to - from) * f64::from(step) / f64::from(RANGE_STEPS))
}

/// The range of speeds a duty holds over in a loading condition, m/s; one value twice where it is a single speed.
pub(crate) fn speeds_m_s(duty: &Duty, own: &Loaded<'_>) -> [f64; 2] {
    let hump = || Velocity::new::<meter_per_second>(own.hump_speed_m_s());
    let ends = duty.speeds().ends(planing_start(own.boat), hump);
    ends.map(|speed| speed.get::<meter_per_second>())
}

/// What a duty demands at each speed; resistance limits are filled in later.
pub(crate) fn demand(duty: &Duty, index: usize) -> Demand {
    let kind = match duty.aim() {
        Aim::Relief(at_least) => DemandKind::Relief { at_least_deg: at_least.get::<degree>() },
        Aim::Trim(at_most) => DemandKind::Trim { at_most_deg: at_most.get::<degree>() },
        Aim::Margin(margin) => DemandKind::Margin { margin_deg: margin.get::<degree>() },
        Aim::Resistance(within) => {
            DemandKind::Resistance { at_most_n: 1.0 + within.get::<ratio>() }
        }
        Aim::List(cause) => DemandKind::List { moment_n_m: cause.moment_n_m() },
    };
    Demand { duty: index, kind }
}
