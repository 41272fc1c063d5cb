//! The transom with what stands on it, and the features of the hull that no equation here knows.

use uom::si::f64::Length;
use uom::si::length::millimeter;

use super::findings::Findings;
use crate::boat::keys::or_default;
use crate::boat::{
    BoatInput, ClearOfDrive, Feature, Hull, Measure, Obstacle, ObstacleInput, PlanePair, Side,
    Strake, Transom, TransomForm, Unusual, face_deadrise,
};
use crate::units::LengthUnit;

/// Least distance off the centreline where nothing is known of the drive; common practice, no
/// source: 150 to 300 mm are seen.
const INNER_MM: f64 = 200.0;
/// Flat of the bottom to be left between a plane and the round of the chine; chosen here.
const BESIDE_CHINE_MM: f64 = 40.0;
/// Distance to be kept from notch, step or pod, so that the water that turns round their corners
/// passes the plane; chosen here.
const BESIDE_MIDDLE_MM: f64 = 50.0;

/// The transom, each of its measures as given or as its row says.
pub(super) fn transom(findings: &mut Findings, input: &BoatInput, hull: &Hull) -> Transom {
    let (given, stations) = (&input.transom, input.stations.as_ref());
    let of_stations =
        stations.map(|stations| (stations.transom_beam(), stations.transom_deadrise()));
    let (beam, deadrise) = of_stations.unwrap_or((hull.chine_beam, hull.deadrise));
    let deadrise = given.deadrise.unwrap_or(deadrise);
    let millimetres = Length::new::<millimeter>;
    let clear_of_drive = ClearOfDrive::of(&input.drive);
    let rake = or_default(given.rake, "transom.rake");
    let off_middle = given.middle_beam.map(|beam| 0.5 * beam + millimetres(BESIDE_MIDDLE_MM));
    let off_drive = clear_of_drive.map_or(millimetres(INNER_MM), |clear| clear.off_centre());
    let inner = off_middle.map_or(off_drive, |middle| middle.max(off_drive))
        / face_deadrise(deadrise, rake).cos();
    let chine_radius = or_default(given.chine_radius, "transom.chine_radius");
    let outer = or_default(given.outer_clearance, "transom.outer_clearance");
    let round = chine_radius + millimetres(BESIDE_CHINE_MM);
    let transom = Transom {
        beam: given.beam.unwrap_or(beam),
        deadrise,
        form: given.form.unwrap_or_default(),
        middle_beam: given.middle_beam,
        clear_of_drive,
        chine_radius,
        retracted_angle: or_default(given.retracted_angle, "transom.retracted_angle"),
        edge_fairness: or_default(given.edge_fairness, "transom.edge_fairness"),
        lower_edge_radius: or_default(given.lower_edge_radius, "transom.lower_edge_radius"),
        unevenness: given.unevenness,
        thickness: given.thickness,
        waterline: given.waterline.or(input.afloat.map(|marks| marks.draft_at_transom)),
        rake,
        inner_clearance: given.inner_clearance.unwrap_or(inner),
        outer_clearance: if given.outer_clearance.is_some() { outer } else { outer.max(round) },
        hinge_height: or_default(given.hinge_height, "transom.hinge_height"),
        working_height: or_default(given.working_height, "transom.working_height"),
        obstacles: given.obstacles.iter().map(obstacle).collect(),
        strakes: given.strakes.clone(),
    };
    findings.check_all("transom", given.measures());
    check_middle(findings, &transom);
    let half_beam = transom.beam / 2.0;
    for (index, obstacle) in given.obstacles.iter().enumerate() {
        check_obstacle(findings, index, obstacle, half_beam);
    }
    for (index, strake) in transom.strakes.iter().enumerate() {
        check_strake(findings, index, strake, half_beam);
    }
    transom
}

/// A notch, step or pod has its beam, and lies between the chines; a plain transom has none.
fn check_middle(findings: &mut Findings, transom: &Transom) {
    let word = transom.form.word();
    match (transom.form, transom.middle_beam) {
        (TransomForm::Plain, Some(_)) => findings.fault(
            "transom.middle_beam",
            "there is no middle on a plain transom".to_owned(),
            "say what stands there with form: notched, stepped or pod; or delete middle_beam"
                .to_owned(),
        ),
        (TransomForm::Plain, None) => {}
        (_, None) => findings.fault(
            "transom.form",
            format!("{word} is given without middle_beam"),
            "give transom.middle_beam, the beam amidships where no plane may stand".to_owned(),
        ),
        (_, Some(beam)) if beam >= transom.beam => findings.fault(
            "transom.middle_beam",
            format!(
                "{} leaves nothing of the transom, {}",
                Measure::Length(beam),
                Measure::Length(transom.beam)
            ),
            "give the beam of the notch, step or pod alone".to_owned(),
        ),
        (_, Some(_)) => {}
    }
}

fn obstacle(given: &ObstacleInput) -> Obstacle {
    let spoken = || given.kind.spoken().to_owned();
    Obstacle {
        kind: given.kind,
        name: given.name.clone().unwrap_or_else(spoken),
        off_centre: given.off_centre,
        width: given.width,
        from: given.from,
        to: given.to,
        clearance: given.clearance.unwrap_or_else(|| given.kind.usual_clearance()),
    }
}

fn check_obstacle(
    findings: &mut Findings,
    index: usize,
    obstacle: &ObstacleInput,
    half_beam: Length,
) {
    let path = format!("transom.obstacle[{index}]");
    let key = |plain: &str| format!("{path}.{plain}");
    findings.check_all(&path, obstacle.measures());
    if obstacle.from >= obstacle.to {
        findings.fault(
            &key("from"),
            format!(
                "{} is not below to, {}",
                Measure::Length(obstacle.from),
                Measure::Length(obstacle.to)
            ),
            "from is its lowest point above the bottom edge, negative when it hangs below; to its highest".to_owned(),
        );
    }
    off_the_transom(findings, &key("off_centre"), obstacle.off_centre.abs(), half_beam);
}

fn check_strake(findings: &mut Findings, index: usize, strake: &Strake, half_beam: Length) {
    let path = format!("transom.strake[{index}]");
    findings.check_all(&path, strake.measures());
    off_the_transom(findings, &format!("{path}.off_centre"), strake.off_centre, half_beam);
}

fn off_the_transom(findings: &mut Findings, key: &str, off_centre: Length, half_beam: Length) {
    if off_centre > half_beam {
        findings.fault(
            key,
            format!(
                "{} off the centreline is beyond the chine, {}",
                Measure::Length(off_centre),
                Measure::Length(half_beam)
            ),
            "give the level distance of its middle from the centreline".to_owned(),
        );
    }
}

/// Checks what was measured on the finished boat: each side once, with planes that it is of.
pub(super) fn as_fitted(findings: &mut Findings, input: &BoatInput) {
    for (index, one) in input.as_fitted.iter().enumerate() {
        let path = format!("as_fitted[{index}]");
        findings.check_all(&path, one.measures());
        let side = if one.side == Side::Port { "port" } else { "starboard" };
        if input.as_fitted[..index].iter().any(|other| other.side == one.side) {
            findings.fault(
                &format!("{path}.side"),
                format!("{side} is measured twice"),
                "leave one table for port and one for starboard".to_owned(),
            );
        }
        if input.planes.is_none() {
            findings.fault(
                &format!("{path}.side"),
                "the boat has no planes that could have been fitted so".to_owned(),
                "describe the pair in [planes], or delete [[as_fitted]]".to_owned(),
            );
        }
    }
}

/// Warns of a fitted pair that finds no room where the boat file says it can stand.
pub(super) fn fitted_planes(findings: &mut Findings, transom: &Transom, planes: Option<PlanePair>) {
    let Some(pair) = planes else { return };
    let fit = transom.fits(pair);
    if fit.fits() {
        return;
    }
    let sentences: Vec<String> =
        fit.conflicts.iter().map(|conflict| conflict.sentence(LengthUnit::Millimetre)).collect();
    findings.unusual.push(Unusual {
        key: "planes.span".to_owned(),
        message: format!(
            "planes.span = {}: the pair does not fit the transom. {}",
            Measure::Length(pair.span),
            sentences.join(" ")
        ),
    });
}

/// Warns of what the equations do not know.
pub(super) fn features(findings: &mut Findings, features: &[Feature]) {
    for feature in features {
        findings.unusual.push(Unusual {
            key: "hull.features".to_owned(),
            message: format!("hull.features = {}: {}", feature.word(), feature.warning()),
        });
    }
}
