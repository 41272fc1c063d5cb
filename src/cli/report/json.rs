//! What was written and what it says, as one JSON object: SI units, angles in degrees, null for what does not exist.

use crate::cli::records::Size;
use crate::cli::strength::Borne;
use crate::doubt::{HeldDuty, LIKELY_SHARES, NeedDoubt, Probability};
use crate::field::{InSi, written};
use crate::offer::{Kit, Line};
use crate::report::gather::Hump;
use crate::report::{Advised, Gathered, Reader};
use crate::sentence::duty::condition;
use crate::stock::Ranked;
use crate::units::UnitChoice;

/// A paper that was written.
pub(super) struct Written<'a> {
    pub gathered: &'a Gathered,
    pub reader: Reader,
}

/// The part that is advised.
struct Part<'a>(&'a Ranked, UnitChoice);

/// The boat where her bow is highest; the trims told are those of the paper.
struct Highest<'a>(&'a Hump);

/// Deflection that what is asked takes; null beyond what any deflection does.
struct Need<'a>(&'a NeedDoubt);

/// A duty, and the share of boats nearly like her on which it is done.
struct Done<'a>(&'a HeldDuty, UnitChoice, Option<Probability>);

impl Part<'_> {
    /// What it bears at the deflection allowed; none where it could not be judged.
    fn strength(&self) -> Option<Borne<'_>> {
        let strength = self.0.judged.as_ref().ok()?.strength()?;
        Some(Borne::of(self.0.part.gear.as_ref()?, strength, self.1))
    }
}

impl Written<'_> {
    /// The words of `size`: where no pair does everything, the one that does most may stand beside it.
    const fn advised(&self) -> &'static str {
        match self.gathered.advised {
            Advised::Nothing => "no-planes-needed",
            Advised::Pair(_) => "pair",
            Advised::Short(_) => "no-pair-does-all",
        }
    }

    fn kit(&self) -> Option<Kit> {
        Some(self.gathered.offer.as_ref()?.kit(&self.gathered.part()?.part))
    }

    fn duties(&self) -> Vec<Done<'_>> {
        let doubt = &self.gathered.duties;
        let pair = self.gathered.advised.pair();
        let of_pair = doubt.pairs.iter().find(|doubt| doubt.pair == pair);
        let chance = |place: usize| of_pair.and_then(|pair| *pair.each.get(place)?);
        let duties = doubt.duties.iter().enumerate();
        duties.map(|(place, held)| Done(held, self.gathered.size.units, chance(place))).collect()
    }
}

written! {
    Written<'_> as all {
        "report_for": all.reader.word(),
        "advised": all.advised(),
        "pair": all.gathered.advised.pair().map(Size),
        "part": all.gathered.part().map(|ranked| Part(ranked, all.gathered.size.units)),
        // By calculation, where there is one.
        "least_pair": all.gathered.size.suggestion.pair().map(Size),
        "usable_deflection_deg": all.gathered.size.suggestion.usable_deflection.in_si(),
        "likely_shares": LIKELY_SHARES,
        "hump": all.gathered.hump.as_ref().map(Highest),
        // What the pair takes off the trim with all deflection that may be used, and where.
        "relief_deg": all.gathered.relief().map(|(_, likely)| likely).in_si(),
        "relief_speed_m_s": all.gathered.relief().map(|(speed, _)| speed).in_si(),
        // What the offer costs, where a dealer's file is given and a part advised.
        "kit": all.kit(),
        "needs": all.gathered.duties.needs.iter().map(Need).collect::<Vec<_>>(),
        // Share of boats nearly like her on which everything is done.
        "chance": all.gathered.chance(),
        "duties": all.duties(),
        "draws": all.gathered.duties.drawn.draws,
        "seed": all.gathered.duties.drawn.seed,
        "estimates": all.gathered.boat().estimates(),
    }
    Kit as kit {
        "lines": kit.lines,
        "not_in_sum": kit.left_out,
        "currency": Some(&kit.currency).filter(|currency| !currency.is_empty()),
        "sum": kit.sum,
        "tax_name": kit.tax.as_ref().map(|(name, _, _)| name.as_str()),
        "tax_share": kit.tax.as_ref().map(|(_, share, _)| *share),
        "tax": kit.tax.as_ref().map(|(_, _, amount)| *amount),
        "tax_within": kit.is_within,
        "total": kit.total,
    }
    Line as line {
        "name": line.name,
        "quantity": line.quantity,
        "unit": line.unit,
        "price": line.price,
        "sum": line.sum,
    }
    Part<'_> as part {
        "name": part.0.part.name,
        "standing": part.0.standing,
        "strength": part.strength(),
        "pair_price": part.0.pair_price(),
        "currency": part.0.part.price.named(),
        "planes_on_hand": part.0.part.on_hand,
    }
    Highest<'_> as hump {
        "condition": hump.0.boat.condition().name,
        "speed_m_s": hump.0.speed.in_si(),
        "place": hump.0.lies,
        "deflection_deg": hump.0.deflection.in_si(),
        "told_trim_planes_up_deg": hump.0.told().map(|(up, _)| up).in_si(),
        "told_trim_planes_down_deg": hump.0.told().and_then(|(_, down)| down).in_si(),
        "trim_planes_up_deg": hump.0.trim_up().in_si(),
        "trim_planes_down_deg": hump.0.trim_down().in_si(),
    }
    Need<'_> as need {
        "condition": need.0.condition,
        "speed_m_s": need.0.speed.in_si(),
        "needed_deg": need.0.needed.in_si(),
    }
    Done<'_> as done {
        "duty": condition(&done.0.duty, done.1).to_string(),
        "conditions": done.0.conditions,
        "chance": done.2,
    }
}
