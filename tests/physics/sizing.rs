//! The sizing of the demo boats, held against the balance through the public interface.

use std::path::Path;

use planewright::balance::{Balance, Running, Settings};
use planewright::boat::{Boat, Duty, ListCause, PlanePair};
use planewright::input::read_boat;
use planewright::size::{Answer, Suggestion, suggest};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::knot;

const BOATS: [&str; 3] = ["wren", "lantern", "holm"];

fn boat(name: &str) -> Boat {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("data/boats/{name}.toml"));
    read_boat(&file).expect("the demo boats are sound").boat
}

fn sized(name: &str) -> (Boat, Suggestion, PlanePair) {
    let boat = boat(name);
    let suggestion = suggest(&boat, &Settings::default()).expect("their duties are sound");
    let Answer::Pair(pair) = suggestion.answer else { panic!("{name}: {:?}", suggestion.answer) };
    (boat, suggestion, pair)
}

/// Deflections from nought to the share of the usable one that duties may use.
fn allowed(suggestion: &Suggestion) -> Vec<Angle> {
    let most = suggestion.usable_deflection * suggestion.share_allowed;
    (0..=240).map(|step| most * (f64::from(step) / 240.0)).collect()
}

fn running(balance: &Balance, speed: Velocity, deflection: Angle) -> Option<Running> {
    balance.point(speed, deflection).expect("within the bounds").running
}

/// Trim under two degrees is no safe run.
fn is_safe(running: &Running) -> bool {
    running.trim.get::<degree>() >= 2.0 - 1e-6
}

/// All through the range of a duty some allowed deflection does it with a safe run.
#[test]
fn physics_suggested_pairs_do_their_duties() {
    for name in BOATS {
        let (boat, suggestion, pair) = sized(name);
        let balance = Balance::of(&boat, &Settings::default()).with_planes(Some(pair));
        let deflections = allowed(&suggestion);
        for result in &suggestion.duties {
            assert!(result.met, "{name}: {result:?}");
            let (from, to) = match result.duty {
                Duty::HumpTrim { from, to, .. } => (from, to),
                Duty::PorpoisingMargin { up_to, .. } => (suggestion.schedule[0].speed, up_to),
                _ => continue,
            };
            let does = |running: &Running| match result.duty {
                Duty::HumpTrim { at_most, .. } => running.trim <= at_most,
                Duty::PorpoisingMargin { margin, .. } => running.porpoising_margin() >= margin,
                _ => true,
            };
            for step in 0..=40_u8 {
                let speed = from + (to - from) * (f64::from(step) / 40.0);
                let done = deflections.iter().any(|&deflection| {
                    running(&balance, speed, deflection).is_some_and(|running| {
                        let up = deflection.get::<degree>() <= 0.0;
                        does(&running) && (up || is_safe(&running))
                    })
                });
                assert!(done, "{name}: {:?} at {} kn", result.duty, speed.get::<knot>());
            }
        }
    }
}

/// A fifth less area, by span or by chord, no longer does all duties; the steps of the sizes cost at most an eighth.
#[test]
fn physics_suggested_pairs_are_not_larger_than_their_steps_ask_for() {
    for name in BOATS {
        let (_, suggestion, pair) = sized(name);
        let exact = suggestion.exact.expect("a pair comes from an exact one");
        let over = (pair.area() / exact.area()).value;
        assert!((0.97..1.12).contains(&over), "{name}: {over}");
        for variant in &suggestion.variants {
            let smaller = variant.pair.area() < pair.area() * 0.9;
            assert_eq!(variant.missed.is_empty(), !smaller, "{name}: {variant:?}");
        }
    }
}

#[test]
fn physics_advice_is_safe_at_every_speed() {
    for name in BOATS {
        let (boat, suggestion, pair) = sized(name);
        let balance = Balance::of(&boat, &Settings::default()).with_planes(Some(pair));
        for row in &suggestion.schedule {
            assert!(row.deflection <= row.largest_safe, "{name}: {row:?}");
            assert!(row.largest_safe <= suggestion.usable_deflection, "{name}: {row:?}");
            let safe = |deflection: Angle| {
                running(&balance, row.speed, deflection).is_some_and(|running| is_safe(&running))
            };
            assert!(row.deflection.value <= 0.0 || safe(row.deflection), "{name}: {row:?}");
            let beyond = row.largest_safe + Angle::new::<degree>(0.02);
            let ends = row.largest_safe >= suggestion.usable_deflection * (1.0 - 1e-9);
            assert!(ends || !safe(beyond), "{name}: {row:?}");
        }
    }
}

/// The planes do not care on which side the weight sits, and the answer is the same twice.
#[test]
fn physics_a_list_to_port_asks_for_the_same_pair() {
    for name in BOATS {
        let (boat, starboard, _) = sized(name);
        assert_eq!(starboard, sized(name).1, "{name}: not the same twice");
        let mut mirrored = boat.input().clone();
        for duty in &mut mirrored.duties {
            if let Duty::List { cause: ListCause::OffCentre { distance, .. }, .. } = &mut duty.duty
            {
                *distance = -*distance;
            }
        }
        let mirrored = Boat::build(mirrored).expect("as sound as before");
        let port = suggest(&mirrored, &Settings::default()).expect("sound duties");
        assert_eq!((port.answer, port.exact), (starboard.answer, starboard.exact), "{name}");
    }
}
