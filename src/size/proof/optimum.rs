//! The least pair is the least over a dense grid that is judged on its own.

use uom::si::length::meter;

use super::fleet::{
    Sketch, hump_trim, least_resistance, list, metres, porpoising_margin, runabout,
};
use super::judge::{Judge, SPEEDS, judge, pair};
use super::resistance::{admissible, evenly};
use crate::balance::Settings;
use crate::boat::{Boat, Duty, PlanePair};
use crate::size::suggest::suggest_from;
use crate::size::{Answer, Binding, FLAT_SHARE, suggest};

/// Chords and spans of the dense grid.
pub const GRID: u32 = 48;
/// The same where wider planes do less than narrower ones, so that a chord has few spans that serve.
const FINE_GRID: u32 = 110;
/// How far the least pair may lie above the dense grid's.
const WITHIN: f64 = 0.01;

/// A boat with what binds her least pair.
pub struct Case {
    pub name: &'static str,
    pub sketch: Sketch,
    pub binding: &'static [Binding],
    pub set_by: Option<usize>,
}

fn case(
    name: &'static str,
    duties: &[Duty],
    binding: &'static [Binding],
    set_by: Option<usize>,
    change: impl Fn(&mut Sketch),
) -> Case {
    let mut sketch = runabout(duties);
    // Wider limits than are usual, so that each of them binds somewhere and nowhere all at once.
    sketch.sizing.smallest_chord = Some(metres(0.15));
    sketch.sizing.largest_aspect = Some(4.0);
    change(&mut sketch);
    Case { name, sketch, binding, set_by }
}

/// One boat with different duties and limits, so that each limit binds somewhere.
pub fn cases() -> Vec<Case> {
    use Binding::{Duty, LargestAspect, Room, SafeRun, SmallestAspect, SmallestChord};
    let as_she_is = |_: &mut Sketch| ();
    let hump = hump_trim(6.5, 11.0, 20.0);
    vec![
        case("wide room", &[hump], &[Duty], Some(0), as_she_is),
        case("square planes", &[hump], &[Duty, LargestAspect], Some(0), |boat| {
            boat.sizing.largest_aspect = Some(1.8);
        }),
        case("little room", &[hump], &[Duty, Room], Some(0), |boat| boat.inner_m = 0.7),
        case(
            "small chord",
            &[hump_trim(7.0, 11.0, 20.0)],
            &[Duty, SmallestChord],
            Some(0),
            |boat| boat.sizing.smallest_chord = Some(metres(0.19)),
        ),
        case(
            "easy duty",
            &[hump_trim(7.4, 11.0, 20.0)],
            &[SmallestChord, SmallestAspect],
            None,
            |boat| boat.sizing.smallest_chord = Some(metres(0.2)),
        ),
        case("deep chord", &[list(1800.0, 14.0)], &[Duty], Some(0), as_she_is),
        case("safe run", &[list(7750.0, 34.0)], &[Duty, SafeRun], Some(0), as_she_is),
        case("margin", &[porpoising_margin(0.5, 22.0)], &[Duty], Some(0), as_she_is),
        case("two at one speed", &[list(500.0, 16.0), hump], &[Duty], Some(1), as_she_is),
        case(
            "resistance",
            &[least_resistance(2.0, 15.0), list(300.0, 15.0)],
            &[Duty, Room],
            Some(0),
            as_she_is,
        ),
        case(
            "all four",
            &[hump, least_resistance(5.0, 24.0), porpoising_margin(0.3, 22.0), list(400.0, 24.0)],
            &[Duty],
            Some(0),
            as_she_is,
        ),
    ]
}

/// Least span that does all for each of a dense list of chords: a grid of spans, then halving.
pub fn dense_line(boat: &Boat, judges: &[Judge<'_>], grid: u32) -> Vec<PlanePair> {
    let does = |span_m: f64, chord_m: f64| {
        judges.iter().all(|judge| judge.does(pair(span_m, chord_m), 0.0))
    };
    let mut line = Vec::new();
    for (chord_m, [low, high]) in admissible(boat, grid) {
        let spans = evenly(low, high, grid);
        let Some(first) = spans.iter().position(|&span_m| does(span_m, chord_m)) else { continue };
        let mut outside = if first == 0 { low } else { spans[first - 1] };
        let mut inside = spans[first];
        while inside - outside > 1e-5 {
            let middle = 0.5 * (inside + outside);
            if does(middle, chord_m) { inside = middle } else { outside = middle }
        }
        line.push(pair(inside, chord_m));
    }
    line
}

/// That none of a line is smaller than a pair, or has less hinge moment among those of the same area.
pub fn is_least(name: &str, exact: PlanePair, line: &[PlanePair]) {
    let least_m2 = line.iter().map(|size| area_m2(*size)).fold(f64::INFINITY, f64::min);
    let allowed_m2 = least_m2 * (1.0 + FLAT_SHARE);
    let hinge = line.iter().filter(|size| area_m2(**size) <= allowed_m2);
    let hinge = hinge.map(|size| hinge_m3(*size)).fold(f64::INFINITY, f64::min);
    assert!(area_m2(exact) <= allowed_m2 * (1.0 + WITHIN), "{name}: {exact:?}");
    assert!(hinge_m3(exact) <= hinge * (1.0 + WITHIN), "{name}: {exact:?}");
}

pub fn area_m2(pair: PlanePair) -> f64 {
    2.0 * pair.span.get::<meter>() * pair.chord.get::<meter>()
}

/// chord² × span, which the design hinge moment goes with.
fn hinge_m3(pair: PlanePair) -> f64 {
    area_m2(pair) * pair.chord.get::<meter>()
}

#[test]
fn physics_least_pair_is_the_least_over_a_dense_grid() {
    let (mut wrong, mut seen) = (Vec::new(), Vec::new());
    for Case { name, sketch, binding, set_by } in cases() {
        let boat = sketch.boat();
        let told = suggest(&boat, &Settings::default()).expect("sound duties");
        let exact = told.exact.unwrap_or_else(|| panic!("{name}: {:?}", told.answer));
        let judge = judge(&boat, &sketch.duties, SPEEDS, &told);
        let grid = if name == "safe run" { FINE_GRID } else { GRID };
        assert!(judge.does(exact, 1e-3), "{name}: misses {:?}", judge.worst(exact));
        is_least(name, exact, &dense_line(&boat, &[judge], grid));
        seen.extend(told.binding.iter().copied());
        if !binding.iter().all(|bound| told.binding.contains(bound)) || told.set_by != set_by {
            wrong.push((name, told.binding, told.set_by));
        }
    }
    assert!(wrong.is_empty(), "{wrong:?}");
    use Binding::{Duty, LargestAspect, Room, SafeRun, SmallestAspect, SmallestChord};
    for bound in [Duty, SafeRun, Room, SmallestChord, SmallestAspect, LargestAspect] {
        assert!(seen.contains(&bound), "{bound:?} binds nowhere");
    }
}

/// The rounded pair does all duties at four times as many speeds, and no pair in whole steps that is smaller by more than the flat share does.
#[test]
fn physics_rounded_pair_does_all_and_none_smaller_does() {
    for Case { name, sketch, .. } in cases() {
        let boat = sketch.boat();
        let told = suggest(&boat, &Settings::default()).expect("sound duties");
        let Answer::Pair(rounded) = told.answer else { panic!("{name}: {:?}", told.answer) };
        let fine = judge(&boat, &sketch.duties, 4 * (SPEEDS - 1) + 1, &told);
        assert!(fine.does(rounded, 0.01), "{name}: misses {:?}", fine.worst(rounded));
        let judge = judge(&boat, &sketch.duties, SPEEDS, &told);
        let step_m = boat.sizing().round_to.get::<meter>();
        for chord in 1_u32..60 {
            for span in 1_u32..80 {
                let size = pair(step_m * f64::from(span), step_m * f64::from(chord));
                if !admits(&boat, size) {
                    continue;
                }
                let flat = area_m2(size) <= area_m2(rounded) * (1.0 + 1e-9)
                    && hinge_m3(size) < hinge_m3(rounded) * (1.0 - 1e-9);
                let smaller = area_m2(size) * (1.0 + FLAT_SHARE) < area_m2(rounded) * (1.0 - 1e-9);
                if smaller || flat {
                    assert!(!judge.does(size, -1e-3), "{name}: {size:?} does too; {rounded:?}");
                }
            }
        }
    }
}

/// Whether the limits on room, chord and span/chord admit a pair.
fn admits(boat: &Boat, size: PlanePair) -> bool {
    let (sizing, slack) = (boat.sizing(), 1e-9);
    let (span_m, chord_m) = (size.span.get::<meter>(), size.chord.get::<meter>());
    span_m <= boat.transom().room().largest_span.get::<meter>() + slack
        && chord_m >= sizing.smallest_chord.get::<meter>() - slack
        && span_m >= (sizing.smallest_aspect - slack) * chord_m
        && span_m <= (sizing.largest_aspect + slack) * chord_m
}

#[test]
fn physics_answer_does_not_hang_on_the_start() {
    for Case { name, sketch, .. } in cases() {
        let boat = sketch.boat();
        let from = |start: f64| {
            suggest_from(std::slice::from_ref(&boat), &Settings::default(), start).expect("sound")
        };
        let middle = from(0.5);
        assert_eq!(middle, from(0.5), "{name}: not the same twice");
        let exact = middle.exact.expect("a pair");
        for start in [0.0, 0.25, 0.75, 1.0] {
            let other = from(start);
            let [a, b] = [&other, &middle].map(|told| told.pair().expect("a pair"));
            // Where no pair in whole steps serves, the exact one is the answer.
            let same = (a.span - b.span).get::<meter>().abs() < 5e-4
                && (a.chord - b.chord).get::<meter>().abs() < 5e-4;
            assert!(same, "{name} from {start}: {a:?} {b:?}");
            let moved = other.exact.expect("a pair");
            let apart = |a: uom::si::f64::Length, b| (a - b).get::<meter>().abs();
            let far = apart(moved.span, exact.span).max(apart(moved.chord, exact.chord));
            assert!(far < 5e-4, "{name} from {start}: {:.2} mm apart", 1000.0 * far);
        }
    }
}

/// Without the duty that sets the size, less is enough.
#[test]
fn physics_the_duty_named_is_the_one_that_sets_the_size() {
    for Case { name, sketch, .. } in cases() {
        let told = suggest(&sketch.boat(), &Settings::default()).expect("sound duties");
        let Some(set_by) = told.set_by else { continue };
        let mut without = sketch.clone();
        without.duties.remove(set_by);
        if without.duties.is_empty() {
            continue;
        }
        let less = suggest(&without.boat(), &Settings::default()).expect("sound duties");
        let [all_m2, less_m2] = [&told, &less].map(|told| told.exact.map_or(0.0, area_m2));
        assert!(less_m2 < all_m2 / (1.0 + FLAT_SHARE), "{name}: {less_m2} of {all_m2} m2");
    }
}
