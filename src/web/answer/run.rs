//! The boat at one speed with her planes at one deflection.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::meter_per_second;

use super::settings;
use crate::balance::sweep::planing_start;
use crate::balance::{Balance, Budget, Point};
use crate::boat::condition::same_name;
use crate::boat::{Boat, Fault, PlanePair, degrees};
use crate::chart::running::running_charts;
use crate::chart::{LineChart, Marker, Subject};
use crate::picture::{Frame, Scene};
use crate::size::{Answer, PairSource, PairUsed, ScheduleRow, Suggestion, safe_deflections};
use crate::units::{UnitChoice, number_with_decimals};
use crate::web::ask::{Ask, Planes};

/// Share of the top speed to begin at when nothing else suggests a speed.
const USUAL_SHARE: f64 = 0.7;
/// Steps of the speed slider in a unit of speed, and of the deflection slider in a degree.
const STEPS_IN_A_UNIT: f64 = 2.0;
/// Charts that follow the sliders.
const CURVES: [&str; 2] = ["trim", "resistance"];

/// What is wrong with a field, in the words of the command line.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::web) struct FieldFault {
    pub field: &'static str,
    pub text: String,
}

/// Range and place of a slider, in the unit shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::web) struct Slider {
    pub from: f64,
    pub to: f64,
    pub at: f64,
}

/// What the sliders ask and what comes of it.
pub(in crate::web) struct Run {
    /// The boat loaded as asked for, with the planes of her file.
    pub boat: Boat,
    /// Which planes.
    pub planes: Planes,
    pub speed: Slider,
    pub deflection: Slider,
    /// What could not be used, by field.
    pub faults: Vec<FieldFault>,
    /// What the boat does; none when no balance can be asked for.
    pub settled: Option<Settled>,
}

/// What the boat does there.
pub(in crate::web) struct Settled {
    /// The boat with the planes asked for.
    pub boat: Boat,
    pub point: Point,
    /// The same speed with planes up.
    pub up: Point,
    pub budget: Option<Budget>,
    /// Largest deflection with a safe run at this speed.
    pub safe: Option<Angle>,
    /// Whether forces are drawn.
    pub forces: bool,
    pub units: UnitChoice,
    /// Where her planes come from; from nowhere where somebody tries a size.
    source: PairSource,
}

impl Run {
    /// The run of a request; what it leaves open comes from the suggestion.
    pub fn of(
        ask: &Ask,
        boats: &[Boat],
        units: UnitChoice,
        suggestion: Option<&Suggestion>,
    ) -> Self {
        let mut faults = Vec::new();
        let more = more_aboard(ask, boats, &mut faults);
        let boat = more.as_ref().unwrap_or_else(|| loaded(ask, boats, &mut faults));
        let (planes, with) = planes(ask, boat, suggestion, &mut faults);
        let usual = usual_speed(boat, units, suggestion);
        let speed = taken("speed", ask.speed(), usual, &mut faults);
        let deflection = match with.planes() {
            None => Angle::new::<degree>(0.0),
            Some(_) => {
                let usual = usual_deflection(boat, speed, suggestion);
                taken("deflection", ask.deflection(), usual, &mut faults)
            }
        };
        let largest_deg = degrees(boat.sizing().largest_deflection);
        let mut run = Self {
            boat: boat.clone(),
            planes,
            speed: speed_slider(boat, units, usual),
            deflection: Slider { from: 0.0, to: largest_deg, at: 0.0 },
            faults,
            settled: None,
        };
        let settled = match settle(with.clone(), [speed, usual], deflection, units, ask.forces()) {
            Ok(settled) => Some(settled),
            Err(fault) => {
                run.refuse(fault);
                settle(with, [usual, usual], Angle::default(), units, ask.forces()).ok()
            }
        };
        if let Some(settled) = &settled {
            run.speed = speed_slider(boat, units, settled.point.speed);
            run.deflection.at = degrees(settled.point.deflection);
            run.deflection.to = largest_deg.max(run.deflection.at);
        }
        let source = source(run.planes, suggestion);
        run.settled = settled.map(|settled| Settled { source, ..settled });
        run
    }

    /// The pair that she runs with.
    pub fn pair(&self) -> Option<PlanePair> {
        self.settled.as_ref()?.boat.planes()
    }

    /// The same with where it comes from; from nowhere where somebody tries a size.
    pub fn used(&self) -> PairUsed {
        let source = self.settled.as_ref().map_or(PairSource::Nowhere, |settled| settled.source);
        PairUsed { pair: self.pair(), source }
    }

    /// Puts a fault of the balance beside its field.
    fn refuse(&mut self, fault: Fault) {
        let field = match fault.key.as_str() {
            "run.deflection" => "deflection",
            _ => "speed",
        };
        self.faults
            .push(FieldFault { field, text: format!("{}; {}", fault.problem, fault.remedy) });
    }

    /// What is wrong with a field.
    pub fn faults_of<'a>(&'a self, field: &'a str) -> impl Iterator<Item = &'a str> {
        self.faults.iter().filter(move |fault| fault.field == field).map(|f| f.text.as_str())
    }
}

/// Where the planes asked for come from.
fn source(planes: Planes, suggestion: Option<&Suggestion>) -> PairSource {
    match (planes, suggestion.and_then(Suggestion::pair)) {
        (Planes::Fitted, _) => PairSource::Fitted,
        (Planes::Pair(pair), Some(suggested)) if pair == suggested => PairSource::Suggested,
        _ => PairSource::Nowhere,
    }
}

fn settle(
    boat: Boat,
    [speed, _]: [Velocity; 2],
    deflection: Angle,
    units: UnitChoice,
    forces: bool,
) -> Result<Settled, Fault> {
    let balance = Balance::of(&boat, &settings());
    let point = balance.point(speed, deflection)?;
    let up = balance.point(speed, Angle::default())?;
    let budget = balance.budget(&point);
    let safe = boat
        .planes()
        .and_then(|pair| safe_deflections(&boat, &settings(), pair, &[speed]).first().copied())
        .map(|safe| safe.min(boat.sizing().largest_deflection));
    Ok(Settled { boat, point, up, budget, safe, forces, units, source: PairSource::Nowhere })
}

/// The boat in the loading condition asked for; as her loads are listed when none is.
fn loaded<'a>(ask: &Ask, boats: &'a [Boat], faults: &mut Vec<FieldFault>) -> &'a Boat {
    let Some(name) = ask.condition() else { return &boats[0] };
    let found = boats.iter().find(|boat| same_name(&boat.condition().name, name));
    found.unwrap_or_else(|| {
        if let Err(fault) = boats[0].in_condition(name) {
            let text = format!("{}; {}", fault.problem, fault.remedy);
            faults.push(FieldFault { field: "condition", text });
        }
        &boats[0]
    })
}

/// The boat with more people aboard than her loads list; the size stays that of the loadings she has.
fn more_aboard(ask: &Ask, boats: &[Boat], faults: &mut Vec<FieldFault>) -> Option<Boat> {
    let people = ask.more_aboard()?;
    let more = boats[0].with_more_aboard(people).map_err(Fault::from);
    match more.and_then(|(boat, name)| boat.in_condition(&name)) {
        Ok(boat) => Some(boat),
        Err(fault) => {
            let text = format!("{}; {}", fault.problem, fault.remedy);
            faults.push(FieldFault { field: "condition", text });
            None
        }
    }
}

/// The planes asked for, and the boat with them; those suggested, else fitted, when nothing is asked.
fn planes(
    ask: &Ask,
    boat: &Boat,
    suggestion: Option<&Suggestion>,
    faults: &mut Vec<FieldFault>,
) -> (Planes, Boat) {
    let suggested = suggestion.and_then(|suggestion| match suggestion.answer {
        Answer::Pair(pair) => Some(Planes::Pair(pair)),
        _ => None,
    });
    let usual = match (suggested, boat.planes()) {
        (Some(planes), _) => planes,
        (None, Some(_)) => Planes::Fitted,
        (None, None) => Planes::Off,
    };
    let mut refuse = |text: String| faults.push(FieldFault { field: "planes", text });
    let asked = match ask.planes() {
        None => usual,
        Some(Ok(asked)) => asked,
        Some(Err(text)) => {
            refuse(text);
            usual
        }
    };
    let pair: Option<PlanePair> = match asked {
        Planes::Fitted => boat.planes(),
        Planes::Off => None,
        Planes::Pair(pair) => Some(pair),
    };
    match boat.with_planes(pair) {
        Ok(with) => (asked, with),
        Err(wrong) => {
            for fault in wrong {
                refuse(format!("{}: {}; {}", fault.key, fault.problem, fault.remedy));
            }
            (if boat.planes().is_some() { Planes::Fitted } else { Planes::Off }, boat.clone())
        }
    }
}

/// A value that is given and can be read, else the usual one with the fault noted.
fn taken<T>(
    field: &'static str,
    given: Option<Result<T, String>>,
    usual: T,
    faults: &mut Vec<FieldFault>,
) -> T {
    match given {
        None => usual,
        Some(Ok(value)) => value,
        Some(Err(text)) => {
            faults.push(FieldFault { field, text });
            usual
        }
    }
}

/// Where the duty that set the size asks most; else a good part of the top speed. In whole steps of the slider.
fn usual_speed(boat: &Boat, units: UnitChoice, suggestion: Option<&Suggestion>) -> Velocity {
    let from_duty = suggestion.and_then(|s| Some(s.duties[s.set_by?].speed));
    let speed = from_duty.unwrap_or_else(|| boat.drive().top_speed * USUAL_SHARE);
    let one = units.speed.value(Velocity::new::<meter_per_second>(1.0));
    let steps = (units.speed.value(speed.max(planing_start(boat))) * STEPS_IN_A_UNIT).ceil();
    Velocity::new::<meter_per_second>(steps / STEPS_IN_A_UNIT / one)
}

/// What the schedule of the suggestion says for her loading and speed, in whole steps of the slider.
fn usual_deflection(boat: &Boat, speed: Velocity, suggestion: Option<&Suggestion>) -> Angle {
    let all = suggestion.map(|suggestion| suggestion.conditions.as_slice()).unwrap_or_default();
    let own = all.iter().find(|own| own.condition == boat.condition().name);
    let rows = own.map(|own| own.schedule.as_slice()).unwrap_or_default();
    let deg = ScheduleRow::nearest(rows, speed).map_or(0.0, |row| degrees(row.deflection));
    Angle::new::<degree>((deg * STEPS_IN_A_UNIT).round() / STEPS_IN_A_UNIT)
}

/// From a little under the start of planing to a little over top speed.
fn speed_slider(boat: &Boat, units: UnitChoice, at: Velocity) -> Slider {
    let value = |speed| units.speed.value(speed);
    let at = value(at);
    let from = (0.8 * value(planing_start(boat))).floor().min(at.floor()).max(0.0);
    let to = (1.05 * value(boat.drive().top_speed)).ceil().max(from + 1.0).max(at.ceil());
    Slider { from, to, at }
}

impl Settled {
    /// What the pictures show.
    pub fn scene(&self, frame: Frame) -> Scene<'_> {
        let budget = self.budget.as_ref().filter(|_| self.forces);
        Scene { boat: &self.boat, point: &self.point, budget, units: self.units, frame }
    }

    /// Trim and resistance against speed, planes up and as they are, with the boat marked on them.
    pub fn curves(&self) -> Vec<LineChart> {
        let mut deflections = vec![Angle::default()];
        if self.point.deflection > Angle::default() {
            deflections.push(self.point.deflection);
        }
        let planes = PairUsed { pair: self.boat.planes(), source: self.source };
        let subject = Subject { boat: &self.boat, planes, units: self.units };
        let charts = running_charts(subject, &settings(), &deflections, &[]);
        let mut curves = Vec::new();
        for named in charts.unwrap_or_default() {
            let mut chart = named.chart;
            if !CURVES.contains(&named.stem) {
                continue;
            }
            if let Some(running) = &self.point.running {
                let y = match named.stem {
                    "trim" => degrees(running.trim),
                    _ => self.units.force.value(running.resistance),
                };
                let x = self.units.speed.value(self.point.speed);
                let text = format!("{} {}", number_with_decimals(x, 1), self.units.speed.symbol());
                chart.markers.push(Marker::new(text, x, y));
            }
            curves.push(chart);
        }
        curves
    }
}
