//! Forces on the running hull at a given trim, with the vertical balance closed.
//!
//! Everything here is plain SI with the unit in the name; degrees where an
//! empirical equation wants them.

pub(crate) use super::prism::{PlaneSize, Prism};
use super::{Method, Settings};
use crate::hydro::lift_model::{AtTrim, LiftModel, power_step};
use crate::hydro::{friction, spray, tank_fit};
use crate::physical::AIR_DENSITY_KG_M3;
use crate::plane::effect;

/// Finest convergence of the vertical balance, as a share of the weight.
pub(crate) const FINEST_TOLERANCE: f64 = 1e-11;

/// Longest step of λ^½ where a search climbs in spray, as a factor.
const STEP_IN_SPRAY: f64 = 1.02;

/// Lift coefficient that stands in when the hull carries nothing, so that no wetted length is zero.
const SMALLEST_LIFT_COEFFICIENT: f64 = 1e-12;

/// What the planes add to the hull at a speed, whatever the trim.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct PlaneLift {
    /// Lift of both.
    pub lift_n: f64,
    /// Where it acts ahead of the transom.
    pub centre_m: f64,
    /// Mean trailing edge aft of the transom; the hull's lengths are measured from it.
    pub mean_edge_m: f64,
    /// The deflection that gives the drag of both.
    pub deflection_deg: f64,
    pub chord_m: f64,
    pub span_m: f64,
}

/// One plane, with its own deflection.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Set {
    pub size: PlaneSize,
    pub deflection_deg: f64,
}

/// A boat at a speed with its planes set.
#[derive(Clone, Debug)]
pub(crate) struct Condition<'a> {
    pub prism: &'a Prism,
    pub speed_m_s: f64,
    pub dynamic_pressure_pa: f64,
    pub speed_coefficient: f64,
    pub plane: PlaneLift,
    /// How each plane stands; none without planes.
    pub set: Option<[Set; 2]>,
    /// Factor on the distance of the centre of pressure: of the method, and of the form of the model.
    pub centre_of_pressure_factor: f64,
    /// Drag of the air and its height above the keel.
    pub air: [f64; 2],
    /// Drag of the appendages and its height above the keel.
    pub appendages: [f64; 2],
}

/// Forces at a trim; the vertical balance and the balance along the course hold.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Forces {
    pub trim_deg: f64,
    /// λ, from the mean trailing edge.
    pub wetted_length_ratio: f64,
    /// N, the pressure on the bottom: normal to the keel of a prism, and to the slope of the effective trim of the drag where she is warped.
    pub normal_n: f64,
    /// l_p less the mean trailing edge's distance aft of the transom: forward of the transom.
    pub centre_of_pressure_m: f64,
    /// D_f, along the keel.
    pub friction_n: f64,
    /// Whisker spray, along the keel.
    pub spray_n: f64,
    /// Pressure drag of the planes' lift, ΔL tan τ, horizontal where the lift acts.
    pub plane_pressure_drag_n: f64,
    /// The rest of the planes' drag, horizontal at the transom's edge.
    pub plane_edge_drag_n: f64,
    /// T.
    pub thrust_n: f64,
    /// Pitch moment about the centre of gravity, positive bow down.
    pub moment_n_m: f64,
    pub friction_coefficient: f64,
    pub reynolds_number: f64,
    /// (V_m/V)².
    pub bottom_speed_squared: f64,
    pub spray_limited: bool,
    /// The planes carry so much that nothing is left for the hull.
    pub lifted_off: bool,
    /// −d ln λ^½/d ln τ at a constant load, for a first guess at a trim nearby.
    pub(super) length_answer: f64,
    /// dN/d(λ^½) at this trim.
    pub(super) normal_by_root_n: f64,
}

/// What acts on the boat at a trim beside the pressure and friction of the bottom.
pub(super) struct Around {
    /// The planes' pressure drag and the rest of their drag.
    pub plane_drag_n: [f64; 2],
    /// All that acts horizontally: planes, air, appendages.
    pub horizontal_n: f64,
    /// What is left for the bottom, N cos(ε − φ) + D sin ε.
    pub wanted_n: f64,
}

impl Forces {
    /// ΔD, horizontal.
    pub const fn plane_drag_n(&self) -> f64 {
        self.plane_pressure_drag_n + self.plane_edge_drag_n
    }

    /// Forces along the keel: friction and whisker spray.
    pub const fn along_keel_n(&self) -> f64 {
        self.friction_n + self.spray_n
    }

    /// λ^½ to expect at another trim.
    fn root_of_length_at(&self, trim_deg: f64) -> f64 {
        /// Least factor on λ^½, where a lift model answers more than Savitsky's 1.1 can.
        const LEAST_FACTOR: f64 = 0.4;
        let change = (trim_deg / self.trim_deg - 1.0).max(-0.5);
        self.wetted_length_ratio.sqrt() / (1.0 + self.length_answer * change).max(LEAST_FACTOR)
    }
}

impl Prism {
    /// The boat at a speed without planes.
    pub fn at(&self, speed_m_s: f64) -> Condition<'_> {
        let half_square = 0.5 * speed_m_s * speed_m_s;
        let dynamic_pressure_pa = self.density_kg_m3 * half_square;
        let speed_coefficient = self.speed_coefficient(speed_m_s);
        Condition {
            prism: self,
            speed_m_s,
            dynamic_pressure_pa,
            speed_coefficient,
            plane: PlaneLift::default(),
            set: None,
            centre_of_pressure_factor: self.centre_of_pressure_factor(speed_m_s, speed_coefficient),
            air: [AIR_DENSITY_KG_M3 * half_square * self.air[0], self.air[1]],
            appendages: [dynamic_pressure_pa * self.appendages[0], self.appendages[1]],
        }
    }
}

impl Prism {
    /// Factor on the published distance of the centre of pressure.
    ///
    /// The correction to the tanks belongs to Savitsky's lift, with which it was fitted.
    fn centre_of_pressure_factor(&self, speed_m_s: f64, speed_coefficient: f64) -> f64 {
        let Settings { method, model, form, .. } = &self.settings;
        let fitted = match (method, model) {
            (Method::BestEstimate, LiftModel::Savitsky1964) => {
                tank_fit::centre_of_pressure_factor(self.deadrise_deg, speed_coefficient)
            }
            _ => 1.0,
        };
        let froude = speed_m_s / self.froude_one_m_s;
        let hull_form = 1.0 + (form.hull_form - 1.0) * tank_fit::hull_form_share(froude);
        form.centre_of_pressure * hull_form * fitted
    }
}

impl<'a> Condition<'a> {
    /// The same with the planes at a mean deflection.
    pub fn with_planes(&self, size: PlaneSize, deflection_deg: f64) -> Condition<'a> {
        let set = Set { size, deflection_deg };
        let [lift_n, mean_edge_m] = self.lift_and_edge(&set);
        self.with_lift([set; 2], 2.0 * lift_n, 2.0 * mean_edge_m, deflection_deg)
    }

    /// The same with each plane at its own deflection; they count as at the mean of their edges.
    pub fn with_each(&self, set: [Set; 2]) -> Condition<'a> {
        let [[one_n, one_m], [other_n, other_m]] =
            [0, 1].map(|side| self.lift_and_edge(&set[side]));
        let [one_deg, other_deg] = set.map(|set| set.deflection_deg);
        let lift_n = one_n + other_n;
        let deflection_deg = if lift_n > 0.0 {
            (one_n * one_deg + other_n * other_deg) / lift_n
        } else {
            0.5 * (one_deg + other_deg)
        };
        self.with_lift(set, lift_n, one_m + other_m, deflection_deg)
    }

    /// Lift of one plane, and how far it moves the mean trailing edge aft.
    fn lift_and_edge(&self, set: &Set) -> [f64; 2] {
        let prism = self.prism;
        let Set { size, deflection_deg } = *set;
        let wet_m = effect::wet_chord_m(size.chord_m, prism.hinge_height_m, deflection_deg);
        let ratio = effect::span_ratio_of_one(size.span_m, prism.beam_m, prism.cos_deadrise);
        let wet_m2 = size.span_m * prism.cos_deadrise * wet_m;
        let lift_n =
            prism.effectiveness * effect::lift_n(wet_m2, deflection_deg, self.dynamic_pressure_pa);
        [lift_n, ratio * wet_m * effect::fade_in(deflection_deg)]
    }

    /// The same with what both planes do.
    fn with_lift(
        &self,
        set: [Set; 2],
        lift_n: f64,
        mean_edge_m: f64,
        deflection_deg: f64,
    ) -> Condition<'a> {
        let plane = PlaneLift {
            lift_n,
            centre_m: effect::centre_of_lift_m(self.prism.beam_m, mean_edge_m),
            mean_edge_m,
            deflection_deg,
            chord_m: set[0].size.chord_m.max(set[1].size.chord_m),
            span_m: 0.5 * (set[0].size.span_m + set[1].size.span_m),
        };
        Condition { plane, set: Some(set), ..self.clone() }
    }

    /// Lift of the pair for each degree past the dead band.
    pub fn lift_per_degree_n(&self, size: PlaneSize) -> f64 {
        let level_m2 = size.area_m2() * self.prism.cos_deadrise;
        self.prism.effectiveness * effect::lift_per_degree_n(level_m2, self.dynamic_pressure_pa)
    }

    /// Weight left for the hull, Δ − ΔL.
    pub fn hull_load_n(&self) -> f64 {
        self.prism.weight_n - self.plane.lift_n
    }

    /// Forces at a trim, with the vertical balance closed to a share of the weight.
    ///
    /// The forces at a trim nearby save iterations.
    pub fn forces(&self, trim_deg: f64, nearby: Option<&Forces>, tolerance: f64) -> Forces {
        match self.prism.settings.method {
            Method::BestEstimate | Method::Full => self.full(trim_deg, nearby, tolerance),
            Method::General1964 | Method::Concurrent1964 => self.published_1964(trim_deg),
        }
    }

    /// The full balance: the wetted length at which the vertical balance holds, with the thrust from the balance along the course.
    ///
    /// With N at φ to the normal of the keel (0 for a prism), D along the keel
    /// (friction, spray) and X horizontal (planes, air, appendages), eliminating
    /// T leaves N cos(ε − φ) + D sin ε = (Δ − ΔL) cos(τ + ε) − X sin(τ + ε).
    fn full(&self, trim_deg: f64, nearby: Option<&Forces>, tolerance: f64) -> Forces {
        let prism = self.prism;
        let slope = Slope::new(trim_deg, prism);
        let around = self.around(&slope);
        let wanted_n = around.wanted_n;
        if wanted_n <= 0.0 {
            let [plane_pressure_drag_n, plane_edge_drag_n] = around.plane_drag_n;
            return Forces {
                trim_deg,
                plane_pressure_drag_n,
                plane_edge_drag_n,
                lifted_off: true,
                ..Forces::default()
            };
        }
        let start = match nearby {
            Some(nearby)
                if nearby.wetted_length_ratio > 0.0 && !self.may_have_several_lengths() =>
            {
                self.root_of_length_from(nearby, trim_deg, wanted_n)
            }
            // Only a start: the search ends at the same length from any.
            _ => self
                .length_ratio_carrying(wanted_n / prism.cos_thrust_to_pressure(), &slope)
                .unwrap_or(1.0)
                .sqrt(),
        };
        let bottom = self.close_vertical(&slope, wanted_n, start, tolerance);
        self.with_the_rest(bottom, &slope, &around)
    }

    /// What acts beside the bottom at a trim, and what it leaves to be held up.
    pub(super) fn around(&self, slope: &Slope) -> Around {
        let plane_drag_n = effect::drag_parts_n(
            self.plane.lift_n,
            slope.trim_deg,
            slope.sin / slope.cos,
            self.plane.deflection_deg,
        );
        let horizontal_n = plane_drag_n[0] + plane_drag_n[1] + self.air[0] + self.appendages[0];
        let wanted_n = self.hull_load_n() * slope.cos_sum - horizontal_n * slope.sin_sum;
        Around { plane_drag_n, horizontal_n, wanted_n }
    }

    /// Forces of the bottom with the planes' drag, the thrust from the balance along the course, and the moment.
    pub(super) fn with_the_rest(
        &self,
        mut forces: Forces,
        slope: &Slope,
        around: &Around,
    ) -> Forces {
        [forces.plane_pressure_drag_n, forces.plane_edge_drag_n] = around.plane_drag_n;
        forces.thrust_n = (forces.normal_n * slope.pressure_sin
            + forces.along_keel_n() * slope.cos
            + around.horizontal_n)
            / slope.cos_sum;
        forces.moment_n_m = self.moment(&forces, slope.sin, slope.cos);
        forces
    }

    /// λ^½ to expect at a trim from forces nearby, where the bottom has to hold up N cos(ε − φ) + D sin ε = `wanted_n`.
    fn root_of_length_from(&self, nearby: &Forces, trim_deg: f64, wanted_n: f64) -> f64 {
        let root = nearby.root_of_length_at(trim_deg);
        let (sin_thrust, cos_thrust) = (self.prism.sin_thrust, self.prism.cos_thrust_to_pressure());
        let held_n = nearby.normal_n * cos_thrust + nearby.along_keel_n() * sin_thrust;
        let rate_n = nearby.normal_by_root_n * cos_thrust * nearby.wetted_length_ratio.sqrt();
        let way = power_step(held_n, wanted_n - held_n, rate_n);
        // At another load by as much as the lift changes, unless that leads too far.
        if way.abs() < 0.5 { root * (1.0 + way) } else { root }
    }

    /// Whether more than one wetted length may hold the boat up at a trim.
    ///
    /// Whisker spray drags the more the less of the bottom is wetted, so that a
    /// thrust pointing up may hold up a boat with hardly any of it wetted. The
    /// longest of these lengths is where the bottom carries her, and where more
    /// wetted bottom is more lift: it is reached from the length that carries
    /// all without drag, from which N cos ε + D sin ε only rises.
    ///
    /// Shuford's lift flattens out as the bottom gets longer, while friction
    /// goes on rising: at little trim, rough and fast, a thrust pointing down
    /// may pull more than the longer bottom lifts, until the static part takes
    /// over at several times the length. The shortest of these lengths is where
    /// a boat comes to rest that climbs out of the water; all lie beyond the
    /// length that carries all without drag, and the search climbs from there.
    ///
    /// Where one of several lengths ends as the trim changes the moment jumps.
    /// A jump is no balance, and the survey takes none for one.
    pub(super) fn may_have_several_lengths(&self) -> bool {
        let prism = self.prism;
        match prism.settings.model {
            LiftModel::Savitsky1964 => prism.settings.whisker_spray && prism.sin_thrust > 0.0,
            LiftModel::Shuford1958 => {
                prism.sin_thrust < 0.0 || prism.settings.whisker_spray && prism.sin_thrust > 0.0
            }
        }
    }

    /// Whether the search climbs to the shortest of several lengths while whisker spray, which
    /// drags the less the more is wetted, misleads it about the slope of the drag.
    fn climbs_in_spray(&self) -> bool {
        let prism = self.prism;
        prism.settings.model == LiftModel::Shuford1958
            && prism.settings.whisker_spray
            && prism.sin_thrust < 0.0
    }

    /// Solves N cos(ε − φ) + D sin ε = `wanted_n` for u = λ^½, from a start.
    ///
    /// N rises with u and is convex, by some models in another variable that the
    /// step allows for; D sin ε is small beside it, so that Newton's method with
    /// the slope of N and the last seen slope of D (at first D ∝ u²) closes in a
    /// few steps. It is kept inside the bracket; a step that leaves it is replaced by the middle.
    /// Where no lift is left and the drag still holds up more than is wanted,
    /// the hull carries nothing.
    fn close_vertical(&self, slope: &Slope, wanted_n: f64, start: f64, tolerance: f64) -> Forces {
        let (sin_thrust, cos_thrust) = (self.prism.sin_thrust, self.prism.cos_thrust_to_pressure());
        let tolerance_n = tolerance * self.prism.weight_n;
        let model = self.prism.settings.model;
        let least_n = model.least_load_share() * self.prism.weight_n;
        let (mut low, mut high) = (0.0_f64, f64::INFINITY);
        let (mut last_root, mut last_along_keel_n) = (f64::NAN, f64::NAN);
        let mut root = start;
        let mut forces = Forces::default();
        let (longest_step, most_steps) =
            if self.climbs_in_spray() { (STEP_IN_SPRAY, 2000) } else { (f64::INFINITY, 200) };
        for _ in 0..most_steps {
            forces = self.bottom(slope, root);
            let along_keel_n = forces.along_keel_n();
            let excess_n = forces.normal_n * cos_thrust + along_keel_n * sin_thrust - wanted_n;
            if excess_n.abs() <= tolerance_n || (excess_n > 0.0 && forces.normal_n <= least_n) {
                break;
            }
            if excess_n > 0.0 {
                high = root;
            } else {
                low = root;
            }
            let seen_n = (along_keel_n - last_along_keel_n) / (root - last_root);
            let drag_slope_n = if seen_n.is_finite() { seen_n } else { 2.0 * along_keel_n / root };
            (last_root, last_along_keel_n) = (root, along_keel_n);
            let rate_n = forces.normal_by_root_n * cos_thrust + drag_slope_n * sin_thrust;
            let stepped = model.next_root_of_length(root, excess_n, rate_n, wanted_n);
            root = if stepped > low && stepped < high {
                stepped.min(longest_step * root)
            } else if high.is_finite() {
                0.5 * (low + high)
            } else {
                longest_step.min(2.0) * root
            };
            if high - low <= 4.0 * f64::EPSILON * root {
                break;
            }
        }
        forces.lifted_off = forces.normal_n <= least_n;
        forces
    }

    /// λ that carries a normal force; none when the search for it has not come to rest.
    fn length_ratio_carrying(&self, normal_n: f64, slope: &Slope) -> Option<f64> {
        let coefficient = normal_n * slope.pressure_cos / self.area_pressure_n();
        slope.lift.wetted_length_ratio(
            (coefficient / self.prism.settings.form.lift).max(SMALLEST_LIFT_COEFFICIENT),
            self.prism.deadrise_deg,
            self.speed_coefficient,
        )
    }

    /// q b², the force that lift coefficients are shares of.
    pub fn area_pressure_n(&self) -> f64 {
        self.dynamic_pressure_pa * self.prism.beam_m * self.prism.beam_m
    }

    /// What the bottom does at a trim with λ^½ wetted, whatever it has to carry.
    #[cfg(test)]
    pub fn bottom_at(&self, trim_deg: f64, root_of_length_ratio: f64) -> Forces {
        self.bottom(&Slope::new(trim_deg, self.prism), root_of_length_ratio)
    }

    /// What the bottom does at a trim with λ^½ wetted.
    pub(super) fn bottom(&self, slope: &Slope, root_of_length_ratio: f64) -> Forces {
        let prism = self.prism;
        let lambda = root_of_length_ratio * root_of_length_ratio;
        let lift =
            slope.lift.bottom(root_of_length_ratio, prism.deadrise_deg, self.speed_coefficient);
        let form = &prism.settings.form;
        let bottom_speed_squared = friction::mean_bottom_speed_ratio_squared(
            form.lift * lift.dynamic_coefficient,
            lambda,
            slope.cos,
        );
        let wetted_length_m = lambda * prism.beam_m;
        let reynolds_number =
            self.speed_m_s * bottom_speed_squared.sqrt() * wetted_length_m / prism.viscosity_m2_s;
        let friction_line = prism.settings.friction_line;
        // Without a friction there is no number in the balance either, and so no balance.
        let friction_coefficient = friction_line.coefficient(reynolds_number).unwrap_or(f64::NAN);
        let friction_pressure_n = self.area_pressure_n() * prism.friction_density_ratio;
        let spray = self.whisker_spray(slope.trim_deg, lambda);
        let force_for_each_coefficient_n = form.lift * self.area_pressure_n() / slope.pressure_cos;
        Forces {
            trim_deg: slope.trim_deg,
            wetted_length_ratio: lambda,
            normal_n: lift.coefficient * force_for_each_coefficient_n,
            centre_of_pressure_m: self.centre_of_pressure_factor
                * lift.centre_share
                * wetted_length_m
                - self.plane.mean_edge_m,
            friction_n: friction_pressure_n
                * bottom_speed_squared
                * lambda
                * (friction_coefficient + prism.correlation_allowance)
                / prism.cos_deadrise,
            spray_n: friction_pressure_n * spray.length_ratio * friction_coefficient,
            friction_coefficient,
            reynolds_number,
            bottom_speed_squared,
            spray_limited: spray.limited,
            length_answer: lift.length_answer * (slope.trim_deg / slope.lift_trim_deg),
            normal_by_root_n: lift.slope * force_for_each_coefficient_n,
            ..Forces::default()
        }
    }

    /// Whisker spray where it is counted, bound by the bottom ahead of the mean wetted length.
    fn whisker_spray(&self, trim_deg: f64, wetted_length_ratio: f64) -> spray::Spray {
        let prism = self.prism;
        if prism.settings.whisker_spray {
            let bottom_m = prism.bottom_length_m + self.plane.mean_edge_m;
            let ahead = bottom_m / prism.beam_m - wetted_length_ratio;
            spray::whisker_spray(prism.deadrise_deg, trim_deg, ahead)
        } else {
            spray::Spray { length_ratio: 0.0, limited: false }
        }
    }

    /// Pitch moment about the centre of gravity, positive bow down.
    fn moment(&self, forces: &Forces, sin_trim: f64, cos_trim: f64) -> f64 {
        let prism = self.prism;
        let (lcg_m, vcg_m) = (prism.lcg_m, prism.vcg_m);
        let [sin_warp, cos_warp] = prism.warp_slope;
        let pressure_arm_m = (lcg_m - forces.centre_of_pressure_m) * cos_warp
            + (vcg_m - prism.pressure_height_m()) * sin_warp;
        let friction_arm_m = vcg_m - prism.friction_height_m();
        let ahead_of_lift_m = lcg_m - self.plane.centre_m;
        let plane_lift_arm_m = ahead_of_lift_m * cos_trim - vcg_m * sin_trim;
        let mut moment_n_m = forces.normal_n * pressure_arm_m
            + forces.along_keel_n() * friction_arm_m
            - forces.thrust_n * prism.thrust_offset_m
            + self.plane.lift_n * plane_lift_arm_m
            + forces.plane_pressure_drag_n * self.pressure_drag_arm_m(sin_trim, cos_trim)
            + forces.plane_edge_drag_n * self.edge_drag_arm_m(sin_trim, cos_trim);
        for [drag_n, height_m] in [self.air, self.appendages] {
            moment_n_m += drag_n * (vcg_m - height_m) * cos_trim;
        }
        moment_n_m
    }

    /// How far the pressure drag of the planes' lift, which acts where the lift does, passes under the centre of gravity.
    pub(super) fn pressure_drag_arm_m(&self, sin_trim: f64, cos_trim: f64) -> f64 {
        self.prism.vcg_m * cos_trim + (self.prism.lcg_m - self.plane.centre_m) * sin_trim
    }

    /// How far the rest of the planes' drag, at the transom's edge, passes under it.
    pub(super) fn edge_drag_arm_m(&self, sin_trim: f64, cos_trim: f64) -> f64 {
        self.prism.vcg_m * cos_trim + self.prism.lcg_m * sin_trim
    }

    /// The two cases of the 1964 paper: the hull carries all of the weight.
    ///
    /// General, equation 35: Δ {[1 − sin τ sin(τ + ε)] c/cos τ − f sin τ} + D_f (a − f) = 0,
    /// c = LCG − l_p, a = VCG − (b/4) tan β, D = Δ tan τ + D_f/cos τ. Concurrent:
    /// all forces pass through the centre of gravity, a = c = f = ε = 0. On a
    /// warped bottom the lift is that of its effective trim and Δ tan τ is so of
    /// the drag's (Savitsky & Brown 1976); the moments stay those of equation 35.
    fn published_1964(&self, trim_deg: f64) -> Forces {
        let prism = self.prism;
        let slope = Slope::new(trim_deg, prism);
        // Without a length there is no number in the balance either, and so no balance.
        let lambda = self.length_ratio_carrying(prism.weight_n / slope.pressure_cos, &slope);
        let mut forces = self.bottom(&slope, lambda.unwrap_or(f64::NAN).sqrt());
        let along_keel_n = forces.along_keel_n();
        let drag_n =
            prism.weight_n * slope.pressure_sin / slope.pressure_cos + along_keel_n / slope.cos;
        let lever_m = prism.lcg_m - forces.centre_of_pressure_m;
        forces.thrust_n = drag_n / slope.cos_sum;
        forces.moment_n_m = if prism.settings.method == Method::Concurrent1964 {
            prism.weight_n * lever_m / slope.cos
        } else {
            let arm_m = prism.vcg_m - prism.friction_height_m();
            let lever_share = 1.0 - slope.sin * slope.sin_sum;
            prism.weight_n * (lever_share * lever_m / slope.cos - prism.thrust_offset_m * slope.sin)
                + along_keel_n * (arm_m - prism.thrust_offset_m)
        };
        forces
    }
}

/// What a trim angle alone determines.
pub(super) struct Slope {
    pub trim_deg: f64,
    /// Effective trim of the lift.
    pub lift_trim_deg: f64,
    /// Sine and cosine of the effective trim of the drag, to which the pressure is normal.
    pub pressure_sin: f64,
    pub pressure_cos: f64,
    pub sin: f64,
    pub cos: f64,
    /// sin(τ + ε).
    pub sin_sum: f64,
    /// cos(τ + ε).
    pub cos_sum: f64,
    /// The lift model at this trim.
    lift: AtTrim,
}

impl Slope {
    pub fn new(trim_deg: f64, prism: &Prism) -> Self {
        let (sin, cos) = trim_deg.to_radians().sin_cos();
        let (pressure_sin, pressure_cos) = if prism.chine_to_keel_deg == 0.0 {
            (sin, cos)
        } else {
            prism.trim_for_drag_deg(trim_deg).to_radians().sin_cos()
        };
        let lift_trim_deg = prism.trim_for_lift_deg(trim_deg);
        Self {
            trim_deg,
            lift_trim_deg,
            pressure_sin,
            pressure_cos,
            sin,
            cos,
            sin_sum: sin * prism.cos_thrust + cos * prism.sin_thrust,
            cos_sum: cos * prism.cos_thrust - sin * prism.sin_thrust,
            lift: AtTrim::new(prism.settings.model, lift_trim_deg, prism.deadrise_deg),
        }
    }
}
