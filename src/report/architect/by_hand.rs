//! One speed worked through by hand: every equation with the numbers put into it.

use uom::si::f64::Angle;
use uom::si::{angle::degree, length::meter, velocity::meter_per_second};

use super::budget::key_speeds;
use crate::balance::forces::Prism;
use crate::balance::{Balance, LiftModel, Method, Point, Running, Settings};
use crate::boat::Boat;
use crate::document::{Block, Column, Table};
use crate::hydro::{friction, hump, lift, pressure_centre, tank_fit, wetted};
use crate::physical::STANDARD_GRAVITY_M_S2;
use crate::plane::effect;
use crate::report::equations::number_of;
use crate::report::gather::Gathered;
use crate::report::{ReportError, say};
use crate::size::ScheduleRow;

/// Left of the balances, as a share of the weight, that rounding of the trim and of the length explains.
const CLOSED: f64 = 1e-6;

/// One equation with its numbers.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Step {
    /// What the row of the table of equations gives.
    equation: &'static str,
    /// What is computed, with its symbol.
    what: &'static str,
    /// The equation with the numbers in it.
    with: String,
    /// What it comes to, with its unit.
    comes_to: String,
}

/// A boat at a speed, worked through; SI, angles in degrees.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Worked {
    pub steps: Vec<Step>,
    pub thrust_n: f64,
    pub resistance_n: f64,
    /// What is left of the vertical balance over the weight, and of the moments over weight × beam.
    pub left: [f64; 2],
}

/// The first of the speeds that matter at which she runs, with the planes as advised there; nothing for other equations than the usual ones.
pub(super) fn section(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let settings = &gathered.size.settings;
    let loading = gathered.main_loading();
    let boat = gathered.fitted(loading)?;
    let balance = Balance::of(&boat, settings);
    for (name, speed) in key_speeds(gathered) {
        let row = ScheduleRow::nearest(&gathered.schedules[loading], speed);
        let deflection = match (gathered.advised.pair(), row) {
            (Some(_), Some(row)) => row.deflection,
            _ => Angle::default(),
        };
        let point = balance.point(speed, deflection)?;
        let Some(worked) = worked(&boat, settings, &point) else { continue };
        let at = say::speed(speed, gathered.size.units);
        let several = gathered.size.boats.len() > 1;
        let planes = match gathered.advised.pair() {
            Some(_) => format!(", planes {} down", say::angle(deflection)),
            None => String::new(),
        };
        return Ok(vec![
            Block::Section("One speed by hand".to_owned()),
            Block::Paragraph(format!(
                "{at} {name}{planes}{}. Trim and mean wetted length are what the balances have settled at; put in, every number follows from the equations, and the balances close. SI, angles in degrees, whatever units the paper is in; the numbers in brackets are those of ‘Equations used’.",
                say::loaded(&boat, several)
            )),
            Block::Table(table(&worked.steps)),
        ]);
    }
    Ok(Vec::new())
}

fn table(steps: &[Step]) -> Table {
    let of = |value: fn(&Step) -> String| steps.iter().map(value).collect();
    Table {
        columns: vec![
            Column::words("no.", of(|step| number_of(step.equation))),
            Column::words("what", of(|step| step.what.to_owned())),
            Column::words("with its numbers", of(|step| step.with.clone())),
            Column::words("comes to", of(|step| step.comes_to.clone())),
        ],
        ..Table::default()
    }
}

/// A number with five digits.
fn five(value: f64) -> String {
    let magnitude = value.abs();
    if magnitude != 0.0 && !(1e-3..1e6).contains(&magnitude) {
        return format!("{value:.4e}");
    }
    #[allow(clippy::cast_possible_truncation)]
    let whole = match magnitude {
        small if small > 0.0 && small < 0.1 => small.log10().floor() as i32,
        magnitude if magnitude >= 1.0 => magnitude.log10().floor() as i32,
        _ => 0,
    };
    let decimals = usize::try_from(4 - whole).unwrap_or(0);
    format!("{value:.decimals$}")
}

fn squared(value: f64) -> String {
    format!("{}²", five(value))
}

/// A product with the factor that brings her to what was read on the water, where there is one.
fn by_reading(factor: f64, product: String) -> String {
    if factor == 1.0 {
        product
    } else {
        format!("{} (as read on the water) × {product}", five(factor))
    }
}

/// Collects the steps.
#[derive(Default)]
struct Steps(Vec<Step>);

impl Steps {
    fn add(
        &mut self,
        equation: &'static str,
        what: &'static str,
        with: String,
        value: f64,
        unit: &str,
    ) {
        let comes_to = format!("{} {unit}", five(value)).trim_end().to_owned();
        self.0.push(Step { equation, what, with, comes_to });
    }
}

/// The steps of a point; none where the boat does not run, and for other equations than Savitsky's as printed or corrected.
pub(super) fn worked(boat: &Boat, settings: &Settings, point: &Point) -> Option<Worked> {
    let usual = settings.model == LiftModel::Savitsky1964
        && settings.method.is_full_balance()
        && !settings.whisker_spray
        && settings.friction_density.is_none();
    let running = point.running.as_ref().filter(|_| usual)?;
    Some(Sheet::new(boat, settings, point, running).work())
}

/// What is put in.
struct Sheet<'a> {
    prism: Prism,
    settings: &'a Settings,
    size: Option<(f64, f64)>,
    speed_m_s: f64,
    deflection_deg: f64,
    trim_deg: f64,
    length: f64,
    steps: Steps,
}

/// The bottom.
struct Bottom {
    q_pa: f64,
    normal_n: f64,
    /// Centre of pressure forward of the mean trailing edge.
    centre_m: f64,
    friction_n: f64,
}

/// The planes; nothing where they are up.
#[derive(Default)]
struct Planes {
    lift_n: f64,
    centre_m: f64,
    edge_m: f64,
    /// Where the lift acts, and at the edge.
    drag_n: [f64; 2],
}

impl<'a> Sheet<'a> {
    fn new(boat: &Boat, settings: &'a Settings, point: &Point, running: &Running) -> Self {
        Self {
            prism: Prism::new(boat, settings),
            settings,
            size: boat.planes().map(|pair| (pair.span.get::<meter>(), pair.chord.get::<meter>())),
            speed_m_s: point.speed.get::<meter_per_second>(),
            deflection_deg: point.deflection.get::<degree>(),
            trim_deg: running.trim.get::<degree>(),
            length: running.wetted_length_ratio,
            steps: Steps::default(),
        }
    }

    fn work(mut self) -> Worked {
        let q_pa = 0.5 * self.prism.density_kg_m3 * self.speed_m_s.powi(2);
        let planes = self.planes(q_pa);
        let bottom = self.bottom(q_pa);
        self.wetted(planes.edge_m);
        let horizontal = self.outside(bottom.q_pa);
        self.balances(&bottom, &planes, horizontal)
    }

    fn planes(&mut self, q_pa: f64) -> Planes {
        let (v, rho) = (self.speed_m_s, self.prism.density_kg_m3);
        self.steps.add(
            "mean bottom speed",
            "dynamic pressure q",
            format!("½ × {} × {}", five(rho), squared(v)),
            q_pa,
            "Pa",
        );
        let Some((span_m, chord_m)) = self.size.filter(|_| self.deflection_deg > 0.0) else {
            return Planes::default();
        };
        let (prism, delta) = (&self.prism, self.deflection_deg);
        let (b, h) = (prism.beam_m, prism.hinge_height_m);
        let ratio = 2.0 * effect::span_ratio_of_one(span_m, b, prism.cos_deadrise);
        let wet_m = effect::wet_chord_m(chord_m, h, delta);
        let lift_n = prism.effectiveness * effect::lift_n(ratio * b * wet_m, delta, q_pa);
        let edge_m = ratio * wet_m * effect::fade_in(delta);
        let centre_m = effect::centre_of_lift_m(b, edge_m);
        let tangent = self.trim_deg.to_radians().tan();
        let drag_n = effect::drag_parts_n(lift_n, self.trim_deg, tangent, delta);
        let steps = &mut self.steps;
        let of_lift = "lift of the planes";
        steps.add(
            of_lift,
            "share of the span σ",
            format!("2 × {} cos {}°/{}", five(span_m), five(prism.deadrise_deg), five(b)),
            ratio,
            "",
        );
        steps.add(
            of_lift,
            "wet chord w",
            format!("{} − {}/tan {}°", five(chord_m), five(h), five(delta)),
            wet_m,
            "m",
        );
        steps.add(
            of_lift,
            "lift of both ΔL",
            format!(
                "0.046 × {} × {} × {} × {} × {} × {}",
                five(wet_m),
                five(ratio),
                five(delta),
                five(b),
                five(q_pa),
                five(prism.effectiveness)
            ),
            lift_n,
            "N",
        );
        steps.add(
            of_lift,
            "mean trailing edge aft of the transom e",
            format!("{} × {} (1 − e^−{})", five(ratio), five(wet_m), five(delta)),
            edge_m,
            "m",
        );
        steps.add(
            of_lift,
            "lift ahead of the transom x_L",
            format!("0.6 × {} − {}", five(b), five(edge_m)),
            centre_m,
            "m",
        );
        steps.add(
            "drag of the planes",
            "drag ΔD",
            format!(
                "{} tan {}° + 0.0052 × {} ({} + {})",
                five(lift_n),
                five(self.trim_deg),
                five(lift_n),
                five(self.trim_deg),
                five(delta)
            ),
            drag_n.iter().sum(),
            "N",
        );
        Planes { lift_n, centre_m, edge_m, drag_n }
    }

    fn bottom(&mut self, q_pa: f64) -> Bottom {
        let prism = &self.prism;
        let (tau, beta, lambda, b) = (self.trim_deg, prism.deadrise_deg, self.length, prism.beam_m);
        let cv = prism.speed_coefficient(self.speed_m_s);
        let cosine = tau.to_radians().cos();
        let [lift_deg, drag_deg] = [prism.trim_for_lift_deg(tau), prism.trim_for_drag_deg(tau)];
        let flat = lift::flat_plate(lift_deg, lambda, cv);
        let form = &prism.settings.form;
        let lift_coefficient = lift::with_deadrise(flat, beta) * form.lift;
        let normal_n = lift_coefficient * q_pa * b * b / drag_deg.to_radians().cos();
        let factor = match self.settings.method {
            Method::BestEstimate => tank_fit::centre_of_pressure_factor(beta, cv),
            _ => 1.0,
        };
        let read = form.centre_of_pressure;
        let centre_m =
            factor * read * pressure_centre::share_of_wetted_length(lambda, cv) * lambda * b;
        let dynamic = form.lift
            * lift::with_deadrise(
                lift::flat_plate_dynamic(lift::trim_factor(lift_deg), lambda),
                beta,
            );
        let ratio = friction::mean_bottom_speed_ratio_squared(dynamic, lambda, cosine).sqrt();
        let bottom_m_s = ratio * self.speed_m_s;
        let reynolds = bottom_m_s * lambda * b / prism.viscosity_m2_s;
        let coefficient = self.settings.friction_line.coefficient(reynolds).unwrap_or(f64::NAN);
        let friction_n = 0.5
            * prism.density_kg_m3
            * bottom_m_s.powi(2)
            * lambda
            * b
            * b
            * (coefficient + prism.correlation_allowance)
            / prism.cos_deadrise;
        let [t, l, c, d] = [tau, lambda, cv, beta].map(five);
        let [t_lift, t_drag] = [lift_deg, drag_deg].map(five);
        let steps = &mut self.steps;
        if prism.chine_to_keel_deg != 0.0 {
            let warp = five(prism.chine_to_keel_deg);
            for (what, share, value) in
                [("trim for the lift", "0.12", lift_deg), ("trim for the drag", "0.5", drag_deg)]
            {
                steps.add("warped bottom", what, format!("{t} + {share} × {warp}"), value, "deg");
            }
        }
        steps.add(
            "lift of a flat bottom",
            "speed coefficient Cv",
            format!("{}/√({} × {})", five(self.speed_m_s), five(STANDARD_GRAVITY_M_S2), five(b)),
            cv,
            "",
        );
        steps.add(
            "lift of a flat bottom",
            "C_L0",
            format!("{t_lift}^1.1 (0.0120 √{l} + 0.0055 × {l}^2.5/{c}²)"),
            flat,
            "",
        );
        steps.add(
            "lift with deadrise",
            "C_Lβ",
            by_reading(form.lift, format!("({} − 0.0065 × {d} × {}^0.60)", five(flat), five(flat))),
            lift_coefficient,
            "",
        );
        steps.add(
            "lift with deadrise",
            "pressure force N",
            format!("{} × {} × {}/cos {t_drag}°", five(lift_coefficient), five(q_pa), squared(b)),
            normal_n,
            "N",
        );
        if factor != 1.0 {
            let [_, slow, from_middle, _] = tank_fit::terms(beta, cv);
            let [one, by_slow, by_deadrise, by_both] = tank_fit::COEFFICIENTS;
            steps.add(
                "best estimate",
                "factor k",
                format!(
                    "1 + ({one}) + {by_slow} × {slow} + ({by_deadrise} + {by_both} × {slow}) × {from_middle}; s = {slow} of 1/{c}² counts, and a deadrise of 10 to 30°",
                    slow = five(slow),
                    from_middle = five(from_middle),
                ),
                factor,
                "",
            );
        }
        steps.add(
            "centre of pressure",
            "centre of pressure l_p",
            by_reading(
                read,
                format!(
                    "{} × {l} × {} [0.75 − 1/(5.21 × {c}²/{l}² + 2.39)]",
                    five(factor),
                    five(b)
                ),
            ),
            centre_m,
            "m",
        );
        steps.add(
            "mean bottom speed",
            "V_m",
            format!("{} √(1 − {}/({l} cos {t}°))", five(self.speed_m_s), five(dynamic)),
            bottom_m_s,
            "m/s",
        );
        steps.add(
            "friction of the bottom",
            "Re",
            format!("{} × {l} × {}/{}", five(bottom_m_s), five(b), five(prism.viscosity_m2_s)),
            reynolds,
            "",
        );
        steps.add("friction line", "C_f", format!("at Re {}", five(reynolds)), coefficient, "");
        steps.add(
            "friction of the bottom",
            "friction D_f",
            format!(
                "½ × {} × {} × {l} × {} ({} + {})/cos {d}°",
                five(prism.density_kg_m3),
                squared(bottom_m_s),
                squared(b),
                five(coefficient),
                five(prism.correlation_allowance)
            ),
            friction_n,
            "N",
        );
        Bottom { q_pa, normal_n, centre_m, friction_n }
    }

    fn wetted(&mut self, edge_m: f64) {
        let prism = &self.prism;
        let (tau, beta, lambda, b) = (self.trim_deg, prism.deadrise_deg, self.length, prism.beam_m);
        let [t, d] = [tau, beta].map(five);
        let half = format!("tan {d}°/(2π tan {t}°)");
        for (what, value, sign) in [
            ("wetted keel", wetted::keel(lambda, beta, tau), '+'),
            ("wetted chine", wetted::chine(lambda, beta, tau), '−'),
        ] {
            let with = format!("{} ({} {sign} {half}) − {}", five(b), five(lambda), five(edge_m));
            self.steps.add("wetted keel and chine", what, with, value * b - edge_m, "m");
        }
    }

    /// Drags of air and appendages, with their heights.
    fn outside(&mut self, q_pa: f64) -> [[f64; 2]; 2] {
        let prism = &self.prism;
        let air_pa = 0.5 * crate::physical::AIR_DENSITY_KG_M3 * self.speed_m_s.powi(2);
        let air = [air_pa * prism.air[0], prism.air[1]];
        let appendages = [q_pa * prism.appendages[0], prism.appendages[1]];
        if air[0] > 0.0 {
            self.steps.add(
                "drag of the air",
                "air D_a",
                format!("{} × {}", five(air_pa), five(prism.air[0])),
                air[0],
                "N",
            );
        }
        if appendages[0] > 0.0 {
            self.steps.add(
                "drag of the air",
                "appendages, alike in water",
                format!("{} × {}", five(q_pa), five(prism.appendages[0])),
                appendages[0],
                "N",
            );
        }
        [air, appendages]
    }

    fn balances(mut self, bottom: &Bottom, planes: &Planes, outside: [[f64; 2]; 2]) -> Worked {
        let prism = &self.prism;
        let (sin, cos) = self.trim_deg.to_radians().sin_cos();
        let drag_deg = prism.trim_for_drag_deg(self.trim_deg);
        let (sin_pressure, cos_pressure) = drag_deg.to_radians().sin_cos();
        let (thrust_deg, weight_n) = (prism.thrust_angle_deg(), prism.weight_n);
        let (sin_sum, cos_sum) = (self.trim_deg + thrust_deg).to_radians().sin_cos();
        let &Bottom { normal_n, friction_n, .. } = bottom;
        let outside_n = outside[0][0] + outside[1][0];
        let drag_n: f64 = planes.drag_n.iter().sum();
        let thrust_n = (normal_n * sin_pressure + friction_n * cos + drag_n + outside_n) / cos_sum;
        let [t, t_drag, n, f, e] =
            [self.trim_deg, drag_deg, normal_n, friction_n, thrust_deg].map(five);
        let plus =
            |value: f64| if value > 0.0 { format!(" + {}", five(value)) } else { String::new() };
        self.steps.add(
            "balance along the course",
            "thrust T",
            format!(
                "({n} sin {t_drag}° + {f} cos {t}°{}{})/cos({t}° + {e}°)",
                plus(drag_n),
                plus(outside_n)
            ),
            thrust_n,
            "N",
        );
        let up_n = normal_n * cos_pressure + thrust_n * sin_sum - friction_n * sin + planes.lift_n;
        self.steps.add(
            "balance, vertical",
            "what holds her up, against her weight Δ",
            format!(
                "{n} cos {t_drag}° + {} sin({t}° + {e}°) − {f} sin {t}°{} = {}",
                five(thrust_n),
                plus(planes.lift_n),
                five(up_n)
            ),
            weight_n,
            "N",
        );
        let (lcg, vcg) = (prism.lcg_m, prism.vcg_m);
        let friction_m = prism.friction_height_m();
        let [sin_warp, cos_warp] = prism.warp_slope;
        let pressure_arm_m = (lcg - bottom.centre_m + planes.edge_m) * cos_warp
            + (vcg - prism.pressure_height_m()) * sin_warp;
        let ahead_m = lcg - planes.centre_m;
        let parts = [
            ("bottom", normal_n * pressure_arm_m),
            ("friction", friction_n * (vcg - friction_m)),
            ("thrust", -thrust_n * prism.thrust_offset_m),
            ("planes' lift", planes.lift_n * (ahead_m * cos - vcg * sin)),
            (
                "planes' drag",
                planes.drag_n[0] * (vcg * cos + ahead_m * sin)
                    + planes.drag_n[1] * (vcg * cos + lcg * sin),
            ),
            ("air and appendages", outside.iter().map(|[d, h]| d * (vcg - h) * cos).sum()),
        ];
        let said: Vec<String> = parts
            .iter()
            .filter(|(_, moment)| *moment != 0.0)
            .map(|(name, moment)| format!("{name} {}", five(*moment)))
            .collect();
        let moment_n_m: f64 = parts.iter().map(|(_, moment)| moment).sum();
        let left = [up_n / weight_n - 1.0, moment_n_m / (weight_n * prism.beam_m)];
        let closed = if left.iter().all(|left| left.abs() < CLOSED) { 0.0 } else { moment_n_m };
        self.steps.add(
            "balance in pitch",
            "moments, N m, bow down",
            said.join(", "),
            closed,
            "N m",
        );
        let resistance_n =
            self.resistance(normal_n * sin_pressure + friction_n * cos, drag_n + outside_n);
        Worked { steps: self.steps.0, thrust_n, resistance_n, left }
    }

    fn resistance(&mut self, bare_n: f64, more_n: f64) -> f64 {
        let prism = &self.prism;
        let froude = hump::volume_froude_number(self.speed_m_s, prism.displaced_volume_m3);
        let mut over = 0.0;
        if self.settings.hump_factor {
            let share = match self.settings.method {
                Method::BestEstimate => tank_fit::HUMP_SHARE,
                _ => 1.0,
            };
            over = share * (hump::resistance_factor(prism.lcg_m / prism.beam_m, froude) - 1.0);
        }
        let resistance_n = bare_n * (1.0 + over) * self.settings.form.resistance + more_n;
        self.steps.add(
            "resistance near the hump",
            "resistance R, at F∇ and factor",
            format!(
                "F∇ {}: {} × {} + {}",
                five(froude),
                five(bare_n),
                five(1.0 + over),
                five(more_n)
            ),
            resistance_n,
            "N",
        );
        resistance_n
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::tests::text_of;
    use approx::assert_relative_eq;
    use uom::si::f64::Velocity;
    use uom::si::{force::newton, velocity::knot};

    /// Worked from the printed equations, apart from the solver, the thrust and the resistance are the solver's and both balances close.
    #[test]
    fn physics_a_speed_by_hand_comes_to_what_the_solver_says() {
        let warped = crate::input::read_boat("data/stations/heron.toml".as_ref()).unwrap().boat;
        assert!(warped.hull().chine_to_keel.get::<degree>() > 1.0);
        let demos = ["wren", "lantern", "holm"].map(|name| {
            let text = text_of(&format!("boats/{name}.toml"));
            let boat = crate::input::parse_boat("b.toml", &text).unwrap().boat;
            if boat.planes().is_some() {
                return boat;
            }
            let pair = "planes = { span = \"0.5 m\", chord = \"0.25 m\" }\n";
            crate::input::parse_boat("b.toml", &format!("{pair}{text}")).unwrap().boat
        });
        for boat in demos.into_iter().chain([warped]) {
            for method in [Method::BestEstimate, Method::Full] {
                let settings = Settings { method, ..Settings::default() };
                let balance = Balance::of(&boat, &settings);
                for (speed_kn, deflection_deg) in [(14.0, 0.0), (14.0, 8.0), (25.0, 3.0)] {
                    let deflection = Angle::new::<degree>(deflection_deg);
                    let point = balance.point(Velocity::new::<knot>(speed_kn), deflection).unwrap();
                    let running = point.running.as_ref().unwrap();
                    let worked = worked(&boat, &settings, &point).unwrap();
                    let thrust_n = running.thrust.get::<newton>();
                    assert_relative_eq!(worked.thrust_n, thrust_n, max_relative = 1e-9);
                    let resistance_n = running.resistance.get::<newton>();
                    assert_relative_eq!(worked.resistance_n, resistance_n, max_relative = 1e-9);
                    assert!(worked.left.iter().all(|left| left.abs() < 1e-8), "{:?}", worked.left);
                    assert!(worked.steps.iter().all(|step| !number_of(step.equation).is_empty()));
                }
            }
        }
    }
}
