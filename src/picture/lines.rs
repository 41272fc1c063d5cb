//! Keel and chine of a bottom that is given by stations, in metres over the keel line.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::shape::Metres;
use crate::boat::{Station, Stations};

/// The lines of one side.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lines {
    stations: Stations,
}

impl Lines {
    pub fn of(stations: &Stations) -> Self {
        Self { stations: stations.clone() }
    }

    fn each(&self, point: impl Fn(&Station) -> Metres) -> Vec<Metres> {
        self.stations.rows().iter().map(point).collect()
    }

    fn height_m(&self, station: &Station, height: Length) -> f64 {
        self.stations.above_keel_line(station.forward, height).get::<meter>()
    }

    fn at(&self, forward_m: f64) -> Station {
        self.stations.at(Length::new::<meter>(forward_m))
    }

    /// Keel, seen from the side.
    pub fn keel(&self) -> Vec<Metres> {
        self.each(|row| [row.forward.get::<meter>(), self.height_m(row, row.keel_height)])
    }

    /// Chine, seen from the side.
    pub fn chine(&self) -> Vec<Metres> {
        self.each(|row| [row.forward.get::<meter>(), self.height_m(row, row.chine_height)])
    }

    /// Chine, seen from below.
    pub fn half_beams(&self) -> Vec<Metres> {
        self.each(|row| [row.forward.get::<meter>(), row.chine_half_beam.get::<meter>()])
    }

    /// Half of the beam at a distance forward of the transom.
    pub fn half_beam_m(&self, forward_m: f64) -> f64 {
        self.at(forward_m).chine_half_beam.get::<meter>()
    }

    /// Height of the bottom at a distance forward of the transom and off the centreline.
    pub fn bottom_height_m(&self, [forward_m, off_m]: Metres) -> f64 {
        let section = self.at(forward_m);
        let [keel_m, chine_m] = [section.keel_height, section.chine_height]
            .map(|height| self.height_m(&section, height));
        let half_m = section.chine_half_beam.get::<meter>();
        let share = if half_m > 0.0 { off_m / half_m } else { 0.0 };
        keel_m + (chine_m - keel_m) * share
    }

    /// The points of the chine between the transom and a distance forward of it, from there aft.
    pub fn chine_aft_of(&self, forward_m: f64) -> Vec<Metres> {
        let mut aft: Vec<Metres> =
            self.half_beams().into_iter().filter(|at| at[0] < forward_m).collect();
        aft.push([forward_m, self.half_beam_m(forward_m)]);
        aft.reverse();
        aft
    }
}
