//! The duties of a boat asked of pairs on boats nearly like her.
//!
//! The speeds at which sizes are judged are those that ask most of the boat as
//! described, with one more in the middle of each range; the judging is that of a sizing, and a
//! resistance is held against the least that the boat drawn reaches herself.

use std::borrow::Cow;

use super::bench::{Bench, Known};
use super::demand::{Demand, DemandKind, Rules};
use super::loaded::{Asking, Loaded};
use super::room::Room;
use super::site::{FARTHEST_DEG, Site};
use crate::balance::forces::{Forces, PlaneSize};
use crate::balance::{Settings, TRIM_FLOOR_DEG};
use crate::boat::Fault;

/// Lack up to which a size counts as able: rounding alone.
const ABLE: f64 = 1e-6;

/// Speed between the ends of a duty's range that is judged on every boat beside those that ask most of the one described, as a share of it.
const BETWEEN: f64 = 0.5;

/// The duties of a boat in some loading conditions, ready to be asked on boats nearly like her.
pub(crate) struct AskedOfDraws {
    pub asking: Asking,
    /// Index of the condition and speed in m/s of everything that is judged, in this order.
    pub speeds_m_s: Vec<(usize, f64)>,
    /// Bare trim of the boat as described at each of these; none where she does not run.
    bare_deg: Vec<Option<f64>>,
    /// Largest usable deflection, degrees.
    pub usable_deg: f64,
    /// Indices of [`Self::speeds_m_s`], the hardest on the boat as described first; it only saves work.
    order: Vec<usize>,
    room: Room,
    /// For each duty in each condition in which it holds: its speeds on the boat as described, and where her least resistance lies; none where a duty is of another kind.
    known: Vec<Known>,
    /// Of each duty whether nobody can judge it on the boat as described: it is left out of every chance.
    pub unjudged: Vec<bool>,
}

impl AskedOfDraws {
    /// The duties of the boat file, or those generated for the boat as described.
    pub fn of(loaded: &[Loaded<'_>], settings: &Settings) -> Result<Self, Fault> {
        let asking = Asking::of(loaded, settings)?;
        let mut bench = Bench::new(loaded, &asking.duties);
        for asked in bench.asked.clone() {
            let [from, to] = asked.speeds_m_s;
            if to > from {
                bench.add_speed(asked.loaded, from + BETWEEN * (to - from));
            }
        }
        let speed = |site: &Site<'_>| (site.loaded, site.bare.speed_m_s);
        let mut speeds_m_s: Vec<(usize, f64)> = bench.sites.iter().map(speed).collect();
        speeds_m_s.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let known = bench
            .asked
            .iter()
            .map(|asked| Known { speeds_m_s: asked.speeds_m_s, near: asked.near });
        let bare_deg = speeds_m_s.iter().map(|&(loaded, speed_m_s)| {
            Some(bench.site_at(loaded, speed_m_s).settle_bare()?.trim_deg)
        });
        let bare_deg = bare_deg.collect();
        let (known, usable_deg) = (known.collect(), bench.rules.usable_deg);
        let room = bench.room;
        let unjudged = bench.unjudged(asking.duties.len());
        let mut described = Self {
            order: (0..speeds_m_s.len()).collect(),
            speeds_m_s,
            bare_deg,
            usable_deg,
            room,
            known,
            unjudged,
            asking,
        };
        if let Some(middle) = room.middle() {
            described.order = described.on(loaded).bench.hardest_first(middle.chord_m);
        }
        Ok(described)
    }

    /// The same duties on another boat in the same conditions.
    ///
    /// She settles as far from the trim of the boat described as she did at the last speed, or
    /// nearly: each is looked for from there.
    pub fn on<'b>(&'b self, loaded: &'b [Loaded<'b>]) -> OnDraw<'b> {
        let mut bench = Bench::with_room(loaded, self.room);
        let duties = self.asking.duties.iter().enumerate();
        let all =
            duties.flat_map(|(index, held)| held.loaded.iter().map(move |&own| (index, held, own)));
        for ((index, held, own), known) in all.zip(&self.known) {
            let asked = bench.asked_near(&held.duty, index, own, *known);
            bench.asked.push(asked);
        }
        let mut off_deg = 0.0;
        for (&(own, speed_m_s), &bare_deg) in self.speeds_m_s.iter().zip(&self.bare_deg) {
            let mut site = bench.site_at(own, speed_m_s);
            site.bare_near_deg = bare_deg.map(|bare_deg| bare_deg + off_deg);
            if let (Some(bare), Some(bare_deg)) = (site.settle_bare().copied(), bare_deg) {
                off_deg = bare.trim_deg - bare_deg;
                for demand in &mut site.demands {
                    demand.kind = on_another(demand.kind, bare_deg, bare.trim_deg);
                }
            }
            bench.sites.push(site);
        }
        OnDraw { bench, order: &self.order, unjudged: &self.unjudged }
    }

    /// Another boat in the same conditions, to be asked [again](Self::again) and again.
    pub fn settled<'b>(&self, loaded: Vec<Loaded<'b>>) -> Settled<'b> {
        let sites = self.on(&loaded).settled();
        Settled { loaded, sites }
    }

    /// A boat on which they were asked before: what she does with planes up is asked no more.
    pub fn again<'b>(&'b self, known: &'b Settled<'b>) -> OnDraw<'b> {
        let mut bench = Bench::with_room(&known.loaded, self.room);
        let sites = self.speeds_m_s.iter().zip(&known.sites);
        bench.sites = sites
            .map(|(&(own, speed_m_s), (undone, bare))| {
                Site::settled(own, &known.loaded[own].prism, speed_m_s, undone.clone(), *bare)
            })
            .collect();
        OnDraw { bench, order: &self.order, unjudged: &self.unjudged }
    }

    /// The demand of each duty that holds at an index of [`Self::speeds_m_s`], by the largest that a size lacks on the boat as described; none where nothing is asked.
    pub fn hardest(&self, described: &OnDraw<'_>, index: usize, size: PlaneSize) -> Option<usize> {
        let site = &described.bench.sites[index];
        let lack = |demand: &&Demand| {
            site.lack_of(size, &described.bench.rules, std::iter::once(demand.kind))
        };
        let undone = site.demands.iter().filter(|demand| !site.bare_does(demand.kind));
        undone.max_by(|a, b| lack(a).total_cmp(&lack(b))).map(|demand| demand.duty)
    }

    /// Index of the speed of largest bare trim of a condition among those judged.
    pub fn hump_index(&self, described: &OnDraw<'_>, loaded: usize) -> Option<usize> {
        let sites = described.bench.sites.iter().enumerate();
        let own = sites.filter(|(_, site)| site.loaded == loaded);
        let trim = |site: &Site<'_>| site.settle_bare().map(|forces| forces.trim_deg);
        own.filter_map(|(index, site)| Some((index, trim(site)?)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(index, _)| index)
    }

    /// Least and largest span that fits a chord; none when no plane of that chord may be suggested.
    pub fn span_ends_m(&self, chord_m: f64) -> Option<[f64; 2]> {
        self.room.spans_m(chord_m)
    }

    /// Chords in whole steps of the sizes that may be suggested.
    pub fn chords_m(&self, step_m: f64) -> Vec<f64> {
        self.room.chords_in_steps_m(step_m)
    }

    /// Spans in whole steps that may be suggested with a chord, from one on.
    pub fn spans_m(
        &self,
        chord_m: f64,
        from_m: f64,
        step_m: f64,
    ) -> impl Iterator<Item = f64> + use<> {
        self.room.spans_in_steps_m(chord_m, from_m, step_m)
    }
}

/// What is asked where a boat nearly like the one described trims so much with planes up.
///
/// Nobody takes off so much that the trim falls below 2°: where that is left on the boat described,
/// less is asked of one that trims less.
fn on_another(kind: DemandKind, described_deg: f64, trim_deg: f64) -> DemandKind {
    match kind {
        DemandKind::Relief { at_least_deg } if described_deg - at_least_deg >= TRIM_FLOOR_DEG => {
            let most_deg = (trim_deg - TRIM_FLOOR_DEG - ABLE).max(0.0);
            DemandKind::Relief { at_least_deg: at_least_deg.min(most_deg) }
        }
        other => other,
    }
}

/// One boat drawn, with what she answers whatever the pair.
pub(crate) struct Settled<'a> {
    loaded: Vec<Loaded<'a>>,
    /// At each speed that is judged what she does not do with planes up, and where she settles then; none where she does not run.
    sites: Vec<(Vec<Demand>, Option<Forces>)>,
}

impl Settled<'_> {
    /// Whether the boat does every duty with planes up.
    pub fn bare_does_all(&self) -> bool {
        self.sites.iter().all(|(undone, _)| undone.is_empty())
    }
}

/// The duties on one boat drawn.
pub(crate) struct OnDraw<'b> {
    bench: Bench<'b>,
    order: &'b [usize],
    unjudged: &'b [bool],
}

impl<'b> OnDraw<'b> {
    /// Whether each of so many duties is done by a pair, or by the bare boat, in every condition in which it holds; and whether all are that can be judged.
    ///
    /// `usable_deg` is how far down the pair can be put at each speed that is judged, in their order, where that is less than the boat file allows.
    pub fn judged(
        &self,
        size: Option<PlaneSize>,
        usable_deg: Option<&[f64]>,
        duties: usize,
    ) -> (Vec<bool>, bool) {
        let mut each = vec![true; duties];
        let mut all = true;
        for (index, site) in self.bench.sites.iter().enumerate() {
            let site = self.judged_site(site);
            if site.is_idle() {
                continue;
            }
            let rules = self.rules_within(usable_deg.map(|usable_deg| usable_deg[index]));
            let all_here = size.is_some_and(|size| site.lack(size, &rules) <= ABLE);
            all &= all_here;
            for demand in site.demands.iter().filter(|_| !all_here) {
                each[demand.duty] &= match size {
                    Some(_) if site.demands.len() == 1 => false,
                    Some(size) => site.lack_of(size, &rules, std::iter::once(demand.kind)) <= ABLE,
                    None => site.bare_does(demand.kind),
                };
            }
        }
        (each, all)
    }

    /// The rules for a pair that can be put down only so far.
    fn rules_within(&self, usable_deg: Option<f64>) -> Rules<'_> {
        let rules = self.bench.rules;
        let usable_deg = usable_deg.map_or(rules.usable_deg, |own| own.min(rules.usable_deg));
        Rules { usable_deg, ..rules }
    }

    /// A speed with what can be judged there alone.
    fn judged_site<'s>(&self, site: &'s Site<'b>) -> Cow<'s, Site<'b>> {
        let is_judged = |demand: &Demand| !self.unjudged[demand.duty];
        if site.demands.iter().all(is_judged) {
            return Cow::Borrowed(site);
        }
        let mut judged = site.clone();
        judged.demands.retain(is_judged);
        Cow::Owned(judged)
    }

    /// Whether a pair does all duties that can be judged.
    pub fn does_all(&self, size: PlaneSize) -> bool {
        let mut sites = self.order.iter().map(|&index| self.judged_site(&self.bench.sites[index]));
        // Where nothing of what is asked can be judged, nothing is.
        sites.all(|site| site.is_idle() || site.lack(size, &self.bench.rules) <= ABLE)
    }

    /// Whether a pair does all duties, as far as each can be judged on this boat, in each of so many conditions.
    pub fn does_in_each(&self, size: PlaneSize, conditions: usize) -> Vec<bool> {
        let mut does = vec![true; conditions];
        for site in self.order.iter().map(|&index| &self.bench.sites[index]) {
            let does = &mut does[site.loaded];
            *does = *does && site.lack(size, &self.bench.rules) <= ABLE;
        }
        does
    }

    /// Whether a pair does all duties that can be judged when it can be put down only so far at each speed that is judged, in their order.
    pub fn does_all_within(&self, size: PlaneSize, usable_deg: &[f64]) -> bool {
        self.bench.sites.iter().zip(usable_deg).all(|(site, &usable_deg)| {
            let site = self.judged_site(site);
            let rules = self.rules_within(Some(usable_deg));
            site.is_idle() || site.lack(size, &rules) <= ABLE
        })
    }

    /// What she answers whatever the pair.
    fn settled(&self) -> Vec<(Vec<Demand>, Option<Forces>)> {
        let of_site = |site: &Site<'_>| {
            let undone = site.demands.iter().filter(|demand| !site.bare_does(demand.kind));
            (undone.copied().collect(), site.settle_bare().copied())
        };
        self.bench.sites.iter().map(of_site).collect()
    }

    /// The least span that does what is asked with a chord, at each speed that is judged; infinite where none that fits does.
    ///
    /// Only the largest of each condition is exact: see [`Bench::least_spans_m`].
    pub fn least_spans_m(&self, chord_m: f64) -> Vec<f64> {
        self.bench.least_spans_m(chord_m, self.order)
    }

    /// What all usable deflection of a pair takes off the trim at a speed that is judged, degrees; not a number where she does not run.
    ///
    /// `usable_deg` is how far down the pair can be put there, where that is less than the boat file allows. No further than to 2° of trim.
    pub fn relief_deg(&self, index: usize, size: PlaneSize, usable_deg: Option<f64>) -> f64 {
        let site = &self.bench.sites[index];
        let Some(bare) = site.settle_bare() else { return f64::NAN };
        let deflection_deg = site.safe_deg(size).min(self.rules_within(usable_deg).allowed_deg());
        site.settle(size, deflection_deg).map_or(f64::NAN, |down| bare.trim_deg - down.trim_deg)
    }

    /// Deflection of the deeper plane that does all at each speed that is judged; infinite where no deflection does.
    pub fn needed_deg(&self, size: PlaneSize) -> Vec<f64> {
        let needed = |site: &Site<'b>| {
            let site = self.judged_site(site);
            if site.is_idle() {
                return 0.0;
            }
            let need = site.need(size, &self.bench.rules);
            let is_possible = need.demands.iter().all(|demand| demand.possible);
            let used_deg = need.used_deg();
            if is_possible && used_deg < FARTHEST_DEG { used_deg } else { f64::INFINITY }
        };
        self.bench.sites.iter().map(needed).collect()
    }

    /// How much a pair is used at most by what can be judged: 1 is only just able.
    pub fn utilisation(&self, size: PlaneSize) -> f64 {
        let judged = self.bench.sites.iter().map(|site| self.judged_site(site));
        let strained = judged.filter(|site| !site.is_idle());
        strained.map(|site| site.utilisation(size, &self.bench.rules)).fold(0.0, f64::max)
    }
}

#[cfg(test)]
impl OnDraw<'_> {
    /// Most resistance that each such duty allows, as it is asked and as a full search would ask it, N.
    pub fn resistance_limits_n(&self, asking: &Asking) -> Vec<[f64; 2]> {
        let limit = |demand: DemandKind| match demand {
            DemandKind::Resistance { at_most_n } => Some(at_most_n),
            _ => None,
        };
        let both = self.bench.asked.iter().filter_map(|asked| {
            let duty = &asking.duties[asked.demand.duty].duty;
            let full = self.bench.asked_by(duty, asked.demand.duty, asked.loaded);
            Some([limit(asked.demand.kind)?, limit(full.demand.kind)?])
        });
        both.collect()
    }
}
