//! A list at every speed that is asked for: how the planes level it, and what one out of action does.

use serde::Serialize;
use uom::si::f64::{Angle, Velocity};

use super::{ListPoint, ListStudy, SettingPoint, Stuck, StuckPoint, Verdict};
use crate::balance::Settings;
use crate::balance::sweep::few_speeds;
use crate::boat::{Boat, Fault, ListCause, PlanePair, Side};
use crate::field::si;
use crate::units::SpeedUnit;

/// Most rows of a table when no speeds are asked for.
const MOST_ROWS: usize = 14;

/// What is asked about levelling her.
#[derive(Clone, Debug, PartialEq)]
pub struct ListRequest {
    /// What heels her beyond the load table, wind and propellers.
    pub causes: Vec<ListCause>,
    /// Whether a list duty is among them.
    pub from_duty: bool,
    /// Whether that duty was generated, since the boat file gives none.
    pub duty_generated: bool,
    /// Where things are told in short.
    pub reference: Velocity,
    /// Speeds of the tables.
    pub speeds: Vec<Velocity>,
    /// Mean deflection to keep while levelling, as far as that goes.
    pub mean: Angle,
    /// Planes in place of her own, port first; they need not be alike.
    pub planes: Option<[PlanePair; 2]>,
    /// A setting of both planes to look at as well, port first.
    pub setting: Option<[Angle; 2]>,
    /// The plane that does not move, and where it stands, fully down when that is not said; the worse one down when absent.
    pub stuck: Option<(Side, Option<Angle>)>,
}

impl ListRequest {
    /// What is asked when nobody asks for anything: her largest list duty, given or generated, at its speed, and whole steps of a unit of speed.
    #[must_use]
    pub fn usual(boat: &Boat, unit: SpeedUnit) -> Self {
        let cruise = boat.drive().cruise();
        let generated = boat.person_at_rail().map(|cause| (cause, boat.drive().cruise_asked()));
        let duty = largest_duty(boat).or(generated);
        Self {
            causes: duty.iter().map(|duty| duty.0).collect(),
            from_duty: duty.is_some(),
            duty_generated: generated.is_some(),
            reference: duty.map_or(cruise, |duty| duty.1),
            speeds: few_speeds(boat, unit, MOST_ROWS),
            mean: Angle::default(),
            planes: None,
            setting: None,
            stuck: None,
        }
    }

    /// The same with other causes of list in place of the duty, at three quarters of top speed.
    #[must_use]
    pub fn with_causes(mut self, boat: &Boat, causes: Vec<ListCause>) -> Self {
        self.causes = causes;
        (self.from_duty, self.duty_generated) = (false, false);
        self.reference = boat.drive().cruise();
        self
    }

    /// The boat with what heels her and her planes, ready to be asked.
    ///
    /// # Errors
    /// As [`ListStudy::new`].
    pub fn study<'a>(&self, boat: &'a Boat, settings: &Settings) -> Result<ListStudy<'a>, Fault> {
        let study = ListStudy::new(boat, settings, &self.causes)?.with_mean(self.mean);
        Ok(match self.planes {
            Some(planes) => study.with_planes(planes),
            None => study,
        })
    }
}

/// The list duty with the largest moment, and its speed.
fn largest_duty(boat: &Boat) -> Option<(ListCause, Velocity)> {
    let lists = boat.duties().iter().filter_map(|duty| {
        let (_, speed) = duty.speeds().slowest_given()?;
        Some((duty.list_cause()?, speed))
    });
    let size = |cause: ListCause| cause.moment_n_m().abs();
    lists.max_by(|a, b| size(a.0).total_cmp(&size(b.0)))
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Levelled {
    /// Whether a list duty is among what heels her.
    pub from_duty: bool,
    /// Whether that duty was generated, since the boat file gives none.
    pub duty_generated: bool,
    /// Her planes, port first.
    pub planes: Option<[PlanePair; 2]>,
    /// Where things are told in short.
    pub reference: ListPoint,
    /// Every speed.
    pub points: Vec<ListPoint>,
    /// Slowest and fastest speeds at which the planes level her: where least is needed, and where most is.
    pub from_to: [Option<[Velocity; 2]>; 2],
    /// The setting asked for, at each speed.
    pub set: Vec<SettingPoint>,
    /// One plane out of action; none without planes.
    pub stuck: Option<StuckAnswer>,
}

/// One plane out of action.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StuckAnswer {
    /// The plane that does not move.
    #[serde(flatten)]
    pub stuck: Stuck,
    /// Every speed.
    pub points: Vec<StuckPoint>,
    /// Slowest and fastest speeds at which the other can stand beside it with a safe run.
    #[serde(rename = "beside_from_to_m_s", serialize_with = "si")]
    pub matched: Option<[Velocity; 2]>,
    /// The same at which the other levels all that heels her.
    #[serde(rename = "balanced_from_to_m_s", serialize_with = "si")]
    pub balanced: Option<[Velocity; 2]>,
}

impl Levelled {
    /// The answer of a study ([`ListRequest::study`]).
    ///
    /// # Errors
    /// As [`ListStudy::at`].
    pub fn of(study: &ListStudy<'_>, asked: &ListRequest) -> Result<Self, Fault> {
        let speeds = &asked.speeds;
        let reference = study.at(asked.reference)?;
        let set = match asked.setting {
            Some(setting) => each(speeds, |speed| study.with_setting(speed, setting))?,
            None => Vec::new(),
        };
        Ok(Self {
            from_duty: asked.from_duty,
            duty_generated: asked.duty_generated,
            planes: study.planes(),
            points: speeds.iter().map(|&speed| study.at(speed)).collect::<Result<_, _>>()?,
            from_to: study.levelled_speeds()?,
            set,
            stuck: stuck(study, asked, &reference)?,
            reference,
        })
    }

    /// Whether there is a list that the planes level at none of the speeds.
    #[must_use]
    pub fn cannot(&self) -> bool {
        let verdicts =
            || self.points.iter().filter_map(|point| Some(point.levelling.as_ref()?.verdict));
        verdicts().next().is_some() && verdicts().all(|verdict| verdict == Verdict::TooLittle)
    }
}

/// One answer for each speed that has one.
fn each<T>(
    speeds: &[Velocity],
    answer: impl Fn(Velocity) -> Result<Option<T>, Fault>,
) -> Result<Vec<T>, Fault> {
    let all = speeds.iter().map(|&speed| answer(speed)).collect::<Result<Vec<_>, Fault>>()?;
    Ok(all.into_iter().flatten().collect())
}

/// The plane asked for, or the one whose sticking down adds to the list.
fn stuck(
    study: &ListStudy<'_>,
    asked: &ListRequest,
    reference: &ListPoint,
) -> Result<Option<StuckAnswer>, Fault> {
    if study.planes().is_none() {
        return Ok(None);
    }
    let worse = if reference.moment[0].value < 0.0 { Side::Starboard } else { Side::Port };
    let (side, deflection) = asked.stuck.unwrap_or((worse, None));
    let deflection = deflection.unwrap_or(study.boat.sizing().largest_deflection);
    let stuck = Stuck { side, deflection };
    Ok(Some(StuckAnswer {
        stuck,
        points: each(&asked.speeds, |speed| study.with_stuck(speed, stuck))?,
        matched: study.matched_speeds(stuck)?,
        balanced: study.balanced_speeds(stuck)?,
    }))
}
