//! The numbers of the dealer's page: what changes, how often, and what it costs.

use super::super::gather::{Gathered, Hump};
use super::super::say;
use super::offer::percent;
use super::sum_of;
use crate::balance::HumpPlace;
use crate::boat::Aim;
use crate::document::{Fact, KeyNumber};
use crate::doubt::{PairDoubt, Probability, in_hundred};
use crate::sentence::duty;
use crate::size::DutyResult;

/// What changes on this boat, in one sentence; none where there are no settings.
pub(super) fn headline(gathered: &Gathered) -> Option<String> {
    let lists = |duty: &DutyResult| matches!(duty.duty.aim(), Aim::List(_));
    let duties = &gathered.size.suggestion.duties;
    if let [first, ..] = duties.as_slice()
        && gathered.advised.pair().is_some()
        && duties.iter().all(lists)
    {
        let asked = duty::condition(&first.duty, gathered.size.units).on_page();
        return Some(format!("What is asked: {}.", say::small(&asked)));
    }
    let (speed, relief) = gathered.relief().filter(|_| gathered.has_settings())?;
    let several = gathered.size.boats.len() > 1;
    let loaded = say::loaded(&gathered.size.boats[gathered.main_loading()], several);
    Some(format!(
        "Her bow can come down by about {} at {}{loaded}.",
        say::angle(relief.median),
        say::speed(speed, gathered.size.units)
    ))
}

/// The numbers that matter: what they take off the bow, how often all is done, and the price.
pub(super) fn numbers(gathered: &Gathered) -> Vec<KeyNumber> {
    let mut numbers: Vec<KeyNumber> = off_the_bow(gathered).into_iter().collect();
    if numbers.is_empty() {
        numbers.extend(bow_up(gathered));
    }
    numbers.extend(gathered.chance().map(|chance| all_done(gathered, chance)));
    numbers.extend(price(gathered));
    numbers
}

/// What the pair advised takes off the trim, with the one range that is told of it.
fn off_the_bow(gathered: &Gathered) -> Option<KeyNumber> {
    let (speed, relief) = gathered.relief().filter(|_| gathered.has_settings())?;
    let units = gathered.size.units;
    // At the one speed of this number: what is set elsewhere stands in the table.
    let same = |hump: &&Hump| say::speed(hump.speed, units) == say::speed(speed, units);
    let set =
        gathered.hump.as_ref().filter(same).map(|hump| {
            format!("; as advised they stand {} down there", say::angle(hump.deflection))
        });
    Some(KeyNumber {
        name: format!("Off her bow at {}", say::speed(speed, units)),
        value: say::angle(relief.median),
        likely: format!("likely {}", say::angles(relief)),
        meaning: format!("with all deflection that may be used{}", set.unwrap_or_default()),
    })
}

/// How high her bow stands with planes up, where nothing is to be taken off it.
fn bow_up(gathered: &Gathered) -> Option<KeyNumber> {
    let hump = gathered.hump.as_ref()?;
    let (likely, (trim, _)) = hump.trim_up().zip(hump.told())?;
    Some(KeyNumber {
        name: format!("Bow up at {}, planes up", say::speed(hump.speed, gathered.size.units)),
        value: say::angle(trim),
        likely: format!("likely {}", say::angles(likely)),
        meaning: format!(
            "the highest she carries her bow while getting on plane{}{}",
            if hump.lies == HumpPlace::PlaningStart { ", where planing starts" } else { "" },
            say::loaded(&hump.boat, gathered.size.boats.len() > 1)
        ),
    })
}

/// How often all is done that is asked, beside how often it is wanted.
fn all_done(gathered: &Gathered, chance: Probability) -> KeyNumber {
    let wanted = gathered.size.suggestion.chance.as_ref().map(|chance| chance.wanted);
    KeyNumber {
        name: match gathered.size.suggestion.is_all_judged() {
            true => "Does everything asked for".to_owned(),
            false => "Does what can be judged of it".to_owned(),
        },
        value: format!("{} in 100", say::in_hundred(chance.share)),
        likely: wanted
            .map_or_else(String::new, |wanted| format!("{} are wanted", in_hundred(wanted))),
        meaning: format!(
            "of {} boats drawn nearly like her{}; a trial on the water tells whether she is one of them",
            gathered.duties.drawn.draws,
            if gathered.advised.pair().is_some() { ", with these planes" } else { "" }
        ),
    }
}

/// What is to be paid, or what the pair costs without a dealer's file.
fn price(gathered: &Gathered) -> Option<KeyNumber> {
    let ranked = gathered.part()?;
    let number = |name: &str, value: String, likely: String, meaning: String| KeyNumber {
        name: name.to_owned(),
        value,
        likely,
        meaning,
    };
    let Some(offer) = &gathered.offer else {
        let price = sum_of(ranked.pair_price(), &ranked.part.price.currency);
        return Some(number(
            "The pair",
            price,
            String::new(),
            "two planes, as the stock list has them; tax as it is there".to_owned(),
        ));
    };
    let kit = offer.kit(&ranked.part);
    let tax = kit.tax.as_ref().map_or("no tax shown".to_owned(), |(name, share, _)| {
        format!("with {} {name}", percent(*share))
    });
    let holds = offer.valid_until.map(|day| format!("until {}", day.in_words()));
    Some(number(
        "To pay",
        sum_of(kit.total, &kit.currency),
        tax,
        holds.unwrap_or_else(|| "as the lines below have it".to_owned()),
    ))
}

/// How often each thing asked is done; nothing where it is one thing alone.
pub(super) fn each_done(gathered: &Gathered) -> Vec<Fact> {
    let done = each(gathered).filter(|done| done.len() > 1).unwrap_or_default();
    let fact = |(name, chance): (String, Option<Probability>)| {
        let value = chance.map_or("cannot be judged".to_owned(), |chance| {
            format!("on {} in 100", say::in_hundred(chance.share))
        });
        Fact::new(say::capital(&name), value)
    };
    done.into_iter().map(fact).collect()
}

/// Each thing asked in a few words, and how often the pair advised does it.
fn each(gathered: &Gathered) -> Option<Vec<(String, Option<Probability>)>> {
    let doubt = &gathered.duties;
    let asked = gathered.advised.pair();
    let pair: &PairDoubt = doubt.pairs.iter().find(|pair| pair.pair == asked)?;
    let each = doubt.duties.iter().zip(&pair.each);
    Some(each.map(|(held, chance)| (say::small(duty::title(&held.duty)), *chance)).collect())
}

/// The duty that is least often done by the pair advised, where there are several, and how often.
pub(in crate::report) fn least_sure(gathered: &Gathered) -> Option<(String, String)> {
    // Of what cannot be judged no chance is told.
    let done: Vec<(String, Probability)> =
        each(gathered)?.into_iter().filter_map(|(name, chance)| Some((name, chance?))).collect();
    let several = done.len() > 1;
    let least = done.into_iter().min_by(|a, b| a.1.share.total_cmp(&b.1.share))?;
    (several && least.1.share < 1.0)
        .then(|| (least.0, format!("{} in 100", say::in_hundred(least.1.share))))
}
