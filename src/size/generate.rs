//! Sensible duties for a boat that gives none.

use uom::si::f64::{Angle, Length, Mass, Ratio, Velocity};
use uom::si::{
    angle::degree, length::meter, mass::kilogram, ratio::ratio, velocity::meter_per_second,
};

use super::bench::Bench;
use super::duty::range;
use super::loaded::Loaded;
use crate::balance::forces::PlaneSize;
use crate::balance::sweep::planing_start;
use crate::balance::{Hump, LARGEST_TRIM_DEG};
use crate::boat::{Duty, ListCause};
use crate::units::factor::M_S_PER_KNOT;

/// Share of the top speed that counts as cruise.
const CRUISE_SHARE: f64 = 0.75;
/// How far under the largest bare trim the trim is to be held, degrees.
const HUMP_RELIEF_DEG: f64 = 1.5;
/// Least trim that is asked for, degrees.
const LEAST_ASKED_DEG: f64 = 4.0;
/// Excess over the least resistance, tried in turn.
const WITHIN: [f64; 2] = [0.05, 0.10];
/// Margin under the porpoising limit, degrees.
const MARGIN_DEG: f64 = 0.5;
/// Mass of a person, kg.
const PERSON_KG: f64 = 85.0;
/// Where the person sits off the centreline, in chine beams.
const SEAT_BEAMS: f64 = 0.3;
/// Largest usual chord and span, in chine beams.
const USUAL_BEAMS: [f64; 2] = [0.125, 0.33];

/// Largest strain of a pair that counts as able: a little to spare, since sizes and models differ.
const SPARED_STRAIN: f64 = 0.97;

/// Duties generated for a loading condition of a boat that gives none. Common practice, no source.
///
/// - hump-trim: 1.5° less than the largest bare trim of the planing range, to
///   half a degree and not under 4°, from the slowest speed from which it can
///   be held to cruise, three quarters of top speed; none where she never trims
///   above 4.5°.
/// - least-resistance: within 5 % at cruise.
/// - porpoising-margin: 0.5° up to top speed.
/// - list: a person of 85 kg seated 0.3 of the chine beam to starboard at cruise.
///
/// Each is put on the list only as far as some pair of usual size does it
/// together with those before, with a little to spare: the trim is eased by half degrees, the resistance
/// to 10 %, the speed of the margin lowered; what no pair does is left out.
#[must_use]
pub(crate) fn generated(own: &Loaded<'_>) -> Vec<Duty> {
    let boat = own.boat;
    let start_m_s = planing_start(boat).get::<meter_per_second>();
    let top_m_s = half_knots_m_s(boat.drive().top_speed.get::<meter_per_second>(), f64::floor);
    if top_m_s <= start_m_s {
        return Vec::new();
    }
    let cruise_m_s = half_knots_m_s(CRUISE_SHARE * top_m_s, f64::round)
        .max(half_knots_m_s(start_m_s, f64::ceil));
    let bench = Bench::empty(std::slice::from_ref(own));
    let able = usual_sizes(&bench);
    let beam_m = own.prism.beam_m;
    let mut draft = Draft { bench, start_m_s, duties: Vec::new(), able };
    draft.hump_trim(cruise_m_s);
    let speed = velocity(cruise_m_s);
    let _ = WITHIN.iter().any(|&within| {
        draft.take(Duty::LeastResistance { within: Ratio::new::<ratio>(within), speed })
    });
    draft.porpoising_margin(top_m_s);
    let distance = Length::new::<meter>((20.0 * SEAT_BEAMS * beam_m).round() / 20.0);
    let cause = ListCause::OffCentre { mass: Mass::new::<kilogram>(PERSON_KG), distance };
    draft.take(Duty::List { cause, speed });
    draft.duties
}

/// A list of duties in the making.
struct Draft<'a> {
    bench: Bench<'a>,
    start_m_s: f64,
    duties: Vec<Duty>,
    /// Pairs that do all duties so far; from the beginning none where there is no room for any.
    able: Vec<PlaneSize>,
}

impl Draft<'_> {
    /// The trim over the hump, as low as pairs can hold it from the hump or slower to cruise.
    fn hump_trim(&mut self, cruise_m_s: f64) {
        let Loaded { boat, prism } = &self.bench.loaded[0];
        let Some(hump) = Hump::of_prism(boat, prism) else { return };
        let hump_m_s = hump.speed_m_s();
        let largest_deg = hump.trim.map_or(LARGEST_TRIM_DEG, |trim| trim.get::<degree>());
        let half_degrees = (2.0 * (largest_deg - HUMP_RELIEF_DEG)).floor();
        let mut at_most_deg = (0.5 * half_degrees).max(LEAST_ASKED_DEG);
        while at_most_deg <= largest_deg - 0.5 {
            let duty = |from_m_s: f64| Duty::HumpTrim {
                at_most: Angle::new::<degree>(at_most_deg),
                from: velocity(from_m_s),
                to: velocity(cruise_m_s),
            };
            let first_m_s = half_knots_m_s(self.start_m_s, f64::ceil).min(cruise_m_s);
            let from_m_s = self.held_from_m_s(duty(first_m_s), cruise_m_s);
            if from_m_s.is_some_and(|from_m_s| from_m_s <= hump_m_s.max(first_m_s))
                && from_m_s.is_some_and(|from_m_s| self.take(duty(from_m_s)))
            {
                return;
            }
            at_most_deg += 0.5;
        }
    }

    /// The slowest speed from which a duty can be done without a break up to a speed.
    fn held_from_m_s(&mut self, duty: Duty, to_m_s: f64) -> Option<f64> {
        let asked = self.bench.asked_by(&duty, self.duties.len(), 0);
        self.bench.asked.push(asked);
        let mut from_m_s = None;
        let mut able = self.able.clone();
        for speed_m_s in half_knots_between_m_s(asked.speeds_m_s[0], to_m_s) {
            let here = self.able_at(&able, speed_m_s);
            if here.is_empty() && !able.is_empty() {
                from_m_s = None;
                able.clone_from(&self.able);
            } else {
                from_m_s = from_m_s.or(Some(speed_m_s));
                able = here;
            }
        }
        self.bench.asked.pop();
        from_m_s
    }

    /// The margin under the porpoising limit, up to the fastest speed to which pairs can keep it.
    fn porpoising_margin(&mut self, top_m_s: f64) {
        let duty = |up_to_m_s: f64| Duty::PorpoisingMargin {
            margin: Angle::new::<degree>(MARGIN_DEG),
            up_to: velocity(up_to_m_s),
        };
        let asked = self.bench.asked_by(&duty(top_m_s), self.duties.len(), 0);
        self.bench.asked.push(asked);
        let mut able = self.able.clone();
        let mut up_to_m_s = None;
        for speed_m_s in half_knots_between_m_s(self.start_m_s, top_m_s) {
            let here = self.able_at(&able, speed_m_s);
            if here.is_empty() && !able.is_empty() {
                break;
            }
            able = here;
            up_to_m_s = Some(speed_m_s);
        }
        self.bench.asked.pop();
        if let Some(up_to_m_s) = up_to_m_s.filter(|&up_to_m_s| up_to_m_s > self.start_m_s) {
            self.take(duty(up_to_m_s));
        }
    }

    /// Puts a duty on the list when some pair does it together with those before; whether it did.
    fn take(&mut self, duty: Duty) -> bool {
        let asked = self.bench.asked_by(&duty, self.duties.len(), 0);
        self.bench.asked.push(asked);
        let [from, to] = asked.speeds_m_s;
        let mut able = self.able.clone();
        // The same speeds as a size will be held against.
        for speed_m_s in range(from, to) {
            able = self.able_at(&able, speed_m_s);
            if to <= from || able.is_empty() {
                break;
            }
        }
        if able.is_empty() && !self.able.is_empty() {
            self.bench.asked.pop();
            return false;
        }
        self.able = able;
        self.duties.push(duty);
        true
    }

    /// Those of some pairs that do everything asked for at a speed.
    fn able_at(&self, able: &[PlaneSize], speed_m_s: f64) -> Vec<PlaneSize> {
        let site = self.bench.site_at(0, speed_m_s);
        if site.is_idle() {
            return able.to_vec();
        }
        let does = |size: &&PlaneSize| site.need(**size, &self.bench.rules).strain <= SPARED_STRAIN;
        able.iter().filter(does).copied().collect()
    }
}

/// Admissible pairs of usual size; the smallest admissible ones where all are larger.
fn usual_sizes(bench: &Bench<'_>) -> Vec<PlaneSize> {
    let Some([low, high]) = bench.room.chords_m() else { return Vec::new() };
    let [usual_chord_m, usual_span_m] =
        USUAL_BEAMS.map(|beams| beams * bench.loaded[0].prism.beam_m);
    let largest_m = high.min(usual_chord_m).max(low);
    let mut sizes = Vec::new();
    for chord_share in [0.0, 0.3, 0.65, 1.0] {
        let chord_m = low + chord_share * (largest_m - low);
        let Some([least, largest]) = bench.room.spans_m(chord_m) else { continue };
        for span_share in [0.5, 1.0] {
            let span_m = least + span_share * (largest.min(usual_span_m).max(least) - least);
            sizes.push(PlaneSize { span_m, chord_m });
        }
    }
    sizes
}

/// Two ends and the whole half knots between them, m/s.
fn half_knots_between_m_s(from_m_s: f64, to_m_s: f64) -> Vec<f64> {
    let half_knot_m_s = 0.5 * M_S_PER_KNOT;
    let first = (from_m_s / half_knot_m_s * (1.0 + 1e-9)).floor() + 1.0;
    let between = std::iter::successors(Some(first), |place| Some(place + 1.0))
        .map(|place| place * half_knot_m_s)
        .take_while(|&speed_m_s| speed_m_s < to_m_s - 1e-9);
    let mut speeds: Vec<f64> = std::iter::once(from_m_s).chain(between).collect();
    if to_m_s > from_m_s + 1e-9 {
        speeds.push(to_m_s);
    }
    speeds
}

/// A speed in whole half knots, as a person would write it.
fn half_knots_m_s(speed_m_s: f64, round: fn(f64) -> f64) -> f64 {
    let half_knot_m_s = 0.5 * M_S_PER_KNOT;
    round(speed_m_s / half_knot_m_s) * half_knot_m_s
}

fn velocity(speed_m_s: f64) -> Velocity {
    Velocity::new::<meter_per_second>(speed_m_s)
}
