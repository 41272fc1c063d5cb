//! A few pairs side by side on one boat: what each does, how often, and what it costs.
//!
//! Nothing is computed here that another answer does not compute too: the chances and the relief are those
//! of a sizing, the settings those of its schedule, the runs those of the balance, the strength that of a shelf.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use super::assess::{self, AssessError, strength};
use super::part::{Part, Price};
use super::rank::reaching;
use crate::balance::saving::Saving;
use crate::balance::{Balance, Hump, Settings};
use crate::boat::{Boat, Fault, Fit, PlanePair, degrees};
use crate::doubt::{
    AskedOfReaching, Drawn, DutiesDoubt, HeldDuty, Likely, Probability, Progress, Reaching,
    duties_within,
};
use crate::plane::strength::Verdict;
use crate::size::{ScheduleRow, no_condition, schedules_for};

/// One of the pairs to be set side by side.
#[derive(Clone, Debug, PartialEq)]
pub enum Candidate {
    /// A size.
    Size(PlanePair),
    /// A part of a stock list.
    Part(Box<Part>),
}

impl Candidate {
    /// Its size.
    #[must_use]
    pub fn pair(&self) -> PlanePair {
        match self {
            Self::Size(pair) => *pair,
            Self::Part(part) => part.pair(),
        }
    }

    /// The part, where it is one.
    #[must_use]
    pub fn part(&self) -> Option<&Part> {
        match self {
            Self::Size(_) => None,
            Self::Part(part) => Some(part),
        }
    }

    fn reaching(
        &self,
        boats: &[Boat],
        asked: &AskedOfReaching<'_>,
    ) -> Result<Reaching, AssessError> {
        match self {
            Self::Size(pair) => Ok(Reaching::from(*pair)),
            Self::Part(part) => reaching(part, boats, &assess::Settings::default(), asked),
        }
    }
}

/// The boat at one speed with a pair set as its schedule has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetAt {
    /// The speed.
    pub speed: Velocity,
    /// Deflection of the planes.
    pub deflection: Angle,
    /// Trim with planes up; none where she does not run.
    pub trim_up: Option<Angle>,
    /// Trim with the planes so set.
    pub trim: Option<Angle>,
    /// Resistance over that with planes up.
    pub resistance_ratio: Option<f64>,
    /// What that is worth, wet sides counted.
    pub saving: Option<Saving>,
}

/// What one pair does.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparedPair {
    /// The pair, or the part that it is.
    pub candidate: Candidate,
    /// Whether it fits the transom.
    pub fit: Fit,
    /// How often it does each duty; none for one that cannot be judged.
    pub each: Vec<Option<Probability>>,
    /// How often it does all of them that can be judged; none where none can be.
    pub all: Option<Probability>,
    /// What it takes off the trim where that is largest, with all the deflection that may be used.
    pub relief: Option<Likely<Angle>>,
    /// Where she carries her bow highest; none where she runs nowhere.
    pub hump: Option<SetAt>,
    /// At cruise.
    pub cruise: SetAt,
    /// The verdict on plate, screws and actuators; none where nothing is known of them.
    pub strength: Option<Verdict>,
}

impl ComparedPair {
    /// The price of one plane, where it is known.
    #[must_use]
    pub fn price(&self) -> Option<&Price> {
        self.candidate.part().map(|part| &part.price)
    }
}

/// Pairs side by side.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// Index, among the boats asked about, of the loading condition in which she trims most; trims and settings are in it.
    pub loading: usize,
    /// The speed of the relief: that of largest trim among those that are judged; none where she runs nowhere.
    pub relief_speed: Option<Velocity>,
    /// What is asked of the planes.
    pub duties: Vec<HeldDuty>,
    /// Whether that was generated from the boat.
    pub generated: bool,
    /// Boats drawn for the chances.
    pub drawn: Drawn,
    /// Share of boats on which all is to be done.
    pub wanted: f64,
    /// Whether every duty can be judged.
    pub is_all_judged: bool,
    /// The pairs, in the order in which they were asked about.
    pub pairs: Vec<ComparedPair>,
}

impl Comparison {
    /// Sets pairs side by side on a boat in some loading conditions.
    ///
    /// # Errors
    /// When there is no boat, when she cannot be balanced, or when a part cannot be judged on her.
    pub fn of(
        boats: &[Boat],
        settings: &Settings,
        candidates: Vec<Candidate>,
        drawn: Drawn,
        progress: Progress<'_>,
    ) -> Result<Self, AssessError> {
        let first = boats.first().ok_or_else(no_condition)?;
        let asked = AskedOfReaching::of(boats, settings)?;
        let reaching: Vec<Reaching> = candidates
            .iter()
            .map(|candidate| candidate.reaching(boats, &asked))
            .collect::<Result<_, _>>()?;
        let doubt = duties_within(boats, settings, &reaching, None, drawn, progress)?;
        // Where her bow rises beyond all balance it is highest of all.
        let trim = |boat: &Boat| {
            Hump::of(boat, settings).map_or(0.0, |hump| hump.trim.map_or(f64::INFINITY, degrees))
        };
        let trims: Vec<f64> = boats.iter().map(trim).collect();
        let loading = (0..boats.len()).fold(
            0,
            |most, here| {
                if trims[here] > trims[most] { here } else { most }
            },
        );
        let reliefs = asked.reliefs(&reaching, loading, drawn, progress);
        let pairs = candidates.into_iter().enumerate().map(|(own, candidate)| {
            let relief = reliefs.as_ref().and_then(|reliefs| reliefs.pairs[own].1);
            compared(boats, settings, loading, candidate, (&doubt, own), relief)
        });
        Ok(Self {
            loading,
            relief_speed: reliefs.as_ref().map(|reliefs| reliefs.speed),
            pairs: pairs.collect::<Result<_, _>>()?,
            generated: doubt.generated,
            is_all_judged: doubt.is_all_judged(),
            duties: doubt.duties,
            drawn,
            wanted: first.sizing().chance.value,
        })
    }
}

fn compared(
    boats: &[Boat],
    settings: &Settings,
    loading: usize,
    candidate: Candidate,
    (doubt, own): (&DutiesDoubt, usize),
    relief: Option<Likely<Angle>>,
) -> Result<ComparedPair, AssessError> {
    let boat = &boats[loading];
    let pair = candidate.pair();
    let transom = match candidate.part().and_then(|part| part.gear.as_ref()) {
        Some(gear) => {
            let height = gear.working_height_on(pair.chord, boat.transom())?;
            boat.transom().with_working_height(height)
        }
        None => boat.transom().clone(),
    };
    let schedule = &schedules_for(boats, settings, pair)?[loading];
    let fitted = boat.with_planes(Some(pair)).map_err(Fault::from)?;
    let balance = Balance::of(&fitted, settings);
    let hump = Hump::of(&fitted, settings);
    let set = |speed| set_at(&balance, schedule, speed);
    // The bare boat stands first.
    let found = &doubt.pairs[own + 1];
    let strength = match candidate.part().filter(|part| part.gear.is_some()) {
        Some(part) => Some(strength(part, boats, &assess::Settings::default())?.verdict()),
        None => None,
    };
    Ok(ComparedPair {
        fit: transom.fits(pair),
        each: found.each.clone(),
        all: doubt.is_of_something().then_some(found.all),
        relief,
        hump: hump.map(|hump| set(hump.speed)).transpose()?,
        cruise: set(boat.drive().cruise())?,
        strength,
        candidate,
    })
}

/// The boat at a speed, set as the row of the schedule has it that lies nearest.
fn set_at(balance: &Balance, schedule: &[ScheduleRow], speed: Velocity) -> Result<SetAt, Fault> {
    let row = ScheduleRow::nearest(schedule, speed);
    // As it is read: to a tenth of a degree.
    let tenths = row.map_or(0.0, |row| (10.0 * degrees(row.deflection)).round() / 10.0);
    let deflection = Angle::new::<degree>(tenths);
    let up = balance.point(speed, Angle::default())?.running;
    let down = balance.point(speed, deflection)?.running;
    let both = up.as_ref().zip(down.as_ref());
    Ok(SetAt {
        speed,
        deflection,
        trim_up: up.as_ref().map(|run| run.trim),
        trim: down.as_ref().map(|run| run.trim),
        resistance_ratio: both.map(|(up, down)| (down.resistance / up.resistance).value),
        saving: both.map(|(up, down)| Saving::between(up, down)),
    })
}
