use super::*;

fn deg(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

fn metre(value: f64) -> Length {
    Length::new::<meter>(value)
}

fn dimensions() -> LinkageDimensions {
    LinkageDimensions {
        hinge_height: Length::new::<millimeter>(6.0),
        upper_pin_up_transom: metre(0.26),
        upper_pin_stand_off: metre(0.035),
        lower_pin_aft: metre(0.17),
        lower_pin_above_plate: metre(0.020),
        transom_rake: deg(12.0),
    }
}

/// Upper pin 0.3 m straight up, lower pin 0.4 m aft: sides 3, 4, 5.
fn right_triangle() -> Linkage {
    Linkage::new(&LinkageDimensions {
        hinge_height: metre(0.0),
        upper_pin_up_transom: metre(0.3),
        upper_pin_stand_off: metre(0.0),
        lower_pin_aft: metre(0.4),
        lower_pin_above_plate: metre(0.0),
        transom_rake: deg(0.0),
    })
    .unwrap()
}

#[test]
fn physics_right_triangle_3_4_5_by_hand() {
    // Euclid I.47: length 0.5 m. Area two ways: 0.3·0.4 = 0.5·lever, lever 0.24 m; 120 N·m then
    // needs 500 N. Its parts are 400 N aft and 300 N down; 600 N from below leaves 300 N up.
    let linkage = right_triangle();
    let level = deg(0.0);
    approx::assert_relative_eq!(linkage.length_at(level).unwrap().get::<meter>(), 0.5);
    approx::assert_relative_eq!(linkage.lever_at(level).unwrap().get::<meter>(), 0.24);
    let push = linkage.push_for(Torque::new::<newton_meter>(120.0), level).unwrap();
    approx::assert_relative_eq!(push.get::<newton>(), 500.0, max_relative = 1e-12);
    let reaction = linkage.hinge_reaction(Force::new::<newton>(600.0), metre(0.2), level).unwrap();
    approx::assert_relative_eq!(reaction.aft.get::<newton>(), 400.0, max_relative = 1e-12);
    approx::assert_relative_eq!(reaction.up.get::<newton>(), 300.0, max_relative = 1e-12);
    // Angle at the lower pin: tan = 3/4.
    let angle = linkage.pin_angle_at(level).unwrap().get::<degree>();
    approx::assert_relative_eq!(angle, 36.869_897_645_844, max_relative = 1e-12);
}

#[test]
fn physics_raked_transom_by_hand() {
    // Rake 30°, 0.2 m up the face: upper pin at (0.1, 0.173205). Lower pin 0.3 m aft, plane
    // level: length √(0.2² + 0.03) = √0.07.
    let mut tilted = dimensions();
    tilted.upper_pin_up_transom = metre(0.2);
    tilted.upper_pin_stand_off = metre(0.0);
    tilted.lower_pin_aft = metre(0.3);
    tilted.lower_pin_above_plate = metre(0.0);
    tilted.transom_rake = deg(30.0);
    let length = |d: &LinkageDimensions| {
        let linkage = Linkage::new(d).unwrap();
        linkage.length_at(deg(0.0)).unwrap().get::<meter>()
    };
    approx::assert_relative_eq!(length(&tilted), 0.07f64.sqrt(), max_relative = 1e-12);
    // Forward-leaning top: upper pin at (−0.1, 0.173205), length √(0.4² + 0.03).
    tilted.transom_rake = deg(-30.0);
    approx::assert_relative_eq!(length(&tilted), 0.19f64.sqrt(), max_relative = 1e-12);
}

#[test]
fn physics_hinge_reaction_turns_with_the_transom() {
    // Same size seen along and across a raked face; with no rake the two pairs are one.
    let load = Force::new::<newton>(600.0);
    let plumb = right_triangle();
    let reaction = plumb.hinge_reaction(load, metre(0.2), deg(5.0)).unwrap();
    assert_eq!(reaction.aft, reaction.off_transom);
    assert_eq!(reaction.up, reaction.along_transom);
    let mut leaning = dimensions();
    leaning.transom_rake = deg(30.0);
    let raked = Linkage::new(&leaning).unwrap();
    let reaction = raked.hinge_reaction(load, metre(0.1), deg(5.0)).unwrap();
    let size = |a: Force, b: Force| a.get::<newton>().hypot(b.get::<newton>());
    approx::assert_relative_eq!(
        size(reaction.aft, reaction.up),
        size(reaction.off_transom, reaction.along_transom),
        max_relative = 1e-12
    );
    // By hand, cos 30° and sin 30°: a top that leans aft turns an upward force onto the face.
    let off = reaction.aft.get::<newton>() * 0.866_025_403_784 - 0.5 * reaction.up.get::<newton>();
    approx::assert_relative_eq!(reaction.off_transom.get::<newton>(), off, max_relative = 1e-9);
}

#[test]
fn physics_length_and_deflection_are_inverse() {
    let linkage = Linkage::new(&dimensions()).unwrap();
    for tenth_deg in -300..=300 {
        let deflection = deg(f64::from(tenth_deg) / 10.0);
        let length = linkage.length_at(deflection).unwrap();
        let back = linkage.deflection_at(length).unwrap();
        approx::assert_abs_diff_eq!(
            back.get::<degree>(),
            deflection.get::<degree>(),
            epsilon = 1e-9
        );
    }
}

#[test]
fn physics_push_by_virtual_work_equals_static_equilibrium() {
    let linkage = Linkage::new(&dimensions()).unwrap();
    let moment = Torque::new::<newton_meter>(150.0);
    for deflection_deg in [-10.0, 0.0, 5.0, 15.0] {
        // Virtual work: M dδ = F dℓ, by central difference of the length.
        let step_deg: f64 = 1e-3;
        let length = |d: f64| linkage.length_at(deg(d)).unwrap().get::<meter>();
        let rate = (length(deflection_deg + step_deg) - length(deflection_deg - step_deg))
            / (2.0 * step_deg.to_radians());
        let push = linkage.push_for(moment, deg(deflection_deg)).unwrap();
        approx::assert_relative_eq!(push.get::<newton>(), 150.0 / rate, max_relative = 1e-7);
        // Statics: moment of the push about the hinge by the cross product of pin and direction.
        let lower = linkage.lower_m(deflection_deg.to_radians());
        let along = [0, 1].map(|i| lower[i] - linkage.upper_m[i]);
        let size = along[0].hypot(along[1]);
        let opening = -(lower[0] * along[1] - lower[1] * along[0]) / size;
        approx::assert_relative_eq!(push.get::<newton>() * opening, 150.0, max_relative = 1e-12);
    }
}

#[test]
fn physics_travel_and_range_are_inverse() {
    let linkage = Linkage::new(&dimensions()).unwrap();
    let travel = linkage.travel_between(deg(-5.0), deg(15.0)).unwrap();
    let (least, most) = linkage.deflection_range(&travel).unwrap();
    approx::assert_relative_eq!(least.get::<degree>(), -5.0, max_relative = 1e-9);
    approx::assert_relative_eq!(most.get::<degree>(), 15.0, max_relative = 1e-9);
    let none = linkage.extension_for(deg(-5.0), &travel).unwrap();
    approx::assert_abs_diff_eq!(none.get::<millimeter>(), 0.0, epsilon = 1e-6);
    let all = linkage.extension_for(deg(15.0), &travel).unwrap();
    approx::assert_relative_eq!(all.value, travel.stroke.value, max_relative = 1e-9);
}

#[test]
fn practice_quarter_inch_hinge_height_leaves_a_dead_band() {
    // Common practice, no source: a hinge 1/4 in up touches at about 1.6° on a 9 in chord and
    // 1.2° on a 12 in chord.
    let mut high = dimensions();
    high.hinge_height = Length::new::<millimeter>(6.35);
    let linkage = Linkage::new(&high).unwrap();
    for (chord_mm, expected_deg) in [(228.6, 1.6), (304.8, 1.2)] {
        let touching = linkage.touching_deflection(Length::new::<millimeter>(chord_mm)).unwrap();
        approx::assert_abs_diff_eq!(touching.get::<degree>(), expected_deg, epsilon = 0.05);
    }
}

#[test]
fn error_dead_centre_names_where_and_what_to_do() {
    // Upper pin straight above: the pins line up through the hinge at 90° down; 88° is 2° short
    // of it, where the line passes (0.3·0.4·sin 178°)/ℓ = 6.0 mm from the hinge.
    let text = right_triangle().length_at(deg(88.0)).unwrap_err().to_string();
    assert_eq!(
        text,
        "at a deflection of 88.0° the actuator's line passes 6.0 mm from the hinge (dead \
         centre): it cannot turn the plane there; move the upper pin aft or up, or shorten the \
         travel"
    );
    // Lower pin far above a plate that is raised past the upper pin's line: past the centre.
    let mut crossed = dimensions();
    crossed.lower_pin_above_plate = metre(0.16);
    crossed.transom_rake = deg(40.0);
    let linkage = Linkage::new(&crossed).unwrap();
    match linkage.length_at(deg(-20.0)).unwrap_err() {
        LinkageError::DeadCentre { lever_mm, .. } => assert!(lever_mm < 0.0),
        other => panic!("{other}"),
    }
}

#[test]
fn error_lengths_out_of_reach_and_over_travel() {
    let linkage = right_triangle();
    for length_m in [0.05, 0.1, 0.7, 2.0] {
        match linkage.deflection_at(metre(length_m)).unwrap_err() {
            LinkageError::LengthOutOfReach { shortest_mm, longest_mm, .. } => {
                approx::assert_relative_eq!(shortest_mm, 100.0, max_relative = 1e-9);
                approx::assert_relative_eq!(longest_mm, 700.0, max_relative = 1e-9);
            }
            other => panic!("{other}"),
        }
    }
    let travel = linkage.travel_between(deg(0.0), deg(15.0)).unwrap();
    let text = linkage.extension_for(deg(18.0), &travel).unwrap_err().to_string();
    assert_eq!(
        text,
        "a deflection of 18.0° is beyond the travel: this stroke gives 0.0° to 15.0°; take a \
         longer stroke, or move the lower pin nearer the hinge"
    );
}

#[test]
fn error_impossible_measurements() {
    let mut flat = dimensions();
    flat.lower_pin_aft = metre(0.0);
    assert!(matches!(Linkage::new(&flat), Err(LinkageError::Input(_))));
    let linkage = right_triangle();
    assert!(linkage.length_at(deg(-91.0)).is_err());
    assert!(linkage.length_at(deg(f64::NAN)).is_err());
    assert!(linkage.travel_between(deg(5.0), deg(5.0)).is_err());
    assert!(linkage.touching_deflection(metre(0.0)).is_err());
}

/// Retracted, the actuator holds the plane where it was asked to: the module's own triangle, solved the other way round.
#[test]
fn physics_the_bracket_height_holds_the_plane_where_it_is_asked_to() {
    let raised = deg(-1.6);
    for rake_deg in [-12.0, 0.0, 14.0] {
        for retracted_m in [0.190, 0.214, 0.260] {
            let mut linkage = dimensions();
            linkage.transom_rake = deg(rake_deg);
            let travel = Travel { retracted_length: metre(retracted_m), stroke: metre(0.05) };
            linkage.upper_pin_up_transom =
                linkage.upper_pin_for(travel.retracted_length, raised).expect("in reach");
            let (held, _) = Linkage::new(&linkage).unwrap().deflection_range(&travel).unwrap();
            approx::assert_relative_eq!(
                held.get::<degree>(),
                raised.get::<degree>(),
                max_relative = 1e-9
            );
        }
    }
}

#[test]
fn error_an_actuator_too_short_to_reach_has_no_bracket() {
    assert_eq!(dimensions().upper_pin_for(metre(0.127), deg(-1.6)), None);
}
