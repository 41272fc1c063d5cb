//! All speeds at which a boat's duties bite, with the rules and the room: what sizes are tried on.

use std::cell::Cell;

use uom::si::{angle::degree, length::meter, ratio::ratio, velocity::meter_per_second};

use super::demand::{Demand, DemandKind, Need, Rules};
use super::duty::{RANGE_STEPS, demand, range, speeds_m_s};
use super::room::Room;
use super::site::Site;
use crate::balance::forces::{PlaneSize, Prism};
use crate::balance::sweep::planing_start;
use crate::boat::{Boat, Duty};
use crate::numeric::least_between;
use crate::plane::effect;

/// Strain up to which a size counts as doing all duties.
pub(crate) const FULL_STRAIN: f64 = 1.0 + 1e-6;

/// Strain from which a speed counts as overlooked.
const OVERLOOKED_STRAIN: f64 = 1.0 + 1e-5;

/// A demand with the range of speeds over which it holds, m/s.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Asked {
    pub demand: Demand,
    pub speeds_m_s: [f64; 2],
}

impl Asked {
    /// Whether it holds at a single speed.
    fn is_single(&self) -> bool {
        self.speeds_m_s[1] - self.speeds_m_s[0] < 1e-9
    }

    fn holds_at(&self, speed_m_s: f64) -> bool {
        let [from, to] = self.speeds_m_s;
        speed_m_s >= from - 1e-9 && speed_m_s <= to + 1e-9
    }
}

/// What sizes are tried on.
pub(crate) struct Bench<'a> {
    pub prism: &'a Prism,
    pub asked: Vec<Asked>,
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
    /// A bench for a boat on which nothing is asked yet.
    pub fn empty(boat: &'a Boat, prism: &'a Prism) -> Self {
        let sizing = boat.sizing();
        let transom = boat.transom();
        let rules = Rules {
            usable_deg: sizing.largest_deflection.get::<degree>(),
            share: sizing.share.get::<ratio>(),
            transom,
        };
        let room = Room {
            largest_span_m: transom.room().largest_span.get::<meter>(),
            smallest_chord_m: sizing.smallest_chord.get::<meter>(),
            // λ = 4 is the end of the lift equation's range.
            largest_chord_m: effect::LARGEST_TESTED_CHORD_SHARE * 4.0 * prism.beam_m,
            smallest_aspect: sizing.smallest_aspect,
            largest_aspect: sizing.largest_aspect,
        };
        Self {
            prism,
            asked: Vec::new(),
            sites: Vec::new(),
            watched: Vec::new(),
            rules,
            room,
            refused: Cell::new(0),
            last_root: Cell::new(None),
        }
    }

    /// A bench with the speeds at which some duties bite.
    pub fn new(boat: &'a Boat, prism: &'a Prism, duties: &[Duty]) -> Self {
        let mut bench = Self::empty(boat, prism);
        let start_m_s = planing_start(boat).get::<meter_per_second>();
        bench.asked = duties
            .iter()
            .enumerate()
            .map(|(place, duty)| bench.asked_by(duty, place, start_m_s))
            .collect();
        for asked in bench.asked.clone() {
            bench.add_speed(asked.speeds_m_s[0]);
            bench.add_speed(asked.speeds_m_s[1]);
        }
        bench.watch();
        bench
    }

    /// Whether the boat does every duty with planes up.
    pub fn bare_does_all(&self) -> bool {
        self.sites.iter().all(Site::is_idle)
    }

    /// Looks through the ranges of the duties; adds the speed of each at which a pair in the middle of the room is strained most.
    ///
    /// All of them when there is room for no pair.
    fn watch(&mut self) {
        let ranges: Vec<Asked> =
            self.asked.iter().filter(|asked| !asked.is_single()).copied().collect();
        for [from, to] in ranges.iter().map(|asked| asked.speeds_m_s) {
            let sites = range(from, to).map(|speed_m_s| self.site_at(speed_m_s));
            let needing: Vec<Site<'a>> = sites.filter(|site| !site.is_idle()).collect();
            self.watched.extend(needing);
        }
        let Some(size) = self.room.middle() else {
            self.sites.append(&mut self.watched);
            return;
        };
        let strains: Vec<[f64; 2]> = self
            .watched
            .iter()
            .map(|site| [site.bare.speed_m_s, site.need(size, &self.rules).strain])
            .collect();
        for asked in ranges {
            let inside = strains.iter().filter(|[speed_m_s, _]| asked.holds_at(*speed_m_s));
            if let Some([speed_m_s, _]) = inside.max_by(|a, b| a[1].total_cmp(&b[1])) {
                self.add_speed(*speed_m_s);
            }
        }
    }

    /// Has sizes judged at the speed, all through the ranges, that strains a size most, when it strains it too much; whether there was one.
    pub fn add_overlooked_speed(&mut self, size: PlaneSize) -> bool {
        let strain = |site: &Site<'_>| site.need(size, &self.rules).strain;
        let strains = self.watched.iter().map(|site| (site.bare.speed_m_s, strain(site)));
        let Some((speed_m_s, most)) = strains.max_by(|a, b| a.1.total_cmp(&b.1)) else {
            return false;
        };
        if most <= OVERLOOKED_STRAIN {
            return false;
        }
        let range = self.asked.iter().find(|asked| !asked.is_single() && asked.holds_at(speed_m_s));
        let step_m_s = range.map_or(0.0, |asked| {
            (asked.speeds_m_s[1] - asked.speeds_m_s[0]) / f64::from(RANGE_STEPS)
        });
        let slack = |speed_m_s: f64| -strain(&self.site_at(speed_m_s));
        let (below, above) = (speed_m_s - step_m_s, speed_m_s + step_m_s);
        let peak = least_between(below, above, 1e-3, slack).filter(|peak| -peak[1] > most);
        self.add_speed(peak.map_or(speed_m_s, |peak| peak[0]));
        true
    }

    /// What a duty asks for, and where.
    pub fn asked_by(&self, duty: &Duty, place: usize, start_m_s: f64) -> Asked {
        let mut demand = demand(duty, place);
        let speeds_m_s = speeds_m_s(duty, start_m_s);
        if let DemandKind::Resistance { at_most_n: factor } = demand.kind {
            let least_n = self.least_resistance_n(&Site::new(self.prism, speeds_m_s[0]));
            demand.kind = DemandKind::Resistance { at_most_n: factor * least_n };
        }
        Asked { demand, speeds_m_s }
    }

    /// A speed with everything that is asked for there.
    pub fn site_at(&self, speed_m_s: f64) -> Site<'a> {
        let mut site = Site::new(self.prism, speed_m_s);
        let here = self.asked.iter().filter(|asked| asked.holds_at(speed_m_s));
        site.demands.extend(here.map(|asked| asked.demand));
        site
    }

    /// Has sizes judged at one more speed.
    pub fn add_speed(&mut self, speed_m_s: f64) {
        let near = |site: &Site<'_>| (site.bare.speed_m_s - speed_m_s).abs() < 1e-9;
        if !self.sites.iter().any(near) {
            self.sites.push(self.site_at(speed_m_s));
        }
    }

    /// The same search for another boat or other settings, at the same speeds and with the same demands.
    pub fn with_prism<'b>(&self, prism: &'b Prism) -> Bench<'b>
    where
        'a: 'b,
    {
        Bench {
            prism,
            asked: self.asked.clone(),
            sites: self.sites.iter().map(|site| site.with_prism(prism)).collect(),
            watched: Vec::new(),
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
        let does = |place: usize| {
            let site = &self.sites[place];
            site.is_idle() || site.need(size, &self.rules).strain <= FULL_STRAIN
        };
        let first = self.refused.get();
        if first < self.sites.len() && !does(first) {
            return false;
        }
        let refused = (0..self.sites.len()).find(|&place| place != first && !does(place));
        if let Some(place) = refused {
            self.refused.set(place);
        }
        refused.is_none()
    }

    /// The site that strains a size most, with its strain.
    pub fn tightest(&self, size: PlaneSize) -> (usize, f64) {
        let mut tightest = (0, 0.0);
        for (place, site) in self.sites.iter().enumerate().filter(|(_, site)| !site.is_idle()) {
            let strain = site.need(size, &self.rules).strain;
            if strain > tightest.1 {
                tightest = (place, strain);
            }
        }
        tightest
    }

    /// The largest strain of a size over all sites.
    pub fn strain(&self, size: PlaneSize) -> f64 {
        self.tightest(size).1
    }
}
