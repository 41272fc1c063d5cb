//! Everything that the outputs show, computed once.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length, Velocity};
use uom::si::velocity::meter_per_second;

use super::LoadsArguments;
use crate::balance::sweep::planing_start;
use crate::balance::{Balance, Settings as BalanceSettings};
use crate::boat::{Boat, BoatInput, Fault, LiftReference, PlanePair};
use crate::cli::Failure;
use crate::input::BoatFile;
use crate::plane::linkage::Linkage;
use crate::size::{safe_deflections, suggest_for};
use crate::stock::assess::{AssessError, LoadAt, PartLoadAt, Settings, pair_loads, part_loads};
use crate::stock::{Assessment, Part, assess};
use crate::units::{SpeedUnit, UnitChoice};

/// Deflections shown when none is asked for, degrees.
const DEFLECTIONS_DEG: [f64; 3] = [5.0, 10.0, 15.0];
/// Steps of the stroke table.
const STROKE_STEPS: u32 = 10;
/// Speeds in a table, about.
const SPEED_STEPS: f64 = 5.0;

/// Where the planes come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Origin {
    Part,
    BoatFile,
    Suggested,
}

/// The planes whose loads are shown.
#[derive(Clone, Copy)]
pub(super) struct Planes {
    pair: PlanePair,
    origin: Origin,
}

/// One place of the stroke.
pub(super) struct StrokeRow {
    pub(super) extension: Length,
    pub(super) pin_to_pin: Length,
    pub(super) deflection: Angle,
    pub(super) lever: Length,
}

/// A part with all that was found out about it.
pub(super) struct PartLoads {
    pub(super) part: Part,
    pub(super) assessment: Assessment,
    pub(super) loads: Vec<PartLoadAt>,
    /// At the largest deflection that it can be put to at each speed.
    pub(super) at_largest: Vec<PartLoadAt>,
    pub(super) stroke: Vec<StrokeRow>,
    /// Extension at which the trailing edge reaches the bottom line, where the stroke gets there.
    pub(super) touching_extension: Option<Length>,
}

/// Trim with the planes' lift measured from either end of the chord.
pub(super) struct ReferenceRow {
    pub(super) speed: Velocity,
    pub(super) planes_up: Option<Angle>,
    pub(super) from_transom: Option<Angle>,
    pub(super) from_trailing_edge: Option<Angle>,
}

/// Everything that an output of this command may show.
pub(super) struct Loaded {
    pub(super) file: BoatFile,
    pub(super) units: UnitChoice,
    pub(super) settings: Settings,
    pub(super) cable_length: Length,
    pub(super) pair: PlanePair,
    pub(super) origin: Origin,
    pub(super) speeds: Vec<Velocity>,
    /// Largest deflection with a safe run, for each speed.
    pub(super) safe: Vec<Angle>,
    pub(super) loads: Vec<LoadAt>,
    pub(super) part: Option<PartLoads>,
    /// Deflection at which the references are compared.
    pub(super) compared_at: Angle,
    pub(super) references: Vec<ReferenceRow>,
}

impl Loaded {
    pub(super) fn of(
        file: BoatFile,
        part: Option<Part>,
        Planes { pair, origin }: Planes,
        arguments: &LoadsArguments,
    ) -> Result<Self, Failure> {
        let units = arguments.units.choice();
        let settings = arguments.strength.settings();
        let boat = &file.boat;
        let speeds = match arguments.speeds.as_slice() {
            [] => usual_speeds(boat, units.speed),
            given => given.to_vec(),
        };
        let deflections = match arguments.deflections.as_slice() {
            [] => DEFLECTIONS_DEG.map(Angle::new::<degree>).to_vec(),
            given => given.to_vec(),
        };
        let part = match part {
            Some(part) => Some(part_view(part, boat, &settings, &speeds, &deflections)?),
            None => None,
        };
        let balance = BalanceSettings::default();
        let full = Angle::new::<degree>(10.0);
        let compared_at =
            part.as_ref().map_or(full, |view| full.min(view.assessment.full_deflection));
        Ok(Self {
            safe: safe_deflections(boat, &balance, pair, &speeds),
            loads: pair_loads(pair, boat, &settings, &speeds, &deflections)?,
            references: references(boat, pair, compared_at, &speeds)?,
            units,
            settings,
            cable_length: arguments.strength.cable_length,
            pair,
            origin,
            speeds,
            part,
            compared_at,
            file,
        })
    }

    pub(super) fn boat(&self) -> &Boat {
        &self.file.boat
    }

    /// The word of the boat file for where the planes' lift is measured from.
    pub(super) fn reference_word(&self) -> &'static str {
        match self.boat().sizing().lift_reference {
            LiftReference::Transom => "transom",
            LiftReference::TrailingEdge => "trailing-edge",
        }
    }

    /// Largest deflection with a safe run at one of the speeds.
    pub(super) fn safe_at(&self, speed: Velocity) -> Option<Angle> {
        let place = self.speeds.iter().position(|&other| other == speed)?;
        self.safe.get(place).copied()
    }

    /// Whether the part has room on the transom; pairs without a part are not asked.
    pub(super) fn fits(&self) -> bool {
        self.part.as_ref().is_none_or(|view| view.assessment.fit.fits())
    }
}

impl Planes {
    /// Those of the part, or of the boat, or suggested for the boat in some loading conditions.
    pub(super) fn of(
        boat: &Boat,
        part: Option<&Part>,
        sized_for: &[Boat],
    ) -> Result<Self, Failure> {
        if let Some(part) = part {
            return Ok(Self { pair: part.pair(), origin: Origin::Part });
        }
        if let Some(pair) = boat.planes() {
            return Ok(Self { pair, origin: Origin::BoatFile });
        }
        let suggested = suggest_for(sized_for, &BalanceSettings::default())?.pair();
        suggested.map(|pair| Self { pair, origin: Origin::Suggested }).ok_or_else(|| {
            Failure::Fault(Fault {
                key: "planes".to_owned(),
                problem: "the boat file has no planes, and no size can be suggested".to_owned(),
                remedy: "give [planes] with span and chord, or --stock and --part".to_owned(),
            })
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
    boat: &Boat,
    settings: &Settings,
    speeds: &[Velocity],
    deflections: &[Angle],
) -> Result<PartLoads, AssessError> {
    let assessment = assess(&part, boat, settings, speeds)?;
    let mut at_largest = Vec::new();
    for at in &assessment.by_speed {
        let deflection = [at.largest.deflection];
        at_largest.extend(part_loads(&part, boat, settings, &[at.speed], &deflection)?);
    }
    let linkage = Linkage::new(&assessment.linkage)?;
    let stroke = (0..=STROKE_STEPS)
        .map(|step| stroke_row(&linkage, &part, f64::from(step) / f64::from(STROKE_STEPS)))
        .collect::<Result<_, AssessError>>()?;
    let touching_extension = linkage.extension_for(assessment.touching, &part.travel).ok();
    let loads = part_loads(&part, boat, settings, speeds, deflections)?;
    Ok(PartLoads { part, assessment, loads, at_largest, stroke, touching_extension })
}

fn stroke_row(linkage: &Linkage, part: &Part, share: f64) -> Result<StrokeRow, AssessError> {
    let extension = part.travel.stroke * share;
    let pin_to_pin = part.travel.retracted_length + extension;
    let deflection = linkage.deflection_at(pin_to_pin)?;
    Ok(StrokeRow { extension, pin_to_pin, deflection, lever: linkage.lever_at(deflection)? })
}

fn references(
    boat: &Boat,
    pair: PlanePair,
    deflection: Angle,
    speeds: &[Velocity],
) -> Result<Vec<ReferenceRow>, Failure> {
    let with = |reference: LiftReference| -> Result<Balance, Failure> {
        let mut input: BoatInput = boat.input().clone();
        input.sizing.lift_reference = reference;
        let boat = Boat::build(input).map_err(Failure::first_fault)?;
        Ok(Balance::of(&boat, &BalanceSettings::default()).with_planes(Some(pair)))
    };
    let (transom, edge) = (with(LiftReference::Transom)?, with(LiftReference::TrailingEdge)?);
    let trim = |balance: &Balance, speed, deflection| -> Result<Option<Angle>, Fault> {
        Ok(balance.point(speed, deflection)?.running.map(|running| running.trim))
    };
    let mut rows = Vec::new();
    for &speed in speeds {
        rows.push(ReferenceRow {
            speed,
            planes_up: trim(&transom, speed, Angle::default())?,
            from_transom: trim(&transom, speed, deflection)?,
            from_trailing_edge: trim(&edge, speed, deflection)?,
        });
    }
    Ok(rows)
}
