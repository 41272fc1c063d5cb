use super::*;
use approx::assert_relative_eq;

/// The middle of the tests.
const MIDDLE: Groups = Groups {
    displacement_length_ratio: 178.57,
    load_coefficient: 0.4,
    length_beam_ratio: 4.0,
    deadrise_deg: 20.0,
    trim_deg: 4.0,
    wave_height_beam_ratio: 0.4,
    speed_length_ratio: 4.0,
};

#[test]
fn physics_no_peaks_without_trim_or_speed() {
    assert_eq!(centre_acceleration_g(&Groups { trim_deg: 0.0, ..MIDDLE }), 0.0);
    assert_eq!(centre_acceleration_g(&Groups { speed_length_ratio: 0.0, ..MIDDLE }), 0.0);
    let steep = centre_acceleration_g(&Groups { deadrise_deg: 50.0, ..MIDDLE });
    assert!(steep.abs() < 1e-12 && centre_acceleration_g(&MIDDLE) > 0.3);
    let even = Groups { length_beam_ratio: 2.25, ..MIDDLE };
    assert_eq!(bow_over_centre(&even), 1.0);
}

#[test]
fn physics_each_quantity_moves_the_peaks_the_way_it_should() {
    for quantity in Quantity::ALL {
        let [low, high] = quantity.tested();
        let mut last: Option<(f64, f64)> = None;
        for step in 0..=20 {
            let value = low + (high - low) * f64::from(step) / 20.0;
            let mut groups = MIDDLE;
            match quantity {
                // At one length and beam they go together; 178.57 is 0.4 of 28 571/4^3.
                Quantity::DisplacementOverLength => {
                    groups.displacement_length_ratio = value;
                    groups.load_coefficient = 0.4 * value / 178.57;
                }
                Quantity::LengthOverBeam => groups.length_beam_ratio = value,
                Quantity::Deadrise => groups.deadrise_deg = value,
                Quantity::Trim => groups.trim_deg = value,
                Quantity::WaveHeightOverBeam => groups.wave_height_beam_ratio = value,
                Quantity::SpeedOverRootLength => groups.speed_length_ratio = value,
            }
            assert!(groups.departures().is_empty());
            let centre = centre_acceleration_g(&groups);
            let bow = centre * bow_over_centre(&groups);
            assert!(bow > centre);
            if let Some(last) = last {
                // Heavier and deeper boats ride softer; all else is harder.
                let falls =
                    matches!(quantity, Quantity::DisplacementOverLength | Quantity::Deadrise);
                assert_eq!(centre < last.0, falls, "{quantity:?} {value}");
                assert_eq!(bow < last.1, falls, "{quantity:?} {value}");
            }
            last = Some((centre, bow));
        }
    }
}

#[test]
fn physics_the_length_of_the_boat_does_not_move_her_centre_of_gravity() {
    let at = |length_m: f64| {
        let length = Length::new::<meter>(length_m);
        let speed = Velocity::new::<meter_per_second>(11.0);
        centre_acceleration_g(&Groups {
            length_beam_ratio: length_m / 2.25,
            speed_length_ratio: speed_length_ratio(speed, length),
            ..MIDDLE
        })
    };
    assert_relative_eq!(at(6.0), at(9.0), max_relative = 1e-12);
}

#[test]
fn physics_knots_and_feet() {
    let speed = Velocity::new::<uom::si::velocity::knot>(20.0);
    let length = Length::new::<uom::si::length::foot>(25.0);
    assert_relative_eq!(speed_length_ratio(speed, length), 4.0, max_relative = 1e-6);
}

/// Savitsky & Brown (1976), worked example: 186 000 lb on 80 ft are 162 by the definition of the ratio,
/// 83.04 long tons over 0.512.
#[test]
fn published_displacement_length_ratio() {
    let mass = Mass::new::<uom::si::mass::pound>(186_000.0);
    let length = Length::new::<uom::si::length::foot>(80.0);
    assert_relative_eq!(displacement_length_ratio(mass, length), 162.2, max_relative = 1e-3);
}

/// A million peaks at even quantiles of the exponential distribution, averaged.
#[test]
fn physics_the_highest_third_and_tenth_of_exponential_peaks() {
    let count = 1_000_000;
    let peak = |place: i32| -(1.0 - (f64::from(place) + 0.5) / f64::from(count)).ln();
    for n in [1, 3, 10] {
        let from = count - count / n;
        let mean = (from..count).map(peak).sum::<f64>() / f64::from(count - from);
        assert_relative_eq!(mean, highest_over_mean(f64::from(n)), max_relative = 1e-4);
    }
}

#[test]
fn regression_a_quantity_outside_the_tests_is_named_with_its_range() {
    let groups = Groups { trim_deg: 2.5, wave_height_beam_ratio: 0.9, ..MIDDLE };
    assert_eq!(
        groups.departures(),
        [
            Departure { quantity: Quantity::Trim, value: 2.5, tested: [3.0, 7.0] },
            Departure { quantity: Quantity::WaveHeightOverBeam, value: 0.9, tested: [0.2, 0.7] },
        ]
    );
    let broken = Groups { trim_deg: f64::NAN, ..MIDDLE };
    assert_eq!(broken.departures().len(), 1, "no number is no tested number");
}

#[test]
fn physics_added_resistance_has_no_jump_between_its_equations() {
    let at = |speed_length_ratio| {
        added_resistance_over_weight(&Groups { speed_length_ratio, ..MIDDLE }).unwrap()
    };
    assert_relative_eq!(at(4.0 - 1e-9), at(4.0 + 1e-9), max_relative = 1e-6);
    // A straight line between: the middle is the mean of the ends.
    for [low, high] in [[2.0, 4.0], [4.0, 6.0]] {
        let mean = 0.5 * (at(low) + at(high));
        assert_relative_eq!(at(0.5 * (low + high)), mean, max_relative = 1e-12);
    }
    assert_relative_eq!(at(2.0), at(2.0 - 1e-10), max_relative = 1e-8);
}

#[test]
fn physics_higher_waves_add_more_and_less_than_in_proportion() {
    for speed_length_ratio in [2.0, 3.0, 4.0, 5.0, 6.0] {
        let mut last: Option<(f64, f64)> = None;
        for step in 0..=10 {
            let wave_height_beam_ratio = 0.2 + 0.05 * f64::from(step);
            let groups = Groups { wave_height_beam_ratio, speed_length_ratio, ..MIDDLE };
            let share = added_resistance_over_weight(&groups).unwrap();
            if let Some((waves, less)) = last {
                assert!(share > less && share / less < wave_height_beam_ratio / waves);
            }
            last = Some((wave_height_beam_ratio, share));
        }
    }
}

#[test]
fn regression_no_added_resistance_where_no_equation_stands() {
    let none = |groups: Groups| added_resistance_over_weight(&groups).is_none();
    assert!(none(Groups { speed_length_ratio: 1.9, ..MIDDLE }));
    assert!(none(Groups { speed_length_ratio: 6.1, ..MIDDLE }));
    assert!(none(Groups { speed_length_ratio: f64::NAN, ..MIDDLE }));
    // Wide, heavy and shallow: the bracket of equation 24 falls to 1.2 - 21 x 0.56 x 1.6 + 15 = -2.6.
    let heavy = Groups { load_coefficient: 0.56, deadrise_deg: 10.0, ..MIDDLE };
    assert!(none(Groups { speed_length_ratio: 4.1, ..heavy }));
    assert!(!none(Groups { speed_length_ratio: 4.0, ..heavy }));
    // Little trim and low waves on a short, heavy boat: equation 22 ends below nothing.
    let short = Groups { length_beam_ratio: 3.0, trim_deg: 2.0, ..MIDDLE };
    assert!(none(Groups { speed_length_ratio: 2.0, wave_height_beam_ratio: 0.2, ..short }));
}

#[test]
fn physics_no_peak_is_surer_than_a_quarter() {
    for step in 0..=60 {
        let ratio = 1.0 + 0.1 * f64::from(step);
        for [low, high] in [range::centre(ratio), range::bow(ratio)] {
            assert!(low < 1.0 && high > 1.0, "{ratio}");
            assert!((high / low).sqrt() >= 1.25, "{ratio}: {low} to {high}");
        }
        let [low, high] = range::added_resistance(ratio);
        assert_relative_eq!(low * high, 1.0, max_relative = 1e-12);
    }
    // 1.22^1.645 = 1.387, by hand; 1/0.78 = 1.282.
    let [low, high] = range::centre(2.0);
    assert_relative_eq!(low, 1.282 / 1.387, max_relative = 1e-3);
    assert_relative_eq!(high, 1.282 * 1.387, max_relative = 1e-3);
    assert_eq!(range::bow(1.0), range::bow(2.0));
    assert_eq!(range::bow(7.0), range::bow(6.0));
}
