//! Where things go, and when they cannot.

use approx::assert_relative_eq;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, meter, millimeter};

use super::fixtures::{boat_with_edge, built, drive_leg, inches, mm, pair, part};
use crate::mark::holes::HoleKind;
use crate::mark::symmetry::CheckKind;
use crate::mark::{MarkError, Note, Placement};
use crate::stock::assess::{Settings, assess};

fn in_inches(length: Length) -> f64 {
    length.get::<inch>()
}

#[test]
fn practice_a_transom_just_wide_enough_takes_the_usual_distances() {
    // Common practice, no source: 8 in off the centreline, 3 1/2 in from the chine.
    let boat = built(boat_with_edge(inches(8.0 + 24.0 + 3.5), 18.0));
    let placement = Placement::new(&boat, pair(24.0, 9.0), None).expect("room to the inch");
    assert_relative_eq!(in_inches(placement.inner), 8.0, max_relative = 1e-9);
    assert_relative_eq!(in_inches(placement.outer), 32.0, max_relative = 1e-9);
    assert_relative_eq!(in_inches(placement.edge()), 35.5, max_relative = 1e-9);
    let top = placement.gauge.trailing_edge;
    assert_relative_eq!(in_inches(top), 0.5, max_relative = 1e-9);
    assert!((placement.gauge.angle_up().get::<degree>() - 1.6).abs() < 0.05);
    assert_eq!(placement.notes, [Note::UsualHardware]);
}

#[test]
fn error_a_transom_too_narrow_says_how_much_is_missing() {
    let boat = built(boat_with_edge(inches(30.0), 18.0));
    let error = Placement::new(&boat, pair(24.0, 9.0), None).unwrap_err();
    let MarkError::TooNarrow { missing, needed, .. } = &error else { panic!("{error}") };
    assert_relative_eq!(in_inches(*needed), 35.5, max_relative = 1e-9);
    assert_relative_eq!(in_inches(*missing), 5.5, max_relative = 1e-9);
    assert_eq!(
        error.to_string(),
        "the transom is too narrow: a plane of 610 mm (24 in) span needs 902 mm (35 1/2 in) of \
         bottom edge on each side with its clearances, and there is 762 mm (30 in); 140 mm \
         (5 1/2 in) is missing. Take a shorter span, or smaller clearances if the builder agrees"
    );
}

#[test]
fn error_too_narrow_for_any_plane_at_all() {
    let mut input = boat_with_edge(inches(40.0), 12.0);
    let beam = 2.0 * inches(10.0) * Angle::new::<degree>(12.0).cos();
    input.transom.beam = Some(beam);
    let boat = built(input);
    let error = Placement::new(&boat, pair(2.0, 1.0), None).unwrap_err();
    let MarkError::TooNarrow { missing, .. } = error else { panic!("{error}") };
    assert_relative_eq!(in_inches(missing), 3.5, max_relative = 1e-9);
}

#[test]
fn error_a_wide_drive_leg_is_named_with_what_is_missing() {
    let mut input = boat_with_edge(inches(40.0), 0.0);
    input.transom.obstacles = vec![drive_leg(30.0)];
    let error = Placement::new(&built(input), pair(24.0, 9.0), None).unwrap_err();
    let MarkError::Obstructed { missing, longest, in_the_way, .. } = &error else {
        panic!("{error}")
    };
    // Flat transom, by hand: free from 15 + 2 in to 40 − 3.5 in.
    assert_relative_eq!(in_inches(*longest), 19.5, max_relative = 1e-9);
    assert_relative_eq!(in_inches(*missing), 4.5, max_relative = 1e-9);
    assert_eq!(in_the_way, &["drive leg"]);
}

#[test]
fn physics_a_drive_leg_in_the_middle_leaves_the_planes_where_they_were() {
    let bare = built(boat_with_edge(inches(44.0), 18.0));
    let mut input = boat_with_edge(inches(44.0), 18.0);
    input.transom.obstacles = vec![drive_leg(14.0)];
    let with_leg = built(input);
    let [bare, with_leg] =
        [bare, with_leg].map(|boat| Placement::new(&boat, pair(24.0, 9.0), None).expect("room"));
    assert_eq!(bare.holes, with_leg.holes);
    assert!(with_leg.notes.contains(&Note::CentreTaken));
    let blocked = |placement: &Placement| placement.checks.iter().any(|check| check.blocked);
    assert!(blocked(&with_leg) && !blocked(&bare));
}

#[test]
fn error_a_part_of_another_size_is_refused() {
    let boat = built(boat_with_edge(inches(44.0), 18.0));
    let error = Placement::new(&boat, pair(24.0, 10.0), Some(&part())).unwrap_err();
    assert!(matches!(error, MarkError::OtherSize { .. }), "{error}");
}

#[test]
fn error_an_actuator_that_cannot_reach_is_refused() {
    let boat = built(boat_with_edge(inches(44.0), 18.0));
    let mut short = part();
    short.known_mut().travel.retracted_length = mm(100.0);
    let error = Placement::new(&boat, pair(24.0, 9.0), Some(&short)).unwrap_err();
    assert!(error.to_string().contains("too short to reach"), "{error}");
    short.known_mut().travel.retracted_length = mm(130.0);
    let error = Placement::new(&boat, pair(24.0, 9.0), Some(&short)).unwrap_err();
    assert!(error.to_string().contains("over the hinge leaf"), "{error}");
}

#[test]
fn physics_the_bracket_of_a_part_closes_the_triangle_with_the_plane_at_its_gauge() {
    // The pins are laid out in plain coordinates, apart from the linkage module.
    let mut input = boat_with_edge(inches(44.0), 18.0);
    input.transom.rake = Some(Angle::new::<degree>(12.0));
    let placement = Placement::new(&built(input), pair(24.0, 9.0), Some(&part())).expect("room");
    let pin_up = placement.brackets[0].above_hinge.get::<millimeter>();
    let (sin_r, cos_r) = 12.0_f64.to_radians().sin_cos();
    let upper = [pin_up * sin_r + 24.0 * cos_r, pin_up * cos_r - 24.0 * sin_r];
    let up = (0.25_f64 / 9.0).atan();
    let lower = [150.0 * up.cos() - 14.0 * up.sin(), 150.0 * up.sin() + 14.0 * up.cos()];
    let length = (upper[0] - lower[0]).hypot(upper[1] - lower[1]);
    assert_relative_eq!(length, 212.0, max_relative = 1e-9);
    assert!(placement.notes.iter().any(|note| matches!(note, Note::BracketMoved(_))));
    assert_relative_eq!(placement.travel.0.get::<degree>(), -up.to_degrees(), max_relative = 1e-6);
}

/// Where the bracket is marked is where the loads on it are counted, on any transom.
#[test]
fn physics_the_bracket_is_marked_where_its_loads_are_counted() {
    for (rake_deg, hinge_in) in [(0.0, 0.25), (12.0, 0.25), (-6.0, 0.5)] {
        let mut input = boat_with_edge(inches(44.0), 18.0);
        input.transom.rake = Some(Angle::new::<degree>(rake_deg));
        input.transom.hinge_height = Some(inches(hinge_in));
        let boat = built(input);
        let placement = Placement::new(&boat, pair(24.0, 9.0), Some(&part())).expect("room");
        let loads = assess(&part(), &boat, &Settings::default(), &[]).expect("a sound part");
        assert_eq!(placement.brackets[0].above_hinge, loads.linkage.upper_pin_up_transom);
        assert_eq!(placement.travel, (loads.raised, loads.lowered));
        let top = part().known().working_height_on(part().chord, boat.transom()).expect("in reach");
        assert_relative_eq!(placement.top().value, top.value, max_relative = 1e-12);
    }
}

fn is_of_hinge(kind: HoleKind) -> bool {
    matches!(kind, HoleKind::HingePilot | HoleKind::HingeBolt)
}

#[test]
fn physics_holes_stand_where_pattern_and_slope_put_them() {
    let boat = built(boat_with_edge(inches(44.0), 20.0));
    let placement = Placement::new(&boat, pair(24.0, 9.0), Some(&part())).expect("room");
    let hinge: Vec<_> = placement.holes.iter().filter(|hole| is_of_hinge(hole.kind)).collect();
    assert_eq!(hinge.len(), 8);
    // Pattern at 76 mm pitch centred on 609.6 mm: the first 38.8 mm in.
    let first = (hinge[0].along - placement.inner).get::<millimeter>();
    assert_relative_eq!(first, (609.6 - 7.0 * 76.0) / 2.0, max_relative = 1e-9);
    assert_relative_eq!(hinge[3].up.get::<millimeter>(), 6.35 + 18.0, max_relative = 1e-9);
    // The pin's foot, by turning the slope's frame through the deadrise.
    let bracket = placement.brackets[0];
    let (sin, cos) = 20.0_f64.to_radians().sin_cos();
    let along = (44.0 - 3.5 - 12.0) * 0.0254;
    let level = along * cos - bracket.up.get::<meter>() * sin;
    assert_relative_eq!(bracket.off_centre.get::<meter>(), level, max_relative = 1e-9);
    let table = placement.drill_table();
    assert_eq!(table.iter().map(|line| line.per_side).sum::<usize>(), placement.holes.len());
    assert!(table.iter().all(|line| line.total == 2 * line.per_side));
}

#[test]
fn physics_diagonals_of_a_flat_transom_are_those_of_right_triangles() {
    let boat = built(boat_with_edge(inches(44.0), 0.0));
    let placement = Placement::new(&boat, pair(24.0, 9.0), None).expect("room");
    let length = |kind: CheckKind| {
        let check = placement.checks.iter().find(|check| check.kind == kind);
        in_inches(check.expect("every kind is there").length)
    };
    // Inner edge 16.5 in, outer 40.5 in; datum 12 in up, hinge 1/4 in up.
    let drop = 12.0 - 0.25;
    assert_relative_eq!(length(CheckKind::DatumToInner), 16.5_f64.hypot(drop), max_relative = 1e-9);
    assert_relative_eq!(length(CheckKind::DatumToOuter), 40.5_f64.hypot(drop), max_relative = 1e-9);
    assert_relative_eq!(length(CheckKind::Cross), 57.0, max_relative = 1e-9);
}

#[test]
fn practice_unusual_screws_and_chords_are_flagged() {
    let boat = built(boat_with_edge(inches(44.0), 18.0));
    let long_chord = Placement::new(&boat, pair(24.0, 14.0), None).expect("room");
    assert!(long_chord.notes.contains(&Note::ChordOutsideFacts));
    let mut thin = part();
    thin.known_mut().hinge_screws.diameter = mm(4.0);
    let placement = Placement::new(&boat, pair(24.0, 9.0), Some(&thin)).expect("room");
    // Bolts stand in the place of screws that do not bear it; then there is no pilot to be unusual.
    let has_pilots = placement.holes.iter().any(|hole| hole.kind == HoleKind::HingePilot);
    assert_eq!(placement.notes.contains(&Note::HingePilotUnusual), has_pilots);
    assert!(!placement.notes.contains(&Note::CounterboreAtScrew));
    let mut narrow = part();
    narrow.known_mut().bracket_screws.count = 2;
    narrow.known_mut().bracket_screws.across = mm(24.0);
    let close = Placement::new(&boat, pair(24.0, 9.0), Some(&narrow)).expect("room");
    assert!(close.notes.contains(&Note::CounterboreAtScrew));
    // A pilot of 3.2 mm, or the hole an M4 bolt goes through (ISO 273, fine series; from memory).
    let drill = placement.drill_table()[0].drill.get::<millimeter>();
    assert_relative_eq!(drill, if has_pilots { 3.2 } else { 4.3 }, max_relative = 1e-9);
}
