//! Where the thrust is tightest on the way to planing.
//!
//! Not the hump, which is where the bow rides highest: what counts here is the
//! share of the thrust that the resistance takes.

use uom::si::f64::{Angle, Force, Power, Ratio, Velocity};
use uom::si::{force::newton, power::watt, ratio::ratio, velocity::meter_per_second};

use crate::balance::Hump;
use crate::behaviour::from_rest::FromRest;
use crate::behaviour::thrust::Thrust;
use crate::field::{InSi, by_word, written};
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

impl TightestKind {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Peak => "peak",
            Self::AtHump => "at-hump",
        }
    }
}

by_word!(TightestKind);

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
    /// Rated power.
    pub rated: Power,
}

impl Tightest {
    /// Share of the thrust that is left; negative when there is too little.
    #[must_use]
    pub fn margin(&self) -> Ratio {
        Ratio::new::<ratio>(1.0) - self.resistance / self.thrust
    }

    /// Share of the rated power that is left, in units of power: thrust rises with power.
    #[must_use]
    pub fn power_margin(&self) -> Power {
        self.rated * self.margin()
    }
}

written! {
    Tightest as place {
        "kind": place.kind,
        "speed_m_s": place.speed.in_si(),
        "resistance_n": place.resistance.in_si(),
        "thrust_n": place.thrust.in_si(),
        "thrust_left": place.margin().in_si(),
        "power_left_w": place.power_margin().in_si(),
        "trim_deg": place.trim.in_si(),
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
        rated: Power::new::<watt>(thrust.power_w()),
    })
}
