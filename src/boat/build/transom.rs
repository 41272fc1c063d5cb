//! The transom with what stands on it, and the features of the hull that no equation here knows.

use uom::si::f64::Length;

use super::findings::Findings;
use crate::boat::keys::or_default;
use crate::boat::{
    BoatInput, Feature, Hull, Measure, Obstacle, ObstacleInput, PlanePair, Strake, Transom, Unusual,
};
use crate::units::LengthUnit;

/// The transom, each of its measures as given or as its row says.
pub(super) fn transom(findings: &mut Findings, input: &BoatInput, hull: &Hull) -> Transom {
    let (given, stations) = (&input.transom, input.stations.as_ref());
    let of_stations =
        stations.map(|stations| (stations.transom_beam(), stations.transom_deadrise()));
    let (beam, deadrise) = of_stations.unwrap_or((hull.chine_beam, hull.deadrise));
    let transom = Transom {
        beam: given.beam.unwrap_or(beam),
        deadrise: given.deadrise.unwrap_or(deadrise),
        rake: or_default(given.rake, "transom.rake"),
        inner_clearance: or_default(given.inner_clearance, "transom.inner_clearance"),
        outer_clearance: or_default(given.outer_clearance, "transom.outer_clearance"),
        hinge_height: or_default(given.hinge_height, "transom.hinge_height"),
        working_height: or_default(given.working_height, "transom.working_height"),
        obstacles: given.obstacles.iter().map(obstacle).collect(),
        strakes: given.strakes.clone(),
    };
    findings.check_all("transom", given.measures());
    let half_beam = transom.beam / 2.0;
    for (index, obstacle) in given.obstacles.iter().enumerate() {
        check_obstacle(findings, index, obstacle, half_beam);
    }
    for (index, strake) in transom.strakes.iter().enumerate() {
        check_strake(findings, index, strake, half_beam);
    }
    transom
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
