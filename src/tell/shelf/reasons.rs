//! Why the first stands before the second, and what a smaller one loses: sentences from numbers.

use uom::si::angle::degree;

use super::{in_hundred, money, percent, price};
use crate::document::{Piece, Sentence, said};
use crate::size::{Limit, PairDuty};
use crate::stock::assess::{Largest, LimitedBy};
use crate::stock::rank::{PLANES_OF_A_BOAT, unsafe_said};
use crate::stock::{Judged, Part, Ranked, Ranking, Standing};
use crate::tell::shortfall::given;
use crate::tell::words::{angle, angle_number, small_length, speed, whole_degrees};
use crate::units::UnitChoice;

/// Why the order is as it is, in sentences.
#[must_use]
pub fn reasons(ranking: &Ranking, units: UnitChoice) -> Vec<Sentence> {
    if ranking.no_planes_needed {
        return vec![
            "No planes needed: with planes up the boat does every duty, so that nothing from the shelf was ranked.".into(),
        ];
    }
    if ranking.duties.is_empty() {
        return vec![
            "Nothing from the shelf was ranked: there is nothing that planes could be asked to do."
                .into(),
        ];
    }
    let Some(first) = ranking.ranked.first() else {
        return vec!["The list holds no part that could be used.".into()];
    };
    ShelfText { ranking, units, in_short: false }.why(first)
}

/// An order, told in some units.
pub(super) struct ShelfText<'a> {
    pub ranking: &'a Ranking,
    pub units: UnitChoice,
    /// Whether neither cures nor the numbers of what is missed are told.
    pub in_short: bool,
}

impl ShelfText<'_> {
    fn why(&self, first: &Ranked) -> Vec<Sentence> {
        let mut lines = vec![self.headline(first)];
        if first.standing >= Standing::CannotBeFitted {
            return lines;
        }
        if let Some(second) = self.ranking.ranked.get(1) {
            lines.push(self.why_before(first, second));
        }
        lines.extend(self.cheapest(first).map(Sentence::from));
        lines.extend(self.cheaper_not_on_hand(first).map(Sentence::from));
        lines.push(self.next_smaller(first));
        lines.extend(self.left_out().map(Sentence::from));
        if !self.ranking.all_judged {
            lines.push("What cannot be judged is counted in none of these chances: the margin under the porpoising limit, short with planes up where its curve or the planes were not tested.".into());
        }
        if !self.ranking.one_currency {
            lines.push("The list has several currencies: prices were not compared, and the smaller area comes first.".into());
        }
        lines
    }

    pub(super) fn headline(&self, first: &Ranked) -> Sentence {
        let name = &first.part.name;
        let judged = match &first.judged {
            Ok(judged) => judged,
            Err(error) => {
                return said![
                    format!(
                        "No part on the shelf can be fitted on this transom. {name}, for one: "
                    ),
                    Piece::terminal(error),
                    ".",
                ];
            }
        };
        match first.standing {
            Standing::Does => self.take(first, judged).into(),
            Standing::NotOnHand => self.order(first, judged).into(),
            Standing::Seldom => self.too_seldom(first, judged).into(),
            Standing::NotTested => said![
                format!(
                    "No part on the shelf is known to do every duty. {name} comes nearest, and is not tested: "
                ),
                self.untested(judged),
                ".",
                self.no_allowance(first),
            ],
            Standing::Misses => said![
                format!("No part on the shelf does every duty. {name} comes nearest; it misses "),
                self.misses(judged),
                ".",
                self.no_allowance(first),
            ],
            Standing::Unsafe => said![
                format!(
                    "NO PART ON THE SHELF IS TO BE TAKEN: all that could be fitted are unsafe. {name}, for one: "
                ),
                judged.strength().and_then(|strength| unsafe_said(strength, self.units)),
                ".",
            ],
            _ => said![
                format!(
                    "No part on the shelf has room on this transom: no size of it fits. {name} comes nearest: "
                ),
                self.missing(judged),
                " are missing on each side.",
            ],
        }
    }

    /// That the first is to be taken, and how.
    fn take(&self, first: &Ranked, judged: &Judged) -> String {
        let name = &first.part.name;
        let does = format!(
            "fits, does {} with at most {} of what it can be put to ({} is allowed), and does it on {} in 100 boats nearly like this one{}; a pair costs {}.",
            if self.ranking.all_judged { "every duty" } else { "what can be judged of the duties" },
            used(judged),
            percent(self.ranking.share_allowed),
            in_hundred(judged),
            match first.part.on_hand {
                None => String::new(),
                Some(_) => format!("; {}", on_hand(&first.part)),
            },
            price(first)
        );
        match self.remedy(first) {
            None if judged.strength().is_none() => format!(
                "By its size {name} is the one to take: it {does} Its strength is not known, since the list does not describe plate, screws and actuators: ask its maker before it is ordered, and hold it against what `planewright loads` shows."
            ),
            None => format!("Take {name}: it {does}"),
            Some(remedy) => format!(
                "Take {name}, and not as it comes, for it has no allowance for slamming: {remedy}. It {does}"
            ),
        }
    }

    /// That the first would do, and is not on hand.
    fn order(&self, first: &Ranked, judged: &Judged) -> String {
        format!(
            "No part that does every duty is on hand. {} would do with at most {} of what it can be put to, and on {} in 100 boats nearly like this one; {}, and the pair costs {}.{}",
            first.part.name,
            used(judged),
            in_hundred(judged),
            on_hand(&first.part),
            price(first),
            self.no_allowance(first)
        )
    }

    /// That the first does all on the boat as described, and too seldom on others.
    fn too_seldom(&self, first: &Ranked, judged: &Judged) -> String {
        format!(
            "No part on the shelf does every duty as often as it should. {} comes nearest: it does on the boat as described, and on {} in 100 boats nearly like her, where {} are wanted.{}",
            first.part.name,
            in_hundred(judged),
            crate::doubt::in_hundred(self.ranking.wanted),
            self.no_allowance(first)
        )
    }

    pub(super) fn why_before(&self, first: &Ranked, second: &Ranked) -> Sentence {
        let start = format!("{} stands before {}", first.part.name, second.part.name);
        let judged = match &second.judged {
            Ok(judged) => judged,
            Err(error) => {
                return said![start, ", which cannot be fitted: ", Piece::terminal(error), "."];
            }
        };
        match second.standing {
            Standing::Unsafe => {
                let why = judged.strength().and_then(|strength| unsafe_said(strength, self.units));
                said![start, ", which is unsafe: ", why, "."]
            }
            Standing::NotOnHand if first.standing == Standing::Does => format!(
                "{start}, which would do every duty too: {}{}.",
                on_hand(&second.part),
                self.price_beside(second, first)
            )
            .into(),
            Standing::Does | Standing::NotOnHand | Standing::Seldom => {
                format!("{start}, {}.", self.beats(first, second, judged)).into()
            }
            Standing::NoRoom => said![
                start,
                ", for which ",
                self.missing(judged),
                " of span are missing on each side of the transom.",
            ],
            Standing::NotTested => {
                said![start, ", which is not tested: ", self.untested(judged), "."]
            }
            _ => said![start, ", which misses ", self.misses(judged), "."],
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
            let wanted = crate::doubt::in_hundred(self.ranking.wanted);
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
        if first.standing != Standing::Does || !self.ranking.one_currency {
            return None;
        }
        let others = self.ranking.ranked.iter().skip(2).filter(|r| r.standing == Standing::Does);
        let found = others.min_by(|a, b| a.pair_price().total_cmp(&b.pair_price()))?;
        let judged = found.judged.as_ref().ok()?;
        (found.pair_price() < first.pair_price()).then(|| {
            let on_hand = if found.part.on_hand.is_some() { " on hand" } else { "" };
            format!(
                "The cheapest{on_hand} that does every duty as described is {}, on {} in 100 boats{}.",
                found.part.name,
                in_hundred(judged),
                self.price_beside(found, first)
            )
        })
    }

    /// Those that are unsafe: named, so that nobody takes them for their price.
    fn left_out(&self) -> Option<String> {
        let ranked = self.ranking.ranked.iter();
        let names: Vec<&str> = ranked
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
        if !self.ranking.one_currency {
            return String::new();
        }
        let more = one.pair_price() - other.pair_price();
        let currency = &one.part.price.currency;
        if more == 0.0 {
            ", and the pair costs the same".to_owned()
        } else {
            let word = if more > 0.0 { "more" } else { "less" };
            format!(", and the pair costs {} {word}", money(more.abs(), currency))
        }
    }

    /// The cheapest that would do but is not on hand, where it costs less than the first and is
    /// not the second, of which this is said already.
    fn cheaper_not_on_hand(&self, first: &Ranked) -> Option<String> {
        if first.standing != Standing::Does || !self.ranking.one_currency {
            return None;
        }
        let others = self.ranking.ranked.iter().skip(2);
        let mut others = others.filter(|r| r.standing == Standing::NotOnHand);
        let found = others.find(|r| r.pair_price() < first.pair_price())?;
        Some(format!(
            "{} would do every duty{}, but {}.",
            found.part.name,
            self.price_beside(found, first),
            on_hand(&found.part)
        ))
    }

    /// What is lost with the largest part that is smaller than the first.
    fn next_smaller(&self, first: &Ranked) -> Sentence {
        let Some(smaller) = self.largest_below(first) else {
            return "No part on the shelf is smaller.".into();
        };
        let Ok(judged) = &smaller.judged else { return Sentence::default() };
        let less = 100.0 * (1.0 - smaller.area().value / first.area().value);
        let start = format!(
            "The next smaller one, {}, has {less:.0} % less area{}",
            smaller.part.name,
            self.price_beside(smaller, first)
        );
        let lacks_room = !judged.fit.fits();
        let room = lacks_room
            .then(|| said![" There is no room for it: ", self.missing(judged), " are missing."]);
        if smaller.standing == Standing::NotTested {
            return said![start, ". It is not tested: ", self.untested(judged), ".", room];
        }
        if !judged.does_all() {
            return said![start, ". It misses ", self.misses(judged), ".", room];
        }
        let hand = match smaller.standing {
            Standing::NotOnHand => format!("; {}", on_hand(&smaller.part)),
            _ => String::new(),
        };
        said![
            start,
            format!(
                ". It loses no duty, but has less in hand: at most {} of what it can be put to{hand}.",
                used(judged)
            ),
            room,
        ]
    }

    /// The largest part that is smaller than the first and could be fitted.
    fn largest_below(&self, first: &Ranked) -> Option<&Ranked> {
        let all = &self.ranking.ranked;
        let is_smaller = |r: &&Ranked| {
            r.standing < Standing::CannotBeFitted
                && r.area().value < first.area().value * (1.0 - 1e-6)
        };
        all.iter().filter(is_smaller).max_by(|a, b| {
            // The better placed of two of the same area.
            let place = |r: &Ranked| all.iter().position(|other| other == r);
            a.area().value.total_cmp(&b.area().value).then_with(|| place(b).cmp(&place(a)))
        })
    }

    /// The duties that a part misses, each with its numbers.
    fn misses(&self, judged: &Judged) -> Sentence {
        let duties = judged.duties.iter().zip(&judged.reach);
        let missed = duties.filter(|(duty, _)| !duty.met);
        if self.in_short {
            let mut names: Vec<&str> = missed.map(|(duty, _)| duty.duty.name()).collect();
            names.dedup();
            return names.join(" and ").into();
        }
        Sentence::joined(missed.map(|(duty, reach)| self.miss(duty, *reach)), "; and ")
    }

    fn miss(&self, duty: &PairDuty, reach: Largest) -> Sentence {
        let several = self.ranking.conditions != 1;
        let condition = several.then(|| said![" in ", Piece::name(&duty.condition)]);
        let share = self.ranking.share_allowed;
        let allowed = duty.usable * share;
        let gives = || said!["; ", angle(allowed, 1), " give ", given(&duty.given)];
        let why = match duty.limit {
            Limit::Duty => said!["no deflection does it", gives()],
            Limit::SafeRun if duty.needed.get::<degree>() <= 0.0 => {
                said!["the run is not safe there with planes up: trim under ", whole_degrees(2),]
            }
            Limit::SafeRun => said![
                angle(duty.needed, 1),
                " are needed, at which the run is not safe: trim under ",
                whole_degrees(2),
            ],
            Limit::Deflection => said![
                angle(duty.needed, 1),
                format!(
                    " are needed and {} may be used, {} of {}, {}",
                    angle_number(allowed, 1),
                    percent(share),
                    angle_number(duty.usable, 1),
                    end_of_reach(duty, reach)
                ),
                gives(),
            ],
        };
        let at = speed(duty.speed, self.units);
        said![duty.duty.name(), " (at ", at, condition, ": ", why, ")"]
    }

    /// Why it is not known whether a part does the duties that it would miss by the equations.
    fn untested(&self, judged: &Judged) -> Sentence {
        said![
            "its chord is more than a tenth of the wetted length where it would miss ",
            self.misses(judged),
            ", the most that was tested",
        ]
    }

    /// The span that is missing on each side.
    fn missing(&self, judged: &Judged) -> Piece {
        small_length(judged.fit.missing, self.units)
    }

    /// What a part that is not simply to be taken lacks, after the sentence that names it.
    fn no_allowance(&self, ranked: &Ranked) -> String {
        if ranked.judged.as_ref().is_ok_and(|judged| judged.strength().is_none()) {
            return " Its strength is not known: the list does not describe plate, screws and actuators.".to_owned();
        }
        self.remedy(ranked).map_or_else(String::new, |remedy| {
            format!(" As it comes it has no allowance for slamming: {remedy}.")
        })
    }

    fn remedy(&self, ranked: &Ranked) -> Option<String> {
        ranked.remedy(self.units).filter(|_| !self.in_short)
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

fn used(judged: &Judged) -> String {
    judged.most_used().map_or_else(|| "more than all".to_owned(), percent)
}

fn on_hand(part: &Part) -> String {
    match part.on_hand {
        None => "the list does not say how many are on hand".to_owned(),
        Some(0) => "none is on hand".to_owned(),
        Some(1) => format!("only one plane is on hand where a boat takes {PLANES_OF_A_BOAT}"),
        Some(more) => match more / PLANES_OF_A_BOAT {
            1 => "one pair is on hand".to_owned(),
            pairs => format!("{pairs} pairs are on hand"),
        },
    }
}
