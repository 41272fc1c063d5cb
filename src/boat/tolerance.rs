//! How well the values of a boat file are known.

use super::keys::or_default;
use super::measure::plain_number;
use super::{BoatInput, Fault, Hull, Measure, ThrustLine, WaterInput, Weight, bound_of};

/// A value of the boat that may be known more or less well.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Toleranced {
    /// Chine beam.
    ChineBeam,
    /// Deadrise.
    Deadrise,
    /// Keel line of the planing bottom.
    BottomLength,
    /// All-up mass, of totals or of the loads together.
    Mass,
    /// Centre of gravity forward of the transom, of totals or of the loads together.
    Lcg,
    /// Centre of gravity above the keel, of totals or of the loads together.
    Vcg,
    /// Thrust line to keel line.
    ThrustAngle,
    /// Thrust line above the keel line at the transom.
    ThrustHeight,
    /// Thrust line below the centre of gravity.
    ThrustOffset,
    /// Water temperature.
    WaterTemperature,
    /// Frontal area, the doubt about its drag coefficient included.
    AirArea,
    /// Drag area of the appendages.
    AppendageArea,
    /// Factor on the published lift of the planes; as published when the file has none.
    PlaneEffectiveness,
    /// Roughness allowance of the hull; that of a clean full-size one when the file has none.
    Roughness,
}

impl Toleranced {
    /// All of them, in the order of [`Toleranced::WORDS`].
    pub const ALL: [Self; 14] = [
        Self::ChineBeam,
        Self::Deadrise,
        Self::BottomLength,
        Self::Mass,
        Self::Lcg,
        Self::Vcg,
        Self::ThrustAngle,
        Self::ThrustHeight,
        Self::ThrustOffset,
        Self::WaterTemperature,
        Self::AirArea,
        Self::AppendageArea,
        Self::PlaneEffectiveness,
        Self::Roughness,
    ];
    /// Their keys in the boat file.
    pub const WORDS: &[&str] = &[
        "hull.chine_beam",
        "hull.deadrise",
        "hull.bottom_length",
        "weight.mass",
        "weight.lcg",
        "weight.vcg",
        "drive.thrust_angle",
        "drive.thrust_height",
        "drive.thrust_offset",
        "water.temperature",
        "air.frontal_area",
        "appendages.drag_area",
        "planes.effectiveness",
        "hull.roughness",
    ];

    /// Its key in the boat file.
    #[must_use]
    pub fn key(self) -> &'static str {
        Self::WORDS[self as usize]
    }

    /// Whether a scale can find it.
    #[must_use]
    pub const fn can_be_weighed(self) -> bool {
        matches!(self, Self::Mass | Self::Lcg)
    }

    /// Whether nothing but a sea trial finds it, so that no kind of source has a usual width.
    #[must_use]
    pub const fn is_by_trial_only(self) -> bool {
        matches!(self, Self::PlaneEffectiveness | Self::Roughness)
    }

    /// Whether a share of it says something: not of an angle, a temperature or a place that may be zero.
    #[must_use]
    pub const fn takes_share(self) -> bool {
        !matches!(
            self,
            Self::Deadrise
                | Self::ThrustAngle
                | Self::ThrustHeight
                | Self::ThrustOffset
                | Self::WaterTemperature
                | Self::Roughness
        )
    }
}

/// How a value was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// On a scale.
    Weighed,
    /// On the boat.
    Measured,
    /// From a brochure, a data sheet or a drawing.
    Brochure,
    /// By eye.
    Guessed,
}

impl Source {
    /// All of them, in the order of [`Source::WORDS`].
    pub const ALL: [Self; 4] = [Self::Weighed, Self::Measured, Self::Brochure, Self::Guessed];
    /// Their words in the boat file.
    pub const WORDS: &[&str] = &["weighed", "measured", "brochure", "guessed"];

    /// Its word in the boat file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }
}

/// How far off a value may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Width {
    /// Nine such values in ten lie within this of the true one: a quantity, or a share of the value.
    By(Measure),
    /// As usual for values come by so.
    Source(Source),
}

/// How well one value of the boat is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// Which value.
    pub of: Toleranced,
    /// How far off it may be.
    pub width: Width,
}

/// Largest half-width as a share of the value.
const LARGEST_SHARE: f64 = 0.5;
/// The same of the effectiveness of planes: half to twice the value.
const LARGEST_SHARE_OF_EFFECTIVENESS: f64 = 1.0;

/// What is wrong with the tolerances of a boat.
pub(super) fn faults(
    input: &BoatInput,
    hull: &Hull,
    weight: &Weight,
    line: ThrustLine,
) -> Vec<Fault> {
    let sizes = Sizes { input, hull, weight };
    let mut faults = Vec::new();
    for (index, tolerance) in input.tolerances.iter().enumerate() {
        let fault = |key: &str, [problem, remedy]: [String; 2]| Fault {
            key: format!("tolerance[{index}].{key}"),
            problem,
            remedy,
        };
        let of = tolerance.of;
        if input.tolerances[..index].iter().any(|earlier| earlier.of == of) {
            faults.push(fault(
                "of",
                [format!("{} has two tolerances", of.key()), "delete one of the two".to_owned()],
            ));
        }
        faults.extend(absent(of, input, line).map(|texts| fault("of", texts)));
        match tolerance.width {
            Width::Source(_) if of.is_by_trial_only() => faults.push(fault(
                "source",
                [
                    format!("how {} was come by does not say how far off it is", of.key()),
                    format!("give by = \"{}\", as far as the sea trial tells", by_example(of)),
                ],
            )),
            Width::Source(Source::Weighed) if !of.can_be_weighed() => faults.push(fault(
                "source",
                [
                    format!("{} is nothing that a scale finds", of.key()),
                    "write \"measured\", \"brochure\" or \"guessed\"".to_owned(),
                ],
            )),
            Width::Source(_) => {}
            Width::By(width) => {
                faults.extend(wrong_width(of, width, &sizes).map(|texts| fault("by", texts)));
            }
        }
    }
    faults
}

/// Why a boat does not have the value at all.
fn absent(of: Toleranced, input: &BoatInput, line: ThrustLine) -> Option<[String; 2]> {
    let lacks = |what: &str, remedy: &str| {
        Some([format!("the boat has no {}: {what}", of.key()), remedy.to_owned()])
    };
    match (of, line) {
        (Toleranced::ThrustHeight, ThrustLine::BelowCentreOfGravity(_)) => {
            lacks("its thrust line is given by thrust_offset", "write of = \"drive.thrust_offset\"")
        }
        (Toleranced::ThrustOffset, ThrustLine::HeightAtTransom(_)) => {
            lacks("its thrust line is given by thrust_height", "write of = \"drive.thrust_height\"")
        }
        (Toleranced::AirArea, _) if input.air.is_none() => {
            lacks("air drag is not counted", "add [air], or delete this tolerance")
        }
        (Toleranced::AppendageArea, _) if input.appendages.is_none() => lacks(
            "the drag of appendages is not counted",
            "add [appendages], or delete this tolerance",
        ),
        (Toleranced::WaterTemperature, _)
            if matches!(input.water, Some(WaterInput::Explicit { .. })) =>
        {
            lacks(
                "the water is given by its properties",
                "give the kind of water and its temperature, or delete this tolerance",
            )
        }
        _ => None,
    }
}

/// A half-width as it might be typed.
fn by_example(of: Toleranced) -> String {
    match of {
        Toleranced::PlaneEffectiveness => "15 %".to_owned(),
        Toleranced::Roughness => "0.0002".to_owned(),
        _ => format!("1 {}", bound_of(of.key()).map_or("", |bound| bound.unit)),
    }
}

/// Why a half-width is none for its value: of another kind, negative or too wide.
fn wrong_width(of: Toleranced, width: Measure, sizes: &Sizes<'_>) -> Option<[String; 2]> {
    let bound = bound_of(of.key())?;
    let value = width.value();
    let largest_share = match of {
        Toleranced::PlaneEffectiveness => LARGEST_SHARE_OF_EFFECTIVENESS,
        _ => LARGEST_SHARE,
    };
    let (largest, unit) = match width {
        Measure::Share(_) if of.takes_share() => (100.0 * largest_share, "%"),
        Measure::Share(_) => {
            return Some([
                format!("a share of {} says nothing", of.key()),
                format!("give it as a quantity, for example \"{}\"", by_example(of)),
            ]);
        }
        _ if width.unit() == bound.unit => {
            let half_range = |(low, high): (f64, f64)| 0.5 * (high - low);
            let range = if of.is_by_trial_only() { bound.hard } else { bound.usual };
            let size = sizes.of(of).map(|size| largest_share * size);
            (size.unwrap_or(half_range(range)), bound.unit)
        }
        _ => {
            return Some([
                format!("{width} is no half-width of {}", of.key()),
                format!("give it in {}", bound.unit),
            ]);
        }
    };
    if (0.0..=largest * (1.0 + 1e-12)).contains(&value) {
        return None;
    }
    Some([
        format!("{width} is outside 0 to {} {unit}", plain_number(largest)).trim_end().to_owned(),
        "nine such values in ten lie within it of the true one; what is known no better than that is better left out, and is then estimated"
            .to_owned(),
    ])
}

/// Where the sizes of a boat stand.
struct Sizes<'a> {
    input: &'a BoatInput,
    hull: &'a Hull,
    weight: &'a Weight,
}

impl Sizes<'_> {
    /// The size, in the unit of the bounds table, of a value that is a size.
    fn of(&self, value: Toleranced) -> Option<f64> {
        let measure = match value {
            Toleranced::ChineBeam => Measure::Length(self.hull.chine_beam),
            Toleranced::BottomLength => Measure::Length(self.hull.bottom_length),
            Toleranced::Mass => Measure::Mass(self.weight.mass),
            Toleranced::AirArea => Measure::Area(self.input.air?.frontal_area),
            Toleranced::AppendageArea => Measure::Area(self.input.appendages?.drag_area),
            Toleranced::PlaneEffectiveness => {
                Measure::Number(or_default(self.input.plane_effectiveness, "planes.effectiveness"))
            }
            _ => return None,
        };
        Some(measure.value())
    }
}
