//! Random boats: what is generated for usual ones can be done, and nothing breaks on any.

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

use super::fleet::{
    Draw, Sketch, degrees, hump_trim, least_resistance, list, metres, porpoising_margin, usual,
};
use super::judge::{SPEEDS, judge};
use crate::balance::Settings;
use crate::boat::{Boat, Duty, SizingInput};
use crate::size::{Answer, Reached, Suggestion, suggest};

/// Boats drawn from the whole bounds table.
const UNUSUAL: usize = 400;

/// Of 200 usual boats each gets duties, most of them all four, and all of them a pair that an own judging finds good, or none.
#[test]
fn physics_generated_duties_can_be_done() {
    let mut draw = Draw::new(2024);
    let (mut pairs, mut duties_of_all) = (0, 0);
    for place in 0..200 {
        let boat = usual(&mut draw).boat();
        let told = suggest(&boat, &Settings::default()).expect("generated duties are sound");
        let duties: Vec<Duty> = told.duties.iter().map(|duty| duty.duty).collect();
        duties_of_all += duties.len();
        assert!(!duties.is_empty() && told.duties.iter().all(|duty| duty.generated && duty.met));
        match &told.answer {
            Answer::Pair(pair) => {
                pairs += 1;
                let judge = judge(&boat, &duties, SPEEDS, &told);
                assert!(judge.does(*pair, 1e-3), "{place}: {pair:?} {:?}", judge.worst(*pair));
            }
            Answer::NoPlanesNeeded => {}
            Answer::Infeasible(shortfall) => panic!("{place}: {shortfall:?}"),
        }
    }
    assert!(pairs >= 190, "{pairs} of 200 want planes");
    assert!(duties_of_all >= 600, "{duties_of_all} duties for 200 boats");
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
        match &told.answer {
            Answer::NoPlanesNeeded => answers[0] += 1,
            Answer::Pair(pair) => {
                answers[1] += 1;
                let duties: Vec<Duty> = told.duties.iter().map(|duty| duty.duty).collect();
                let judge = judge(&boat, &duties, SPEEDS, &told);
                let worst = judge.worst(*pair);
                assert!(judge.does(*pair, 0.01), "{sketch:?}\n{pair:?} misses {worst:?}\n{told:?}");
            }
            Answer::Infeasible(_) => answers[2] += 1,
        }
    }
    assert!(answers.iter().all(|&count| count > UNUSUAL / 50), "{answers:?}");
}
