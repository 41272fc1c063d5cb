//! Where the centre of gravity lies, from how the boat floats at rest.
//!
//! A boat at rest displaces her mass, and her centre of gravity stands plumb
//! over the centre of that volume (Archimedes). Two depths of the waterline
//! above the keel give how the bottom lies in the water. The bottom is the
//! prism of the boat file, wall-sided above the chine, up to a share of its
//! length; further forward the area of its sections fades as a parabola to
//! nothing at the forefoot. That share is the likely range's reason: a bow's
//! shape is not in the boat file, and usual ones are common practice, no source.

use uom::si::f64::{Length, Mass};
use uom::si::{length::meter, mass::kilogram, mass_density::kilogram_per_cubic_meter};

use super::measure::{Measure, Named, given, plain_number};
use super::{Estimate, Hull};
use crate::water::Water;

/// Where the waterline stands while the boat floats at rest, loaded as the boat file says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AfloatInput {
    /// Waterline above the keel line at the transom, square to the keel.
    pub draft_at_transom: Length,
    /// Waterline above the keel line at the forward mark, square to the keel.
    pub draft_forward: Length,
    /// The forward mark, forward of the transom along the keel.
    pub forward_mark: Length,
}

impl AfloatInput {
    /// Its values by their keys.
    pub(super) fn measures(&self) -> Named {
        given([
            ("draft_at_transom", Some(self.draft_at_transom.into())),
            ("draft_forward", Some(self.draft_forward.into())),
            ("forward_mark", Some(self.forward_mark.into())),
        ])
    }
}

/// The volume in the water, in the boat's own axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floating {
    /// Displaced volume, m³.
    pub volume_m3: f64,
    /// Its centre forward of the transom, m.
    pub forward_m: f64,
    /// Its centre above the keel, m.
    pub up_m: f64,
    /// Slope of the keel to the water, tangent; positive bow up.
    pub slope: f64,
}

/// Shares of the bottom length over which usual bottoms keep their section. Common practice, no source.
pub const USUAL_FULLNESS: [f64; 2] = [0.4, 0.9];
/// How far a mass that is given may be off, as a share. Common practice, no source.
const MASS_DOUBT: f64 = 0.05;
/// How far a waterline can be read off a hull, metres. Common practice, no source.
const READING_DOUBT_M: f64 = 0.01;
/// Slices of the bottom for the sum; each is exact for sections that change as a parabola.
const SLICES: u32 = 200;

/// The volume that the bottom displaces with its waterline at the marks, for a share of its length over which it keeps its section.
///
/// Sections are taken square to the keel, where they are the exact V of the
/// hull; the sum along the keel is Simpson's.
#[must_use]
pub fn floating(hull: &Hull, marks: &AfloatInput, fullness: f64) -> Floating {
    let [aft_m, fore_m, mark_m] = [marks.draft_at_transom, marks.draft_forward, marks.forward_mark]
        .map(|length| length.get::<meter>());
    let slope = (aft_m - fore_m) / mark_m;
    let length_m = hull.bottom_length.get::<meter>();
    let full_m = fullness * length_m;
    let section = Section::of(hull);
    let at = |forward_m: f64| {
        let ahead = ((forward_m - full_m) / (length_m - full_m).max(1e-9)).clamp(0.0, 1.0);
        let [area, moment] =
            section.below(aft_m - slope * forward_m).map(|x| x * (1.0 - ahead * ahead));
        [area, area * forward_m, moment]
    };
    // Parted where the section begins to fade and where the keel leaves the water or the chine enters it.
    let crossing_m = |draft_m: f64| if slope == 0.0 { 0.0 } else { (aft_m - draft_m) / slope };
    let mut ends_m = vec![0.0, full_m, crossing_m(0.0), crossing_m(section.chine_m), length_m];
    ends_m.retain(|&end_m| (0.0..=length_m).contains(&end_m));
    ends_m.sort_by(f64::total_cmp);
    let mut sums = [0.0; 3];
    for part in ends_m.windows(2).filter(|part| part[1] > part[0]) {
        let step = (part[1] - part[0]) / f64::from(SLICES);
        for slice in 0..SLICES {
            let from = part[0] + step * f64::from(slice);
            let [a, b, c] = [at(from), at(from + 0.5 * step), at(from + step)];
            for (index, sum) in sums.iter_mut().enumerate() {
                *sum += step / 6.0 * (a[index] + 4.0 * b[index] + c[index]);
            }
        }
    }
    let [volume_m3, forward, up] = sums;
    Floating { volume_m3, forward_m: forward / volume_m3, up_m: up / volume_m3, slope }
}

/// The V of the bottom with walls above the chine.
struct Section {
    half_beam_m: f64,
    chine_m: f64,
}

impl Section {
    fn of(hull: &Hull) -> Self {
        let half_beam_m = 0.5 * hull.chine_beam.get::<meter>();
        Self { half_beam_m, chine_m: half_beam_m * hull.deadrise.tan().value }
    }

    /// Area below a draft, and its moment about the keel.
    fn below(&self, draft_m: f64) -> [f64; 2] {
        let draft_m = draft_m.max(0.0);
        let vee_m = draft_m.min(self.chine_m);
        // A flat bottom has no V; its chine lies at the keel.
        let width = if self.chine_m > 0.0 { self.half_beam_m / self.chine_m } else { 0.0 };
        let vee = width * vee_m * vee_m;
        let walls = 2.0 * self.half_beam_m * (draft_m - self.chine_m).max(0.0);
        [vee + walls, vee * vee_m * 2.0 / 3.0 + walls * 0.5 * (draft_m + self.chine_m)]
    }
}

/// LCG of a boat from how she floats.
///
/// The value is for a bow in the middle of the usual ones. The likely range
/// takes the usual bows and each waterline read 10 mm up and down. The mass is
/// not used: a bow that is fitted to it is no better known than a usual one
/// when the mass is known to a twentieth. It is set beside what the marks
/// displace, and the rule says so where the two cannot both be right.
#[must_use]
pub fn lcg(hull: &Hull, marks: &AfloatInput, mass: Mass, vcg: Length, water: &Water) -> Estimate {
    let lcg_m = |marks: &AfloatInput, fullness: f64| {
        let floating = floating(hull, marks, fullness);
        floating.forward_m + (vcg.get::<meter>() - floating.up_m) * floating.slope
    };
    let usual = 0.5 * (USUAL_FULLNESS[0] + USUAL_FULLNESS[1]);
    let value_m = lcg_m(marks, usual);
    let read = |aft: f64, fore: f64| {
        let [aft, fore] = [aft, fore].map(|side| Length::new::<meter>(side * READING_DOUBT_M));
        let draft_at_transom = marks.draft_at_transom + aft;
        let draft_forward = marks.draft_forward + fore;
        lcg_m(&AfloatInput { draft_at_transom, draft_forward, ..*marks }, usual) - value_m
    };
    let reading_m = read(1.0, 0.0).hypot(read(0.0, 1.0));
    let [low_m, high_m] = USUAL_FULLNESS.map(|bow| (lcg_m(marks, bow) - value_m).hypot(reading_m));
    let length = |metres: f64| Measure::Length(Length::new::<meter>(metres));
    Estimate {
        key: "weight.lcg",
        value: length(value_m),
        low: length(value_m - low_m),
        high: length(value_m + high_m),
        rule: rule(hull, marks, mass, water),
    }
}

/// Masses that the marks allow for, with usual bows, kg.
#[must_use]
pub fn likely_mass_kg(hull: &Hull, marks: &AfloatInput, density_kg_m3: f64) -> [f64; 2] {
    USUAL_FULLNESS.map(|usual| density_kg_m3 * floating(hull, marks, usual).volume_m3)
}

/// The masses that the marks allow for, in words: `she displaces 2700 to 3300 kg`.
#[must_use]
pub fn mass_text(hull: &Hull, marks: &AfloatInput, water: &Water) -> String {
    let density_kg_m3 = water.density.get::<kilogram_per_cubic_meter>();
    let [low, high] = likely_mass_kg(hull, marks, density_kg_m3).map(plain_number);
    format!("she displaces {low} to {high} kg")
}

fn rule(hull: &Hull, marks: &AfloatInput, mass: Mass, water: &Water) -> String {
    let density_kg_m3 = water.density.get::<kilogram_per_cubic_meter>();
    let [low_kg, high_kg] = likely_mass_kg(hull, marks, density_kg_m3);
    let mass_kg = mass.get::<kilogram>();
    let agrees = (low_kg * (1.0 - MASS_DOUBT)..=high_kg * (1.0 + MASS_DOUBT)).contains(&mass_kg);
    let verdict = if agrees { "which agrees with" } else { "which CONTRADICTS" };
    let and = if agrees { "" } else { "; check marks, mass and beam" };
    format!(
        "from the waterline at rest in [afloat]; the range is for the shape of the bow beyond the prism, which the file does not know, and for marks read to 10 mm; by them {}, {verdict} weight.mass{and}",
        mass_text(hull, marks, water)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use uom::si::angle::degree;
    use uom::si::f64::Angle;
    use uom::si::mass_density::kilogram_per_cubic_meter;

    fn metres(value: f64) -> Length {
        Length::new::<meter>(value)
    }

    fn hull(deadrise_deg: f64) -> Hull {
        Hull {
            overall_length: None,
            bottom_length: metres(6.0),
            chine_beam: metres(2.0),
            deadrise: Angle::new::<degree>(deadrise_deg),
            chine_to_keel: Angle::default(),
        }
    }

    fn marks(aft_m: f64, fore_m: f64, mark_m: f64) -> AfloatInput {
        AfloatInput {
            draft_at_transom: metres(aft_m),
            draft_forward: metres(fore_m),
            forward_mark: metres(mark_m),
        }
    }

    fn fresh() -> Water {
        use uom::si::f64::ThermodynamicTemperature;
        use uom::si::thermodynamic_temperature::degree_celsius;
        Water::at(ThermodynamicTemperature::new::<degree_celsius>(15.0), 0.0)
    }

    /// A box of 6 × 2 × 0.5 m afloat: 6 m³, in the middle, half its draft up.
    #[test]
    fn physics_a_box_displaces_length_beam_and_draft() {
        let floating = floating(&hull(0.0), &marks(0.5, 0.5, 4.0), 1.0);
        assert_relative_eq!(floating.volume_m3, 6.0, max_relative = 1e-12);
        assert_relative_eq!(floating.forward_m, 3.0, max_relative = 1e-12);
        assert_relative_eq!(floating.up_m, 0.25, max_relative = 1e-12);
        assert_eq!(floating.slope, 0.0);
    }

    /// A box trimmed by the stern, 0.7 m aft and 0.3 m at the forefoot: a trapezium, whose
    /// centroid lies at L/3 (a + 2 f)/(a + f) from its deep end.
    #[test]
    fn physics_a_trimmed_box_is_a_trapezium() {
        let floating = floating(&hull(0.0), &marks(0.7, 0.3, 6.0), 1.0);
        assert_relative_eq!(floating.volume_m3, 6.0 * 2.0 * 0.5, max_relative = 1e-12);
        assert_relative_eq!(floating.forward_m, 2.0 * 1.3 / 1.0, max_relative = 1e-12);
        let up_m = (0.7 * 0.7 + 0.7 * 0.3 + 0.3 * 0.3) / (3.0 * 1.0);
        assert_relative_eq!(floating.up_m, up_m, max_relative = 1e-12);
    }

    /// A V-shaped trough whose keel leaves the water at 4 m: sections fall as the square of the
    /// distance from that point, so that a third of aft area × length is displaced, a quarter of
    /// the length ahead of the transom (a pyramid).
    #[test]
    fn physics_a_vee_that_lifts_its_keel_is_a_pyramid() {
        let hull = hull(20.0);
        let aft_m = 0.3;
        let floating = floating(&hull, &marks(aft_m, aft_m / 4.0, 3.0), 1.0);
        let aft_area = aft_m * aft_m / 20_f64.to_radians().tan();
        assert_relative_eq!(floating.volume_m3, aft_area * 4.0 / 3.0, max_relative = 1e-9);
        assert_relative_eq!(floating.forward_m, 1.0, max_relative = 1e-9);
        // Centroid of each triangle at two thirds of its draft, which falls in proportion: 2/3 × 3/4.
        assert_relative_eq!(floating.up_m, aft_m * 0.5, max_relative = 1e-9);
    }

    /// A level prism that fades from its middle on: half full, and a parabola of two thirds over the rest.
    #[test]
    fn physics_a_bow_that_fades_as_a_parabola() {
        let floating = floating(&hull(0.0), &marks(0.5, 0.5, 4.0), 0.5);
        assert_relative_eq!(floating.volume_m3, 3.0 + 3.0 * 2.0 / 3.0, max_relative = 1e-9);
        let forward_m = (3.0 * 1.5 + 2.0 * (3.0 + 3.0 * 3.0 / 8.0)) / 5.0;
        assert_relative_eq!(floating.forward_m, forward_m, max_relative = 1e-9);
    }

    #[test]
    fn physics_the_chine_enters_the_water_without_a_jump() {
        let hull = hull(15.0);
        let chine_m = 15_f64.to_radians().tan();
        let volume = |draft_m: f64| floating(&hull, &marks(draft_m, draft_m, 4.0), 0.7).volume_m3;
        assert_relative_eq!(volume(chine_m - 1e-9), volume(chine_m + 1e-9), max_relative = 1e-7);
        assert!(volume(chine_m + 0.05) > volume(chine_m) && volume(chine_m) > volume(0.2));
    }

    /// Archimedes: loaded with what a known bow displaces and balanced over its centre, she gives
    /// that back, and bows near it leave it within the range.
    #[test]
    fn physics_a_boat_of_known_shape_gives_her_own_centre_back() {
        let (hull, water) = (hull(18.0), fresh());
        let marks = marks(0.55, 0.42, 4.5);
        let vcg_m = 0.7;
        let trim = (0.13_f64 / 4.5).atan();
        // Plumb over the centre of buoyancy, with both turned into the water's axes.
        let along = |forward_m: f64, up_m: f64| forward_m * trim.cos() - up_m * trim.sin();
        for bow in [0.45, 0.65, 0.85] {
            let known = floating(&hull, &marks, bow);
            let mass_kg = known.volume_m3 * water.density.get::<kilogram_per_cubic_meter>();
            let mass = Mass::new::<kilogram>(mass_kg);
            let estimate = lcg(&hull, &marks, mass, metres(vcg_m), &water);
            assert!(estimate.rule.contains("agrees with weight.mass"), "{}", estimate.rule);
            let plumb = along(known.forward_m, known.up_m);
            let own_m = (plumb + vcg_m * trim.sin()) / trim.cos();
            assert!((estimate.low.value()..=estimate.high.value()).contains(&own_m), "{bow}");
            if bow == 0.65 {
                assert_relative_eq!(estimate.value.value(), own_m, max_relative = 1e-9);
            }
        }
    }

    #[test]
    fn physics_a_boat_down_by_the_stern_has_her_weight_aft() {
        let (hull, water) = (hull(18.0), fresh());
        let at = |fore_m: f64| {
            let marks = marks(0.5, fore_m, 4.5);
            let mass = Mass::new::<kilogram>(2700.0);
            lcg(&hull, &marks, mass, metres(0.7), &water).value.value()
        };
        assert!(at(0.36) < at(0.40) && at(0.40) < at(0.44));
    }

    #[test]
    fn regression_a_mass_that_no_usual_bow_floats_is_said() {
        let (hull, water) = (hull(18.0), fresh());
        let marks = marks(0.55, 0.42, 4.5);
        let [low, high] = likely_mass_kg(&hull, &marks, 999.1);
        let rule = |kg: f64| {
            let mass = Mass::new::<kilogram>(kg);
            lcg(&hull, &marks, mass, metres(0.7), &water).rule
        };
        assert!(rule(0.5 * (low + high)).contains("agrees"));
        for off in [0.8 * low, 1.2 * high] {
            assert!(rule(off).ends_with("CONTRADICTS weight.mass; check marks, mass and beam"));
        }
    }
}
