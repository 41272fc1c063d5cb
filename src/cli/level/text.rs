//! The answer as text for a person.

use uom::si::f64::{Angle, Torque, Velocity};

use super::tables;
use super::{Levelled, StuckAnswer, whole_deg};
use crate::balance::Outcome;
use crate::behaviour::list::{HeelAngle, LevelLimit, Levelling, Verdict};
use crate::boat::{PlanePair, Side, Toleranced, degrees};
use crate::cli::charts_text;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::flag::{Flag, Flags};
use crate::plane::effect;
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// What nobody should forget while levelling a boat with her planes. Common practice, no source.
pub(super) const CAUTIONS: [&str; 3] = [
    "Find out why she lists before you cure it with planes: water in the bilge, a flooded compartment or fuel that has run to one side make her list too. Shift people and gear first; planes last.",
    "One plane deeper than the other drags that side back and steers the boat. In a following sea, in an inlet or in a hard turn it can make her broach or trip: bring the planes up together before any of these, and do not level away the lean of a turn.",
    "When a plane does not move, slow down first. Then bring the other beside it, a little at a time, and keep the speed down until it is mended (common practice, no source).",
];

/// All of it, one loading condition after the other.
pub(super) fn report(all: &[Levelled], screen: Screen) -> String {
    let blocks: Vec<String> = all.iter().map(|levelled| block(levelled, screen)).collect();
    let mut text = blocks.join("\n\n");
    text.push_str(&cautions(all, screen));
    text.push('\n');
    text.push_str(&paragraph("", CAUTION));
    text
}

/// One loading condition.
fn block(levelled: &Levelled, screen: Screen) -> String {
    let boat = levelled.boat();
    let mut text = format!("{}\n", screen.heading(&boat.full_name()));
    if let Some(scenario) = &boat.input().scenario {
        text.push_str(&paragraph("", scenario));
    }
    if let Some(about) = &boat.condition().about {
        text.push_str(&paragraph("", about));
    }
    text.push_str(&format!("\n{}\n", screen.heading("In short")));
    for sentence in in_short(levelled) {
        text.push_str(&paragraph("  ", &sentence));
    }
    text.push_str(&tables::causes(levelled, screen));
    text.push_str(&tables::levelling(levelled, screen));
    text.push_str(&tables::heel(levelled, screen));
    text.push_str(&tables::setting(levelled, screen));
    text.push_str(&tables::stuck(levelled, screen));
    if let Some(stuck) = &levelled.stuck {
        text.push_str(&paragraph("  ", &stuck_sentences(levelled, stuck)));
    }
    text.push_str(&notes(levelled, screen));
    text
}

/// `12.3 kn`.
pub(super) fn speed_text(speed: Velocity, units: UnitChoice) -> String {
    format!("{} {}", number_with_decimals(units.speed.value(speed), 1), units.speed.symbol())
}

/// `1373 N m`, without a sign.
fn moment_text(moment: Torque, units: UnitChoice) -> String {
    let value = units.moment.value(moment.abs());
    format!("{} {}", number_with_decimals(value, 0), units.moment.symbol())
}

/// `2.3 deg`.
fn angle_text(angle: Angle) -> String {
    format!("{} deg", number_with_decimals(whole_deg(angle), 1))
}

/// The side that goes down under a moment.
pub(super) fn side_down(moment: Torque) -> &'static str {
    if moment.value < 0.0 { "port" } else { "starboard" }
}

/// The other side.
fn opposite(side: &'static str) -> &'static str {
    if side == "port" { "starboard" } else { "port" }
}

/// `port` or `starboard`.
pub(super) fn side_word(side: Side) -> &'static str {
    if side == Side::Starboard { "starboard" } else { "port" }
}

/// Two of anything, once when they read the same.
pub(super) fn between(ends: [String; 2], joint: &str) -> String {
    let [low, high] = ends;
    if low == high { low } else { format!("{low}{joint}{high}") }
}

fn in_short(levelled: &Levelled) -> Vec<String> {
    let units = levelled.units;
    let point = &levelled.reference;
    let speed = speed_text(point.bare.speed, units);
    let mut sentences = vec![heeled_by(levelled, &speed)];
    if point.moment.iter().all(|moment| moment.value == 0.0) {
        return sentences;
    }
    if let Some(planes) = levelled.planes {
        sentences.push(planes_text(levelled, planes));
    }
    match &point.levelling {
        Some(levelling) => {
            sentences.push(how_to_level(levelled, levelling, &speed));
            sentences.push(from_which_speed(levelled));
        }
        None if levelled.planes.is_none() => sentences.push(
            "She has no planes. `planewright size` suggests a pair, and --planes \"610 mm x 254 mm\" tries one here."
                .to_owned(),
        ),
        None => sentences.push(format!("At {speed}: {}", point.bare.outcome.meaning())),
    }
    sentences.push(heel_sentence(point.heel.angle, &speed));
    sentences
}

fn heeled_by(levelled: &Levelled, speed: &str) -> String {
    let [bottom, centre] = levelled.reference.moment;
    if bottom.value == 0.0 && centre.value == 0.0 {
        return "Nothing that is known here heels her. Ask with --off-centre \"90 kg at 0.8 m\" or --moment \"700 N m\", or give `starboard` to the loads of her file.".to_owned();
    }
    let units = levelled.units;
    let mut ends = [bottom, centre].map(|moment| units.moment.value(moment.abs()));
    ends.sort_by(f64::total_cmp);
    let moment = between(ends.map(|moment| number_with_decimals(moment, 0)), " to ");
    let duty =
        if levelled.from_duty { " The largest list duty of her file is among it." } else { "" };
    format!(
        "At {speed} a moment of {moment} {} presses her {} side down.{duty}",
        units.moment.symbol(),
        side_down(bottom)
    )
}

fn planes_text(levelled: &Levelled, [port, starboard]: [PlanePair; 2]) -> String {
    let unit = levelled.units.small_length;
    let decimals = usize::from(unit != LengthUnit::Millimetre);
    let size = |pair: PlanePair| {
        format!(
            "{} x {} {}",
            number_with_decimals(unit.value(pair.span), decimals),
            number_with_decimals(unit.value(pair.chord), decimals),
            unit.symbol()
        )
    };
    let which = if port == starboard {
        format!("{} each", size(port))
    } else {
        format!("port {}, starboard {}", size(port), size(starboard))
    };
    let largest = angle_text(levelled.boat().sizing().largest_deflection);
    format!("Her planes: {which} (span x chord), to {largest} at the most.")
}

fn how_to_level(levelled: &Levelled, levelling: &Levelling, speed: &str) -> String {
    let [least, largest] = &levelling.ends;
    let deeper = side_down(levelled.reference.moment[0]);
    let other = opposite(deeper);
    let depth = |angle: Angle| number_with_decimals(degrees(angle).abs(), 1);
    let ends = [least.difference, largest.difference].map(|d| d.map(depth));
    let needed = match &ends {
        [Some(low), Some(high)] => between([low.clone(), high.clone()], " to "),
        [Some(low), None] => format!("{low} or any number of"),
        _ => return no_arm(deeper),
    };
    match levelling.verdict {
        Verdict::NoList => String::new(),
        Verdict::TooLittle => {
            let left = moment_text(least.left, levelled.units);
            let why = match least.limit {
                Some(LevelLimit::SafeRun) => "a safe run ends before that",
                _ => "her planes do not go so deep",
            };
            format!(
                "At {speed} the planes cannot level her: {deeper} would have to stand {needed} deg deeper than {other}, and {why}. As deep as may be, {left} of the moment are left. Shift weight, or go at a speed at which they can."
            )
        }
        verdict => {
            let [port, starboard] = least.setting;
            let begin = format!(
                "begin with port at {} and starboard at {}",
                angle_text(port),
                angle_text(starboard)
            );
            let doubt = if verdict == Verdict::Perhaps {
                " Perhaps the planes do not go deep enough for the higher number."
            } else {
                ""
            };
            let trim = least.point.running.map_or_else(String::new, |running| {
                format!(" She then trims {}{}.", angle_text(running.trim), planes_up(levelled))
            });
            format!(
                "At {speed} set the {deeper} plane {needed} deg deeper than the {other} one: {begin}, then deepen {deeper} a little at a time until she is level.{doubt}{trim}{}",
                room_for_trim(levelling)
            )
        }
    }
}

fn planes_up(levelled: &Levelled) -> String {
    let bare = levelled.reference.bare.running;
    bare.map_or_else(String::new, |running| {
        format!(" ({} with planes up)", angle_text(running.trim))
    })
}

fn room_for_trim(levelling: &Levelling) -> String {
    let [least, largest] = &levelling.ends;
    let Some([from, to]) = largest.mean.or(least.mean) else { return String::new() };
    format!(
        " While they level her the mean of both planes may be anything from {} to {}: that is left for trim.",
        angle_text(from),
        angle_text(to)
    )
}

fn no_arm(deeper: &str) -> String {
    format!(
        "A plane on the {deeper} side does not raise that side by these figures: on so deep a V, mounted so near the middle, its force leans past the point it would turn her about. Planes cannot be relied on to level her."
    )
}

fn from_which_speed(levelled: &Levelled) -> String {
    let units = levelled.units;
    let [best, sure] = levelled.levelled;
    let range = |[slowest, fastest]: [Velocity; 2]| {
        let top = levelled.boat().drive().top_speed;
        let to = if fastest < top * (1.0 - 1e-9) {
            format!("to {}", speed_text(fastest, units))
        } else {
            "on".to_owned()
        };
        format!("from {} {to}", speed_text(slowest, units))
    };
    match (sure, best) {
        (Some(sure), Some(best)) if range(sure) == range(best) => {
            format!("The planes can level this list {}.", range(sure))
        }
        (Some(sure), Some(best)) => format!(
            "The planes can level this list {}; perhaps {}, if they roll her as well as they may.",
            range(sure),
            range(best)
        ),
        (None, Some(best)) => {
            format!(
                "The planes can perhaps level this list {}, and perhaps at no speed.",
                range(best)
            )
        }
        _ => "The planes can level this list at no speed from the start of planing to top speed."
            .to_owned(),
    }
}

/// How far she heels with planes up.
fn heel_sentence(angle: HeelAngle, speed: &str) -> String {
    match angle {
        HeelAngle::Between([low, high]) => {
            let side = if (low + high).value < 0.0 { "port" } else { "starboard" };
            let mut ends = [low, high].map(|angle| degrees(angle).abs());
            ends.sort_by(f64::total_cmp);
            format!(
                "With planes up she would lean {} deg to {side} at {speed}: a ROUGH estimate.",
                between(ends.map(|deg| number_with_decimals(deg, 1)), " to ")
            )
        }
        HeelAngle::AtLeast(least) => format!(
            "With planes up she would lean {} deg or more to {} at {speed}: a ROUGH estimate. {}",
            number_with_decimals(degrees(least).abs(), 1),
            if least.value < 0.0 { "port" } else { "starboard" },
            angle.meaning()
        ),
        other => format!("With planes up at {speed}: {}", other.meaning()),
    }
}

fn stuck_sentences(levelled: &Levelled, answer: &StuckAnswer) -> String {
    let units = levelled.units;
    let side = side_word(answer.stuck.side);
    let other = opposite(side);
    let at = angle_text(answer.stuck.deflection);
    if answer.stuck.deflection.value == 0.0 {
        let down = side_down(levelled.reference.moment[0]);
        let list = levelled.reference.moment[0].value != 0.0;
        return if list && down == side {
            format!(
                "With the {side} plane up for good nothing raises the {side} side. Leave {other} up too, shift weight to {other}, and go easy: any use of {other} alone makes the list worse."
            )
        } else {
            format!(
                "With the {side} plane up for good, {other} alone still raises its own side. Leave it up but to level her; alone it is no use for trim, since it heels her."
            )
        };
    }
    let beside = match answer.matched {
        None => format!(
            "bringing {other} beside it gives a safe run at no speed that is looked at here"
        ),
        Some([_, fastest]) if fastest >= levelled.boat().drive().top_speed * (1.0 - 1e-9) => {
            format!("bringing {other} beside it gives a safe run up to top speed")
        }
        Some([_, fastest]) => format!(
            "bringing {other} beside it gives a safe run up to {}; faster, both planes so deep press the bow down too far",
            speed_text(fastest, units)
        ),
    };
    let list = if levelled.reference.moment[0].value == 0.0 {
        ""
    } else {
        " Her own list is then still there; 'levels at' says where the other plane would take that away too."
    };
    format!(
        "With the {side} plane stuck at {at}, {beside}. Slow down first, then bring {other} beside it, a little at a time.{list}"
    )
}

/// What nobody should forget.
fn cautions(all: &[Levelled], screen: Screen) -> String {
    let mut text = format!("\n{}\n", screen.heading("Before you rely on it"));
    for caution in CAUTIONS {
        text.push_str(&paragraph("  - ", caution));
    }
    let first = &all[0];
    if first.planes.is_some() {
        let boat = &first.file.boat;
        let log_spread = effect::effectiveness_log_spread(boat);
        let [weak, strong] =
            [0.05, 0.95].map(|share| effect::effectiveness_quantile(share, log_spread));
        let basis = match boat.tolerance_of(Toleranced::PlaneEffectiveness) {
            None => "That is judged, not measured; a trial tells.",
            Some(_) => "So the boat file has it, from a trial.",
        };
        text.push_str(&paragraph(
            "  - ",
            &format!(
                "Planes differ from boat to boat: nine boats in ten need {} to {} times these differences. {basis}",
                number_with_decimals(1.0 / strong, 2),
                number_with_decimals(1.0 / weak, 2)
            ),
        ));
        if let Some(band) = dead_band(first) {
            text.push_str(&paragraph("  - ", &band));
        }
    }
    text
}

/// Everything that is flagged, unusual values, charts.
fn notes(levelled: &Levelled, screen: Screen) -> String {
    let mut text = String::new();
    for (letter, flag) in letters(flags_of(levelled)) {
        text.push_str(&paragraph(&format!("  {letter}  "), &format!("{flag}: {}", flag.meaning())));
    }
    for outcome in outcomes(levelled) {
        text.push_str(&paragraph(&format!("  {outcome}: "), outcome.meaning()));
    }
    for warning in &levelled.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    text.push_str(&charts_text(&levelled.charts));
    if !text.is_empty() {
        text.insert_str(0, &format!("\n{}\n", screen.heading("Notes")));
    }
    text
}

/// What the raised hinge keeps the plate from doing.
fn dead_band(levelled: &Levelled) -> Option<String> {
    let planes = levelled.planes?;
    let height = levelled.boat().transom().hinge_height;
    let band = planes
        .iter()
        .map(|pair| degrees(effect::dead_band(height, pair.chord)))
        .fold(0.0, f64::max);
    (band > 0.05).then(|| {
        format!(
            "With the hinge above the bottom edge the plate reaches the bottom line at {} deg only: count a plane that stands above that as up.",
            number_with_decimals(band, 1)
        )
    })
}

/// All flags at any point, in order.
pub(super) fn flags_of(levelled: &Levelled) -> Flags {
    let stuck = levelled.stuck.iter().flat_map(|answer| &answer.points);
    let stuck = stuck.flat_map(|point| [point.other_up.flags(), point.matched.flags()]);
    let points = levelled.points.iter().map(super::ListPoint::flags);
    let set = levelled.set.iter().map(super::SettingPoint::flags);
    points
        .chain(set)
        .chain(stuck)
        .chain([levelled.reference.flags()])
        .fold(Flags::default(), Flags::union)
}

/// Letters that stand for flags in tables.
pub(super) fn letters(flags: Flags) -> impl Iterator<Item = (char, Flag)> {
    ('a'..='z').zip(flags.iter().collect::<Vec<_>>())
}

/// All outcomes but running, in order of first appearance.
pub(super) fn outcomes(levelled: &Levelled) -> Vec<Outcome> {
    let mut found = Vec::new();
    let mut add = |outcome: Outcome| {
        if outcome != Outcome::Running && !found.contains(&outcome) {
            found.push(outcome);
        }
    };
    for point in levelled.points.iter().chain([&levelled.reference]) {
        add(point.bare.outcome);
        for end in point.levelling.iter().flat_map(|levelling| &levelling.ends) {
            add(end.point.outcome);
        }
    }
    for point in levelled.stuck.iter().flat_map(|answer| &answer.points) {
        add(point.other_up.point.outcome);
        add(point.matched.point.outcome);
    }
    levelled.set.iter().for_each(|set| add(set.point.outcome));
    found
}
