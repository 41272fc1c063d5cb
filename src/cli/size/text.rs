//! The answer as text for a person.

use super::Answered;
use crate::boat::measure::plain_number;
use crate::boat::{Measure, degrees};
use crate::cli::estimates::in_units;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::cli::table::{Column, fixed, table};
use crate::input::duties_as_toml;
use crate::size::explain::{beside, headline, outlook_text, pair_text, reached_texts};
use crate::size::{Answer, sentence};
use crate::units::{AreaUnit, UnitChoice, number_with_decimals};

/// All of it.
pub(super) fn report(answered: &Answered, screen: Screen) -> String {
    let boat = answered.boat();
    let mut text = format!("{}\n", screen.heading(boat.name()));
    if let Some(scenario) = &boat.input().scenario {
        text.push_str(&paragraph("", scenario));
    }
    text.push_str(&section(
        "Suggestion",
        &headline(&answered.suggestion, boat, answered.units),
        screen,
    ));
    if let Some(shelf) = &answered.shelf {
        text.push_str(&super::shelf::text::section(shelf, answered.units, screen));
    }
    text.push_str(&duties(answered, screen));
    text.push_str(&variants(answered, screen));
    text.push_str(&section("Beside it", &beside(&answered.suggestion, answered.units), screen));
    text.push_str(&schedule(answered, screen));
    text.push_str(&trade_off(answered, screen));
    text.push_str(&estimates(answered, screen));
    text.push_str(&generated(answered, screen));
    text.push_str(&notes(answered, screen));
    text.push('\n');
    text.push_str(&paragraph("", CAUTION));
    text
}

fn section(title: &str, lines: &[String], screen: Screen) -> String {
    let mut text = format!("\n{}\n", screen.heading(title));
    for line in lines {
        text.push_str(&paragraph("  ", line));
    }
    text
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn duties(answered: &Answered, screen: Screen) -> String {
    let suggestion = &answered.suggestion;
    let units = answered.units;
    let results = &suggestion.duties;
    if results.is_empty() {
        return String::new();
    }
    let of =
        |value: &dyn Fn(&crate::size::DutyResult) -> String| results.iter().map(value).collect();
    let number = |angle: Option<uom::si::f64::Angle>| {
        angle.map_or("-".to_owned(), |angle| number_with_decimals(degrees(angle), 1))
    };
    let mut columns = vec![
        Column::words("duty", of(&|r| r.duty.name().to_owned())),
        Column::numbers(
            "bites",
            &format!("at {}", units.speed.symbol()),
            of(&|r| number_with_decimals(units.speed.value(r.speed), 1)),
        ),
        Column::words("planes up", of(&|r| reached_texts(r, units)[0].clone())),
    ];
    if suggestion.pair().is_some() {
        columns.extend([
            Column::words("with pair", of(&|r| reached_texts(r, units)[1].clone())),
            Column::numbers("needs", "deg", of(&|r| number(r.needed_deflection))),
            Column::numbers(
                "likely",
                "deg",
                of(&|r| match r.likely_deflection {
                    Some([low, high]) => format!("{}..{}", number(Some(low)), number(Some(high))),
                    None => "-".to_owned(),
                }),
            ),
            Column::numbers(
                "uses",
                &format!("of {:.0}", degrees(suggestion.usable_deflection)),
                of(&|r| r.share_used.map_or("-".to_owned(), percent)),
            ),
        ]);
    }
    columns.push(Column::words("done", of(&|r| if r.met { "yes" } else { "NO" }.to_owned())));
    let mut text = format!("\n{}\n", screen.heading("What the planes must do"));
    for result in results {
        let lead = format!("  {:<19}", result.duty.name());
        text.push_str(&paragraph(&lead, &sentence(&result.duty, units)));
    }
    text.push('\n');
    text.push_str(&table(&columns, screen));
    if suggestion.pair().is_some() {
        text.push_str(&paragraph("  ", &duty_explanation(answered)));
    }
    text
}

fn duty_explanation(answered: &Answered) -> String {
    format!(
        "'needs' is the deflection of the deeper plane; a duty may use {} of the {:.0} deg that are usable. 'likely' holds for nine boats in ten: how strongly planes act differs by about a quarter from boat to boat, and that is judged, not measured; a sea trial fixes it. For list the planes must differ by a range, since where the sideways force is taken up is not known; 'needs' is the low end of it.",
        percent(answered.suggestion.share_allowed),
        degrees(answered.suggestion.usable_deflection)
    )
}

fn variants(answered: &Answered, screen: Screen) -> String {
    let suggestion = &answered.suggestion;
    if suggestion.variants.is_empty() {
        return String::new();
    }
    let all = &suggestion.variants;
    let of = |value: &dyn Fn(&crate::size::Variant) -> String| all.iter().map(value).collect();
    let columns = [
        Column::words("change", of(&|v| v.name.to_owned())),
        Column::words("pair", of(&|v| pair_text(v.pair, answered.units))),
        Column::numbers("uses at", "most", of(&|v| percent(v.share_used))),
        Column::numbers(
            "holds hump",
            "at deg",
            of(&|v| v.hump_trim.map_or("-".to_owned(), |t| number_with_decimals(degrees(t), 1))),
        ),
        Column::words(
            "misses",
            of(&|v| {
                let names: Vec<_> =
                    v.missed.iter().map(|&place| suggestion.duties[place].duty.name()).collect();
                match v.too_long {
                    Some(_) => "room on the transom".to_owned(),
                    None if names.is_empty() => "nothing".to_owned(),
                    None => names.join(", "),
                }
            }),
        ),
    ];
    format!("\n{}\n{}", screen.heading("Why not smaller or larger"), table(&columns, screen))
}

fn schedule(answered: &Answered, screen: Screen) -> String {
    let suggestion = &answered.suggestion;
    let rows = &suggestion.schedule;
    if suggestion.pair().is_none() || rows.is_empty() {
        return String::new();
    }
    let unit = answered.units.speed;
    let angles = |value: &dyn Fn(&crate::size::ScheduleRow) -> Option<uom::si::f64::Angle>| {
        rows.iter().map(|row| value(row).map(degrees)).collect::<Vec<_>>()
    };
    // Below the dead band the plate is not in the water: that reads as planes up.
    let dead_deg = suggestion.dead_band.map_or(0.0, degrees);
    let used: Vec<String> = rows
        .iter()
        .map(|row| match degrees(row.deflection) {
            up if up < dead_deg => "up".to_owned(),
            down => number_with_decimals(down, 1),
        })
        .collect();
    let saving: Vec<_> =
        rows.iter().map(|row| row.resistance_ratio.map(|r| 100.0 * (r - 1.0))).collect();
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.speed))).collect();
    let columns = [
        Column::numbers("speed", unit.symbol(), fixed(&speeds, 1)),
        Column::numbers("use", "deg", used),
        Column::numbers("never beyond", "deg", fixed(&angles(&|r| Some(r.largest_safe)), 1)),
        Column::numbers("trim, planes up", "deg", fixed(&angles(&|r| r.trim_bare), 1)),
        Column::numbers("trim", "deg", fixed(&angles(&|r| r.trim), 1)),
        Column::numbers("resistance", "change %", fixed(&saving, 1)),
    ];
    let mut text = format!("\n{}\n{}", screen.heading("How to use them"), table(&columns, screen));
    if let Some(band) = suggestion.dead_band {
        text.push_str(&paragraph(
            "  ",
            &format!(
                "Mean deflection from the plate parallel to the bottom, trailing edge down. Hinged a little above the bottom edge, the plate reaches the bottom line at about {:.1} deg; up to there it does next to nothing, and where less would do the table says up. 'use' is what the duties need, and more where that saves resistance or keeps the trim under the porpoising limit; 'never beyond' keeps the trim at 2 deg or more, and the keel within the bottom, where the equations end.",
                degrees(band)
            ),
        ));
    }
    text
}

fn trade_off(answered: &Answered, screen: Screen) -> String {
    let suggestion = &answered.suggestion;
    if suggestion.trade_off.is_empty() {
        return String::new();
    }
    let (area, force) = (answered.units.area, answered.units.force);
    let decimals = if area == AreaUnit::SquareMetre { 3 } else { 0 };
    let points = &suggestion.trade_off;
    let areas: Vec<_> = points.iter().map(|p| Some(area.value(p.area))).collect();
    let resistances: Vec<_> = points.iter().map(|p| Some(force.value(p.hump_resistance))).collect();
    let bare = suggestion.bare_hump_resistance;
    let saved: Vec<_> = points
        .iter()
        .map(|p| bare.map(|bare| 100.0 * (p.hump_resistance.value / bare.value - 1.0)))
        .collect();
    let columns = [
        Column::numbers("area of both", area.symbol(), fixed(&areas, decimals)),
        Column::words("pair", points.iter().map(|p| pair_text(p.pair, answered.units)).collect()),
        Column::numbers("resistance at hump", force.symbol(), fixed(&resistances, 0)),
        Column::numbers("change", "%", fixed(&saved, 1)),
        Column::words(
            "does all duties",
            points.iter().map(|p| if p.does_all { "yes" } else { "no" }.to_owned()).collect(),
        ),
    ];
    let title = screen.heading("Area against resistance at the hump");
    format!("\n{title}\n{}", table(&columns, screen))
}

fn estimates(answered: &Answered, screen: Screen) -> String {
    let effects = &answered.effects;
    if effects.is_empty() {
        return String::new();
    }
    let of = |value: &dyn Fn(&crate::size::Effect) -> String| effects.iter().map(value).collect();
    let columns = [
        Column::words("value", of(&|e| e.estimate.key.to_owned())),
        Column::words("used", of(&|e| written(e.estimate.value, answered.units))),
        Column::words(
            "likely range",
            of(&|e| {
                let [low, high] =
                    [e.estimate.low, e.estimate.high].map(|m| written(m, answered.units));
                format!("{low} .. {high}")
            }),
        ),
        Column::words("pair at the low end", of(&|e| outlook_text(e.low, answered.units))),
        Column::words("pair at the high end", of(&|e| outlook_text(e.high, answered.units))),
    ];
    let mut text = format!(
        "\n{}\n{}",
        screen.warning("ESTIMATED: the file does not give these"),
        table(&columns, screen)
    );
    for effect in effects {
        let estimate = &effect.estimate;
        text.push_str(&paragraph("  - ", &format!("{}: {}.", estimate.key, estimate.rule)));
    }
    text
}

/// A value that can be estimated, with its unit, in the units asked for.
fn written(measure: Measure, units: UnitChoice) -> String {
    let (value, unit) = in_units(measure, units);
    format!("{} {unit}", plain_number(value))
}

/// The duties that were generated, ready to be put into the file.
fn generated(answered: &Answered, screen: Screen) -> String {
    let duties: Vec<_> =
        answered.suggestion.duties.iter().filter(|d| d.generated).map(|d| d.duty).collect();
    if duties.is_empty() {
        return String::new();
    }
    let mut text = format!("\n{}\n", screen.warning("The duties were GENERATED from the boat"));
    text.push_str(&paragraph(
        "  ",
        "The file asks for nothing, so that usual duties were taken (common practice, no source). Put these lines into the file and change them to what this boat must do:",
    ));
    text.push('\n');
    for line in duties_as_toml(&duties).lines() {
        text.push_str(&format!("    {line}\n").replace("    \n", "\n"));
    }
    text
}

fn notes(answered: &Answered, screen: Screen) -> String {
    let suggestion = &answered.suggestion;
    let mut text = String::new();
    for flag in suggestion.flags.iter() {
        text.push_str(&paragraph("  - ", &format!("{flag}: {}", flag.meaning())));
    }
    for warning in &answered.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    if matches!(suggestion.answer, Answer::Pair(_)) && answered.boat().planes().is_some() {
        text.push_str(&paragraph(
            "  - ",
            "The boat has planes fitted; the suggestion is for a boat without. Compare with `planewright run` on the pair fitted.",
        ));
    }
    text.push_str(&super::super::charts_text(&answered.charts));
    if text.is_empty() {
        return text;
    }
    format!("\n{}\n{text}", screen.heading("Notes"))
}
