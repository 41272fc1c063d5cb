//! A form that says how planes were fitted: the tables `[[as_fitted]]` in a file of their own.

use std::path::Path;

use super::read::{parse_boat, read_text, tree_of};
use crate::boat::AsFitted;
use crate::error::{FileError, FileFault, FileFaults, shown_name};

/// Some boat, so that the tables are read and checked as in a boat file.
const ANY_BOAT: &str = "\n[hull]\nbottom_length = \"8 m\"\nchine_beam = \"2.5 m\"\ndeadrise = \"15 deg\"\n\
    [weight]\nmass = \"3 t\"\nlcg = \"3 m\"\n[planes]\nspan = \"600 mm\"\nchord = \"225 mm\"\n";
/// The table that a form holds.
const TABLE: &str = "as_fitted";

/// Reads and checks a form.
///
/// # Errors
/// [`FileError`] for a file that cannot be read, for whatever is wrong in its tables, for other
/// tables, and for a form in which nothing was filled in.
pub fn read_as_fitted(path: &Path) -> Result<Vec<AsFitted>, FileError> {
    Ok(parse_as_fitted(&shown_name(path), &read_text(path)?)?)
}

/// The same of a text; `name` stands for the file in messages.
///
/// # Errors
/// As [`read_as_fitted`].
pub fn parse_as_fitted(name: &str, text: &str) -> Result<Vec<AsFitted>, FileFaults> {
    let tree = tree_of(name, text)?;
    let others = tree.get_ref().iter().filter(|(key, _)| key.get_ref().as_ref() != TABLE);
    let faults: Vec<FileFault> = others
        .map(|(key, _)| FileFault {
            problem: format!(
                "`{}` has no place in a form that says how planes were fitted",
                crate::units::quoted(key.get_ref())
            ),
            help: "leave the tables [[as_fitted]] alone; `planewright mark --form` prints them"
                .to_owned(),
            place: Some(key.span()),
        })
        .collect();
    if !faults.is_empty() {
        return Err(FileFaults::new(name, text, faults));
    }
    let whole = format!("{text}{ANY_BOAT}");
    let found = parse_boat(name, &whole)?.boat.input().as_fitted.clone();
    let is_filled = |one: &AsFitted| {
        let lengths = [one.from_chine, one.hinge_height, one.gauge_height];
        let angles = [one.angle_up, one.angle_down];
        lengths.iter().any(Option::is_some) || angles.iter().any(Option::is_some)
    };
    if !found.iter().any(is_filled) {
        let fault = FileFault {
            problem: "nothing is filled in".to_owned(),
            help: "take the sign # away from what was measured, and write the figure with its unit"
                .to_owned(),
            place: None,
        };
        return Err(FileFaults::new(name, text, vec![fault]));
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problem(text: &str) -> String {
        parse_as_fitted("form.toml", text).expect_err("a fault").plain_text()
    }

    #[test]
    fn error_a_form_names_what_is_wrong_with_its_line() {
        let text = "[[as_fitted]]\nside = \"port\"\nhinge_height = \"7 furlongs\"\n";
        let told = problem(text);
        assert!(
            told.contains("form.toml") && told.contains('3') && told.contains("furlongs"),
            "{told}"
        );
        assert!(problem("[hull]\nchine_beam = \"2 m\"\n").contains("`hull` has no place"));
        assert!(problem("[[as_fitted]]\nside = \"port\"\n").contains("nothing is filled in"));
        assert!(problem("# nothing\n").contains("nothing is filled in"));
        let far = "[[as_fitted]]\nside = \"port\"\nangle_down = \"90 deg\"\n";
        assert!(problem(far).contains("outside"), "{}", problem(far));
    }
}
