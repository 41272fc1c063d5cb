//! How hard a boat rides in irregular head seas, with planes up and with planes down.
//!
//! The accelerations and the added resistance of [`crate::hydro::seaway`] at the
//! trim that the boat runs at in calm water, each with the range in which nine
//! in ten tank runs lie. Planes soften a head sea by taking trim off; how far
//! they may go down is set by a trim to come down to, by the largest deflection
//! of the hardware and by the end of the safe run. Loss of speed and what a
//! following sea does are not in it.

mod limit;
mod ranged;
mod rode;
mod seen;

pub use limit::{Fastest, Keeps, Kept, Limit, Peaks, Place, fastest};
pub use ranged::Ranged;
pub use seen::{SeawayRequest, Seen};

use uom::si::angle::degree;
use uom::si::f64::{Acceleration, Angle, Force, Length, Velocity};
use uom::si::{acceleration::meter_per_second_squared, length::meter, torque::newton_meter};

use crate::balance::{Balance, Point, Settings};
use crate::boat::{Boat, Fault, degrees};
use crate::flag::{Flag, Flags};
use crate::hydro::seaway::{
    Departure, Groups, added_resistance_over_weight, bow_over_centre, centre_acceleration_g,
    displacement_length_ratio, range, speed_length_ratio,
};
use crate::numeric::root_between;
use crate::physical::STANDARD_GRAVITY_M_S2;
use crate::plane::effect::dead_band;
use crate::size::safe_deflections;

/// Trim down to which planes are put when nothing else is asked for, degrees: the least trim tested in waves, a degree above the least that is ever advised.
pub const DEFAULT_TRIM_DEG: f64 = 3.0;

/// A boat with what is asked of her in waves.
#[derive(Clone, Debug)]
pub struct Seaway<'a> {
    boat: &'a Boat,
    settings: Settings,
    balance: Balance,
    down_to: Angle,
}

/// How the boat runs in calm water at a speed, with planes up and with planes down.
#[derive(Clone, Debug, PartialEq)]
pub struct Stance {
    /// Planes up.
    pub up: Point,
    /// Planes down as far as is asked, and up where that would leave the plates above the bottom line; none without planes and below the planing range.
    pub down: Option<Point>,
    /// Largest mean deflection with a safe run; none without planes and below the planing range.
    pub largest_safe: Option<Angle>,
}

/// Accelerations, mean of all peaks, and added resistance in waves of one height.
#[derive(Clone, Debug, PartialEq)]
pub struct Ride {
    /// At the centre of gravity.
    pub centre: Ranged<Acceleration>,
    /// At the bow.
    pub bow: Ranged<Acceleration>,
    /// Mean resistance that the waves add to that of calm water; none where no equation stands, see [`added_resistance_over_weight`].
    pub added_resistance: Option<Ranged<Force>>,
    /// What lies outside the tests.
    pub departures: Vec<Departure>,
    /// What to know before trusting the numbers, those of the run included.
    pub flags: Flags,
}

impl<'a> Seaway<'a> {
    /// A boat with the planes she has, put down until she runs at a trim, never beyond what is safe.
    #[must_use]
    pub fn of(boat: &'a Boat, settings: &Settings, down_to: Angle) -> Self {
        Self { boat, settings: *settings, balance: Balance::of(boat, settings), down_to }
    }

    /// The boat.
    #[must_use]
    pub const fn boat(&self) -> &'a Boat {
        self.boat
    }

    /// How she runs in calm water at a speed.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn stance(&self, speed: Velocity) -> Result<Stance, Fault> {
        let up = self.balance.point(speed, Angle::new::<degree>(0.0))?;
        let Some(pair) = self.boat.planes().filter(|_| is_planing(&up)) else {
            return Ok(Stance { up, down: None, largest_safe: None });
        };
        let safe = safe_deflections(self.boat, &self.settings, pair, &[speed]);
        let largest_safe = safe.first().copied();
        let most = largest_safe.unwrap_or_default().min(self.boat.sizing().largest_deflection);
        let wanted = self.deflection(speed, most)?;
        // Up to the bottom line the plate is out of the water.
        let reaches = wanted > dead_band(self.boat.transom().hinge_height, pair.chord);
        let deflection = if reaches { wanted } else { Angle::default() };
        let down = self.balance.point(speed, deflection)?;
        Ok(Stance { up, down: Some(down), largest_safe })
    }

    /// Deflection at which she runs at the trim wanted; the most allowed when that leaves more, none when she lies under it already.
    fn deflection(&self, speed: Velocity, most: Angle) -> Result<Angle, Fault> {
        let moment = |deflection_deg: f64| {
            let deflection = Angle::new::<degree>(deflection_deg);
            let moment = self.balance.residual_moment(speed, deflection, self.down_to)?;
            Ok::<f64, Fault>(moment.get::<newton_meter>())
        };
        let [none, far] = [[0.0, moment(0.0)?], [degrees(most), moment(degrees(most))?]];
        let deflection_deg = if none[1] >= 0.0 {
            0.0
        } else if far[1] <= 0.0 {
            far[0]
        } else {
            // The two ends were found within the bounds; what lies between them is. Planes up where no root is found.
            root_between(none, far, 0.0, |between| moment(between).unwrap_or(f64::NAN))
                .unwrap_or(0.0)
        };
        Ok(Angle::new::<degree>(deflection_deg))
    }

    /// What of the boat herself lies outside the tests, whatever the speed and the waves.
    #[must_use]
    pub fn departures(&self) -> Vec<Departure> {
        let groups = self.groups(self.boat.drive().top_speed, DEFAULT_TRIM_DEG, Length::default());
        let mut departures = groups.departures();
        departures.retain(|beyond| beyond.quantity.is_of_the_boat());
        departures
    }

    fn groups(&self, speed: Velocity, trim_deg: f64, wave_height: Length) -> Groups {
        let hull = self.boat.hull();
        let beam_m = hull.chine_beam.get::<meter>();
        Groups {
            displacement_length_ratio: displacement_length_ratio(
                self.boat.weight().mass,
                hull.bottom_length,
            ),
            load_coefficient: self.boat.displaced_volume().value / beam_m.powi(3),
            length_beam_ratio: hull.bottom_length.get::<meter>() / beam_m,
            deadrise_deg: degrees(hull.deadrise),
            trim_deg,
            wave_height_beam_ratio: wave_height.get::<meter>() / beam_m,
            speed_length_ratio: speed_length_ratio(speed, hull.bottom_length),
        }
    }

    /// Accelerations and added resistance at a point of calm water in head seas of a significant height; none when she does not run there.
    #[must_use]
    pub fn ride(&self, point: &Point, wave_height: Length) -> Option<Ride> {
        let running = point.running.as_ref()?;
        let groups = self.groups(point.speed, degrees(running.trim), wave_height);
        let centre_g = centre_acceleration_g(&groups);
        let departures = groups.departures();
        let mut flags = point.flags;
        flags.insert_if(!departures.is_empty(), Flag::WavesBeyondTested);
        let ratio = groups.speed_length_ratio;
        let weight = self.boat.weight().force();
        Some(Ride {
            centre: Ranged::of(of_g(centre_g), range::centre(ratio)),
            bow: Ranged::of(of_g(centre_g * bow_over_centre(&groups)), range::bow(ratio)),
            added_resistance: added_resistance_over_weight(&groups)
                .map(|share| Ranged::of(weight * share, range::added_resistance(ratio))),
            departures,
            flags,
        })
    }
}

/// Wave heights shown when none are asked for, as shares of the beam: the least tested, and up to what a boat still planes in. Common practice, no source.
const USUAL_WAVES: [f64; 3] = [0.2, 0.3, 0.4];

/// Wave heights that are usual for a boat's beam: 0.2, the least tested, 0.3 and 0.4 of it.
#[must_use]
pub fn usual_wave_heights(boat: &Boat) -> [Length; 3] {
    USUAL_WAVES.map(|share| boat.hull().chine_beam * share)
}

/// An acceleration from multiples of free fall.
#[must_use]
pub fn of_g(g: f64) -> Acceleration {
    Acceleration::new::<meter_per_second_squared>(g * STANDARD_GRAVITY_M_S2)
}

/// An acceleration as a multiple of free fall.
#[must_use]
pub fn in_g(acceleration: Acceleration) -> f64 {
    acceleration.get::<meter_per_second_squared>() / STANDARD_GRAVITY_M_S2
}

fn is_planing(point: &Point) -> bool {
    point.outcome != crate::balance::Outcome::BelowPlaningRange
}

#[cfg(test)]
mod tests;
