use super::*;
use approx::assert_relative_eq;
use uom::si::angle::degree;

fn station(numbers: [f64; 4]) -> Station {
    let [forward, keel_height, chine_height, chine_half_beam] = numbers.map(Length::new::<meter>);
    Station { forward, keel_height, chine_height, chine_half_beam }
}

fn stations(rows: &[[f64; 4]]) -> Result<Stations, Vec<StationFault>> {
    Stations::new("bottom.csv", "", rows.iter().copied().map(station).collect())
}

/// Savitsky & Brown (1976), table 2: deadrise 10° at the transom, chine and keel 1.66° apart; printed
/// deadrise at half of 2, 3 and 4 beams: 13.0, 14.5 and 16.0°, which is 3° a beam as for a small
/// angle. The tangent of the section itself lies up to 0.3° above; half a degree is the round number
/// above that.
#[test]
fn published_the_warped_bottom_of_savitsky_and_brown() {
    let (aft, rise) = (0.5 * 10_f64.to_radians().tan(), 1.66_f64.to_radians().tan());
    let row = |beams: f64| [beams, 0.0, aft + rise * beams, 0.5];
    let bottom = stations(&[row(0.0), row(1.3), row(4.0)]).unwrap();
    assert_relative_eq!(bottom.chine_to_keel().get::<degree>(), 1.66, max_relative = 1e-12);
    assert_relative_eq!(bottom.transom_deadrise().get::<degree>(), 10.0, max_relative = 1e-12);
    for (wetted, printed_deg) in [(2.0, 13.0), (3.0, 14.5), (4.0, 16.0)] {
        let half_way = Length::new::<meter>(0.5 * wetted);
        let deadrise_deg = bottom.deadrise_at(half_way).get::<degree>();
        assert!((deadrise_deg - printed_deg).abs() < 0.5, "{wetted}: {deadrise_deg}");
    }
    assert_relative_eq!(bottom.warp_per_beam().get::<degree>(), 3.0, max_relative = 0.06);
}

#[test]
fn physics_a_prism_has_its_beam_and_deadrise_and_no_warp() {
    let height = 1.1 * 18_f64.to_radians().tan();
    // Heights over a line of their own that slopes against the keel.
    let row = |x: f64| [x, 0.3 + 0.02 * x, 0.3 + 0.02 * x + height, 1.1];
    let prism = stations(&[row(0.0), row(1.0), row(2.5), row(6.0)]).unwrap();
    assert_relative_eq!(prism.chine_beam().get::<meter>(), 2.2, max_relative = 1e-12);
    assert_relative_eq!(prism.deadrise().get::<degree>(), 18.0, max_relative = 1e-12);
    assert!(prism.chine_to_keel().get::<degree>().abs() < 1e-12);
    assert_relative_eq!(prism.bottom_length().get::<meter>(), 6.0, max_relative = 1e-12);
    assert_eq!(prism.bent_keel(), None);
}

#[test]
fn physics_the_bottom_ends_where_the_keel_leaves_its_line() {
    let row = |x: f64, keel: f64| [x, keel, keel + 0.3, 1.0];
    let bow = stations(&[row(0.0, 0.0), row(3.0, 0.0), row(4.0, 0.0), row(6.0, 0.4)]).unwrap();
    // A hundredth of 2 m is reached at 20/400 of the last stretch.
    assert_relative_eq!(bow.bottom_length().get::<meter>(), 4.1, max_relative = 1e-12);
    let bent = stations(&[row(0.0, 0.0), row(1.5, -0.05), row(3.0, 0.0), row(6.0, 0.0)]).unwrap();
    let (forward, off) = bent.bent_keel().unwrap();
    assert_relative_eq!(forward.get::<meter>(), 1.5, max_relative = 1e-12);
    assert_relative_eq!(off.get::<meter>(), -0.05, max_relative = 1e-12);
}

#[test]
fn error_each_fault_is_told_with_its_station() {
    let good = [[0.0, 0.0, 0.3, 1.0], [2.0, 0.0, 0.3, 1.0], [5.0, 0.0, 0.3, 0.0]];
    assert!(stations(&good).is_ok());
    let with = |at: usize, row: [f64; 4]| {
        let mut rows = good;
        rows[at] = row;
        stations(&rows).unwrap_err()
    };
    for (at, row, problem) in [
        (0, [0.5, 0.0, 0.3, 1.0], "the first station is 0.5 m forward of the transom"),
        (1, [0.0, 0.0, 0.3, 1.0], "station 0 m does not lie forward of the one before it, 0 m"),
        (1, [2.0, 0.0, 0.3, -1.0], "chine_half_beam is -1 m"),
        (1, [2.0, 0.0, 0.3, 0.0], "chine_half_beam is 0 m"),
        (1, [2.0, 0.4, 0.3, 1.0], "the chine, 0.3 m, lies below the keel, 0.4 m"),
    ] {
        let faults = with(at, row);
        assert_eq!(faults[0].at, Some(at), "{faults:?}");
        assert_eq!(faults[0].problem, problem);
    }
    let few = stations(&good[..2]).unwrap_err();
    assert_eq!(few[0].problem, "the list holds 2 stations, fewer than 3");
    let steep: Vec<[f64; 4]> = good.iter().map(|row| [row[0], 0.0, 1.0 + row[0], 1.0]).collect();
    assert!(stations(&steep).unwrap_err()[0].problem.contains("outside -2 to 10 deg"));
}
