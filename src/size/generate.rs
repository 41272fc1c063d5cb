//! Sensible duties for a boat that gives none: from what a person wishes, or the usual ones.

use uom::si::f64::{Angle, Length, Mass, Velocity};
use uom::si::{angle::degree, length::meter, mass::kilogram, velocity::meter_per_second};

use super::bench::Bench;
use super::demand::DemandKind;
use super::duty::range;
use super::loaded::Loaded;
use super::site::Site;
use crate::balance::forces::PlaneSize;
use crate::balance::sweep::planing_start;
use crate::balance::{Hump, HumpPlace, LARGEST_TRIM_DEG, TRIM_FLOOR_DEG};
use crate::boat::{Boat, Duty, ListCause, Wish};
use crate::units::factor::M_S_PER_KNOT;

/// Share of the top speed that counts as cruise.
const CRUISE_SHARE: f64 = 0.75;
/// Share of the trim at the hump that is to be taken off. Judged, no source.
const RELIEF_SHARE: f64 = 0.30;
/// Least relief that is asked for, and that from which on less of the share is, degrees. Judged, no source.
const RELIEF_DEG: [f64; 2] = [1.5, 3.0];
/// So much of what the share is beyond 3° is asked for.
///
/// Judged: a bottom gives way the more easily the higher she trims, so that no more than 3° above
/// 10° of trim would ask a boat for smaller planes the further aft her weight is.
const SHARE_BEYOND: f64 = 0.75;
/// The same where somebody complains of the bow: half as much again, as far as the range goes.
const COMPLAINT: f64 = 1.25;
/// Least that is left above the floor of 2° when the relief is taken off, degrees.
const LEFT_DEG: f64 = 0.5;
/// Margin under the porpoising limit, degrees.
const MARGIN_DEG: f64 = 0.3;
/// Mass of a person, kg.
const PERSON_KG: f64 = 85.0;
/// Where a person stands at the rail, in chine beams off the centreline.
const RAIL_BEAMS: f64 = 0.45;
/// Trim with which a boat rides softer in a head sea, degrees: the tests in waves end at 3.
const SOFT_RIDE_DEG: f64 = 3.5;

/// Duties generated for a loading condition of a boat that gives none. Judged and common practice, no source.
///
/// - relief: 30 % of the trim at the hump, at least 1.5° and beyond 3° three quarters of what is
///   more, to a tenth; less where it would leave under 2.5° of trim, none where that leaves under 0.5°.
/// - list: one person of 85 kg at the rail, at cruise, three quarters of top speed.
/// - porpoising-margin: 0.3° up to top speed, where the boat as described would porpoise at a
///   speed at which curve and planes are tested, and some pair of the room cures it.
///
/// None at all where she runs at no speed with planes up. With wishes in the file each wish gives its duty instead. Neither depends on what any pair can do,
/// but for the last; so a boat that needs more is never asked for less.
#[must_use]
pub(crate) fn generated(own: &Loaded<'_>) -> Vec<Duty> {
    let start_m_s = planing_start(own.boat).get::<meter_per_second>();
    let top_m_s = fastest_m_s(own.boat);
    if top_m_s <= start_m_s {
        return Vec::new();
    }
    let cruise_m_s = half_knots_m_s(CRUISE_SHARE * top_m_s, f64::round)
        .max(half_knots_m_s(start_m_s, f64::ceil));
    let Some(hump) = Hump::of_prism(own.boat, &own.prism).filter(is_passed) else {
        return Vec::new();
    };
    let draft = Draft { own, hump, cruise: velocity(cruise_m_s), top: velocity(top_m_s) };
    match own.boat.input().wishes.as_slice() {
        [] => [draft.relief(1.0), draft.list(), draft.porpoising()].into_iter().flatten().collect(),
        wishes => draft.wished(wishes),
    }
}

/// The fastest speed that anything is asked for at: the top speed, down to whole half knots.
pub(crate) fn fastest_m_s(boat: &Boat) -> f64 {
    half_knots_m_s(boat.drive().top_speed.get::<meter_per_second>(), f64::floor)
}

/// Whether she runs at some speed; a boat that is bow-up still at top speed does at none, and nothing can be said of her.
fn is_passed(hump: &Hump) -> bool {
    hump.trim.is_some() || hump.place != HumpPlace::TopSpeed
}

/// What duties are made from.
struct Draft<'a> {
    own: &'a Loaded<'a>,
    hump: Hump,
    cruise: Velocity,
    top: Velocity,
}

impl Draft<'_> {
    fn wished(&self, wishes: &[Wish]) -> Vec<Duty> {
        let mut duties: Vec<Duty> = Vec::new();
        for wish in wishes {
            let duty = match wish {
                Wish::BowHigh | Wish::SlowToPlane => self.relief(COMPLAINT),
                Wish::Porpoises => Some(self.margin()),
                Wish::Leans => self.list(),
                Wish::Pounds => Some(Duty::HumpTrim {
                    at_most: Angle::new::<degree>(SOFT_RIDE_DEG),
                    from: self.cruise,
                    to: self.cruise,
                }),
            };
            duties.extend(duty.filter(|duty| !duties.contains(duty)));
        }
        duties
    }

    /// So much off the trim at the hump; none where she trims too little for it.
    fn relief(&self, factor: f64) -> Option<Duty> {
        let trim_deg = self.hump.trim.map_or(LARGEST_TRIM_DEG, |trim| trim.get::<degree>());
        let [least_deg, most_deg] = RELIEF_DEG;
        let share_deg = factor * RELIEF_SHARE * trim_deg;
        let asked_deg =
            share_deg.clamp(least_deg, most_deg) + SHARE_BEYOND * (share_deg - most_deg).max(0.0);
        let left_deg = trim_deg - TRIM_FLOOR_DEG - LEFT_DEG;
        let at_least_deg = (10.0 * asked_deg.min(left_deg) + 1e-9).floor() / 10.0;
        (at_least_deg >= LEFT_DEG)
            .then(|| Duty::Relief { at_least: Angle::new::<degree>(at_least_deg), over: None })
    }

    /// One person at the rail, levelled at cruise.
    fn list(&self) -> Option<Duty> {
        let beam_m = self.own.prism.beam_m;
        let distance = Length::new::<meter>((20.0 * RAIL_BEAMS * beam_m).round() / 20.0);
        let cause = ListCause::OffCentre { mass: Mass::new::<kilogram>(PERSON_KG), distance };
        Some(Duty::List { cause, speed: self.cruise })
    }

    fn margin(&self) -> Duty {
        Duty::PorpoisingMargin { margin: Angle::new::<degree>(MARGIN_DEG), up_to: self.top }
    }

    /// The margin under the porpoising limit, where she would porpoise and the largest pair of the room cures it.
    fn porpoising(&self) -> Option<Duty> {
        let duty = self.margin();
        let mut bench = Bench::empty(std::slice::from_ref(self.own));
        bench.asked = vec![bench.asked_by(&duty, 0, 0)];
        let [chord_m, _] = bench.room.chords_m()?;
        let [_, span_m] = bench.room.spans_m(chord_m)?;
        let largest = PlaneSize { span_m, chord_m };
        let [from, to] = bench.asked[0].speeds_m_s;
        let sites: Vec<_> = range(from, to).map(|speed_m_s| bench.site_at(0, speed_m_s)).collect();
        let porpoises = |site: &Site<'_>| {
            site.settle_bare().is_some() && !site.bare_does(DemandKind::Margin { margin_deg: 0.0 })
        };
        let expects = sites.iter().any(porpoises);
        let cured = sites.iter().all(|site| site.lack(largest, &bench.rules) <= 0.0);
        (expects && cured).then_some(duty)
    }
}

/// A speed in whole half knots, as a person would write it.
fn half_knots_m_s(speed_m_s: f64, round: fn(f64) -> f64) -> f64 {
    let half_knot_m_s = 0.5 * M_S_PER_KNOT;
    round(speed_m_s / half_knot_m_s) * half_knot_m_s
}

fn velocity(speed_m_s: f64) -> Velocity {
    Velocity::new::<meter_per_second>(speed_m_s)
}
