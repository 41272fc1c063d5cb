//! What can go wrong with a file that a person gives, and how it is shown.
//!
//! Every fault carries the place in the file, the value, what is allowed and what to type
//! instead. All faults of a file are reported together.

#[cfg(feature = "study")]
mod shown;

use std::borrow::Cow;
use std::fmt;
use std::fs::File;
use std::io::Read;
use std::ops::Range;
use std::path::{Path, PathBuf};

#[cfg(feature = "study")]
pub use shown::{Appearance, error_text};
use thiserror::Error;

use crate::spelling;

/// Largest boat file that is read, in bytes (1 MiB).
pub const LARGEST_FILE_BYTES: u64 = 1 << 20;
/// Bytes of a file that are shown around a fault; where the lines are longer, only the number of
/// the line is.
const MOST_BYTES_SHOWN: usize = 1000;
/// Faults of one file that are shown; the rest are counted.
const MOST_FAULTS_SHOWN: usize = 20;

/// A file that could not be read.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum FileError {
    /// Nothing of that name.
    #[error("{}: there is no such file", path.display())]
    NotFound {
        /// The file.
        path: PathBuf,
    },
    /// A directory instead of a file.
    #[error("{}: this is a directory, not a boat file", path.display())]
    Directory {
        /// The directory.
        path: PathBuf,
    },
    /// The system refuses to read it.
    #[error("{}: cannot be read: {reason}", path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// Larger than [`LARGEST_FILE_BYTES`].
    #[error("{}: larger than 1 MiB, so it is not a boat file", path.display())]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// Not text in UTF-8.
    #[error("{}: this is not text in UTF-8: line {line} holds something else", path.display())]
    NotText {
        /// The file.
        path: PathBuf,
        /// First line that is not text, counted from 1.
        line: usize,
    },
    /// Nothing in it.
    #[error("{}: the file is empty", path.display())]
    Empty {
        /// The file.
        path: PathBuf,
    },
    /// Read, but with faults.
    #[error(transparent)]
    Faults(#[from] FileFaults),
}

impl FileError {
    /// What to type or do instead; none where every fault has its own.
    #[must_use]
    pub fn remedy(&self) -> Option<String> {
        let help = match self {
            Self::NotFound { path } => {
                return Some(format!(
                    "check the name, or write a starter file with `planewright new {}`",
                    path.display()
                ));
            }
            Self::Directory { .. } => "name a file in it",
            Self::Unreadable { .. } => "check the permissions of the file",
            Self::TooLarge { .. } => "a boat file is a few hundred lines of text at most",
            Self::NotText { .. } => "save it as plain text with the encoding UTF-8",
            Self::Empty { .. } => {
                "`planewright new FILE` writes a starter file with every key explained"
            }
            Self::Faults(_) => return None,
        };
        Some(help.to_owned())
    }
}

/// All faults found in one file.
#[derive(Debug)]
pub struct FileFaults {
    name: String,
    text: String,
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
            for said in [&mut fault.problem, &mut fault.help] {
                if let Cow::Owned(seen) = spelling::seen(said) {
                    *said = seen;
                }
            }
            let long = |place: &Range<usize>| {
                lines.length_around(place.start, text.len()) > MOST_BYTES_SHOWN
            };
            if let Some(place) = fault.place.take_if(|place| long(place)) {
                fault.problem = format!("line {}: {}", lines.number(place.start), fault.problem);
            }
        }
        let unshown = faults.len().checked_sub(MOST_FAULTS_SHOWN).filter(|&count| count > 0);
        Self {
            name: spelling::seen(name).into_owned(),
            text: spelling::seen(text).into_owned(),
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

    /// The first faults in a line or two of plain text each, and how many more there are: the line of the file, what is wrong, what to type instead.
    #[must_use]
    pub fn plain_text(&self) -> String {
        let lines = Lines::of(self.text.as_bytes());
        let line = |fault: &FileFault| {
            let at = fault
                .place
                .as_ref()
                .map_or(String::new(), |place| format!(", line {}", lines.number(place.start)));
            format!("{}{at}: {}\n  help: {}\n", self.name, fault.problem, fault.help)
        };
        let unshown = self.unshown.as_deref();
        self.faults.iter().take(MOST_FAULTS_SHOWN).chain(unshown).map(line).collect()
    }

    /// The line of the file, counted from 1, on which a fault of it stands; none where something is missing altogether.
    #[must_use]
    pub fn line_of(&self, fault: &FileFault) -> Option<usize> {
        let place = fault.place.as_ref()?;
        Some(Lines::of(self.text.as_bytes()).number(place.start))
    }

    /// The faults, in the order of the file.
    #[must_use]
    pub fn faults(&self) -> &[FileFault] {
        &self.faults
    }
}

impl fmt::Display for FileFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} has {}", self.name, counted(self.faults.len(), "fault"))
    }
}

impl std::error::Error for FileFaults {}

impl fmt::Display for FileFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.problem)
    }
}

impl std::error::Error for FileFault {}

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
    /// Not text, first on this line.
    NotText {
        /// Counted from 1.
        line: usize,
    },
}

/// The bytes of a file of at most [`LARGEST_FILE_BYTES`], for lists and logs.
pub(crate) fn bytes_of(path: &Path) -> Result<Vec<u8>, Unread> {
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
    Ok(bytes)
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
