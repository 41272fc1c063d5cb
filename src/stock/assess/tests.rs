use approx::assert_relative_eq;
use uom::si::length::{meter, millimeter};
use uom::si::mass::kilogram;
use uom::si::torque::newton_meter;
use uom::si::velocity::{knot, meter_per_second};

use super::*;
use crate::boat::{BoatInput, HullInput, ObstacleInput, ObstacleKind, WeightInput};
use crate::plane::linkage::HingeReaction;
use crate::plane::strength::Verdict;
use crate::stock::parse_stock;

fn parts() -> Vec<Part> {
    parse_stock("planes.csv", include_str!("../../../data/stock/planes.csv")).unwrap().parts
}

fn part(name: &str) -> Part {
    parts().into_iter().find(|part| part.name == name).unwrap()
}

fn input() -> BoatInput {
    let hull = HullInput {
        bottom_length: Some(Length::new::<meter>(6.5)),
        chine_beam: Some(Length::new::<meter>(2.25)),
        deadrise: Some(Angle::new::<degree>(18.0)),
        ..HullInput::default()
    };
    let weight = WeightInput::Totals {
        mass: uom::si::f64::Mass::new::<kilogram>(2800.0),
        lcg: Some(Length::new::<meter>(2.45)),
        vcg: Some(Length::new::<meter>(0.75)),
        tcg: None,
    };
    let mut input = BoatInput::new("boat", hull, weight);
    input.drive.top_speed = Some(knots(32.0));
    input
}

fn boat() -> Boat {
    Boat::build(input()).unwrap()
}

fn knots(speed_kn: f64) -> Velocity {
    Velocity::new::<knot>(speed_kn)
}

fn at(part: &Part, speeds: &[Velocity]) -> Assessment {
    assess(part, &boat(), &Settings::default(), speeds).unwrap()
}

/// The part at a speed and a deflection, degrees.
fn loaded(part: &Part, speed: Velocity, deflection_deg: f64) -> PartLoadAt {
    let deflection = [Angle::new::<degree>(deflection_deg)];
    let all = part_loads(part, &boat(), &Settings::default(), &[speed], &deflection).unwrap();
    all.into_iter().next().expect("within the travel")
}

/// By hand: Savitsky & Brown 1976, eqs. 5 and 8, for one plane square to a panel of 18°; beside it a
/// small flap by thin-aerofoil theory (Glauert 1927), half for a planing surface: moment
/// (4/π) q s c δ · c/3, and up to 8 % more for a flap of 5 to 10 % of the bottom.
#[test]
fn physics_expected_moment_by_hand_and_that_of_a_small_flap_beside_it() {
    let part = part("450 x 230 stainless hydraulic");
    let assessed = at(&part, &[knots(20.0)]);
    assert_eq!(assessed.by_speed[0].largest.limited_by, LimitedBy::Tested);
    assert_relative_eq!(
        assessed.by_speed[0].largest.deflection.get::<degree>(),
        15.0,
        max_relative = 1e-9
    );
    let there = loaded(&part, knots(20.0), 15.0).load;
    let pressure_pa = 0.5 * 1026.0 * (20.0f64 * 1852.0 / 3600.0).powi(2);
    // The level span, s cos 18°, and the force square to the panel over cos 18°.
    let lift_n = 0.046 * 15.0 * pressure_pa * 0.45 * 0.23;
    let moment_n_m = there.expected.hinge_moment.get::<newton_meter>();
    assert_relative_eq!(moment_n_m, 0.139 * lift_n * 0.23, max_relative = 2e-3);
    let small_n_m =
        4.0 / std::f64::consts::PI * pressure_pa * 0.45 * 0.23 * 15f64.to_radians() * 0.23 / 3.0;
    let theory = there.thin_plate.hinge_moment.get::<newton_meter>() / small_n_m;
    assert!((1.0..1.10).contains(&theory), "{theory}");
    // Design: twice the lift at mid-chord.
    assert_relative_eq!(
        there.design.hinge_moment.get::<newton_meter>(),
        2.0 * lift_n * 0.115,
        max_relative = 2e-3
    );
}

/// Moments about the hinge by hand: the push times its distance from the hinge.
#[test]
fn physics_a_stalled_actuator_pushes_with_all_it_has() {
    let part = part("600 x 230 aluminium electric");
    let assessed = at(&part, &[knots(30.0), knots(40.0)]);
    for there in &assessed.by_speed {
        let available = part.known().actuator.push().get::<newton>();
        let speed = there.load.load.speed;
        let at_largest = loaded(&part, speed, there.largest.deflection.get::<degree>());
        let push = at_largest.expected_push.get::<newton>();
        if there.largest.limited_by == LimitedBy::Actuator {
            assert_relative_eq!(push, available, max_relative = 1e-6);
        } else {
            assert!(push <= available);
        }
    }
    assert!(assessed.by_speed.iter().any(|at| at.largest.limited_by == LimitedBy::Actuator));
}

#[test]
fn physics_full_deflection_is_lost_just_above_the_speed_named() {
    for name in ["600 x 230 aluminium electric", "750 x 230 stainless hydraulic"] {
        let part = part(name);
        let limit = at(&part, &[]).limits.push;
        let around = at(&part, &[limit * 0.995, limit * 1.005]);
        let limited: Vec<LimitedBy> =
            around.by_speed.iter().map(|there| there.largest.limited_by).collect();
        assert_eq!(limited, [LimitedBy::Tested, LimitedBy::Actuator], "{name}");
    }
}

#[test]
fn physics_strength_is_lost_just_above_the_speeds_named() {
    let part = part("450 x 230 stainless hydraulic");
    let limits = at(&part, &[]).limits;
    assert!(limits.push <= limits.hold && limits.hold_design < limits.hold);
    let around = |limit: Velocity| [0.999, 1.001].map(|share| loaded(&part, limit * share, 15.0));
    let slamming = |at: &PartLoadAt, index: usize| at.checks[index].slamming.unwrap();
    let [below, above] = around(limits.plate);
    assert!(below.design.plate.strong_enough && !above.design.plate.strong_enough);
    let [below, above] = around(limits.hold_design);
    assert!(slamming(&below, 3) < 1.0 && slamming(&above, 3) > 1.0);
    let [below, above] = around(limits.screws.unwrap());
    assert!(below.design.screws.spare().unwrap() > 1.0);
    assert!(above.design.screws.spare().unwrap() < 1.0);
    // The expected load is the milder one for plate and screws alike.
    assert!(above.expected.plate.safety_factor > above.design.plate.safety_factor);
    assert!(above.expected.screws.hinge_pull < above.design.screws.hinge_pull);
}

#[test]
fn physics_what_is_allowed_is_the_least_of_reach_boat_file_and_safe_run() {
    let part = part("600 x 230 aluminium electric");
    let mut shallow = input();
    shallow.sizing.largest_deflection = Some(Angle::new::<degree>(6.0));
    let shallow = Boat::build(shallow).unwrap();
    let speeds = [14.0, 24.0, 32.0].map(knots);
    let mut governs = [false; 3];
    for boat in [boat(), shallow] {
        let usable = boat.sizing().largest_deflection;
        for at in assess(&part, &boat, &Settings::default(), &speeds).unwrap().by_speed {
            let limits = [at.largest.deflection, usable, at.safe];
            let least = limits.into_iter().fold(limits[0], Angle::min);
            assert_relative_eq!(at.allowed.value, least.value, max_relative = 1e-12);
            assert_relative_eq!(at.load.load.deflection.value, least.value, max_relative = 1e-12);
            for (governs, limit) in governs.iter_mut().zip(limits) {
                *governs |= limit == least;
            }
        }
    }
    assert!(governs[1] && governs[2], "{governs:?}");
}

/// One part, screws asked for more and more: first they bear all, then only steady running, then
/// not even that. What is judged is the deflection allowed, so that 15° at top speed is no fault.
#[test]
fn physics_verdicts_follow_the_two_loads() {
    let part = part("750 x 300 aluminium electric");
    let boats = [boat()];
    let with = |withdrawal_factor: f64| {
        let settings = Settings { withdrawal_factor, ..Settings::default() };
        strength(&part, &boats, &settings).unwrap()
    };
    let verdict = |factor: f64| with(factor).of(Bearer::HingeScrews).verdict().unwrap();
    let found = with(1.0);
    let hinge = found.of(Bearer::HingeScrews);
    let [steady, slamming] = [hinge.steady.unwrap(), hinge.slamming.unwrap()];
    assert!(steady < slamming);
    assert_eq!(verdict(0.99 / slamming), Verdict::Bears);
    assert_eq!(verdict(1.01 / slamming), Verdict::NoSlammingAllowance);
    assert_eq!(verdict(0.99 / steady), Verdict::NoSlammingAllowance);
    assert_eq!(verdict(1.01 / steady), Verdict::Unsafe);
    assert_eq!(with(1.01 / steady).verdict(), Verdict::Unsafe);
    // At full deflection and top speed, which is not allowed there, the share is larger.
    let at_full = loaded(&part, knots(32.0), 15.0).checks[1].slamming.unwrap();
    assert!(hinge.deflection.get::<degree>() < 15.0);
    assert!(at_full > with(5.5).of(Bearer::HingeScrews).slamming.unwrap());
}

/// By hand: the pull of all bolts is that of all screws, whose holes they take; pull over the area
/// of 1.45 MPa, and the largest load of all speeds.
#[test]
fn physics_bolts_take_the_holes_and_the_load_of_the_screws() {
    let part = part("450 x 230 stainless hydraulic");
    let boats = [boat()];
    let found = strength(&part, &boats, &Settings::default()).unwrap();
    let hinge = found.of(Bearer::HingeScrews);
    assert_eq!(hinge.verdict(), Some(Verdict::NoSlammingAllowance));
    let HeldBy::Bolts(pattern) = found.bolts.hinge else { panic!("{:?}", found.bolts) };
    assert_eq!(pattern.count, part.known().hinge_screws.count);
    assert_eq!(pattern.bolt.name(), "M6");
    let at = loaded(&part, hinge.speed, hinge.deflection.get::<degree>());
    assert_relative_eq!(
        pattern.pull.get::<newton>(),
        at.design.screws.hinge_pull.get::<newton>(),
        max_relative = 1e-9
    );
    assert_relative_eq!(pattern.edge.get::<millimeter>(), 25.0, max_relative = 1e-9);
    assert_relative_eq!(pattern.spacing.get::<millimeter>(), 400.0 / 9.0, max_relative = 1e-9);
    assert!(pattern.share() < 1.0);
    let backing = pattern.backing;
    let area_mm2 = backing.length.get::<millimeter>() * backing.width.get::<millimeter>();
    assert!(10.0 * pattern.pull.get::<newton>() / area_mm2 <= 1.45);
    // Screws that bear it all stay: no load, no bolts.
    let easy = Settings { load_factor: 1.0, withdrawal_factor: 1.0, ..Settings::default() };
    assert_eq!(strength(&part, &boats, &easy).unwrap().bolts.hinge, HeldBy::Screws);
    let laminate =
        Settings { transom_material: TransomMaterial::SolidLaminate, ..Settings::default() };
    let uncovered = strength(&part, &boats, &laminate).unwrap();
    assert!(!uncovered.covers_screws());
    assert_eq!(uncovered.bolts.bracket, HeldBy::NotCovered);
}

/// Newton's third law: what the bracket takes is the push of the actuator, along its own line.
#[test]
fn physics_the_bracket_takes_the_push_of_the_actuator() {
    for (name, rake_deg) in
        [("450 x 230 stainless hydraulic", 0.0), ("900 x 300 stainless hydraulic", 13.0)]
    {
        let mut input = input();
        input.transom.rake = Some(Angle::new::<degree>(rake_deg));
        let boat = Boat::build(input).unwrap();
        let (part, settings) = (part(name), Settings::default());
        let ready = Ready::new(&part, &boat, &settings).unwrap();
        let deflection = Angle::new::<degree>(12.0);
        let flow = ready.flows.at(knots(20.0)).unwrap().unwrap();
        let load = flow.design(deflection).unwrap();
        let hinge = ready.linkage.hinge_reaction(load.force, part.chord / 2.0, deflection).unwrap();
        let (off, along) = ready.fastenings.bracket_force(load.force, &hinge, deflection);
        let push = ready.linkage.push_for(load.hinge_moment, deflection).unwrap();
        let push_n = push.get::<newton>() / f64::from(part.known().actuators);
        let force_n = off.get::<newton>().hypot(along.get::<newton>());
        assert_relative_eq!(force_n, push_n, max_relative = 1e-9);
        assert!(off < Force::default() && along > Force::default());
    }
}

/// By hand, moments about the upper edge of the leaf: 1000 N off the transom at the hinge, 40 mm
/// below that edge, and 300 N up at 4 mm off the face, held by a row 24 mm below it.
#[test]
fn physics_the_leaf_pries_on_its_screws() {
    let part = part("450 x 230 stainless hydraulic");
    let (boat, settings) = (boat(), Settings::default());
    let ready = Ready::new(&part, &boat, &settings).unwrap();
    let hinge = HingeReaction {
        aft: Force::default(),
        up: Force::default(),
        off_transom: Force::new::<newton>(1000.0),
        along_transom: Force::new::<newton>(300.0),
    };
    let by_hand_n =
        (1000.0 * 40.0 + 300.0 * 4.0) / 24.0 / f64::from(part.known().hinge_screws.count);
    assert_relative_eq!(
        ready.fastenings.hinge_pull(&hinge).unwrap().get::<newton>(),
        by_hand_n,
        max_relative = 1e-9
    );
}

/// The retracted plane comes up as far on a raked transom: the pins stay the retracted length
/// apart, by Pythagoras in the frame of the bottom.
#[test]
fn physics_a_rake_moves_the_bracket_not_the_plane() {
    for part in parts() {
        let square = at(&part, &[]);
        for rake_deg in [-5.0, 8.0, 14.0] {
            let mut input = input();
            input.transom.rake = Some(Angle::new::<degree>(rake_deg));
            let raked = Boat::build(input).unwrap();
            let fitted = assess(&part, &raked, &Settings::default(), &[]).unwrap();
            assert_relative_eq!(fitted.raised.value, square.raised.value, max_relative = 1e-9);
            let (sin, cos) = rake_deg.to_radians().sin_cos();
            let [up, off, aft, above, length] = [
                fitted.linkage.upper_pin_up_transom,
                fitted.linkage.upper_pin_stand_off,
                fitted.linkage.lower_pin_aft,
                fitted.linkage.lower_pin_above_plate,
                part.known().travel.retracted_length,
            ]
            .map(|length| length.get::<meter>());
            let upper = (up * sin + off * cos, up * cos - off * sin);
            let (dip, rise) = fitted.raised.value.sin_cos();
            let lower = (aft * rise + above * dip, above * rise - aft * dip);
            let apart_m = (upper.0 - lower.0).hypot(upper.1 - lower.1);
            assert_relative_eq!(apart_m, length, max_relative = 1e-9);
            assert!(fitted.lowered.get::<degree>() > 13.0, "{} {rake_deg}", part.name);
        }
    }
}

#[test]
fn practice_the_part_needs_the_transom_free_up_to_its_own_bracket() {
    let part = part("450 x 230 stainless hydraulic");
    let mut input = input();
    let mm = Length::new::<millimeter>;
    // Half an inch above the bracket of this part and above the usual working height it is clear.
    let height = part.known().working_height_on(part.chord, boat().transom()).unwrap();
    let ladder = |from: Length| ObstacleInput {
        kind: ObstacleKind::Ladder,
        name: None,
        off_centre: mm(700.0),
        width: mm(400.0),
        from,
        to: mm(900.0),
        clearance: None,
    };
    input.transom.obstacles = vec![ladder(height + mm(150.0))];
    let clear = Boat::build(input.clone()).unwrap();
    assert!(assess(&part, &clear, &Settings::default(), &[]).unwrap().fit.fits());
    input.transom.obstacles = vec![ladder(height - mm(60.0))];
    let blocked = Boat::build(input).unwrap();
    let fit = assess(&part, &blocked, &Settings::default(), &[]).unwrap().fit;
    assert!(!fit.fits());
    assert_eq!(fit.conflicts[0].what, "ladder");
}

#[test]
fn practice_other_transoms_are_not_covered() {
    let settings =
        Settings { transom_material: TransomMaterial::SolidLaminate, ..Settings::default() };
    let part = part("450 x 230 stainless hydraulic");
    let assessed = assess(&part, &boat(), &settings, &[knots(20.0)]).unwrap();
    assert_eq!(assessed.limits.screws, None);
    assert_eq!(assessed.by_speed[0].load.design.screws.spare(), None);
}

/// At the hump (15 kn) and full deflection every part of the list bears its design load.
#[test]
fn practice_every_part_of_the_list_is_sound_at_the_hump() {
    for part in parts() {
        let limits = at(&part, &[]).limits;
        let text = format!("{}: {limits:?}", part.name);
        assert!(limits.hold_design > knots(15.0), "{text}");
        assert!(limits.plate > knots(15.0), "{text}");
        assert!(limits.screws.unwrap() > knots(15.0), "{text}");
    }
}

#[test]
fn regression_speeds_at_which_the_boat_does_not_run_are_left_out() {
    let part = part("450 x 230 stainless hydraulic");
    let slow = Velocity::new::<meter_per_second>(1.0);
    let assessed = at(&part, &[slow, knots(20.0)]);
    assert_eq!(assessed.by_speed.len(), 1);
    assert_eq!(assessed.by_speed[0].load.load.speed, knots(20.0));
}

#[test]
fn error_settings_out_of_range() {
    let part = part("450 x 230 stainless hydraulic");
    let refused = |settings: Settings| assess(&part, &boat(), &settings, &[knots(20.0)]).is_err();
    assert!(refused(Settings { load_factor: 0.5, ..Settings::default() }));
    assert!(refused(Settings { plate_factor: Some(0.1), ..Settings::default() }));
    assert!(refused(Settings { wet_factor: 2.0, ..Settings::default() }));
    assert!(!refused(Settings::default()));
}
