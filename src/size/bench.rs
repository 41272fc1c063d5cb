//! All speeds at which a boat's duties ask most, with the rules and the room: what sizes are tried on.

use std::cell::Cell;

use uom::si::{angle::degree, length::meter, ratio::ratio};

use super::demand::{Demand, DemandKind, Need, Rules};
use super::duty::{RANGE_STEPS, demand, range, speeds_m_s};
use super::loaded::{Held, Loaded};
use super::reach::Shares;
use super::room::Room;
use super::site::Site;
use crate::balance::forces::PlaneSize;
use crate::boat::Duty;
use crate::numeric::least_between;

/// Utilisation up to which a size counts as doing all duties.
pub(crate) const FULL_UTILISATION: f64 = 1.0 + 1e-6;

/// Largest chord of a pair that may be suggested, in chine beams. Common practice, no source.
const LARGEST_CHORD_BEAMS: f64 = 0.18;

/// Utilisation from which a speed counts as overlooked.
const OVERLOOKED_UTILISATION: f64 = 1.0 + 1e-5;
/// Utilisation at a step of a range from which one that counts as overlooked may lie beside it.
const NEARLY_OVERLOOKED_UTILISATION: f64 = 1.0 - 2e-3;

/// A demand with the loading condition and the range of speeds, m/s, in which it holds.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HeldDemand {
    pub demand: Demand,
    pub loaded: usize,
    pub speeds_m_s: [f64; 2],
    /// Where the least resistance lies that it is held against; none where it is held against none.
    pub near: Option<Shares>,
}

impl HeldDemand {
    /// Whether it holds at a single speed.
    fn is_single(&self) -> bool {
        self.speeds_m_s[1] - self.speeds_m_s[0] < 1e-9
    }

    fn holds_at(&self, loaded: usize, speed_m_s: f64) -> bool {
        let [from, to] = self.speeds_m_s;
        self.loaded == loaded && speed_m_s >= from - 1e-9 && speed_m_s <= to + 1e-9
    }
}

/// What is known of a duty from a boat nearly like the one at hand.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Known {
    /// The speeds over which it holds.
    pub speeds_m_s: [f64; 2],
    /// Where the least resistance lies.
    pub near: Option<Shares>,
}

/// What sizes are tried on.
pub(crate) struct Bench<'a> {
    pub loaded: &'a [Loaded<'a>],
    pub asked: Vec<HeldDemand>,
    /// The speeds that sizes are judged at.
    pub sites: Vec<Site<'a>>,
    /// Speeds all through the ranges of the duties at which planes are needed; a size found is held against them.
    watched: Vec<Site<'a>>,
    pub rules: Rules<'a>,
    pub room: Room,
    /// The site that last refused a size; only saves work.
    refused: Cell<usize>,
    /// The site that the last least span was found at, with the area; only saves work.
    pub last_root: Cell<Option<(usize, f64)>>,
}

impl<'a> Bench<'a> {
    /// A bench for a boat in some loading conditions on which nothing is asked yet.
    ///
    /// The rules and the room are the same in all of them.
    pub fn empty(loaded: &'a [Loaded<'a>]) -> Self {
        let Loaded { boat, prism, .. } = &loaded[0];
        let sizing = boat.sizing();
        let room = Room {
            largest_span_m: boat.transom().room().largest_span.get::<meter>(),
            smallest_chord_m: sizing.smallest_chord.get::<meter>(),
            largest_chord_m: LARGEST_CHORD_BEAMS * prism.beam_m,
            smallest_aspect: sizing.smallest_aspect,
            largest_aspect: sizing.largest_aspect,
        };
        Self::with_room(loaded, room)
    }

    /// The same where it is known which sizes may be suggested.
    pub fn with_room(loaded: &'a [Loaded<'a>], room: Room) -> Self {
        let boat = &loaded[0].boat;
        let sizing = boat.sizing();
        let rules = Rules {
            usable_deg: sizing.largest_deflection.get::<degree>(),
            share: sizing.share.get::<ratio>(),
            transom: boat.transom(),
        };
        Self {
            loaded,
            asked: Vec::new(),
            sites: Vec::new(),
            watched: Vec::new(),
            rules,
            room,
            refused: Cell::new(0),
            last_root: Cell::new(None),
        }
    }

    /// A bench with the speeds at which some duties ask most.
    pub fn new(loaded: &'a [Loaded<'a>], duties: &[Held]) -> Self {
        let mut bench = Self::empty(loaded);
        for (index, held) in duties.iter().enumerate() {
            let asked = held.loaded.iter().map(|&loaded| bench.asked_by(&held.duty, index, loaded));
            let asked: Vec<HeldDemand> = asked.collect();
            bench.asked.extend(asked);
        }
        for asked in bench.asked.clone() {
            bench.add_speed(asked.loaded, asked.speeds_m_s[0]);
            bench.add_speed(asked.loaded, asked.speeds_m_s[1]);
        }
        bench.watch();
        bench
    }

    /// Whether the boat does every duty with planes up.
    pub fn bare_does_all(&self) -> bool {
        self.sites.iter().all(Site::is_idle)
    }

    /// Looks through the ranges of the duties; adds the speed of each at which a pair in the middle of the room is used most.
    ///
    /// All of them when there is room for no pair.
    fn watch(&mut self) {
        let ranges: Vec<HeldDemand> =
            self.asked.iter().filter(|asked| !asked.is_single()).copied().collect();
        for asked in &ranges {
            let [from, to] = asked.speeds_m_s;
            let sites = range(from, to).map(|speed_m_s| self.site_at(asked.loaded, speed_m_s));
            let needing: Vec<Site<'a>> = sites.filter(|site| !site.is_idle()).collect();
            self.watched.extend(needing);
        }
        let Some(size) = self.room.middle() else {
            self.sites.append(&mut self.watched);
            return;
        };
        let utilisation = |site: &Site<'_>| site.utilisation(size, &self.rules);
        let utilisations: Vec<(usize, f64, f64)> = self
            .watched
            .iter()
            .map(|site| (site.loaded, site.bare.speed_m_s, utilisation(site)))
            .collect();
        for asked in ranges {
            let inside = utilisations.iter().filter(|here| asked.holds_at(here.0, here.1));
            if let Some((loaded, speed_m_s, _)) = inside.max_by(|a, b| a.2.total_cmp(&b.2)) {
                self.add_speed(*loaded, *speed_m_s);
            }
        }
    }

    /// Has sizes judged at the speed of each loading condition, all through the ranges, that asks most of a size, when it asks too much of it; whether there was one.
    pub fn add_overlooked_speed(&mut self, size: PlaneSize) -> bool {
        let overlooked: Vec<(usize, f64)> = (0..self.loaded.len())
            .filter_map(|own| Some((own, self.overlooked(own, size)?)))
            .collect();
        for &(loaded, speed_m_s) in &overlooked {
            self.add_speed(loaded, speed_m_s);
        }
        !overlooked.is_empty()
    }

    /// The speed of a loading condition that asks most of a size, where that is too much: between the steps of its range where a step comes near to it.
    fn overlooked(&self, loaded: usize, size: PlaneSize) -> Option<f64> {
        let own = self.watched.iter().filter(|site| site.loaded == loaded);
        let utilisations = own.map(|site| (site, site.utilisation(size, &self.rules)));
        let (site, most) = utilisations.max_by(|a, b| a.1.total_cmp(&b.1))?;
        if most <= NEARLY_OVERLOOKED_UTILISATION {
            return None;
        }
        let speed_m_s = site.bare.speed_m_s;
        let holds = |asked: &&HeldDemand| !asked.is_single() && asked.holds_at(loaded, speed_m_s);
        let step_m_s = self.asked.iter().find(holds).map_or(0.0, |asked| {
            (asked.speeds_m_s[1] - asked.speeds_m_s[0]) / f64::from(RANGE_STEPS)
        });
        let slack =
            |speed_m_s: f64| -self.site_at(loaded, speed_m_s).utilisation(size, &self.rules);
        let peak = least_between(speed_m_s - step_m_s, speed_m_s + step_m_s, 1e-3, slack)
            .filter(|peak| -peak[1] > most)
            .unwrap_or([speed_m_s, -most]);
        (-peak[1] > OVERLOOKED_UTILISATION).then_some(peak[0])
    }

    /// What a duty asks for in a loading condition, and where.
    ///
    /// The least resistance is that of the condition. A moment to be levelled
    /// comes on top of what her own weight off the centreline gives, on
    /// whichever side that lies: people change sides.
    pub fn asked_by(&self, duty: &Duty, index: usize, loaded: usize) -> HeldDemand {
        let speeds_m_s = speeds_m_s(duty, &self.loaded[loaded]);
        self.asked_with(duty, index, loaded, speeds_m_s, |site| self.least_resistance(site))
    }

    /// The same with the least resistance that a boat nearly like one already asked about reaches.
    pub fn asked_near(&self, duty: &Duty, index: usize, loaded: usize, known: Known) -> HeldDemand {
        self.asked_with(duty, index, loaded, known.speeds_m_s, |site| {
            (self.least_resistance_near_n(site, known.near), known.near)
        })
    }

    fn asked_with(
        &self,
        duty: &Duty,
        index: usize,
        loaded: usize,
        speeds_m_s: [f64; 2],
        least_resistance: impl Fn(&Site<'_>) -> (f64, Option<Shares>),
    ) -> HeldDemand {
        let own = &self.loaded[loaded];
        let mut demand = demand(duty, index);
        let mut near = None;
        match &mut demand.kind {
            DemandKind::Resistance { at_most_n } => {
                let site = Site::new(loaded, &own.prism, speeds_m_s[0]);
                let least_n;
                (least_n, near) = least_resistance(&site);
                *at_most_n *= least_n;
            }
            DemandKind::List { moment_n_m } => {
                *moment_n_m += own.own_list_n_m().copysign(*moment_n_m);
            }
            DemandKind::Relief { .. } | DemandKind::Trim { .. } | DemandKind::Margin { .. } => {}
        }
        HeldDemand { demand, loaded, speeds_m_s, near }
    }

    /// A speed in a loading condition with everything that is asked for there.
    pub fn site_at(&self, loaded: usize, speed_m_s: f64) -> Site<'a> {
        let mut site = Site::new(loaded, &self.loaded[loaded].prism, speed_m_s);
        let here = self.asked.iter().filter(|asked| asked.holds_at(loaded, speed_m_s));
        site.demands.extend(here.map(|asked| asked.demand));
        site
    }

    /// Has sizes judged at one more speed in a loading condition.
    pub fn add_speed(&mut self, loaded: usize, speed_m_s: f64) {
        let near = |site: &Site<'_>| {
            site.loaded == loaded && (site.bare.speed_m_s - speed_m_s).abs() < 1e-9
        };
        if !self.sites.iter().any(near) {
            self.sites.push(self.site_at(loaded, speed_m_s));
        }
    }

    /// The same bench with what is asked in one loading condition alone.
    pub fn only(&self, loaded: usize) -> Self {
        let keep = |sites: &[Site<'a>]| {
            sites.iter().filter(|site| site.loaded == loaded).cloned().collect()
        };
        Bench {
            loaded: self.loaded,
            asked: self.asked.iter().filter(|asked| asked.loaded == loaded).copied().collect(),
            sites: keep(&self.sites),
            watched: keep(&self.watched),
            rules: self.rules,
            room: self.room,
            refused: Cell::new(0),
            last_root: Cell::new(None),
        }
    }

    /// Every speed looked at: those sizes are judged at, and those all through the ranges.
    pub fn all_sites(&self) -> impl Iterator<Item = &Site<'a>> {
        self.sites.iter().chain(&self.watched)
    }

    /// What a size needs at every site.
    pub fn needs(&self, size: PlaneSize) -> Vec<Need> {
        self.sites.iter().map(|site| site.need(size, &self.rules)).collect()
    }

    /// Whether a size does all duties.
    ///
    /// The site that last said no is asked first.
    pub fn does_all(&self, size: PlaneSize) -> bool {
        let does = |index: usize| {
            let site = &self.sites[index];
            site.is_idle() || site.utilisation(size, &self.rules) <= FULL_UTILISATION
        };
        let first = self.refused.get();
        if first < self.sites.len() && !does(first) {
            return false;
        }
        let refused = (0..self.sites.len()).find(|&index| index != first && !does(index));
        if let Some(index) = refused {
            self.refused.set(index);
        }
        refused.is_none()
    }

    /// The site that asks most of a size, with its utilisation.
    pub fn tightest(&self, size: PlaneSize) -> (usize, f64) {
        let mut tightest = (0, 0.0);
        for (index, site) in self.sites.iter().enumerate().filter(|(_, site)| !site.is_idle()) {
            let utilisation = site.utilisation(size, &self.rules);
            if utilisation > tightest.1 {
                tightest = (index, utilisation);
            }
        }
        tightest
    }

    /// The largest utilisation of a size over all sites.
    pub fn utilisation(&self, size: PlaneSize) -> f64 {
        self.tightest(size).1
    }
}
