use super::*;
use crate::boat::Toleranced;
use crate::doubt::test_boat::with_planes as boat;
use approx::assert_relative_eq;

fn request(draws: u32, deflection_deg: f64) -> Request {
    Request { draws, seed: 11, deflection: Angle::new::<degree>(deflection_deg) }
}

fn doubt_of(inputs: Inputs, boat: &Boat, request: &Request) -> RunningDoubt {
    running_with(boat, &Settings::default(), request, inputs, &|_| ()).unwrap()
}

fn median_deg(row: &SpeedDoubt) -> f64 {
    row.trim.unwrap().median.get::<degree>()
}

fn width_deg(row: &SpeedDoubt) -> f64 {
    let trim = row.trim.unwrap();
    (trim.high - trim.low).get::<degree>()
}

#[test]
fn physics_the_same_seed_gives_the_same_bytes_on_one_thread_or_many() {
    let boat = boat("");
    let run = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let doubt = pool
            .install(|| running(&boat, &Settings::default(), &request(700, 5.0), &|_| ()).unwrap());
        format!("{doubt:?}")
    };
    let one = run(1);
    assert_eq!(one, run(1));
    assert_eq!(one, run(3));
    let other = Request { seed: 12, ..request(700, 5.0) };
    let other = running(&boat, &Settings::default(), &other, &|_| ()).unwrap();
    assert_ne!(one, format!("{other:?}"));
}

/// Nothing spread: every draw is the boat described, to the precision of a draw.
#[test]
fn physics_without_any_spread_all_draws_are_the_boat_described() {
    let boat = boat("");
    let doubt = doubt_of(Inputs::of(&boat).without(|_| true), &boat, &request(20, 6.0));
    for row in &doubt.speeds {
        assert_relative_eq!(row.running_share, 1.0);
        assert!(width_deg(row) < 1e-12);
        let nominal = row.nominal_trim.unwrap().get::<degree>();
        assert!((median_deg(row) - nominal).abs() < 0.015, "{row:?}");
    }
    assert!(doubt.hump_trim.unwrap().of.is_empty());
}

/// The trims of coarse searches against those of fine ones, over the boats that are drawn.
#[test]
fn physics_the_coarse_search_errs_by_far_less_than_the_boats_spread() {
    let boat = boat("");
    let inputs = Inputs::of(&boat);
    let draws = Draws::new(&inputs, 4);
    let settings = Settings::default();
    let (size, deflection_deg) = (boat.planes().unwrap().into(), 5.0);
    let planes = Some((size, deflection_deg));
    let (speeds_m_s, _) = speeds_m_s(&boat, Hump::of(&boat, &settings).as_ref());
    let sweep = Sweep { speeds_m_s, boat: boat.particulars(), settings, planes };
    let (mut worst, mut squares, mut count) = (0.0_f64, 0.0, 0.0);
    for number in 0..200 {
        let prism = draws.draw(number).prism(&boat.particulars(), &settings);
        let mut row = vec![f64::NAN; KEPT * SPEEDS];
        sweep.one(&prism, &mut row);
        for (kept, &speed_m_s) in row.chunks(KEPT).zip(&sweep.speeds_m_s) {
            let condition = prism.at(speed_m_s).with_planes(size, deflection_deg);
            let Root::Found { forces, .. } = Search::new(&condition).root(None) else {
                assert!(kept[0].is_nan());
                continue;
            };
            let fine_n: f64 = condition.resistance_parts_n(&forces).iter().sum();
            let off_deg = (kept[0] - forces.trim_deg).abs();
            worst = worst.max(off_deg);
            squares += off_deg * off_deg;
            count += 1.0;
            assert!((kept[1] / fine_n - 1.0).abs() < 2e-3);
        }
    }
    assert!(count > 5000.0);
    let rms: f64 = f64::sqrt(squares / count);
    assert!(worst < 0.015 && rms < 0.004, "{worst} {rms}");
}

/// With one small spread the trim is a straight line in it, so that its median and its range
/// follow from the slope: a half-width of 1 mm of LCG is worth 1 mm times the slope. It is three
/// times what a coarse search may err at the most.
#[test]
fn physics_one_small_spread_gives_the_range_of_a_straight_line() {
    let boat = boat("[[tolerance]]\nof = \"weight.lcg\"\nby = \"0.06 m\"\n");
    let only_lcg = Inputs::of(&boat).without(|what| what != What::Value(Toleranced::Lcg));
    let doubt = doubt_of(only_lcg, &boat, &request(4000, 0.0));
    let index = 12;
    let trim_deg = |lcg_m: f64| {
        let mut particulars = boat.particulars();
        particulars.weight.lcg = uom::si::f64::Length::new::<uom::si::length::meter>(lcg_m);
        let prism = Prism::of(&particulars, &Settings::default());
        let condition = prism.at(doubt.speeds[index].speed.get::<meter_per_second>());
        match Search::new(&condition).root(None) {
            Root::Found { forces, .. } => forces.trim_deg,
            _ => panic!("she runs"),
        }
    };
    let width = trim_deg(2.39) - trim_deg(2.51);
    let row = &doubt.speeds[index];
    assert_relative_eq!(width_deg(row), width, max_relative = 0.04);
    assert_relative_eq!(median_deg(row), trim_deg(2.45), epsilon = 0.01);
    let influences = &doubt.hump_trim.unwrap().of;
    assert!(influences[0].rank_correlation < -0.999, "weight forward lowers the bow");
}

#[test]
fn physics_more_spread_is_a_wider_range() {
    let at = |by: &str| {
        let boat = boat(&format!("[[tolerance]]\nof = \"weight.lcg\"\nby = \"{by}\"\n"));
        doubt_of(Inputs::of(&boat), &boat, &request(1500, 0.0))
    };
    let [narrow, middle, wide] = ["0.02 m", "0.15 m", "0.3 m"].map(at);
    for index in [3, 10, 20] {
        let widths = [&narrow, &middle, &wide].map(|doubt| width_deg(&doubt.speeds[index]));
        assert!(widths[0] < widths[1] && widths[1] < widths[2], "{widths:?}");
    }
    let first = |doubt: &RunningDoubt| doubt.hump_trim.clone().unwrap().of[0].what;
    assert_eq!(first(&wide), What::Value(Toleranced::Lcg));
}

/// The correlation of a sum with one of its parts is the share of its spread: what the planes alone
/// spread the trim by, over what everything together does.
#[test]
fn physics_planes_matter_only_when_they_are_down() {
    let boat = boat("");
    let effectiveness = What::Value(Toleranced::PlaneEffectiveness);
    let of_planes = |inputs: Inputs, deflection_deg: f64| {
        let doubt = doubt_of(inputs, &boat, &request(2000, deflection_deg));
        let influences = doubt.hump_trim.unwrap();
        let row = doubt.speeds.iter().find(|row| row.speed == influences.speed).unwrap();
        let planes = influences.of.into_iter().find(|i| i.what == effectiveness);
        (planes.map(|planes| planes.rank_correlation), width_deg(row))
    };
    assert_eq!(of_planes(Inputs::of(&boat), 0.0).0, None);
    let (alone, narrow_deg) =
        of_planes(Inputs::of(&boat).without(|what| what != effectiveness), 10.0);
    assert!(alone.unwrap() < -0.999, "{alone:?}");
    let (among_all, wide_deg) = of_planes(Inputs::of(&boat), 10.0);
    let share = narrow_deg / wide_deg;
    assert!(share > 0.1, "{narrow_deg} {wide_deg}");
    // A rank correlation of 2000 draws is good to 0.022, one standard deviation.
    assert!((among_all.unwrap() + share).abs() < 0.066, "{among_all:?} {share}");
}

/// The draws are told at the hump of the boat as described, the one that every answer names.
#[test]
fn physics_one_of_the_speeds_is_the_hump() {
    let boat = boat("");
    let doubt = doubt_of(Inputs::of(&boat), &boat, &request(50, 0.0));
    let hump = Hump::of(&boat, &Settings::default()).unwrap();
    let at = doubt.hump_trim.unwrap().speed;
    assert_eq!(at, hump.speed);
    let row = doubt.speeds.iter().find(|row| row.speed == at).unwrap();
    assert_relative_eq!(
        row.nominal_trim.unwrap().value,
        hump.trim.unwrap().value,
        max_relative = 1e-9
    );
    assert!(doubt.speeds.windows(2).all(|pair| pair[0].speed < pair[1].speed));
}
