//! How well the values of a boat file are known.

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
}

impl Toleranced {
    /// All of them, in the order of [`Toleranced::WORDS`].
    pub const ALL: [Self; 12] = [
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

/// Why a half-width is none for its value: of another kind, negative or too wide.
fn wrong_width(of: Toleranced, width: Measure, sizes: &Sizes<'_>) -> Option<[String; 2]> {
    let bound = bound_of(of.key())?;
    let value = width.value();
    let (largest, unit) = match width {
        Measure::Share(_) if of.takes_share() => (100.0 * LARGEST_SHARE, "%"),
        Measure::Share(_) => {
            return Some([
                format!("a share of {} says nothing", of.key()),
                format!("give it as a quantity, for example \"1 {}\"", bound.unit),
            ]);
        }
        _ if width.unit() == bound.unit => {
            let half_usual = 0.5 * (bound.usual.1 - bound.usual.0);
            let size = sizes.of(of).map(|size| LARGEST_SHARE * size);
            (size.unwrap_or(half_usual), bound.unit)
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
        format!("{width} is outside 0 to {} {unit}", plain_number(largest)),
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
            _ => return None,
        };
        Some(measure.value())
    }
}
