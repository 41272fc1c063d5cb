//! Random boats: what is generated for usual ones can be done, and nothing breaks on any.

use uom::si::f64::Ratio;
use uom::si::{angle::degree, ratio::ratio, velocity::meter_per_second};

use super::fleet::{
    Draw, Sketch, degrees, hump_trim, least_resistance, list, metres, porpoising_margin, usual,
};
use super::judge::{Judge, SPEEDS, judge, pair, see};
use super::optimum::area_m2;
use super::resistance::{admissible, evenly};
use crate::balance::{Balance, Outcome, Settings};
use crate::boat::{Boat, Duty, ListCause, PlanePair, SizingInput};
use crate::size::{Answer, FLAT_SHARE, Reached, Suggestion, suggest};

/// Boats drawn from the whole bounds table.
const UNUSUAL: usize = 200;
/// Usual boats with random duties.
const ASKED: usize = 150;
/// Chords and spans of a grid on which nothing may do all duties when the answer says so.
const COARSE: u32 = 8;

/// The largest trim of a boat with planes up over a scan of her speeds, 15° where her stern is too heavy for any.
fn scanned(sketch: &Sketch, boat: &Boat) -> f64 {
    let balance = Balance::of(boat, &Settings::default()).with_planes(None);
    let [from, to] = [super::judge::start_m_s(boat), sketch.top_kn * 1852.0 / 3600.0];
    let mut hump_deg = f64::NEG_INFINITY;
    for speed_m_s in evenly(from, to, 400) {
        let at = uom::si::f64::Velocity::new::<meter_per_second>(speed_m_s);
        let outcome = balance.point(at, degrees(0.0)).expect("within bounds").outcome;
        let seen = see(&balance, speed_m_s, 0.0);
        hump_deg = match seen {
            Some(seen) => hump_deg.max(seen.trim_deg),
            None if outcome == Outcome::NoBalanceBowUp => 15.0,
            None => hump_deg,
        };
    }
    hump_deg
}

/// Of 200 usual boats each gets a person at the rail, 30 % off the trim at her hump, less where that is over 3°, down to no less than 2.5°,
/// and nearly all of them a pair that an own judging finds good; the few others get none because no pair of a grid does it.
#[test]
fn physics_generated_duties_can_be_done() {
    let mut draw = Draw::new(2024);
    let (mut pairs, mut undone) = (0, 0);
    for index in 0..200 {
        let sketch = usual(&mut draw);
        let boat = sketch.boat();
        let told = suggest(&boat, &Settings::default()).expect("generated duties are sound");
        let duties: Vec<Duty> = told.duties.iter().map(|duty| duty.duty).collect();
        assert!(told.duties.iter().all(|duty| duty.generated));
        let hump_deg = scanned(&sketch, &boat);
        let share_deg = 0.3 * hump_deg;
        let grows_slower_deg = 3.0 * (hump_deg / 10.0).powf(0.9);
        let expected_deg = share_deg.min(grows_slower_deg).min(hump_deg - 2.5);
        let (mut relief_deg, mut people) = (0.0, 0);
        for duty in &duties {
            match *duty {
                Duty::Relief { at_least, over } => {
                    assert_eq!(over, None);
                    relief_deg = at_least.get::<degree>();
                }
                Duty::List { cause, .. } => {
                    let ListCause::OffCentre { mass, distance } = cause else {
                        panic!("{cause:?}")
                    };
                    assert!((mass.value - 85.0).abs() < 1e-9);
                    assert!((distance.value - 0.45 * sketch.beam_m).abs() <= 0.025 + 1e-9);
                    people += 1;
                }
                _ => panic!("{index}: {duty:?}"),
            }
        }
        assert_eq!(people, 1, "{index}");
        // A trim of which the relief is a whole tenth may fall to either side of it.
        let under_deg = expected_deg - relief_deg;
        let fits = if expected_deg < 0.5 - 1e-3 {
            relief_deg == 0.0
        } else {
            (-1e-3..0.1 + 1e-3).contains(&under_deg) || expected_deg < 0.5 + 1e-3
        };
        assert!(fits, "{index}: {relief_deg} at a hump of {hump_deg}");
        match &told.answer {
            Answer::Pair(pair) => {
                pairs += 1;
                let judge = judge(&boat, &duties, SPEEDS, &told);
                assert!(judge.does(*pair, 1e-3), "{index}: {pair:?} {:?}", judge.worst(*pair));
            }
            Answer::NoPlanesNeeded => panic!("{index}: nobody levels her"),
            Answer::Infeasible(shortfall) => {
                undone += 1;
                let judge = judge(&boat, &duties, SPEEDS, &told);
                let found = some_pair(&boat, &judge, f64::INFINITY);
                assert!(found.is_none(), "{index}: {found:?} does all, {shortfall:?}");
            }
        }
    }
    // A stern so heavy that no pair that fits takes off what is asked is told so.
    assert!(undone <= 8 && pairs >= 190, "{pairs} of 200 want planes, {undone} undone");
}

/// A boat from anywhere in the bounds table; it may be impossible.
fn unusual(draw: &mut Draw) -> Sketch {
    let beam_m = draw.by_factor(0.1, 12.0);
    let bottom_m = beam_m * draw.by_factor(1.0, 15.0);
    let smallest_aspect = draw.by_factor(0.3, 4.0);
    let sizing = SizingInput {
        largest_deflection: Some(degrees(draw.between(1.0, 15.0))),
        share: Some(Ratio::new::<ratio>(draw.between(0.1, 1.0))),
        smallest_chord: Some(metres(draw.by_factor(0.02, 0.05_f64.max(0.1 * beam_m)))),
        smallest_aspect: Some(smallest_aspect),
        largest_aspect: Some(smallest_aspect * draw.by_factor(1.0, 5.0)),
        round_to: Some(metres(draw.by_factor(0.005, 0.05))),
        ..SizingInput::default()
    };
    let mut sketch = Sketch {
        beam_m,
        bottom_m,
        deadrise_deg: draw.between(0.0, 40.0),
        mass_kg: draw.by_factor(0.01, 3.0) * 1026.0 * beam_m.powi(3),
        lcg_m: bottom_m * draw.between(0.02, 0.98),
        vcg_m: beam_m * draw.between(-0.2, 2.0),
        thrust_deg: draw.between(-15.0, 25.0),
        offset_m: beam_m * draw.between(-2.0, 2.0),
        top_kn: draw.by_factor(1.0, 116.0),
        inner_m: beam_m * draw.between(0.0, 0.4),
        sizing,
        duties: Vec::new(),
    };
    sketch.duties = unusual_duties(draw, &sketch);
    sketch
}

/// None, or some of each kind.
fn unusual_duties(draw: &mut Draw, sketch: &Sketch) -> Vec<Duty> {
    let start_kn = 1.01 * (9.806_65 * sketch.beam_m).sqrt() / 0.514_444;
    let mut speed_kn = || (start_kn * draw.by_factor(1.0, 6.0)).min(116.0);
    let (a, b, c) = (speed_kn(), speed_kn(), speed_kn());
    let moment_n_m = sketch.mass_kg * 9.8 * sketch.beam_m * draw.between(-0.03, 0.03);
    let all = [
        hump_trim(draw.between(2.0, 15.0), a.min(b), a.max(b)),
        least_resistance(draw.between(0.0, 30.0), c),
        porpoising_margin(draw.between(0.0, 5.0), a),
        list(moment_n_m.clamp(-1e6, 1e6), c),
    ];
    all.into_iter().filter(|_| draw.unit() < 0.4).collect()
}

/// A pair on a coarse grid, smaller than an area, that does all duties.
fn some_pair(boat: &Boat, judge: &Judge<'_>, below_m2: f64) -> Option<PlanePair> {
    let all = admissible(boat, COARSE).into_iter().flat_map(|(chord_m, [low, high])| {
        evenly(low, high, COARSE).into_iter().map(move |span_m| pair(span_m, chord_m))
    });
    let mut smaller = all.filter(|size| area_m2(*size) < below_m2);
    smaller.find(|size| judge.does(*size, -0.01))
}

/// Duties as people ask for them, on a boat of usual proportions.
fn asked(draw: &mut Draw, sketch: &Sketch) -> Vec<Duty> {
    let start_kn = (9.806_65 * sketch.beam_m).sqrt() / 0.514_444;
    let mut speed_kn = |low: f64, high: f64| {
        start_kn + draw.between(low, high) * (sketch.top_kn - start_kn).max(1.0)
    };
    let (slow, fast, cruise, up_to) =
        (speed_kn(0.05, 0.3), speed_kn(0.4, 0.8), speed_kn(0.4, 0.9), speed_kn(0.2, 1.0));
    let moment_n_m = sketch.mass_kg * 9.8 * sketch.beam_m * draw.between(0.0, 0.03);
    let all = [
        hump_trim(draw.between(4.0, 8.0), slow, fast),
        least_resistance(draw.between(1.0, 10.0), cruise),
        porpoising_margin(draw.between(0.0, 1.0), up_to),
        list(moment_n_m, cruise),
    ];
    all.into_iter().filter(|_| draw.unit() < 0.5).collect()
}

/// Whatever usual boats are asked: a pair does all and no pair of a grid does so with less, or no pair of the grid does.
#[test]
fn physics_answers_of_usual_boats_agree_with_a_grid() {
    let mut draw = Draw::new(9);
    let mut answers = [0; 3];
    for index in 0..ASKED {
        let mut sketch = usual(&mut draw);
        sketch.duties = asked(&mut draw, &sketch);
        if sketch.duties.is_empty() {
            continue;
        }
        let boat = sketch.boat();
        let told = suggest(&boat, &Settings::default()).expect("sound duties");
        let judge = judge(&boat, &sketch.duties, SPEEDS, &told);
        let smaller = match told.exact {
            Some(exact) => {
                answers[0] += 1;
                assert!(judge.does(exact, 0.01), "{index}: {:?}\n{told:?}", judge.worst(exact));
                some_pair(&boat, &judge, area_m2(exact) / (1.0 + FLAT_SHARE) * 0.99)
            }
            None if told.does_all() => {
                answers[1] += 1;
                assert!(judge.bare_does_all(), "{index}: {told:?}");
                continue;
            }
            None => {
                answers[2] += 1;
                some_pair(&boat, &judge, f64::INFINITY)
            }
        };
        assert!(smaller.is_none(), "{index}: {smaller:?} does all\n{sketch:?}\n{told:?}");
    }
    assert!(answers.iter().all(|&count| count > ASKED / 20), "{answers:?}");
}

/// Whether every number of an answer is finite; the least resistance is not where no pair makes her run.
fn is_finite(told: &Suggestion) -> bool {
    let mut told = told.clone();
    for duty in &mut told.duties {
        if let Reached::Resistance { bare: None, least, .. } = &mut duty.reached {
            least.value = 0.0;
        }
    }
    let text = format!("{told:?}");
    !text.split(|c: char| !c.is_alphanumeric()).any(|word| word == "NaN" || word == "inf")
}

#[test]
fn physics_no_boat_within_the_bounds_breaks_the_sizing() {
    let mut draw = Draw::new(77);
    let (mut sound, mut answers) = (0, [0; 3]);
    while sound < UNUSUAL {
        let sketch = unusual(&mut draw);
        let Ok(boat) = Boat::build(sketch.input()) else { continue };
        sound += 1;
        let Ok(told) = suggest(&boat, &Settings::default()) else { continue };
        assert!(is_finite(&told), "{sketch:?}\n{told:?}");
        let duties: Vec<Duty> = told.duties.iter().map(|duty| duty.duty).collect();
        let judge = judge(&boat, &duties, SPEEDS, &told);
        match &told.answer {
            // Where nothing can be asked, no pair can be said to do it.
            Answer::Infeasible(shortfall) if duties.is_empty() => {
                answers[2] += 1;
                assert!(
                    shortfall.best.is_none() && shortfall.missing.to_string().contains("planes")
                );
            }
            Answer::NoPlanesNeeded => {
                answers[0] += 1;
                assert!(!duties.is_empty(), "{sketch:?}\n{told:?}");
                assert!(judge.bare_does_all(), "{sketch:?}\n{told:?}");
            }
            Answer::Pair(pair) => {
                answers[1] += 1;
                let worst = judge.worst(*pair);
                assert!(judge.does(*pair, 0.01), "{sketch:?}\n{pair:?} misses {worst:?}\n{told:?}");
            }
            Answer::Infeasible(_) => {
                answers[2] += 1;
                let found = some_pair(&boat, &judge, f64::INFINITY);
                assert!(found.is_none(), "{sketch:?}\n{found:?} does all\n{told:?}");
            }
        }
    }
    assert!(answers.iter().all(|&count| count > 0), "{answers:?}");
}
