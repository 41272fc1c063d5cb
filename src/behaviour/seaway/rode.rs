//! A boat in waves of one height, as it is written: SI units, accelerations in g, angles in degrees.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::f64::{Angle, Length};

use super::{Peaks, Place, Ranged, Ride, Seen, in_g};
use crate::balance::Point;
use crate::field::{InSi, written};

/// How she rides at a speed, with planes up and with planes down.
pub(crate) struct Rides<'a> {
    largest_safe: Option<Angle>,
    up: Rode<'a>,
    down: Option<Rode<'a>>,
}

/// A run in calm water, and what waves make of it; none where she does not run.
struct Rode<'a> {
    point: &'a Point,
    ride: Option<Ride>,
}

impl Seen {
    /// How she rides in waves of a height, for each speed.
    pub(crate) fn in_waves(&self, height: Length) -> Vec<Rides<'_>> {
        let sea = self.sea();
        let rode = |point| Rode { point, ride: sea.ride(point, height) };
        let rides = self.stances.iter().map(|stance| Rides {
            largest_safe: stance.largest_safe,
            up: rode(&stance.up),
            down: stance.down.as_ref().map(rode),
        });
        rides.collect()
    }
}

impl Rides<'_> {
    /// Acceleration with planes down over that with planes up, less 1.
    fn change(&self) -> Option<f64> {
        let centre_g = |rode: &Rode<'_>| Some(in_g(rode.ride.as_ref()?.centre.value));
        Some(centre_g(self.down.as_ref()?)? / centre_g(&self.up)? - 1.0)
    }
}

impl Rode<'_> {
    /// What the waves add to the resistance of calm water; none where no equation stands.
    fn added_n(&self) -> Option<Ranged<f64>> {
        Some(self.ride.as_ref()?.added_resistance?.map(|force| force.in_si()))
    }

    /// What is felt at a place, mean of some of the peaks.
    fn felt_g(&self, place: Place, peaks: Peaks) -> Option<Ranged<f64>> {
        let ride = self.ride.as_ref()?;
        let mean = match place {
            Place::Centre => ride.centre,
            Place::Bow => ride.bow,
        };
        Some(mean.map(|acceleration| in_g(acceleration) * peaks.factor()))
    }
}

written! {
    Rides<'_> as rides {
        "speed_m_s": rides.up.point.speed.in_si(),
        "largest_safe_deg": rides.largest_safe.in_si(),
        "planes_up": rides.up,
        "planes_down": rides.down,
        "change": rides.change(),
    }
}

impl Serialize for Rode<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (point, ride) = (self.point, self.ride.as_ref());
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("deflection_deg", &point.deflection.in_si())?;
        map.serialize_entry("outcome", &point.outcome)?;
        map.serialize_entry("trim_deg", &point.trim().in_si())?;
        for place in [Place::Centre, Place::Bow] {
            for (peaks, of) in [
                (Peaks::All, ""),
                (Peaks::Third, "_highest_third"),
                (Peaks::Tenth, "_highest_tenth"),
            ] {
                let felt = self.felt_g(place, peaks);
                let name = format!("{}{of}", place.word());
                map.serialize_entry(&format!("{name}_g"), &felt.map(|felt| felt.value))?;
                map.serialize_entry(&format!("{name}_range_g"), &felt.map(Ranged::ends))?;
            }
        }
        let added = self.added_n();
        map.serialize_entry("added_resistance_n", &added.map(|added| added.value))?;
        map.serialize_entry("added_resistance_range_n", &added.map(Ranged::ends))?;
        map.serialize_entry("calm_resistance_n", &point.resistance().in_si())?;
        ride.map_or(point.flags, |ride| ride.flags).entries(&mut map)?;
        map.serialize_entry("not_tested", ride.map_or(&[][..], |ride| &ride.departures))?;
        map.end()
    }
}
