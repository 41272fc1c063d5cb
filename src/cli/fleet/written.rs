//! Where the answers about many boats go.

use std::io::{self, BufWriter, Write};
use std::path::PathBuf;

use clap::Args;

use super::json::{About, Written};
use crate::cli::doubt::progress::Bar;
use crate::cli::screen::Screen;
use crate::cli::{Ending, Failure};
use crate::flag::CAUTION_IN_SHORT;
use crate::fleet::source::{Source, TableError};
use crate::fleet::{Fleet, whole};
use crate::save::Overwrite;

/// Where the answers go, and how they are computed.
#[derive(Clone, Debug, Args)]
pub(in crate::cli) struct OutArguments {
    /// Write the answers into this file, not to the screen; Parquet where its name ends so and it is built in
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) out: Option<PathBuf>,
    /// Go on with the file that a run that was ended has begun
    #[arg(long, requires = "out")]
    resume: bool,
    /// Threads to compute on [default: one for each processor]; the answers are the same
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=1024))]
    threads: Option<u16>,
    /// Print what was done as one JSON object, beside the file
    #[arg(long, requires = "out")]
    json: bool,
}

impl OutArguments {
    /// Computes all answers and writes them where they are wanted.
    pub(in crate::cli) fn write(
        &self,
        fleet: &Fleet,
        source: &mut (dyn Source + '_),
        inputs: &[PathBuf],
        overwrite: Overwrite,
        about: &About<'_>,
    ) -> Result<Ending, Failure> {
        let bar = Bar::counting(source.expected(), "boats");
        let progress = |done| bar.advance(done);
        let screen = Screen::of_stdout();
        let Some(path) = &self.out else {
            let mut out = BufWriter::new(io::stdout().lock());
            let done = self.here(|| whole::to_stream(fleet, source, &mut out, &progress))?;
            out.flush()?;
            bar.finish();
            if let Some(line) = about.faulty(&done) {
                eprintln!("warning: {line}");
            }
            return Ok(Ending::Done);
        };
        let into = whole::Into { path, inputs, overwrite, resume: self.resume };
        let done = self.here(|| whole::to_file(fleet, source, into, &progress))?;
        bar.finish();
        if self.json {
            screen.print_json(&Written::of(about, fleet, path, &done))?;
            return Ok(Ending::Done);
        }
        let mut lines = vec![about.told(&done, path)];
        lines.extend(about.faulty(&done).map(|line| format!("{line}.")));
        lines.push(CAUTION_IN_SHORT.to_owned());
        screen.print(&lines.iter().map(|line| screen.paragraph("", line)).collect::<String>())?;
        Ok(Ending::Done)
    }

    /// Does work that is not sent to another thread, with the number of threads asked for.
    fn here<T>(&self, work: impl FnOnce() -> Result<T, TableError>) -> Result<T, Failure> {
        if let Some(threads) = self.threads {
            // The first call settles it; a command makes no other.
            let builder = rayon::ThreadPoolBuilder::new().num_threads(threads.into());
            let _ = builder.build_global();
        }
        Ok(work()?)
    }
}
