//! What a chart is about: the boat, her loading, and the planes that she has or is advised to have.

use crate::boat::Boat;
use crate::boat::measure::plain_number;
use crate::size::{PairSource, PairUsed};
use crate::units::UnitChoice;

/// A boat in her loading condition with the planes that a chart shows, and the units of the chart.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// The boat, in her condition.
    pub boat: &'a Boat,
    /// The planes, and where they come from.
    pub planes: PairUsed,
    /// Units of the chart.
    pub units: UnitChoice,
}

impl<'a> Subject<'a> {
    /// A boat with the planes that are fitted to her, or none.
    #[must_use]
    pub fn fitted(boat: &'a Boat, units: UnitChoice) -> Self {
        Self { boat, planes: PairUsed::fitted(boat), units }
    }

    /// The second line of a chart: boat, loading, mass and planes, what else is said of it, and whether inputs are estimated.
    #[must_use]
    pub fn subtitle(&self, more: &[&str]) -> String {
        let unit = self.units.mass;
        let mass = plain_number(unit.value(self.boat.weight().mass));
        let about = format!("{}, {mass} {}", self.boat.full_name(), unit.symbol());
        let estimated = match self.boat.estimates().len() {
            0 => "",
            1 => "one input estimated",
            _ => "inputs partly estimated",
        };
        let planes = self.planes();
        let all = [about.as_str(), &planes].into_iter().chain(more.iter().copied());
        let all: Vec<&str> = all.chain([estimated]).filter(|part| !part.is_empty()).collect();
        all.join(" · ")
    }

    /// The planes in a few words.
    fn planes(&self) -> String {
        let Some(pair) = self.planes.pair else { return "without planes".to_owned() };
        let source = match self.planes.source {
            PairSource::Fitted => " fitted,",
            PairSource::Listed => " of the list,",
            PairSource::Suggested | PairSource::Advised => " advised,",
            // Somebody tries them.
            PairSource::Nowhere | PairSource::Withheld => "",
        };
        format!("planes{source} {}", pair.text(self.units))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;

    #[test]
    fn regression_a_chart_names_boat_mass_planes_and_what_is_estimated() {
        let text = "name = \"Heron\"\n[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
            deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n\
            [planes]\nspan = \"600 mm\"\nchord = \"300 mm\"\n";
        let boat = parse_boat("heron", text).unwrap().boat;
        let subject = Subject::fitted(&boat, UnitChoice::default());
        let told = subject.subtitle(&["200 boats drawn"]);
        assert!(
            told.starts_with("Heron, 2800 kg · planes fitted, 600 x 300 mm · 200 boats drawn"),
            "{told}"
        );
        let advised = PairUsed { source: PairSource::Suggested, ..subject.planes };
        let told = Subject { planes: advised, ..subject }.subtitle(&[]);
        assert!(told.contains("planes advised, 600 x 300 mm"), "{told}");
        let none = PairUsed { pair: None, source: PairSource::Nowhere };
        assert!(Subject { planes: none, ..subject }.subtitle(&[]).contains("· without planes"));
    }
}
