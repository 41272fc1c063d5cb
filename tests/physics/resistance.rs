//! What the resistance is made of.

use approx::assert_relative_eq;
use planewright::balance::{Balance, Running, Settings};
use uom::si::{angle::radian, force::newton, power::watt, velocity::meter_per_second};

use crate::boats::{self, ALL, Sketch, running};

const POINTS: [[f64; 2]; 5] = [[13.0, 0.0], [15.0, 4.0], [18.0, 2.0], [24.0, 1.0], [30.0, 0.0]];

fn balance(sketch: &Sketch, hump_factor: bool) -> Balance {
    let settings = Settings { hump_factor, whisker_spray: true, ..Settings::default() };
    Balance::of(&sketch.boat(), &settings)
}

fn sum_of_parts_n(running: &Running) -> f64 {
    let parts = running.parts;
    [
        parts.pressure,
        parts.friction,
        parts.spray,
        parts.planes,
        parts.air,
        parts.appendages,
        parts.hump,
    ]
    .map(|part| {
        assert!(part.get::<newton>() >= 0.0, "{parts:?}");
        part.get::<newton>()
    })
    .iter()
    .sum()
}

#[test]
fn physics_parts_sum_to_the_resistance_and_resistance_times_speed_is_the_power() {
    for sketch in ALL {
        for hump_factor in [false, true] {
            let balance = balance(&sketch, hump_factor);
            for [speed_kn, deflection_deg] in POINTS {
                let point = boats::point(&balance, speed_kn, deflection_deg);
                let running = running(&point);
                let resistance_n = running.resistance.get::<newton>();
                assert_relative_eq!(sum_of_parts_n(&running), resistance_n, max_relative = 1e-13);
                assert_eq!(running.parts.planes, running.plane_drag);
                assert_relative_eq!(
                    running.effective_power.get::<watt>(),
                    resistance_n * point.speed.get::<meter_per_second>(),
                    max_relative = 1e-13
                );
            }
        }
    }
}

/// The thrust of the balance pulls along the course what the boat drags without the hump factor.
#[test]
fn physics_thrust_along_the_course_is_the_resistance_without_the_hump_factor() {
    for sketch in ALL {
        for hump_factor in [false, true] {
            let balance = balance(&sketch, hump_factor);
            for [speed_kn, deflection_deg] in POINTS {
                let running = running(&boats::point(&balance, speed_kn, deflection_deg));
                let angle_rad = running.trim.get::<radian>() + sketch.thrust_angle_deg.to_radians();
                let along_course_n = running.thrust.get::<newton>() * angle_rad.cos();
                let unfactored_n = (running.resistance - running.parts.hump).get::<newton>();
                assert_relative_eq!(along_course_n, unfactored_n, max_relative = 1e-9);
            }
        }
    }
}

/// The hump factor is outside the balance: it adds to the resistance of the bare hull near the hump, and changes nothing else.
#[test]
fn physics_the_hump_factor_raises_the_resistance_and_nothing_else() {
    for sketch in ALL {
        let [off, on] = [false, true].map(|hump_factor| balance(&sketch, hump_factor));
        let share = |speed_kn: f64| {
            let [off, on] =
                [&off, &on].map(|balance| running(&boats::point(balance, speed_kn, 1.0)));
            assert_eq!(off.parts.hump.get::<newton>(), 0.0);
            assert_eq!((off.trim, off.thrust), (on.trim, on.thrust));
            assert_eq!(off.parts.pressure, on.parts.pressure);
            assert_relative_eq!(
                (on.resistance - off.resistance).get::<newton>(),
                on.parts.hump.get::<newton>(),
                epsilon = 1e-9 * on.resistance.get::<newton>()
            );
            on.parts.hump / off.resistance
        };
        // A third of the published factor, which the tanks need.
        assert!(share(14.0).value > 0.006, "{sketch:?}");
        assert!(share(34.0).value < 0.01, "{sketch:?}");
    }
}
