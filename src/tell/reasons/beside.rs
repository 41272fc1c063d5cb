//! Why not another size: flatness, the other reference, the rule of thumb.

use uom::si::length::meter;

use crate::balance::LiftModel;
use crate::document::Sentence;
use crate::size::{Answer, OtherModel, Outlook};
use crate::tell::sizing::Sizing;
use crate::tell::words::small_length;
use crate::units::UnitChoice;

/// Why not another size: flatness, the other reference, the rule of thumb.
#[must_use]
pub fn beside(sizing: &Sizing<'_>) -> Vec<Sentence> {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    let mut lines = Vec::new();
    if suggestion.model == LiftModel::Shuford1958 {
        lines.push(
            "All of this is with the lift of the bottom by Shuford 1958, from memory, which is not the default."
                .into(),
        );
    }
    if let Some([shallow, deep]) = suggestion.flat {
        lines.push(
            format!(
                "The optimum is flat: anything from {} to {} does the same within 2 % of the area. The shallow end was taken, since a plane's load on its hinge and actuator grows with chord x chord x span.",
                shallow.text(units),
                deep.text(units)
            )
            .into(),
        );
    }
    lines.extend(suggestion.other_model.map(|other| other_model(other, units).into()));
    lines.push(rule_of_thumb(sizing).into());
    lines
}

/// What the same duties would need by another lift model.
fn other_model(other: OtherModel, units: UnitChoice) -> String {
    let says = match other.outlook {
        Outlook::Pair(pair) => {
            format!("the same duties would need {} each", pair.text(units))
        }
        Outlook::NoPlanesNeeded => "the boat does the same duties without planes".to_owned(),
        Outlook::NoPairDoes => "no admissible pair does all of the same duties".to_owned(),
        Outlook::NothingAsked => "there is nothing that planes could be asked to do".to_owned(),
    };
    let memory = match other.model {
        LiftModel::Savitsky1964 => "",
        LiftModel::Shuford1958 => ", from memory",
    };
    format!(
        "By another theory of what the bottom lifts ({}{memory}) {says}; size --model {} says why. How far that is from the answer shows what the theory alone is worth.",
        other.model.name(),
        other.model.word()
    )
}

fn rule_of_thumb(sizing: &Sizing<'_>) -> String {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    let rule = suggestion.rule_of_thumb;
    let estimated = if rule.length_estimated { " (that length is an estimate)" } else { "" };
    let first = format!(
        "The trade's rule of thumb, one inch of span for each foot of boat on each side (common practice, no source), says a span of {}{estimated}.",
        small_length(rule.span, units)
    );
    let Answer::Pair(pair) = &suggestion.answer else {
        return format!(
            "{first} It looks at the length of the boat alone, not at what the planes must do."
        );
    };
    let ratio = pair.span.get::<meter>() / rule.span.get::<meter>();
    let why = if (0.9..=1.1).contains(&ratio) {
        "It agrees with the span suggested; it knows nothing of the chord, the weight or the speed, so that this is no proof of either."
    } else if ratio < 1.0 {
        "It is longer than what the duties need: it looks at length alone, and these duties, this weight and this speed ask for less."
    } else {
        "It is shorter than what the duties need: it looks at length alone, and these duties, this weight and this speed ask for more."
    };
    format!("{first} {why}")
}
