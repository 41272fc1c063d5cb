use super::*;
use crate::balance::Balance;
use crate::input::parse_boat;
use approx::assert_relative_eq;
use proptest::prelude::*;
use uom::si::length::meter;

/// A boat file of usual proportions; with the waterline at rest when wanted.
fn boat(beam_m: f64, deadrise_deg: f64, load: f64, lcg: f64, with_waterline: bool) -> Boat {
    let length_m = 3.0 * beam_m;
    let mass_kg = load * 1026.0 * beam_m.powi(3);
    let waterline = if with_waterline {
        "entrance_half_angle = \"20 deg\"\ntransom_area_ratio = 0.8\n"
    } else {
        ""
    };
    let text = format!(
        "[hull]\nbottom_length = \"{length_m} m\"\nchine_beam = \"{beam_m} m\"\n\
         deadrise = \"{deadrise_deg} deg\"\n{waterline}[weight]\nmass = \"{mass_kg} kg\"\n\
         lcg = \"{} m\"\nvcg = \"{} m\"\n[drive]\ntop_speed = \"{} m/s\"\n",
        lcg * length_m,
        0.33 * beam_m,
        4.0 * (9.80665 * beam_m).sqrt(),
    );
    parse_boat("b.toml", &text).unwrap().boat
}

fn pair(boat: &Boat) -> PlanePair {
    let beam = boat.hull().chine_beam;
    PlanePair { span: beam * 0.27, chord: beam * 0.1 }
}

fn ready(boat: &Boat, way: Way) -> Option<FromRest> {
    let highest = boat.drive().top_speed;
    FromRest::of(boat, &Settings::default(), Some(pair(boat)), way, highest).ok()
}

fn held(degrees: f64) -> Way {
    Way::Held(Angle::new::<degree>(degrees))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn physics_no_jump_from_rest_to_top_speed(
        beam_m in 1.5..4.0_f64,
        deadrise_deg in 10.0..24.0_f64,
        load in 0.15..0.5_f64,
        lcg in 0.33..0.44_f64,
        with_waterline in any::<bool>(),
        way in prop_oneof![Just(Way::Up), Just(held(6.0)), Just(Way::Best)],
    ) {
        let boat = boat(beam_m, deadrise_deg, load, lcg, with_waterline);
        let Some(from_rest) = ready(&boat, way) else { return Ok(()) };
        let weight_n = boat.weight().force().get::<newton>();
        let top_m_s = boat.drive().top_speed.get::<meter_per_second>();
        let joints = [Some(from_rest.joint()), from_rest.regression_start()];
        for joint in joints.into_iter().flatten().map(|v| v.get::<meter_per_second>()) {
            let [below, above] = [1.0 - 1e-9, 1.0 + 1e-9].map(|f| from_rest.resistance_n(joint * f));
            let (Some(below), Some(above)) = (below, above) else { continue };
            prop_assert!((above - below).abs() < 1e-5 * weight_n, "{joint}: {below} {above}");
        }
        // Over all: halving the step halves the largest change.
        let largest = |steps: u32| {
            let at = |step: u32| from_rest.resistance_n(top_m_s * f64::from(step) / f64::from(steps));
            (1..=steps).filter_map(|s| Some((at(s)? - at(s - 1)?).abs())).fold(0.0, f64::max)
        };
        prop_assert!(largest(800) < 0.75 * largest(400), "{} {}", largest(800), largest(400));
    }

    #[test]
    fn physics_the_interpolation_rises_from_nothing_at_rest(
        beam_m in 1.5..4.0_f64,
        deadrise_deg in 10.0..24.0_f64,
        load in 0.15..0.5_f64,
        way in prop_oneof![Just(Way::Up), Just(held(6.0)), Just(Way::Best)],
    ) {
        let boat = boat(beam_m, deadrise_deg, load, 0.38, false);
        let Some(from_rest) = ready(&boat, way) else { return Ok(()) };
        let joint_m_s = from_rest.joint().get::<meter_per_second>();
        let mut last = from_rest.resistance_n(0.0).unwrap();
        prop_assert_eq!(last, 0.0);
        for step in 1..=50 {
            let here = from_rest.resistance_n(joint_m_s * f64::from(step) / 50.0).unwrap();
            prop_assert!(here > last);
            last = here;
        }
    }
}

#[test]
fn physics_from_planing_on_it_is_the_balance() {
    let boat = boat(2.25, 18.0, 0.24, 0.38, true);
    for (way, degrees) in [(Way::Up, 0.0), (held(6.0), 6.0)] {
        let from_rest = ready(&boat, way).unwrap();
        let balance = Balance::of(&boat, &Settings::default()).with_planes(Some(pair(&boat)));
        for share in [1.001, 1.3, 2.0, 2.5] {
            let speed = from_rest.joint() * share;
            let point = balance.point(speed, Angle::new::<degree>(degrees)).unwrap();
            let drag = from_rest.at(speed);
            assert_eq!(drag.basis, Basis::Balance);
            assert_relative_eq!(
                drag.resistance.unwrap().get::<newton>(),
                point.running.unwrap().resistance.get::<newton>(),
                max_relative = 1e-9
            );
        }
    }
}

#[test]
fn physics_planes_up_are_planes_at_nought_and_no_planes_at_all() {
    let boat = boat(2.25, 18.0, 0.24, 0.38, true);
    let highest = boat.drive().top_speed;
    let bare = FromRest::of(&boat, &Settings::default(), None, Way::Up, highest).unwrap();
    for way in [Way::Up, held(0.0)] {
        let with_planes = ready(&boat, way).unwrap();
        for share in [0.1, 0.5, 0.99, 1.0, 1.2, 2.0] {
            let speed = bare.joint() * share;
            assert_relative_eq!(
                bare.at(speed).resistance.unwrap().get::<newton>(),
                with_planes.at(speed).resistance.unwrap().get::<newton>(),
                max_relative = 1e-9
            );
        }
    }
}

#[test]
fn physics_used_best_never_drags_more_than_up_or_held() {
    let boat = boat(2.25, 18.0, 0.24, 0.36, false);
    let [up, held, best] = [Way::Up, held(6.0), Way::Best].map(|way| ready(&boat, way).unwrap());
    for step in 0..=40 {
        let speed = up.joint() * (1.0 + 0.05 * f64::from(step));
        let drag = |from_rest: &FromRest| from_rest.at(speed).resistance.unwrap();
        // Between its own speeds the schedule is a straight line: a part in 2000 is allowed.
        assert!(drag(&best) <= drag(&up) * 1.0005, "{step}");
        let point = best.planing_point(speed).unwrap();
        assert!(point.running.unwrap().trim.get::<degree>() > 1.98);
        if held.planing_point(speed).unwrap().running.unwrap().trim.get::<degree>() > 2.0 {
            assert!(drag(&best) <= drag(&held) * 1.0005, "{step}");
        }
    }
}

#[test]
fn physics_the_regression_is_met_where_it_begins() {
    let boat = boat(2.25, 18.0, 0.24, 0.38, true);
    let from_rest = ready(&boat, Way::Up).unwrap();
    let regression = PrePlaning::of(&boat, &Settings::default()).unwrap();
    let start = from_rest.regression_start().unwrap();
    assert!(start < from_rest.joint());
    assert_relative_eq!(
        from_rest.at(start).resistance.unwrap().get::<newton>(),
        regression.resistance(start).unwrap().get::<newton>(),
        max_relative = 1e-9
    );
    assert_eq!(from_rest.at(start * 1.01).basis, Basis::Regression);
    assert_eq!(from_rest.at(start * 0.99).basis, Basis::Interpolation);
    assert!(boat.hull().chine_beam.get::<meter>() > 0.0);
}
