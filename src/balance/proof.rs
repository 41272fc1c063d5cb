//! Proofs of the balance over boats from the whole bounds table: derived here, by dense scans of the equations.

mod draw;
mod scan;

use uom::si::f64::Angle;
use uom::si::force::newton;

use super::forces::Condition;
use super::*;
use crate::flag::Flag;
use draw::{ANYWHERE, Draw, Random, Ranges, USUAL};
use scan::Scan;

/// Values crowd at the edges of the box in which the moment has one root.
const ONE_ROOT: Ranges = Ranges {
    load_coefficient: (0.1, 3.0),
    deadrise_deg: (0.0, 28.0),
    length: (1.2, 15.0),
    least_lcg: 0.85,
    vcg: (0.0, 0.6),
    thrust_angle_deg: (-14.0, 14.0),
    thrust_offset: (-0.4, 0.6),
    speed_coefficient: (1.0, 7.0),
    edgy: true,
    ..ANYWHERE
};

/// The same and somewhat beyond it, so that a box made wider shows.
const AROUND_ONE_ROOT: Ranges = Ranges {
    deadrise_deg: (0.0, 30.0),
    least_lcg: 0.5,
    thrust_angle_deg: (-15.0, 16.0),
    thrust_offset: (-0.5, 0.7),
    ..ONE_ROOT
};

/// Warped bottoms at the edges of that box, and somewhat beyond in their warp.
const WARPED: Ranges = Ranges { chine_to_keel_deg: (0.0, 3.5), ..ONE_ROOT };

/// Small fast deep-V boats whose thrust pulls the stern down.
const PUSHED_DOWN: Ranges =
    Ranges { thrust_angle_deg: (-15.0, -8.0), speed_coefficient: (8.0, 14.0), ..ANYWHERE };

/// Trims that no result depends on.
const STARTS_DEG: [f64; 4] = [1.0, 2.5, 7.0, 15.0];

/// The same ranges with the bottom's lift by a model.
const fn by(model: LiftModel, ranges: Ranges) -> Ranges {
    Ranges { model, ..ranges }
}

/// Asks a drawn boat and holds every promise of the answer against it; the point, when there is one.
fn examine(draw: &Draw, scan_trims: u32) -> Option<Point> {
    let point = match draw.balance.point(draw.speed, draw.deflection) {
        Ok(point) => point,
        Err(fault) => {
            assert_eq!(fault.key, "air.frontal_area", "{fault}: {draw:?}");
            assert!(draw.extra_drag_share() > 0.5, "{fault}: {draw:?}");
            return None;
        }
    };
    assert!(draw.extra_drag_share() <= 0.5, "{draw:?}");
    let condition = draw.balance.condition(draw.speed, draw.deflection).unwrap();
    assert_eq!(
        point.outcome == Outcome::BelowPlaningRange,
        condition.speed_coefficient < 1.0,
        "{draw:?}"
    );
    if point.outcome == Outcome::BelowPlaningRange {
        return Some(point);
    }
    match &point.running {
        Some(running) => is_in_balance(draw, &point, running),
        None => assert!(
            matches!(point.outcome, Outcome::BowUnder | Outcome::NoBalanceBowUp),
            "{draw:?}"
        ),
    }
    is_the_same_from_any_start(draw, &condition, &point);
    agrees_with_scan(draw, &condition, &point, scan_trims);
    Some(point)
}

/// Trim within 1° to 15°, every number finite, the budget summing to zero.
fn is_in_balance(draw: &Draw, point: &Point, running: &Running) {
    assert_eq!(point.outcome, Outcome::Running, "{draw:?}");
    let trim_deg = running.trim.get::<degree>();
    assert!((1.0..=15.0 + 1e-12).contains(&trim_deg), "{trim_deg}: {draw:?}");
    let text = format!("{running:?}");
    assert!(!text.contains("NaN") && !text.contains("inf"), "{text}: {draw:?}");
    assert!(running.resistance.get::<newton>() > 0.0, "{text}: {draw:?}");
    let budget = draw.balance.budget(point);
    assert_eq!(budget.is_some(), draw.settings.method.is_full_balance());
    if let Some(budget) = &budget {
        let residual = budget.residual(draw.boat.weight().force(), draw.boat.hull().chine_beam);
        assert!(residual.largest() < 1e-9, "{residual:?}: {draw:?}");
    }
}

/// Starts agree to 1e-7° and in the outcome; a survey takes no start, so one is enough for it.
fn is_the_same_from_any_start(draw: &Draw, condition: &Condition<'_>, point: &Point) {
    let starts = if condition.has_one_root() { &STARTS_DEG[..] } else { &STARTS_DEG[2..3] };
    for &start_deg in starts {
        let start = Some(Angle::new::<degree>(start_deg));
        let other = draw.balance.point_from(draw.speed, draw.deflection, start).unwrap();
        assert_eq!(other.outcome, point.outcome, "from {start_deg}: {draw:?}");
        if let (Some(one), Some(other)) = (&point.running, &other.running) {
            let difference_deg = (one.trim - other.trim).get::<degree>().abs();
            assert!(difference_deg < 1e-7, "{difference_deg} from {start_deg}: {draw:?}");
        }
    }
}

/// A running point is a crossing of the moment, the first rising one if there is any; another outcome has no crossing.
fn agrees_with_scan(draw: &Draw, condition: &Condition<'_>, point: &Point, trims: u32) {
    if condition.hull_load_n() <= 0.0 {
        assert_eq!(point.outcome, Outcome::BowUnder, "{draw:?}");
        return;
    }
    let scan = Scan::of(condition, trims);
    let (rising, falling) = (scan.first_crossing(true), scan.first_crossing(false));
    let Some(running) = &point.running else {
        assert!(rising.is_none() && falling.is_none(), "{scan:?}: {draw:?}");
        let bow_up_at_last = scan.moments.last().unwrap().is_some_and(|moment| moment < 0.0);
        let is_bow_up = point.outcome == Outcome::NoBalanceBowUp;
        if scan.on_planes == 0 {
            assert_eq!(is_bow_up, bow_up_at_last, "{scan:?}: {draw:?}");
        } else {
            assert!(!is_bow_up, "{scan:?}: {draw:?}");
        }
        return;
    };
    let trim_deg = running.trim.get::<degree>();
    let unstable = point.flags.contains(Flag::PitchUnstable);
    let expected = if unstable {
        assert!(rising.is_none(), "{trim_deg}, {scan:?}: {draw:?}");
        falling
    } else {
        rising
    };
    if let Some((_, above_deg)) = expected {
        assert!(trim_deg <= above_deg, "{trim_deg} after {above_deg}: {draw:?}");
    }
    // Slopes of the moment right at the root, on a boat that a dense scan may be too coarse for.
    let step_deg = 1e-5;
    let [below, above] = [trim_deg - step_deg, trim_deg + step_deg]
        .map(|trim_deg| scan::moment(condition, trim_deg).expect("the hull carries something"));
    let (low, high) = if unstable { (above, below) } else { (below, above) };
    assert!(low < 0.0 && high > 0.0, "{trim_deg}: {below}, {above}: {draw:?}");
}

fn count(points: &[Point], outcome: Outcome) -> usize {
    points.iter().filter(|point| point.outcome == outcome).count()
}

#[test]
fn physics_every_boat_of_the_bounds_table_balances_or_rightly_does_not() {
    every_boat_balances_or_rightly_does_not(LiftModel::Savitsky1964);
}

#[test]
fn physics_every_boat_balances_or_rightly_does_not_by_shuford_too() {
    every_boat_balances_or_rightly_does_not(LiftModel::Shuford1958);
}

fn every_boat_balances_or_rightly_does_not(model: LiftModel) {
    let mut random = Random(20);
    let ranges = by(model, ANYWHERE);
    let points: Vec<Point> =
        (0..20_000).filter_map(|_| examine(&ranges.draw(&mut random), 200)).collect();
    // The draw reaches every outcome, planes and unstable boats included.
    assert!(count(&points, Outcome::Running) > 3000);
    assert!(count(&points, Outcome::BowUnder) > 3000);
    assert!(count(&points, Outcome::NoBalanceBowUp) > 500);
    assert!(count(&points, Outcome::BelowPlaningRange) > 300);
    assert!(points.iter().any(|point| point.flags.contains(Flag::PitchUnstable)));
}

#[test]
fn physics_usual_boats_balance_in_few_evaluations() {
    LiftModel::ALL.into_iter().for_each(usual_boats_balance_in_few_evaluations);
}

fn usual_boats_balance_in_few_evaluations(model: LiftModel) {
    let mut random = Random(21);
    let ranges = by(model, USUAL);
    let points: Vec<Point> =
        (0..4000).filter_map(|_| examine(&ranges.draw(&mut random), 200)).collect();
    let mut evaluations: Vec<u32> = points
        .iter()
        .filter(|point| point.outcome == Outcome::Running)
        .map(|point| point.evaluations)
        .collect();
    evaluations.sort_unstable();
    assert!(evaluations.len() > 2500, "{}", evaluations.len());
    let median = evaluations[evaluations.len() / 2];
    assert!(median <= 15, "{median}");
    let under = count(&points, Outcome::BowUnder);
    assert!(under > 100, "{under}");
}

#[test]
fn physics_boats_said_to_have_one_root_have_no_other() {
    boats_said_to_have_one_root_have_no_other(LiftModel::Savitsky1964);
}

#[test]
fn physics_boats_said_to_have_one_root_have_no_other_by_shuford_either() {
    boats_said_to_have_one_root_have_no_other(LiftModel::Shuford1958);
}

fn boats_said_to_have_one_root_have_no_other(model: LiftModel) {
    let mut random = Random(22);
    let both = [by(model, ONE_ROOT), by(model, AROUND_ONE_ROOT)];
    let seen = of_one_root((0..80_000).map(|turn| both[turn % 2].draw(&mut random)));
    assert!(seen[0] > 1000 && seen[1] > 1000, "{seen:?}");
}

/// Of boats that are said to have one root how many have none and one; no other is found by a scan.
fn of_one_root(draws: impl Iterator<Item = Draw>) -> [u32; 2] {
    let mut seen = [0, 0];
    for draw in draws {
        let Ok(condition) = draw.balance.condition(draw.speed, draw.deflection) else { continue };
        if condition.speed_coefficient < 1.0 || !condition.has_one_root() {
            continue;
        }
        let scan = Scan::of(&condition, 200);
        assert!(scan.crossings(false) == 0 && scan.crossings(true) <= 1, "{scan:?}: {draw:?}");
        assert!(scan.jumps.is_empty(), "{scan:?}: {draw:?}");
        seen[scan.crossings(true)] += 1;
    }
    seen
}

#[test]
fn physics_warped_bottoms_said_to_have_one_root_have_no_other() {
    let mut random = Random(27);
    let seen = of_one_root((0..40_000).map(|_| WARPED.draw(&mut random)));
    assert!(seen[0] > 500 && seen[1] > 500, "{seen:?}");
}

/// With negative warp, and more than any bottom has.
#[test]
fn physics_warped_bottoms_balance_or_rightly_do_not() {
    for model in LiftModel::ALL {
        let mut random = Random(28);
        let ranges = Ranges { chine_to_keel_deg: (-2.0, 10.0), ..by(model, ANYWHERE) };
        let points: Vec<Point> =
            (0..4000).filter_map(|_| examine(&ranges.draw(&mut random), 200)).collect();
        assert!(count(&points, Outcome::Running) > 500);
        assert!(points.iter().any(|point| point.flags.contains(Flag::WarpBeyondTested)));
    }
}

/// Every start on many boats: the vertical balance is closed only as far as each step needs, and must never decide a sign.
#[test]
fn physics_usual_boats_are_in_balance_from_any_start() {
    LiftModel::ALL.into_iter().for_each(usual_boats_are_in_balance_from_any_start);
}

fn usual_boats_are_in_balance_from_any_start(model: LiftModel) {
    let mut random = Random(25);
    let ranges = by(model, USUAL);
    for _ in 0..40_000 {
        let draw = ranges.draw(&mut random);
        let start = Some(Angle::new::<degree>(random.log_uniform((1.0, 15.0))));
        let Ok(point) = draw.balance.point_from(draw.speed, draw.deflection, start) else {
            continue;
        };
        if let Some(running) = &point.running {
            is_in_balance(&draw, &point, running);
        }
        // Never the many evaluations of a survey, which would follow on a wrong sign.
        let condition = draw.balance.condition(draw.speed, draw.deflection).unwrap();
        if condition.has_one_root() {
            assert!(point.evaluations <= 25, "{}: {draw:?}", point.evaluations);
        }
    }
}

/// Boats that planes and thrust lift clear of the water at 1° or at 15°, but not at both.
#[test]
fn physics_boats_that_are_lifted_at_some_trims_balance_or_rightly_do_not() {
    LiftModel::ALL.into_iter().for_each(boats_lifted_at_some_trims_balance_or_rightly_do_not);
}

fn boats_lifted_at_some_trims_balance_or_rightly_do_not(model: LiftModel) {
    let mut random = Random(26);
    let ranges = by(model, ANYWHERE);
    let mut points = Vec::new();
    while points.len() < 6000 {
        let mut draw = ranges.draw(&mut random);
        let share = random.uniform((0.7, 1.0));
        let Ok(condition) = draw.balance.condition(draw.speed, draw.deflection) else { continue };
        let Some([one, _]) = condition.set else { continue };
        let per_degree_n = condition.lift_per_degree_n(one.size);
        let deflection_deg = share * condition.prism.weight_n / per_degree_n;
        if deflection_deg > 30.0 || condition.speed_coefficient < 1.0 {
            continue;
        }
        draw.deflection = Angle::new::<degree>(deflection_deg);
        let condition = draw.balance.condition(draw.speed, draw.deflection).unwrap();
        let [at_least, at_largest] = [LEAST_TRIM_DEG, LARGEST_TRIM_DEG]
            .map(|trim_deg| scan::moment(&condition, trim_deg).is_none());
        if at_least != at_largest {
            points.extend(examine(&draw, 200));
        }
    }
    assert!(count(&points, Outcome::Running) > 200);
}

/// N cos ε + D sin ε against the wetted length: the length taken is the longest that holds the boat up; by Shuford, with a thrust pointing down, the shortest.
#[test]
fn physics_the_wetted_length_is_the_one_that_is_said_to_hold_the_boat_up() {
    let any_trim = (1.0, 15.0);
    for (ranges, trims_deg, least) in [
        (ANYWHERE, any_trim, 10),
        (by(LiftModel::Shuford1958, ANYWHERE), any_trim, 5),
        (by(LiftModel::Shuford1958, PUSHED_DOWN), (1.0, 1.1), 5),
    ] {
        let several = lengths_are_those_said(&ranges, trims_deg);
        assert!(several > least, "{several}");
    }
}

/// Boats for which the length was one of several.
fn lengths_are_those_said(ranges: &Ranges, trims_deg: (f64, f64)) -> u32 {
    let mut random = Random(23);
    let mut several = 0;
    for _ in 0..9000 {
        let draw = ranges.draw(&mut random);
        let Ok(condition) = draw.balance.condition(draw.speed, draw.deflection) else { continue };
        if !draw.settings.method.is_full_balance() || condition.hull_load_n() <= 0.0 {
            continue;
        }
        let [trim_deg, other_deg] = [(); 2].map(|()| random.log_uniform(trims_deg));
        let lengths = scan::lengths(&condition, trim_deg);
        several += u32::from(lengths.falling + lengths.rising.len() > 1);
        let model = ranges.model;
        let climbs = model == LiftModel::Shuford1958 && condition.prism.sin_thrust < 0.0;
        let expected = if climbs { lengths.rising.first() } else { lengths.rising.last() };
        let least_n = model.least_load_share() * condition.prism.weight_n;
        let nearby = condition.forces(other_deg, None, 1e-11);
        for nearby in [None, Some(&nearby)] {
            let forces = condition.forces(trim_deg, nearby, 1e-11);
            let root = forces.wetted_length_ratio.sqrt();
            match expected {
                Some(_) if forces.lifted_off => {
                    assert!(forces.normal_n <= least_n, "{lengths:?}: {draw:?}");
                }
                Some(&(low, high)) => {
                    assert!((low..=high).contains(&root), "{root} in {lengths:?}: {draw:?}");
                }
                None => assert!(forces.lifted_off, "{forces:?}: {draw:?}"),
            }
        }
    }
    several
}

#[test]
fn regression_a_start_that_is_no_number_is_no_start() {
    let draw = USUAL.draw(&mut Random(24));
    let plain = draw.balance.point(draw.speed, draw.deflection).unwrap();
    for start_deg in [f64::NAN, f64::INFINITY] {
        let start = Some(Angle::new::<degree>(start_deg));
        let other = draw.balance.point_from(draw.speed, draw.deflection, start).unwrap();
        assert_eq!(plain, other);
    }
}
