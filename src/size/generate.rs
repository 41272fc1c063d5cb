//! Sensible duties for a boat that gives none: from what a person wishes, or the usual ones.

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::duty::range;
use super::loaded::Loaded;
use super::site::settle;
use crate::balance::sweep::planing_start;
use crate::balance::{Hump, LARGEST_TRIM_DEG, TRIM_FLOOR_DEG};
use crate::boat::{Boat, Duty, Wish};
use crate::units::factor::M_S_PER_KNOT;
use crate::units::half_knots;

/// Share of the trim at the hump that is to be taken off. Judged, no source.
pub const RELIEF_SHARE: f64 = 0.30;
/// Relief from which it grows slower than the trim, degrees. Judged, no source.
pub const RELIEF_GROWS_SLOWER_DEG: f64 = 3.0;
/// Power of the trim with which it grows from there. A bottom gives way the more easily the higher it
/// trims: at 3° for all, one in twelve boats of usual proportions made heavier, or with the weight
/// further aft, would be advised smaller planes.
const BEYOND: f64 = 0.9;
/// Factor on the share where somebody complains of the bow, as far as 3°.
const COMPLAINT: f64 = 1.25;
/// Least that is left above the floor of 2° when the relief is taken off, degrees.
const LEFT_DEG: f64 = 0.5;
/// Margin under the porpoising limit, degrees.
const MARGIN_DEG: f64 = 0.3;
/// What planes shall take off the trim at speed where somebody saw her porpoise, degrees. Judged, no source.
const PORPOISES_DEG: f64 = 1.0;
/// Share of the top speed from which they shall. Judged, no source.
const FAST_SHARE: f64 = 0.6;
/// Trim with which a boat rides softer in a head sea, degrees: the tests in waves end at 3.
const SOFT_RIDE_DEG: f64 = 3.5;
/// Share of the cruising speed to both sides of it over which she shall ride so. Judged, no source.
const ABOUT: f64 = 0.1;

/// Duties generated for a loading condition of a boat that gives none. Judged and common practice, no source.
///
/// - relief: 30 % of the trim at the hump, to a tenth; from 10° of trim on, where
///   that is 3°, it grows with the trim to the power ¾. Less where it would
///   leave under 2.5° of trim, none where that leaves under 0.5°. Where her trim with planes up was
///   read near the hump, the trim there is the one computed moved by what was read.
/// - list: one person of 85 kg at the rail, at cruise, three quarters of top speed.
///
/// Porpoising is asked for by its wish alone: where it lies its curve is seldom tested, and what
/// is asked shall not depend on what some pair can do, so that a boat that needs more is never asked for less.
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
    let Some(&hump) = own.hump() else { return Vec::new() };
    let runs = |speed_m_s: f64| settle(&own.prism.at(speed_m_s)).is_some();
    // Where she is bow-up at the hump she must run somewhere, or nothing can be said of her.
    if hump.trim.is_none() && !range(start_m_s, top_m_s).any(runs) {
        return Vec::new();
    }
    let slowest_m_s = half_knots(velocity(start_m_s), f64::ceil).value;
    let draft = Draft { own, hump, slowest_m_s, top_m_s };
    match own.boat.input().wishes.as_slice() {
        [] => [draft.relief(usual_relief_deg), draft.list()].into_iter().flatten().collect(),
        wishes => draft.wished(wishes),
    }
}

/// The fastest speed that anything is asked for at: the top speed, down to whole half knots.
pub(crate) fn fastest_m_s(boat: &Boat) -> f64 {
    half_knots(boat.drive().top_speed, f64::floor).value
}

/// What duties are made from.
struct Draft<'a> {
    own: &'a Loaded<'a>,
    hump: Hump,
    /// The slowest and the fastest speed that anything is asked for at.
    slowest_m_s: f64,
    top_m_s: f64,
}

impl Draft<'_> {
    /// The speed in whole half knots next to another at which something may be asked.
    fn near_m_s(&self, speed_m_s: f64) -> f64 {
        half_knots(velocity(speed_m_s), f64::round).value.max(self.slowest_m_s).min(self.top_m_s)
    }

    fn cruise_m_s(&self) -> f64 {
        self.near_m_s(self.own.boat.drive().cruise_asked().value)
    }

    fn wished(&self, wishes: &[Wish]) -> Vec<Duty> {
        let mut duties: Vec<Duty> = Vec::new();
        for wish in wishes {
            let asked = match wish {
                Wish::BowHigh | Wish::SlowToPlane => [self.relief(complained_relief_deg), None],
                Wish::Porpoises => [Some(self.margin()), self.relief_at_speed()],
                Wish::Leans => [self.list(), None],
                Wish::Pounds => [Some(self.trim_about_cruise()), None],
            };
            for duty in asked.into_iter().flatten() {
                if !duties.contains(&duty) {
                    duties.push(duty);
                }
            }
        }
        duties
    }

    /// So much off the trim at the hump; none where she trims too little for it.
    fn relief(&self, asked_deg: fn(f64) -> f64) -> Option<Duty> {
        let trim_deg = self.hump.trim.map_or(LARGEST_TRIM_DEG, |trim| trim.get::<degree>());
        let left_deg = trim_deg - TRIM_FLOOR_DEG - LEFT_DEG;
        let at_least_deg = (10.0 * asked_deg(trim_deg).min(left_deg) + 1e-9).floor() / 10.0;
        (at_least_deg >= LEFT_DEG)
            .then(|| Duty::Relief { at_least: Angle::new::<degree>(at_least_deg), over: None })
    }

    /// One person at the rail, levelled at cruise.
    fn list(&self) -> Option<Duty> {
        let cause = self.own.boat.person_at_rail()?;
        Some(Duty::List { cause, speed: velocity(self.cruise_m_s()) })
    }

    /// What planes take off the trim of a boat that is seen to porpoise, whatever is computed of her limit:
    /// the lower the bow, the further from it. From six tenths of the top speed to the fastest at which
    /// it leaves 2.5° of trim; none where there is no such speed.
    fn relief_at_speed(&self) -> Option<Duty> {
        let left = |speed_m_s: f64| {
            let settled = settle(&self.own.prism.at(speed_m_s));
            settled.is_some_and(|at| at.trim_deg - PORPOISES_DEG >= TRIM_FLOOR_DEG + LEFT_DEG)
        };
        let from_m_s = self.near_m_s(FAST_SHARE * self.top_m_s);
        let half_knot_m_s = 0.5 * M_S_PER_KNOT;
        let to_m_s = std::iter::successors(Some(self.top_m_s), |m_s| Some(m_s - half_knot_m_s))
            .take_while(|&speed_m_s| speed_m_s > from_m_s - 0.5 * half_knot_m_s)
            .find(|&speed_m_s| left(speed_m_s))?;
        Some(Duty::Relief {
            at_least: Angle::new::<degree>(PORPOISES_DEG),
            over: Some([velocity(from_m_s), velocity(to_m_s.max(from_m_s))]),
        })
    }

    /// A low bow about cruise, so that whoever steers need not keep one speed.
    fn trim_about_cruise(&self) -> Duty {
        let at = |factor: f64| velocity(self.near_m_s(factor * self.cruise_m_s()));
        let [from, to] = [1.0 - ABOUT, 1.0 + ABOUT].map(at);
        Duty::HumpTrim { at_most: Angle::new::<degree>(SOFT_RIDE_DEG), from, to }
    }

    fn margin(&self) -> Duty {
        Duty::PorpoisingMargin {
            margin: Angle::new::<degree>(MARGIN_DEG),
            up_to: velocity(self.top_m_s),
        }
    }
}

/// Relief asked of a boat that trims so much at the hump, degrees.
fn usual_relief_deg(trim_deg: f64) -> f64 {
    let share_deg = RELIEF_SHARE * trim_deg;
    let beyond = (share_deg / RELIEF_GROWS_SLOWER_DEG).max(1.0);
    share_deg.min(RELIEF_GROWS_SLOWER_DEG) * beyond.powf(BEYOND)
}

/// The same where somebody complains of the bow.
fn complained_relief_deg(trim_deg: f64) -> f64 {
    let more_deg = COMPLAINT * RELIEF_SHARE * trim_deg;
    usual_relief_deg(trim_deg).max(more_deg.min(RELIEF_GROWS_SLOWER_DEG))
}

fn velocity(speed_m_s: f64) -> Velocity {
    Velocity::new::<meter_per_second>(speed_m_s)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::balance::Settings;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;

    #[test]
    fn practice_relief_rises_with_the_trim_and_more_slowly_past_three_degrees() {
        assert_relative_eq!(usual_relief_deg(5.0), 1.5);
        assert_relative_eq!(usual_relief_deg(8.0), 2.4);
        assert_relative_eq!(usual_relief_deg(10.0), 3.0);
        assert!((4.3..4.4).contains(&usual_relief_deg(LARGEST_TRIM_DEG)));
        assert_relative_eq!(complained_relief_deg(7.0), 2.625);
        assert_relative_eq!(complained_relief_deg(9.0), 3.0);
        for tenths in 30..150_u32 {
            let trim_deg = 0.1 * f64::from(tenths);
            for relief_deg in [usual_relief_deg, complained_relief_deg] {
                assert!(relief_deg(trim_deg + 0.1) >= relief_deg(trim_deg), "{trim_deg}");
            }
            assert!(complained_relief_deg(trim_deg) >= usual_relief_deg(trim_deg), "{trim_deg}");
        }
    }

    fn asked(wishes: &str) -> Vec<Duty> {
        let text = format!(
            "{wishes}hull = {{ overall_length = \"6.4 m\", chine_beam = \"2 m\", deadrise = \"20 deg\" }}\n\
             weight = {{ mass = \"1900 kg\" }}\ndrive = {{ kind = \"outboard\", top_speed = \"36 kn\" }}\n"
        );
        let boat = parse_boat("b.toml", &text).unwrap().boat;
        generated(&Loaded::all(&[boat], &Settings::default())[0])
    }

    #[test]
    fn practice_each_wish_gives_its_duty() {
        let usual = asked("");
        assert!(matches!(usual[..], [Duty::Relief { over: None, .. }, Duty::List { .. }]));
        let bow_high = asked("for = [\"bow-high\", \"slow-to-plane\"]\n");
        assert!(matches!(bow_high[..], [Duty::Relief { over: None, .. }]), "asked once");
        assert!(matches!(asked("for = [\"leans\"]\n")[..], [Duty::List { .. }]));
        assert!(matches!(asked("for = [\"pounds\"]\n")[..], [Duty::HumpTrim { .. }]));
        let porpoises = asked("for = [\"porpoises\"]\n");
        let [Duty::PorpoisingMargin { .. }, Duty::Relief { over: Some([from, to]), .. }] =
            porpoises[..]
        else {
            panic!("{porpoises:?}")
        };
        let top = Velocity::new::<meter_per_second>(36.0 * M_S_PER_KNOT);
        assert!(from < to && to <= top && ((from / top).value - 0.6).abs() < 0.02);
    }
}
