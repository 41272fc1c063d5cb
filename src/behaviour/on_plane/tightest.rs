//! Where the thrust is tightest on the way to planing.
//!
//! Not the hump, which is where the bow rides highest: what counts here is the
//! share of the thrust that the resistance takes.

use uom::si::f64::{Angle, Force, Power, Ratio, Velocity};
use uom::si::{force::newton, ratio::ratio, velocity::meter_per_second};

use crate::balance::Hump;
use crate::behaviour::from_rest::FromRest;
use crate::behaviour::thrust::Thrust;
use crate::numeric::least_between;

/// F∇ up to which a peak of the share is looked for.
pub(super) const FASTEST_VOLUME_FROUDE_NUMBER: f64 = 2.5;
/// Precision of its speed, m/s.
const PRECISION_M_S: f64 = 1e-4;

/// What marks the place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TightestKind {
    /// The share of the thrust that is used up has a peak there.
    Peak,
    /// That share only grows with speed; it is told of the hump, where the bow rides highest with planes up.
    AtHump,
}

/// The tightest place on the way to planing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tightest {
    /// What marks it.
    pub kind: TightestKind,
    /// Its speed.
    pub speed: Velocity,
    /// Resistance there.
    pub resistance: Force,
    /// Thrust at full power there.
    pub thrust: Force,
    /// Running trim there, where the planing balance tells it.
    pub trim: Option<Angle>,
}

impl Tightest {
    /// Share of the thrust that is left; negative when there is too little.
    #[must_use]
    pub fn margin(&self) -> Ratio {
        Ratio::new::<ratio>(1.0) - self.resistance / self.thrust
    }

    /// Share of the rated power that is left, in units of power: thrust rises with power.
    #[must_use]
    pub fn power_margin(&self, rated: Power) -> Power {
        rated * self.margin()
    }
}

/// The tightest place among speeds (m/s, rising), else the hump; none when she runs at neither.
pub(super) fn find(
    from_rest: &FromRest,
    thrust: &Thrust,
    speeds_m_s: &[f64],
    hump: Option<&Hump>,
) -> Option<Tightest> {
    let used = |speed_m_s: f64| {
        from_rest.resistance_n(speed_m_s).map_or(f64::NAN, |n| n / thrust.at_m_s(speed_m_s))
    };
    let shares: Vec<f64> = speeds_m_s.iter().map(|&speed_m_s| used(speed_m_s)).collect();
    let peaks = (1..shares.len().saturating_sub(1))
        .filter(|&at| shares[at] >= shares[at - 1] && shares[at] > shares[at + 1]);
    let highest = peaks.max_by(|&a, &b| shares[a].total_cmp(&shares[b]));
    if let Some(at) = highest {
        let around = [speeds_m_s[at - 1], speeds_m_s[at + 1]];
        let finer = least_between(around[0], around[1], PRECISION_M_S, |v| -used(v));
        let speed_m_s = match finer {
            Some([place, value]) if -value >= shares[at] => place,
            _ => speeds_m_s[at],
        };
        return at_speed(TightestKind::Peak, from_rest, thrust, speed_m_s);
    }
    at_speed(TightestKind::AtHump, from_rest, thrust, hump?.speed_m_s())
}

fn at_speed(
    kind: TightestKind,
    from_rest: &FromRest,
    thrust: &Thrust,
    speed_m_s: f64,
) -> Option<Tightest> {
    let speed = Velocity::new::<meter_per_second>(speed_m_s);
    let running = from_rest.planing_point(speed).and_then(|point| point.running);
    Some(Tightest {
        kind,
        speed,
        resistance: Force::new::<newton>(from_rest.resistance_n(speed_m_s)?),
        thrust: thrust.at(speed),
        trim: running.map(|running| running.trim),
    })
}
