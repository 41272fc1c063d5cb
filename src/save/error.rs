//! Why files were not written.

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

use miette::Diagnostic;
use thiserror::Error;

use crate::error::plain_reason;

/// Files in the way that are named; the rest are counted.
const MOST_NAMED: usize = 4;

/// Why files were not written. Nothing was, but for [`SaveError::NotPutBack`].
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum SaveError {
    /// Files are there already, and may not be replaced.
    #[error("{}", existing(paths))]
    Exists {
        /// All of them.
        paths: Vec<PathBuf>,
    },
    /// What is there is no regular file.
    #[error("{}: this is a {kind}, not a file", path.display())]
    NotAFile {
        /// The target.
        path: PathBuf,
        /// What it is.
        kind: &'static str,
    },
    /// The target is a file that is read.
    #[error("{}", read_here(path, input))]
    Input {
        /// The target.
        path: PathBuf,
        /// The input, as it was named.
        input: PathBuf,
    },
    /// Two files of a set would be the same.
    #[error("{}: two files would be written here", path.display())]
    Twice {
        /// The target.
        path: PathBuf,
    },
    /// The system refuses to write it.
    #[error("{}: cannot be written: {reason}", path.display())]
    Unwritable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// A process that was ended has begun it.
    #[error("{}: {} was begun, and not finished", path.display(), found.display())]
    Unfinished {
        /// The target.
        path: PathBuf,
        /// What was begun of it.
        found: PathBuf,
    },
    /// The system takes no more of a file that grows; what it took before stays.
    #[error("{}: cannot be written any further: {reason}", path.display())]
    Stopped {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// What was begun of it is of another question or another input.
    #[error("{}: {} was begun with another question, table or version", path.display(), found.display())]
    OtherStamp {
        /// The target.
        path: PathBuf,
        /// What was begun of it.
        found: PathBuf,
    },
    /// The system refuses to make a folder.
    #[error("{}: the folder cannot be made: {reason}", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// A file could not be written, and others were replaced before and could not be put back.
    #[error("{cause}; and this was changed and could not be put back: {}", left_list(left))]
    NotPutBack {
        /// Why the set was not written.
        cause: Box<SaveError>,
        /// The files that changed, with where their former content stands where they had one.
        left: Vec<(PathBuf, Option<PathBuf>)>,
    },
}

impl SaveError {
    pub(super) fn unwritable(path: &Path, error: &io::Error) -> Self {
        Self::Unwritable { path: path.to_owned(), reason: plain_reason(error) }
    }

    pub(super) fn stopped(path: &Path, error: &io::Error) -> Self {
        Self::Stopped { path: path.to_owned(), reason: plain_reason(error) }
    }

    /// What to type or do instead.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::Exists { paths } if paths.len() == 1 => {
                "give another name, or --force to replace it; nothing was written"
            }
            Self::Exists { .. } => {
                "give another name or folder, or --force to replace them; nothing was written"
            }
            Self::NotAFile { .. } => "name a file; nothing was written",
            Self::Input { .. } => "give another name; nothing was written",
            Self::Twice { .. } => {
                "give files and loading conditions names that differ in letters or digits; nothing was written"
            }
            Self::Unwritable { .. } => {
                "name a file in a directory that exists and may be written to; nothing was written"
            }
            Self::Unfinished { .. } => "go on with --resume, or begin anew with --force",
            Self::Stopped { .. } => {
                "make room or see to its folder, then go on with --resume: what was written stays"
            }
            Self::OtherStamp { .. } => {
                "ask as it was asked then, give another name, or begin anew with --force alone"
            }
            Self::Folder { .. } => {
                "name a folder that exists, or one that may be made; nothing was written"
            }
            Self::NotPutBack { .. } => "put it back by hand before anything else is written there",
        }
    }
}

impl Diagnostic for SaveError {
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(self.remedy()))
    }
}

/// `a.svg: the file exists already`; of several a few by name, below their folder where they have one in common.
fn existing(paths: &[PathBuf]) -> String {
    if let [path] = paths {
        return format!("{}: the file exists already", path.display());
    }
    let folder = paths.first().and_then(|path| path.parent());
    let folder = folder.filter(|folder| paths.iter().all(|path| path.parent() == Some(*folder)));
    let shown = |path: &PathBuf| match (folder, path.file_name()) {
        (Some(_), Some(name)) => name.to_string_lossy().into_owned(),
        _ => path.display().to_string(),
    };
    let named: Vec<_> = paths.iter().take(MOST_NAMED).map(shown).collect();
    let place = match folder {
        Some(folder) if !folder.as_os_str().is_empty() => format!(" in {}", folder.display()),
        _ => String::new(),
    };
    let more = match paths.len().saturating_sub(MOST_NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    format!("{} files exist already{place}: {}{more}", paths.len(), named.join(", "))
}

fn read_here(path: &Path, input: &Path) -> String {
    let shown = path.display();
    if path == input {
        format!("{shown}: this file is read here, and is never written over")
    } else {
        let input = input.display();
        format!("{shown}: this is {input}, which is read here, and is never written over")
    }
}

fn left_list(left: &[(PathBuf, Option<PathBuf>)]) -> String {
    let one = |(path, former): &(PathBuf, Option<PathBuf>)| match former {
        Some(former) => {
            format!("{} (its former content is in {})", path.display(), former.display())
        }
        None => path.display().to_string(),
    };
    left.iter().map(one).collect::<Vec<_>>().join(", ")
}
