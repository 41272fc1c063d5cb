//! The shelf in JSON: SI units, angles in degrees, null for what does not exist.

use crate::boat::degrees;
use crate::cli::strength::Borne;
use crate::field::{InSi, written};
use crate::size::PairDuty;
use crate::stock::assess::{Assessment, Largest};
use crate::stock::rank::Ranked;
use crate::stock::{Gear, Judged, JudgedGear, Shelf};
use crate::tell::shelf::reasons;
use crate::units::UnitChoice;

/// A stock list in the answer.
pub(in super::super) struct Written<'a> {
    pub shelf: &'a Shelf,
    pub units: UnitChoice,
}

/// One part of the list, by its place in the order.
struct Placed<'a> {
    place: usize,
    ranked: &'a Ranked,
    units: UnitChoice,
}

/// A duty by a part, and how far down it can be put where it asks most.
struct Done<'a>(&'a PairDuty, &'a Largest);

/// What moves a part, and what the duties ask of that.
struct Pushed<'a>(&'a Gear, &'a JudgedGear);

/// For information: full deflection, and the speeds above which something no longer bears it.
struct Full<'a>(&'a Assessment);

impl<'a> Placed<'a> {
    fn judged(&self) -> Option<&'a Judged> {
        self.ranked.judged.as_ref().ok()
    }

    /// Its gear with what it makes of the loads, where the list describes it.
    fn geared(&self) -> Option<(&'a Gear, &'a JudgedGear)> {
        Some((self.ranked.part.gear.as_ref()?, self.judged()?.gear.as_ref()?))
    }

    fn duties(&self) -> Vec<Done<'a>> {
        let both = self.judged().into_iter().flat_map(|j| j.duties.iter().zip(&j.reach));
        both.map(|(duty, reach)| Done(duty, reach)).collect()
    }
}

impl Done<'_> {
    fn limited_by(&self) -> &'static str {
        if degrees(self.0.usable) < degrees(self.1.deflection) - 1e-6 {
            "boat-file"
        } else {
            self.1.limited_by.word()
        }
    }
}

impl Written<'_> {
    /// Every part, best first.
    fn stock(&self) -> Vec<Placed<'_>> {
        let ranked = self.shelf.ranking.ranked.iter().zip(1..);
        ranked.map(|(ranked, place)| Placed { place, ranked, units: self.units }).collect()
    }
}

written! {
    Written<'_> as all {
        "stock": all.stock(),
        "stock_reasons": reasons(&all.shelf.ranking, all.units).iter().map(ToString::to_string).collect::<Vec<_>>(),
        "stock_faults": all.shelf.list.faults.iter().map(ToString::to_string).collect::<Vec<_>>(),
    }
    Placed<'_> as at {
        "place": at.place,
        "part": at.ranked.part.name,
        "span_m": at.ranked.part.span.in_si(),
        "chord_m": at.ranked.part.chord.in_si(),
        "area_m2": at.ranked.area().in_si(),
        "standing": at.ranked.standing,
        "fits_transom": at.judged().is_some_and(|j| j.fit.fits()),
        "missing_span_m": at.judged().map(|j| j.fit.missing).in_si(),
        "does_all": at.judged().is_some_and(Judged::does_all),
        "chance": at.judged().and_then(|j| j.chance).map(|chance| chance.share),
        "chance_standard_error": at.judged().and_then(|j| j.chance).map(|chance| chance.error),
        "share_used": at.judged().and_then(Judged::most_used),
        "duties": at.duties(),
        "not_tested": at.judged().map(|j| j.untested.contains(&true)),
        // Null where the list does not describe plate, screws and actuators: then it is not known.
        "strength_known": at.ranked.part.gear.is_some(),
        "actuator": at.geared().map(|(gear, j)| Pushed(gear, j)),
        "strength": at.geared().map(|(gear, j)| Borne::of(gear, &j.strength, at.units)),
        "full_deflection": at.geared().map(|(_, j)| Full(&j.assessment)),
        "pair_price": at.ranked.pair_price(),
        "currency": at.ranked.part.price.named(),
        "on_hand": at.ranked.part.on_hand,
        "fault": at.ranked.judged.as_ref().err().map(ToString::to_string),
    }
    Done<'_> as done {
        "name": done.0.duty.name(),
        "loading_condition": done.0.condition,
        "hardest_at_m_s": done.0.speed.in_si(),
        "needed_deflection_deg": done.0.needed.in_si(),
        "usable_deflection_deg": done.0.usable.in_si(),
        "usable_limited_by": done.limited_by(),
        "share_used": done.0.share_used,
        "met": done.0.met,
        "with_share_allowed": done.0.given.to_string(),
    }
    Pushed<'_> as by {
        "push_n": by.0.actuator.push().in_si(),
        "hold_n": by.0.actuator.hold().in_si(),
        "push_share_at_duties": by.1.push_share,
    }
    Full<'_> as full {
        "deflection_deg": full.0.full_deflection.in_si(),
        "pushed_to_m_s": full.0.limits.push.in_si(),
        "held_to_m_s": full.0.limits.hold.in_si(),
        "held_under_design_load_to_m_s": full.0.limits.hold_design.in_si(),
        "plate_to_m_s": full.0.limits.plate.in_si(),
        "screws_to_m_s": full.0.limits.screws.in_si(),
    }
}
