//! Everything that a paper may tell, computed once.

use std::borrow::Cow;

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::ReportError;
use super::choice::{advised, compared, kept};
use crate::answer::SizeAnswer;
use crate::balance::saving::Saving;
use crate::balance::series::SecondOpinion;
use crate::balance::{self, Balance, HumpPlace, Point, Settings};
use crate::behaviour::sense::Sense;
use crate::boat::{Boat, Duty, Fault, PlanePair, degrees};
use crate::document::{Block, Sentence};
use crate::doubt::{
    AskedOfReaching, Drawn, DutiesDoubt, Likely, PairDoubt, Probability, Progress, Reliefs,
    Request, RunningDoubt, SpeedDoubt, duties_within, running,
};
use crate::input::BoatFile;
use crate::offer::Offer;
use crate::plane::effect;
use crate::size::{PairSource, PairUsed, ScheduleRow, Suggestion, schedules_for};
use crate::stock::{Ranked, Shelf, StockList, assess, rank_for};
use crate::tell;
use crate::tell::run::second_opinion_sentence;
use crate::tell::sizing::Sizing;
use crate::units::UnitChoice;

/// Share of the boats drawn that must run at a speed before a range of it is told.
const HALF: f64 = 0.5;
/// So much deeper is worth a word, degrees.
const EASED_DEG: f64 = 0.5;

/// Parts of the shelf that are held against each other: the one advised and the two after it.
pub const COMPARED: usize = 3;

/// What papers are wanted about.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// The boat file.
    pub file: BoatFile,
    /// The boat in each loading condition asked about.
    pub boats: Vec<Boat>,
    /// A stock list to choose from.
    pub list: Option<StockList>,
    /// Units of what is written.
    pub units: UnitChoice,
    /// Boats drawn.
    pub draws: u32,
    /// What makes the dealer's page an offer.
    pub offer: Option<Offer>,
}

/// What the papers advise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advised {
    /// No planes: the boat does every duty without.
    Nothing,
    /// This pair does every duty.
    Pair(PlanePair),
    /// No pair does every duty; this one falls least short, if there is room for any.
    Short(Option<PlanePair>),
}

impl Gathered {
    /// The planes that the papers are about.
    #[must_use]
    pub fn used(&self) -> PairUsed {
        let pair = self.advised.pair();
        let source = match pair {
            None => PairSource::Nowhere,
            Some(_) if self.boat().planes() == pair => PairSource::Fitted,
            Some(_) if self.part().is_some() => PairSource::Listed,
            Some(_) => PairSource::Suggested,
        };
        PairUsed { pair, source }
    }
}

impl Advised {
    /// The pair, whether it does every duty or falls short.
    #[must_use]
    pub const fn pair(self) -> Option<PlanePair> {
        match self {
            Self::Nothing => None,
            Self::Pair(pair) => Some(pair),
            Self::Short(pair) => pair,
        }
    }
}

/// The boat at the hump, the speed of her largest trim with planes up as described, as far as it is known.
#[derive(Clone, Debug)]
pub struct Hump {
    /// Place of the loading condition in the list of boats.
    pub loading: usize,
    /// The boat in it, with the pair advised.
    pub boat: Boat,
    /// The speed.
    pub speed: Velocity,
    /// Where in the planing range it lies.
    pub lies: HumpPlace,
    /// Deflection that is advised there, in whole degrees as in the table of settings.
    pub deflection: Angle,
    /// All speeds with planes up.
    pub up: RunningDoubt,
    /// All speeds with the pair at that deflection; none without a pair.
    pub down: Option<RunningDoubt>,
}

impl Hump {
    fn row(doubt: &RunningDoubt, speed: Velocity) -> Option<&SpeedDoubt> {
        doubt.speeds.iter().find(|row| row.speed == speed && row.running_share > HALF)
    }

    /// Trim at the hump with planes up; none where most boats like her do not run there.
    #[must_use]
    pub fn trim_up(&self) -> Option<Likely<Angle>> {
        Self::row(&self.up, self.speed)?.trim
    }

    /// Trim at the hump with the planes as advised.
    #[must_use]
    pub fn trim_down(&self) -> Option<Likely<Angle>> {
        Self::row(self.down.as_ref()?, self.speed)?.trim
    }

    /// The trims that are told, planes up and as advised: of the boat as described, as in every picture
    /// and table; where what was seen of her speaks against one of them, the middles of the likely ranges.
    #[must_use]
    pub fn told(&self) -> Option<(Angle, Option<Angle>)> {
        let up = Self::row(&self.up, self.speed)?;
        let down = self.down.as_ref().and_then(|down| Self::row(down, self.speed));
        let described = |row: &SpeedDoubt| {
            let (trim, likely) = (row.nominal_trim?, row.trim?);
            (likely.low..=likely.high).contains(&trim).then_some(trim)
        };
        let fits = std::iter::once(up).chain(down).all(|row| described(row).is_some());
        let told = |row: &SpeedDoubt| match fits {
            true => described(row),
            false => row.trim.map(|likely| likely.median),
        };
        Some((told(up)?, down.and_then(told)))
    }
}

/// Everything that a paper may tell.
#[derive(Clone, Debug)]
pub struct Gathered {
    /// The size by calculation, with the boat in each loading condition asked about.
    pub size: SizeAnswer,
    /// What must be settled before any of it is believed.
    pub sense: Sense,
    /// The shelf, when there is a list.
    pub shelf: Option<Shelf>,
    /// What the papers advise: from the shelf where there is one, else by calculation.
    pub advised: Advised,
    /// What to do at each speed with that pair, in each condition.
    pub schedules: Vec<Vec<ScheduleRow>>,
    /// The boat at the hump; none where she runs nowhere.
    pub hump: Option<Hump>,
    /// How likely the duties are done by the pair advised and by those of the trade-off.
    pub duties: DutiesDoubt,
    /// What these pairs take off the trim with all deflection that may be used, in the condition that sets the size; none where she
    /// runs nowhere.
    pub reliefs: Option<Reliefs>,
    /// What makes the dealer's page an offer.
    pub offer: Option<Offer>,
}

impl Gathered {
    /// Computes everything.
    ///
    /// # Errors
    /// As [`SizeAnswer::alone`] and [`running`].
    pub fn of(wanted: Wanted, progress: Progress<'_>) -> Result<Self, ReportError> {
        let Wanted { file, boats, list, units, draws, offer } = wanted;
        let drawn = Drawn { draws, ..Drawn::default() };
        let size = SizeAnswer::alone(file, boats, units, Settings::default(), drawn, &|_| ())?
            .with_beside(drawn.seed);
        let shelf = match list {
            Some(list) => {
                let (boats, settings) = (&size.boats, &size.settings);
                let gear = assess::Settings::default();
                let ranking = rank_for(boats, settings, &list, &gear, drawn, &|_| ())?;
                Some(Shelf { list, ranking })
            }
            None => None,
        };
        Ok(Self { offer, ..Self::about(size, shelf, drawn, progress)? })
    }

    /// The same about a size and a shelf that are computed already.
    ///
    /// # Errors
    /// As [`running`].
    pub fn about(
        size: SizeAnswer,
        shelf: Option<Shelf>,
        drawn: Drawn,
        progress: Progress<'_>,
    ) -> Result<Self, ReportError> {
        let sense = size.sense();
        let SizeAnswer { boats, settings, suggestion, .. } = &size;
        let advised = advised(suggestion, shelf.as_ref());
        let advised = kept(boats, settings, suggestion, shelf.as_ref(), drawn, advised)?;
        let schedules = match advised.pair() {
            Some(pair) => schedules_for(boats, settings, pair)?,
            None => suggestion.conditions.iter().map(|c| c.schedule.clone()).collect(),
        };
        let pairs = compared(advised.pair(), shelf.as_ref(), boats, settings)?;
        let duties = duties_within(boats, settings, &pairs, advised.pair(), drawn, progress)?;
        let main = main_loading(boats, suggestion);
        let asked = AskedOfReaching::of(boats, settings)?;
        let reliefs = asked.reliefs(&pairs, main, drawn, progress);
        let hump =
            hump(boats, settings, suggestion, (advised.pair(), &schedules), drawn, progress)?;
        Ok(Self { size, sense, shelf, advised, schedules, hump, duties, reliefs, offer: None })
    }

    /// What must be settled first, as every paper begins where there is anything.
    #[must_use]
    pub fn first(&self) -> Vec<Block> {
        tell::sense::first(&self.sense, self.size.units).iter().map(Block::spoken).collect()
    }

    /// The boat in the first of the conditions.
    #[must_use]
    pub fn boat(&self) -> &Boat {
        &self.size.boats[0]
    }

    /// The sizing, to be told.
    #[must_use]
    pub fn sizing(&self) -> Sizing<'_> {
        self.size.told()
    }

    /// The part that is advised, when it comes from the shelf.
    #[must_use]
    pub fn part(&self) -> Option<&Ranked> {
        let first = self.shelf.as_ref()?.ranking.ranked.first()?;
        (self.advised.pair() == Some(first.part.pair())).then_some(first)
    }

    /// What the pair advised takes off the trim with all deflection that may be used, and the speed at which it does.
    #[must_use]
    pub fn relief(&self) -> Option<(Velocity, Likely<Angle>)> {
        let pair = self.advised.pair()?;
        Some((self.reliefs.as_ref()?.speed, self.relief_of(pair)?))
    }

    /// The same of another pair that was drawn.
    #[must_use]
    pub fn relief_of(&self, pair: PlanePair) -> Option<Likely<Angle>> {
        let found = self.reliefs.as_ref()?.pairs.iter().find(|(own, _)| *own == pair);
        found.and_then(|(_, likely)| *likely)
    }

    /// Deflection up to which the plate of the pair advised is above the bottom line.
    #[must_use]
    pub fn dead_band(&self) -> Option<Angle> {
        let pair = self.advised.pair()?;
        Some(effect::dead_band(self.boat().transom().hinge_height, pair.chord))
    }

    /// Whether there is anything that planes could be asked to do: not where she runs nowhere.
    #[must_use]
    pub fn is_asked(&self) -> bool {
        !self.size.suggestion.duties.is_empty()
    }

    /// Whether the answer is more than that nothing can be said, which [`Gathered::first`] says.
    #[must_use]
    pub fn is_said(&self) -> bool {
        self.size.suggestion.silence().is_none()
    }

    /// Whether the planes count as up at a deflection.
    #[must_use]
    pub fn is_up(&self, deflection: Angle) -> bool {
        self.dead_band().is_none_or(|band| deflection < band)
    }

    /// Whether anything but a level run is asked at the hump, in its loading condition.
    #[must_use]
    pub fn is_asked_at(&self, hump: &Hump) -> bool {
        let name = &self.size.boats[hump.loading].condition().name;
        let is_held =
            |held: &[String]| held.is_empty() || held.iter().any(|condition| condition == name);
        let holds =
            |duty: Duty| duty.list_cause().is_none() && duty.speeds().hold_at_hump(hump.speed);
        self.size.suggestion.duties.iter().any(|asked| is_held(&asked.held_in) && holds(asked.duty))
    }

    /// Whether the planes go deeper at the hump than what is asked there takes, because she runs easier so.
    #[must_use]
    pub fn is_eased(&self) -> bool {
        let Some(hump) = &self.hump else { return false };
        let name = &self.size.boats[hump.loading].condition().name;
        let asked = self.duties.needs.iter().filter(|need| need.condition == *name);
        let apart = |speed: Velocity| (speed - hump.speed).abs().get::<meter_per_second>();
        let nearest = asked.min_by(|a, b| apart(a.speed).total_cmp(&apart(b.speed)));
        nearest
            .and_then(|need| need.needed.median)
            .is_some_and(|needed| hump.deflection - needed > Angle::new::<degree>(EASED_DEG))
    }

    /// Whether the pair that is advised is the one she has.
    #[must_use]
    pub fn keeps(&self) -> bool {
        matches!(self.advised, Advised::Pair(pair) if self.boat().planes() == Some(pair))
    }

    /// Whether there are settings: not where she was seen to trim otherwise than she is described.
    #[must_use]
    pub fn has_settings(&self) -> bool {
        !self.size.suggestion.is_seen_otherwise()
    }

    /// Whether a pair is told that falls short of what is asked, and so is not advised.
    #[must_use]
    pub fn is_short(&self) -> bool {
        matches!(self.advised, Advised::Short(Some(_)))
    }

    /// Everything as it is; with planes up alone where there are no settings.
    #[must_use]
    pub fn as_set(&self) -> Cow<'_, Self> {
        if self.has_settings() {
            return Cow::Borrowed(self);
        }
        let hump = self.hump.clone().map(|hump| Hump { down: None, ..hump });
        Cow::Owned(Self { advised: Advised::Nothing, hump, ..self.clone() })
    }

    /// Place of the condition that sets the size; the first where none does.
    #[must_use]
    pub fn main_loading(&self) -> usize {
        main_loading(&self.size.boats, &self.size.suggestion)
    }

    /// What to do at each speed in the condition that sets the size.
    #[must_use]
    pub fn main_schedule(&self) -> &[ScheduleRow] {
        &self.schedules[self.main_loading()]
    }

    /// How likely the pair advised does every duty on boats nearly like this one; of the bare boat without one.
    #[must_use]
    pub fn chance(&self) -> Option<Probability> {
        self.chance_of(self.advised.pair())
    }

    /// The same of another pair that was drawn.
    #[must_use]
    pub fn chance_of(&self, pair: Option<PlanePair>) -> Option<Probability> {
        let found = self.duties.pairs.iter().find(|drawn| drawn.pair == pair);
        found.filter(|_| self.duties.is_of_something()).map(|drawn: &PairDoubt| drawn.all)
    }

    /// What a chance of all counts, in words that end a sentence on what the planes do.
    #[must_use]
    pub fn all_asked(&self) -> &'static str {
        match self.size.suggestion.is_all_judged() {
            true => "all that is asked",
            false => "what can be judged of what is asked",
        }
    }

    /// The boat in a condition with the pair advised.
    ///
    /// # Errors
    /// When she cannot be built with it.
    pub fn fitted(&self, loading: usize) -> Result<Boat, ReportError> {
        fitted(&self.size.boats[loading], self.advised.pair())
    }

    /// Whether the pair advised saves resistance in a condition, at a speed and a deflection; none where she does not run.
    #[must_use]
    pub fn saving(&self, loading: usize, speed: Velocity, deflection: Angle) -> Option<Saving> {
        let boat = self.fitted(loading).ok()?;
        Saving::at(&Balance::of(&boat, &self.size.settings), speed, deflection)
    }

    /// What a tank series says of the trim at the hump, in a plain sentence; none where it says nothing.
    #[must_use]
    pub fn second_opinion(&self) -> Option<Sentence> {
        let hump = self.hump.as_ref()?;
        let opinion = SecondOpinion::of(&hump.boat, &self.size.settings, &[hump.speed]).ok()?;
        second_opinion_sentence(&opinion, hump.speed, self.size.units)
    }

    /// The boat in a condition with the pair advised, at a speed and a deflection.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn point(
        &self,
        loading: usize,
        speed: Velocity,
        deflection: Angle,
    ) -> Result<Point, ReportError> {
        let boat = self.fitted(loading)?;
        Ok(Balance::of(&boat, &self.size.settings).point(speed, deflection)?)
    }
}

fn main_loading(boats: &[Boat], suggestion: &Suggestion) -> usize {
    let name = suggestion.governing.as_ref().map(|governing| &governing.condition);
    boats.iter().position(|boat| Some(&boat.condition().name) == name).unwrap_or(0)
}

fn fitted(boat: &Boat, pair: Option<PlanePair>) -> Result<Boat, ReportError> {
    Ok(boat.with_planes(pair).map_err(Fault::from)?)
}

/// Whole degrees, rounded down; what is computed a hair under a whole one is that one.
pub(super) fn whole_deg(deg: f64) -> f64 {
    (deg + 1e-6).floor()
}

/// Deflection of a row as it is told and set, in whole degrees: no less than is used there, where that
/// keeps a degree of room to what is safe, and never beyond what is safe.
pub(super) fn set_deg(row: &ScheduleRow) -> f64 {
    let [used_deg, safe_deg] = [row.deflection, row.largest_safe].map(degrees);
    let enough_deg = (used_deg - HARDLY_DEG).ceil();
    let is_roomy = used_deg <= safe_deg - 1.0 + 1e-6;
    let most_deg = whole_deg(if is_roomy { safe_deg - 1.0 } else { safe_deg });
    enough_deg.min(most_deg)
}

/// Less than this nobody sets, degrees.
const HARDLY_DEG: f64 = 0.05;

/// The boat drawn many times, with planes up and as advised, and where her bow is highest.
fn hump(
    boats: &[Boat],
    settings: &Settings,
    suggestion: &Suggestion,
    (pair, schedules): (Option<PlanePair>, &[Vec<ScheduleRow>]),
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<Option<Hump>, ReportError> {
    let loading = main_loading(boats, suggestion);
    let boat = fitted(&boats[loading], pair)?;
    let at = |deflection| {
        let request = Request { draws: drawn.draws, seed: drawn.seed, deflection };
        running(&boat, settings, &request, progress)
    };
    let up = at(Angle::new::<degree>(0.0))?;
    let at_hump = balance::Hump::of(&boat, settings).filter(|_| up.hump_trim.is_some());
    let Some(balance::Hump { speed, place: lies, .. }) = at_hump else { return Ok(None) };
    let row = ScheduleRow::nearest(&schedules[loading], speed);
    // Between two rows the smaller limit holds.
    let rows = &schedules[loading];
    let above = rows.partition_point(|row| row.speed < speed);
    let is_row = rows.get(above).is_some_and(|row| row.speed == speed);
    let about =
        rows.iter().take(above + 1).skip(if is_row { above } else { above.saturating_sub(1) });
    let most_deg =
        about.map(|row| whole_deg(degrees(row.largest_safe))).fold(f64::INFINITY, f64::min);
    let deflection = Angle::new::<degree>(row.map_or(0.0, |row| set_deg(row).min(most_deg)));
    let down = if pair.is_some() { Some(at(deflection)?) } else { None };
    Ok(Some(Hump { loading, boat, speed, lies, deflection, up, down }))
}
