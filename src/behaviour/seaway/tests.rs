use super::*;
use crate::balance::Outcome;
use crate::boat::{BoatInput, HullInput, PlanePair, WeightInput};
use approx::assert_relative_eq;
use uom::si::f64::Mass;
use uom::si::{force::newton, mass::kilogram, velocity::knot, velocity::meter_per_second};

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

fn knots(value: f64) -> Velocity {
    Velocity::new::<knot>(value)
}

fn down_to(trim_deg: f64) -> Angle {
    Angle::new::<degree>(trim_deg)
}

fn boat(mass_kg: f64, planes: bool) -> Boat {
    let hull = HullInput {
        bottom_length: Some(metres(7.2)),
        chine_beam: Some(metres(2.25)),
        deadrise: Some(Angle::new::<degree>(18.0)),
        ..HullInput::default()
    };
    let weight = WeightInput::Totals {
        mass: Mass::new::<kilogram>(mass_kg),
        lcg: Some(metres(2.55)),
        vcg: Some(metres(0.75)),
        tcg: None,
    };
    let mut input = BoatInput::new("invented", hull, weight);
    input.planes = planes.then(|| PlanePair { span: metres(0.6), chord: metres(0.25) });
    Boat::build(input).unwrap()
}

fn trim_deg(point: &Point) -> f64 {
    degrees(point.running.unwrap().trim)
}

#[test]
fn physics_planes_go_down_to_the_trim_asked_and_not_beyond_what_is_safe() {
    let boat = boat(3600.0, true);
    for (wanted_deg, speed_kn) in [(3.0, 22.0), (3.0, 26.0), (2.0, 26.0), (2.5, 24.0)] {
        let sea = Seaway::of(&boat, &Settings::default(), down_to(wanted_deg));
        let stance = sea.stance(knots(speed_kn)).unwrap();
        let down = stance.down.unwrap();
        let most = stance.largest_safe.unwrap().min(boat.sizing().largest_deflection);
        assert!(degrees(down.deflection) > 0.5, "{speed_kn}");
        assert!(down.deflection <= most);
        let reached = (trim_deg(&down) - wanted_deg).abs() < 1e-6;
        assert!(reached || down.deflection == most, "{speed_kn} {}", trim_deg(&down));
        assert!(trim_deg(&down) > 2.0 - 1e-6);
    }
}

/// Hinged 1/4 in up, a chord of 0.25 m reaches the bottom line at atan(6.35/250) = 1.46 deg.
#[test]
fn physics_planes_that_go_down_reach_the_water() {
    let boat = boat(3600.0, true);
    let speed = knots(24.0);
    let at = |trim_deg: f64| {
        let sea = Seaway::of(&boat, &Settings::default(), down_to(trim_deg));
        sea.stance(speed).unwrap().down.unwrap()
    };
    let up_deg = trim_deg(&at(6.9));
    assert_eq!(degrees(at(up_deg + 0.05).deflection), 0.0);
    let [little, enough] = [at(up_deg - 0.05), at(up_deg - 1.0)].map(|p| degrees(p.deflection));
    assert!(little > 1.46 && little < enough, "{little} {enough}");
}

#[test]
fn physics_a_boat_under_the_trim_asked_keeps_her_planes_up() {
    let boat = boat(2400.0, true);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(6.9));
    let stance = sea.stance(knots(30.0)).unwrap();
    assert_eq!(degrees(stance.down.unwrap().deflection), 0.0);
}

#[test]
fn physics_planes_soften_by_the_share_of_trim_they_take_off_in_all_waves() {
    let boat = boat(3600.0, true);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(3.0));
    let stance = sea.stance(knots(22.0)).unwrap();
    let down = stance.down.as_ref().unwrap();
    for height_m in [0.45, 1.0, 1.5] {
        let [up, low] = [&stance.up, down].map(|p| sea.ride(p, metres(height_m)).unwrap());
        let share = (low.centre.value / up.centre.value).value;
        assert!(share < 0.95);
        assert_relative_eq!(share, trim_deg(down) / trim_deg(&stance.up), max_relative = 1e-9);
        assert_relative_eq!(share, (low.bow.value / up.bow.value).value, max_relative = 1e-9);
    }
}

#[test]
fn physics_higher_waves_and_more_speed_are_harder_and_more_weight_is_softer() {
    let boats = [3000.0, 3600.0].map(|mass_kg| boat(mass_kg, false));
    let at = |boat: &Boat, speed_kn: f64, height_m: f64| {
        let sea = Seaway::of(boat, &Settings::default(), down_to(3.0));
        let stance = sea.stance(knots(speed_kn)).unwrap();
        assert_eq!(stance.down, None);
        in_g(sea.ride(&stance.up, metres(height_m)).unwrap().centre.value)
    };
    for speed_kn in [18.0, 22.0, 26.0] {
        assert!(at(&boats[0], speed_kn, 0.5) < at(&boats[0], speed_kn, 1.0));
        assert!(at(&boats[0], speed_kn, 0.5) < at(&boats[0], speed_kn + 4.0, 0.5));
    }
    // At one and the same trim; heavier boats run at more of it, which takes some of it back.
    let sea = |boat| Seaway::of(boat, &Settings::default(), down_to(3.0));
    let point = sea(&boats[0]).stance(knots(22.0)).unwrap().up;
    let [light, heavy] = [&boats[0], &boats[1]]
        .map(|boat| sea(boat).ride(&point, metres(0.8)).unwrap().centre.value);
    assert_relative_eq!((light / heavy).value, 3600.0 / 3000.0, max_relative = 1e-12);
}

#[test]
fn physics_no_ride_where_she_does_not_run() {
    let boat = boat(3000.0, true);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(3.0));
    let stance = sea.stance(knots(4.0)).unwrap();
    assert_eq!(stance.up.outcome, Outcome::BelowPlaningRange);
    assert_eq!((stance.down, stance.largest_safe), (None, None));
    assert_eq!(sea.ride(&stance.up, metres(0.5)), None);
}

#[test]
fn regression_what_was_not_tested_is_flagged_and_named() {
    let boat = boat(3200.0, true);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(3.0));
    let up = sea.stance(knots(22.0)).unwrap().up;
    let heights = usual_wave_heights(&boat);
    assert_relative_eq!(heights[2].get::<meter>(), 0.4 * 2.25, max_relative = 1e-12);
    for height in heights {
        let ride = sea.ride(&up, height).unwrap();
        assert_eq!(ride.departures, []);
        assert!(!ride.flags.contains(Flag::WavesBeyondTested));
    }
    let high = sea.ride(&up, metres(2.0)).unwrap();
    assert!(high.flags.contains(Flag::WavesBeyondTested));
    assert_eq!(high.departures.len(), 1);
}

#[test]
fn physics_the_fastest_speed_meets_its_limit_and_planes_raise_it() {
    let boat = boat(3600.0, true);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(3.0));
    let height = metres(0.8);
    let limit = Limit { most: of_g(0.5), peaks: Peaks::All, place: Place::Centre };
    let fastest = fastest(&sea, height, &limit).unwrap();
    let (Keeps::UpTo(up), Some(Keeps::UpTo(down))) =
        (fastest.up.expected, fastest.down.map(|down| down.expected))
    else {
        panic!("{fastest:?}")
    };
    assert!(down > up * 1.02, "{fastest:?}");
    let [at_up, at_down] = [sea.stance(up).unwrap().up, sea.stance(down).unwrap().down.unwrap()];
    for point in [at_up, at_down] {
        let g = in_g(sea.ride(&point, height).unwrap().centre.value);
        assert_relative_eq!(g, 0.5, max_relative = 1e-6);
    }
    // The highest tenth of the peaks average 1 + ln 10 times the mean: the same speed for so much more.
    let tenth = Limit { most: of_g(0.5 * 3.302_585_093), peaks: Peaks::Tenth, ..limit };
    let Keeps::UpTo(same) = super::fastest(&sea, height, &tenth).unwrap().up.expected else {
        panic!()
    };
    assert_relative_eq!(same.value, up.value, max_relative = 1e-6);
    let bow = Limit { most: of_g(1.2), place: Place::Bow, ..limit };
    let at_bow = super::fastest(&sea, height, &bow).unwrap();
    let Keeps::UpTo(speed) = at_bow.up.expected else { panic!("{at_bow:?}") };
    let ride = sea.ride(&sea.stance(speed).unwrap().up, height).unwrap();
    assert_relative_eq!(in_g(ride.bow.value), 1.2, max_relative = 1e-6);
    assert!(in_g(ride.centre.value) < 1.2);
}

#[test]
fn physics_limits_that_are_kept_throughout_and_nowhere() {
    let boat = boat(3600.0, false);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(3.0));
    let at = |g: f64| {
        let limit = Limit { most: of_g(g), peaks: Peaks::All, place: Place::Centre };
        fastest(&sea, metres(0.8), &limit).unwrap()
    };
    let wide = at(9.0);
    assert_eq!((wide.up.expected, wide.up.surely), (Keeps::Throughout, Keeps::Throughout));
    assert_eq!(wide.down, None);
    assert_eq!(at(0.01).up.expected, Keeps::Nowhere);
    let Keeps::UpTo(speed) = at(0.5).up.expected else { panic!() };
    assert!(speed.get::<meter_per_second>() > 1.0);
}

#[test]
fn physics_a_limit_is_surely_kept_only_at_less_speed() {
    let boat = boat(3600.0, true);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(3.0));
    let (height, most) = (metres(0.5), of_g(0.6));
    let limit = Limit { most, peaks: Peaks::All, place: Place::Centre };
    let up = fastest(&sea, height, &limit).unwrap().up;
    let (Keeps::UpTo(expected), Keeps::UpTo(surely)) = (up.expected, up.surely) else {
        panic!("{up:?}")
    };
    assert!(surely < expected * 0.95, "{up:?}");
    let ride = sea.ride(&sea.stance(surely).unwrap().up, height).unwrap();
    assert_relative_eq!(in_g(ride.centre.high), 0.6, max_relative = 1e-6);
}

#[test]
fn physics_waves_add_resistance_and_the_range_holds_the_value() {
    let boat = boat(3600.0, true);
    let sea = Seaway::of(&boat, &Settings::default(), down_to(3.0));
    let stance = sea.stance(knots(22.0)).unwrap();
    let added = |height_m: f64| {
        let ride = sea.ride(&stance.up, metres(height_m)).unwrap();
        ride.added_resistance.unwrap().map(|force| force.get::<newton>())
    };
    let [low, high] = [added(0.5), added(1.0)];
    assert!(low.value < high.value);
    let weight_n = 3600.0 * STANDARD_GRAVITY_M_S2;
    for added in [low, high] {
        assert!(added.low < added.value && added.value < added.high);
        // Of the order of what tank models had: 1 to 10 % of the weight.
        assert!((0.01..0.10).contains(&(added.value / weight_n)), "{added:?}");
    }
    // Slower than the slowest equation there is none.
    let slow = sea.stance(knots(9.5)).unwrap();
    let ride = sea.ride(&slow.up, metres(0.5)).unwrap();
    assert_eq!(ride.added_resistance, None);
    assert!(ride.flags.contains(Flag::WavesBeyondTested));
}
