//! Where the thrust is tightest on the way to planing.

use uom::si::f64::{Angle, Force, Power, Ratio, Velocity};
use uom::si::{force::newton, ratio::ratio, velocity::meter_per_second};

use crate::behaviour::from_rest::FromRest;
use crate::behaviour::thrust::Thrust;
use crate::numeric::least_between;

/// F∇ up to which a hump is looked for.
pub(super) const FASTEST_VOLUME_FROUDE_NUMBER: f64 = 2.5;
/// Precision of the hump's speed, m/s.
const PRECISION_M_S: f64 = 1e-4;

/// What marks the hump.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HumpKind {
    /// The share of the thrust that is used up has a peak there.
    Thrust,
    /// That share only grows with speed; the bow rides highest there.
    Trim,
}

/// The tightest place on the way to planing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hump {
    /// What marks it.
    pub kind: HumpKind,
    /// Its speed.
    pub speed: Velocity,
    /// Resistance there.
    pub resistance: Force,
    /// Thrust at full power there.
    pub thrust: Force,
    /// Running trim there, where the planing balance tells it.
    pub trim: Option<Angle>,
}

impl Hump {
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

/// The hump among speeds (m/s, rising); none when she runs at none of them.
pub(super) fn find(from_rest: &FromRest, thrust: &Thrust, speeds_m_s: &[f64]) -> Option<Hump> {
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
        return hump(HumpKind::Thrust, from_rest, thrust, speed_m_s);
    }
    let trims = speeds_m_s.iter().filter_map(|&speed_m_s| {
        let speed = Velocity::new::<meter_per_second>(speed_m_s);
        Some((speed_m_s, from_rest.planing_point(speed)?.running?.trim))
    });
    let (speed_m_s, _) = trims.max_by(|a, b| a.1.value.total_cmp(&b.1.value))?;
    hump(HumpKind::Trim, from_rest, thrust, speed_m_s)
}

fn hump(kind: HumpKind, from_rest: &FromRest, thrust: &Thrust, speed_m_s: f64) -> Option<Hump> {
    let speed = Velocity::new::<meter_per_second>(speed_m_s);
    let running = from_rest.planing_point(speed).and_then(|point| point.running);
    Some(Hump {
        kind,
        speed,
        resistance: Force::new::<newton>(from_rest.resistance_n(speed_m_s)?),
        thrust: thrust.at(speed),
        trim: running.map(|running| running.trim),
    })
}
