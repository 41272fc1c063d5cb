//! Why the first stands before the second, and what a smaller one loses: sentences from numbers.

use uom::si::angle::degree;

use super::super::assess::{Largest, LimitedBy};
use super::super::part::Part;
use super::{Judged, PLANES_OF_A_BOAT, Ranked, Ranking, Standing, remedy, unsafe_text};
use crate::size::{Limit, PairDuty};
use crate::units::{UnitChoice, number_with_decimals};

impl Ranking {
    /// Why the order is as it is, in sentences.
    #[must_use]
    pub fn reasons(&self, units: UnitChoice) -> Vec<String> {
        if self.no_planes_needed {
            return vec![
                "No planes needed: with planes up the boat does every duty, so that nothing from the shelf was ranked.".to_owned(),
            ];
        }
        if self.duties.is_empty() {
            return vec![
                "Nothing from the shelf was ranked: there is nothing that planes could be asked to do.".to_owned(),
            ];
        }
        let Some(first) = self.ranked.first() else {
            return vec!["The list holds no part that could be used.".to_owned()];
        };
        let mut lines = vec![self.headline(first, units)];
        if first.standing >= Standing::CannotBeFitted {
            return lines;
        }
        if let Some(second) = self.ranked.get(1) {
            lines.push(self.why_before(first, second, units));
        }
        lines.extend(self.cheapest(first));
        lines.extend(self.cheaper_not_on_hand(first));
        lines.push(self.next_smaller(first, units));
        lines.extend(self.left_out());
        if !self.all_judged {
            lines.push("What cannot be judged is counted in none of these chances: the margin under the porpoising limit, short with planes up where its curve or the planes were not tested.".to_owned());
        }
        if !self.one_currency {
            lines.push("The list has several currencies: prices were not compared, and the smaller area comes first.".to_owned());
        }
        lines
    }

    fn headline(&self, first: &Ranked, units: UnitChoice) -> String {
        let name = &first.part.name;
        let price = pair_price(first);
        match (&first.judged, first.standing) {
            (Ok(judged), Standing::Does) => {
                let does = format!(
                    "fits, does every duty with at most {} of what it can be put to ({} is allowed), and does it on {} in 100 boats nearly like this one; {} are on hand, and the pair costs {price}.",
                    used(judged),
                    percent(self.share_allowed),
                    in_hundred(judged),
                    first.part.on_hand
                );
                match remedy(&first.part, &judged.strength, units) {
                    None => format!("Take {name}: it {does}"),
                    Some(remedy) => format!(
                        "Take {name}, and not as it comes, for it has no allowance for slamming: {remedy}. It {does}"
                    ),
                }
            }
            (Ok(judged), Standing::NotOnHand) => format!(
                "No part that does every duty is on hand. {name} would do with at most {} of what it can be put to, and on {} in 100 boats nearly like this one; {}, and the pair costs {price}.{}",
                used(judged),
                in_hundred(judged),
                on_hand(&first.part),
                no_allowance(first, judged, units)
            ),
            (Ok(judged), Standing::Seldom) => format!(
                "No part on the shelf does every duty as often as it should. {name} comes nearest: it does on the boat as described, and on {} in 100 boats nearly like her, where {} are wanted.{}",
                in_hundred(judged),
                crate::doubt::in_hundred(self.wanted),
                no_allowance(first, judged, units)
            ),
            (Ok(judged), Standing::Misses) => format!(
                "No part on the shelf does every duty. {name} comes nearest; it misses {}.{}",
                self.misses(judged, units),
                no_allowance(first, judged, units)
            ),
            (Ok(judged), Standing::Unsafe) => format!(
                "NO PART ON THE SHELF IS TO BE TAKEN: all that could be fitted are unsafe. {name}, for one: {}.",
                unsafe_text(&judged.strength, units).unwrap_or_default()
            ),
            (Ok(judged), _) => format!(
                "No part on the shelf has room on this transom: no size of it fits. {name} comes nearest: {} are missing on each side.",
                missing(judged, units)
            ),
            (Err(error), _) => format!(
                "No part on the shelf can be fitted on this transom. {name}, for one: {error}."
            ),
        }
    }

    fn why_before(&self, first: &Ranked, second: &Ranked, units: UnitChoice) -> String {
        let start = format!("{} stands before {}", first.part.name, second.part.name);
        match &second.judged {
            Err(error) => format!("{start}, which cannot be fitted: {error}."),
            Ok(judged) if second.standing == Standing::Unsafe => format!(
                "{start}, which is unsafe: {}.",
                unsafe_text(&judged.strength, units).unwrap_or_default()
            ),
            Ok(judged) => match second.standing {
                Standing::Does => format!("{start}, {}.", self.beats(first, second, judged)),
                Standing::NotOnHand if first.standing == Standing::Does => format!(
                    "{start}, which would do every duty too: {}{}.",
                    on_hand(&second.part),
                    self.price_beside(second, first)
                ),
                Standing::NotOnHand | Standing::Seldom => {
                    format!("{start}, {}.", self.beats(first, second, judged))
                }
                Standing::NoRoom => format!(
                    "{start}, for which {} of span are missing on each side of the transom.",
                    missing(judged, units)
                ),
                _ => format!("{start}, which misses {}.", self.misses(judged, units)),
            },
        }
    }

    /// Why one that does all stands before another that does all.
    fn beats(&self, first: &Ranked, second: &Ranked, judged: &Judged) -> String {
        let area = 100.0 * (second.area().value / first.area().value - 1.0);
        let size = if area > 0.5 {
            format!("{area:.0} % more area")
        } else if area < -0.5 {
            format!("{:.0} % less area", -area)
        } else {
            "the same area".to_owned()
        };
        let own = first.judged.as_ref().map_or_else(|_| "-".to_owned(), in_hundred);
        let others = in_hundred(judged);
        let chances =
            [first.judged.as_ref().ok().and_then(Judged::in_hundred), judged.in_hundred()];
        let chance = if own == others {
            format!("on {others} in 100 boats as well")
        } else if chances[1] > chances[0] {
            let wanted = crate::doubt::in_hundred(self.wanted);
            format!(
                "even on {others} in 100 boats, where {own} do with the first and {wanted} are wanted"
            )
        } else {
            format!("but on {others} in 100 boats, not {own}")
        };
        format!(
            "which does every duty too, {chance}{}. It has {size} and would use at most {}",
            self.price_beside(second, first),
            used(judged)
        )
    }

    /// The cheapest that does all and is on hand, where it is neither the first nor the second.
    fn cheapest(&self, first: &Ranked) -> Option<String> {
        if first.standing != Standing::Does || !self.one_currency {
            return None;
        }
        let others = self.ranked.iter().skip(2).filter(|r| r.standing == Standing::Does);
        let found = others.min_by(|a, b| a.pair_price().total_cmp(&b.pair_price()))?;
        let judged = found.judged.as_ref().ok()?;
        (found.pair_price() < first.pair_price()).then(|| {
            format!(
                "The cheapest on hand that does every duty as described is {}, on {} in 100 boats{}.",
                found.part.name,
                in_hundred(judged),
                self.price_beside(found, first)
            )
        })
    }

    /// Those that are unsafe: named, so that nobody takes them for their price.
    fn left_out(&self) -> Option<String> {
        let names: Vec<&str> = self
            .ranked
            .iter()
            .filter(|ranked| ranked.standing == Standing::Unsafe)
            .map(|ranked| ranked.part.name.as_str())
            .collect();
        (!names.is_empty()).then(|| {
            format!(
                "Unsafe on this boat under the load of steady running, and not to be taken: {}.",
                names.join("; ")
            )
        })
    }

    /// `, and the pair costs 40 EUR less`; nothing when prices cannot be compared.
    fn price_beside(&self, one: &Ranked, other: &Ranked) -> String {
        if !self.one_currency {
            return String::new();
        }
        let more = one.pair_price() - other.pair_price();
        let currency = &one.part.price.currency;
        if more == 0.0 {
            ", and the pair costs the same".to_owned()
        } else {
            let word = if more > 0.0 { "more" } else { "less" };
            format!(", and the pair costs {} {currency} {word}", amount(more.abs()))
        }
    }

    /// The cheapest that would do but is not on hand, where it costs less than the first and is
    /// not the second, of which this is said already.
    fn cheaper_not_on_hand(&self, first: &Ranked) -> Option<String> {
        if first.standing != Standing::Does || !self.one_currency {
            return None;
        }
        let others = self.ranked.iter().skip(2).filter(|r| r.standing == Standing::NotOnHand);
        let found = others.into_iter().find(|r| r.pair_price() < first.pair_price())?;
        Some(format!(
            "{} would do every duty{}, but {}.",
            found.part.name,
            self.price_beside(found, first),
            on_hand(&found.part)
        ))
    }

    /// What is lost with the largest part that is smaller than the first.
    fn next_smaller(&self, first: &Ranked, units: UnitChoice) -> String {
        let smaller = self
            .ranked
            .iter()
            .filter(|r| {
                r.standing < Standing::CannotBeFitted
                    && r.area().value < first.area().value * (1.0 - 1e-6)
            })
            .max_by(|a, b| {
                // The better placed of two of the same area.
                let place = |r: &Ranked| self.ranked.iter().position(|other| other == r);
                a.area().value.total_cmp(&b.area().value).then_with(|| place(b).cmp(&place(a)))
            });
        let Some(smaller) = smaller else {
            return "No part on the shelf is smaller.".to_owned();
        };
        let Ok(judged) = &smaller.judged else { return String::new() };
        let less = 100.0 * (1.0 - smaller.area().value / first.area().value);
        let start = format!(
            "The next smaller one, {}, has {less:.0} % less area{}",
            smaller.part.name,
            self.price_beside(smaller, first)
        );
        let room = if judged.assessment.fit.fits() {
            String::new()
        } else {
            format!(" There is no room for it: {} are missing.", missing(judged, units))
        };
        if judged.does_all() {
            let hand = match smaller.standing {
                Standing::NotOnHand => format!("; {}", on_hand(&smaller.part)),
                _ => String::new(),
            };
            format!(
                "{start}. It loses no duty, but has less in hand: at most {} of what it can be put to{hand}.{room}",
                used(judged)
            )
        } else {
            format!("{start}. It misses {}.{room}", self.misses(judged, units))
        }
    }

    /// The duties that a part misses, each with its numbers.
    fn misses(&self, judged: &Judged, units: UnitChoice) -> String {
        let missed: Vec<String> = judged
            .duties
            .iter()
            .zip(&judged.reach)
            .filter(|(duty, _)| !duty.met)
            .map(|(duty, reach)| self.miss(duty, *reach, units))
            .collect();
        missed.join("; and ")
    }

    fn miss(&self, duty: &PairDuty, reach: Largest, units: UnitChoice) -> String {
        let unit = units.speed;
        let speed = number_with_decimals(unit.value(duty.speed), 1);
        let condition = match self.conditions {
            1 => String::new(),
            _ => format!(" in `{}`", duty.condition),
        };
        let start = format!("{} (at {speed} {}{condition}: ", duty.duty.name(), unit.symbol());
        let usable_deg = duty.usable.get::<degree>();
        let needed_deg = duty.needed.get::<degree>();
        let allowed = format!("{:.1}", usable_deg * self.share_allowed);
        let gives = format!("; {allowed} deg give {}", duty.given);
        let why = match duty.limit {
            Limit::Duty => format!("no deflection does it{gives}"),
            Limit::SafeRun if needed_deg <= 0.0 => {
                "the run is not safe there with planes up: trim under 2 deg".to_owned()
            }
            Limit::SafeRun => format!(
                "{needed_deg:.1} deg are needed, at which the run is not safe: trim under 2 deg"
            ),
            Limit::Deflection => format!(
                "{needed_deg:.1} deg are needed and {allowed} may be used, {} of {usable_deg:.1}, {}{gives}",
                percent(self.share_allowed),
                end_of_reach(duty, reach),
            ),
        };
        format!("{start}{why})")
    }
}

/// What sets the deflection that a part can use.
fn end_of_reach(duty: &PairDuty, reach: Largest) -> &'static str {
    if duty.usable.get::<degree>() < reach.deflection.get::<degree>() - 1e-6 {
        return "the most that the boat file allows";
    }
    match reach.limited_by {
        LimitedBy::Tested => "the most that was tested",
        LimitedBy::Linkage => "the end of its stroke",
        LimitedBy::Actuator => "all that its actuators push there",
    }
}

fn missing(judged: &Judged, units: UnitChoice) -> String {
    let unit = units.small_length;
    let decimals = usize::from(unit != crate::units::LengthUnit::Millimetre);
    let value = number_with_decimals(unit.value(judged.assessment.fit.missing), decimals);
    format!("{value} {}", unit.symbol())
}

/// What a part that is not simply to be taken lacks, after the sentence that names it.
fn no_allowance(ranked: &Ranked, judged: &Judged, units: UnitChoice) -> String {
    remedy(&ranked.part, &judged.strength, units).map_or_else(String::new, |remedy| {
        format!(" As it comes it has no allowance for slamming: {remedy}.")
    })
}

fn in_hundred(judged: &Judged) -> String {
    judged.in_hundred().map_or_else(|| "-".to_owned(), |chance| chance.to_string())
}

fn used(judged: &Judged) -> String {
    judged.most_used().map_or_else(|| "more than all".to_owned(), percent)
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn on_hand(part: &Part) -> String {
    let count = match part.on_hand {
        0 => "none is".to_owned(),
        1 => "only one is".to_owned(),
        more => format!("{more} are"),
    };
    format!("{count} on hand where a boat takes {PLANES_OF_A_BOAT}")
}

fn pair_price(ranked: &Ranked) -> String {
    format!("{} {}", amount(ranked.pair_price()), ranked.part.price.currency)
}

/// A sum of money, with hundredths only where it has some.
pub(crate) fn amount(value: f64) -> String {
    let whole = (value - value.round()).abs() < 5e-3;
    number_with_decimals(value, if whole { 0 } else { 2 })
}
