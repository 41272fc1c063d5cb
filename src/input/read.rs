//! Reads a boat file: bytes, text, TOML, boat.

use std::fs::File;
use std::io::Read;
use std::ops::Range;
use std::path::Path;

use toml::Spanned;
use toml::de::DeTable;

use super::collect::{self, Document};
use super::stations::Beside;
use super::{convert, template};
use crate::boat::{Boat, Fault};
use crate::error::{
    FileError, FileFault, FileFaults, FileWarning, LARGEST_FILE_BYTES, Lines, shown_name,
};

/// A boat file that was read and checked.
#[derive(Debug, Clone, PartialEq)]
pub struct BoatFile {
    /// Name of the file as given.
    pub name: String,
    /// Its text, for a checksum in reports.
    pub text: String,
    /// The boat in it.
    pub boat: Boat,
    /// Values that were taken but look unusual.
    pub warnings: Vec<FileWarning>,
}

impl BoatFile {
    /// CRC-32 of the text, eight hexadecimal digits: tells which input a report was made from.
    #[must_use]
    pub fn checksum(&self) -> String {
        format!("{:08x}", crc32fast::hash(self.text.as_bytes()))
    }

    /// The same file with the boat in another of her loading conditions.
    ///
    /// # Errors
    /// As [`Boat::in_condition`].
    pub fn in_condition(&self, name: &str) -> Result<Self, Fault> {
        Ok(Self { boat: self.boat.in_condition(name)?, ..self.clone() })
    }
}

/// Reads and checks a boat file of at most 1 MiB.
///
/// # Errors
/// When there is no such file, it cannot be read, it is not a text file, or it has faults; all
/// faults are reported together.
///
/// # Example
///
/// ```
/// let file = planewright::read_boat("data/boats/holm.toml".as_ref())?;
/// assert_eq!(file.boat.name(), "Holm Sentinel");
/// let lost = planewright::read_boat("no-such.toml".as_ref()).unwrap_err();
/// assert!(lost.remedy().is_some());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn read_boat(path: &Path) -> Result<BoatFile, FileError> {
    let text = read_text(path)?;
    let folder = path.parent().unwrap_or(Path::new(""));
    Ok(parse_boat_beside(&shown_name(path), &text, Beside::Folder(folder))?)
}

/// Reads and checks the text of a boat file; `name` stands for the file in messages.
///
/// # Errors
/// All faults of the text together: faults of TOML alone if there are any, otherwise those of
/// keys, values and the boat as a whole.
///
/// # Example
///
/// ```
/// let faults = planewright::parse_boat("mine", "[hull]\nchine_beam = \"2 furlongs\"\n").unwrap_err();
/// println!("{}", faults.plain_text());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn parse_boat(name: &str, text: &str) -> Result<BoatFile, FileFaults> {
    parse_boat_beside(name, text, Beside::Nothing)
}

/// [`parse_boat`] with the files that the text may name.
///
/// # Errors
/// As [`parse_boat`]; and those of the stations alone, where the rest of the boat file has none.
pub fn parse_boat_beside(
    name: &str,
    text: &str,
    beside: Beside<'_>,
) -> Result<BoatFile, FileFaults> {
    let tree = tree_of(name, text)?;
    let document = collect::collect(tree.get_ref(), text);
    let mut input =
        convert::convert(&document, text).map_err(|faults| FileFaults::new(name, text, faults))?;
    let mut warnings = Vec::new();
    if let Some(value) = document.values.get(convert::STATIONS) {
        let named = value.text.as_deref().unwrap_or_default();
        let read = beside.stations(named).map_err(|unread| {
            unread.into_faults(|problem, help| {
                let problem = format!("{}: {problem}", convert::STATIONS);
                let place = Some(value.place.clone());
                FileFaults::new(name, text, vec![FileFault { problem, help, place }])
            })
        })?;
        input.stations = Some(read.stations);
        warnings = read.warnings;
    }
    let boat = Boat::build(input).map_err(|faults| {
        let faults = faults.into_iter().map(|fault| FileFault {
            problem: format!("{}: {}", document.spoken(&fault.key), fault.problem),
            help: fault.remedy,
            place: document.place_of(&fault.key),
        });
        FileFaults::new(name, text, faults.collect())
    })?;
    warnings.extend(self::warnings(name, text, &document, &boat));
    Ok(BoatFile { name: name.to_owned(), text: text.to_owned(), boat, warnings })
}

/// A fault that showed only as the boat of a file was asked about, at its place in the file; none where its key is one of the command line or of no file.
#[must_use]
pub fn placed(path: &Path, fault: &Fault) -> Option<FileFaults> {
    if fault.key.starts_with("run.") {
        return None;
    }
    let name = shown_name(path);
    let text = read_text(path).ok()?;
    let document = collect::collect(tree_of(&name, &text).ok()?.get_ref(), &text);
    let place = document.place_of(&fault.key);
    if place.is_none() && crate::boat::row_of(&fault.key).is_none() {
        return None;
    }
    let problem = format!("{}: {}", document.spoken(&fault.key), fault.problem);
    let fault = FileFault { problem, help: fault.remedy.clone(), place };
    Some(FileFaults::new(&name, &text, vec![fault]))
}

/// The tree of a TOML text; `name` stands for the file in messages.
pub(crate) fn tree_of<'a>(name: &str, text: &'a str) -> Result<Spanned<DeTable<'a>>, FileFaults> {
    let (tree, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        return Ok(tree);
    }
    let faults = match list_fault(text) {
        Some(fault) => vec![fault],
        None => syntax_faults(&errors, text),
    };
    Err(FileFaults::new(name, text, faults))
}

fn warnings(name: &str, text: &str, document: &Document, boat: &Boat) -> Vec<FileWarning> {
    let lines = Lines::of(text.as_bytes());
    let warning = |unusual: &crate::boat::Unusual| FileWarning {
        file: name.to_owned(),
        line: document.values.get(&unusual.key).map(|value| lines.number(value.place.start)),
        key: unusual.key.clone(),
        message: unusual.message.replacen(&unusual.key, &document.spoken(&unusual.key), 1),
    };
    boat.unusual().iter().map(warning).chain(left_from_the_starter(name, text, document)).collect()
}

/// What still stands as the starter file had it while other values were changed: it counts as the boat's own.
fn left_from_the_starter(name: &str, text: &str, document: &Document) -> Option<FileWarning> {
    if !text.starts_with(template::FIRST_LINE) {
        return None;
    }
    let (left, changed): (Vec<_>, Vec<_>) = template::values_shown()
        .filter_map(|(path, example)| Some((document.values.get(&path)?, path, example)))
        .partition(|(value, _, example)| value.text.as_deref() == Some(*example));
    let (first, key, _) = left.first().filter(|_| !changed.is_empty())?;
    let keys: Vec<&str> = left.iter().map(|(_, path, _)| path.as_str()).collect();
    Some(FileWarning {
        file: name.to_owned(),
        line: Some(Lines::of(text.as_bytes()).number(first.place.start)),
        key: key.clone(),
        message: format!(
            "{} still as `planewright new` wrote: put this boat's own values in, or a # before \
             those that nobody knows, which are then estimated",
            keys.join(", ")
        ),
    })
}

/// The text of a file of at most 1 MiB in UTF-8 that is not blank.
///
/// # Errors
/// When there is no such file, it cannot be read, it is larger, it is not text, or it is blank.
pub fn read_text(path: &Path) -> Result<String, FileError> {
    let own = || path.to_owned();
    let refused = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => FileError::NotFound { path: own() },
        std::io::ErrorKind::IsADirectory => FileError::Directory { path: own() },
        _ => FileError::Unreadable { path: own(), reason: crate::error::plain_reason(&error) },
    };
    if path.is_dir() {
        return Err(FileError::Directory { path: own() });
    }
    let file = File::open(path).map_err(refused)?;
    let mut bytes = Vec::new();
    file.take(LARGEST_FILE_BYTES + 1).read_to_end(&mut bytes).map_err(refused)?;
    text_of(path, bytes)
}

/// The text of a file of which the bytes are here already, at most 1 MiB in UTF-8 that is not blank; `path` stands for the file in messages.
///
/// # Errors
/// When it is larger, it is not text, or it is blank.
pub fn text_of(path: &Path, bytes: Vec<u8>) -> Result<String, FileError> {
    let own = || path.to_owned();
    if bytes.len() as u64 > LARGEST_FILE_BYTES {
        return Err(FileError::TooLarge { path: own() });
    }
    if let Some(place) = bytes.iter().position(|&byte| byte == 0) {
        return Err(FileError::NotText { path: own(), line: Lines::of(&bytes).number(place) });
    }
    let text = String::from_utf8(bytes).map_err(|error| FileError::NotText {
        path: own(),
        line: Lines::of(error.as_bytes()).number(error.utf8_error().valid_up_to()),
    })?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        return Err(FileError::Empty { path: own() });
    }
    Ok(text)
}

/// The faults of TOML, at most one for a line, with what to type instead.
fn syntax_faults(errors: &[toml::de::Error], text: &str) -> Vec<FileFault> {
    let lines = Lines::of(text.as_bytes());
    let mut faults: Vec<(usize, FileFault)> = Vec::new();
    let mut sorted: Vec<&toml::de::Error> = errors.iter().collect();
    sorted.sort_by_key(|error| error.span().map_or(0, |span| span.start));
    for error in sorted {
        let deep = || is_too_deep(error.message()).then(|| deepest_line(text)).flatten();
        let place = error.span().or_else(deep).map(|span| visible_place(span, text));
        let line = lines.number(place.as_ref().map_or(0, |place| place.start));
        let nothing_written = error.span().is_some_and(|span| span.is_empty());
        let fault = syntax_fault(error.message(), nothing_written, place, text);
        let is_quoting = error.message().starts_with("string values must be quoted");
        match faults.last_mut() {
            Some((last, kept)) if *last == line => {
                if is_quoting {
                    *kept = fault;
                }
            }
            _ => faults.push((line, fault)),
        }
    }
    faults.into_iter().map(|(_, fault)| fault).collect()
}

/// Whether the reader gave up on what stands within another too deep.
fn is_too_deep(message: &str) -> bool {
    message.contains("recurs")
}

/// The line that opens most, where the reader names none: a header or a key of very many dots.
fn deepest_line(text: &str) -> Option<Range<usize>> {
    let line = text.lines().max_by_key(|line| line.matches(['.', '[', '{']).count())?;
    let start = line.as_ptr() as usize - text.as_ptr() as usize;
    Some(start..start + line.len())
}

/// That the file is a list with columns; none where it may be a boat file.
fn list_fault(text: &str) -> Option<FileFault> {
    let is_told = |line: &&str| !line.trim().is_empty() && !line.trim_start().starts_with('#');
    let heading = text.trim_start_matches('\u{feff}').lines().find(is_told)?;
    let is_list = heading.matches([',', ';', '\t']).count() > 1 && !heading.contains(['=', '[']);
    is_list.then(|| {
        let start = heading.as_ptr() as usize - text.as_ptr() as usize;
        let first = heading.split([',', ';', '\t']).next().unwrap_or_default();
        FileFault {
            problem: "this is a list with columns, not a boat file".to_owned(),
            help: "the boat file comes first; a stock list goes behind --stock (`planewright size BOAT --stock LIST`), the log of a trial behind the boat (`planewright trial BOAT LOG`)".to_owned(),
            place: Some(start..start + first.len().max(1)),
        }
    })
}

/// Quotation marks of letters and books, which stand in the place of the straight one.
const SLANTED: [char; 7] =
    ['\u{201c}', '\u{201d}', '\u{201e}', '\u{2018}', '\u{2019}', '\u{ab}', '\u{bb}'];

/// That a value stands in slanted quotation marks; none where it does not.
fn slanted_marks(written: &str) -> Option<(String, String)> {
    written.starts_with(SLANTED).then(|| {
        let plain = written.split('#').next().unwrap_or(written).trim();
        let plain = plain.trim_matches(SLANTED).trim_matches('"');
        (
            format!("`{written}` stands in slanted quotation marks, as word processors write them"),
            format!("write \"{plain}\", with the straight mark \" at both ends"),
        )
    })
}

/// A place that can be underlined: never empty, never beyond the text, on character boundaries.
fn visible_place(span: Range<usize>, text: &str) -> Range<usize> {
    let mut start = span.start.min(text.len());
    let mut end = span.end.min(text.len());
    if start == end {
        let before = text[..start].trim_end_matches(['\n', '\r']).len();
        start = before.saturating_sub(1);
        end = before;
    }
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    start..end.max(start)
}

fn syntax_fault(
    message: &str,
    nothing_written: bool,
    place: Option<Range<usize>>,
    text: &str,
) -> FileFault {
    let written = place.clone().and_then(|place| text.get(place)).unwrap_or_default().trim();
    let written = crate::units::quoted(written);
    let (problem, help) = if message == "duplicate key" {
        (
            format!("`{written}` is given twice"),
            "delete one of the two, or change its name".to_owned(),
        )
    } else if message.starts_with("string values must be quoted") && nothing_written {
        (
            "the value is missing".to_owned(),
            "write it after the equals sign in quotation marks, or delete the line".to_owned(),
        )
    } else if is_too_deep(message) {
        (
            "brackets or braces stand within each other too deep".to_owned(),
            "a boat file needs none within another: write each table under its own header, such as [hull] or [[load]]"
                .to_owned(),
        )
    } else if message.starts_with("invalid basic string") {
        (
            "this text is not closed by a quotation mark, or a \\ stands in it".to_owned(),
            "put \" at the beginning and the end of the value, on one line".to_owned(),
        )
    } else if let Some(slanted) = slanted_marks(&written) {
        slanted
    } else if message.starts_with("string values must be quoted") {
        (format!("`{written}` stands without quotation marks"), format!("write \"{written}\""))
    } else {
        (
            format!("this line is not TOML: {message}"),
            "each line is a header such as [hull], or a key with its value in quotation marks, such as chine_beam = \"2.25 m\"; what follows # is a comment".to_owned(),
        )
    };
    FileFault { problem, help, place }
}

#[cfg(test)]
#[path = "read_tests.rs"]
mod tests;

#[cfg(test)]
#[path = "fault_text_tests.rs"]
mod fault_texts;

#[cfg(test)]
#[path = "condition_tests.rs"]
mod condition_tests;
