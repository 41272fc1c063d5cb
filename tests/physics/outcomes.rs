//! Where a boat ends up that does not run, and what is refused.

use planewright::balance::{Balance, LiftModel, Method, Outcome, Settings};
use planewright::boat::Fault;
use planewright::hydro;
use uom::si::f64::{Angle, Length, Velocity};
use uom::si::{angle::degree, length::meter, velocity::knot};

use crate::boats::{self, ALL, CABIN_BOAT, SKIFF, Sketch};

#[test]
fn regression_outcomes_have_their_stable_words() {
    let words = [
        (Outcome::Running, "running"),
        (Outcome::BowUnder, "bow-under"),
        (Outcome::NoBalanceBowUp, "no-balance-bow-up"),
        (Outcome::BelowPlaningRange, "below-planing-range"),
    ];
    for (outcome, word) in words {
        assert_eq!(outcome.word(), word);
        assert_eq!(outcome.to_string(), word);
        assert!(outcome.meaning().ends_with('.'));
    }
}

#[test]
fn physics_planing_begins_at_a_speed_coefficient_of_one() {
    for sketch in ALL {
        let balance = sketch.balance();
        let at = |speed_coefficient: f64| {
            let beam = Length::new::<meter>(sketch.beam_m);
            let speed = hydro::speed_at(speed_coefficient, beam);
            balance.point(speed, Angle::new::<degree>(0.0)).unwrap()
        };
        let below = at(1.0 - 1e-9);
        assert_eq!(below.outcome, Outcome::BelowPlaningRange);
        assert!(below.running.is_none() && balance.budget(&below).is_none());
        assert_eq!(at(1.0 + 1e-9).outcome, Outcome::Running, "{sketch:?}");
    }
}

#[test]
fn physics_too_much_plane_at_speed_drives_the_bow_under() {
    let strong = Sketch { planes_m: Some([0.9, 0.4]), ..CABIN_BOAT };
    let point = strong.point(38.0, 15.0);
    assert_eq!(point.outcome, Outcome::BowUnder);
    assert!(point.running.is_none() && strong.balance().budget(&point).is_none());
    assert_eq!(strong.point(38.0, 0.0).outcome, Outcome::Running);
}

/// The wetted length of the equations begins at the trailing edge of the planes: what is wet behind the transom is no bottom.
#[test]
fn physics_a_boat_whose_bottom_is_dry_does_not_run() {
    let boat = planewright::read_boat("tests/abuse/dry_bottom_39801.toml".as_ref()).unwrap().boat;
    let mut outcomes = Vec::new();
    for model in LiftModel::ALL {
        let balance = Balance::of(&boat, &Settings { model, ..Settings::default() });
        for half_knots in 12..=96 {
            for half_degrees in 0..=30 {
                let [speed_kn, deflection_deg] =
                    [half_knots, half_degrees].map(|n| 0.5 * f64::from(n));
                let point = boats::point(&balance, speed_kn, deflection_deg);
                if let Some(running) = point.running {
                    assert!(running.wetted_keel.get::<meter>() > 0.0, "{point}");
                    assert!(running.draft.get::<meter>() > 0.0, "{point}");
                }
                outcomes.push(point.outcome);
            }
        }
    }
    for outcome in [Outcome::Running, Outcome::BowUnder] {
        assert!(outcomes.contains(&outcome), "{outcome}");
    }
}

#[test]
fn physics_weight_on_the_transom_leaves_nothing_to_hold_the_bow_down() {
    let stern_heavy = Sketch { lcg_m: 0.9, ..CABIN_BOAT };
    assert_eq!(stern_heavy.point(14.0, 0.0).outcome, Outcome::NoBalanceBowUp);
}

fn refused(balance: &Balance, speed_kn: f64, deflection_deg: f64) -> Fault {
    balance
        .point(Velocity::new::<knot>(speed_kn), Angle::new::<degree>(deflection_deg))
        .expect_err("it must be refused")
}

#[test]
fn error_air_that_drags_more_than_half_the_weight() {
    let house = Sketch { air: Some([25.0, 1.5]), ..SKIFF };
    // ½ · 1.225 · 25 m² · V² reaches half of 650 kg · 9.80665 m/s² at 28.0 kn, by hand.
    assert!(house.balance().point(Velocity::new::<knot>(27.9), Angle::new::<degree>(0.0)).is_ok());
    let fault = refused(&house.balance(), 28.1, 0.0);
    assert_eq!(fault.key, "air.frontal_area");
    assert!(fault.problem.contains("half the weight"), "{fault}");
    assert!(fault.remedy.contains("appendages.drag_area"), "{fault}");
}

#[test]
fn error_speed_or_deflection_outside_the_bounds() {
    let balance = CABIN_BOAT.balance();
    for (speed_kn, deflection_deg, key) in [
        (120.0, 0.0, "run.speed"),
        (-20.0, 0.0, "run.speed"),
        (f64::NAN, 0.0, "run.speed"),
        (20.0, 31.0, "run.deflection"),
        (20.0, -1.0, "run.deflection"),
        (20.0, f64::NAN, "run.deflection"),
    ] {
        assert_eq!(refused(&balance, speed_kn, deflection_deg).key, key);
    }
}

#[test]
fn error_deflection_without_planes_or_in_a_1964_case() {
    let bare = Sketch { planes_m: None, ..CABIN_BOAT };
    assert!(refused(&bare.balance(), 20.0, 5.0).problem.contains("no planes"));
    for method in [Method::General1964, Method::Concurrent1964] {
        let settings = Settings { method, ..Settings::default() };
        let balance = Balance::of(&CABIN_BOAT.boat(), &settings);
        assert!(refused(&balance, 20.0, 5.0).problem.contains("1964"));
        assert!(balance.budget(&boats::point(&balance, 20.0, 0.0)).is_none());
    }
}
