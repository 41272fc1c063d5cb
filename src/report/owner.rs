//! The owner's letter: plain words, no formula.

use uom::si::angle::degree;
use uom::si::f64::Angle;

use super::gather::{Advised, Gathered};
use super::owner_words::{reached, situation};
use super::{ReportError, card, dealer, helm, limits, notice, origin, pictures, say};
use crate::balance::HumpPlace;
use crate::boat::degrees;
use crate::document::{Block, Document, Form, said};
use crate::doubt::SeenFit;
use crate::picture::Frame;
use crate::sentence::duty;
use crate::size::{Answer, DutyResult, Reached, Variant};
use crate::stock::rank::Standing;
use crate::tell::shortfall;

/// The letter.
pub(super) fn document(gathered: &Gathered) -> Result<Document, ReportError> {
    let boat = gathered.boat();
    let mut blocks = gathered.first();
    blocks.extend(gathered.is_said().then(|| Block::Lead(in_short(gathered))));
    blocks.extend(dealer::caveats(gathered));
    blocks.extend(boat.input().scenario.clone().map(Block::Paragraph));
    blocks.extend(limits::fitted_note(gathered).map(Block::Paragraph));
    blocks.extend(what_they_do(gathered)?);
    if gathered.is_said() {
        blocks.extend(why_this_size(gathered));
    }
    blocks.extend(helm::how_to_use(gathered));
    blocks.extend(notice::what_you_notice(gathered)?);
    blocks.extend(first_time_out(gathered));
    blocks.extend(what_to_avoid());
    blocks.extend(how_sure(gathered));
    blocks.extend(card::measure_these(gathered)?);
    Ok(Document {
        title: format!("Trim planes on {}", boat.name()),
        subject: "For her owner".to_owned(),
        origin: origin(gathered),
        form: Form::Letter,
        blocks,
    })
}

pub(super) fn in_short(gathered: &Gathered) -> String {
    let units = gathered.size.units;
    match gathered.advised {
        Advised::Nothing if gathered.size.suggestion.is_all_judged() => {
            "She does not need trim planes for what you ask of her.".to_owned()
        }
        Advised::Nothing => {
            "As far as it can be judged she does not need trim planes for what you ask of her."
                .to_owned()
        }
        Advised::Pair(pair) => {
            let what = match gathered.part() {
                Some(ranked) => format!("“{}” ({} each)", ranked.part.name, pair.text(units)),
                None => format!("{} each", pair.text(units)),
            };
            let bow = gathered.hump.as_ref().and_then(|hump| {
                let (up, down) = hump.told()?;
                Some((hump, up, down?))
            });
            let bow = bow.filter(|_| gathered.has_settings());
            let bow = bow.map_or(String::new(), |(hump, up, down)| {
                format!(
                    " At {}, where she carries her bow highest{}, they bring it, set {} down, from {} to {}.",
                    say::speed(hump.speed, units),
                    say::loaded(&hump.boat, gathered.size.boats.len() > 1),
                    say::set(hump.deflection),
                    say::angle(up),
                    say::angle(down)
                )
            });
            let chance = gathered.chance().map_or(String::new(), |chance| {
                format!(
                    " On {} in 100 boats nearly like her they do {}: try her before you rely on it.",
                    say::in_hundred(chance.share),
                    gathered.all_asked()
                )
            });
            let less_sure = dealer::less_sure(gathered);
            let suits = match (gathered.keeps(), less_sure.is_some()) {
                _ if !gathered.has_settings() => "Buy nothing yet; a first guess is this pair",
                (true, false) => "The planes she has suit her",
                (true, true) => "Keep the planes she has for now, since nothing better was found",
                (false, _) => "A pair of planes suits her",
            };
            format!(
                "{suits}: {what}, the first number across the transom.{bow}{}",
                less_sure.unwrap_or(chance)
            )
        }
        Advised::Short(_) if !gathered.is_asked() => dealer::unsaid(gathered),
        Advised::Short(pair) => {
            let nearest = pair.map_or_else(String::new, |pair| {
                format!(
                    " What is told and drawn below with planes down is for the pair that comes nearest, {} each; it is not recommended.",
                    pair.text(gathered.size.units)
                )
            });
            format!(
                "No pair of planes does everything that you ask of her. Read why before you buy any.{nearest}"
            )
        }
    }
}

/// What planes do, with pictures of this boat.
fn what_they_do(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let mut blocks = vec![
        Block::Section("What the planes do".to_owned()),
        Block::Paragraph("A trim plane (most people call the pair trim tabs) is a flat plate hinged to the foot of the transom, the flat end of the hull, one on each side. Put down, it turns the water under it a little downwards; the water pushes the stern up, and the bow comes down. One plane alone lifts its own side, so that a pair also takes out a list, a lean to one side.".to_owned()),
        Block::Paragraph("A boat that is getting on plane climbs over the hump of water that she makes herself. Just there her bow stands highest, you see least, and she needs most power for her speed. How far the bow is up is her trim: the angle of her keel to the water, in degrees; a degree lifts the bow of a boat of 6 m by about 10 cm.".to_owned()),
    ];
    let Some(hump) = gathered.hump.as_ref().filter(|hump| hump.trim_up().is_some()) else {
        blocks.extend(gathered.is_said().then(|| Block::Paragraph("Computed as described she finds no balance with planes up where her bow stands highest, so that there is no picture of it.".to_owned())));
        return Ok(blocks);
    };
    if hump.lies == HumpPlace::PlaningStart {
        blocks.push(Block::Paragraph("On this boat that is right where planing starts: from there on her bow comes down by itself.".to_owned()));
    }
    let units = gathered.size.units;
    let boat = gathered.fitted(hump.loading)?;
    let up = gathered.point(hump.loading, hump.speed, Angle::new::<degree>(0.0))?;
    let at = say::speed(hump.speed, units);
    let down = match gathered.advised.pair() {
        Some(_) if degrees(hump.deflection) > 0.0 && gathered.has_settings() => {
            Some(gathered.point(hump.loading, hump.speed, hump.deflection)?)
        }
        _ => None,
    };
    let frame = if down.is_some() { Frame::Narrow } else { Frame::Wide };
    let (mut sides, mut bottoms) = (Vec::new(), Vec::new());
    for point in [Some(&up), down.as_ref()].into_iter().flatten() {
        let shown = pictures::Shown { boat: &boat, point, units, frame };
        let planes = if degrees(point.deflection) > 0.0 {
            format!("planes {} down", say::set(point.deflection))
        } else {
            "planes up".to_owned()
        };
        sides.push(shown.side(format!("{at}, {planes}: from the side, to scale.")));
        bottoms.push(shown.below(format!("The same from below: what is shaded is wet; {planes}.")));
    }
    blocks.push(Block::Pictures(sides));
    blocks.push(Block::Pictures(bottoms));
    let down = hump.trim_down().filter(|_| gathered.has_settings());
    if let Some(up) = hump.trim_up().filter(|_| down.is_some() || !gathered.has_settings()) {
        blocks.push(Block::Paragraph(format!(
            "The pictures show the boat as described: trim, draft, wet bottom and planes as computed, bow and sides as a sketch. On nine in ten boats nearly like her{} the bow stands {} up with the planes up{}.",
            match gathered.has_settings() {
                true => String::new(),
                false => format!(" {},", say::shown_the_same(gathered.duties.seen.as_ref())),
            },
            say::angles(up),
            down.map_or(String::new(), |down| format!(" and {} with them down", say::angles(down)))
        )));
    }
    Ok(blocks)
}

/// Why this size, and not one smaller or larger.
fn why_this_size(gathered: &Gathered) -> Vec<Block> {
    let suggestion = &gathered.size.suggestion;
    let units = gathered.size.units;
    let title = match gathered.advised {
        Advised::Pair(_) => "Why this size",
        Advised::Nothing => "Why none",
        Advised::Short(_) => "What is missing",
    };
    let mut blocks = vec![Block::Section(title.to_owned())];
    let generated = suggestion.duties.iter().any(|duty| duty.generated);
    let wishes = !gathered.boat().input().wishes.is_empty();
    blocks.extend(gathered.is_asked().then(|| {
        Block::Paragraph(
            if wishes {
                "From what you wish of them this was asked:"
            } else if generated {
                "Nobody said what the planes have to do, so that usual things were taken:"
            } else {
                "A plane is as large as what it has to do. This is what was asked:"
            }
            .to_owned(),
        )
    }));
    let asked = suggestion.duties.iter().map(|result| {
        let done = match gathered.advised {
            Advised::Short(_) if !result.met => " Not done.",
            _ => "",
        };
        let only = match result.held_in.as_slice() {
            [] => String::new(),
            names => format!(
                " (loaded {})",
                names.iter().map(|n| format!("“{n}”")).collect::<Vec<_>>().join(", ")
            ),
        };
        format!("{}{only}: {}{done}", duty::title(&result.duty), situation(result, gathered))
    });
    let asked: Vec<String> = asked.collect();
    blocks.extend((!asked.is_empty()).then_some(Block::Points(asked)));
    if let (Some(loading), Some(governing)) = (suggestion.set_by, &suggestion.governing) {
        let duty = &suggestion.duties[loading];
        let several = gathered.size.boats.len() > 1;
        let boat = &gathered.size.boats[gathered.main_loading()];
        let about = boat.condition().about.as_ref().filter(|_| several);
        let about =
            about.map_or(String::new(), |about| format!(" ({})", about.trim_end_matches('.')));
        blocks.push(Block::Paragraph(format!(
            "Picture her at {}{}{about}. That is the moment that set the size: {} {}",
            say::speed(governing.speed, units),
            say::loaded(boat, several),
            say::small(duty::title(&duty.duty)),
            reached_here(duty, gathered)
                .map_or("there.".to_owned(), |text| format!("there. {text}"))
        )));
    }
    match &suggestion.answer {
        Answer::NoPlanesNeeded => {
            let does = match suggestion.is_all_judged() {
                true => "With planes up she does all of it.",
                false => "As far as it can be judged she does all of it with planes up.",
            };
            blocks.push(Block::Paragraph(format!("{does} Fitting planes would cost money and some speed, and gain nothing that was asked for.")));
        }
        Answer::Pair(_) => blocks.extend(neighbours(gathered)),
        Answer::Infeasible(shortfall) => {
            let missing = shortfall::missing(&shortfall.missing, gathered.size.units).capital();
            blocks.push(Block::Said(said![missing, "."]));
            let remedies = shortfall.remedies.iter();
            let remedies =
                remedies.map(|remedy| shortfall::remedy(remedy, gathered.size.units).on_page());
            blocks.push(Block::Points(remedies.collect()));
        }
    }
    blocks
}

/// What is reached, where that holds for the pair advised and for her as she was seen.
fn reached_here(duty: &DutyResult, gathered: &Gathered) -> Option<String> {
    let by_size = gathered.advised.pair() == gathered.size.suggestion.pair();
    let holds = match duty.reached {
        // The table of settings has it for the pair advised.
        Reached::Difference { .. } => by_size,
        _ => gathered.has_settings(),
    };
    reached(duty).filter(|_| holds)
}

/// What a fifth smaller would miss and a fifth larger would gain.
fn neighbours(gathered: &Gathered) -> Vec<Block> {
    let suggestion = &gathered.size.suggestion;
    let units = gathered.size.units;
    let mut points = Vec::new();
    if let (Some(ranked), Some(size)) = (gathered.part(), suggestion.pair())
        && ranked.part.pair() != size
    {
        let of = match ranked.standing {
            Standing::Does if ranked.part.on_hand.is_some() => "on hand",
            _ => "in the list",
        };
        let why = match dealer::less_sure(gathered) {
            None => {
                format!("is the cheapest that does {} as surely as is wanted", gathered.all_asked())
            }
            Some(_) => format!("is the surest to do {}", gathered.all_asked()),
        };
        let least = match suggestion.set_by {
            Some(_) => "By calculation the least pair is",
            None => "Less would do what is asked than the smallest that is suggested,",
        };
        points.push(format!(
            "{least} {} each; of those {of} {} {why}.",
            size.text(units),
            ranked.part.name
        ));
    }
    let of =
        suggestion.pair().map_or("A".to_owned(), |size| format!("From {}, a", size.text(units)));
    points.push(format!("Span is the length of a plane across the transom, chord how far it reaches aft. {of} fifth more or less of either:"));
    points.extend(suggestion.variants.iter().map(|variant| neighbour(variant, gathered)));
    points.push("Larger planes are not better planes: they weigh and cost more, load hinge and actuator harder, and a small move of the switch does more than you want at speed.".to_owned());
    vec![Block::Points(points)]
}

fn neighbour(variant: &Variant, gathered: &Gathered) -> String {
    // Counting what can be judged alone.
    let all = match gathered.size.suggestion.is_all_judged() {
        true => "all of it",
        false => "what can be judged of it",
    };
    let names = || {
        let mut names: Vec<String> = variant
            .missed
            .iter()
            .map(|&loading| say::small(duty::title(&gathered.size.suggestion.duties[loading].duty)))
            .collect();
        names.dedup();
        names.join("; ")
    };
    let share = || {
        let share = variant.chance?;
        Some(format!("on {} in 100 boats nearly like her", say::in_hundred(share)))
    };
    let ends = match (variant.too_long, variant.missed.is_empty()) {
        (Some(_), _) => "would not fit on the transom.".to_owned(),
        // What the boat as described needs is not what she was seen to need.
        _ if !gathered.has_settings() => {
            share().map_or("would do it.".to_owned(), |share| format!("would do {all} {share}."))
        }
        (None, false) => format!("would miss this: {}.", names()),
        (None, true) => format!(
            "{}would do {} too as she is described, needing {:.0} % of the travel at most{}.",
            match gathered.boat().planes() == Some(variant.pair) {
                true => "(the planes she has) ",
                false => "",
            },
            if gathered.size.suggestion.is_all_judged() { "it" } else { all },
            100.0 * variant.share_used,
            share().map_or(String::new(), |share| format!("; {share}"))
        ),
    };
    format!(
        "{} ({} each) {ends}",
        say::capital(variant.name),
        variant.pair.text(gathered.size.units)
    )
}

/// What to do before the table is used in earnest. Common practice, no source.
fn first_time_out(gathered: &Gathered) -> Vec<Block> {
    if gathered.advised.pair().is_none() || gathered.is_short() {
        return Vec::new();
    }
    let points = [
        if !gathered.has_settings() {
            "At the berth, with nobody in the water, watch each plane while somebody works the switch: which one moves, which way, and how many seconds from up to fully down."
        } else {
            "At the berth, with nobody in the water, watch each plane while somebody works the switch: which one moves, which way, and how many seconds from up to fully down. The share of travel in the table is roughly that share of the seconds."
        },
        "Go out in calm water with room around you, loaded as usual, all seated, the engine's stop cord on whoever steers.",
        "Begin with the planes up and lower both in small equal steps; write down speed and seconds when she feels right.",
        "If she steers by herself or the bow drops: ease the throttle gently, raise both planes, and steer little.",
        "If she begins to nod: ease the throttle, then lower the planes a little.",
        "If one plane sticks down: slow down, bring the other beside it, and go home slowly.",
    ];
    vec![
        Block::Section("The first time out".to_owned()),
        Block::Points(points.map(str::to_owned).to_vec()),
    ]
}

fn what_to_avoid() -> Vec<Block> {
    vec![
        Block::Section("What to avoid".to_owned()),
        Block::Caution {
            title: "These have hurt people".to_owned(),
            points: vec![
                "Too much plane at speed: the bow digs in and steers the boat by itself (bow steering); she may spin or throw people about. Raise the planes before you go faster.".to_owned(),
                "Planes down before a following sea: the bow buries in the wave ahead and the stern is pushed round (broaching). Raise them fully before you run with the sea behind you, and in an inlet.".to_owned(),
                "One side only in a turn: the plane that is down lifts its side; inside the turn it keeps her from leaning in, outside it makes her lean too far. Raise both before you turn hard.".to_owned(),
                "Planes down when you reverse or come alongside: they are bent, or torn off. Raise them first.".to_owned(),
                "Swimmers near the stern: the plates are sharp and move. Keep people clear.".to_owned(),
            ],
        },
    ]
}

/// Whether the boats drawn can show all that was seen of her.
fn seen_is_met(gathered: &Gathered) -> bool {
    gathered.duties.seen.as_ref().is_none_or(SeenFit::is_met)
}

fn how_sure(gathered: &Gathered) -> Vec<Block> {
    let mut blocks = vec![Block::Section("How sure this is".to_owned())];
    if let Some(chance) = gathered.chance() {
        let who =
            if gathered.advised.pair().is_some() { "with these planes" } else { "without planes" };
        let seen = gathered.duties.seen.as_ref();
        let (measured, same) = match say::seen(seen, gathered.size.units) {
            None => ("Nobody measured your boat".to_owned(), ""),
            Some(seen) => (
                format!("Of your boat {seen} was read on the water"),
                match seen_is_met(gathered) {
                    true if gathered.has_settings() => {
                        ", but such that they would have shown the same, as everything that is told of her here does"
                    }
                    true => ", but such that they would have shown the same",
                    false => ", but such that they come as near to what was read as they can",
                },
            ),
        };
        blocks.push(Block::Paragraph(format!(
            "{measured}. {} boats nearly like her were drawn by computer, each off by as much as her particulars and the published equations may be{same}: {who}, {} in 100 of them do {} (with so many drawn, {}).{} A trial on the water tells where yours stands.",
            gathered.duties.drawn.draws,
            say::in_hundred(chance.share),
            gathered.all_asked(),
            say::share_range(chance),
            dealer::least_sure(gathered).map_or(String::new(), |(duty, share)| {
                format!(" The least sure thing is this: {duty} ({share}).")
            })
        )));
    }
    blocks.extend(say::does_not_fit(gathered.duties.seen.as_ref()).map(Block::Paragraph));
    let second = gathered.second_opinion();
    blocks.extend(second.map(Block::Said));
    if let Some(all) = say::estimated(gathered.boat()) {
        blocks.push(Block::Paragraph(format!(
            "Some of her particulars were estimated, since nobody gave them: {all}. The last page says how to measure three of them, and what that makes surer."
        )));
    }
    let unknown = gathered.part().filter(|ranked| ranked.part.gear.is_none());
    blocks.extend(unknown.map(|ranked| {
        Block::Paragraph(format!(
            "How strong {} are is not known: the list gives their size alone. Ask whoever sells them what their plate, screws and actuators bear before they are fitted.",
            ranked.part.name
        ))
    }));
    blocks.extend(as_it_comes(gathered));
    blocks.push(Block::Paragraph("Before anyone drills: find out what lies behind the transom (fuel, wiring, steering, flotation), seal every hole, and leave it to an experienced fitter if you are not one.".to_owned()));
    blocks.push(Block::Paragraph(crate::flag::CAUTION.to_owned()));
    blocks
}

/// What the part advised needs beyond what it is sold with; none where it is enough.
pub(super) fn as_it_comes(gathered: &Gathered) -> Option<Block> {
    let ranked = gathered.part()?;
    let remedy = ranked.remedy(gathered.size.units)?;
    Some(Block::Paragraph(format!(
        "{} as it comes bears steady running, and has no allowance for slamming, the hard knocks of rough water ({}). Have it fitted so: {remedy}.",
        ranked.part.name,
        dealer::weak(ranked).join(", ")
    )))
}
