//! What duties ask for at a speed, what a size needs for it, and the rules that hold for every size.

use uom::si::f64::Length;
use uom::si::length::meter;

use crate::boat::{Transom, degrees};

/// What a duty asks for at one speed. `duty` is its index in the list of duties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Demand {
    pub duty: usize,
    pub kind: DemandKind,
}

/// Kinds of demand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum DemandKind {
    /// So much off the running trim with planes up, degrees.
    Relief { at_least_deg: f64 },
    /// Running trim at most this, degrees.
    Trim { at_most_deg: f64 },
    /// Trim under the lower porpoising limit by this, degrees.
    Margin { margin_deg: f64 },
    /// Resistance at most this.
    Resistance { at_most_n: f64 },
    /// This heeling moment levelled, positive when starboard goes down.
    List { moment_n_m: f64 },
}

impl DemandKind {
    /// Of demands at one speed those that all others are done with: of each kind the hardest, and every list, since lists add up.
    ///
    /// Many duties that are alike then cost no more than one.
    pub fn hardest(all: impl Iterator<Item = Self>) -> impl Iterator<Item = Self> + Clone {
        let mut single: [Option<Self>; 4] = [None; 4];
        let mut lists = Vec::new();
        for kind in all {
            match kind.place() {
                Some(place) => {
                    if single[place].is_none_or(|last| kind.hardness() > last.hardness()) {
                        single[place] = Some(kind);
                    }
                }
                None => lists.push(kind),
            }
        }
        single.into_iter().flatten().chain(lists)
    }

    /// What is larger for the harder of two demands of a kind.
    const fn hardness(self) -> f64 {
        match self {
            Self::Relief { at_least_deg } => at_least_deg,
            Self::Trim { at_most_deg } => -at_most_deg,
            Self::Margin { margin_deg } => margin_deg,
            Self::Resistance { at_most_n } => -at_most_n,
            Self::List { moment_n_m } => moment_n_m.abs(),
        }
    }

    /// Its place among the kinds of which only the hardest counts; none for a list.
    const fn place(self) -> Option<usize> {
        match self {
            Self::Relief { .. } => Some(0),
            Self::Trim { .. } => Some(1),
            Self::Margin { .. } => Some(2),
            Self::Resistance { .. } => Some(3),
            Self::List { .. } => None,
        }
    }
}

/// What one demand needs of a size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct DemandNeed {
    pub duty: usize,
    /// Mean deflection it needs by itself.
    pub deflection_deg: f64,
    /// Difference between the planes it needs.
    pub difference_deg: f64,
    /// Whether any deflection does it at all.
    pub possible: bool,
    /// Trim at which she lies with that deflection, where it is what was asked; it saves work.
    pub trim_deg: Option<f64>,
}

/// What a size needs at a speed to do all that is asked for there.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Need {
    pub speed_m_s: f64,
    pub demands: Vec<DemandNeed>,
    /// Mean deflection that does all.
    pub deflection_deg: f64,
    /// Difference between the planes: starboard deeper when positive.
    pub difference_deg: f64,
    /// Deflection used over the share allowed, resistance over its limit where that is missed, 2° over the trim. None above 1 when all is well.
    pub utilisations: [(f64, Limit); 3],
    /// Largest of them.
    pub utilisation: f64,
    /// Which of them it is.
    pub limit: Limit,
    /// Index of the duty behind it.
    pub set_by: Option<usize>,
}

/// What limits a size at a speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Share of the usable deflection.
    Deflection,
    /// The run is dangerous at the deflection needed: trim under 2°, or the bow driven under.
    SafeRun,
    /// No deflection does what is asked for.
    Duty,
}

/// Rules that hold for every size.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rules<'a> {
    /// Largest usable deflection of one plane.
    pub usable_deg: f64,
    /// Share of it that duties may use.
    pub share: f64,
    /// Where the planes stand.
    pub transom: &'a Transom,
}

impl Rules<'_> {
    /// Deflection that duties may use.
    pub fn allowed_deg(&self) -> f64 {
        self.usable_deg * self.share
    }

    /// Distance of mid-span off the centreline, level, with the planes as far outboard as there is room.
    pub fn mid_span_m(&self, span_m: f64) -> f64 {
        self.transom.mid_span_off_centre(Length::new::<meter>(span_m)).get::<meter>()
    }

    /// The transom's deadrise.
    pub fn transom_deadrise_deg(&self) -> f64 {
        degrees(self.transom.deadrise)
    }
}

impl DemandNeed {
    /// Deflection it needs of the deeper plane.
    pub fn deepest_deg(&self) -> f64 {
        self.deflection_deg + 0.5 * self.difference_deg.abs()
    }

    /// The same; beyond all for a demand that no deflection does.
    pub fn severity(&self) -> f64 {
        if self.possible { self.deepest_deg() } else { f64::INFINITY }
    }
}

impl Need {
    /// Deflection of the deeper plane.
    pub fn used_deg(&self) -> f64 {
        self.deflection_deg + 0.5 * self.difference_deg.abs()
    }
}
