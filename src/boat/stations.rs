//! The bottom as stations along her length, and what the equations take from them.
//!
//! Source of what is taken: Savitsky, D. & Brown, P. W. (1976), Procedures for
//! Hydrodynamic Evaluation of Planing Hulls in Smooth and Rough Water, Marine
//! Technology 13(4), after Blount & Fox: the largest chine beam and the deadrise
//! at mid-chine length. Of the warp they use the angle between chine and keel,
//! equations 9 and 10; here it is taken from the transom to mid-chine length,
//! the part that runs wet.

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::meter;
use uom::si::ratio::ratio;

use super::Fault;
use super::measure::Measure;

/// Fewest stations that are a bottom.
const FEWEST: usize = 3;
/// Most stations that are read.
const MOST: usize = 500;
/// Height by which the keel may leave its line and still counts as straight, as a share of the largest beam. Judged.
const STRAIGHT: f64 = 0.01;
/// Least and largest angle between chine and keel taken, degrees. Judged: below, the effective trim of the drag falls under zero at a trim of 1°.
const WARP_TAKEN_DEG: [f64; 2] = [-2.0, 10.0];

/// One section of the bottom. Heights stand over any one level line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Forward of the transom, along the keel.
    pub forward: Length,
    /// Height of the keel.
    pub keel_height: Length,
    /// Height of the chine.
    pub chine_height: Length,
    /// From the centreline to the chine.
    pub chine_half_beam: Length,
}

/// A bottom given by its stations, from the transom forward.
#[derive(Clone, Debug, PartialEq)]
pub struct Stations {
    source: String,
    checksum: String,
    rows: Vec<Station>,
}

/// What is wrong with a list of stations.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StationFault {
    /// Place of the station in the list, from 0; none where it is the list as a whole.
    pub at: Option<usize>,
    /// What is wrong, with the value.
    pub problem: String,
    /// What is allowed, and what to write instead.
    pub remedy: String,
}

impl StationFault {
    fn of(at: Option<usize>, problem: String, remedy: &str) -> Self {
        Self { at, problem, remedy: remedy.to_owned() }
    }
}

/// The fault of a boat whose stations these are.
impl From<StationFault> for Fault {
    fn from(fault: StationFault) -> Self {
        let StationFault { at, problem, remedy } = fault;
        let problem = match at {
            Some(at) => format!("station {} of the list: {problem}", at + 1),
            None => problem,
        };
        Self { key: "hull.stations".to_owned(), problem, remedy }
    }
}

impl Stations {
    /// Checks a list of stations; `source` says where it comes from, `checksum` which state of it.
    ///
    /// # Errors
    /// All faults found: too few stations, none at the transom, stations that do not increase, a
    /// half-beam of nothing before the last station, a chine below the keel, or a warp that no
    /// planing bottom has.
    pub fn new(
        source: &str,
        checksum: &str,
        rows: Vec<Station>,
    ) -> Result<Self, Vec<StationFault>> {
        let mut faults = count_faults(&rows);
        faults.extend((0..rows.len()).flat_map(|at| faults_at(&rows, at)));
        let stations = Self { source: source.to_owned(), checksum: checksum.to_owned(), rows };
        if faults.is_empty() {
            faults.extend(stations.warp_fault());
        }
        if faults.is_empty() { Ok(stations) } else { Err(faults) }
    }

    /// Where the list comes from, as the boat file names it.
    #[must_use]
    pub fn source(&self) -> &str {
        &self.source
    }

    /// The same under another name for where it comes from.
    #[must_use]
    pub fn named(&self, source: &str) -> Self {
        Self { source: source.to_owned(), ..self.clone() }
    }

    /// CRC-32 of its text, eight hexadecimal digits; empty where it was not read from a text.
    #[must_use]
    pub fn checksum(&self) -> &str {
        &self.checksum
    }

    /// The stations, the transom first.
    #[must_use]
    pub fn rows(&self) -> &[Station] {
        &self.rows
    }

    /// Length of the chine along the keel, transom to the last station.
    #[must_use]
    pub fn chine_length(&self) -> Length {
        self.rows[self.rows.len() - 1].forward
    }

    /// Largest chine beam b.
    #[must_use]
    pub fn chine_beam(&self) -> Length {
        let half = |most: Length, station: &Station| most.max(station.chine_half_beam);
        2.0 * self.rows.iter().fold(Length::default(), half)
    }

    /// Chine beam at the transom.
    #[must_use]
    pub fn transom_beam(&self) -> Length {
        2.0 * self.rows[0].chine_half_beam
    }

    /// Deadrise at mid-chine length.
    #[must_use]
    pub fn deadrise(&self) -> Angle {
        self.deadrise_at(self.chine_length() / 2.0)
    }

    /// Deadrise of the section at a distance forward of the transom.
    #[must_use]
    pub fn deadrise_at(&self, forward: Length) -> Angle {
        deadrise_of(&self.at(forward))
    }

    /// Deadrise at the transom.
    #[must_use]
    pub fn transom_deadrise(&self) -> Angle {
        deadrise_of(&self.rows[0])
    }

    /// θ, angle between chine and keel seen from the side, from the transom to mid-chine length; positive where the chine rises forward.
    #[must_use]
    pub fn chine_to_keel(&self) -> Angle {
        let middle = self.chine_length() / 2.0;
        let rise = depth(&self.at(middle)) - depth(&self.rows[0]);
        Angle::new::<radian>((rise / middle).get::<ratio>().atan())
    }

    /// How much deeper the V gets from the transom to mid-chine length, for each chine beam of length.
    #[must_use]
    pub fn warp_per_beam(&self) -> Angle {
        let beams = self.chine_length() / 2.0 / self.chine_beam();
        ((self.deadrise() - self.transom_deadrise()) / beams).into()
    }

    /// Keel line of the planing bottom: from the transom to where the keel leaves the line through its ends at the transom and at mid-chine length, by a hundredth of the beam.
    #[must_use]
    pub fn bottom_length(&self) -> Length {
        let most = STRAIGHT * self.chine_beam();
        let middle = self.chine_length() / 2.0;
        let mut last = (Length::default(), Length::default());
        for station in &self.rows {
            let off = self.above_keel_line(station.forward, station.keel_height).abs();
            if off > most && station.forward > middle {
                let share = ((most - last.1) / (off - last.1)).get::<ratio>();
                let from = last.0.max(middle);
                return from.max(last.0 + share * (station.forward - last.0));
            }
            last = (station.forward, off.min(most));
        }
        self.chine_length()
    }

    /// The station aft of mid-chine length at which the keel is farthest off its line, and by how much, where that is more than a straight keel may be.
    #[must_use]
    pub fn bent_keel(&self) -> Option<(Length, Length)> {
        let middle = self.chine_length() / 2.0;
        let aft = self.rows.iter().filter(|station| station.forward < middle);
        let off = aft.map(|station| {
            (station.forward, self.above_keel_line(station.forward, station.keel_height))
        });
        let most = off.max_by(|one, other| one.1.abs().value.total_cmp(&other.1.abs().value))?;
        (most.1.abs() > STRAIGHT * self.chine_beam()).then_some(most)
    }

    /// Height above the keel line, which runs through the keel at the transom and at mid-chine length.
    #[must_use]
    pub fn above_keel_line(&self, forward: Length, height: Length) -> Length {
        let middle = self.chine_length() / 2.0;
        let (aft, mid) = (self.rows[0].keel_height, self.at(middle).keel_height);
        height - aft - (mid - aft) * (forward / middle)
    }

    /// The section at a distance forward of the transom, straight between stations and level past the ends.
    #[must_use]
    pub fn at(&self, forward: Length) -> Station {
        let after = self.rows.iter().position(|station| station.forward >= forward);
        let Some(after) = after else { return self.rows[self.rows.len() - 1] };
        let (Some(before), next) = (after.checked_sub(1), &self.rows[after]) else {
            return self.rows[0];
        };
        let last = &self.rows[before];
        let share = (forward - last.forward) / (next.forward - last.forward);
        let between = |one: Length, other: Length| one + (other - one) * share;
        Station {
            forward,
            keel_height: between(last.keel_height, next.keel_height),
            chine_height: between(last.chine_height, next.chine_height),
            chine_half_beam: between(last.chine_half_beam, next.chine_half_beam),
        }
    }

    fn warp_fault(&self) -> Option<StationFault> {
        let warp_deg = super::degrees(self.chine_to_keel());
        let [least, most] = WARP_TAKEN_DEG;
        (!(least..=most).contains(&warp_deg)).then(|| {
            let problem = format!(
                "the chine makes {warp_deg:.1} deg with the keel between the transom and mid-chine length, outside {least} to {most} deg"
            );
            StationFault::of(None, problem, "check the heights and their units; bottoms of planing boats have 0 to 4 deg")
        })
    }
}

/// Height of the chine over the keel.
fn depth(station: &Station) -> Length {
    station.chine_height - station.keel_height
}

fn deadrise_of(station: &Station) -> Angle {
    let slope = (depth(station) / station.chine_half_beam).get::<ratio>();
    Angle::new::<radian>(slope.atan())
}

fn count_faults(rows: &[Station]) -> Vec<StationFault> {
    let mut faults = Vec::new();
    if rows.len() < FEWEST {
        let problem = format!("the list holds {} stations, fewer than {FEWEST}", rows.len());
        faults.push(StationFault::of(
            None,
            problem,
            "list at least the transom, one station near the middle and the forward end of the chine",
        ));
    } else if rows.len() > MOST {
        let problem = format!("the list holds {} stations, more than {MOST}", rows.len());
        faults.push(StationFault::of(None, problem, "ten to twenty stations describe a bottom"));
    }
    faults
}

/// What is wrong with a station, beside its neighbour aft of it.
fn faults_at(rows: &[Station], at: usize) -> Vec<StationFault> {
    let station = &rows[at];
    let told = |length: Length| Measure::Length(length);
    let mut faults = Vec::new();
    let mut fault = |problem: String, remedy: &str| {
        faults.push(StationFault::of(Some(at), problem, remedy));
    };
    if at == 0 && station.forward != Length::default() {
        fault(
            format!("the first station is {} forward of the transom", told(station.forward)),
            "list the transom first, as station 0, and measure the others forward from it",
        );
    }
    if at > 0 && station.forward <= rows[at - 1].forward {
        fault(
            format!(
                "station {} does not lie forward of the one before it, {}",
                told(station.forward),
                told(rows[at - 1].forward)
            ),
            "list the stations from the transom forward, each once",
        );
    }
    let is_last = at + 1 == rows.len();
    let zero = Length::new::<meter>(0.0);
    if station.chine_half_beam < zero || (station.chine_half_beam == zero && !is_last) {
        fault(
            format!("chine_half_beam is {}", told(station.chine_half_beam)),
            "write the distance from the centreline to the chine, more than 0; only at the last station may chine and keel meet",
        );
    }
    if depth(station) < zero {
        fault(
            format!(
                "the chine, {}, lies below the keel, {}",
                told(station.chine_height),
                told(station.keel_height)
            ),
            "measure both heights upward from the same level line",
        );
    }
    faults
}

#[cfg(test)]
#[path = "stations_tests.rs"]
mod tests;
