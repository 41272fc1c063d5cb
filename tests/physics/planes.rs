//! What planes do to the running boat.

use planewright::balance::Outcome;
use uom::si::angle::degree;

use crate::boats::{self, ALL, Sketch, running};

#[test]
fn physics_planes_at_zero_are_the_bare_hull_exactly() {
    for sketch in ALL {
        for speed_kn in [13.0, 20.0, 30.0] {
            let bare = Sketch { planes_m: None, ..sketch };
            let with = sketch.point(speed_kn, 0.0);
            let without = bare.point(speed_kn, 0.0);
            assert_eq!(sketch.balance().budget(&with), bare.balance().budget(&without));
            assert_eq!(with.flags, without.flags);
            // They differ in what one more degree would do, and in nothing else.
            let mut raised = running(&with);
            assert!(raised.lift_per_degree.is_some() && raised.trim_per_degree.is_some());
            (raised.lift_per_degree, raised.trim_per_degree) = (None, None);
            assert_eq!(raised, running(&without));
        }
    }
}

/// Down to bow-under, and from there on nothing but bow-under.
#[test]
fn physics_more_deflection_lowers_the_trim() {
    let mut driven_under = 0;
    for sketch in ALL {
        let balance = sketch.balance();
        for speed_kn in [13.0, 16.0, 20.0, 25.0, 30.0, 40.0] {
            let mut last_deg = Some(f64::INFINITY);
            for half_degrees in 0..=40 {
                let point = boats::point(&balance, speed_kn, 0.5 * f64::from(half_degrees));
                let trim_deg = point.running.map(|running| running.trim.get::<degree>());
                match (last_deg, trim_deg) {
                    (Some(last), Some(trim)) => assert!(trim <= last, "{trim} after {last}"),
                    (None, Some(trim)) => panic!("{trim} after bow-under: {sketch:?}"),
                    (_, None) => assert_eq!(point.outcome, Outcome::BowUnder),
                }
                driven_under += usize::from(last_deg.is_some() && trim_deg.is_none());
                last_deg = trim_deg;
            }
        }
    }
    assert!(driven_under >= 3, "{driven_under}");
}

#[test]
fn physics_trim_per_degree_is_the_slope_between_two_balanced_points() {
    const STEP_DEG: f64 = 0.05;
    for sketch in ALL {
        let balance = sketch.balance();
        for speed_kn in [13.0, 16.0, 20.0, 26.0] {
            // All past the dead band of hinges a little above the bottom.
            for deflection_deg in [2.5, 4.0, 6.0] {
                let trim_deg = |deflection_deg: f64| {
                    running(&boats::point(&balance, speed_kn, deflection_deg)).trim.get::<degree>()
                };
                let slope = (trim_deg(deflection_deg + STEP_DEG)
                    - trim_deg(deflection_deg - STEP_DEG))
                    / (2.0 * STEP_DEG);
                let point = boats::point(&balance, speed_kn, deflection_deg);
                let told = running(&point).trim_per_degree.unwrap();
                assert!(told < 0.0);
                assert!((told - slope).abs() < 1e-4, "{told} {slope} {speed_kn} {sketch:?}");
            }
        }
    }
}
