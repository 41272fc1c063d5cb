//! Where the papers go: all of them may be written, or none is.

use std::path::PathBuf;

use crate::cli::Failure;
use crate::cli::run::data::Data;
use crate::cli::size::data::json_of;
use crate::error::FileError;
use crate::input::{BoatFile, Overwrite, write_file};
use crate::report::Gathered;

/// Endings of the data beside a record.
const DATA: [&str; 3] = ["-run.csv", "-run.json", "-size.json"];

/// The files of one report, with what is to stand in them.
pub(super) struct Papers {
    paths: Vec<PathBuf>,
    contents: Vec<Vec<u8>>,
    overwrite: Overwrite,
}

impl Papers {
    pub fn new(out: PathBuf, force: bool) -> Self {
        let overwrite = if force { Overwrite::Yes } else { Overwrite::No };
        Self { paths: vec![out], contents: Vec::new(), overwrite }
    }

    /// Names the files of the data: beside the paper, under its own name.
    pub fn reserve_data(&mut self) {
        let out = self.paths[0].clone();
        let stem = out.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        self.paths.extend(DATA.map(|ending| out.with_file_name(format!("{stem}{ending}"))));
    }

    /// Refuses before anything is computed when a file is in the way.
    pub fn check(&self) -> Result<(), Failure> {
        for path in &self.paths {
            if path.is_dir() {
                return Err(FileError::Directory { path: path.clone() }.into());
            }
            if self.overwrite == Overwrite::No && path.symlink_metadata().is_ok() {
                return Err(FileError::Exists { path: path.clone() }.into());
            }
        }
        Ok(())
    }

    pub fn add(&mut self, content: Vec<u8>) {
        self.contents.push(content);
    }

    /// The tables, as `run` writes them for the pair advised, and `size`.
    pub fn add_data(&mut self, gathered: &Gathered, files: Vec<BoatFile>) -> Result<(), Failure> {
        let advised =
            Some(gathered.used()).filter(|used| used.pair.is_some() && gathered.has_settings());
        let run = Data::of(files, advised, gathered.size.units)?;
        self.add(run.csv.into_bytes());
        self.add(run.json.into_bytes());
        self.add(json_of(gathered)?.into_bytes());
        Ok(())
    }

    pub fn write(&self) -> Result<(), Failure> {
        for (path, content) in self.paths.iter().zip(&self.contents) {
            write_file(path, content, self.overwrite)?;
        }
        Ok(())
    }

    /// The names of the files.
    pub fn files(&self) -> Vec<String> {
        self.paths.iter().map(|path| path.display().to_string()).collect()
    }

    pub fn text(&self) -> String {
        self.paths.iter().map(|path| format!("Wrote {}\n", path.display())).collect()
    }
}
