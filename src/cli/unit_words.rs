//! The units of an output as words of the command line, taken from the one table of units.

use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};

use crate::units::{ForceUnit, LengthUnit, PowerUnit, SpeedUnit, UnitSystem};

/// Reads `--units`.
pub(super) fn system() -> impl TypedValueParser<Value = UnitSystem> {
    one_of(UnitSystem::ALL, UnitSystem::word, UnitSystem::about)
}

/// Reads `--speed-unit`.
pub(super) fn speed() -> impl TypedValueParser<Value = SpeedUnit> {
    one_of(SpeedUnit::ALL, SpeedUnit::symbol, SpeedUnit::name)
}

/// Reads `--force-unit`.
pub(super) fn force() -> impl TypedValueParser<Value = ForceUnit> {
    one_of(ForceUnit::ALL, ForceUnit::symbol, ForceUnit::name)
}

/// Reads `--power-unit`.
pub(super) fn power() -> impl TypedValueParser<Value = PowerUnit> {
    one_of(PowerUnit::ALL, PowerUnit::symbol, PowerUnit::name)
}

/// Reads `--length-unit`.
pub(super) fn length() -> impl TypedValueParser<Value = LengthUnit> {
    one_of(LengthUnit::ALL, LengthUnit::symbol, LengthUnit::name)
}

/// One of these, by its word; the help says beside each what it is.
fn one_of<T: Copy + Send + Sync + 'static>(
    all: &'static [T],
    word: fn(T) -> &'static str,
    about: fn(T) -> &'static str,
) -> impl TypedValueParser<Value = T> {
    let words = all.iter().map(|&one| PossibleValue::new(word(one)).help(about(one)));
    PossibleValuesParser::new(words).map(move |given| {
        let named = all.iter().copied().find(|&one| word(one) == given);
        named.expect("only the words above are let through")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_the_words_are_the_symbols_and_nothing_else_is_taken() {
        let words: Vec<String> = speed()
            .possible_values()
            .expect("the words are known")
            .map(|word| word.get_name().to_owned())
            .collect();
        assert_eq!(words, ["kn", "mph", "km/h", "m/s"]);
        let command = clap::Command::new("planewright");
        let read = |word: &str| speed().parse_ref(&command, None, word.as_ref()).ok();
        for unit in SpeedUnit::ALL {
            assert_eq!(read(unit.symbol()), Some(*unit));
        }
        assert_eq!(read("knots"), None);
        assert_eq!(read("KN"), None);
    }
}
