//! The loads as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::f64::{Force, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::torque::newton_meter;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

use super::Loaded;
use crate::boat::degrees;
use crate::cli::strength::{CheckRecord, StrengthRecord};
use crate::plane::actuator::Actuator;
use crate::plane::actuator::electric::{CABLE_TEMPERATURE_DEGC, CableRun, TIGHT_DROP};
use crate::plane::hinge::HingeFlag;
use crate::plane::strength::fastening::ScrewHolding;
use crate::stock::assess::{AtSpeed, LimitedBy, LoadAt, PartLoadAt};
use crate::stock::{PartLoads, StrokeRow};
use crate::tell::loads::finite;

/// Everything in each of the loading conditions asked for.
#[derive(Serialize)]
pub(super) struct Answer {
    conditions: Vec<Record>,
}

/// Everything in one loading condition.
#[derive(Serialize)]
struct Record {
    name: String,
    load_factor: f64,
    screw_factor: f64,
    wet_factor: f64,
    loads: Vec<LoadRecord>,
    part: Option<PartRecord>,
}

#[derive(Serialize)]
struct LoadRecord {
    speed_m_s: f64,
    deflection_deg: f64,
    trim_planes_up_deg: f64,
    expected_load_n: f64,
    expected_hinge_moment_n_m: f64,
    thin_plate_hinge_moment_n_m: f64,
    design_load_n: f64,
    design_hinge_moment_n_m: f64,
    flags: Vec<&'static str>,
}

impl From<&LoadAt> for LoadRecord {
    fn from(at: &LoadAt) -> Self {
        Self {
            speed_m_s: at.speed.get::<meter_per_second>(),
            deflection_deg: degrees(at.deflection),
            trim_planes_up_deg: degrees(at.trim),
            expected_load_n: at.expected.force.get::<newton>(),
            expected_hinge_moment_n_m: at.expected.hinge_moment.get::<newton_meter>(),
            thin_plate_hinge_moment_n_m: at.thin_plate.hinge_moment.get::<newton_meter>(),
            design_load_n: at.design.force.get::<newton>(),
            design_hinge_moment_n_m: at.design.hinge_moment.get::<newton_meter>(),
            flags: at.flags.iter().copied().map(HingeFlag::word).collect(),
        }
    }
}

#[derive(Serialize)]
struct PartRecord {
    part: String,
    fits_transom: bool,
    missing_span_m: f64,
    strength: StrengthRecord,
    plate_factor: f64,
    push_n: f64,
    hold_n: f64,
    raised_deg: f64,
    lowered_deg: f64,
    touching_deg: f64,
    full_deflection_deg: f64,
    limits: LimitsRecord,
    by_speed: Vec<AtSpeedRecord>,
    loads: Vec<GearRecord>,
    at_allowed: Vec<GearRecord>,
    stroke: Vec<StrokeRecord>,
    actuator: ActuatorRecord,
}

/// For information: speeds above which something no longer bears full deflection; null where nothing does or no limit exists.
#[derive(Serialize)]
struct LimitsRecord {
    push_to_m_s: Option<f64>,
    hold_to_m_s: Option<f64>,
    hold_design_to_m_s: Option<f64>,
    plate_to_m_s: Option<f64>,
    screws_to_m_s: Option<f64>,
    screws_covered: bool,
}

#[derive(Serialize)]
struct AtSpeedRecord {
    speed_m_s: f64,
    largest_deflection_deg: f64,
    limited_by: &'static str,
    largest_safe_deg: f64,
    allowed_deg: f64,
    verdict: &'static str,
}

#[derive(Serialize)]
struct GearRecord {
    speed_m_s: f64,
    deflection_deg: f64,
    checks: Vec<CheckRecord>,
    expected_push_n: f64,
    share_of_push: Option<f64>,
    design_push_n: f64,
    share_of_hold: Option<f64>,
    design_hinge_off_transom_n: f64,
    design_hinge_along_transom_n: f64,
    expected_stress_pa: f64,
    design_stress_pa: f64,
    design_plate_factor: Option<f64>,
    design_edge_deflection_m: f64,
    needed_thickness_m: f64,
    design_hinge_screw_pull_n: f64,
    hinge_screw_holds_n: Option<f64>,
    design_bracket_screw_pull_n: f64,
    bracket_screw_holds_n: Option<f64>,
}

#[derive(Serialize)]
struct StrokeRecord {
    extension_m: f64,
    pin_to_pin_m: f64,
    deflection_deg: f64,
    lever_m: f64,
}

impl From<&StrokeRow> for StrokeRecord {
    fn from(row: &StrokeRow) -> Self {
        Self {
            extension_m: row.extension.get::<meter>(),
            pin_to_pin_m: row.pin_to_pin.get::<meter>(),
            deflection_deg: degrees(row.deflection),
            lever_m: row.lever.get::<meter>(),
        }
    }
}

#[derive(Serialize)]
struct ActuatorRecord {
    kind: &'static str,
    for_each_plane: u32,
    time_to_extend_s: f64,
    time_to_retract_s: Option<f64>,
    oil_to_extend_m3: Option<f64>,
    oil_to_retract_m3: Option<f64>,
    tube_loss_pa: Option<f64>,
    tube_flow_laminar: Option<bool>,
    current_a: Option<f64>,
    fuse_a: Option<f64>,
    cable_mm2: Option<f64>,
}

/// Everything, to be serialised.
pub(super) fn answer(all: &[Loaded]) -> Answer {
    Answer { conditions: all.iter().map(record).collect() }
}

fn record(loaded: &Loaded) -> Record {
    let settings = &loaded.found.settings;
    Record {
        name: loaded.boat().condition().name.clone(),
        load_factor: settings.load_factor,
        screw_factor: settings.withdrawal_factor,
        wet_factor: settings.wet_factor,
        loads: loaded.found.loads.iter().map(LoadRecord::from).collect(),
        part: loaded.found.part.as_ref().map(|view| part(loaded, view)),
    }
}

fn part(loaded: &Loaded, view: &PartLoads) -> PartRecord {
    let (part, assessment) = (&view.part, &view.assessment);
    let limits = &assessment.limits;
    let to = |speed: Velocity| finite(speed.get::<meter_per_second>());
    PartRecord {
        part: part.name.clone(),
        fits_transom: assessment.fit.fits(),
        missing_span_m: assessment.fit.missing.get::<meter>(),
        strength: StrengthRecord::of(part, &view.strength, loaded.units),
        plate_factor: loaded
            .found
            .settings
            .plate_factor
            .unwrap_or_else(|| part.material.default_factor()),
        push_n: part.actuator.push().get::<newton>(),
        hold_n: part.actuator.hold().get::<newton>(),
        raised_deg: degrees(assessment.raised),
        lowered_deg: degrees(assessment.lowered),
        touching_deg: degrees(assessment.touching),
        full_deflection_deg: degrees(assessment.full_deflection),
        limits: LimitsRecord {
            push_to_m_s: to(limits.push),
            hold_to_m_s: to(limits.hold),
            hold_design_to_m_s: to(limits.hold_design),
            plate_to_m_s: to(limits.plate),
            screws_to_m_s: limits.screws.and_then(to),
            screws_covered: limits.screws.is_some(),
        },
        by_speed: assessment.by_speed.iter().map(AtSpeedRecord::from).collect(),
        loads: view.loads.iter().map(|at| gear(view, at)).collect(),
        at_allowed: assessment.by_speed.iter().map(|at| gear(view, &at.load)).collect(),
        stroke: view.stroke.iter().map(StrokeRecord::from).collect(),
        actuator: actuator(loaded, view),
    }
}

impl From<&AtSpeed> for AtSpeedRecord {
    fn from(at: &AtSpeed) -> Self {
        Self {
            speed_m_s: at.load.load.speed.get::<meter_per_second>(),
            largest_deflection_deg: degrees(at.largest.deflection),
            limited_by: match at.largest.limited_by {
                LimitedBy::Tested => "tested-range",
                LimitedBy::Linkage => "stroke",
                LimitedBy::Actuator => "actuator",
            },
            largest_safe_deg: degrees(at.safe),
            allowed_deg: degrees(at.allowed),
            verdict: at.load.verdict().word(),
        }
    }
}

fn gear(view: &PartLoads, at: &PartLoadAt) -> GearRecord {
    let newtons = |force: Force| force.get::<newton>();
    let actuator = &view.part.actuator;
    let (plate, screws) = (&at.design.plate, &at.design.screws);
    GearRecord {
        speed_m_s: at.load.speed.get::<meter_per_second>(),
        deflection_deg: degrees(at.load.deflection),
        checks: at.checks.iter().map(CheckRecord::from).collect(),
        expected_push_n: newtons(at.expected_push),
        share_of_push: finite((at.expected_push / actuator.push()).value),
        design_push_n: newtons(at.design_push),
        share_of_hold: finite((at.design_push / actuator.hold()).value),
        design_hinge_off_transom_n: newtons(at.design_reaction.off_transom),
        design_hinge_along_transom_n: newtons(at.design_reaction.along_transom),
        expected_stress_pa: at.expected.plate.worst_stress().get::<pascal>(),
        design_stress_pa: plate.worst_stress().get::<pascal>(),
        design_plate_factor: finite(plate.safety_factor),
        design_edge_deflection_m: plate.trailing_edge_deflection.get::<meter>(),
        needed_thickness_m: plate.needed_thickness.get::<meter>(),
        design_hinge_screw_pull_n: newtons(screws.hinge_pull),
        hinge_screw_holds_n: holds_n(screws.hinge_holding),
        design_bracket_screw_pull_n: newtons(screws.bracket_pull),
        bracket_screw_holds_n: holds_n(screws.bracket_holding),
    }
}

fn holds_n(holding: ScrewHolding) -> Option<f64> {
    match holding {
        ScrewHolding::Covered { safe, .. } => finite(safe.get::<newton>()),
        ScrewHolding::NotCovered { .. } => None,
    }
}

fn actuator(loaded: &Loaded, view: &PartLoads) -> ActuatorRecord {
    let actuator = &view.part.actuator;
    let (hydraulic, electric) = match actuator {
        Actuator::Hydraulic(cylinder) => (Some(cylinder), None),
        Actuator::Electric(motor) => (None, Some(motor)),
    };
    let degc =
        uom::si::f64::ThermodynamicTemperature::new::<degree_celsius>(CABLE_TEMPERATURE_DEGC);
    let run = CableRun {
        one_way_length: loaded.cable_length,
        allowed_drop: TIGHT_DROP,
        conductor_temperature: degc,
    };
    let oil = |volume: uom::si::f64::Volume| volume.get::<cubic_meter>();
    ActuatorRecord {
        kind: if hydraulic.is_some() { "hydraulic" } else { "electric" },
        for_each_plane: view.part.actuators,
        time_to_extend_s: actuator.time_to_extend().get::<second>(),
        time_to_retract_s: actuator.time_to_retract().map(|time| time.get::<second>()),
        oil_to_extend_m3: hydraulic.map(|cylinder| oil(cylinder.oil_to_extend())),
        oil_to_retract_m3: hydraulic.and_then(|cylinder| cylinder.oil_to_retract()).map(oil),
        tube_loss_pa: hydraulic.map(|cylinder| cylinder.tube_loss().pressure.get::<pascal>()),
        tube_flow_laminar: hydraulic.map(|cylinder| cylinder.tube_loss().laminar),
        current_a: electric.map(|motor| motor.spec().rated_current.get::<ampere>()),
        fuse_a: electric.and_then(|motor| motor.fuse().ok()).map(|fuse| fuse.get::<ampere>()),
        cable_mm2: electric
            .and_then(|motor| motor.cable(&run).ok())
            .map(|size| size.nominal.get::<square_millimeter>()),
    }
}
