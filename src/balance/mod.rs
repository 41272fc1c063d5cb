//! Where the boat settles: running trim, wetted length and thrust at a speed.
//!
//! [`Balance`] is a boat made ready to be balanced; [`Balance::point`] answers
//! for one speed and one deflection. Not running is an answer, not an error.

pub(crate) mod as_read;
mod before_planing;
pub mod budget;
mod coupled;
pub mod fields;
pub(crate) mod forces;
mod form;
pub mod hump;
pub mod opinions;
mod point;
pub mod pre_planing;
pub(crate) mod prism;
#[cfg(test)]
mod proof;
pub(crate) mod root;
pub mod saving;
pub mod sensitivity;
pub mod series;
mod survey;
pub mod sweep;
mod unequal;
#[cfg(test)]
mod warp_tests;

use uom::si::f64::{Angle, MassDensity, Torque, Velocity};
use uom::si::{angle::degree, torque::newton_meter, velocity::meter_per_second};

pub use before_planing::{BeforePlaning, BeforePlaningRow};
pub use budget::{Budget, Contribution, Residual};
pub use form::ModelForm;
pub use hump::{Hump, HumpPlace};
pub use point::{
    Outcome, PLANING_SPEED_COEFFICIENT, Point, ResistanceParts, Running, TRIM_FLOOR_DEG,
};
pub use pre_planing::PrePlaning;
pub use root::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG};
pub use unequal::SetPlane;

use crate::boat::{Boat, Fault, Measure, PlanePair, bound_of};
use crate::hydro::friction::{FULL_SCALE_ALLOWANCE, FrictionLine};
pub use crate::hydro::lift_model::LiftModel;
use forces::{Condition, Prism};
use root::{Root, Search};

/// Which balance of forces is solved.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Method {
    /// The full balance with the one correction that brings it to the tanks ([`crate::hydro::tank_fit`]).
    #[default]
    BestEstimate,
    /// All forces and moments, planes included, by the equations as printed.
    Full,
    /// Savitsky (1964), general case, equation 35; bare hull.
    General1964,
    /// Savitsky (1964), all forces through the centre of gravity; bare hull.
    Concurrent1964,
}

impl Method {
    /// The stable word in outputs and on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::BestEstimate => "best-estimate",
            Self::Full => "full",
            Self::General1964 => "general-1964",
            Self::Concurrent1964 => "concurrent-1964",
        }
    }
}

impl Method {
    /// Whether all forces and moments are balanced, planes included; not so in the 1964 cases.
    #[must_use]
    pub const fn is_full_balance(self) -> bool {
        matches!(self, Self::BestEstimate | Self::Full)
    }
}

/// How a balance is computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Which balance.
    pub method: Method,
    /// Which theory of the bottom's lift; the 1964 cases know only their own.
    pub model: LiftModel,
    /// Friction line.
    pub friction_line: FrictionLine,
    /// Correlation allowance ΔCf, 0 for models; none for that of the boat, or else a full-scale hull's.
    pub correlation_allowance: Option<f64>,
    /// Whether the bare-hull resistance is raised by the hump factor.
    pub hump_factor: bool,
    /// Whether whisker spray drag is counted.
    pub whisker_spray: bool,
    /// Density used in the friction alone, where a published example used another than in the lift.
    pub friction_density: Option<MassDensity>,
    /// Factor on the planes' lift beside the boat's own; 1 is the published equation.
    pub effectiveness: f64,
    /// Factors on what the equations of the hull give; all 1 as published.
    pub form: ModelForm,
}

impl Settings {
    /// As a published example or a towed model is computed: friction by Schoenherr, and neither allowance nor hump factor.
    pub(crate) fn as_printed(method: Method) -> Self {
        Self {
            method,
            friction_line: FrictionLine::Schoenherr,
            correlation_allowance: Some(0.0),
            hump_factor: false,
            whisker_spray: false,
            ..Self::default()
        }
    }

    /// The correlation allowance that a boat is balanced with.
    #[must_use]
    pub fn allowance_for(&self, boat: &Boat) -> f64 {
        self.allowance(boat.roughness())
    }

    /// The same for a roughness of the hull that may be known.
    pub(crate) fn allowance(&self, roughness: Option<f64>) -> f64 {
        self.correlation_allowance.or(roughness).unwrap_or(FULL_SCALE_ALLOWANCE)
    }
}

impl Default for Settings {
    /// A full-scale boat: best estimate, Schoenherr (the line that its correction was fitted with), the boat's own ΔCf or 0.0004, hump factor on, whisker spray off.
    fn default() -> Self {
        Self {
            method: Method::BestEstimate,
            model: LiftModel::Savitsky1964,
            friction_line: FrictionLine::Schoenherr,
            correlation_allowance: None,
            hump_factor: true,
            whisker_spray: false,
            friction_density: None,
            effectiveness: 1.0,
            form: ModelForm::PUBLISHED,
        }
    }
}

/// Largest air and appendage drag, as a share of the weight, that a boat is balanced with.
const LARGEST_EXTRA_DRAG: f64 = 0.5;

/// A boat made ready to be balanced.
///
/// ```
/// use planewright::{Angle, Balance, Settings, Velocity, degree, knot};
///
/// let boat = planewright::read_boat("data/boats/lantern.toml".as_ref())?.boat;
/// let balance = Balance::of(&boat, &Settings::default());
/// let up = balance.point(Velocity::new::<knot>(20.0), Angle::new::<degree>(0.0))?;
/// let down = balance.point(Velocity::new::<knot>(20.0), Angle::new::<degree>(5.0))?;
/// let trim = |point: &planewright::Point| point.running.map(|running| running.trim);
/// assert!(trim(&down) < trim(&up));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
pub struct Balance {
    prism: Prism,
    planes: Option<PlanePair>,
}

impl Balance {
    /// Prepares a boat, with the planes it has fitted; where trims were read of it on the water, the best
    /// estimate is brought to them.
    #[must_use]
    pub fn of(boat: &Boat, settings: &Settings) -> Self {
        Self { prism: Prism::new(boat, settings), planes: boat.planes() }
    }

    /// The same boat with another pair of planes, or none.
    #[must_use]
    pub fn with_planes(mut self, planes: Option<PlanePair>) -> Self {
        self.planes = planes;
        self
    }

    /// What the boat does at a speed with its planes at a mean deflection.
    ///
    /// # Errors
    /// A [`Fault`] when the speed or deflection lies outside the bounds table,
    /// when a deflection or another lift model than its own is asked of a 1964
    /// case, a deflection of a boat without planes, and when air and appendages drag more than half the weight.
    pub fn point(&self, speed: Velocity, deflection: Angle) -> Result<Point, Fault> {
        self.point_from(speed, deflection, None)
    }

    /// [`Balance::point`], begun from a trim near the expected one; it saves work and changes nothing.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn point_from(
        &self,
        speed: Velocity,
        deflection: Angle,
        start: Option<Angle>,
    ) -> Result<Point, Fault> {
        let condition = self.condition(speed, deflection)?;
        if condition.speed_coefficient < PLANING_SPEED_COEFFICIENT {
            return Ok(Point::without_running(&condition, Outcome::BelowPlaningRange));
        }
        Ok(point_at(&condition, start.map(|trim| trim.get::<degree>())))
    }

    /// Every force on the boat at a point of this balance, where it acts and its moment.
    ///
    /// None where the boat does not run, and for the 1964 cases, which are no
    /// balance of single forces.
    #[must_use]
    pub fn budget(&self, point: &Point) -> Option<Budget> {
        let running = point.running.filter(|_| self.prism.settings.method.is_full_balance())?;
        let condition = self.condition(point.speed, point.deflection).ok()?;
        let forces = condition.forces(running.trim.get::<degree>(), None, forces::FINEST_TOLERANCE);
        Some(Budget::of(&condition, &forces))
    }

    /// Moment that is left about the centre of gravity, positive bow down, when the boat is held at a trim.
    ///
    /// The vertical balance and the balance along the course hold; only pitch
    /// does not. Zero at the running trim; a moment that rises with trim pushes
    /// a lifted bow back down. Infinite when the planes lift the whole boat.
    ///
    /// # Errors
    /// As [`Balance::point`]; also a [`Fault`] for a trim outside 1° to 15°.
    pub fn residual_moment(
        &self,
        speed: Velocity,
        deflection: Angle,
        trim: Angle,
    ) -> Result<Torque, Fault> {
        let condition = self.condition(speed, deflection)?;
        let trim_deg = trim.get::<degree>();
        if !(LEAST_TRIM_DEG..=LARGEST_TRIM_DEG).contains(&trim_deg) {
            return Err(Fault {
                key: "trim".to_owned(),
                problem: format!("{} is outside 1 to 15 deg", Measure::Angle(trim)),
                remedy: "ask for a trim that the lift equation covers".to_owned(),
            });
        }
        let forces = condition.forces(trim_deg, None, forces::FINEST_TOLERANCE);
        let moment_n_m = if forces.lifted_off { f64::INFINITY } else { forces.moment_n_m };
        Ok(Torque::new::<newton_meter>(moment_n_m))
    }

    fn condition(&self, speed: Velocity, deflection: Angle) -> Result<Condition<'_>, Fault> {
        check("run.speed", Measure::Speed(speed))?;
        check("run.deflection", Measure::Angle(deflection))?;
        let settings = &self.prism.settings;
        if !settings.method.is_full_balance() && settings.model != LiftModel::Savitsky1964 {
            return Err(another_lift_in_1964());
        }
        let deflection_deg = deflection.get::<degree>();
        let bare = self.prism.at(speed.get::<meter_per_second>());
        let extra_n = bare.air[0] + bare.appendages[0];
        if extra_n > LARGEST_EXTRA_DRAG * self.prism.weight_n {
            return Err(Fault {
                key: "air.frontal_area".to_owned(),
                problem: format!(
                    "at {} air and appendages drag more than half the weight",
                    Measure::Speed(speed)
                ),
                remedy: "check air.frontal_area, appendages.drag_area and the speed".to_owned(),
            });
        }
        let Some(pair) = self.planes else {
            return if deflection_deg > 0.0 { Err(no_planes()) } else { Ok(bare) };
        };
        if settings.method.is_full_balance() {
            Ok(bare.with_planes(pair.into(), deflection_deg))
        } else if deflection_deg > 0.0 {
            Err(planes_in_1964())
        } else {
            Ok(bare)
        }
    }
}

/// Balances a condition in the planing range.
pub(crate) fn point_at(condition: &Condition<'_>, start_deg: Option<f64>) -> Point {
    let mut search = Search::new(condition);
    let mut point = match search.root(start_deg) {
        Root::Found { forces, stable } => Point::of_balance(condition, &forces, stable),
        Root::BowDown => Point::without_running(condition, Outcome::BowUnder),
        Root::BowUp => Point::without_running(condition, Outcome::NoBalanceBowUp),
    };
    point.evaluations = search.evaluations;
    point
}

fn check(key: &str, measure: Measure) -> Result<(), Fault> {
    match bound_of(key).and_then(|bound| bound.refusal(measure)) {
        Some([problem, remedy]) => Err(Fault { key: key.to_owned(), problem, remedy }),
        None => Ok(()),
    }
}

fn no_planes() -> Fault {
    Fault {
        key: "run.deflection".to_owned(),
        problem: "a deflection is asked for, and the boat has no planes".to_owned(),
        remedy: "add [planes] with span and chord to the boat file, or ask for 0 deg".to_owned(),
    }
}

fn another_lift_in_1964() -> Fault {
    Fault {
        key: "run.model".to_owned(),
        problem: "the 1964 cases know only the lift of their own paper".to_owned(),
        remedy: "use the full method with this lift model, or the 1964 case with savitsky-1964"
            .to_owned(),
    }
}

fn planes_in_1964() -> Fault {
    Fault {
        key: "run.deflection".to_owned(),
        problem: "the 1964 cases know no planes".to_owned(),
        remedy: "use the full method, or ask for 0 deg".to_owned(),
    }
}
