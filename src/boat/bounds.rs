//! The one table of what a boat file may say.
//!
//! Every range error, every 'unusual value' warning and the table of limits in
//! the documentation come from here. The hard limits admit tank models as well
//! as 40 m craft; the usual range is common practice, no source.

use super::measure::Measure;

/// Cv from which the boat counts as planing; below, the equations of balance do not apply.
pub const PLANING_SPEED_COEFFICIENT: f64 = 1.0;

/// What one key may hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// Key in the boat file, e.g. `hull.deadrise`; list items without their number, e.g. `load.mass`.
    pub key: &'static str,
    /// Unit of the limits, spelt as the boat file spells it; empty for a plain number.
    pub unit: &'static str,
    /// Smallest and largest value accepted.
    pub hard: (f64, f64),
    /// What is usual; outside it the value is taken with a warning.
    pub usual: (f64, f64),
    /// What it is, and why the limits are there.
    pub why: &'static str,
    /// A value as it might be typed.
    pub example: &'static str,
}

const fn bound(
    key: &'static str,
    unit: &'static str,
    hard: (f64, f64),
    usual: (f64, f64),
    example: &'static str,
    why: &'static str,
) -> Bound {
    Bound { key, unit, hard, usual, why, example }
}

/// All bounds, in the order of the boat file.
#[rustfmt::skip]
pub const BOUNDS: &[Bound] = &[
    bound("hull.overall_length", "m", (0.5, 60.0), (4.0, 25.0), "7.4 m", "length over all; smaller than 0.5 m is no boat and no tank model"),
    bound("hull.bottom_length", "m", (0.4, 50.0), (3.0, 20.0), "6.5 m", "keel line of the planing bottom, transom to forefoot"),
    bound("hull.chine_beam", "m", (0.1, 12.0), (1.2, 5.0), "2.25 m", "chine beam, mean over the running wetted bottom"),
    bound("hull.deadrise", "deg", (0.0, 40.0), (8.0, 26.0), "18 deg", "deadrise, mean over the running wetted bottom; the lift equation was tested to 30 deg"),
    bound("hull.roughness", "", (0.0, 0.01), (0.0, 0.0015), "0.0004", "correlation allowance added to the friction coefficient for a rough or fouled bottom; a sea trial finds it"),
    bound("hull.entrance_half_angle", "deg", (1.0, 60.0), (8.0, 35.0), "22 deg", "half angle of the waterline at the stem, at rest; for the resistance before she planes"),
    bound("hull.transom_area_ratio", "", (0.0, 1.2), (0.3, 1.0), "0.9", "immersed area of the transom over that of the largest section, at rest"),
    bound("hull.waterline_length", "m", (0.4, 60.0), (3.0, 24.0), "6.6 m", "length of the waterline at rest"),
    bound("weight.mass", "kg", (1.0, 300_000.0), (400.0, 60_000.0), "2800 kg", "all-up mass: boat, engines, fuel, people, gear"),
    bound("weight.lcg", "m", (0.0, 40.0), (1.0, 9.0), "2.45 m", "centre of gravity forward of the transom; it must lie within the bottom length"),
    bound("weight.vcg", "m", (-1.0, 12.0), (0.3, 2.0), "0.75 m", "centre of gravity above the keel line"),
    bound("weight.tcg", "m", (-6.0, 6.0), (-0.1, 0.1), "0 m", "centre of gravity to starboard; it must lie between the chines"),
    bound("load.mass", "kg", (0.0, 300_000.0), (1.0, 30_000.0), "170 kg", "mass of one item"),
    bound("load.forward", "m", (-5.0, 50.0), (-0.6, 15.0), "1.9 m", "item's centre forward of the transom; negative for an engine hung aft of it"),
    bound("load.up", "m", (-3.0, 20.0), (-0.2, 4.0), "0.9 m", "item's centre above the keel line"),
    bound("load.starboard", "m", (-6.0, 6.0), (-2.0, 2.0), "0 m", "item's centre to starboard of the centreline; negative to port"),
    bound("afloat.draft_at_transom", "m", (0.005, 6.0), (0.15, 1.2), "0.46 m", "waterline above the keel at the transom, square to the keel, afloat at rest"),
    bound("afloat.draft_forward", "m", (0.0, 6.0), (0.1, 1.2), "0.38 m", "waterline above the keel at the forward mark, square to the keel, afloat at rest"),
    bound("afloat.forward_mark", "m", (0.1, 50.0), (1.5, 15.0), "4 m", "forward mark from the transom along the keel; as far forward as the keel is straight"),
    bound("drive.power", "kW", (0.01, 20_000.0), (20.0, 1500.0), "220 kW", "rated shaft power of all engines together"),
    bound("drive.top_speed", "m/s", (0.5, 60.0), (8.0, 30.0), "32 kn", "speed reached at full power"),
    bound("drive.thrust_angle", "deg", (-15.0, 25.0), (-4.0, 15.0), "4 deg", "thrust line to keel line, positive when it pushes the stern up"),
    bound("drive.thrust_offset", "m", (-6.0, 6.0), (-0.5, 2.0), "0.35 m", "thrust line below the centre of gravity, normal to the thrust"),
    bound("drive.thrust_height", "m", (-4.0, 6.0), (-0.8, 0.5), "-0.15 m", "thrust line above the keel line at the transom; negative below the keel"),
    bound("drive.engine_speed", "rpm", (50.0, 20_000.0), (1500.0, 6500.0), "4800 rpm", "speed of the engine at full power; with rotation it gives the torque that the propellers put on the hull"),
    bound("drive.gear_ratio", "", (0.2, 10.0), (1.0, 3.0), "1.95", "turns of the engine for one turn of the propeller"),
    bound("drive.engines", "", (1.0, 8.0), (1.0, 4.0), "2", "number of engines, each with its own propeller"),
    bound("drive.counter_rotating", "", (0.0, 8.0), (0.0, 2.0), "1", "how many of the engines turn their propellers the other way"),
    bound("drive.propulsive_efficiency", "%", (5.0, 95.0), (40.0, 70.0), "52 %", "share of the shaft power that does work on the boat when she planes"),
    bound("drive.bollard_pull", "N", (0.1, 3.0e6), (500.0, 200_000.0), "9 kN", "thrust at rest with full power"),
    bound("drive.specific_consumption", "g/kWh", (50.0, 2000.0), (180.0, 450.0), "300 g/kWh", "fuel burnt for each unit of work at the shaft"),
    bound("drive.efficiency.speed", "m/s", (0.1, 60.0), (2.0, 35.0), "12 kn", "a speed of the curve"),
    bound("drive.efficiency.propulsive_efficiency", "%", (5.0, 95.0), (30.0, 70.0), "42 %", "share of the shaft power that does work on the boat at that speed"),
    bound("water.temperature", "degC", (0.0, 40.0), (2.0, 30.0), "15 degC", "water temperature; the property formulas hold from 0 to 40 degC"),
    bound("water.salinity", "", (0.0, 42.0), (0.0, 40.0), "20", "practical salinity; the density formula holds to 42"),
    bound("water.density", "kg/m^3", (950.0, 1100.0), (995.0, 1030.0), "1026 kg/m^3", "density of the water"),
    bound("water.kinematic_viscosity", "m^2/s", (5.0e-7, 3.0e-6), (8.0e-7, 1.9e-6), "1.19e-6 m^2/s", "kinematic viscosity of the water"),
    bound("air.frontal_area", "m^2", (0.0, 200.0), (0.5, 30.0), "4.5 m^2", "frontal area of hull above water and superstructure"),
    bound("air.drag_coefficient", "", (0.0, 2.0), (0.3, 1.2), "0.7", "drag coefficient on the frontal area"),
    bound("air.height", "m", (0.0, 20.0), (0.5, 5.0), "1.3 m", "height of the centre of the frontal area above the keel line"),
    bound("wind.side_area", "m^2", (0.0, 500.0), (1.0, 60.0), "9 m^2", "area of hull above water and superstructure, seen from the side"),
    bound("wind.side_height", "m", (0.0, 20.0), (0.5, 5.0), "1.4 m", "height of the centre of that area above the keel line"),
    bound("wind.drag_coefficient", "", (0.1, 2.5), (0.5, 1.3), "1.0", "drag coefficient on the side area"),
    bound("wind.speed", "m/s", (0.0, 50.0), (0.0, 15.0), "15 kn", "speed of the wind across the boat"),
    bound("appendages.drag_area", "m^2", (0.0, 5.0), (0.0, 0.2), "0.01 m^2", "drag coefficient times area, summed over shafts, struts, rudders and legs"),
    bound("appendages.height", "m", (-4.0, 2.0), (-1.0, 0.2), "-0.25 m", "height of the appendage drag above the keel line; negative below"),
    bound("planes.span", "m", (0.005, 4.0), (0.2, 1.5), "610 mm", "span of ONE plane, along the bottom edge"),
    bound("planes.chord", "m", (0.005, 2.0), (0.15, 0.5), "9 in", "chord, hinge to trailing edge"),
    bound("planes.effectiveness", "", (0.2, 3.0), (0.6, 1.7), "1.0", "factor on the published lift of the planes; a sea trial finds it"),
    bound("trial.lcg_shift", "m", (-4.0, 4.0), (-0.6, 0.6), "0.05 m", "how much further forward the centre of gravity acts than the loads say, found by a sea trial"),
    bound("trial.mass", "kg", (1.0, 300_000.0), (400.0, 60_000.0), "2800 kg", "all-up mass on that trial; at another mass the shift is more or less in inverse proportion"),
    bound("transom.beam", "m", (0.1, 12.0), (1.2, 5.0), "2.3 m", "chine beam at the transom"),
    bound("transom.deadrise", "deg", (0.0, 40.0), (5.0, 26.0), "17 deg", "deadrise at the transom"),
    bound("transom.inner_clearance", "m", (0.0, 3.0), (0.05, 0.6), "8 in", "clear distance off the centreline, along the bottom edge"),
    bound("transom.outer_clearance", "m", (0.0, 1.0), (0.02, 0.2), "3 1/2 in", "clear distance in from the chine, along the bottom edge"),
    bound("transom.hinge_height", "m", (0.0, 0.1), (0.003, 0.02), "1/4 in", "hinge line above the bottom edge"),
    bound("transom.rake", "deg", (-45.0, 45.0), (-5.0, 20.0), "13 deg", "lean of the transom from the normal to the bottom, positive when its top leans aft"),
    bound("transom.working_height", "m", (0.01, 3.0), (0.12, 0.5), "10 in", "height above the bottom edge up to which hinge, plane and actuator with its upper bracket need the transom free"),
    bound("transom.obstacle.off_centre", "m", (-6.0, 6.0), (-2.5, 2.5), "0.45 m", "its middle off the centreline, level; to starboard positive, to port negative"),
    bound("transom.obstacle.width", "m", (0.001, 12.0), (0.01, 1.5), "60 mm", "its width, level, with the room it needs to move"),
    bound("transom.obstacle.from", "m", (-3.0, 3.0), (-1.2, 1.5), "-20 mm", "its lowest point above the bottom edge straight below its middle; negative when it hangs below"),
    bound("transom.obstacle.to", "m", (-3.0, 6.0), (-0.3, 2.5), "70 mm", "its highest point above the bottom edge straight below its middle; above from"),
    bound("transom.obstacle.clearance", "m", (0.0, 2.0), (0.0, 0.4), "100 mm", "free distance to keep on each side of it, along the bottom edge"),
    bound("transom.strake.off_centre", "m", (0.0, 6.0), (0.05, 2.5), "0.75 m", "middle of the strake off the centreline, level, at the transom"),
    bound("transom.strake.width", "m", (0.001, 1.0), (0.015, 0.2), "50 mm", "width of the strake, level"),
    bound("transom.strake.depth", "m", (0.001, 0.5), (0.005, 0.08), "20 mm", "how far the strake stands below the bottom"),
    bound("sizing.largest_deflection", "deg", (1.0, 15.0), (5.0, 15.0), "15 deg", "largest deflection the hardware gives; the lift equation was tested to 15 deg"),
    bound("sizing.share", "%", (10.0, 100.0), (50.0, 100.0), "100 %", "share of the usable deflection that the duties may use"),
    bound("sizing.chance", "%", (50.0, 99.0), (60.0, 95.0), "80 %", "how sure a size is to do its duties: on so many of a hundred boats nearly like this one"),
    bound("sizing.smallest_chord", "m", (0.02, 1.0), (0.15, 0.4), "225 mm", "smallest chord to suggest"),
    bound("sizing.smallest_aspect", "", (0.3, 10.0), (1.0, 3.0), "1.5", "smallest span/chord to suggest"),
    bound("sizing.largest_aspect", "", (0.5, 15.0), (2.0, 6.0), "3.5", "largest span/chord to suggest; at least the smallest"),
    bound("sizing.round_to", "m", (0.0005, 0.2), (0.005, 0.06), "25 mm", "step of the sizes that can be bought or made"),
    bound("duty.at_most", "deg", (2.0, 15.0), (3.0, 8.0), "5 deg", "largest running trim"),
    bound("duty.at_least", "deg", (0.1, 8.0), (0.5, 4.0), "2 deg", "trim taken off"),
    bound("duty.from", "m/s", (0.1, 60.0), (3.0, 20.0), "10 kn", "slowest speed of the duty"),
    bound("duty.to", "m/s", (0.1, 60.0), (3.0, 30.0), "18 kn", "fastest speed of the duty"),
    bound("duty.up_to", "m/s", (0.1, 60.0), (3.0, 30.0), "30 kn", "fastest speed of the duty"),
    bound("duty.speed", "m/s", (0.1, 60.0), (3.0, 30.0), "22 kn", "speed of the duty"),
    bound("duty.within", "%", (0.0, 100.0), (0.5, 20.0), "3 %", "allowed excess over the least resistance"),
    bound("duty.margin", "deg", (0.0, 5.0), (0.0, 2.0), "1 deg", "margin under the porpoising limit"),
    bound("duty.moment", "N m", (-1.0e6, 1.0e6), (-20_000.0, 20_000.0), "700 N m", "heeling moment, positive when starboard goes down"),
    bound("duty.mass", "kg", (0.0, 50_000.0), (20.0, 1000.0), "90 kg", "mass off the centreline"),
    bound("condition.load.mass", "kg", (0.0, 300_000.0), (0.0, 30_000.0), "340 kg", "mass of the item in this condition"),
    bound("condition.load.forward", "m", (-5.0, 50.0), (-0.6, 15.0), "1.2 m", "item's centre forward of the transom in this condition"),
    bound("condition.load.up", "m", (-3.0, 20.0), (-0.2, 4.0), "1.1 m", "item's centre above the keel line in this condition"),
    bound("condition.load.starboard", "m", (-6.0, 6.0), (-2.0, 2.0), "0.4 m", "item's centre to starboard of the centreline in this condition; negative to port"),
    bound("run.speed", "m/s", (0.05, 60.0), (2.0, 35.0), "22 kn", "speed through the water"),
    bound("run.deflection", "deg", (0.0, 30.0), (0.0, 15.0), "5 deg", "mean plane deflection below the extended bottom line; tested to 15 deg"),
    bound("run.roughness", "", (0.0, 0.01), (0.0, 0.001), "0.0004", "correlation allowance added to the friction coefficient; 0 for models"),
    bound("run.waves", "m", (0.01, 10.0), (0.1, 2.5), "0.5 m", "significant wave height, crest to trough; the tests in waves had 0.2 to 0.7 of the beam"),
    bound("run.down_to", "deg", (2.0, 7.0), (2.0, 5.0), "3 deg", "trim that planes bring the boat down to; under 2 deg a bow digs and steers"),
    bound("run.drive_trim", "deg", (-15.0, 15.0), (-6.0, 10.0), "-4 deg", "propeller shaft to keel line, negative when the drive is trimmed in"),
    bound("run.limit", "g", (0.01, 20.0), (0.1, 3.0), "1 g", "acceleration not to be exceeded, in multiples of free fall"),
    bound("duty.distance", "m", (-6.0, 6.0), (-2.5, 2.5), "0.8 m", "its distance to starboard; negative to port"),
    bound("seen.speed", "m/s", (0.1, 60.0), (3.0, 30.0), "14 kn", "speed held steady through the water while the trim was read; where the bow is highest it tells most"),
    bound("seen.deflection", "deg", (0.0, 30.0), (0.0, 15.0), "5 deg", "mean deflection of the planes fitted while the trim was read; tested to 15 deg"),
    bound("seen.trim", "deg", (0.0, 20.0), (1.5, 12.0), "6.5 deg", "running trim of the keel line, bow up positive, by an inclinometer that was set to zero on the keel line or whose reading at rest was taken off"),
    bound("seen.by", "deg", (0.1, 5.0), (0.2, 2.0), "1 deg", "nine such readings in ten lie within this of the true trim: the instrument, the line it was set on, the waves, the load on the day"),
];

/// The bound of a key; list positions such as `load[2].mass` are looked up as `load.mass`.
#[must_use]
pub fn bound_of(key: &str) -> Option<&'static Bound> {
    let plain = without_positions(key);
    BOUNDS.iter().find(|bound| bound.key == plain)
}

/// A key without its list positions: `load[2].mass` becomes `load.mass`.
#[must_use]
pub fn without_positions(key: &str) -> String {
    let mut plain = String::with_capacity(key.len());
    let mut inside_brackets = false;
    for character in key.chars() {
        match character {
            '[' => inside_brackets = true,
            ']' => inside_brackets = false,
            _ if !inside_brackets => plain.push(character),
            _ => {}
        }
    }
    plain
}

impl Bound {
    /// The hard limits as text: `0 to 40 deg`.
    #[must_use]
    pub fn allowed(&self) -> String {
        range_text(self.hard, self.unit)
    }

    /// The usual range as text.
    #[must_use]
    pub fn usual_text(&self) -> String {
        range_text(self.usual, self.unit)
    }

    /// Whether a value lies within the hard limits; never for a value that is not finite.
    #[must_use]
    pub fn admits(&self, measure: Measure) -> bool {
        within(self.hard, measure.value())
    }

    /// Whether a value is usual.
    #[must_use]
    pub fn is_usual(&self, measure: Measure) -> bool {
        within(self.usual, measure.value())
    }
}

/// Limits met to within the rounding of a unit conversion.
fn within((low, high): (f64, f64), value: f64) -> bool {
    let slack = 1e-12 * low.abs().max(high.abs());
    value.is_finite() && value >= low - slack && value <= high + slack
}

fn range_text((low, high): (f64, f64), unit: &str) -> String {
    let [low, high] = [low, high].map(super::measure::plain_number);
    format!("{low} to {high} {unit}").trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn physics_every_usual_range_lies_within_the_hard_limits() {
        for bound in BOUNDS {
            assert!(bound.hard.0 <= bound.usual.0, "{}", bound.key);
            assert!(bound.usual.0 < bound.usual.1, "{}", bound.key);
            assert!(bound.usual.1 <= bound.hard.1, "{}", bound.key);
        }
    }

    #[test]
    fn regression_list_positions_are_looked_up_by_their_plain_key() {
        assert_eq!(bound_of("load[2].mass").unwrap().key, "load.mass");
        assert!(bound_of("hull.length").is_none());
    }
}
