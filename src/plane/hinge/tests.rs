use uom::si::angle::degree;

use super::*;

/// Whole pressure difference of a thin aerofoil with a flap, as in H. Glauert, ARC R&M 1095
/// (1927), before halving, per radian of trim and of deflection, `offset` past the hinge angle.
fn aerofoil_pressures(offset: f64, hinge: f64) -> (f64, f64) {
    let cot = 1.0 / (0.5 * (hinge + offset)).tan();
    let log = ((hinge + 0.5 * offset).sin() / (0.5 * offset).sin()).ln();
    (4.0 * cot, 4.0 / PI * ((PI - hinge) * cot + log))
}

/// Load and moment on the flap of the half aerofoil by midpoint quadrature in `θ`, with
/// `θ − θ_h = (π − θ_h) t³`, which flattens the logarithm at the hinge. (In `θ` the leading
/// edge is no singularity.)
fn quadrature(chord_ratio: f64) -> [f64; 4] {
    let hinge = (2.0 * chord_ratio - 1.0).acos();
    let steps = 20_000;
    let mut sums = [0.0; 4];
    for i in 0..steps {
        let t = (i as f64 + 0.5) / steps as f64;
        let offset = (PI - hinge) * t.powi(3);
        let d_theta = (PI - hinge) * 3.0 * t.powi(2) / steps as f64;
        let (trim, deflection) = aerofoil_pressures(offset, hinge);
        let dx = 0.5 * (hinge + offset).sin() * d_theta;
        let arm = 0.5 * (hinge.cos() - (hinge + offset).cos());
        for (sum, term) in sums.iter_mut().zip([
            0.5 * deflection * dx,
            0.5 * deflection * dx * arm,
            0.5 * trim * dx,
            0.5 * trim * dx * arm,
        ]) {
            *sum += term;
        }
    }
    sums
}

#[test]
fn published_glauert_pressure_integrates_to_the_closed_forms() {
    // H. Glauert, ARC R&M 1095 (1927): the pressure; integrated here by quadrature whose own
    // error is under 1e-7.
    for chord_ratio in [0.01, 0.03, 0.05, 0.10, 0.25, 0.5, 0.9] {
        let phi = flap_angle_rad(chord_ratio);
        let closed = [
            deflection_load_factor(phi),
            deflection_moment_factor(phi),
            trim_load_factor(phi),
            trim_moment_factor(phi),
        ];
        for (exact, summed) in closed.iter().zip(quadrature(chord_ratio)) {
            approx::assert_relative_eq!(*exact, summed, max_relative = 1e-6);
        }
    }
}

#[test]
fn published_whole_plate_as_flap_is_half_of_thin_aerofoil_theory() {
    // E = 1: the flap is the plate. Aerofoil 2π per radian and centre at the quarter chord
    // (Munk 1922; any aerodynamics text); a planing plate half of that.
    let phi = flap_angle_rad(1.0);
    for (load, moment) in [
        (deflection_load_factor(phi), deflection_moment_factor(phi)),
        (trim_load_factor(phi), trim_moment_factor(phi)),
    ] {
        approx::assert_relative_eq!(load, PI, max_relative = 1e-12);
        approx::assert_relative_eq!(moment / load, 0.25, max_relative = 1e-12);
    }
}

fn flow(chord_m: f64, wetted_m: f64, deflection_deg: f64, trim_deg: f64) -> PlateFlow {
    PlateFlow {
        dynamic_pressure: Pressure::new::<pascal>(60_000.0),
        chord: Length::new::<meter>(chord_m),
        span: Length::new::<meter>(0.6),
        wetted_length: Length::new::<meter>(wetted_m),
        chine_beam: Length::new::<meter>(2.25),
        deflection: Angle::new::<degree>(deflection_deg),
        trim: Angle::new::<degree>(trim_deg),
        speed_coefficient: 3.0,
    }
}

/// The cross-check alone.
fn thin_plate(flow: &PlateFlow, trim_load: TrimLoad) -> ThinPlate {
    expected_load(flow, Force::default(), trim_load).unwrap().thin_plate
}

/// Lift of the one plane of a flow by 0.046 per degree on its area: Savitsky & Brown 1976, eq. 5.
fn lift_of(flow: &PlateFlow) -> Force {
    let area_m2 = flow.chord.get::<meter>() * flow.span.get::<meter>();
    let pressure_pa = flow.dynamic_pressure.get::<pascal>();
    Force::new::<newton>(0.046 * flow.deflection.get::<degree>() * area_m2 * pressure_pa)
}

#[test]
fn physics_small_flap_limits() {
    // Series by hand as E → 0: 4/π per radian at c_p/3; trim part at 0.4 c_p.
    let chord_m = 0.25;
    let far = flow(chord_m, 25_000.0, 5.0, 5.0);
    let load = thin_plate(&far, TrimLoad::TwoDimensional);
    let slope =
        load.parts[0].force.get::<newton>() / (60_000.0 * 0.6 * chord_m * 5f64.to_radians());
    approx::assert_relative_eq!(slope, 4.0 / PI, max_relative = 1e-4);
    let centre = |i: usize| load.parts[i].centre_aft_of_hinge().unwrap().get::<meter>();
    approx::assert_relative_eq!(centre(0), chord_m / 3.0, max_relative = 1e-4);
    approx::assert_relative_eq!(centre(1), 0.4 * chord_m, max_relative = 1e-4);
}

#[test]
fn physics_usual_planes_carry_1_3_per_radian_near_a_third_of_the_chord() {
    // The round figure in common use for the theory, 1.3 per radian or 0.0227 per degree.
    for wetted_m in [3.0, 4.0, 6.0, 8.0] {
        let load = thin_plate(&flow(0.25, wetted_m, 1.0, 0.0), TrimLoad::Neglected);
        let per_degree = load.total.force.get::<newton>() / (60_000.0 * 0.6 * 0.25);
        approx::assert_relative_eq!(per_degree, 0.0227, max_relative = 0.025);
        let centre_m = load.total.centre_aft_of_hinge().unwrap().get::<meter>();
        approx::assert_relative_eq!(centre_m, 0.25 / 3.0, max_relative = 0.02);
    }
}

#[test]
fn physics_total_is_the_sum_and_scales_with_pressure_and_span() {
    let base = flow(0.25, 4.0, 8.0, 4.0);
    let load = thin_plate(&base, TrimLoad::default());
    let sum: Force = load.parts.iter().map(|part| part.force).sum();
    approx::assert_relative_eq!(sum.get::<newton>(), load.total.force.get::<newton>());
    let mut twice = base;
    twice.dynamic_pressure *= 2.0;
    twice.span *= 3.0;
    let larger = thin_plate(&twice, TrimLoad::default());
    let ratio = larger.total.hinge_moment / load.total.hinge_moment;
    approx::assert_relative_eq!(ratio.value, 6.0, max_relative = 1e-12);
}

#[test]
fn physics_trim_part_is_small_on_a_finite_plate_and_zero_when_neglected() {
    let flow = flow(0.25, 6.0, 8.0, 4.0);
    let trim_force = |choice| thin_plate(&flow, choice).parts[1].force.get::<newton>();
    let plane = trim_force(TrimLoad::TwoDimensional);
    let finite = trim_force(TrimLoad::FinitePlate);
    assert!(finite > 0.0 && finite < 0.02 * plane);
    assert_eq!(trim_force(TrimLoad::Neglected), 0.0);
    assert_eq!(TrimLoad::default(), TrimLoad::FinitePlate);
}

#[test]
fn physics_finite_plate_share_fits_the_vortex_lattice() {
    // Independent solution: quasi-vortex lattice (C. E. Lan, J. Aircraft 11(9), 1974, from
    // memory). 20 chordwise points, the last four on the strip; the lattice is first made to
    // show that it knows the two-dimensional value within 3 %.
    let wide = lattice::trim_load_on_strip(400.0, 20, 4);
    approx::assert_relative_eq!(wide, 1.0, max_relative = 0.03);
    for aspect in [0.2, 0.25, 1.0 / 3.0, 0.5, 1.0, 2.0, 4.0] {
        let solved = lattice::trim_load_on_strip(aspect, 20, 4) / wide;
        approx::assert_relative_eq!(finite_plate_share(aspect), solved, max_relative = 0.10);
    }
}

#[test]
fn physics_a_raised_plane_runs_dry_instead_of_sucking() {
    let raised = flow(0.25, 4.0, -3.0, 3.0);
    let load = expected_load(&raised, lift_of(&raised), TrimLoad::FinitePlate).unwrap();
    for part in [&load.total, &load.thin_plate.total] {
        assert_eq!(part.force.get::<newton>(), 0.0);
        assert_eq!(part.centre_aft_of_hinge(), None);
    }
    assert!(load.flags.contains(&HingeFlag::PlateDry));
}

#[test]
fn published_savitsky_brown_1976_equation_8() {
    // Marine Technology 13(4), eqs. 5 and 8, by hand in the paper's own units: chord 1 ft, 18 ft of
    // span, 5 deg, 25.4 kn = 42.87 ft/s in sea water of 1.9905 slug/ft^3, so that q is 1829 lbf/ft^2,
    // the lift 0.046 x 1 x 18 x 5 x 1829 = 7572 lbf and the moment 0.139 x 7572 x 1 = 1053 lbf ft.
    // Rounded to four digits.
    let moment_n_m = hinge_moment_n_m(7572.0 * 4.448_222, 0.3048);
    approx::assert_relative_eq!(moment_n_m / (4.448_222 * 0.3048), 1053.0, max_relative = 5e-4);
}

#[test]
fn physics_thin_plate_theory_lies_a_sixth_above_the_tank_tests() {
    // Two sources that know nothing of each other: 16 to 20 % for chords of 1 to 10 % of the
    // wetted length.
    for wetted_m in [2.5, 4.0, 8.0, 25.0] {
        let flow = flow(0.25, wetted_m, 8.0, 3.0);
        let load = expected_load(&flow, lift_of(&flow), TrimLoad::Neglected).unwrap();
        let ratio = (load.thin_plate.total.hinge_moment / load.total.hinge_moment).value;
        assert!((1.15..1.25).contains(&ratio), "{wetted_m} m: {ratio}");
        // Both act at the same place on the plate.
        let arms = [&load.total, &load.thin_plate.total].map(PlateLoad::centre_aft_of_hinge);
        approx::assert_relative_eq!(
            arms[0].unwrap().get::<meter>(),
            arms[1].unwrap().get::<meter>(),
            max_relative = 1e-9
        );
    }
}

#[test]
fn practice_design_load_is_the_whole_lift_at_mid_chord_times_two() {
    let lift = Force::new::<newton>(1500.0);
    let load = design_load(lift, Length::new::<meter>(0.25), DEFAULT_LOAD_FACTOR).unwrap();
    assert_eq!(load.force.get::<newton>(), 3000.0);
    assert_eq!(load.hinge_moment.get::<newton_meter>(), 375.0);
    assert!(design_load(lift, Length::new::<meter>(0.25), 0.9).is_err());
}

#[test]
fn error_flags_and_refusals() {
    let asked = |flow: &PlateFlow, choice| expected_load(flow, lift_of(flow), choice);
    let flags = |flow: &PlateFlow, choice| asked(flow, choice).unwrap().flags;
    let steep = flow(0.5, 4.0, 20.0, 3.0);
    assert_eq!(
        flags(&steep, TrimLoad::FinitePlate),
        [HingeFlag::AngleBeyondTests, HingeFlag::ChordBeyondTests]
    );
    assert_eq!(
        flags(&flow(0.25, 4.0, 5.0, 11.0), TrimLoad::Neglected),
        [HingeFlag::AngleBeyondTests]
    );
    let long = flow(0.25, 12.0, 15.0, 3.0);
    assert_eq!(flags(&long, TrimLoad::FinitePlate), [HingeFlag::AspectOutside]);
    assert_eq!(flags(&long, TrimLoad::Neglected), []);
    let slow = PlateFlow { speed_coefficient: 1.4, ..long };
    assert_eq!(flags(&slow, TrimLoad::Neglected), [HingeFlag::SpeedBeyondTests]);
    assert_eq!(HingeFlag::AspectOutside.word(), "hinge-aspect-outside");
    let text = asked(&flow(0.0, 4.0, 5.0, 3.0), TrimLoad::FinitePlate).unwrap_err().to_string();
    assert_eq!(text, "the plane chord is 0 m; give a finite value above zero");
}

/// A small vortex lattice of a flat rectangular plate at incidence.
mod lattice {
    use std::f64::consts::PI;

    /// Spanwise strips on one half of the plate.
    const STRIPS: usize = 8;

    /// Mean load on the trailing `strip` of `count` chordwise points over the
    /// two-dimensional load there, for a plate of the given beam/length.
    pub fn trim_load_on_strip(aspect: f64, count: usize, strip: usize) -> f64 {
        let vortex_x =
            |k: usize| 0.5 * (1.0 - ((2 * k + 1) as f64 * PI / (2 * count) as f64).cos());
        let control_x = |k: usize| 0.5 * (1.0 - ((k + 1) as f64 * PI / count as f64).cos());
        let half_angle = 0.5 * PI / STRIPS as f64;
        let edge_y = |j: usize| 0.5 * aspect * (j as f64 * half_angle).sin();
        let control_y = |j: usize| 0.5 * aspect * ((j as f64 + 0.5) * half_angle).sin();
        let size = count * STRIPS;
        let mut rows = vec![vec![1.0; size + 1]; size];
        for (r, row) in rows.iter_mut().enumerate() {
            let (x, y) = (control_x(r / STRIPS), control_y(r % STRIPS));
            for (c, cell) in row.iter_mut().take(size).enumerate() {
                let (dx, j) = (x - vortex_x(c / STRIPS), c % STRIPS);
                *cell = downwash(dx, y - edge_y(j), y - edge_y(j + 1))
                    + downwash(dx, y + edge_y(j + 1), y + edge_y(j));
            }
        }
        let circulation = solve(rows);
        let load: f64 = (size - strip * STRIPS..size)
            .map(|i| 2.0 * circulation[i] * (edge_y(i % STRIPS + 1) - edge_y(i % STRIPS)))
            .sum();
        let phi = strip as f64 * PI / count as f64;
        (load * 2.0 / aspect) / (2.0 * (phi - phi.sin()))
    }

    /// Downwash of a unit horseshoe vortex whose legs pass `left` and `right` of the point.
    fn downwash(dx: f64, left: f64, right: f64) -> f64 {
        let leg = |dy: f64| (1.0 + dx.hypot(dy) / dx) / dy;
        (leg(left) - leg(right)) / (4.0 * PI)
    }

    /// Gauss elimination with row exchange.
    fn solve(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
        let size = rows.len();
        for k in 0..size {
            let pivot =
                (k..size).max_by(|&a, &b| rows[a][k].abs().total_cmp(&rows[b][k].abs())).unwrap();
            rows.swap(k, pivot);
            let (upper, lower) = rows.split_at_mut(k + 1);
            for row in lower {
                let ratio = row[k] / upper[k][k];
                for (cell, above) in row.iter_mut().zip(&upper[k]).skip(k) {
                    *cell -= ratio * above;
                }
            }
        }
        let mut answer = vec![0.0; size];
        for k in (0..size).rev() {
            let known: f64 = (k + 1..size).map(|c| rows[k][c] * answer[c]).sum();
            answer[k] = (rows[k][size] - known) / rows[k][k];
        }
        answer
    }
}
