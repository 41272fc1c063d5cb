//! Round axis ticks and the way from a value to its place on an axis.
//!
//! Steps are 1, 2 or 5 times a power of ten. Very large or small values are
//! written with a power of ten taken out, which the axis label then carries.

/// Values beyond this size are left out of a chart, as gaps are.
pub(super) const LARGEST_VALUE: f64 = 1e300;

/// Ranges narrower than this part of their values are widened: f64 cannot
/// resolve ticks inside them.
const NARROWEST_RANGE: f64 = 1e-9;

/// Air left beyond the outermost values before an automatic range is rounded,
/// in parts of the range.
const HEADROOM: f64 = 0.03;

/// A range this close to zero, in parts of its far end, is drawn from zero.
const NEAR_ZERO: f64 = 0.4;

/// Whether a value can be drawn.
pub(super) fn drawable(value: f64) -> bool {
    value.abs() <= LARGEST_VALUE
}

/// Which automatic range suits an axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fit {
    /// Ends at the next small step: lines run the full width (x axis).
    Tight,
    /// Ends at round ticks, from zero where zero is near (y axis).
    Round,
}

/// An axis with its ticks.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Scale {
    pub from: f64,
    pub to: f64,
    /// Distance between numbered ticks.
    pub step: f64,
    /// Distance between small ticks.
    pub small_step: f64,
    /// Power of ten taken out of the numbers.
    pub exponent: i32,
}

impl Scale {
    /// An axis over exactly this range, with about `wanted` numbered ticks.
    pub fn fixed(from: f64, to: f64, wanted: f64) -> Self {
        let (from, to) = widened(from, to);
        let (step, parts) = round_step((to - from) / wanted);
        let largest = from.abs().max(to.abs());
        let exponent = if (1e-2..1e6).contains(&largest) {
            0
        } else {
            (largest.log10() / 3.0).floor() as i32 * 3
        };
        Self {
            from,
            to,
            step,
            small_step: step / parts,
            exponent,
        }
    }

    /// An axis around the drawable ones of these values; 0 to 1 when there are none.
    pub fn around(values: impl Iterator<Item = f64>, wanted: f64, fit: Fit) -> Self {
        let (mut from, mut to) = values
            .filter(|v| drawable(*v))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
                (low.min(v), high.max(v))
            });
        if from > to {
            (from, to) = (0.0, 1.0);
        }
        if fit == Fit::Round && from < to {
            if from > 0.0 && from <= NEAR_ZERO * to {
                from = 0.0;
            } else if to < 0.0 && to >= NEAR_ZERO * from {
                to = 0.0;
            }
            let air = HEADROOM * (to - from);
            from -= if from == 0.0 { 0.0 } else { air };
            to += if to == 0.0 { 0.0 } else { air };
        }
        let first = Self::fixed(from, to, wanted);
        let unit = match fit {
            Fit::Tight => first.small_step,
            Fit::Round => first.step,
        };
        // The slack keeps an end that is round already from moving one step out.
        let slack = 1e-6;
        let low = (first.from / unit + slack).floor() * unit;
        let high = (first.to / unit - slack).ceil() * unit;
        Self {
            step: first.step,
            small_step: first.small_step,
            ..Self::fixed(low, high, wanted)
        }
    }

    /// Place of a value along the axis: 0 at its start, 1 at its end.
    pub fn fraction(&self, value: f64) -> f64 {
        (value - self.from) / (self.to - self.from)
    }

    /// The numbered ticks.
    pub fn ticks(&self) -> Vec<f64> {
        self.multiples(self.step)
    }

    /// All small ticks, those at numbers included.
    pub fn small_ticks(&self) -> Vec<f64> {
        self.multiples(self.small_step)
    }

    fn multiples(&self, step: f64) -> Vec<f64> {
        let slack = 1e-6;
        let first = (self.from / step - slack).ceil();
        let last = (self.to / step + slack).floor();
        let count = (last - first).clamp(0.0, 500.0) as usize;
        (0..=count).map(|i| (first + i as f64) * step).collect()
    }

    /// The number written at a tick, with the power of ten taken out.
    pub fn number(&self, tick: f64) -> String {
        let shift = 10.0_f64.powi(self.exponent);
        let decimals = -(self.step / shift).log10().floor();
        format_number(tick / shift, decimals.clamp(0.0, 9.0) as usize)
    }

    /// A value near this axis, one digit finer than its small ticks.
    pub fn value_in_words(&self, value: f64) -> String {
        let decimals = (1.0 - self.small_step.log10().floor()).clamp(0.0, 9.0);
        if (1e-6..1e9).contains(&value.abs()) || value == 0.0 {
            format_number(value, decimals as usize)
        } else {
            format!("{value:.3e}")
        }
    }
}

/// A number with a true minus sign and thin spaces between thousands from 10 000 on.
pub(super) fn format_number(value: f64, decimals: usize) -> String {
    let digits = format!("{:.*}", decimals, value.abs());
    let (whole, rest) = digits.split_at(digits.find('.').unwrap_or(digits.len()));
    let mut grouped = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && whole.len() > 4 && (whole.len() - i).is_multiple_of(3) {
            grouped.push('\u{2009}');
        }
        grouped.push(digit);
    }
    let is_zero = digits.chars().all(|c| c == '0' || c == '.');
    let sign = if value < 0.0 && !is_zero { "−" } else { "" };
    format!("{sign}{grouped}{rest}")
}

/// A power of ten in raised digits, such as 10⁶.
pub(super) fn power_of_ten(exponent: i32) -> String {
    let raised = |c: char| match c {
        '-' => '⁻',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        '0' => '⁰',
        digit => char::from_u32(0x2070 + digit.to_digit(10).unwrap_or(0)).unwrap_or(digit),
    };
    let digits: String = exponent.to_string().chars().map(raised).collect();
    format!("10{digits}")
}

/// The one of 1, 2, 5 and 10 times a power of ten nearest in ratio, and into
/// how many small steps it is parted.
fn round_step(wanted: f64) -> (f64, f64) {
    let power = 10.0_f64.powf(wanted.log10().floor());
    let head = wanted / power;
    for (step, next, parts) in [(1.0, 2.0, 5.0), (2.0, 5.0, 4.0), (5.0, 10.0, 5.0)] {
        if head * head <= step * next {
            return (step * power, parts);
        }
    }
    (10.0 * power, 5.0)
}

/// The range itself, or one wide enough for ticks around it.
fn widened(from: f64, to: f64) -> (f64, f64) {
    let largest = from.abs().max(to.abs());
    if to - from > NARROWEST_RANGE * largest && to - from > f64::MIN_POSITIVE * 1e9 {
        return (from, to);
    }
    let middle = from / 2.0 + to / 2.0;
    let half = if largest > 1e-280 { 0.1 * largest } else { 1.0 };
    (middle - half, middle + half)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(scale: &Scale) -> Vec<String> {
        scale.ticks().iter().map(|t| scale.number(*t)).collect()
    }

    #[test]
    fn practice_ticks_are_round() {
        let scale = Scale::around([5.0, 31.0].into_iter(), 7.0, Fit::Tight);
        assert_eq!((scale.from, scale.to), (5.0, 31.0));
        assert_eq!(numbers(&scale), ["5", "10", "15", "20", "25", "30"]);
        let scale = Scale::around([0.7, 6.3].into_iter(), 7.0, Fit::Round);
        assert_eq!(
            numbers(&scale),
            ["0", "1", "2", "3", "4", "5", "6", "7"],
            "{scale:?}"
        );
        let scale = Scale::around([-0.23, 0.31].into_iter(), 6.0, Fit::Round);
        assert_eq!(
            numbers(&scale),
            ["−0.3", "−0.2", "−0.1", "0.0", "0.1", "0.2", "0.3", "0.4"]
        );
    }

    #[test]
    fn practice_large_numbers_are_grouped_or_scaled() {
        assert_eq!(format_number(-12500.0, 0), "−12\u{2009}500");
        assert_eq!(format_number(1250.0, 0), "1250");
        assert_eq!(format_number(-0.001, 1), "0.0");
        let scale = Scale::around([0.0, 4.2e7].into_iter(), 6.0, Fit::Round);
        assert_eq!(scale.exponent, 6);
        assert_eq!(numbers(&scale)[1], "10");
        assert_eq!(power_of_ten(-12), "10⁻¹²");
        assert_eq!(power_of_ten(6), "10⁶");
    }

    #[test]
    fn error_odd_ranges_still_give_a_usable_axis() {
        let odd: [&[f64]; 9] = [
            &[],
            &[0.0],
            &[7.0, 7.0],
            &[f64::NAN],
            &[f64::INFINITY, 3.0],
            &[-1e300, 1e300],
            &[1e16, 1e16 + 2.0],
            &[1e-310, 2e-310],
            &[1e-200, 1e200],
        ];
        for values in odd {
            for fit in [Fit::Tight, Fit::Round] {
                let scale = Scale::around(values.iter().copied(), 6.0, fit);
                assert!(scale.from < scale.to, "{values:?}: {scale:?}");
                let ticks = scale.ticks();
                assert!((2..=25).contains(&ticks.len()), "{values:?}: {ticks:?}");
                assert!(ticks.iter().all(|t| t.is_finite()));
                assert!(scale.fraction(scale.to) == 1.0);
            }
        }
    }
}
