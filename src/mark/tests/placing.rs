//! Where things go, and when they cannot.

use approx::assert_relative_eq;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, meter, millimeter};

use super::fixtures::{boat_with_edge, built, drive_leg, inches, mm, pair, part};
use crate::boat::input::DriveKind;
use crate::boat::{PlanePair, Strake, TransomForm};
use crate::mark::holes::HoleKind;
use crate::mark::symmetry::CheckKind;
use crate::mark::{MarkError, Note, Placement, SheetUnits};
use crate::stock::assess::{Settings, assess};

fn in_inches(length: Length) -> f64 {
    length.get::<inch>()
}

#[test]
fn practice_a_transom_just_wide_enough_takes_the_plane() {
    let boat = built(boat_with_edge(inches(8.0 + 24.0 + 3.5), 18.0));
    let placement = Placement::new(&boat, pair(24.0, 9.0), None).expect("room to the inch");
    assert_relative_eq!(in_inches(placement.inner), 8.0, max_relative = 1e-9);
    assert_relative_eq!(in_inches(placement.outer), 32.0, max_relative = 1e-9);
    assert_relative_eq!(in_inches(placement.edge()), 35.5, max_relative = 1e-9);
    assert_eq!(placement.notes, [Note::UsualHardware]);
}

/// The chine is laid out in space, on the plane that leans, and measured there; then the figures that
/// a fitter worked out by hand for the same transom.
#[test]
fn physics_a_leaning_transom_is_measured_on_its_face() {
    let mut input = boat_with_edge(mm(950.0) / Angle::new::<degree>(20.0).cos(), 20.0);
    input.transom.rake = Some(Angle::new::<degree>(18.0));
    input.transom.outer_clearance = Some(mm(76.0));
    let boat = built(input);
    let pair = PlanePair { span: mm(475.0), chord: mm(230.0) };
    let placement = Placement::new(&boat, pair, None).expect("room");
    let high = 950.0 * 20.0_f64.to_radians().tan();
    let aft = high * 18.0_f64.to_radians().tan();
    let edge = (950.0_f64.powi(2) + high * high + aft * aft).sqrt();
    assert_relative_eq!(placement.edge().get::<millimeter>(), edge, max_relative = 1e-12);
    let whole = |length: Length| length.get::<millimeter>().round();
    let zero = Length::default();
    assert_eq!([placement.edge(), placement.outer].map(whole), [1017.0, 941.0]);
    assert_eq!(whole(placement.off_centre(placement.outer, zero)), 879.0);
    assert_eq!(whole(placement.off_centre(placement.edge(), zero)), 950.0);
    let check = |kind: CheckKind| {
        let checks = placement.checks();
        whole(checks.iter().find(|check| check.kind == kind).expect("every kind").length)
    };
    let diagonals = [CheckKind::DatumToInner, CheckKind::DatumToOuter, CheckKind::Cross];
    assert_eq!(diagonals.map(check), [440.0, 882.0, 1321.0]);
}

#[test]
fn physics_planes_in_the_water_of_two_propellers_open_the_sheet() {
    // By hand, on a flat bottom: legs 1000 mm apart, propellers of 600 mm, 0.08 of 500 mm beside them:
    // 500 + 300 + 40 = 840 mm; the inner end stands 400 mm off the centreline.
    let mut input = boat_with_edge(mm(1100.0), 0.0);
    input.drive.kind = Some(DriveKind::Sterndrive);
    input.drive.propeller_diameter = Some(mm(600.0));
    input.transom.inner_clearance = Some(mm(300.0));
    input.transom.outer_clearance = Some(mm(100.0));
    let pair = PlanePair { span: mm(600.0), chord: mm(230.0) };
    let opened = |input: &crate::boat::BoatInput| {
        let placement = Placement::new(&built(input.clone()), pair, None).expect("room");
        placement.warnings(SheetUnits::Millimetres).join("; ")
    };
    let uncounted = opened(&input);
    assert!(uncounted.contains("COUNT THE PROPELLERS"), "{uncounted}");
    assert!(!uncounted.contains("INNER END"), "{uncounted}");
    input.drive.engines = Some(2.0);
    input.drive.spacing = Some(mm(1000.0));
    let twin = opened(&input);
    assert!(twin.contains("INNER END 440 mm INSIDE THE PROPELLER'S WATER"), "{twin}");
    assert!(!twin.contains("COUNT"), "{twin}");
}

#[test]
fn physics_the_gauge_is_set_beside_a_strake() {
    // Flat bottom: the middle of the span is at 44 - 3.5 - 12 in = 723.9 mm; a strake of 60 mm with
    // its middle at 720 mm reaches to 750 mm, and the straightedge wants 20 mm more.
    let mut input = boat_with_edge(inches(44.0), 0.0);
    let at = |input: &crate::boat::BoatInput| {
        let placement = Placement::new(&built(input.clone()), pair(24.0, 9.0), None);
        placement.expect("room").gauge_along().get::<millimeter>()
    };
    assert_relative_eq!(at(&input), 723.9, max_relative = 1e-9);
    let strake = Strake { off_centre: mm(720.0), width: mm(60.0), depth: mm(20.0) };
    input.transom.strakes = vec![strake];
    assert_relative_eq!(at(&input), 770.0, max_relative = 1e-9);
    input.transom.strakes[0].off_centre = mm(400.0);
    assert_relative_eq!(at(&input), 723.9, max_relative = 1e-9);
}

#[test]
fn physics_another_check_where_the_middle_is_taken() {
    let kinds = |drive: Option<DriveKind>| {
        let mut input = boat_with_edge(inches(44.0), 0.0);
        input.drive.kind = drive;
        input.drive.propeller_diameter = Some(mm(400.0));
        let placement = Placement::new(&built(input), pair(24.0, 9.0), None).expect("room");
        let found = placement.checks().into_iter().find(|c| c.kind == CheckKind::ChineToInner);
        found.map(|check| in_inches(check.length))
    };
    assert_eq!(kinds(Some(DriveKind::Shaft)), None);
    // Inner end 27.5 in from the chine and a quarter inch up.
    let found = kinds(Some(DriveKind::Outboard)).expect("a check beside the outboard");
    assert_relative_eq!(found, 27.5_f64.hypot(0.25), max_relative = 1e-9);
}

#[test]
fn physics_planes_keep_clear_of_propellers_chine_and_notch() {
    // By hand, on a flat bottom: two shafts 900 mm apart with propellers of 400 mm of an outboard
    // drive: 450 + 200 + 0.08 of 500 mm. A notch of 1500 mm: 750 + 50. A chine of 60 mm: 60 + 40.
    let mut input = boat_with_edge(mm(2000.0), 0.0);
    input.transom.inner_clearance = None;
    input.transom.outer_clearance = None;
    let bare = built(input.clone());
    let clearances = |boat: &crate::boat::Boat| {
        [boat.transom().inner_clearance, boat.transom().outer_clearance]
            .map(|length| length.get::<millimeter>())
    };
    // Nothing is known: common practice, no source.
    assert_eq!(clearances(&bare).map(f64::round), [200.0, 90.0]);
    input.drive.kind = Some(DriveKind::Outboard);
    input.drive.engines = Some(2.0);
    input.drive.spacing = Some(mm(900.0));
    input.drive.propeller_diameter = Some(mm(400.0));
    input.transom.chine_radius = Some(mm(60.0));
    let twin = built(input.clone());
    for (found, expected) in clearances(&twin).into_iter().zip([690.0, 100.0]) {
        assert_relative_eq!(found, expected, max_relative = 1e-9);
    }
    input.transom.form = Some(TransomForm::Notched);
    input.transom.middle_beam = Some(mm(1500.0));
    assert_relative_eq!(clearances(&built(input))[0], 800.0, max_relative = 1e-9);
}

#[test]
fn physics_the_hinge_stands_as_high_as_barrel_and_edge_ask() {
    let on = |change: &dyn Fn(&mut crate::boat::BoatInput), barrel_mm: f64| {
        let mut input = boat_with_edge(inches(44.0), 18.0);
        change(&mut input);
        let mut part = part();
        part.known_mut().hinge_screws.pin_offset = mm(barrel_mm);
        Placement::new(&built(input), pair(24.0, 9.0), Some(&part)).expect("room")
    };
    let height = |placement: &Placement| placement.hinge.height.get::<millimeter>();
    // Barrel 3 and edge 2 mm stay below the quarter inch that is planned; barrel 9 mm does not.
    assert_relative_eq!(height(&on(&|_| (), 3.0)), 6.35, max_relative = 1e-9);
    let raised = on(&|_| (), 9.0);
    assert_relative_eq!(height(&raised), 11.0, max_relative = 1e-9);
    assert_relative_eq!(raised.transom.hinge_height.get::<millimeter>(), 11.0, max_relative = 1e-9);
    assert!(raised.notes.iter().any(|note| matches!(note, Note::HingeRaised(..))));
    let round = on(&|input| input.transom.lower_edge_radius = Some(mm(15.0)), 3.0);
    assert_relative_eq!(height(&round), 15.0, max_relative = 1e-9);
    let given = on(&|input| input.transom.hinge_height = Some(mm(4.0)), 3.0);
    assert_relative_eq!(height(&given), 4.0, max_relative = 1e-9);
    assert!(given.notes.iter().any(|note| matches!(note, Note::HingeTooLow(_))));
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
    let blocked = |placement: &Placement| placement.checks().iter().any(|check| check.blocked);
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
    let up = 1.5_f64.to_radians();
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
        let check = placement.checks().into_iter().find(|check| check.kind == kind);
        in_inches(check.expect("every kind is there").length)
    };
    // Inner edge 16.5 in, outer 40.5 in; datum 0.12 of 88 in, up to 300 mm; hinge 1/4 in up.
    let drop = 300.0 / 25.4 - 0.25;
    assert_relative_eq!(length(CheckKind::DatumToInner), 16.5_f64.hypot(drop), max_relative = 1e-9);
    assert_relative_eq!(length(CheckKind::DatumToOuter), 40.5_f64.hypot(drop), max_relative = 1e-9);
    assert_relative_eq!(length(CheckKind::Cross), 57.0, max_relative = 1e-9);
}

#[test]
fn practice_what_the_transom_asks_for_is_noted() {
    let noted = |change: &dyn Fn(&mut crate::boat::BoatInput)| {
        let mut input = boat_with_edge(inches(44.0), 18.0);
        change(&mut input);
        let placement = Placement::new(&built(input), pair(24.0, 9.0), Some(&part()));
        placement.expect("room").notes.iter().map(Note::word).collect::<Vec<_>>()
    };
    assert!(noted(&|input| input.transom.unevenness = Some(mm(4.0))).contains(&"transom-uneven"));
    let raked = |input: &mut crate::boat::BoatInput| {
        input.transom.rake = Some(Angle::new::<degree>(12.0));
    };
    assert!(noted(&raked).contains(&"transom-raked"));
    let pod = |input: &mut crate::boat::BoatInput| {
        input.transom.form = Some(TransomForm::Pod);
        input.transom.middle_beam = Some(mm(300.0));
    };
    assert!(noted(&pod).contains(&"transom-pod"));
    let thin = |input: &mut crate::boat::BoatInput| input.transom.thickness = Some(mm(30.0));
    assert!(noted(&thin).contains(&"screw-too-long"));
}

#[test]
fn practice_the_lead_through_is_as_wide_as_what_passes_it() {
    let boat = built(boat_with_edge(inches(44.0), 18.0));
    let lead = |part: &crate::stock::Part| {
        let placement = Placement::new(&boat, pair(24.0, 9.0), Some(part)).expect("room");
        let lead = placement.holes.iter().find(|hole| hole.kind == HoleKind::Lead);
        (lead.expect("a hole").drill.map(|drill| drill.get::<millimeter>()), placement.notes)
    };
    // 8 mm and a millimetre of sealant all round.
    let (drill, notes) = lead(&part());
    assert_relative_eq!(drill.expect("a drill"), 10.0, max_relative = 1e-9);
    assert!(!notes.contains(&Note::LeadAtScrew));
    let mut unknown = part();
    unknown.known_mut().lead_through = None;
    let (drill, notes) = lead(&unknown);
    assert!(drill.is_none() && notes.contains(&Note::LeadThroughUnknown));
    let mut wide = part();
    wide.known_mut().lead_through = Some(mm(50.0));
    assert!(lead(&wide).1.contains(&Note::LeadAtScrew));
}
