//! One file that grows for minutes or days: what a killed process has written of it stays, and the next one goes on there.
//!
//! It grows under a name of its own, `NAME.unfinished`; a journal beside it, `NAME.unfinished-journal`,
//! has a line for each step: the length of the file after it, the CRC-32 of all before, and how far
//! the input was read. What stands behind the last line that agrees with the file is cut off, so
//! that no step is lost, done twice or half. The final name comes last, in one renaming.

use std::fs::{File, OpenOptions};
use std::io::{self, BufReader, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use crc32fast::Hasher;

use super::target::Target;
use super::{Overwrite, SaveError};

/// Numbers that a step leaves for the next one to go on by.
pub type Mark = [u64; 4];

/// Bytes that are read at a time to see what stands there.
const AT_A_TIME: usize = 1 << 16;

/// A file that grows step by step.
#[derive(Debug)]
pub struct Growing {
    target: Target,
    part: File,
    part_path: PathBuf,
    journal: File,
    journal_path: PathBuf,
    hash: Hasher,
    length: u64,
}

impl Growing {
    /// Begins a file; `stamp` is one line that says what is written and of what.
    ///
    /// # Errors
    /// As [`super::FileSet::write`]; and [`SaveError::Unfinished`] where another process has begun
    /// it, unless it may be overwritten.
    pub fn begin(
        path: &Path,
        inputs: &[PathBuf],
        overwrite: Overwrite,
        stamp: &str,
    ) -> Result<Self, SaveError> {
        let target = target(path, inputs, overwrite)?;
        let names = names(&target);
        if names[0].exists() && overwrite == Overwrite::No {
            return Err(SaveError::Unfinished { path: target.asked, found: names[0].clone() });
        }
        let refused = |error: io::Error| SaveError::unwritable(path, &error);
        // It is emptied only once it is held.
        let part = held(path, open(&names[0]).map_err(refused)?)?;
        part.set_len(0).map_err(refused)?;
        let journal = open(&names[1]).map_err(refused)?;
        journal.set_len(0).map_err(refused)?;
        let [part_path, journal_path] = names;
        let mut growing =
            Self { target, part, part_path, journal, journal_path, hash: Hasher::new(), length: 0 };
        growing.journal.write_all(format!("{stamp}\n").as_bytes()).map_err(refused)?;
        Ok(growing)
    }

    /// Goes on with a file that was begun with the same stamp, and says what its last whole step
    /// left; begins it where there is none.
    ///
    /// # Errors
    /// As [`Growing::begin`]; and [`SaveError::OtherStamp`] where it was begun with another stamp.
    pub fn resume(
        path: &Path,
        inputs: &[PathBuf],
        overwrite: Overwrite,
        stamp: &str,
    ) -> Result<(Self, Option<Mark>), SaveError> {
        let target = target(path, inputs, overwrite)?;
        let [part_path, journal_path] = names(&target);
        let refused = |error: io::Error| SaveError::unwritable(path, &error);
        if !part_path.exists() {
            return Ok((Self::begin(path, inputs, overwrite, stamp)?, None));
        }
        let part = held(path, open(&part_path).map_err(refused)?)?;
        let mut journal = open(&journal_path).map_err(refused)?;
        let mut said = String::new();
        journal.read_to_string(&mut said).map_err(refused)?;
        // What follows the last line break was being written.
        let whole = said.rfind('\n').map_or("", |end| &said[..end]);
        let mut lines = whole.lines();
        match lines.next() {
            Some(first) if first == stamp => {}
            // Killed before it had said what it is.
            None => {
                drop((part, journal));
                return Ok((Self::begin(path, inputs, Overwrite::Yes, stamp)?, None));
            }
            Some(_) => {
                return Err(SaveError::OtherStamp { path: target.asked, found: part_path });
            }
        }
        let steps: Vec<Step> = lines.map_while(Step::read).collect();
        let (count, hash) = agreeing(&part, &steps).map_err(refused)?;
        let last = count.checked_sub(1).map(|place| steps[place]);
        let length = last.map_or(0, |step| step.length);
        let mut growing = Self { target, part, part_path, journal, journal_path, hash, length };
        let kept: String = steps[..count].iter().map(|step| step.line()).collect();
        growing.cut_to(format!("{stamp}\n{kept}").len() as u64).map_err(refused)?;
        Ok((growing, last.map(|step| step.mark)))
    }

    /// Cuts file and journal to what is whole of them.
    fn cut_to(&mut self, journal_length: u64) -> io::Result<()> {
        self.part.set_len(self.length)?;
        self.part.seek(SeekFrom::End(0))?;
        self.journal.set_len(journal_length)?;
        self.journal.seek(SeekFrom::End(0))?;
        Ok(())
    }

    /// One more step.
    ///
    /// # Errors
    /// [`SaveError::Stopped`]; what was written before stays.
    pub fn step(&mut self, bytes: &[u8], mark: Mark) -> Result<(), SaveError> {
        self.hash.update(bytes);
        self.length += bytes.len() as u64;
        let step = Step { length: self.length, crc32: self.hash.clone().finalize(), mark };
        let written = self.part.write_all(bytes).and_then(|()| self.part.flush());
        let noted = written.and_then(|()| self.journal.write_all(step.line().as_bytes()));
        noted.map_err(|error| SaveError::stopped(&self.target.asked, &error))
    }

    /// Gives it its final name.
    ///
    /// # Errors
    /// [`SaveError::Stopped`]; it then stays as it is.
    pub fn finish(self) -> Result<(), SaveError> {
        let refused = |error: io::Error| SaveError::stopped(&self.target.asked, &error);
        self.part.sync_all().map_err(refused)?;
        std::fs::rename(&self.part_path, &self.target.path).map_err(refused)?;
        // A journal without a file says nothing.
        let _ = std::fs::remove_file(&self.journal_path);
        super::exchange::sync(self.target.folder());
        Ok(())
    }

    /// Gives what is made of it its final name instead: `turn` reads what has grown and writes the other form.
    ///
    /// # Errors
    /// [`SaveError::Stopped`]; what has grown then stays as it is.
    pub fn finish_as(
        self,
        turn: impl FnOnce(File, &File) -> io::Result<()>,
    ) -> Result<(), SaveError> {
        let refused = |error: io::Error| SaveError::stopped(&self.target.asked, &error);
        let mut other_path = self.part_path.clone().into_os_string();
        other_path.push("-turned");
        let other = open(Path::new(&other_path)).map_err(refused)?;
        other.set_len(0).map_err(refused)?;
        let grown = File::open(&self.part_path).map_err(refused)?;
        turn(grown, &other).and_then(|()| other.sync_all()).map_err(refused)?;
        std::fs::rename(&other_path, &self.target.path).map_err(refused)?;
        let _ = std::fs::remove_file(&self.part_path);
        let _ = std::fs::remove_file(&self.journal_path);
        super::exchange::sync(self.target.folder());
        Ok(())
    }
}

/// What one step left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Step {
    length: u64,
    crc32: u32,
    mark: Mark,
}

impl Step {
    fn line(self) -> String {
        let [a, b, c, d] = self.mark;
        format!("{} {:08x} {a} {b} {c} {d}\n", self.length, self.crc32)
    }

    fn read(line: &str) -> Option<Self> {
        let words: Vec<&str> = line.split(' ').collect();
        let [length, crc32, mark @ ..] = words.as_slice() else { return None };
        let mark: Vec<u64> = mark.iter().map(|word| word.parse().ok()).collect::<Option<_>>()?;
        Some(Self {
            length: length.parse().ok()?,
            crc32: u32::from_str_radix(crc32, 16).ok()?,
            mark: mark.try_into().ok()?,
        })
    }
}

/// How many steps agree with what stands in the file, and the CRC-32 up to there.
fn agreeing(part: &File, steps: &[Step]) -> io::Result<(usize, Hasher)> {
    let mut reader = BufReader::with_capacity(AT_A_TIME, part);
    let mut hash = Hasher::new();
    let (mut kept, mut length) = (Hasher::new(), 0);
    for (count, step) in steps.iter().enumerate() {
        let wanted = step.length.saturating_sub(length);
        let mut piece = Vec::new();
        let read = Read::take(&mut reader, wanted).read_to_end(&mut piece)?;
        hash.update(&piece);
        if (read as u64) < wanted || hash.clone().finalize() != step.crc32 {
            return Ok((count, kept));
        }
        length = step.length;
        kept = hash.clone();
    }
    Ok((steps.len(), kept))
}

fn target(path: &Path, inputs: &[PathBuf], overwrite: Overwrite) -> Result<Target, SaveError> {
    let target = Target::of(path)?;
    target.refuse_inputs(inputs)?;
    if target.exists() && overwrite == Overwrite::No {
        return Err(SaveError::Exists { paths: vec![target.asked] });
    }
    Ok(target)
}

/// The name it grows under, and that of its journal.
fn names(target: &Target) -> [PathBuf; 2] {
    ["unfinished", "unfinished-journal"].map(|ending| {
        let mut name = target.path.clone().into_os_string();
        name.push(".");
        name.push(ending);
        PathBuf::from(name)
    })
}

fn open(path: &Path) -> io::Result<File> {
    OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path)
}

/// The file, held as long as this process lives; refused where another holds it.
fn held(asked: &Path, file: File) -> Result<File, SaveError> {
    match file.try_lock() {
        Err(std::fs::TryLockError::WouldBlock) => Err(SaveError::Unwritable {
            path: asked.to_owned(),
            reason: "another process is writing it".to_owned(),
        }),
        // Where there are no locks, nobody else can be told.
        _ => Ok(file),
    }
}

#[cfg(test)]
#[path = "growing_tests.rs"]
mod tests;
