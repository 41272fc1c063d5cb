//! Which pair of planes an answer is about: the one fitted, else the one suggested.

use super::Failure;
use super::screen::{Screen, paragraph};
use super::size::pair_text;
use crate::balance::Settings;
use crate::boat::{Boat, PlanePair};
use crate::input::BoatFile;
use crate::size::suggest;
use crate::units::{UnitChoice, number_with_decimals};

/// Width of the names of values in a head.
pub(super) const NAMES: usize = 12;

/// Where the pair comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum PairSource {
    Fitted,
    Suggested,
    /// The sizing finds none to be needed, or none that does.
    Nowhere,
}

/// The pair that an answer is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PairUsed {
    pub(super) pair: Option<PlanePair>,
    pub(super) source: PairSource,
}

impl PairUsed {
    /// The pair fitted; else the one that `size` suggests.
    pub(super) fn of(boat: &Boat, settings: &Settings) -> Result<Self, Failure> {
        if let Some(pair) = boat.planes() {
            return Ok(Self { pair: Some(pair), source: PairSource::Fitted });
        }
        let pair = suggest(boat, settings)?.pair();
        let source = if pair.is_some() { PairSource::Suggested } else { PairSource::Nowhere };
        Ok(Self { pair, source })
    }

    pub(super) const fn word(self) -> &'static str {
        match self.source {
            PairSource::Fitted => "fitted",
            PairSource::Suggested => "suggested",
            PairSource::Nowhere => "none",
        }
    }

    /// The pair in words: `two of 610 x 229 mm, as fitted`.
    pub(super) fn sentence(self, units: UnitChoice) -> String {
        let Some(pair) = self.pair else {
            return "none fitted, and `size` suggests none".to_owned();
        };
        let why = match self.source {
            PairSource::Fitted => "as fitted",
            _ => "as `size` suggests; none are fitted",
        };
        format!("two of {}, {why}", pair_text(pair, units))
    }
}

/// The head: name, scenario, loading condition.
pub(super) fn head(file: &BoatFile, screen: Screen) -> String {
    let boat = &file.boat;
    let mut text = format!("{}\n", screen.heading(boat.name()));
    if let Some(scenario) = &boat.input().scenario {
        text.push_str(&paragraph("", scenario));
    }
    text.push('\n');
    if boat.conditions().len() > 1 {
        let condition = boat.condition();
        let about = condition.about.as_ref().map_or_else(String::new, |about| format!(": {about}"));
        text.push_str(&named("Loading", &format!("{}{about}", condition.name)));
    }
    text
}

/// A value after its name.
pub(super) fn named(name: &str, value: &str) -> String {
    paragraph(&format!("{name:<NAMES$}"), value)
}

/// A number with so many significant digits, whole digits all kept.
pub(super) fn digits(value: f64, significant: i32) -> String {
    let magnitude = if value == 0.0 { 0.0 } else { value.abs().log10().floor() };
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let decimals = (f64::from(significant - 1) - magnitude).max(0.0) as usize;
    number_with_decimals(value, decimals)
}
