//! Flags: what a reader must know before trusting a number.
//!
//! A point that leaves the range an equation was tested in is still computed,
//! and flagged; the flag reaches every output under its own stable word.

use std::fmt;

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

/// What closes every output.
pub const CAUTION: &str = "An estimate for planing hulls running straight in calm water, from published tank tests; \
boats differ, and planes above all. Confirm it by a sea trial at moderate speed with room around, try planes in small \
steps, and raise them before a following sea. Follow the boat builder and the local rules; for a boat on which lives \
depend, have a naval architect check it.";

/// The same in one line, for a short answer.
pub const CAUTION_IN_SHORT: &str = "An estimate: try it gently; planes up in a following sea.";

/// What a flag says of a number: that the run is dangerous, that nobody tested it, or that it is rough.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Standing {
    /// The run itself is dangerous. Only this limits how far planes may go, and can fail a size.
    Danger,
    /// Outside what was tested: the number may be off. It limits nothing.
    Untested,
    /// Inside what was tested, and rough or held at an end.
    Rough,
}

impl Standing {
    /// All of them, the gravest first.
    pub const ALL: [Self; 3] = [Self::Danger, Self::Untested, Self::Rough];

    /// The one word for it in every output.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Danger => "danger",
            Self::Untested => "untested",
            Self::Rough => "rough",
        }
    }

    /// The word, and after it the stable word of what is flagged.
    #[must_use]
    pub fn label(self, flagged: &str) -> String {
        format!("{} ({flagged})", self.word())
    }
}

/// One reason to read a number with care.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
#[non_exhaustive]
pub enum Flag {
    /// Cv above 13, the end of the lift equation's range.
    SpeedBeyondTested,
    /// Trim under 2°: below the lift equation's range, and where the bow digs and steers.
    TrimUnderTwo,
    /// λ above 4.
    WettedLengthBeyondTested,
    /// Deadrise above 30°.
    DeadriseBeyondTested,
    /// Angle between chine and keel above 1.66°, or below 0.
    WarpBeyondTested,
    /// The chine runs dry ahead of the transom.
    ChineDry,
    /// The wetted keel is longer than the planing bottom.
    KeelBeyondBottom,
    /// Cv under 2 with the stagnation line too close to the keel for the wetted-length equation.
    WettedLengthsUncertain,
    /// The mean bottom speed left the range of its equation.
    BottomSpeedLimited,
    /// Reynolds number under that of a turbulent friction line.
    FrictionNotTurbulent,
    /// F∇ under 1, where the hump factor is held.
    HumpFactorHeld,
    /// The whisker spray left the range of its formula or was bound by the bottom.
    SprayLimited,
    /// Trim above the lower porpoising limit.
    PorpoisingExpected,
    /// Off the Day & Haag curves: their end value stands in.
    PorpoisingCurveClamped,
    /// The porpoising limit lies under the 2° floor: no safe trim by these curves.
    NoSafeTrim,
    /// The only balance found is one that the boat leaves when disturbed.
    PitchUnstable,
    /// Plane deflection above 15°.
    PlaneDeflectionBeyondTested,
    /// Trim above 10° with planes down.
    PlaneTrimBeyondTested,
    /// Cv outside 2 to 7 with planes down.
    PlaneSpeedBeyondTested,
    /// Plane chord above a tenth of the mean wetted length.
    PlaneChordBeyondTested,
    /// Planes as wide together as the beam or wider: no such pair was tested.
    PlaneSpanBeyondTested,
    /// The planes carry half of the weight or more.
    PlanesCarryHalf,
    /// A heel angle from the rough estimate of roll stiffness.
    HeelRoughlyEstimated,
    /// The hull lies outside the models behind the pre-planing regression.
    PrePlaningFormBeyondTested,
    /// Something on which accelerations in waves depend lies outside the tests.
    WavesBeyondTested,
    /// Shuford's lift where the static term added to it carries much.
    StaticLiftLarge,
    /// The flow off the chines meets vertical sides again.
    SidesWet,
    /// Power and top speed imply a propulsive efficiency that is not believed of a propeller.
    EfficiencyNotBelievable,
    /// Rounds of looking for an overlooked speed ran out: the size was not held against every speed of its duties.
    SizeNotRechecked,
    /// What was seen on the water is further from the boat as described than boats like her come.
    SeenDoesNotFit,
}

impl Flag {
    /// All flags, in the order they are printed.
    pub const ALL: [Self; 30] = [
        Self::SpeedBeyondTested,
        Self::TrimUnderTwo,
        Self::WettedLengthBeyondTested,
        Self::DeadriseBeyondTested,
        Self::WarpBeyondTested,
        Self::ChineDry,
        Self::KeelBeyondBottom,
        Self::WettedLengthsUncertain,
        Self::BottomSpeedLimited,
        Self::FrictionNotTurbulent,
        Self::HumpFactorHeld,
        Self::SprayLimited,
        Self::PorpoisingExpected,
        Self::PorpoisingCurveClamped,
        Self::NoSafeTrim,
        Self::PitchUnstable,
        Self::PlaneDeflectionBeyondTested,
        Self::PlaneTrimBeyondTested,
        Self::PlaneSpeedBeyondTested,
        Self::PlaneChordBeyondTested,
        Self::PlaneSpanBeyondTested,
        Self::PlanesCarryHalf,
        Self::HeelRoughlyEstimated,
        Self::PrePlaningFormBeyondTested,
        Self::WavesBeyondTested,
        Self::StaticLiftLarge,
        Self::SidesWet,
        Self::EfficiencyNotBelievable,
        Self::SizeNotRechecked,
        Self::SeenDoesNotFit,
    ];

    /// The stable word in JSON and CSV.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::SpeedBeyondTested => "speed-beyond-tested",
            Self::TrimUnderTwo => "trim-under-two",
            Self::WettedLengthBeyondTested => "wetted-length-beyond-tested",
            Self::DeadriseBeyondTested => "deadrise-beyond-tested",
            Self::WarpBeyondTested => "warp-beyond-tested",
            Self::ChineDry => "chine-dry",
            Self::KeelBeyondBottom => "keel-beyond-bottom",
            Self::WettedLengthsUncertain => "wetted-lengths-uncertain",
            Self::BottomSpeedLimited => "bottom-speed-limited",
            Self::FrictionNotTurbulent => "friction-not-turbulent",
            Self::HumpFactorHeld => "hump-factor-held",
            Self::SprayLimited => "spray-limited",
            Self::PorpoisingExpected => "porpoising-expected",
            Self::PorpoisingCurveClamped => "porpoising-curve-clamped",
            Self::NoSafeTrim => "no-safe-trim",
            Self::PitchUnstable => "pitch-unstable",
            Self::PlaneDeflectionBeyondTested => "plane-deflection-beyond-tested",
            Self::PlaneTrimBeyondTested => "plane-trim-beyond-tested",
            Self::PlaneSpeedBeyondTested => "plane-speed-beyond-tested",
            Self::PlaneChordBeyondTested => "plane-chord-beyond-tested",
            Self::PlaneSpanBeyondTested => "plane-span-beyond-tested",
            Self::PlanesCarryHalf => "planes-carry-half",
            Self::HeelRoughlyEstimated => "heel-roughly-estimated",
            Self::PrePlaningFormBeyondTested => "pre-planing-form-beyond-tested",
            Self::WavesBeyondTested => "waves-beyond-tested",
            Self::StaticLiftLarge => "static-lift-large",
            Self::SidesWet => "sides-wet",
            Self::EfficiencyNotBelievable => "efficiency-not-believable",
            Self::SizeNotRechecked => "size-not-rechecked",
            Self::SeenDoesNotFit => "seen-does-not-fit",
        }
    }

    /// What it says of the number.
    #[must_use]
    pub const fn standing(self) -> Standing {
        match self {
            Self::TrimUnderTwo | Self::PitchUnstable | Self::PorpoisingExpected => Standing::Danger,
            Self::SpeedBeyondTested
            | Self::WettedLengthBeyondTested
            | Self::DeadriseBeyondTested
            | Self::WarpBeyondTested
            | Self::KeelBeyondBottom
            | Self::PorpoisingCurveClamped
            | Self::NoSafeTrim
            | Self::PlaneDeflectionBeyondTested
            | Self::PlaneTrimBeyondTested
            | Self::PlaneSpeedBeyondTested
            | Self::PlaneChordBeyondTested
            | Self::PlaneSpanBeyondTested
            | Self::PlanesCarryHalf
            | Self::PrePlaningFormBeyondTested
            | Self::WavesBeyondTested => Standing::Untested,
            Self::ChineDry
            | Self::WettedLengthsUncertain
            | Self::BottomSpeedLimited
            | Self::FrictionNotTurbulent
            | Self::HumpFactorHeld
            | Self::SprayLimited
            | Self::HeelRoughlyEstimated
            | Self::StaticLiftLarge
            | Self::SidesWet
            | Self::EfficiencyNotBelievable
            | Self::SizeNotRechecked
            | Self::SeenDoesNotFit => Standing::Rough,
        }
    }

    /// Whether it speaks of the porpoising curve alone, on which trim, resistance and list do not depend.
    #[must_use]
    pub const fn is_of_porpoising(self) -> bool {
        matches!(self, Self::PorpoisingExpected | Self::PorpoisingCurveClamped | Self::NoSafeTrim)
    }

    /// What was not tested, as a name in a list; none where all was.
    #[must_use]
    pub const fn untested_subject(self) -> Option<&'static str> {
        match self {
            Self::SpeedBeyondTested => Some("so fast a hull"),
            Self::WettedLengthBeyondTested => Some("so long and narrow a hull"),
            Self::DeadriseBeyondTested => Some("so deep a V"),
            Self::WarpBeyondTested => Some("a bottom with so much warp"),
            Self::KeelBeyondBottom => Some("the curved bow in the water"),
            Self::PorpoisingCurveClamped => Some("the porpoising limit"),
            Self::NoSafeTrim => Some("any trim by the porpoising curve"),
            Self::PlaneDeflectionBeyondTested => Some("planes so far down"),
            Self::PlaneTrimBeyondTested => Some("planes with the bow so high"),
            Self::PlaneSpeedBeyondTested => Some("planes at such speeds"),
            Self::PlaneChordBeyondTested => Some("planes of so long a chord"),
            Self::PlaneSpanBeyondTested => Some("planes of so wide a span"),
            Self::PlanesCarryHalf => Some("planes that carry half the boat"),
            Self::PrePlaningFormBeyondTested => Some("such a hull before planing"),
            Self::WavesBeyondTested => Some("such waves"),
            _ => None,
        }
    }

    /// What was not tested, in half a sentence without numbers of the trade; none where all was.
    #[must_use]
    pub const fn untested(self) -> Option<&'static str> {
        match self {
            Self::SpeedBeyondTested => Some("no hull was tested so fast for its beam"),
            Self::WettedLengthBeyondTested => {
                Some("no hull was tested so long and narrow in the water")
            }
            Self::DeadriseBeyondTested => Some("no hull was tested with so deep a V"),
            Self::WarpBeyondTested => {
                Some("no bottom was tested whose V changes so much along her length")
            }
            Self::KeelBeyondBottom => {
                Some("the curved bow is in the water, and straight bottoms were tested")
            }
            Self::PorpoisingCurveClamped => {
                Some("the porpoising curve ends before this weight, speed or deadrise")
            }
            Self::NoSafeTrim => {
                Some("by the porpoising curve no trim of 2 deg or more is free of it")
            }
            Self::PlaneDeflectionBeyondTested => Some("planes were not tested so far down"),
            Self::PlaneTrimBeyondTested => Some("planes were not tested with the bow so high"),
            Self::PlaneSpeedBeyondTested => {
                Some("planes were not tested at this speed for her beam")
            }
            Self::PlaneChordBeyondTested => {
                Some("planes were not tested with so long a chord for the wetted bottom")
            }
            Self::PlaneSpanBeyondTested => {
                Some("planes were not tested wider together than the bottom")
            }
            Self::PlanesCarryHalf => Some("planes were not tested carrying half the boat or more"),
            Self::PrePlaningFormBeyondTested => Some("no such hull was tested before planing"),
            Self::WavesBeyondTested => Some("no such hull was tested in such waves"),
            _ => None,
        }
    }

    /// One sentence for a person.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::SpeedBeyondTested => {
                "Cv is above 13; the lift equation was tested from 0.6 to 13 (Savitsky 1964)."
            }
            Self::TrimUnderTwo => {
                "Trim is under 2 deg: below the tested range, and where a bow digs and steers. Never advised."
            }
            Self::WettedLengthBeyondTested => {
                "The mean wetted length is more than 4 beams; the lift equation was tested to 4 (Savitsky 1964)."
            }
            Self::DeadriseBeyondTested => {
                "Deadrise is above 30 deg; the lift equation was tested to 30 (Savitsky 1964)."
            }
            Self::WarpBeyondTested => {
                "Chine and keel are not within 0 and 1.66 deg of each other; one warped bottom was tested, with 1.66 deg (Brown 1971 in Savitsky & Brown 1976)."
            }
            Self::ChineDry => {
                "The chine runs dry ahead of the transom; only part of the beam carries load, and the equations assume all of it does."
            }
            Self::KeelBeyondBottom => {
                "The wetted keel is longer than the planing bottom: the curved bow is in the water, and the equations know only a straight bottom."
            }
            Self::WettedLengthsUncertain => {
                "Below Cv 2 at this deadrise and trim the wetted-length equation breaks down (Savitsky 1964); keel and chine lengths are uncertain."
            }
            Self::BottomSpeedLimited => {
                "The mean bottom speed left the range of its equation and was held at zero; friction is too low."
            }
            Self::FrictionNotTurbulent => {
                "The Reynolds number is under 1e5, where the friction lines do not hold."
            }
            Self::HumpFactorHeld => {
                "F∇ is under 1, where the hump factor was not measured; its value near 1 stands in."
            }
            Self::SprayLimited => {
                "The whisker spray formula left its range or was bound by the length of the bottom."
            }
            Self::PorpoisingExpected => {
                "Trim is above the lower porpoising limit: the boat may porpoise."
            }
            Self::PorpoisingCurveClamped => {
                "The point lies off the Day & Haag curves (square root of half the lift coefficient from 0.13 to 0.30, deadrise to 20 deg); their end value stands in."
            }
            Self::NoSafeTrim => {
                "The lower porpoising limit is under 2 deg: by these curves no trim is safe at this speed and loading."
            }
            Self::PitchUnstable => {
                "The only balance found is unstable in pitch: disturbed, the bow goes on falling or rising. Never advised."
            }
            Self::PlaneDeflectionBeyondTested => {
                "Plane deflection is above 15 deg, the most that was tested (Savitsky & Brown 1976)."
            }
            Self::PlaneTrimBeyondTested => {
                "Trim is above 10 deg with planes down; they were tested to 10 (Savitsky & Brown 1976)."
            }
            Self::PlaneSpeedBeyondTested => {
                "Cv is outside 2 to 7, where planes were tested (Savitsky & Brown 1976); one pair was tested down to 1.06 (Gaylo & Roske 2019)."
            }
            Self::PlaneChordBeyondTested => {
                "The plane's chord is more than a tenth of the mean wetted length, the most that was tested (Savitsky & Brown 1976)."
            }
            Self::PlaneSpanBeyondTested => {
                "The planes together are wider than the chine beam; no such pair was tested (Savitsky & Brown 1976)."
            }
            Self::PlanesCarryHalf => {
                "The planes carry half of her weight or more: the equations of planing bottoms are for boats that the bottom carries, and none was tested so."
            }
            Self::HeelRoughlyEstimated => {
                "The heel angle is a rough estimate: the buoyant part of the lift rights her as it would afloat, for the rest each half of the bottom stands at its own deadrise, heel apart (after Lewandowski 1996, from memory); no published example was at hand to check it. It may be half or twice as much."
            }
            Self::PrePlaningFormBeyondTested => {
                "The hull lies outside the models behind the pre-planing regression (Mercier & Savitsky 1973): length over cube root of volume 3.07 to 12.4, half entrance 3.7 to 28.6 deg, length over beam 2.52 to 18.26, beam over draft 1.7 to 9.8, transom area ratio to 1. It gives no number there."
            }
            Self::WavesBeyondTested => {
                "Displacement, length, deadrise, trim, wave height or speed lies outside the primary range of the equations in waves (Savitsky & Brown 1976, from Fridsma 1971); acceleration and added resistance are extrapolated, and their ranges may be too narrow. Each such quantity is named with its range."
            }
            Self::StaticLiftLarge => {
                "More than a quarter of the lift is the static term, which was added to Shuford's equations of fast planing from memory; a wrong coefficient there shows in the lift."
            }
            Self::SidesWet => {
                "The flow off the chines meets vertical sides again (Savitsky & Brown 1976). Their friction is estimated, shown beside the resistance and not in it; chine flats and spray rails may throw the water clear."
            }
            Self::EfficiencyNotBelievable => {
                "Power and top speed of the boat file imply a propulsive efficiency outside 25 to 75 %, which is not believed of a propeller; the nearer end is used. Check power, top speed and mass."
            }
            Self::SizeNotRechecked => {
                "The search for the speed that asks most of the planes ran out of rounds: at some speed of its duties the size may use a little more than the share that it may."
            }
            Self::SeenDoesNotFit => {
                "The trim seen on the water does not fit the boat as described: fewer than one in fifty boats like her would show it. Check the reading, LCG and mass before relying on any number."
            }
        }
    }
}

impl Flag {
    /// What it says of the number, and its stable word: `untested (keel-beyond-bottom)`.
    #[must_use]
    pub fn label(self) -> String {
        self.standing().label(self.word())
    }

    /// The line for it in every printed output.
    #[must_use]
    pub fn line(self) -> String {
        format!("{}: {}", self.label(), self.meaning())
    }
}

impl fmt::Display for Flag {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// A set of flags.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Flags(u32);

impl Flags {
    /// No flag.
    pub const NONE: Self = Self(0);

    /// Adds a flag.
    pub const fn insert(&mut self, flag: Flag) {
        self.0 |= 1 << flag as u32;
    }

    /// Adds a flag when a condition holds.
    pub const fn insert_if(&mut self, condition: bool, flag: Flag) {
        if condition {
            self.insert(flag);
        }
    }

    /// Whether a flag is set.
    #[must_use]
    pub const fn contains(self, flag: Flag) -> bool {
        self.0 & (1 << flag as u32) != 0
    }

    /// Whether none is set.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// All flags of both.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Those that say one thing of a number.
    #[must_use]
    pub fn of(self, standing: Standing) -> Self {
        self.only(|flag| flag.standing() == standing)
    }

    /// Those that a test holds for.
    #[must_use]
    pub fn only(self, wanted: impl Fn(Flag) -> bool) -> Self {
        let mut found = Self::NONE;
        self.iter().filter(|&flag| wanted(flag)).for_each(|flag| found.insert(flag));
        found
    }

    /// The flags set, in order.
    pub fn iter(self) -> impl Iterator<Item = Flag> {
        Flag::ALL.into_iter().filter(move |&flag| self.contains(flag))
    }

    /// The stable words of the flags set.
    #[must_use]
    pub fn words(self) -> Vec<&'static str> {
        self.iter().map(Flag::word).collect()
    }
}

impl FromIterator<Flag> for Flags {
    fn from_iter<I: IntoIterator<Item = Flag>>(flags: I) -> Self {
        let mut all = Self::NONE;
        flags.into_iter().for_each(|flag| all.insert_if(true, flag));
        all
    }
}

/// All of them, and of these those that say danger and those that say untested; flattened into the result that they belong to.
impl Serialize for Flags {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(3))?;
        self.entries(&mut map)?;
        map.end()
    }
}

impl Flags {
    /// Writes them into the object of the result that they belong to.
    pub(crate) fn entries<M: SerializeMap>(self, map: &mut M) -> Result<(), M::Error> {
        map.serialize_entry("flags", &self.words())?;
        for standing in [Standing::Danger, Standing::Untested] {
            map.serialize_entry(standing.word(), &self.of(standing).words())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::{Flag, Flags, Standing};

    #[test]
    fn regression_every_flag_has_its_own_kebab_case_word_and_its_own_bit() {
        let mut seen = std::collections::BTreeSet::new();
        for (index, flag) in Flag::ALL.into_iter().enumerate() {
            assert_eq!(flag as usize, index);
            assert!(seen.insert(flag.word()));
            assert!(flag.word().chars().all(|c| c.is_ascii_lowercase() || c == '-'));
            let mut flags = Flags::default();
            flags.insert(flag);
            assert_eq!(flags.words(), [flag.word()]);
            assert_eq!(flag.untested().is_some(), flag.standing() == Standing::Untested);
        }
    }
}
