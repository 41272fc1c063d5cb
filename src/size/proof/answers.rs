//! Answers other than a pair, and how the answer moves with what is asked.

use uom::si::f64::Angle;
use uom::si::{angle::degree, length::meter, velocity::meter_per_second};

use super::fleet::{Sketch, hump_trim, least_resistance, list, porpoising_margin, runabout};
use super::judge::{Judge, SPEEDS, see};
use super::optimum::area_m2;
use crate::balance::{Balance, Settings};
use crate::boat::{Duty, PlanePair};
use crate::flag::Flag;
use crate::size::bench::Bench;
use crate::size::loaded::{Asking, Loaded};
use crate::size::suggest::{search, search_in};
use crate::size::{Answer, Limit, Miss, Reached, Shortfall, Suggestion, suggest};

fn told(sketch: &Sketch) -> Suggestion {
    suggest(&sketch.boat(), &Settings::default()).expect("sound duties")
}

fn shortfall(sketch: &Sketch) -> (Shortfall, PlanePair, Miss) {
    match told(sketch).answer {
        Answer::Infeasible(shortfall) => {
            let best = shortfall.best.expect("a best pair");
            let miss = shortfall.miss.expect("a miss");
            (*shortfall, best, miss)
        }
        other => panic!("{other:?}"),
    }
}

fn deg(angle: Angle) -> f64 {
    angle.get::<degree>()
}

/// The first deflection of a fine scan at which something holds.
fn first_deg(sketch: &Sketch, pair: PlanePair, speed_m_s: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let balance = Balance::of(&sketch.boat(), &Settings::default()).with_planes(Some(pair));
    (0..=6000)
        .map(|step| 0.005 * f64::from(step))
        .find(|&deflection_deg| match see(&balance, speed_m_s, deflection_deg) {
            Some(seen) => holds(seen.trim_deg),
            None => holds(0.0),
        })
        .unwrap_or(f64::INFINITY)
}

#[test]
fn physics_bare_boat_that_does_all_needs_no_planes() {
    let duties = [hump_trim(9.0, 11.0, 20.0), porpoising_margin(0.5, 14.0)];
    let sketch = runabout(&duties);
    let boat = sketch.boat();
    assert!(Judge::of(&boat, &duties, SPEEDS, |_| f64::NAN).bare_does_all());
    let told = told(&sketch);
    assert_eq!(told.answer, Answer::NoPlanesNeeded);
    assert!(told.duties.len() == 2 && told.duties.iter().all(|duty| duty.met && duty.met_bare));
    assert!(told.exact.is_none() && told.pair().is_none() && told.does_all());
}

/// A speed at which the bare keel runs out of the bottom rules nothing out where no duty asks for planes.
#[test]
fn physics_planes_do_not_answer_for_the_bare_run() {
    let mut sketch = runabout(&[hump_trim(7.2, 14.0, 20.0), porpoising_margin(0.0, 12.0)]);
    sketch.bottom_m = 5.9;
    let told = told(&sketch);
    assert!(matches!(told.answer, Answer::Pair(_)), "{:?}", told.answer);
    assert!(told.flags.contains(crate::flag::Flag::KeelBeyondBottom));
}

#[test]
fn physics_too_little_deflection_is_told_with_what_is_needed() {
    let mut sketch = runabout(&[list(100.0, 16.0), hump_trim(5.2, 12.0, 20.0)]);
    sketch.inner_m = 0.5;
    sketch.sizing.share = Some(uom::si::f64::Ratio::new::<uom::si::ratio::percent>(40.0));
    let (shortfall, best, miss) = shortfall(&sketch);
    assert_eq!((shortfall.duty, miss.limit), (Some(1), Limit::Deflection));
    let speed_m_s = miss.speed.get::<meter_per_second>();
    let needed_deg = first_deg(&sketch, best, speed_m_s, |trim_deg| trim_deg <= 5.2);
    assert!((deg(miss.needed) - needed_deg).abs() < 0.01, "{miss:?} {needed_deg}");
    assert!((deg(miss.available) - 6.0).abs() < 1e-9);
    assert!((miss.excess - (deg(miss.needed) / 6.0 - 1.0)).abs() < 1e-6);
}

#[test]
fn physics_end_of_the_safe_run_is_told_with_where_it_lies() {
    let sketch = runabout(&[porpoising_margin(1.5, 34.0)]);
    let (shortfall, best, miss) = shortfall(&sketch);
    assert_eq!((shortfall.duty, miss.limit), (Some(0), Limit::SafeRun));
    let speed_m_s = miss.speed.get::<meter_per_second>();
    let end_deg = first_deg(&sketch, best, speed_m_s, |trim_deg| trim_deg < 2.0);
    assert!((deg(miss.available) - end_deg).abs() < 0.01, "{miss:?} {end_deg}");
    assert!(deg(miss.needed) > deg(miss.available));
}

/// A trim and a resistance at one speed that no one deflection does.
#[test]
fn physics_duties_at_odds_are_told() {
    let mut sketch = runabout(&[hump_trim(2.1, 20.0, 20.0), least_resistance(0.1, 20.0)]);
    sketch.bottom_m = 14.0;
    sketch.sizing.smallest_aspect = Some(3.0);
    let (shortfall, best, miss) = shortfall(&sketch);
    assert_eq!((shortfall.duty, miss.limit), (Some(1), Limit::Duty), "{shortfall:?}");
    let speed_m_s = miss.speed.get::<meter_per_second>();
    let deflection_deg = first_deg(&sketch, best, speed_m_s, |trim_deg| trim_deg <= 2.1);
    let balance = Balance::of(&sketch.boat(), &Settings::default()).with_planes(Some(best));
    let seen = see(&balance, speed_m_s, deflection_deg).expect("she runs");
    let Reached::Resistance { least, .. } = told(&sketch).duties[1].reached else { panic!() };
    let over = seen.resistance_n / (1.001 * least.value) - 1.0;
    assert!((miss.excess - over).abs() < 1e-3, "{miss:?} {over}");
}

#[test]
fn physics_no_room_says_the_millimetres_missing() {
    let mut sketch = runabout(&[hump_trim(6.5, 11.0, 20.0)]);
    sketch.inner_m = 0.95;
    // 2.25/2/cos 18° − 0.95 − 0.09 = 0.1429 m; 1.5 × 0.225 m = 0.3375 m.
    let told = told(&sketch);
    let Answer::Infeasible(shortfall) = &told.answer else { panic!("{:?}", told.answer) };
    assert!(shortfall.best.is_none() && shortfall.miss.is_none());
    let said = shortfall.missing.to_string();
    assert!(said.contains("143 mm"), "{said}");
    assert!(said.contains("195 mm more"), "{said}");
    assert!(!told.duties.is_empty() && told.duties.iter().all(|duty| !duty.met));
    let mut easy = sketch;
    easy.duties = vec![hump_trim(9.0, 11.0, 20.0)];
    assert_eq!(self::told(&easy).answer, Answer::NoPlanesNeeded);
}

/// Area of the exact pair: none where none is needed, beyond all where none does.
fn asked_m2(told: &Suggestion) -> f64 {
    if told.does_all() { told.exact.map_or(0.0, area_m2) } else { f64::INFINITY }
}

/// The line along which the least pair moves is flat to 2 %: it counts as not smaller within that.
fn not_smaller(harder: &Suggestion, easier: &Suggestion) -> bool {
    let [harder, easier] = [harder, easier].map(asked_m2);
    harder * (1.0 + crate::size::FLAT_SHARE) >= easier
}

#[test]
fn physics_harder_duties_never_ask_for_less() {
    let harder: [&dyn Fn(f64) -> Duty; 4] = [
        &|t| hump_trim(7.6 - 1.6 * t, 11.0, 20.0),
        &|t| porpoising_margin(0.1 + 0.6 * t, 22.0),
        &|t| list(300.0 + 2000.0 * t, 16.0),
        &|t| least_resistance(4.0 - 3.0 * t, 15.0),
    ];
    for duty in harder {
        let answers: Vec<Suggestion> =
            (0..=6).map(|i| told(&runabout(&[duty(f64::from(i) / 6.0)]))).collect();
        for pair in answers.windows(2) {
            assert!(not_smaller(&pair[1], &pair[0]), "{:?} {:?}", pair[1].exact, pair[0].exact);
        }
        assert!(answers.last().map_or(0.0, asked_m2) > asked_m2(&answers[0]));
    }
}

#[test]
fn physics_more_effective_planes_are_not_larger() {
    let boat = runabout(&[hump_trim(5.6, 11.0, 20.0), porpoising_margin(0.3, 21.0)]).boat();
    let answers = [0.8, 1.0, 1.25, 1.5].map(|effectiveness| {
        suggest(&boat, &Settings { effectiveness, ..Settings::default() }).expect("sound duties")
    });
    for pair in answers.windows(2) {
        assert!(not_smaller(&pair[0], &pair[1]));
    }
    let [weak, .., strong] = answers.map(|told| area_m2(told.exact.expect("a pair")));
    // Lift goes with effectiveness × area; that the plates count as bottom goes with the area alone.
    // At the hump, 15° and for one m² over the beam, 2.25 m: lift 0.046 × 15 × q = 24 kN/m at 16.0 kn,
    // 1.1 m from the centre of gravity, against a weight of 27.5 kN at the shift of the trailing edge.
    let [lift, bottom] = [0.046 * 15.0 * 34_800.0 * (2.45 - 0.6 * 2.25), 2800.0 * 9.81 / 2.25];
    let expected = (1.5 * lift + bottom) / (0.8 * lift + bottom);
    assert!((weak / strong / expected - 1.0).abs() < 0.12, "{weak} {strong} {expected}");
}

#[test]
fn physics_list_needs_the_moment_over_the_roll_of_one_degree() {
    let sketch = runabout(&[list(1800.0, 16.0)]);
    let boat = sketch.boat();
    let told = told(&sketch);
    let Answer::Pair(pair) = told.answer else { panic!("{:?}", told.answer) };
    let judge = Judge::of(&boat, &[], SPEEDS, |_| f64::NAN);
    let roll_n_m = judge.roll_n_m(pair, 16.0 * 0.514_444_444_444_444_4);
    let Reached::Difference { least, largest } = told.duties[0].reached else { panic!() };
    assert!((deg(least) * roll_n_m / 1800.0 - 1.0).abs() < 1e-9);
    assert!(deg(least) < deg(largest));
    // The higher plane stands where its trailing edge reaches the bottom line, hinged a quarter of an
    // inch above it; the deeper one takes the whole difference from there.
    let band_deg = (0.006_35 / pair.chord.get::<meter>()).atan().to_degrees();
    let needed = told.duties[0].needed_deflection.expect("a pair");
    assert!((deg(needed) / (band_deg + deg(least)) - 1.0).abs() < 1e-9);
}

#[test]
fn physics_list_is_the_same_to_port_and_adds_up() {
    let hump = hump_trim(6.5, 11.0, 20.0);
    let answer = |duties: &[Duty]| told(&runabout(duties));
    let starboard = answer(&[list(1500.0, 16.0), hump]);
    let port = answer(&[list(-1500.0, 16.0), hump]);
    assert_eq!((&starboard.answer, starboard.exact), (&port.answer, port.exact));
    let (
        Reached::Difference { least: a, largest: b },
        Reached::Difference { least: c, largest: d },
    ) = (starboard.duties[0].reached, port.duties[0].reached)
    else {
        panic!()
    };
    assert!((deg(a) + deg(c)).abs() < 1e-9 && (deg(b) + deg(d)).abs() < 1e-9);
    let two = answer(&[list(900.0, 16.0), list(600.0, 16.0), hump]);
    assert_eq!(two.answer, starboard.answer);
    let apart = two.exact.expect("a pair").span - starboard.exact.expect("a pair").span;
    assert!(apart.get::<meter>().abs() < 5e-4);
    let none = answer(&[list(900.0, 16.0), list(-900.0, 16.0), hump]);
    assert_eq!(none.exact, answer(&[hump]).exact);
}

#[test]
fn error_duties_below_the_planing_range_are_refused() {
    let sketch = runabout(&[list(900.0, 16.0), hump_trim(6.5, 6.0, 20.0)]);
    let fault = suggest(&sketch.boat(), &Settings::default()).expect_err("too slow");
    assert_eq!(fault.key, "duty[1].from");
}

/// A size that was not held against every speed says so; one that was asks no speed for more than it may.
#[test]
fn error_a_size_that_ran_out_of_rounds_is_not_called_checked() {
    let duties = [hump_trim(6.5, 9.3, 20.0), porpoising_margin(0.3, 22.0)];
    let boats = [runabout(&duties).boat()];
    let settings = Settings::default();
    let loaded = Loaded::all(&boats, &settings);
    let asking = Asking::of(&loaded, &settings).expect("sound duties");
    let bench = || Bench::new(&loaded, &asking.duties);
    let hasty = search_in(&mut bench(), 0, 0.5, 0.025).expect("a pair does it");
    let careful = search(&mut bench(), 0.5, 0.025).expect("a pair does it");
    assert!(!hasty.rechecked && careful.rechecked);
    let told = suggest(&boats[0], &settings).expect("sound duties");
    assert!(!told.flags.contains(Flag::SizeNotRechecked));
}
