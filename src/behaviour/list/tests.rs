//! Mirror symmetry, proportions, agreement with the sizing, and forces built again across the boat.

use approx::assert_relative_eq;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length, Mass, Torque, Velocity};
use uom::si::{
    force::newton, length::meter, mass::kilogram, torque::newton_meter, velocity::knot,
    velocity::meter_per_second,
};

use super::*;
use crate::balance::Running;
use crate::boat::{Duty, Side};
use crate::flag::Flag;
use crate::input::parse_boat;
use crate::size::{Reached, suggest};

/// A cabin boat with planes; more lines of a boat file can be added.
fn boat(more: &str) -> Boat {
    let text = format!(
        "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
         [planes]\nspan = \"610 mm\"\nchord = \"254 mm\"\n{more}"
    );
    parse_boat("heron", &text).unwrap_or_else(|faults| panic!("{:?}", faults.faults())).boat
}

const TOTALS: &str = "[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n";
const DRIVE: &str = "[drive]\nkind = \"sterndrive\"\npower = \"180 kW\"\ntop_speed = \"32 kn\"\n\
    thrust_angle = \"4 deg\"\nthrust_offset = \"0.35 m\"\n";

fn plain() -> Boat {
    boat(&format!("{TOTALS}{DRIVE}"))
}

fn study<'a>(boat: &'a Boat, asked: &[ListCause]) -> ListStudy<'a> {
    ListStudy::new(boat, &Settings::default(), asked).unwrap()
}

fn knots(speed: f64) -> Velocity {
    Velocity::new::<knot>(speed)
}

fn moment(moment_n_m: f64) -> ListCause {
    ListCause::Moment(Torque::new::<newton_meter>(moment_n_m))
}

fn deg(angle: Angle) -> f64 {
    angle.get::<degree>()
}

/// Up to here a plate of her own planes is above the bottom line, by hand: arctan of hinge height over chord.
fn dead_deg(boat: &Boat) -> f64 {
    let height_m = boat.transom().hinge_height.get::<meter>();
    (height_m / 0.254).atan().to_degrees()
}

fn differences(study: &ListStudy<'_>, speed_kn: f64) -> [f64; 2] {
    let levelling = study.at(knots(speed_kn)).unwrap().levelling.unwrap();
    levelling.ends.map(|end| deg(end.difference.unwrap()))
}

#[test]
fn physics_the_difference_is_that_of_the_list_duty_of_the_sizing() {
    for distance_m in [0.8, -0.5] {
        let cause = ListCause::OffCentre {
            mass: Mass::new::<kilogram>(90.0),
            distance: Length::new::<meter>(distance_m),
        };
        let mut input = plain().input().clone();
        input.duties = vec![Duty::List { cause, speed: knots(22.0) }.into()];
        let asked = Boat::build(input).unwrap();
        let suggestion = suggest(&asked, &Settings::default()).unwrap();
        let pair = suggestion.pair().unwrap();
        let Reached::Difference { least, largest } = suggestion.duties[0].reached else {
            panic!("a list duty has a difference");
        };
        let fitted = asked.with_planes(Some(pair)).unwrap();
        let ours = differences(&study(&fitted, &[cause]), 22.0);
        assert_relative_eq!(ours[0], deg(least), max_relative = 1e-12);
        assert_relative_eq!(ours[1], deg(largest), max_relative = 1e-12);
    }
}

/// The deeper plane as the sizing, the letter and `level` set it: a plate that is up to the end of its dead band does nothing.
#[test]
fn physics_the_deeper_plane_is_set_as_deep_as_the_sizing_needs_it() {
    let cause = ListCause::OffCentre {
        mass: Mass::new::<kilogram>(90.0),
        distance: Length::new::<meter>(0.8),
    };
    let mut input = plain().input().clone();
    input.duties = vec![Duty::List { cause, speed: knots(22.0) }.into()];
    let asked = Boat::build(input).unwrap();
    let suggestion = suggest(&asked, &Settings::default()).unwrap();
    let fitted = asked.with_planes(suggestion.pair()).unwrap();
    let levelling = study(&fitted, &[cause]).at(knots(22.0)).unwrap().levelling.unwrap();
    let [port, starboard] = levelling.ends[0].setting.map(deg);
    let needed = deg(suggestion.duties[0].needed_deflection.unwrap());
    assert_relative_eq!(starboard, needed, max_relative = 1e-6);
    let dead = deg(suggestion.dead_band.unwrap());
    assert!(dead > 0.5 && (port - dead).abs() < 1e-6, "{port} and {starboard}: {dead}");
    // With the higher plane up as much is levelled, and with the deeper one no deeper than the difference less.
    let study = study(&fitted, &[cause]);
    let left = |setting: [f64; 2]| {
        let setting = setting.map(Angle::new::<degree>);
        study.with_setting(knots(22.0), setting).unwrap().unwrap().moment[0].value
    };
    assert_relative_eq!(left([0.0, starboard]), left([port, starboard]), epsilon = 1e-6);
    assert!(left([0.0, starboard - port]) > 10.0);
}

#[test]
fn physics_the_difference_goes_with_the_moment_and_against_the_square_of_the_speed() {
    let boat = plain();
    let at =
        |moment_n_m: f64, speed_kn| differences(&study(&boat, &[moment(moment_n_m)]), speed_kn);
    let one = at(300.0, 20.0);
    for end in [0, 1] {
        assert_relative_eq!(at(900.0, 20.0)[end], 3.0 * one[end], max_relative = 1e-12);
        assert_relative_eq!(at(300.0, 30.0)[end], one[end] / 2.25, max_relative = 1e-12);
    }
    assert!(one[1] > 1.4 * one[0], "the range is wide: {one:?}");
}

#[test]
fn physics_a_mirrored_boat_is_levelled_by_mirrored_planes() {
    let boat = plain();
    for speed_kn in [9.5, 14.0, 22.0, 30.0] {
        let [right, left] = [650.0, -650.0]
            .map(|moment_n_m| study(&boat, &[moment(moment_n_m)]).at(knots(speed_kn)).unwrap());
        let [a, b] = [right.levelling.unwrap(), left.levelling.unwrap()];
        assert_eq!(a.verdict, b.verdict);
        for (a, b) in a.ends.iter().zip(&b.ends) {
            assert_relative_eq!(a.setting[0].value, b.setting[1].value, epsilon = 1e-12);
            assert_relative_eq!(a.setting[1].value, b.setting[0].value, epsilon = 1e-12);
            assert_relative_eq!(a.left.value, -b.left.value, epsilon = 1e-9);
            assert_eq!((a.limit, a.point.outcome), (b.limit, b.point.outcome));
        }
        match (right.heel.angle, left.heel.angle) {
            (HeelAngle::Between(a), HeelAngle::Between(b)) => {
                assert_relative_eq!(a[0].value, -b[1].value, epsilon = 1e-9);
                assert_relative_eq!(a[1].value, -b[0].value, epsilon = 1e-9);
            }
            (HeelAngle::AtLeast(a), HeelAngle::AtLeast(b)) => {
                assert_relative_eq!(a.value, -b.value, epsilon = 1e-9);
            }
            (a, b) => assert_eq!(a, b),
        }
    }
}

/// What levels leaves nothing: the setting put back into the roll moments, at its own corner.
#[test]
fn physics_the_settings_level_and_keep_the_mean_asked_for() {
    let boat = plain();
    let with_mean = study(&boat, &[moment(500.0)]).with_mean(Angle::new::<degree>(4.0));
    let speed = knots(24.0);
    let levelling = with_mean.at(speed).unwrap().levelling.unwrap();
    assert_eq!(levelling.verdict, Verdict::Levels);
    for end in &levelling.ends {
        let put = with_mean.with_setting(speed, end.setting).unwrap().unwrap();
        let [least, largest] = put.moment.map(|moment| moment.get::<newton_meter>());
        assert!(least <= 1e-6 && largest >= -1e-6, "{least} to {largest}");
        assert_relative_eq!(deg(end.setting[0] + end.setting[1]), 8.0, max_relative = 1e-9);
        let difference = deg(end.setting[1] - end.setting[0]);
        assert_relative_eq!(difference, deg(end.difference.unwrap()), max_relative = 1e-9);
        let [least, largest] = end.mean.unwrap().map(deg);
        assert_relative_eq!(least, 0.5 * difference + dead_deg(&boat), max_relative = 1e-9);
        assert!(largest >= 4.0 && largest + 0.5 * difference <= 15.0 + 1e-9);
    }
    // At the least difference the corner is the one with the longest arm, which leaves nothing.
    let put = with_mean.with_setting(speed, levelling.ends[0].setting).unwrap().unwrap();
    assert_relative_eq!(put.moment[0].value, 0.0, epsilon = 1e-6);
    let put = with_mean.with_setting(speed, levelling.ends[1].setting).unwrap().unwrap();
    assert_relative_eq!(put.moment[1].value, 0.0, epsilon = 1e-6);
}

/// Forces across the boat built again in earth axes: each plane's normal force on its panel, the weight off the
/// centreline, the wind, and the reaction that makes the sideways forces vanish. Moments about two points.
#[test]
fn physics_forces_across_the_levelled_boat_sum_to_zero_about_two_points() {
    let wind = "[wind]\nside_area = \"9 m^2\"\nside_height = \"1.5 m\"\nspeed = \"18 kn\"\n";
    let boat = boat(&format!("{TOTALS}{DRIVE}{wind}"));
    let asked = ListCause::OffCentre {
        mass: Mass::new::<kilogram>(80.0),
        distance: Length::new::<meter>(0.7),
    };
    let study = study(&boat, &[asked]).with_mean(Angle::new::<degree>(5.0));
    let speed = knots(24.0);
    let levelling = study.at(speed).unwrap().levelling.unwrap();
    let running: Running = levelling.ends[0].point.running.unwrap();
    let one_n = running.lift_per_degree.unwrap().get::<newton>();
    assert_relative_eq!(
        one_n,
        0.046
            * 0.61
            * 18.0_f64.to_radians().cos()
            * 0.254
            * 0.5
            * 1025.97
            * (24.0 * 1852.0 / 3600.0_f64).powi(2),
        max_relative = 1e-4
    );
    let deadrise = 18.0_f64.to_radians();
    let arm_m = boat.transom().mid_span_off_centre(Length::new::<meter>(0.61)).get::<meter>();
    // To starboard and up; the plane's force is normal to its panel, its vertical part the lift.
    let plane = |side: f64, deflection: Angle| {
        let lift_n = one_n * (deg(deflection) - dead_deg(&boat));
        ([side * arm_m, arm_m * deadrise.tan()], [-side * lift_n * deadrise.tan(), lift_n])
    };
    let [port, starboard] = levelling.ends[0].setting;
    let weight_n = 2800.0 * 9.80665;
    // Half ½ ρ V² C A by hand, from port.
    let wind_n = 0.5 * 1.225 * (18.0 * 1852.0 / 3600.0_f64).powi(2) * 9.0;
    let mut loads = vec![
        plane(-1.0, port),
        plane(1.0, starboard),
        ([0.0, 0.75], [0.0, -weight_n]),
        // A mass shifted off the centreline: its weight there and not on it.
        ([0.7, 1.0], [0.0, -80.0 * 9.80665]),
        ([0.0, 1.0], [0.0, 80.0 * 9.80665]),
        ([0.0, 1.5], [wind_n, 0.0]),
    ];
    let sum = |loads: &[([f64; 2], [f64; 2])], axis: usize| -> f64 {
        loads.iter().map(|(_, force)| force[axis]).sum()
    };
    let sideways_n = sum(&loads, 0);
    loads.push(([0.0, 0.0], [-sideways_n, 0.0]));
    let up_n = sum(&loads, 1);
    // What the bottom carries, evenly to both sides.
    loads.push(([0.0, 0.1], [0.0, -up_n]));
    for about in [[0.0, 0.0], [1.3, -0.4]] {
        let moment_n_m: f64 = loads
            .iter()
            .map(|(at, force)| (at[0] - about[0]) * force[1] - (at[1] - about[1]) * force[0])
            .sum();
        assert!(moment_n_m.abs() < 1e-6 * weight_n, "{about:?}: {moment_n_m} N m");
    }
}

#[test]
fn physics_contributions_sum_and_each_has_its_sign() {
    let loads = "[[load]]\nitem = \"boat\"\nmass = \"2700 kg\"\nforward = \"2.45 m\"\nup = \"0.75 m\"\n\
        [[load]]\nitem = \"water tank\"\nmass = \"100 kg\"\nforward = \"2.0 m\"\nup = \"0.4 m\"\n\
        starboard = \"0.6 m\"\n";
    let wind = "[wind]\nside_area = \"9 m^2\"\nside_height = \"1.5 m\"\nspeed = \"18 kn\"\n\
        from = \"starboard\"\n";
    let drive =
        format!("{DRIVE}engine_speed = \"4800 rpm\"\ngear_ratio = 1.95\nrotation = \"right\"\n");
    let boat = boat(&format!("{loads}{drive}{wind}"));
    let point = study(&boat, &[moment(-50.0)]).at(knots(32.0)).unwrap();
    let by = |wanted: &Cause| {
        let found = point.contributions.iter().find(|c| c.cause == *wanted).unwrap();
        found.moment.map(|moment| moment.get::<newton_meter>())
    };
    let tank = by(&Cause::Load("water tank".to_owned()));
    assert_relative_eq!(tank[0], 100.0 * 9.80665 * 0.6, max_relative = 1e-12);
    assert_relative_eq!(tank[0], boat.list_moment().get::<newton_meter>(), max_relative = 1e-9);
    // By hand: 9.2600 m/s, so 472.7 N from starboard at 1.5 m above the bottom.
    let blown = by(&Cause::Wind);
    assert_relative_eq!(blown[0], -472.68 * 1.5, max_relative = 1e-4);
    let vcg_m = boat.weight().vcg.get::<meter>();
    assert_relative_eq!(blown[1], -472.68 * (1.5 - vcg_m), max_relative = 1e-4);
    // By hand: 180 kW at 4800/1.95 rpm is 698.3 N m at full power, port down for a right-handed propeller.
    assert_relative_eq!(by(&Cause::Propellers)[0], -698.3, max_relative = 1e-3);
    let total: f64 = point.contributions.iter().map(|c| c.moment[1].value).sum();
    assert_relative_eq!(point.moment[1].value, total, max_relative = 1e-12);
}

#[test]
fn physics_the_torque_of_propellers_follows_the_thrust_and_opposed_ones_cancel() {
    let torque = |more: &str, speed_kn: f64| {
        let drive = format!("{DRIVE}engine_speed = \"4800 rpm\"\nrotation = \"left\"\n{more}");
        let boat = boat(&format!("{TOTALS}{drive}"));
        study(&boat, &[]).at(knots(speed_kn)).unwrap().moment[0].get::<newton_meter>()
    };
    let full = torque("", 32.0);
    assert_relative_eq!(
        full,
        180e3 / (4800.0 / 60.0 * std::f64::consts::TAU),
        max_relative = 1e-12
    );
    let cruise = torque("", 24.0);
    assert!(0.5 * full < cruise && cruise < full, "{cruise} of {full}");
    assert_eq!(torque("engines = 2\ncounter_rotating = 1\n", 32.0), 0.0);
    let three = torque("engines = 3\ncounter_rotating = 1\n", 32.0);
    assert_relative_eq!(three, full / 3.0, max_relative = 1e-12);
}

#[test]
fn physics_no_list_needs_no_difference_and_no_heel() {
    let boat = plain();
    let point = study(&boat, &[]).at(knots(22.0)).unwrap();
    assert_eq!(point.heel.angle, HeelAngle::Between([Angle::default(); 2]));
    let levelling = point.levelling.unwrap();
    assert_eq!(levelling.verdict, Verdict::NoList);
    assert!(levelling.ends.iter().all(|end| end.setting == [Angle::default(); 2]));
}

#[test]
fn physics_the_pair_levels_from_a_speed_on_and_not_below_it() {
    let boat = plain();
    let study = study(&boat, &[moment(1500.0)]);
    let [least, most] = study.levelled_speeds().unwrap();
    let verdict = |speed: Velocity| study.at(speed).unwrap().levelling.unwrap().verdict;
    let [from_best, _] = least.unwrap();
    let [from_sure, to] = most.unwrap();
    assert!(from_best < from_sure && from_sure < to);
    assert_eq!(verdict(from_sure * 1.001), Verdict::Levels);
    assert_eq!(verdict(from_sure * 0.999), Verdict::Perhaps);
    assert_eq!(verdict(from_best * 1.001), Verdict::Perhaps);
    assert_eq!(verdict(from_best * 0.999), Verdict::TooLittle);
    // At the lowest speed the deeper plane is at the end of its deflection.
    let end = &study.at(from_sure).unwrap().levelling.unwrap().ends[1];
    assert_relative_eq!(deg(end.difference.unwrap()), 15.0 - dead_deg(&boat), max_relative = 1e-6);
    assert_relative_eq!(deg(end.setting[1]), 15.0, max_relative = 1e-6);
    // Below it a part of the moment is left: the share that 15 degrees do not level.
    let slow = study.at(from_best * 0.9).unwrap().levelling.unwrap();
    let left = slow.ends[0].left.get::<newton_meter>();
    assert_relative_eq!(left, 1500.0 * (1.0 - 0.81), max_relative = 1e-6);
}

#[test]
fn physics_the_mean_left_for_trim_ends_with_the_safe_run() {
    let boat = plain();
    let study = study(&boat, &[moment(200.0)]);
    let speed = knots(30.0);
    let end = &study.at(speed).unwrap().levelling.unwrap().ends[0];
    let largest = end.mean.unwrap()[1];
    let safe = crate::size::safe_deflections(
        &boat,
        &Settings::default(),
        boat.planes().unwrap(),
        &[speed],
    )[0];
    assert!(deg(safe) < 14.0, "the safe run binds here");
    // The drag of unequal planes moves the trim a hair.
    assert_relative_eq!(deg(largest), deg(safe), max_relative = 5e-3);
}

#[test]
fn physics_a_stuck_plane_is_balanced_by_its_twin_while_that_is_a_safe_run() {
    let boat = plain();
    let study = study(&boat, &[]);
    let stuck = Stuck { side: Side::Port, deflection: Angle::new::<degree>(15.0) };
    let [from, to] = study.balanced_speeds(stuck).unwrap().unwrap();
    // Slower, both planes deep press the curved bow into the water.
    assert!(
        from < knots(12.0) && to > knots(14.0) && to < boat.drive().top_speed,
        "{}",
        to.get::<knot>()
    );
    let at = |speed| study.with_stuck(speed, stuck).unwrap().unwrap();
    assert_eq!(at(to * 0.999).matched.safety, RunSafety::Safe);
    assert_ne!(at(to * 1.001).matched.safety, RunSafety::Safe);
    // With both fully down at top speed nothing balances above 1 degree: the bow is driven under.
    let at_top = at(boat.drive().top_speed).matched;
    assert_eq!(at_top.safety, RunSafety::NotRunning);
    assert_eq!(at_top.point.outcome, Outcome::BowUnder);
    let point = at(to * 0.8);
    assert_relative_eq!(deg(point.levelling.unwrap()[0]), 15.0, max_relative = 1e-9);
    assert!(point.matched.moment.iter().all(|moment| moment.value.abs() < 1e-9));
    // A port plane down lifts the port side: starboard goes down.
    assert!(point.other_up.moment[0].value > 0.0);
    let other = Stuck { side: Side::Starboard, ..stuck };
    let mirrored = study.with_stuck(to * 0.8, other).unwrap().unwrap();
    assert_relative_eq!(
        mirrored.other_up.moment[0].value,
        -point.other_up.moment[1].value,
        max_relative = 1e-12
    );
}

#[test]
fn physics_a_plane_stuck_up_cannot_level_its_own_side() {
    let boat = plain();
    let study = study(&boat, &[moment(400.0)]);
    let up = |side| Stuck { side, deflection: Angle::default() };
    let needs = |side| study.with_stuck(knots(24.0), up(side)).unwrap().unwrap().levelling;
    assert_eq!(needs(Side::Starboard), None);
    let by_starboard = needs(Side::Port).unwrap().map(deg);
    let past_deg = by_starboard[0] - dead_deg(&boat);
    assert_relative_eq!(past_deg, differences(&study, 24.0)[0], max_relative = 1e-9);
}

#[test]
fn physics_planes_that_are_not_alike_level_by_their_own_moments() {
    let boat = plain();
    let pair = boat.planes().unwrap();
    let small = PlanePair { span: 0.5 * pair.span, ..pair };
    let study = study(&boat, &[moment(400.0)]).with_planes([pair, small]);
    let speed = knots(24.0);
    let even = study.with_setting(speed, [Angle::new::<degree>(5.0); 2]).unwrap().unwrap();
    assert!(even.planes[0].value > 0.0, "the larger port plane presses starboard down");
    let levelling =
        study.clone().with_mean(Angle::new::<degree>(4.0)).at(speed).unwrap().levelling.unwrap();
    let end = &levelling.ends[0];
    let put = study.with_setting(speed, end.setting).unwrap().unwrap();
    assert_relative_eq!(put.moment[0].value, 0.0, epsilon = 1e-6);
    assert_relative_eq!(deg(end.setting[0] + end.setting[1]), 8.0, max_relative = 1e-9);
}

/// Boats of usual proportions have a positive stiffness at planing speed, where the force is reacted at the centre of gravity. Common practice, no source: boats with planes up run nearly upright.
#[test]
fn practice_usual_boats_are_stiff_and_their_heel_grows_with_the_moment() {
    let boat = plain();
    for speed_kn in [16.0, 22.0, 30.0] {
        let heel =
            |moment_n_m: f64| study(&boat, &[moment(moment_n_m)]).at(knots(speed_kn)).unwrap().heel;
        let heel_of = |moment_n_m: f64| match heel(moment_n_m).angle {
            HeelAngle::Between(range) => range.map(deg),
            other => panic!("{other:?}"),
        };
        for stiffness in heel(100.0).stiffness_per_degree {
            assert!(stiffness.unwrap().value > 0.0);
        }
        let [small, large] = [heel_of(100.0), heel_of(200.0)];
        assert!(0.0 < small[0] && small[0] < large[0] && small[1] < large[1]);
        // Near upright the moment over the stiffness.
        let soft = heel(1.0).stiffness_per_degree[0].unwrap().value;
        assert_relative_eq!(heel_of(1.0)[1], 1.0 / soft, max_relative = 2e-2);
    }
}

#[test]
fn physics_a_boat_too_tender_for_the_estimate_gets_no_heel() {
    let high = "[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"1.9 m\"\n";
    let boat = boat(&format!("{high}{DRIVE}"));
    let point = study(&boat, &[moment(100.0)]).at(knots(22.0)).unwrap();
    assert_eq!(point.heel.angle, HeelAngle::NotStiff);
    assert!(point.heel.stiffness_per_degree[0].unwrap().value < 0.0);
    let far = study(&plain(), &[moment(9000.0)]).at(knots(22.0)).unwrap();
    assert_eq!(far.heel.angle, HeelAngle::Beyond);
}

#[test]
fn physics_a_boat_without_planes_has_a_list_and_a_heel_only() {
    let bare = plain().with_planes(None).unwrap();
    let study = study(&bare, &[moment(300.0)]);
    let point = study.at(knots(22.0)).unwrap();
    assert!(point.levelling.is_none() && matches!(point.heel.angle, HeelAngle::Between(_)));
    assert_eq!(study.levelled_speeds().unwrap(), [None, None]);
    assert_eq!(study.with_setting(knots(22.0), [Angle::default(); 2]).unwrap(), None);
    let slow = study.at(Velocity::new::<meter_per_second>(2.0)).unwrap();
    assert_eq!(slow.heel.angle, HeelAngle::NotRunning);
    assert!(!slow.bare.flags.contains(Flag::HeelRoughlyEstimated));
}
