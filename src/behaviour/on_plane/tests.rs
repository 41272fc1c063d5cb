use super::*;
use crate::input::parse_boat;
use approx::assert_relative_eq;
use uom::si::{force::newton, length::meter, time::second};

fn boat(more: &str) -> Boat {
    boat_with_top_speed("30 kn", more)
}

fn boat_with_top_speed(top_speed: &str, more: &str) -> Boat {
    let text = format!(
        "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
         [weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n\
         [water]\nkind = \"sea\"\ntemperature = \"15 degC\"\n\
         [planes]\nspan = \"610 mm\"\nchord = \"254 mm\"\n\
         [drive]\nthrust_angle = \"4 deg\"\nthrust_offset = \"0.35 m\"\ntop_speed = \"{top_speed}\"\n{more}"
    );
    parse_boat("b.toml", &text).unwrap().boat
}

fn answer(boat: &Boat) -> OnPlane {
    on_plane(boat, &Settings::default(), boat.planes(), &OnPlaneRequest::default()).unwrap()
}

const USUAL: &str = "power = \"180 kW\"\n";

/// The same run stepped through time by the classical Runge–Kutta method, as an independent computation.
fn stepped_time_s(boat: &Boat, from_rest: &FromRest, to_m_s: f64) -> f64 {
    let thrust = Thrust::of(boat, &Settings::default()).unwrap();
    let mass_kg = moving_mass_kg(boat);
    let gain = |v: f64| (thrust.at_m_s(v) - from_rest.resistance_n(v).unwrap()) / mass_kg;
    let (mut v, mut t, step) = (0.0, 0.0, 0.001);
    loop {
        let k1 = gain(v);
        let k2 = gain(v + 0.5 * step * k1);
        let k3 = gain(v + 0.5 * step * k2);
        let k4 = gain(v + step * k3);
        let next = v + step * (k1 + 2.0 * k2 + 2.0 * k3 + k4) / 6.0;
        if next >= to_m_s {
            return t + step * (to_m_s - v) / (next - v);
        }
        (v, t) = (next, t + step);
    }
}

#[test]
fn physics_time_agrees_with_steps_through_time() {
    let boat = boat(USUAL);
    let answer = answer(&boat);
    let target_m_s = answer.target.get::<meter_per_second>();
    for run in &answer.runs {
        let pair = (run.way != Way::Up).then_some(boat.planes().unwrap());
        let highest = highest_speed(&boat);
        let from_rest = FromRest::of(&boat, &Settings::default(), pair, run.way, highest).unwrap();
        let stepped_s = stepped_time_s(&boat, &from_rest, target_m_s);
        assert_relative_eq!(run.time.unwrap().get::<second>(), stepped_s, max_relative = 1e-3);
    }
}

#[test]
fn physics_work_of_the_net_force_is_the_kinetic_energy() {
    let boat = boat(USUAL);
    let mass_kg = moving_mass_kg(&boat);
    for run in answer(&boat).runs {
        let timed: Vec<_> = run.rows.iter().filter(|row| row.distance.is_some()).collect();
        // Trapezoids over the distance, not over the speed that was integrated.
        let mut work_j = 0.0;
        for pair in timed.windows(2) {
            let net = |row: &RunPoint| (row.thrust - row.resistance.unwrap()).get::<newton>();
            let step = (pair[1].distance.unwrap() - pair[0].distance.unwrap()).get::<meter>();
            work_j += 0.5 * (net(pair[0]) + net(pair[1])) * step;
            let speed_m_s = pair[1].speed.get::<meter_per_second>();
            let kinetic_j = 0.5 * mass_kg * speed_m_s * speed_m_s;
            // Close to the top speed she gains so slowly that a row is a long way.
            let nearly_m_s = 0.9 * run.stops_at.unwrap().get::<meter_per_second>();
            if speed_m_s > 2.0 && speed_m_s < nearly_m_s {
                assert_relative_eq!(work_j, kinetic_j, max_relative = 0.02);
            }
        }
    }
}

#[test]
fn physics_more_power_is_never_slower_and_leaves_more_at_the_hump() {
    let mut last: Option<(f64, f64, f64)> = None;
    for power in ["120 kW", "150 kW", "200 kW", "260 kW"] {
        // With an efficiency that is known; one that is taken from the top speed would eat the power.
        let boat = boat(&format!("power = \"{power}\"\npropulsive_efficiency = \"50 %\"\n"));
        let run = answer(&boat).runs.remove(0);
        let here = (
            run.time.map_or(f64::INFINITY, |time| time.get::<second>()),
            -run.tightest.as_ref().unwrap().margin().value,
            -run.top_speed().map_or(f64::INFINITY, |v| v.get::<meter_per_second>()),
        );
        if let Some(before) = last {
            assert!(here.0 < before.0 && here.1 < before.1 && here.2 < before.2, "{power}");
        }
        last = Some(here);
    }
}

#[test]
fn physics_too_little_power_does_not_pass_the_hump_and_says_so() {
    let boat = boat("power = \"40 kW\"\nbollard_pull = \"3 kN\"\n");
    let run = answer(&boat).runs.remove(0);
    assert!(!run.reaches && run.time.is_none());
    assert_eq!(run.ending, Ending::ThrustSpent);
    assert!(run.stops_at.unwrap() < answer(&boat).target);
    assert!(run.tightest.unwrap().margin().value < 0.0);
    // Time is told up to where she stops, and not beyond.
    let stop = run.stops_at.unwrap();
    for row in &run.rows {
        assert_eq!(row.time.is_some(), row.speed < stop, "{:?}", row.speed);
    }
}

#[test]
fn physics_a_hump_that_cannot_be_passed_hides_a_speed_that_can_be_held() {
    // Weak at low speed, strong at high: the curve lets her hold a speed she cannot reach.
    let boat = boat(
        "power = \"220 kW\"\nbollard_pull = \"4 kN\"\n\
         [[drive.efficiency]]\nspeed = \"10 kn\"\npropulsive_efficiency = \"10 %\"\n\
         [[drive.efficiency]]\nspeed = \"20 kn\"\npropulsive_efficiency = \"12 %\"\n\
         [[drive.efficiency]]\nspeed = \"24 kn\"\npropulsive_efficiency = \"70 %\"\n",
    );
    let run = answer(&boat).runs.remove(0);
    assert!(!run.reaches);
    let held = run.could_hold.expect("a speed beyond the hump");
    assert!(held > run.stops_at.unwrap() * 1.5);
    assert_eq!(run.top_speed(), Some(held));
}

#[test]
fn physics_thrust_is_resistance_at_the_top_speed() {
    let boat = boat(USUAL);
    for run in answer(&boat).runs.iter().filter(|run| run.ending == Ending::ThrustSpent) {
        let top = run.stops_at.unwrap();
        let at = |of: &dyn Fn(&RunPoint) -> Option<f64>| run.at(top, of).unwrap();
        let thrust_n = at(&|row| Some(row.thrust.get::<newton>()));
        let resistance_n = at(&|row| Some(row.resistance?.get::<newton>()));
        // Between two rows both are straight lines here.
        assert_relative_eq!(thrust_n, resistance_n, max_relative = 2e-3);
    }
}

#[test]
fn physics_planes_down_too_far_end_the_run_bow_under() {
    // Pushed hard enough that the thrust is not what stops her.
    let boat = boat(&format!("{USUAL}propulsive_efficiency = \"70 %\"\n"));
    let asked = OnPlaneRequest { to: None, held: Some(Angle::new::<uom::si::angle::degree>(15.0)) };
    let answer = on_plane(&boat, &Settings::default(), boat.planes(), &asked).unwrap();
    let held = &answer.runs[1];
    assert_eq!(held.ending, Ending::NoBalance(Outcome::BowUnder));
    let stop = held.stops_at.unwrap();
    let last = held.rows.iter().rfind(|row| row.resistance.is_some()).unwrap();
    assert!(last.speed < stop && last.trim.unwrap().get::<uom::si::angle::degree>() < 2.0);
}

#[test]
fn physics_the_target_asked_for_is_used_and_estimates_move_the_answer() {
    let boat = boat(USUAL);
    let asked = OnPlaneRequest { to: Some(Velocity::new::<meter_per_second>(12.0)), held: None };
    let answer = on_plane(&boat, &Settings::default(), None, &asked).unwrap();
    assert!(answer.target_is_asked && answer.runs.len() == 1);
    let keys: Vec<_> = answer.effects.iter().map(|effect| effect.estimate.key).collect();
    assert_eq!(keys, ["drive.propulsive_efficiency", "drive.bollard_pull"]);
    for effect in &answer.effects {
        let [low, high] = effect.ends.each_ref().map(|end| end.unwrap().time.unwrap());
        let used = answer.runs[0].time.unwrap();
        assert!(high < used && used < low, "{}", effect.estimate.key);
    }
}

/// Power and top speed fix the thrust at top speed: she then reaches the top speed of her file, and no other.
#[test]
fn physics_the_top_speed_of_the_file_is_reached_with_the_thrust_that_fits_it() {
    let boat = boat(USUAL);
    let run = answer(&boat).runs.remove(0);
    assert_relative_eq!(
        run.top_speed().unwrap().value,
        boat.drive().top_speed.value,
        max_relative = 1e-4
    );
}

/// The range holds the plain time; engines that are at once at full power would take less.
#[test]
fn physics_the_time_is_a_range_around_what_is_computed() {
    let boat = boat(USUAL);
    let answer = answer(&boat);
    for run in &answer.runs {
        let likely = run.likely.unwrap();
        let [least, most] = [likely.least, likely.most.unwrap()];
        let time_s = run.time.unwrap().get::<second>();
        let [quick_s, slow_s] = ENGINE_RUN_UP_S;
        assert!(least.time.get::<second>() < time_s + quick_s);
        assert!(most.time.get::<second>() > time_s + slow_s);
        assert!(least.distance < run.distance.unwrap() && most.distance > run.distance.unwrap());
    }
}

/// Weak at the worst, she may not get there at all, and that is said.
#[test]
fn physics_a_range_is_open_where_the_worst_does_not_get_there() {
    // From where the plain thrust has next to nothing left.
    let found = [60, 70, 80, 90, 100, 110].iter().find_map(|power| {
        let boat = boat(&format!("power = \"{power} kW\"\npropulsive_efficiency = \"45 %\"\n"));
        let run = answer(&boat).runs.remove(0);
        run.likely.filter(|likely| likely.most.is_none())
    });
    assert!(found.expect("a boat with too little to spare").seconds().ends_with(" or more"));
}

/// On the way to planing most of a boat's thrust is used: half to three quarters. Common practice, no source.
#[test]
fn practice_the_hump_takes_more_than_half_of_the_thrust() {
    let run = answer(&boat(USUAL)).runs.remove(0);
    let used = 1.0 - run.tightest.unwrap().margin().value;
    assert!((0.5..0.75).contains(&used), "{used}");
}
