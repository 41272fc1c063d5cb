//! What can go wrong with a file that a person gives, and how it is shown.
//!
//! Every fault carries the place in the file, the value, what is allowed and what to type
//! instead. All faults of a file are reported together.

use std::ffi::OsStr;
use std::fmt;
use std::fs::File;
use std::io::{IsTerminal, Read};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, SourceCode,
    ThemeCharacters, ThemeStyles,
};
use thiserror::Error;

/// Largest boat file that is read, in bytes (1 MiB).
pub const LARGEST_FILE_BYTES: u64 = 1 << 20;
/// Width of error texts, in columns.
const WIDTH: usize = 80;
/// Bytes of a file that are shown around a fault; where the lines are longer, only the number of
/// the line is.
const MOST_BYTES_SHOWN: usize = 1000;
/// Faults of one file that are shown; the rest are counted.
const MOST_FAULTS_SHOWN: usize = 20;

/// A file that could not be read or written.
#[derive(Debug, Error, Diagnostic)]
pub enum FileError {
    /// Nothing of that name.
    #[error("{}: there is no such file", path.display())]
    #[diagnostic(help("check the name, or write a starter file with `planewright new {}`", path.display()))]
    NotFound {
        /// The file.
        path: PathBuf,
    },
    /// A directory instead of a file.
    #[error("{}: this is a directory, not a boat file", path.display())]
    #[diagnostic(help("name a file in it"))]
    Directory {
        /// The directory.
        path: PathBuf,
    },
    /// The system refuses to read it.
    #[error("{}: cannot be read: {reason}", path.display())]
    #[diagnostic(help("check the permissions of the file"))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// Larger than [`LARGEST_FILE_BYTES`].
    #[error("{}: larger than 1 MiB, so it is not a boat file", path.display())]
    #[diagnostic(help("a boat file is a few hundred lines of text at most"))]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// Not text in UTF-8.
    #[error("{}: this is not text in UTF-8: line {line} holds something else", path.display())]
    #[diagnostic(help("save it as plain text with the encoding UTF-8"))]
    NotText {
        /// The file.
        path: PathBuf,
        /// First line that is not text, counted from 1.
        line: usize,
    },
    /// Nothing in it.
    #[error("{}: the file is empty", path.display())]
    #[diagnostic(help("`planewright new FILE` writes a starter file with every key explained"))]
    Empty {
        /// The file.
        path: PathBuf,
    },
    /// Read, but with faults.
    #[error(transparent)]
    #[diagnostic(transparent)]
    Faults(#[from] FileFaults),
    /// A new file would overwrite an old one.
    #[error("{}: the file exists already", path.display())]
    #[diagnostic(help("give another name; nothing was written"))]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// The system refuses to write it.
    #[error("{}: cannot be written: {reason}", path.display())]
    #[diagnostic(help("check that the directory exists and may be written to"))]
    Unwritable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
}

/// All faults found in one file.
#[derive(Debug)]
pub struct FileFaults {
    source: Box<NamedSource<Arc<str>>>,
    faults: Vec<FileFault>,
    unshown: Option<Box<FileFault>>,
}

/// One fault of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFault {
    /// What is wrong, with the key and the value.
    pub problem: String,
    /// What is allowed, and what to type instead.
    pub help: String,
    /// The bytes of the file that are wrong; none for something that is missing altogether.
    pub place: Option<Range<usize>>,
}

impl FileFaults {
    /// The faults of the file `name` with the given text, put into the order of the file.
    #[must_use]
    pub fn new(name: &str, text: &str, mut faults: Vec<FileFault>) -> Self {
        faults.sort_by_key(|fault| fault.place.as_ref().map_or(0, |place| place.start));
        let lines = Lines::of(text.as_bytes());
        for fault in &mut faults {
            let long = |place: &Range<usize>| {
                lines.length_around(place.start, text.len()) > MOST_BYTES_SHOWN
            };
            if let Some(place) = fault.place.take_if(|place| long(place)) {
                fault.problem = format!("line {}: {}", lines.number(place.start), fault.problem);
            }
        }
        let unshown = faults.len().checked_sub(MOST_FAULTS_SHOWN).filter(|&count| count > 0);
        Self {
            source: Box::new(NamedSource::new(name, Arc::from(text))),
            unshown: unshown.map(|count| {
                Box::new(FileFault {
                    problem: format!("and {}", counted(count, "more fault")),
                    help: "correct the first ones and run again".to_owned(),
                    place: None,
                })
            }),
            faults,
        }
    }

    /// The faults, in the order of the file.
    #[must_use]
    pub fn faults(&self) -> &[FileFault] {
        &self.faults
    }
}

impl fmt::Display for FileFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} has {}", self.source.name(), counted(self.faults.len(), "fault"))
    }
}

impl std::error::Error for FileFaults {}

impl Diagnostic for FileFaults {
    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&*self.source)
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        let shown = self.faults.iter().take(MOST_FAULTS_SHOWN).chain(self.unshown.as_deref());
        Some(Box::new(shown.map(|fault| fault as &dyn Diagnostic)))
    }
}

impl fmt::Display for FileFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.problem)
    }
}

impl std::error::Error for FileFault {}

impl Diagnostic for FileFault {
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(&self.help))
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let place = self.place.clone()?;
        Some(Box::new(std::iter::once(LabeledSpan::new_with_span(None, place))))
    }
}

/// `1 fault`, `2 faults`.
fn counted(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

/// Something in a file that was accepted but looks wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileWarning {
    /// Name of the file.
    pub file: String,
    /// Line, counted from 1, if the value stands in the file.
    pub line: Option<usize>,
    /// Key in the boat file.
    pub key: String,
    /// Sentence with the value and the usual range.
    pub message: String,
}

impl fmt::Display for FileWarning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "{}, line {line}: {}", self.file, self.message),
            None => write!(f, "{}: {}", self.file, self.message),
        }
    }
}

/// How error texts look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Appearance {
    /// ASCII only: for files, pipes and tests.
    Ascii,
    /// Line-drawing characters without colour: for a terminal where `NO_COLOR` is set.
    Lines,
    /// Line-drawing characters and colour: for a terminal.
    Colour,
}

impl Appearance {
    /// The appearance for the standard error stream of this run.
    #[must_use]
    pub fn of_stderr() -> Self {
        let no_color = std::env::var_os("NO_COLOR");
        Self::choose(std::io::stderr().is_terminal(), no_color.as_deref())
    }

    /// The appearance for a stream, given the value of `NO_COLOR`; an empty value counts as unset.
    #[must_use]
    pub fn choose(is_terminal: bool, no_color: Option<&OsStr>) -> Self {
        match (is_terminal, no_color.is_some_and(|value| !value.is_empty())) {
            (false, _) => Self::Ascii,
            (true, true) => Self::Lines,
            (true, false) => Self::Colour,
        }
    }
}

/// The text of an error with its place in the file underlined and its help.
#[must_use]
pub fn error_text(error: &dyn Diagnostic, appearance: Appearance) -> String {
    let (characters, styles) = match appearance {
        Appearance::Ascii => (ThemeCharacters::ascii(), ThemeStyles::none()),
        Appearance::Lines => (ThemeCharacters::unicode(), ThemeStyles::none()),
        Appearance::Colour => (ThemeCharacters::unicode(), ThemeStyles::ansi()),
    };
    let handler = GraphicalReportHandler::new_themed(GraphicalTheme { characters, styles })
        .with_width(WIDTH)
        .with_links(false);
    let mut text = String::new();
    if handler.render_report(&mut text, error).is_err() {
        return format!("{error}\n");
    }
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    format!("{}\n", lines.join("\n").trim_matches('\n'))
}

/// What the system says about a file, in plain words without a number.
pub(crate) fn plain_reason(error: &std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "its directory does not exist".to_owned(),
        std::io::ErrorKind::PermissionDenied => "permission denied".to_owned(),
        kind => kind.to_string(),
    }
}

/// Why a file gave no text.
#[derive(Debug)]
pub(crate) enum Unread {
    /// There is none, or the system refuses; with its reason in plain words.
    Refused(String),
    /// Larger than [`LARGEST_FILE_BYTES`].
    TooLarge,
    /// Not text in UTF-8, first on this line.
    NotText {
        /// Counted from 1.
        line: usize,
    },
}

/// The text of a file of at most [`LARGEST_FILE_BYTES`] in UTF-8, for lists and logs.
pub(crate) fn text_of(path: &Path) -> Result<String, Unread> {
    let refused = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => Unread::Refused("there is no such file".to_owned()),
        _ => Unread::Refused(plain_reason(&error)),
    };
    if path.is_dir() {
        return Err(Unread::Refused("this is a directory".to_owned()));
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(refused)?;
    file.take(LARGEST_FILE_BYTES + 1).read_to_end(&mut bytes).map_err(refused)?;
    text_in(bytes)
}

/// The same of bytes that are here already.
pub(crate) fn text_in(bytes: Vec<u8>) -> Result<String, Unread> {
    if bytes.len() as u64 > LARGEST_FILE_BYTES {
        return Err(Unread::TooLarge);
    }
    let not_text = |bytes: &[u8], place| Unread::NotText { line: Lines::of(bytes).number(place) };
    if let Some(place) = bytes.iter().position(|&byte| byte == 0) {
        return Err(not_text(&bytes, place));
    }
    String::from_utf8(bytes)
        .map_err(|error| not_text(error.as_bytes(), error.utf8_error().valid_up_to()))
}

/// Where the lines of a text begin.
#[derive(Debug)]
pub(crate) struct Lines {
    starts: Vec<usize>,
}

impl Lines {
    /// The lines of a text.
    pub(crate) fn of(text: &[u8]) -> Self {
        let breaks = text.iter().enumerate().filter(|(_, byte)| **byte == b'\n');
        Self { starts: std::iter::once(0).chain(breaks.map(|(place, _)| place + 1)).collect() }
    }

    /// The line, counted from 1, on which a byte stands.
    pub(crate) fn number(&self, place: usize) -> usize {
        self.starts.partition_point(|&start| start <= place)
    }

    /// The bytes from the line before `place` to the line after it.
    fn length_around(&self, place: usize, end_of_text: usize) -> usize {
        let line = self.number(place);
        let start = self.starts[line.saturating_sub(2)];
        self.starts.get(line + 1).copied().unwrap_or(end_of_text).saturating_sub(start)
    }
}

/// The name of a file as it stands in messages.
#[must_use]
pub fn shown_name(path: &Path) -> String {
    path.display().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_appearance_follows_the_stream_and_no_color() {
        let choose =
            |terminal, value: Option<&str>| Appearance::choose(terminal, value.map(OsStr::new));
        assert_eq!(choose(false, None), Appearance::Ascii);
        assert_eq!(choose(false, Some("1")), Appearance::Ascii);
        assert_eq!(choose(true, Some("1")), Appearance::Lines);
        assert_eq!(choose(true, Some("")), Appearance::Colour);
        assert_eq!(choose(true, None), Appearance::Colour);
    }

    #[test]
    fn error_many_faults_are_counted_not_all_shown() {
        let fault = FileFault { problem: "wrong".into(), help: "right".into(), place: Some(0..1) };
        let faults = FileFaults::new("b.toml", "x\n", vec![fault; 25]);
        let text = error_text(&faults, Appearance::Ascii);
        assert!(text.starts_with("  x b.toml has 25 faults\n"), "{text}");
        assert_eq!(text.matches("x wrong").count(), 20);
        assert!(text.contains("x and 5 more faults"), "{text}");
        assert!(text.is_ascii() && !text.contains('\u{1b}'));
        assert!(error_text(&faults, Appearance::Colour).contains('\u{1b}'));
        let lines = error_text(&faults, Appearance::Lines);
        assert!(!lines.contains('\u{1b}') && !lines.is_ascii());
    }
}
