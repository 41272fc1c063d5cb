//! Why a pair of planes cannot be marked out, or a drawing not made.

use thiserror::Error;
use uom::si::f64::Length;

use super::say::both;
use crate::drawing::DrawingError;
use crate::plane::linkage::LinkageError;
use crate::stock::assess::AssessError;

/// Word of an answer where there is no place for the planes.
pub const NO_ROOM: &str = "no-room";

/// Why there is no place for the planes.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum MarkError {
    /// No room between the clearances, even on an empty transom.
    #[error(
        "the transom is too narrow: a plane of {} span needs {} of bottom edge on each side with \
         its clearances, and there is {}; {} is missing. Take a shorter span, or smaller \
         clearances if the builder agrees",
        both(*span), both(*needed), both(*edge), both(*missing)
    )]
    TooNarrow {
        /// Span of one plane.
        span: Length,
        /// Inner clearance, span and outer clearance together.
        needed: Length,
        /// Bottom edge from centreline to chine.
        edge: Length,
        /// What is missing, along the bottom edge.
        missing: Length,
    },
    /// There would be room, but for what stands on the transom.
    #[error(
        "no place for a plane of {} span: the longest free stretch of bottom edge, alike on both \
         sides, is {}; {} is missing. In the way: {}. Move what stands there, or take a shorter \
         span",
        both(*span), both(*longest), both(*missing), in_the_way.join(", ")
    )]
    Obstructed {
        /// Span of one plane.
        span: Length,
        /// Longest free stretch.
        longest: Length,
        /// What is missing.
        missing: Length,
        /// Names of what takes room between the clearances.
        in_the_way: Vec<String>,
    },
    /// The part chosen is not the size that was asked for.
    #[error(
        "'{part}' is {} by {}, not {} by {}: give the planes the size of the part",
        both(*part_span), both(*part_chord), both(*span), both(*chord)
    )]
    OtherSize {
        /// Name of the part.
        part: String,
        /// Its span.
        part_span: Length,
        /// Its chord.
        part_chord: Length,
        /// Span asked for.
        span: Length,
        /// Chord asked for.
        chord: Length,
    },
    /// Screws, bracket or leaf of the part do not go together.
    #[error("'{}' cannot be marked out: {problem}", part.as_deref().unwrap_or("usual hardware"))]
    Hardware {
        /// Name of the part; none for usual proportions.
        part: Option<String>,
        /// What does not fit, with the numbers.
        problem: String,
    },
    /// The part does not bear the load of steady running on this boat.
    #[error(
        "'{part}' is unsafe on this boat: {why}. No hole is marked for a fastening that does not \
         hold{}. Take another part, or have its maker or a builder answer for this one",
        bolts.as_ref().map_or_else(String::new, |bolts| {
            format!("; where screws alone are at fault its maker may allow this: {bolts}")
        })
    )]
    Unsafe {
        /// Name of the part.
        part: String,
        /// What does not bear it, with the numbers.
        why: String,
        /// Bolts in the place of its screws, in words.
        bolts: Option<String>,
    },
    /// Neither its screws nor any bolt through their holes bear the slamming load.
    #[error(
        "'{part}' cannot be marked out: neither its screws nor any bolt through their holes bear \
         the slamming load. Take one with more or larger holes in hinge leaf and bracket"
    )]
    NothingHolds {
        /// Name of the part.
        part: String,
    },
    /// Its strength could not be judged.
    #[error("what it bears cannot be judged: {0}")]
    Assess(#[from] AssessError),
    /// The linkage cannot hold the plane at its retracted gauge height.
    #[error("the actuator's upper bracket has no place: {0}")]
    Linkage(#[from] LinkageError),
}

impl MarkError {
    /// The stable word in JSON, where it is an answer about the boat; none where what was given cannot be marked out.
    #[must_use]
    pub const fn word(&self) -> Option<&'static str> {
        match self {
            Self::TooNarrow { .. } | Self::Obstructed { .. } => Some(NO_ROOM),
            Self::Unsafe { .. } => Some("unsafe"),
            Self::NothingHolds { .. } => Some("nothing-holds"),
            _ => None,
        }
    }

    /// What to do about it.
    #[must_use]
    pub const fn remedy(&self) -> &'static str {
        match self {
            Self::TooNarrow { .. } => {
                "take a shorter span, or smaller clearances (transom.inner_clearance, transom.outer_clearance) if the builder agrees"
            }
            Self::Obstructed { .. } => "move what stands there, or take a shorter span",
            Self::OtherSize { .. } => {
                "give the planes the size of the part, or name a part of their size with --part"
            }
            Self::Hardware { part: None, .. } => {
                "these planes are too small for hardware of usual proportions: give larger ones (planes.span, planes.chord), or a part with its own hardware (--stock, --part)"
            }
            Self::Hardware { .. } => {
                "correct its screws, bracket and lengths in the stock list, or take another part"
            }
            Self::Unsafe { .. } => {
                "take another part, or have its maker or a builder answer for this one"
            }
            Self::NothingHolds { .. } => {
                "take one with more or larger holes in hinge leaf and bracket"
            }
            Self::Assess(error) => error.remedy(),
            Self::Linkage(_) => {
                "correct the pins and the lengths of the actuator in the stock list, or take another part; without a part check planes.chord and transom.hinge_height"
            }
        }
    }
}

/// Why a drawing or template could not be made.
#[derive(Debug, Error)]
pub enum DrawError {
    /// It could not be written.
    #[error(transparent)]
    Drawing(#[from] DrawingError),
    /// The edge is so long that a paper template would be no help.
    #[error(
        "a 1:1 template would take {pages} pages, more than {most}: mark out from the sheet's \
         numbers instead"
    )]
    TooManyPages {
        /// Pages needed.
        pages: usize,
        /// Most that are made.
        most: usize,
    },
}
