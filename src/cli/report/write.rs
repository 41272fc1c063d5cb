//! Where the papers go: all of them may be written, or none is.

use std::path::PathBuf;

use crate::cli::Failure;
use crate::cli::run::data::Data;
use crate::cli::size::data::json_of;
use crate::input::BoatFile;
use crate::report::Gathered;
use crate::save::{FileSet, Overwrite};

/// Endings of the data beside a record.
const DATA: [&str; 3] = ["-run.csv", "-run.json", "-size.json"];

/// The files of one report, with what is to stand in them.
pub(super) struct Papers {
    paths: Vec<PathBuf>,
    contents: Vec<Vec<u8>>,
    files: FileSet,
}

impl Papers {
    pub fn new(out: PathBuf, force: bool) -> Self {
        let files = FileSet::new(Overwrite::forced(force));
        Self { paths: vec![out], contents: Vec::new(), files }
    }

    /// Names files that are read.
    pub fn protect(&mut self, inputs: impl IntoIterator<Item = PathBuf>) {
        self.files.protect(inputs);
    }

    /// Names the files of the data: beside the paper, under its own name.
    pub fn reserve_data(&mut self) {
        let out = self.paths[0].clone();
        let stem = out.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        self.paths.extend(DATA.map(|ending| out.with_file_name(format!("{stem}{ending}"))));
    }

    /// Refuses before anything is computed when a file is in the way.
    pub fn check(&self) -> Result<(), Failure> {
        Ok(self.files.check(self.paths.iter().map(PathBuf::as_path))?)
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

    /// Writes all of them, or nothing, and gives their names.
    pub fn write(mut self) -> Result<Vec<String>, Failure> {
        let names = self.paths.iter().map(|path| path.display().to_string()).collect();
        for (path, content) in self.paths.into_iter().zip(self.contents) {
            self.files.add(path, content);
        }
        self.files.write()?;
        Ok(names)
    }
}
