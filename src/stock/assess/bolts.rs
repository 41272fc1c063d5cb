//! Through-bolts in the place of screws that do not bear the slamming load.

use uom::si::f64::{Force, Length};

use super::borne::Check;
use super::fastenings::Fastenings;
use super::{AssessError, PartLoadAt, Screws};
use crate::field::{InSi, written};
use crate::plane::strength::Verdict;
use crate::plane::strength::bolt::{
    BackingPlate, Bolt, BoltRows, backing_plate, combined, least_bolt,
};

/// What holds a leaf or a bracket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeldBy {
    /// Its screws bear both loads.
    Screws,
    /// Bolts in every hole, since the screws do not.
    Bolts(BoltPattern),
    /// Neither its screws nor any bolt through its holes.
    Nothing,
    /// The transom is not covered by the equations for wood, neither for screws nor for what bears
    /// a backing plate.
    NotCovered,
}

impl HeldBy {
    /// Stable word for outputs.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Screws => "screws",
            Self::Bolts(_) => "through-bolts",
            Self::Nothing => "nothing",
            Self::NotCovered => "not-covered",
        }
    }

    /// The bolts, where it takes any.
    #[must_use]
    pub const fn bolts(&self) -> Option<&BoltPattern> {
        match self {
            Self::Bolts(pattern) => Some(pattern),
            _ => None,
        }
    }
}

/// Bolts of one leaf or one bracket: one in each of its holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoltPattern {
    /// Bolts.
    pub count: u32,
    /// Their size.
    pub bolt: Bolt,
    /// Pull of each under the slamming load.
    pub pull: Force,
    /// Force of each along the transom under the same.
    pub across: Force,
    /// Between neighbours of a row.
    pub spacing: Length,
    /// Between the two rows of a bracket; zero for the one row of a leaf.
    pub between_rows: Length,
    /// From the last of a row to the end of leaf or bracket.
    pub edge: Length,
    /// The plate behind them.
    pub backing: BackingPlate,
}

impl BoltPattern {
    /// Share that the slamming load takes of what each bolt bears with its safety factor.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.bolt.share(self.pull, self.across)
    }

    /// The backing plate along the bottom edge and square to it: a leaf's row runs across, the two
    /// rows of a bracket run up.
    #[must_use]
    pub fn backing_across_and_up(&self) -> [Length; 2] {
        let (long, wide) = (self.backing.length, self.backing.width);
        if self.between_rows > Length::default() { [wide, long] } else { [long, wide] }
    }
}

written! {
    HeldBy as held {
        "held_by": held.word(),
        "bolts": held.bolts(),
    }
    BoltPattern as pattern {
        "count": pattern.count,
        "size": pattern.bolt.name(),
        "diameter_m": pattern.bolt.diameter.in_si(),
        "hole_m": pattern.bolt.hole.in_si(),
        "spacing_m": pattern.spacing.in_si(),
        "between_rows_m": Some(pattern.between_rows.in_si()).filter(|&apart_m| apart_m > 0.0),
        "edge_m": pattern.edge.in_si(),
        "pull_n": pattern.pull.in_si(),
        "across_n": pattern.across.in_si(),
        "share": pattern.share(),
        "backing_length_m": pattern.backing.length.in_si(),
        "backing_width_m": pattern.backing.width.in_si(),
        "backing_thickness_m": pattern.backing.thickness.in_si(),
    }
}

/// What holds the hinge leaf and each upper bracket of one plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThroughBolts {
    /// The hinge leaf.
    pub hinge: HeldBy,
    /// Each upper bracket.
    pub bracket: HeldBy,
    /// Upper brackets of one plane.
    pub brackets: u32,
}

impl ThroughBolts {
    /// Whether anything is to be bolted.
    #[must_use]
    pub const fn any(&self) -> bool {
        self.hinge.bolts().is_some() || self.bracket.bolts().is_some()
    }

    /// From the largest loads: bolts where the screws do not bear them.
    pub(super) fn of(
        fastenings: &Fastenings,
        checks: &[Check; 4],
        loads: &[PartLoadAt],
    ) -> Result<Self, AssessError> {
        let screws: Vec<Screws> = loads.iter().map(|at| at.design.screws).collect();
        Self::of_screws(fastenings, [checks[1].verdict(), checks[2].verdict()], &screws)
    }

    /// The same from the verdicts on hinge and bracket screws, and their slamming loads.
    pub(super) fn of_screws(
        fastenings: &Fastenings,
        [hinge, bracket]: [Option<Verdict>; 2],
        loads: &[Screws],
    ) -> Result<Self, AssessError> {
        let held = |verdict: Option<Verdict>, rows: &dyn Fn() -> Result<HeldBy, AssessError>| {
            match verdict {
                None => Ok(HeldBy::NotCovered),
                Some(Verdict::Bears) => Ok(HeldBy::Screws),
                Some(Verdict::NoSlammingAllowance | Verdict::Unsafe) => rows(),
            }
        };
        Ok(Self {
            hinge: held(hinge, &|| leaf(fastenings, loads))?,
            bracket: held(bracket, &|| foot(fastenings, loads))?,
            brackets: fastenings.actuators,
        })
    }
}

fn leaf(fastenings: &Fastenings, loads: &[Screws]) -> Result<HeldBy, AssessError> {
    let screws = &fastenings.hinge;
    let all = loads.iter().map(|load| (load.hinge_pull, load.hinge_across));
    let places = screws.positions(fastenings.span);
    let spacing = match places.as_slice() {
        [first, second, ..] => *second - *first,
        _ => Length::default(),
    };
    let end = places.first().copied().unwrap_or(screws.edge_distance);
    let lower = screws.row_height;
    let side = (screws.leaf_height - lower).min(lower);
    let rows = |pull, diameter| BoltRows {
        count: screws.count,
        pull,
        diameter,
        spacing,
        end,
        between_rows: Length::default(),
        side,
    };
    bolted(all, screws.diameter, rows)
}

fn foot(fastenings: &Fastenings, loads: &[Screws]) -> Result<HeldBy, AssessError> {
    let screws = &fastenings.bracket;
    let all = loads.iter().map(|load| (load.bracket_pull, load.bracket_across));
    let spacing = if screws.count > 2 { screws.up } else { Length::default() };
    let rows = |pull, diameter| BoltRows {
        count: screws.count,
        pull,
        diameter,
        spacing,
        end: screws.edge_distance,
        between_rows: screws.across,
        side: screws.edge_distance,
    };
    bolted(all, screws.diameter, rows)
}

/// The least bolt that bears the load that asks most of it, and the plate behind it.
fn bolted(
    loads: impl Iterator<Item = (Force, Force)>,
    screw: Length,
    rows: impl Fn(Force, Length) -> BoltRows,
) -> Result<HeldBy, AssessError> {
    let asked = |&(pull, across): &(Force, Force)| combined(pull.value, across.value);
    let governing = loads.max_by(|a, b| asked(a).total_cmp(&asked(b)));
    let Some((pull, across)) = governing else { return Ok(HeldBy::Screws) };
    let Some(bolt) = least_bolt(pull, across, screw) else { return Ok(HeldBy::Nothing) };
    let rows = rows(pull, bolt.diameter);
    Ok(HeldBy::Bolts(BoltPattern {
        count: rows.count,
        bolt,
        pull,
        across,
        spacing: rows.spacing,
        between_rows: rows.between_rows,
        edge: rows.end,
        backing: backing_plate(&rows)?,
    }))
}
