use super::super::series_scale::{STANDARD_VISCOSITY_M2_S, STANDARD_VOLUME_M3};
use super::*;
use approx::{assert_abs_diff_eq, assert_relative_eq};
use proptest::prelude::*;

/// The middle of the models: every X but X0 is nought.
const MIDDLE: Form = Form {
    area_over_volume: 6.875,
    length_over_beam: 4.545,
    lcg_percent: 37.4,
    deadrise_deg: 25.2,
};

fn forms() -> impl Strategy<Value = Form> {
    (4.25..9.5, 2.36..6.73, 30.0..44.8, 13.0..37.4).prop_map(
        |(area_over_volume, length_over_beam, lcg_percent, deadrise_deg)| Form {
            area_over_volume,
            length_over_beam,
            lcg_percent,
            deadrise_deg,
        },
    )
}

/// Radojčić (1991), as printed in Molland, Turnock & Hudson (2011), tables A3.19 to A3.22: where
/// all X are nought the value is the printed constant, to its last digit.
#[test]
fn published_in_the_middle_the_value_is_the_printed_constant() {
    for (froude, resistance, trim_deg, area, length) in [
        (1.0, 0.061_666, 1.333_36, 7.359_729, 0.774_18),
        (1.75, 0.109_973, 3.463_689, 7.150_98, 0.736_158),
        (2.5, 0.133_448, 4.339_123, 5.952_92, 0.612_134),
        (3.5, 0.1271, 4.024_73, 5.362_447, 0.535_208),
    ] {
        let at = |quantity| at(quantity, &MIDDLE, froude).unwrap();
        assert_abs_diff_eq!(at(Quantity::ResistanceOverWeight), resistance, epsilon = 1e-9);
        assert_abs_diff_eq!(at(Quantity::TrimDeg), trim_deg, epsilon = 1e-9);
        assert_abs_diff_eq!(at(Quantity::WettedArea), area, epsilon = 1e-9);
        assert_abs_diff_eq!(at(Quantity::WettedLength), length, epsilon = 1e-9);
    }
}

/// The same tables, summed by hand at a corner of the range, X1 = X3 = 1, X2 = X4 = −1, F∇ 2.0.
///
/// ```text
/// R/Δ: 0.123424 − 0.030400 + 0.009970 − 0.042120 + 0.011089 + 0.021142 + 0.014986 + 0.004506
/// − 0.012130 − 0.010251 + 0.009280 + 0.011154 = 0.110650.
/// Trim: 3.933821 − 2.758800 + 1.842380 − 2.671570 + 0.428070 + 1.135659 − 0.606753 + 1.485322
/// + 0.820895 + 0.619359 + 0.773467 − 0.315896 = 4.685954.
/// Lw/Lp: 0.701285 − 0.051330 − 0.117522 + 0.116865 + 0.050340 + 0.112840 − 0.054040 + 0.066820
/// = 0.825258.
/// ```
#[test]
fn published_a_corner_summed_by_hand() {
    let corner = Form {
        area_over_volume: 9.5,
        length_over_beam: 6.73,
        lcg_percent: 30.0,
        deadrise_deg: 13.0,
    };
    let at = |quantity| at(quantity, &corner, 2.0).unwrap();
    assert_abs_diff_eq!(at(Quantity::ResistanceOverWeight), 0.110_650, epsilon = 1e-6);
    assert_abs_diff_eq!(at(Quantity::TrimDeg), 4.685_954, epsilon = 1e-6);
    assert_abs_diff_eq!(at(Quantity::WettedLength), 0.825_258, epsilon = 1e-6);
}

#[test]
fn regression_every_coefficient_is_read_and_the_doubtful_ones_are_not() {
    for quantity in Quantity::ALL {
        let read = read(quantity);
        let speeds = if quantity == Quantity::WettedArea { 6 } else { 7 };
        assert_eq!(read.len(), speeds, "{quantity:?}");
        assert!(
            read.iter().all(|(froude, row)| *froude != 3.0 && row.iter().all(|c| c.is_finite()))
        );
        // Every quantity has as many terms at work as its printed table has rows that are not nought.
        assert!(read.iter().any(|(_, row)| row.iter().filter(|c| **c != 0.0).count() >= 7));
    }
}

#[test]
fn physics_no_answer_off_the_speeds_and_every_input_outside_is_named() {
    for froude in [0.999, 3.501, f64::NAN] {
        assert_eq!(at(Quantity::TrimDeg, &MIDDLE, froude), None);
    }
    assert!(MIDDLE.outside(1.0).is_empty() && MIDDLE.outside(3.5).is_empty());
    let stern_heavy = Form { lcg_percent: 28.04, deadrise_deg: 40.0, ..MIDDLE };
    let said: Vec<String> = stern_heavy.outside(3.6).iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "volume Froude number is 3.60, the models had 1 to 3.5",
            "LCG in % of bottom length is 28.04, the models had 30 to 44.8",
            "deadrise in deg is 40.00, the models had 13 to 37.4",
        ]
    );
}

#[test]
fn physics_at_100_000_lb_nothing_is_corrected_and_a_smaller_boat_has_more_friction() {
    let scale = |displaced_volume_m3| Scale {
        displaced_volume_m3,
        kinematic_viscosity_m2_s: STANDARD_VISCOSITY_M2_S,
        correlation_allowance: 0.0,
    };
    for froude in [1.0, 1.6, 2.2, 3.5] {
        let standard = at(Quantity::ResistanceOverWeight, &MIDDLE, froude).unwrap();
        let of = |volume_m3| resistance_ratio(&MIDDLE, &scale(volume_m3), froude).unwrap();
        assert_relative_eq!(of(STANDARD_VOLUME_M3), standard, max_relative = 1e-12);
        assert!(of(2.0) > of(10.0) && of(10.0) > standard);
    }
}

/// The friction exchanged, by hand: at F∇ 2.5 in the middle, 4.42 m³ (a tenth of the standard volume).
///
/// L_p/∇^⅓ = √(6.875 × 4.545) = 5.590; L_w = 0.612 L_p. Standard: ∇^⅓ 3.536 m, V 14.72 m/s, L_w
/// 12.10 m, Re 1.496e8. A tenth of it: V 10.03 m/s, L_w 5.616 m, Re 4.73e7. Schoenherr's line, as
/// ATTC (1947) tabulates it from 1e7 to 1e9, gives about 1.96e-3 and 2.31e-3; with ΔCf 0.0004 the
/// change is ½ × 7.5e-4 × 5.953 × 6.25 = 0.0140. Good to a tenth: the line is read from memory.
#[test]
fn physics_the_friction_exchanged_by_hand() {
    let scale = Scale {
        displaced_volume_m3: 4.42,
        kinematic_viscosity_m2_s: 1.19e-6,
        correlation_allowance: 0.0004,
    };
    let ratio = resistance_ratio(&MIDDLE, &scale, 2.5).unwrap();
    assert_relative_eq!(ratio - 0.133_448, 0.0140, max_relative = 0.1);
}

proptest! {
    #[test]
    fn physics_values_have_no_jump_and_keep_between_their_neighbours(
        form in forms(), froude in 1.0..3.499_f64
    ) {
        for quantity in Quantity::ALL {
            let value = at(quantity, &form, froude).unwrap();
            let near = at(quantity, &form, froude + 1e-7).unwrap();
            prop_assert!((near - value).abs() < 1e-4 * (1.0 + value.abs()));
            let used: Vec<f64> = VOLUME_FROUDE_NUMBERS
                .into_iter()
                .filter(|&froude| quantity.is_given_back(froude))
                .collect();
            let above = used.iter().position(|&f| f > froude).unwrap();
            let ends = [used[above - 1], used[above]].map(|f| at(quantity, &form, f).unwrap());
            let (low, high) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
            prop_assert!(value >= low - 1e-12 && value <= high + 1e-12);
        }
    }
}
