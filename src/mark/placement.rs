//! One [`Placement`] that sheet, drawing and template are made from.
//!
//! Everything is given for the starboard side; port is the mirror image. A point on the transom
//! is given by its distance `along` the bottom edge from the centreline and its height `up`,
//! square to that edge, in the face of the transom. The deadrise is taken as it shows in that
//! face.

use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

use super::face;
use super::hardware::Hardware;
use super::hinge::Hinge;
use super::holding::Holding;
use super::holes::{self, DrillLine, Hole};
use super::note::Note;
use super::say::{Say, SheetUnits};
use super::symmetry::{self, Check};
use crate::boat::transom::StrakeNote;
use crate::boat::{PlanePair, Transom, TransomForm};
use crate::plane::gauge::Gauge;
use crate::size::PairSource;

/// Room that a straightedge wants beside a strake, millimetres; chosen here.
const BESIDE_STRAKE_MM: f64 = 20.0;

/// The upper bracket of one actuator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bracket {
    /// Foot of the upper pin from the centreline, along the bottom edge.
    pub along: Length,
    /// Foot of the upper pin off the centreline, level.
    pub off_centre: Length,
    /// Foot of the upper pin above the hinge line, square to it, up the transom.
    pub above_hinge: Length,
    /// Foot of the upper pin above the bottom edge, square to it.
    pub up: Length,
    /// From the foot to the bracket's upper and lower edge.
    pub half_height: Length,
}

/// Where a pair of planes goes on a boat.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// Name of the boat.
    pub boat: String,
    /// The transom, with what stands on it.
    pub transom: Transom,
    /// Span and chord of one plane.
    pub pair: PlanePair,
    /// What is screwed on.
    pub hardware: Hardware,
    /// What holds it, and whether it does.
    pub holding: Holding,
    /// Inner edge from the centreline, along the bottom edge.
    pub inner: Length,
    /// Outer edge from the centreline, along the bottom edge.
    pub outer: Length,
    /// Retracted trailing edge.
    pub gauge: Gauge,
    /// Upper brackets, inner first.
    pub brackets: Vec<Bracket>,
    /// Deflection retracted and at full stroke, by the linkage.
    pub travel: (Angle, Angle),
    /// Holes of one side.
    pub holes: Vec<Hole>,
    /// How high the hinge line stands, and why.
    pub hinge: Hinge,
    /// Strakes under each plane.
    pub strakes: Vec<StrakeNote>,
    /// What to know before trusting a number.
    pub notes: Vec<Note>,
    /// Whether it is the pair fitted, one advised, or a part.
    pub source: PairSource,
    /// Checksum of the boat file, when it is to be printed.
    pub checksum: Option<String>,
}

impl Placement {
    /// The same with the checksum of the boat file, to be printed on every sheet.
    #[must_use]
    pub fn with_checksum(self, checksum: &str) -> Self {
        Self { checksum: Some(checksum.to_owned()), ..self }
    }

    /// The same for a pair that comes from there.
    #[must_use]
    pub fn from_source(self, source: PairSource) -> Self {
        Self { source, ..self }
    }

    /// Whether the pair is fitted, advised, or taken from a list, in words.
    #[must_use]
    pub const fn source_words(&self) -> &'static str {
        match self.source {
            PairSource::Fitted => "the pair FITTED ([planes] of the boat file)",
            PairSource::Suggested => "the pair ADVISED (the size that the duties ask)",
            PairSource::Listed => "a PART of the stock list",
            PairSource::Advised | PairSource::Nowhere | PairSource::Withheld => "the pair CHOSEN",
        }
    }

    /// What must come out alike on both sides.
    #[must_use]
    pub fn checks(&self) -> Vec<Check> {
        let datum = symmetry::datum_height(&self.transom);
        symmetry::checks(&self.transom, self.inner, self.outer, datum)
    }

    /// The lines to begin with: what does not hold as it comes, what is not judged, planes in the water
    /// of a propeller, and propellers that nobody counted.
    #[must_use]
    pub fn warnings(&self, units: SheetUnits) -> Vec<String> {
        let near = self.inside_propeller_water().map(|by| {
            format!(
                "INNER END {} INSIDE THE PROPELLER'S WATER: ask who sized them before drilling",
                Say(units).length(by)
            )
        });
        let one_assumed = self.transom.clear_of_drive.is_some_and(|clear| clear.is_one_assumed);
        let count = one_assumed.then(|| {
            "COUNT THE PROPELLERS: one is taken; if there are more, stop and give drive.engines"
                .to_owned()
        });
        let weak = self.holding.warning(self.hardware.is_chosen());
        let unjudged = self.holding.not_judged.map(|[plate, push]| {
            let say = Say(units);
            format!(
                "PLATE AND ACTUATOR NOT JUDGED: no part is chosen; slamming puts {} on each plate and asks \
                 {} of each actuator standing still",
                say.force(plate),
                say.force(push)
            )
        });
        weak.into_iter().chain(unjudged).chain(near).chain(count).collect()
    }

    /// By how much the inner ends stand nearer the centreline than the drive asks; none where they
    /// keep clear, or nothing is known of the drive.
    #[must_use]
    pub fn inside_propeller_water(&self) -> Option<Length> {
        self.transom.inside_propeller_water(self.inner)
    }

    /// Where the gauge is set, along the bottom edge: under the middle of the span, or the nearest
    /// place that no strake takes.
    #[must_use]
    pub fn gauge_along(&self) -> Length {
        let room = Length::new::<millimeter>(BESIDE_STRAKE_MM);
        let clear = |at: Length| {
            let mut stretches = self.strakes.iter().map(|strake| strake.stretch);
            let taken =
                |s: crate::boat::Stretch| at > s.from - 0.99 * room && at < s.to + 0.99 * room;
            at >= self.inner && at <= self.outer && !stretches.any(taken)
        };
        let middle = self.middle();
        let beside = self
            .strakes
            .iter()
            .flat_map(|strake| [strake.stretch.from - room, strake.stretch.to + room]);
        let clear = std::iter::once(middle).chain(beside).filter(|&at| clear(at));
        let distance = |at: &Length| (*at - middle).abs();
        clear.min_by(|a, b| distance(a).value.total_cmp(&distance(b).value)).unwrap_or(middle)
    }

    /// Bottom edge of one side, centreline to chine.
    #[must_use]
    pub fn edge(&self) -> Length {
        self.transom.half_girth()
    }

    /// Middle of the plane from the centreline, along the bottom edge.
    #[must_use]
    pub fn middle(&self) -> Length {
        0.5 * (self.inner + self.outer)
    }

    /// Off the centreline, level, of a point on the transom.
    #[must_use]
    pub fn off_centre(&self, along: Length, up: Length) -> Length {
        face::off_centre(&self.transom, along, up)
    }

    /// Above the keel, in the face of the transom, of a point on it.
    #[must_use]
    pub fn above_keel(&self, along: Length, up: Length) -> Length {
        face::above_keel(&self.transom, along, up)
    }

    /// Whether ends and holes are measured from the chine first: a step or a pod stands between them
    /// and the centreline.
    #[must_use]
    pub const fn is_measured_from_chine(&self) -> bool {
        matches!(self.transom.form, TransomForm::Stepped | TransomForm::Pod)
    }

    /// Lower edge of the backing plates of the hinge above the bottom edge outside, negative below it;
    /// none where no bolts hold the hinge.
    #[must_use]
    pub fn lower_edge_of_backing(&self) -> Option<Length> {
        let [_, up] = self.holding.bolts.hinge.bolts()?.backing_across_and_up();
        Some(self.hinge.height + self.hardware.hinge_screws.row_height - 0.5 * up)
    }

    /// Waterline at rest above the keel, measured on the face of the transom, which may lean.
    #[must_use]
    pub fn waterline(&self) -> Option<Length> {
        Some(self.transom.waterline? / self.transom.rake.cos())
    }

    /// The drill table of the boat.
    #[must_use]
    pub fn drill_table(&self) -> Vec<DrillLine> {
        holes::drill_table(&self.holes)
    }

    /// Highest point of hardware above the bottom edge.
    #[must_use]
    pub fn top(&self) -> Length {
        let leaf = self.transom.hinge_height + self.hardware.hinge_screws.leaf_height;
        self.brackets.iter().map(|bracket| bracket.up + bracket.half_height).fold(leaf, Length::max)
    }
}
