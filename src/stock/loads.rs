//! What the water puts on a pair of planes, speed by speed, and what a part makes of it.

use serde::Serialize;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length, Velocity};
use uom::si::velocity::meter_per_second;

use super::assess::{
    AssessError, LoadAt, PartLoadAt, Settings, Strength, pair_loads, part_loads, strength,
};
use super::{Assessment, Gear, Part, assess};
use crate::balance::Settings as BalanceSettings;
use crate::balance::sweep::planing_start;
use crate::boat::{Boat, Fault, PlanePair};
use crate::doubt::advise_for;
use crate::field::si;
use crate::plane::linkage::{Linkage, Travel};
use crate::plane::strength::Verdict;
use crate::size::{Answer, PairSource, safe_deflections};
use crate::units::SpeedUnit;

/// Deflections shown when none is asked for, degrees.
const DEFLECTIONS_DEG: [f64; 3] = [5.0, 10.0, 15.0];
/// Steps of the stroke table.
const STROKE_STEPS: u32 = 10;
/// Speeds in a table, about.
const SPEED_STEPS: f64 = 5.0;

/// The planes whose loads are shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planes {
    /// Their size.
    pub pair: PlanePair,
    /// Where they come from.
    pub source: PairSource,
}

/// One place of the stroke.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StrokeRow {
    /// How far the actuator is extended.
    #[serde(rename = "extension_m", serialize_with = "si")]
    pub extension: Length,
    /// Its length from pin to pin.
    #[serde(rename = "pin_to_pin_m", serialize_with = "si")]
    pub pin_to_pin: Length,
    /// Deflection of the plane, from parallel to the bottom, trailing edge down.
    #[serde(rename = "deflection_deg", serialize_with = "si")]
    pub deflection: Angle,
    /// Distance of the actuator's line from the hinge.
    #[serde(rename = "lever_m", serialize_with = "si")]
    pub lever: Length,
}

/// A part with all that was found out about it.
#[derive(Clone, Debug)]
pub struct PartLoads {
    /// The part.
    pub part: Part,
    /// Its plate, actuators and screws.
    pub gear: Gear,
    /// What it can do and bear on the boat.
    pub assessment: Assessment,
    /// At each speed and deflection that it reaches.
    pub loads: Vec<PartLoadAt>,
    /// What it bears at the deflection allowed, at all speeds to top speed.
    pub strength: Strength,
    /// From retracted to extended.
    pub stroke: Vec<StrokeRow>,
    /// Extension at which the trailing edge reaches the bottom line, where the stroke gets there.
    pub touching_extension: Option<Length>,
}

/// What is asked about the planes of a boat.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadsAsked {
    /// Factors and assumptions.
    pub settings: Settings,
    /// Speeds; the usual ones over the planing range when there are none.
    pub speeds: Vec<Velocity>,
    /// Deflections; 5, 10 and 15 degrees when there are none.
    pub deflections: Vec<Angle>,
    /// Unit in which the usual speeds are whole.
    pub speed_unit: SpeedUnit,
}

/// What the planes of a boat carry.
#[derive(Clone, Debug)]
pub struct PlaneLoads {
    /// Factors and assumptions.
    pub settings: Settings,
    /// The planes.
    pub planes: Planes,
    /// Speeds looked at.
    pub speeds: Vec<Velocity>,
    /// Largest deflection with a safe run, for each speed.
    pub safe: Vec<Angle>,
    /// The load at each speed and deflection where she runs.
    pub loads: Vec<LoadAt>,
    /// At each speed the load at the deepest deflection that is allowed there; nothing where deflections are asked for.
    pub allowed: Vec<LoadAt>,
    /// The part, where the planes are one that the list describes.
    pub part: Option<PartLoads>,
    /// Name of the part, where the planes are one of which the list says nothing but the size.
    pub not_described: Option<String>,
}

impl PlaneLoads {
    /// The loads on some planes of a boat; with a part, what it makes of them.
    ///
    /// # Errors
    /// As [`assess()`] and [`pair_loads`].
    pub fn of(
        boat: &Boat,
        planes: Planes,
        part: Option<Part>,
        asked: &LoadsAsked,
    ) -> Result<Self, AssessError> {
        let settings = asked.settings;
        let speeds = match asked.speeds.as_slice() {
            [] => usual_speeds(boat, asked.speed_unit),
            given => given.to_vec(),
        };
        let deflections = match asked.deflections.as_slice() {
            [] => DEFLECTIONS_DEG.map(Angle::new::<degree>).to_vec(),
            given => given.to_vec(),
        };
        let mut not_described = None;
        let part = match part {
            Some(part) => match part.gear.clone() {
                Some(gear) => Some(part_view(part, gear, boat, &settings, &speeds, &deflections)?),
                None => {
                    not_described = Some(part.name);
                    None
                }
            },
            None => None,
        };
        let pair = planes.pair;
        let safe = safe_deflections(boat, &BalanceSettings::default(), pair, &speeds);
        let mut allowed = Vec::new();
        if asked.deflections.is_empty() {
            let usable = boat.sizing().largest_deflection;
            for (&speed, &safe) in speeds.iter().zip(&safe) {
                let deepest = safe.min(usable);
                if deepest.value > 0.0 {
                    allowed.extend(pair_loads(pair, boat, &settings, &[speed], &[deepest])?);
                }
            }
        }
        Ok(Self {
            safe,
            allowed,
            loads: pair_loads(pair, boat, &settings, &speeds, &deflections)?,
            settings,
            planes,
            speeds,
            part,
            not_described,
        })
    }

    /// Largest deflection with a safe run at one of the speeds.
    #[must_use]
    pub fn safe_at(&self, speed: Velocity) -> Option<Angle> {
        let index = self.speeds.iter().position(|&other| other == speed)?;
        self.safe.get(index).copied()
    }

    /// Whether the part is unsafe under the load of steady running; pairs without a part, and parts that
    /// the list does not describe, are not judged.
    #[must_use]
    pub fn is_unsafe(&self) -> bool {
        self.part.as_ref().is_some_and(|view| view.strength.verdict() == Verdict::Unsafe)
    }

    /// Whether the part has room on the transom; pairs without a part are not asked.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.part.as_ref().is_none_or(|view| view.assessment.fit.fits())
    }
}

impl Planes {
    /// Those of the part, or of the boat, or suggested for the boat in some loading conditions.
    ///
    /// # Errors
    /// A [`Fault`] where no size can be suggested, and as [`advise_for`].
    pub fn of(boat: &Boat, part: Option<&Part>, sized_for: &[Boat]) -> Result<Self, Fault> {
        if let Some(part) = part {
            return Ok(Self { pair: part.pair(), source: PairSource::Listed });
        }
        if let Some(pair) = boat.planes() {
            return Ok(Self { pair, source: PairSource::Fitted });
        }
        let suggestion = advise_for(sized_for, &BalanceSettings::default())?;
        if let Some(silence) = suggestion.silence() {
            return Err(silence.fault());
        }
        let problem = match suggestion.answer {
            Answer::Pair(pair) => return Ok(Self { pair, source: PairSource::Suggested }),
            Answer::NoPlanesNeeded => {
                "the boat file has no planes, and the boat does every duty without any"
            }
            Answer::Infeasible(shortfall) if shortfall.best.is_none() => {
                "the boat file has no planes, and no size in whole steps fits her transom"
            }
            Answer::Infeasible(_) => "the boat file has no planes, and no size does every duty",
        };
        Err(Fault {
            key: "planes".to_owned(),
            problem: problem.to_owned(),
            remedy: "give [planes] with span and chord, or --stock and --part".to_owned(),
        })
    }
}

/// Whole steps of the unit over the planing range, and top speed.
fn usual_speeds(boat: &Boat, unit: SpeedUnit) -> Vec<Velocity> {
    let one = 1.0 / unit.value(Velocity::new::<meter_per_second>(1.0));
    let start = unit.value(planing_start(boat));
    let top = unit.value(boat.drive().top_speed);
    let span = (top - start).max(0.0) / SPEED_STEPS;
    let step = [1.0, 2.0, 5.0, 10.0, 20.0].into_iter().find(|&step| step >= span).unwrap_or(50.0);
    let mut values = vec![start.ceil()];
    let mut next = (values[0] / step).floor() * step + step;
    while next < top - 0.25 * step {
        values.push(next);
        next += step;
    }
    if top > values[0] {
        values.push(top);
    }
    values.into_iter().map(|value| Velocity::new::<meter_per_second>(value * one)).collect()
}

fn part_view(
    part: Part,
    gear: Gear,
    boat: &Boat,
    settings: &Settings,
    speeds: &[Velocity],
    deflections: &[Angle],
) -> Result<PartLoads, AssessError> {
    let assessment = assess(&part, boat, settings, speeds)?;
    let linkage = Linkage::new(&assessment.linkage)?;
    let stroke = (0..=STROKE_STEPS)
        .map(|step| stroke_row(&linkage, &gear.travel, f64::from(step) / f64::from(STROKE_STEPS)))
        .collect::<Result<_, AssessError>>()?;
    let touching_extension = linkage.extension_for(assessment.touching, &gear.travel).ok();
    let loads = part_loads(&part, boat, settings, speeds, deflections)?;
    let strength = strength(&part, std::slice::from_ref(boat), settings)?;
    Ok(PartLoads { part, gear, assessment, loads, strength, stroke, touching_extension })
}

fn stroke_row(linkage: &Linkage, travel: &Travel, share: f64) -> Result<StrokeRow, AssessError> {
    let extension = travel.stroke * share;
    let pin_to_pin = travel.retracted_length + extension;
    let deflection = linkage.deflection_at(pin_to_pin)?;
    Ok(StrokeRow { extension, pin_to_pin, deflection, lever: linkage.lever_at(deflection)? })
}
