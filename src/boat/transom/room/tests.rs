use approx::assert_relative_eq;
use proptest::prelude::*;
use uom::si::angle::degree;
use uom::si::f64::Angle;
use uom::si::length::{inch, millimeter};

use super::*;
use crate::boat::{ObstacleKind, Strake, TransomForm};
use crate::units::LengthUnit;

fn mm(length_mm: f64) -> Length {
    Length::new::<millimeter>(length_mm)
}

fn transom(beam_mm: f64, deadrise_deg: f64) -> Transom {
    Transom {
        beam: mm(beam_mm),
        deadrise: Angle::new::<degree>(deadrise_deg),
        rake: Angle::new::<degree>(0.0),
        form: TransomForm::Plain,
        middle_beam: None,
        clear_of_drive: None,
        chine_radius: mm(0.0),
        retracted_angle: Angle::new::<degree>(2.0),
        edge_fairness: mm(2.0),
        lower_edge_radius: mm(0.0),
        unevenness: None,
        thickness: None,
        waterline: None,
        inner_clearance: Length::new::<inch>(8.0),
        outer_clearance: Length::new::<inch>(3.5),
        hinge_height: Length::new::<inch>(0.25),
        working_height: mm(250.0),
        obstacles: Vec::new(),
        strakes: Vec::new(),
    }
}

fn thing(name: &str, off_centre_mm: f64, width_mm: f64, heights_mm: (f64, f64)) -> Obstacle {
    Obstacle {
        kind: ObstacleKind::Other,
        name: name.to_owned(),
        off_centre: mm(off_centre_mm),
        width: mm(width_mm),
        from: mm(heights_mm.0),
        to: mm(heights_mm.1),
        clearance: mm(0.0),
    }
}

fn with(mut transom: Transom, obstacles: Vec<Obstacle>) -> Transom {
    transom.obstacles = obstacles;
    transom
}

fn in_mm(length: Length) -> f64 {
    length.get::<millimeter>()
}

fn pair(span_mm: f64) -> PlanePair {
    PlanePair { span: mm(span_mm), chord: mm(229.0) }
}

/// Inner edge 8 in off the centreline and outer edge 3 1/2 in in from the chine, along the
/// bottom edge: common practice, no source; the lengths by hand.
#[test]
fn practice_room_between_the_clearances() {
    let room = transom(2250.0, 18.0).room();
    let by_hand = 1125.0 / 0.951_056_516 - 203.2 - 88.9;
    assert_relative_eq!(in_mm(room.largest_span), by_hand, max_relative = 1e-9);
    assert_relative_eq!(in_mm(room.port.largest), by_hand, max_relative = 1e-9);
    assert_eq!(room.conflicts, []);
    let position = transom(2250.0, 18.0).position(mm(600.0)).unwrap();
    assert_relative_eq!(in_mm(position.to), by_hand + 203.2, max_relative = 1e-9);
    let middle = transom(2250.0, 18.0).mid_span_off_centre(mm(600.0));
    let by_hand = (by_hand + 203.2 - 300.0) * 0.951_056_516;
    assert_relative_eq!(in_mm(middle), by_hand, max_relative = 1e-9);
}

#[test]
fn practice_a_leg_in_the_middle_is_no_conflict_until_it_is_wide() {
    let leg = |width_mm| {
        let mut leg = thing("drive leg", 0.0, width_mm, (-400.0, 800.0));
        leg.clearance = mm(50.0);
        with(transom(2000.0, 0.0), vec![leg])
    };
    // Half of 300 mm and 50 mm clearance end at 200 mm, inside the 203.2 mm kept free anyway.
    assert_eq!(leg(300.0).room().conflicts, []);
    assert_eq!(leg(300.0).room().largest_span, transom(2000.0, 0.0).bare_room());
    // Half of 400 mm and 50 mm end at 250 mm: 46.8 mm beyond the clearance, on both sides.
    let room = leg(400.0).room();
    assert_relative_eq!(in_mm(room.largest_span), 1000.0 - 88.9 - 250.0, max_relative = 1e-9);
    let sides: Vec<Side> = room.conflicts.iter().map(|conflict| conflict.side).collect();
    assert_eq!(sides, [Side::Port, Side::Starboard]);
    for conflict in &room.conflicts {
        assert_relative_eq!(in_mm(conflict.missing), 46.8, max_relative = 1e-9);
    }
    assert_eq!(
        room.conflicts[1].sentence(LengthUnit::Millimetre),
        "The drive leg reaches below the bottom edge on the starboard side and would disturb \
         the plane's water: 47 mm missing."
    );
}

#[test]
fn practice_the_pair_takes_the_smaller_side() {
    // A fitting 500 to 560 mm off the centreline to port; a flat bottom.
    let boat = with(transom(2000.0, 0.0), vec![thing("drain", -530.0, 60.0, (40.0, 100.0))]);
    let room = boat.room();
    assert_relative_eq!(in_mm(room.starboard.largest), 1000.0 - 88.9 - 203.2, max_relative = 1e-9);
    assert_relative_eq!(in_mm(room.port.largest), 1000.0 - 88.9 - 560.0, max_relative = 1e-9);
    assert_eq!(room.largest_span, room.port.largest);
    assert_eq!(room.port.free.len(), 2);
    // A pair of 400 mm misses 48.9 mm outboard of the drain and 103.2 mm inboard of it.
    let fit = boat.fits(pair(400.0));
    assert!(!fit.fits());
    assert_relative_eq!(in_mm(fit.missing), 48.9, max_relative = 1e-9);
    let [conflict] = fit.conflicts.as_slice() else { panic!("{:?}", fit.conflicts) };
    assert_eq!((conflict.what.as_str(), conflict.side), ("drain", Side::Port));
    assert_eq!(conflict.way, Way::OnTransom);
    assert_relative_eq!(in_mm(conflict.missing), 48.9, max_relative = 1e-9);
    assert_eq!(
        conflict.sentence(LengthUnit::Inch),
        "The drain stands on the port side where hinge, plate or actuator go: 1 15/16 in missing."
    );
    // A pair of 350 mm stands outboard of it; one of 290 mm too, not inboard.
    for span_mm in [350.0, 290.0] {
        let fit = boat.fits(pair(span_mm));
        assert_relative_eq!(in_mm(fit.position.unwrap().to), 911.1, max_relative = 1e-9);
        assert_eq!(fit.missing, mm(0.0));
    }
}

#[test]
fn practice_planes_move_inboard_of_what_stands_at_the_chine() {
    let boat = with(transom(2000.0, 0.0), vec![thing("exhaust", 850.0, 100.0, (0.0, 100.0))]);
    assert_relative_eq!(in_mm(boat.position(mm(500.0)).unwrap().to), 800.0, max_relative = 1e-9);
    assert_relative_eq!(in_mm(boat.mid_span_off_centre(mm(500.0))), 550.0, max_relative = 1e-9);
    // No room: as if nothing stood there.
    assert_eq!(boat.position(mm(650.0)), None);
    let bare = transom(2000.0, 0.0).mid_span_off_centre(mm(650.0));
    assert_eq!(boat.mid_span_off_centre(mm(650.0)), bare);
}

#[test]
fn practice_room_on_each_side_but_not_alike() {
    let boat = with(
        transom(2000.0, 0.0),
        vec![thing("drain", -300.0, 60.0, (0.0, 50.0)), thing("pump", 800.0, 60.0, (0.0, 50.0))],
    );
    // Port is free from 330, starboard to 770: 440 mm in common.
    let room = boat.room();
    assert_relative_eq!(in_mm(room.largest_span), 440.0, max_relative = 1e-9);
    let fit = boat.fits(pair(500.0));
    let [conflict] = fit.conflicts.as_slice() else { panic!("{:?}", fit.conflicts) };
    assert_eq!(conflict.way, Way::Symmetry);
    assert_relative_eq!(in_mm(conflict.missing), 60.0, max_relative = 1e-9);
    assert!(conflict.sentence(LengthUnit::Metre).ends_with("must stand alike: 0.060 m missing."));
}

#[test]
fn practice_several_things_that_only_together_leave_too_little() {
    let boat = with(
        transom(2000.0, 0.0),
        vec![thing("one", 400.0, 20.0, (0.0, 50.0)), thing("two", 700.0, 20.0, (0.0, 50.0))],
    );
    // Free to starboard: 203.2 to 390, 410 to 690, 710 to 911.1. One alone would leave 501.1.
    let fit = boat.fits(pair(450.0));
    assert_relative_eq!(in_mm(fit.missing), 450.0 - 280.0, max_relative = 1e-9);
    let names: Vec<&str> = fit.conflicts.iter().map(|conflict| conflict.what.as_str()).collect();
    assert_eq!(names, ["one", "two"]);
    for conflict in &fit.conflicts {
        assert_relative_eq!(in_mm(conflict.missing), 170.0, max_relative = 1e-9);
    }
}

#[test]
fn error_a_transom_too_narrow_for_any_plane() {
    let narrow = transom(500.0, 0.0);
    let room = narrow.room();
    assert_eq!(room.largest_span, mm(0.0));
    assert!(room.port.free.is_empty());
    let [conflict] = room.conflicts.as_slice() else { panic!("{:?}", room.conflicts) };
    assert_eq!(conflict.way, Way::Clearances);
    assert_relative_eq!(in_mm(conflict.missing), 42.1, max_relative = 1e-6);
    let fit = narrow.fits(pair(300.0));
    assert_relative_eq!(in_mm(fit.missing), 300.0, max_relative = 1e-9);
    assert_relative_eq!(in_mm(fit.conflicts[0].missing), 342.1, max_relative = 1e-9);
    assert_eq!(
        fit.conflicts[0].sentence(LengthUnit::Millimetre),
        "The bottom edge is 342 mm too short on both sides between the clearances off the \
         centreline and from the chine."
    );
}

#[test]
fn practice_what_stands_above_the_actuator_is_out_of_the_way() {
    let boat = with(transom(2000.0, 0.0), vec![thing("ladder", 550.0, 300.0, (250.0, 900.0))]);
    assert_eq!(boat.room().conflicts, []);
    let higher = boat.with_working_height(mm(260.0)).room();
    assert_eq!(higher.conflicts.len(), 1);
    assert_relative_eq!(in_mm(higher.starboard.largest), 211.1, max_relative = 1e-9);
}

#[test]
fn practice_a_strake_is_stood_over() {
    let mut boat = transom(2000.0, 20.0);
    let strake = |off_mm| Strake { off_centre: mm(off_mm), width: mm(60.0), depth: mm(20.0) };
    boat.strakes = vec![strake(700.0), strake(400.0), strake(100.0)];
    let fit = boat.fits(pair(600.0));
    let found: Vec<f64> = fit.strakes.iter().map(|note| in_mm(note.strake.off_centre)).collect();
    assert_eq!(found.len(), 2);
    assert_relative_eq!(found[0], 400.0, max_relative = 1e-9);
    let cosine = 20f64.to_radians().cos();
    assert_relative_eq!(in_mm(fit.strakes[0].stretch.from), 370.0 / cosine, max_relative = 1e-9);
    let text = fit.strakes[0].sentence(|at| format!("{:.0} mm", at.get::<millimeter>()));
    assert!(text.contains("the strake 394 mm to 458 mm along the bottom edge"), "{text}");
}

/// Whether any of a grid of points of the obstacle lies over `stretch` below the working height:
/// each point is dropped square onto the bottom edge.
fn stands_over(transom: &Transom, obstacle: &Obstacle, side: Side, stretch: Stretch) -> bool {
    const POINTS: u32 = 60;
    let slope = transom.deadrise.get::<radian>();
    let edge = (slope.cos(), slope.sin());
    let outward = if side == Side::Port { -1.0 } else { 1.0 };
    let middle_m = outward * obstacle.off_centre.get::<meter>();
    let share = |index: u32| f64::from(index) / f64::from(POINTS);
    (0..=POINTS).any(|column| {
        (0..=POINTS).any(|row| {
            let y_m = middle_m + obstacle.width.get::<meter>() * (share(column) - 0.5);
            let height_m =
                obstacle.from.get::<meter>() + share(row) * (obstacle.to - obstacle.from).value;
            let z_m = middle_m.abs() * slope.tan() + height_m;
            let along_m = y_m * edge.0 + z_m * edge.1;
            let foot = (along_m * edge.0, along_m * edge.1);
            let off_edge_m = (y_m - foot.0).hypot(z_m - foot.1);
            let below = z_m * edge.0 < y_m * edge.1;
            let clear_m = obstacle.clearance.get::<meter>() - 1e-6;
            (below || off_edge_m < transom.working_height.get::<meter>() - 1e-6)
                && along_m > stretch.from.get::<meter>() - clear_m
                && along_m < stretch.to.get::<meter>() + clear_m
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn physics_planes_that_fit_stand_clear_and_no_larger_ones_would(
        deadrise_deg in 0.0..30.0f64,
        things in prop::collection::vec(
            (-1000.0..1000.0f64, 10.0..300.0f64, -200.0..400.0f64, 10.0..400.0f64, 0.0..120.0f64),
            0..4,
        ),
    ) {
        let obstacles = things.iter().map(|&(off, width, from, height, clear)| {
            let mut thing = thing("thing", off, width, (from, from + height));
            thing.clearance = mm(clear);
            thing
        });
        let boat = with(transom(2200.0, deadrise_deg), obstacles.collect());
        let span = boat.room().largest_span;
        prop_assert!(boat.fits(pair(in_mm(span) + 1.0)).position.is_none());
        if span > mm(1.0) {
            let position = boat.fits(PlanePair { span, chord: mm(200.0) }).position.unwrap();
            for obstacle in &boat.obstacles {
                prop_assert!(!stands_over(&boat, obstacle, Side::Port, position));
                prop_assert!(!stands_over(&boat, obstacle, Side::Starboard, position));
            }
        }
        // A conflict names something wherever the pair is smaller than the clearances allow.
        let conflicts = boat.fits(pair(in_mm(span) + 1.0)).conflicts;
        prop_assert!(!conflicts.is_empty());
        for conflict in conflicts {
            prop_assert!(conflict.missing > mm(0.0) && conflict.missing <= span + mm(1.0 + 1e-6));
        }
    }
}
