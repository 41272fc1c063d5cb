//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use std::collections::BTreeMap;

use serde::Serialize;
use uom::si::f64::{Angle, Torque, Velocity};
use uom::si::{length::meter, torque::newton_meter, velocity::meter_per_second};

use super::Answered;
use crate::balance::Point;
use crate::behaviour::list::{
    Contribution, Heel, HeelAngle, LevelEnd, LevelLimit, ListPoint, SettingPoint, StuckAnswer,
    StuckPoint,
};
use crate::boat::{PlanePair, degrees};
use crate::flag::Flags;
use crate::tell::level::{CAUTIONS, cause_text, flags, outcomes, side_word};
use crate::units::UnitSystem;

#[derive(Serialize)]
pub(super) struct Record {
    conditions: Vec<ConditionRecord>,
    outcome_meanings: BTreeMap<&'static str, &'static str>,
    cautions: [&'static str; 3],
}

/// The boat in one loading condition.
#[derive(Serialize)]
struct ConditionRecord {
    name: String,
    planes: Option<[PlaneRecord; 2]>,
    usable_deflection_deg: f64,
    from_duty: bool,
    reference: PointRecord,
    levelled_from_to_m_s: RangesRecord,
    points: Vec<PointRecord>,
    setting: Vec<SettingRecord>,
    stuck: Option<StuckRecord>,
}

/// The speeds at which the planes level her; null where they do at none.
#[derive(Serialize)]
struct RangesRecord {
    least_difference: Option<[f64; 2]>,
    largest_difference: Option<[f64; 2]>,
}

#[derive(Serialize)]
struct PlaneRecord {
    side: &'static str,
    span_m: f64,
    chord_m: f64,
}

#[derive(Serialize)]
struct CauseRecord {
    name: String,
    moment_bottom_n_m: f64,
    moment_centre_of_gravity_n_m: f64,
    source: &'static str,
}

#[derive(Serialize)]
struct PointRecord {
    speed_m_s: f64,
    outcome: &'static str,
    trim_planes_up_deg: Option<f64>,
    causes: Vec<CauseRecord>,
    moment_bottom_n_m: f64,
    moment_centre_of_gravity_n_m: f64,
    verdict: Option<&'static str>,
    least: Option<EndRecord>,
    largest: Option<EndRecord>,
    heel_planes_up: HeelRecord,
    #[serde(flatten)]
    flags: Flags,
}

/// Levelling at one end of what is expected.
#[derive(Serialize)]
struct EndRecord {
    difference_deg: Option<f64>,
    limited_by: Option<&'static str>,
    mean_from_deg: Option<f64>,
    mean_to_deg: Option<f64>,
    port_deg: f64,
    starboard_deg: f64,
    outcome: &'static str,
    trim_deg: Option<f64>,
    moment_left_n_m: f64,
}

#[derive(Serialize)]
struct HeelRecord {
    answer: &'static str,
    from_deg: Option<f64>,
    to_deg: Option<f64>,
    stiffness_bottom_n_m_per_deg: Option<f64>,
    stiffness_centre_of_gravity_n_m_per_deg: Option<f64>,
    rough: bool,
}

#[derive(Serialize)]
struct SettingRecord {
    speed_m_s: f64,
    port_deg: f64,
    starboard_deg: f64,
    outcome: &'static str,
    trim_deg: Option<f64>,
    run: &'static str,
    moment_of_planes_n_m: [f64; 2],
    moment_n_m: [f64; 2],
    heel: HeelRecord,
    #[serde(flatten)]
    flags: Flags,
}

#[derive(Serialize)]
struct StuckRecord {
    side: &'static str,
    deflection_deg: f64,
    beside_from_to_m_s: Option<[f64; 2]>,
    balanced_from_to_m_s: Option<[f64; 2]>,
    points: Vec<StuckPointRecord>,
}

#[derive(Serialize)]
struct StuckPointRecord {
    other_up: SettingRecord,
    other_beside_it: SettingRecord,
    other_levels_deg: Option<[f64; 2]>,
}

/// The whole answer, to be serialised.
pub(super) fn object(all: &[Answered]) -> Record {
    let _first = &all[0];
    let _flags = all.iter().flat_map(|one| flags(&one.told()).iter());
    let outcomes = all.iter().flat_map(|one| outcomes(&one.told()));
    Record {
        conditions: all.iter().map(condition).collect(),
        outcome_meanings: outcomes.map(|o| (o.word(), o.meaning())).collect(),
        cautions: CAUTIONS,
    }
}

fn condition(answered: &Answered) -> ConditionRecord {
    let boat = answered.boat();
    let levelled = &answered.levelled;
    ConditionRecord {
        name: boat.condition().name.clone(),
        planes: levelled
            .planes
            .map(|[port, starboard]| [plane("port", port), plane("starboard", starboard)]),
        usable_deflection_deg: degrees(boat.sizing().largest_deflection),
        from_duty: levelled.from_duty,
        reference: point(&levelled.reference),
        levelled_from_to_m_s: RangesRecord {
            least_difference: levelled.from_to[0].map(speeds),
            largest_difference: levelled.from_to[1].map(speeds),
        },
        points: levelled.points.iter().map(point).collect(),
        setting: levelled.set.iter().map(setting).collect(),
        stuck: levelled.stuck.as_ref().map(stuck),
    }
}

fn plane(side: &'static str, size: PlanePair) -> PlaneRecord {
    PlaneRecord { side, span_m: size.span.get::<meter>(), chord_m: size.chord.get::<meter>() }
}

fn speeds(range: [Velocity; 2]) -> [f64; 2] {
    range.map(|speed| speed.get::<meter_per_second>())
}

fn n_m(moment: Torque) -> f64 {
    moment.get::<newton_meter>() + 0.0
}

fn trim_deg(point: &Point) -> Option<f64> {
    point.running.map(|running| degrees(running.trim))
}

fn cause(contribution: &Contribution) -> CauseRecord {
    let [bottom, centre] = contribution.moment.map(n_m);
    CauseRecord {
        name: cause_text(&contribution.cause, UnitSystem::default().into()),
        moment_bottom_n_m: bottom,
        moment_centre_of_gravity_n_m: centre,
        source: contribution.source,
    }
}

fn point(point: &ListPoint) -> PointRecord {
    let [bottom, centre] = point.moment.map(n_m);
    let ends = point.levelling.as_ref().map(|levelling| levelling.ends.each_ref().map(end));
    let [least, largest] = match ends {
        Some([least, largest]) => [Some(least), Some(largest)],
        None => [None, None],
    };
    PointRecord {
        speed_m_s: point.bare.speed.get::<meter_per_second>(),
        outcome: point.bare.outcome.word(),
        trim_planes_up_deg: trim_deg(&point.bare),
        causes: point.contributions.iter().map(cause).collect(),
        moment_bottom_n_m: bottom,
        moment_centre_of_gravity_n_m: centre,
        verdict: point.levelling.as_ref().map(|levelling| levelling.verdict.word()),
        least,
        largest,
        heel_planes_up: heel(&point.heel),
        flags: point.flags(),
    }
}

fn end(end: &LevelEnd) -> EndRecord {
    let [port, starboard] = end.setting.map(whole_deg);
    let mean = end.mean.map(|mean| mean.map(degrees));
    EndRecord {
        difference_deg: end.difference.map(whole_deg),
        limited_by: end.limit.map(LevelLimit::word),
        mean_from_deg: mean.map(|mean| mean[0]),
        mean_to_deg: mean.map(|mean| mean[1]),
        port_deg: port,
        starboard_deg: starboard,
        outcome: end.point.outcome.word(),
        trim_deg: trim_deg(&end.point),
        moment_left_n_m: n_m(end.left),
    }
}

fn heel(heel: &Heel) -> HeelRecord {
    let range = match heel.angle {
        HeelAngle::Between(range) => range.map(|angle: Angle| Some(whole_deg(angle))),
        HeelAngle::AtLeast(least) => [Some(whole_deg(least)), None],
        _ => [None; 2],
    };
    let [bottom, centre] = heel.stiffness_per_degree.map(|stiffness| stiffness.map(n_m));
    HeelRecord {
        answer: heel.angle.word(),
        from_deg: range[0],
        to_deg: range[1],
        stiffness_bottom_n_m_per_deg: bottom,
        stiffness_centre_of_gravity_n_m_per_deg: centre,
        rough: true,
    }
}

fn setting(set: &SettingPoint) -> SettingRecord {
    let [port, starboard] = set.setting.map(whole_deg);
    SettingRecord {
        speed_m_s: set.point.speed.get::<meter_per_second>(),
        port_deg: port,
        starboard_deg: starboard,
        outcome: set.point.outcome.word(),
        trim_deg: trim_deg(&set.point),
        run: set.safety.word(),
        moment_of_planes_n_m: set.planes.map(n_m),
        moment_n_m: set.moment.map(n_m),
        heel: heel(&set.heel),
        flags: set.flags(),
    }
}

fn stuck(answer: &StuckAnswer) -> StuckRecord {
    let row = |row: &StuckPoint| StuckPointRecord {
        other_up: setting(&row.other_up),
        other_beside_it: setting(&row.matched),
        other_levels_deg: row.levelling.map(|range| range.map(degrees)),
    };
    StuckRecord {
        side: side_word(answer.stuck.side),
        deflection_deg: degrees(answer.stuck.deflection),
        beside_from_to_m_s: answer.matched.map(speeds),
        balanced_from_to_m_s: answer.balanced.map(speeds),
        points: answer.points.iter().map(row).collect(),
    }
}

/// The angle in degrees, without the sign of a nought.
fn whole_deg(angle: Angle) -> f64 {
    degrees(angle) + 0.0
}
