//! The planing bottom, its weight, and what the two must be to each other.

use uom::si::f64::{Length, Mass};
use uom::si::{length::meter, mass::kilogram, mass_density::kilogram_per_cubic_meter};

use super::findings::Findings;
use crate::boat::input::WeightInput;
use crate::boat::keys::or_default;
use crate::boat::measure::plain_number;
use crate::boat::{
    AfloatInput, BoatInput, Estimate, Helm, Hull, LoadItem, Measure, Stations, Unusual, Weight,
    afloat, bound_of, estimate,
};
use crate::water::Water;

/// Largest load coefficient Δ/(ρ g b³) the solver is proven for; Savitsky's charts reach about 1.
const LARGEST_LOAD_COEFFICIENT: f64 = 3.0;
/// Smallest load coefficient.
const SMALLEST_LOAD_COEFFICIENT: f64 = 0.01;
/// Largest height of the centre of gravity, and of the thrust line from it, in chine beams.
pub(super) const LARGEST_HEIGHT_IN_BEAMS: f64 = 2.0;

/// Least distance of the forward mark from the transom, as a share of the bottom length.
const LEAST_MARK_SHARE: f64 = 0.33;
/// Steepest slope of the keel at rest, as a tangent: about 8°.
const LARGEST_SLOPE_AT_REST: f64 = 0.14;

pub(super) fn hull(findings: &mut Findings, input: &BoatInput) -> Hull {
    let given = input.hull;
    findings.check_all("hull", given.measures());
    findings.check_if("hull.roughness", input.roughness.map(Measure::Number));
    if let Some(stations) = &input.stations {
        check_stations(findings, stations, given.overall_length);
    }
    let chine_beam = chine_beam(findings, input);
    let stations = input.stations.as_ref();
    let of_stations = stations.map(Stations::bottom_length);
    let bottom_length = match (given.bottom_length.or(of_stations), given.overall_length) {
        (Some(bottom), _) => bottom,
        (None, Some(overall)) => findings.estimated_length(estimate::bottom_length(overall)),
        (None, None) => {
            findings.fault(
                "hull.bottom_length",
                "neither bottom_length nor overall_length is given".to_owned(),
                "give the keel line of the planing bottom, transom to forefoot, for example bottom_length = \"6.5 m\"; or overall_length = \"7.4 m\", from which it is estimated".to_owned(),
            );
            chine_beam * 3.0
        }
    };
    if let Some(overall) = given.overall_length
        && bottom_length > overall
    {
        findings.fault(
            "hull.bottom_length",
            format!(
                "{} is longer than overall_length, {}",
                Measure::Length(bottom_length),
                Measure::Length(overall)
            ),
            "the keel line of the planing bottom is shorter than the boat; correct one of the two"
                .to_owned(),
        );
    }
    let slenderness = bottom_length.get::<meter>() / chine_beam.get::<meter>();
    if findings.faults.is_empty() && !(1.0..=15.0).contains(&slenderness) {
        findings.fault(
            "hull.bottom_length",
            format!("bottom_length / chine_beam is {}, outside 1 to 15", plain_number(slenderness)),
            "check the units of both; planing boats have 2.5 to 6".to_owned(),
        );
    }
    Hull {
        overall_length: given.overall_length,
        bottom_length,
        chine_beam,
        deadrise: given.deadrise.or(stations.map(Stations::deadrise)).unwrap_or_else(|| {
            let rule = estimate::deadrise(given.bottom_form, input.transom.deadrise);
            findings.estimated_angle(rule)
        }),
        chine_to_keel: stations.map(Stations::chine_to_keel).unwrap_or_default(),
    }
}

/// Holds what follows from the stations against the limits of the keys that it stands for.
fn check_stations(findings: &mut Findings, stations: &Stations, overall: Option<Length>) {
    for (key, name, measure) in [
        ("hull.chine_beam", "largest chine beam", Measure::Length(stations.chine_beam())),
        ("hull.deadrise", "deadrise at mid-chine length", Measure::Angle(stations.deadrise())),
        ("hull.bottom_length", "keel line", Measure::Length(stations.bottom_length())),
        (
            "transom.deadrise",
            "deadrise at the transom",
            Measure::Angle(stations.transom_deadrise()),
        ),
    ] {
        if let Some([problem, _]) = bound_of(key).and_then(|bound| bound.refusal(measure)) {
            findings.fault(
                "hull.stations",
                format!("the {name} by the stations is wrong: {problem}"),
                "check the numbers of the list and their units".to_owned(),
            );
        }
    }
    if let Some(overall) = overall.filter(|overall| stations.chine_length() > *overall) {
        findings.fault(
            "hull.stations",
            format!(
                "the last station, {}, lies beyond overall_length, {}",
                Measure::Length(stations.chine_length()),
                Measure::Length(overall)
            ),
            "the chine is shorter than the boat; correct one of the two".to_owned(),
        );
    }
    if let Some((forward, off)) = stations.bent_keel() {
        let side = if off < Length::default() { "below" } else { "above" };
        findings.unusual.push(Unusual {
            key: "hull.stations".to_owned(),
            message: format!(
                "hull.stations: at station {} the keel lies {} {side} its line from the transom to mid-chine length: the equations know a straight keel, and a hook or rocker changes the trim",
                Measure::Length(forward),
                Measure::Length(off.abs())
            ),
        });
    }
}

/// Chine beam as given, else from the beam over all.
fn chine_beam(findings: &mut Findings, input: &BoatInput) -> Length {
    let given = input.hull;
    let of_stations = input.stations.as_ref().map(Stations::chine_beam);
    let chine_beam = match (given.chine_beam.or(of_stations), given.overall_beam) {
        (Some(chine_beam), _) => chine_beam,
        (None, Some(overall)) => findings.estimated_length(estimate::chine_beam(overall)),
        (None, None) => {
            findings.fault(
                "hull.chine_beam",
                "neither chine_beam nor overall_beam is given".to_owned(),
                "give the beam between the chines, for example chine_beam = \"2.25 m\"; or overall_beam = \"2.55 m\", from which it is estimated".to_owned(),
            );
            Length::new::<meter>(1.0)
        }
    };
    if let Some(overall) = given.overall_beam
        && chine_beam > overall
    {
        findings.fault(
            "hull.chine_beam",
            format!(
                "{} is wider than overall_beam, {}",
                Measure::Length(chine_beam),
                Measure::Length(overall)
            ),
            "the bottom is no wider than the boat; correct one of the two".to_owned(),
        );
    }
    chine_beam
}

/// Where whoever steers looks from.
pub(super) fn helm(findings: &mut Findings, input: &BoatInput, hull: &Hull) -> Helm {
    findings.check_all("helm", input.helm.measures());
    let helm = Helm::of(&input.helm, hull);
    if helm.eye_forward >= helm.bow_forward {
        findings.fault(
            "helm.eye_forward",
            format!(
                "eyes {} forward of the transom look out ahead of the bow, which is {} forward of it",
                Measure::Length(helm.eye_forward),
                Measure::Length(helm.bow_forward)
            ),
            "measure from the transom forward to the eyes of whoever steers".to_owned(),
        );
    }
    helm
}

pub(super) fn entrance(findings: &mut Findings, input: &BoatInput) {
    if let Some(given) = input.entrance {
        findings.check_all("hull", given.measures());
    }
}

pub(super) fn weight(findings: &mut Findings, input: &BoatInput, hull: &Hull) -> Weight {
    if let Some(marks) = &input.afloat {
        check_marks(findings, marks, hull);
    }
    let mut weight = match &input.weight {
        WeightInput::Totals { mass, lcg, vcg, tcg } => {
            findings.check("weight.mass", Measure::Mass(*mass));
            findings.check_if("weight.lcg", lcg.map(Measure::Length));
            findings.check_if("weight.vcg", vcg.map(Measure::Length));
            findings.check_if("weight.tcg", tcg.map(Measure::Length));
            let rule_for_vcg = estimate::vcg(hull.chine_beam);
            let Measure::Length(usual_vcg) = rule_for_vcg.value else { unreachable!("a length") };
            let rule_for_lcg = || lcg_rule(input, hull, *mass, vcg.unwrap_or(usual_vcg));
            Weight {
                mass: *mass,
                lcg: lcg.unwrap_or_else(|| findings.estimated_length(rule_for_lcg())),
                vcg: vcg.unwrap_or_else(|| findings.estimated_length(rule_for_vcg)),
                tcg: or_default(*tcg, "weight.tcg"),
            }
        }
        WeightInput::Loads(items) => sum_of_loads(findings, items),
    };
    if let Some(trial) = &input.trial {
        findings.check_all("trial", trial.measures());
        if findings.faults.is_empty() {
            weight.lcg += trial.lcg_shift_at(weight.mass, weight.mass);
        }
    }
    if findings.faults.is_empty() {
        centre_of_gravity(findings, input, hull, &weight);
        compare_with_marks(findings, input, hull, &weight);
    }
    weight
}

/// Says so when the centre of gravity given is not where the boat floats by her marks.
fn compare_with_marks(findings: &mut Findings, input: &BoatInput, hull: &Hull, weight: &Weight) {
    let Some(marks) = &input.afloat else { return };
    if findings.estimates.iter().any(|estimate| estimate.key == "weight.lcg") {
        return;
    }
    let by_marks = lcg_rule(input, hull, weight.mass, weight.vcg);
    let given = Measure::Length(weight.lcg);
    if !(by_marks.low.value()..=by_marks.high.value()).contains(&given.value()) {
        findings.unusual.push(Unusual {
            key: "afloat.draft_forward".to_owned(),
            message: format!(
                "the centre of gravity given is {given} forward of the transom; by the waterline at rest it is {} ({} to {} is likely): check both, and that she was loaded alike; by the waterline {}",
                by_marks.value,
                by_marks.low,
                by_marks.high,
                afloat::mass_text(hull, marks, &super::drive::water_of(input)),
            ),
        });
    }
}

/// LCG from how she floats when that is known, else from the bottom length.
fn lcg_rule(input: &BoatInput, hull: &Hull, mass: Mass, vcg: Length) -> Estimate {
    match &input.afloat {
        Some(marks) => afloat::lcg(hull, marks, mass, vcg, &super::drive::water_of(input)),
        None => estimate::lcg(hull.bottom_length),
    }
}

fn check_marks(findings: &mut Findings, marks: &AfloatInput, hull: &Hull) {
    findings.check_all("afloat", marks.measures());
    let share = (marks.forward_mark / hull.bottom_length).value;
    if !(LEAST_MARK_SHARE..=1.0).contains(&share) {
        findings.fault(
            "afloat.forward_mark",
            format!(
                "{} is not between a third of the bottom length and all of it, {}",
                Measure::Length(marks.forward_mark),
                Measure::Length(hull.bottom_length)
            ),
            "measure the second depth well forward, where the keel is still straight".to_owned(),
        );
    }
    let slope = ((marks.draft_at_transom - marks.draft_forward) / marks.forward_mark).value;
    if slope.abs() > LARGEST_SLOPE_AT_REST {
        findings.fault(
            "afloat.draft_forward",
            format!(
                "with {} at the transom the keel slopes {:.1} deg at rest",
                Measure::Length(marks.draft_at_transom),
                slope.atan().to_degrees().abs()
            ),
            "measure both depths square to the keel, from the keel line up to the waterline"
                .to_owned(),
        );
    }
}

fn sum_of_loads(findings: &mut Findings, items: &[LoadItem]) -> Weight {
    for (index, load) in items.iter().enumerate() {
        findings.check_all(&format!("load[{index}]"), load.measures());
    }
    sum_of(findings, items)
}

/// Mass and common centre of some items; a fault when they make no boat.
pub(super) fn sum_of(findings: &mut Findings, items: &[LoadItem]) -> Weight {
    let zero = Length::new::<meter>(0.0);
    let nothing = Weight { mass: Mass::new::<kilogram>(0.0), lcg: zero, vcg: zero, tcg: zero };
    let weight = with_items(&nothing, items);
    let total = bound_of("weight.mass").expect("the table has weight.mass");
    if total.admits(Measure::Mass(weight.mass)) {
        return weight;
    }
    findings.fault(
        "load",
        format!("the loads sum to {}, outside {}", Measure::Mass(weight.mass), total.allowed()),
        "list hull, engine, fuel, people and gear, each with its mass".to_owned(),
    );
    Weight { mass: weight.mass, ..nothing }
}

/// Mass and common centre of a weight with some items added to it.
pub(super) fn with_items(weight: &Weight, items: &[LoadItem]) -> Weight {
    let mut mass_kg = weight.mass.get::<kilogram>();
    let mut moments_kg_m =
        [weight.lcg, weight.vcg, weight.tcg].map(|arm| mass_kg * arm.get::<meter>());
    for load in items {
        let item_kg = load.mass.get::<kilogram>();
        mass_kg += item_kg;
        let arms = [load.forward, load.up, load.starboard];
        for (moment, arm) in moments_kg_m.iter_mut().zip(arms) {
            *moment += item_kg * arm.get::<meter>();
        }
    }
    let [lcg, vcg, tcg] = moments_kg_m.map(|moment| Length::new::<meter>(moment / mass_kg));
    Weight { mass: Mass::new::<kilogram>(mass_kg), lcg, vcg, tcg }
}

pub(super) fn centre_of_gravity(
    findings: &mut Findings,
    input: &BoatInput,
    hull: &Hull,
    weight: &Weight,
) {
    let from_loads = matches!(input.weight, WeightInput::Loads(_));
    let key = |plain: &str| if from_loads { "load".to_owned() } else { format!("weight.{plain}") };
    let summed = if from_loads { " (summed from the loads)" } else { "" };
    if weight.lcg <= Length::new::<meter>(0.0) || weight.lcg >= hull.bottom_length {
        findings.fault(
            &key("lcg"),
            format!(
                "the centre of gravity{summed} is {} forward of the transom, outside the bottom, which is {} long",
                Measure::Length(weight.lcg),
                Measure::Length(hull.bottom_length)
            ),
            "measure it from the transom forward along the keel; planing boats have 0.30 to 0.45 of the bottom length".to_owned(),
        );
    }
    let beam_m = hull.chine_beam.get::<meter>();
    let vcg_m = weight.vcg.get::<meter>();
    if !(-0.2 * beam_m..=LARGEST_HEIGHT_IN_BEAMS * beam_m).contains(&vcg_m) {
        findings.fault(
            &key("vcg"),
            format!(
                "the centre of gravity{summed} is {} above the keel, outside -0.2 to 2 chine beams",
                Measure::Length(weight.vcg)
            ),
            "measure it upward from the keel line; planing boats have 0.25 to 0.45 of the chine beam".to_owned(),
        );
    }
    if weight.tcg.get::<meter>().abs() > 0.25 * beam_m {
        findings.fault(
            &key("tcg"),
            format!(
                "the centre of gravity{summed} is {} to starboard, more than a quarter of the chine beam",
                Measure::Length(weight.tcg)
            ),
            "a boat loaded so does not run upright; shift the weight".to_owned(),
        );
    }
}

pub(super) fn load_coefficient(
    findings: &mut Findings,
    hull: &Hull,
    weight: &Weight,
    water: &Water,
) {
    let volume_m3 = weight.mass.get::<kilogram>() / water.density.get::<kilogram_per_cubic_meter>();
    let coefficient = volume_m3 / hull.chine_beam.get::<meter>().powi(3);
    if !(SMALLEST_LOAD_COEFFICIENT..=LARGEST_LOAD_COEFFICIENT).contains(&coefficient) {
        findings.fault(
            "weight.mass",
            format!(
                "{} on a chine beam of {} is a load coefficient of {}, outside 0.01 to 3",
                Measure::Mass(weight.mass),
                Measure::Length(hull.chine_beam),
                plain_number(coefficient)
            ),
            "check the units of mass and chine_beam; planing boats have 0.2 to 1".to_owned(),
        );
    }
}
