//! What to write instead of an argument that a command does not take.

use clap::Error;
use clap::builder::StyledStr;
use clap::error::{ContextKind, ContextValue, ErrorKind};

/// The error with what to write instead, where that is known.
pub(super) fn added(mut error: Error) -> Error {
    if error.kind() == ErrorKind::UnknownArgument
        && let Some(ContextValue::String(argument)) = error.get(ContextKind::InvalidArg)
        && let Some(tip) = tip(argument)
    {
        let tip = ContextValue::StyledStrs(vec![StyledStr::from(tip)]);
        error.insert(ContextKind::Suggested, tip);
        error.remove(ContextKind::SuggestedArg);
    }
    error
}

fn tip(argument: &str) -> Option<&'static str> {
    let name = argument.split('=').next().unwrap_or(argument);
    match name {
        "-o" | "--output" => {
            Some("results go to the terminal; `> FILE` keeps them, `report` takes --out")
        }
        "--csv" => Some("this command prints no table; `run`, `size` and others take --csv"),
        _ if name.starts_with('-') => None,
        _ if name.ends_with(".toml") => {
            Some("one boat at a time: ask once for each, or put loadings into her file")
        }
        _ if name.ends_with(".csv") => Some("a stock list goes behind --stock"),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_usual_slips_are_told_what_to_write() {
        for argument in ["-o", "--output=x", "--csv", "other.toml", "planes.csv"] {
            assert!(tip(argument).is_some(), "{argument}");
        }
        assert_eq!(tip("--speeed"), None);
    }
}
