//! The answer as one JSON object: SI units, accelerations in g, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::f64::{Acceleration, Length};
use uom::si::{force::newton, length::meter, velocity::meter_per_second};

use super::Answered;
use crate::balance::Point;
use crate::behaviour::seaway::{
    Fastest, Keeps, Kept, Peaks, Place, Ranged, Ride, Seaway, Seen, in_g,
};
use crate::boat::{Estimate, degrees};
use crate::flag::Flags;
use crate::hydro::seaway::Departure;
use crate::tell::seaway::{SEA_CAUTION, flags};

/// The whole answer.
#[derive(Serialize)]
pub(super) struct Answer<'a> {
    /// One for each loading condition.
    conditions: Vec<Record<'a>>,
    cautions: [&'static str; 1],
}

/// The boat in one loading condition.
#[derive(Serialize)]
struct Record<'a> {
    name: &'a str,
    down_to_deg: f64,
    waves: Vec<WavesRecord>,
    limit: Option<LimitRecord>,
    estimates: &'a [Estimate],
}

#[derive(Serialize)]
struct WavesRecord {
    wave_height_m: f64,
    rides: Vec<RowRecord>,
    /// None without a limit.
    fastest: Option<FastestRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    speed_m_s: f64,
    largest_safe_deg: Option<f64>,
    planes_up: RideRecord,
    planes_down: Option<RideRecord>,
    /// Planes down over planes up, less 1.
    change: Option<f64>,
}

#[derive(Serialize)]
struct RideRecord {
    deflection_deg: f64,
    outcome: &'static str,
    trim_deg: Option<f64>,
    centre_g: Option<f64>,
    /// Both ends of the range in which nine in ten tank runs lie; so for all ranges.
    centre_range_g: Option<[f64; 2]>,
    centre_highest_third_g: Option<f64>,
    centre_highest_third_range_g: Option<[f64; 2]>,
    centre_highest_tenth_g: Option<f64>,
    centre_highest_tenth_range_g: Option<[f64; 2]>,
    bow_g: Option<f64>,
    bow_range_g: Option<[f64; 2]>,
    bow_highest_third_g: Option<f64>,
    bow_highest_third_range_g: Option<[f64; 2]>,
    bow_highest_tenth_g: Option<f64>,
    bow_highest_tenth_range_g: Option<[f64; 2]>,
    /// What the waves add to the resistance of calm water; none where no equation stands.
    added_resistance_n: Option<f64>,
    added_resistance_range_n: Option<[f64; 2]>,
    calm_resistance_n: Option<f64>,
    #[serde(flatten)]
    flags: Flags,
    not_tested: Vec<DepartureRecord>,
}

#[derive(Serialize)]
struct DepartureRecord {
    quantity: &'static str,
    value: f64,
    tested: [f64; 2],
}

impl From<&Departure> for DepartureRecord {
    fn from(beyond: &Departure) -> Self {
        Self { quantity: beyond.quantity.word(), value: beyond.value, tested: beyond.tested }
    }
}

#[derive(Serialize)]
struct LimitRecord {
    most_g: f64,
    peaks: &'static str,
    place: &'static str,
}

#[derive(Serialize)]
struct FastestRecord {
    planes_up: KeptRecord,
    planes_down: Option<KeptRecord>,
}

#[derive(Serialize)]
struct KeptRecord {
    /// By the value of the equation.
    expected: KeepsRecord,
    /// By the upper end of its range.
    surely: KeepsRecord,
}

impl From<Kept> for KeptRecord {
    fn from(kept: Kept) -> Self {
        Self { expected: kept.expected.into(), surely: kept.surely.into() }
    }
}

#[derive(Serialize)]
struct KeepsRecord {
    kept: &'static str,
    up_to_m_s: Option<f64>,
}

impl From<Keeps> for KeepsRecord {
    fn from(keeps: Keeps) -> Self {
        let (kept, speed) = match keeps {
            Keeps::Throughout => ("throughout", None),
            Keeps::UpTo(speed) => ("up-to", Some(speed)),
            Keeps::Nowhere => ("nowhere", None),
            Keeps::NeverRuns => ("never-runs", None),
        };
        Self { kept, up_to_m_s: speed.map(|speed| speed.get::<meter_per_second>()) }
    }
}

/// The object.
pub(super) fn answer(all: &[Answered]) -> Answer<'_> {
    Answer { conditions: all.iter().map(record).collect(), cautions: [SEA_CAUTION] }
}

fn record(answered: &Answered) -> Record<'_> {
    let seen = &answered.seen;
    let _flags = flags(&answered.told());
    let waves = seen.waves.iter().enumerate();
    Record {
        name: &seen.boat.condition().name,
        down_to_deg: degrees(seen.down_to),
        waves: waves
            .map(|(place, &height)| in_waves(seen, height, seen.fastest.get(place)))
            .collect(),
        limit: seen.limit.map(|limit| LimitRecord {
            most_g: in_g(limit.most),
            peaks: match limit.peaks {
                Peaks::All => "all",
                Peaks::Third => "third",
                Peaks::Tenth => "tenth",
            },
            place: match limit.place {
                Place::Centre => "centre",
                Place::Bow => "bow",
            },
        }),
        estimates: seen.boat.estimates(),
    }
}

fn in_waves(seen: &Seen, height: Length, fastest: Option<&Fastest>) -> WavesRecord {
    let sea = seen.sea();
    let row = |stance: &crate::behaviour::seaway::Stance| {
        let up = ride(&sea, &stance.up, height);
        let down = stance.down.as_ref().map(|down| ride(&sea, down, height));
        let change = down.as_ref().and_then(|down| Some(down.centre_g? / up.centre_g? - 1.0));
        RowRecord {
            speed_m_s: stance.up.speed.get::<meter_per_second>(),
            largest_safe_deg: stance.largest_safe.map(degrees),
            planes_up: up,
            planes_down: down,
            change,
        }
    };
    WavesRecord {
        wave_height_m: height.get::<meter>(),
        rides: seen.stances.iter().map(row).collect(),
        fastest: fastest.map(|fastest| FastestRecord {
            planes_up: fastest.up.into(),
            planes_down: fastest.down.map(KeptRecord::from),
        }),
    }
}

/// The peaks that are averaged, in the order of the record.
const PEAKS: [Peaks; 3] = [Peaks::All, Peaks::Third, Peaks::Tenth];

fn value(range: Option<Ranged<f64>>) -> Option<f64> {
    range.map(|range| range.value)
}

fn ends(range: Option<Ranged<f64>>) -> Option<[f64; 2]> {
    range.map(|range| [range.low, range.high])
}

fn ride(sea: &Seaway<'_>, point: &Point, height: Length) -> RideRecord {
    let ride = sea.ride(point, height);
    let averages = |of: fn(&Ride) -> Ranged<Acceleration>| {
        let all = ride.as_ref().map(|ride| of(ride).map(in_g));
        PEAKS.map(|peaks| all.map(|all| all.map(|mean| mean * peaks.factor())))
    };
    let [centre, centre_third, centre_tenth] = averages(|ride| ride.centre);
    let [bow, bow_third, bow_tenth] = averages(|ride| ride.bow);
    let added = ride.as_ref().and_then(|ride| ride.added_resistance);
    let added = added.map(|added| added.map(|force| force.get::<newton>()));
    RideRecord {
        deflection_deg: degrees(point.deflection),
        outcome: point.outcome.word(),
        trim_deg: point.running.map(|running| degrees(running.trim)),
        centre_g: value(centre),
        centre_range_g: ends(centre),
        centre_highest_third_g: value(centre_third),
        centre_highest_third_range_g: ends(centre_third),
        centre_highest_tenth_g: value(centre_tenth),
        centre_highest_tenth_range_g: ends(centre_tenth),
        bow_g: value(bow),
        bow_range_g: ends(bow),
        bow_highest_third_g: value(bow_third),
        bow_highest_third_range_g: ends(bow_third),
        bow_highest_tenth_g: value(bow_tenth),
        bow_highest_tenth_range_g: ends(bow_tenth),
        added_resistance_n: value(added),
        added_resistance_range_n: ends(added),
        calm_resistance_n: point.running.map(|running| running.resistance.get::<newton>()),
        flags: ride.as_ref().map_or(point.flags, |ride| ride.flags).into(),
        not_tested: ride.iter().flat_map(|r| &r.departures).map(DepartureRecord::from).collect(),
    }
}
