//! Charts for a folder, and their names in print.

use std::path::{Path, PathBuf};

use clap::Args;

use super::Failure;
use crate::boat::Boat;
use crate::chart::doubt::NamedBars;
use crate::chart::running::NamedChart;
use crate::chart::running::own::OwnChart;
use crate::chart::{ChartError, ChartFiles};
use crate::save::{FileSet, Overwrite};

/// Where charts go, for the commands that draw some.
#[derive(Clone, Debug, Args)]
pub(super) struct ChartArguments {
    /// Also draw charts into this folder, each as SVG and PNG
    #[arg(long, value_name = "DIR")]
    charts: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long)]
    force: bool,
}

impl ChartArguments {
    /// Whether files that are there may be replaced.
    pub const fn overwrite(&self) -> Overwrite {
        Overwrite::forced(self.force)
    }

    /// Begins the set of files of a command, which replaces none of its inputs. Where `several` loading conditions are shown, the charts of each carry its name.
    pub fn begin(&self, inputs: Vec<PathBuf>, several: bool) -> Charts<'_> {
        let mut files = FileSet::new(self.overwrite());
        files.protect(inputs);
        let folder = self.charts.as_deref();
        if let Some(folder) = folder {
            files.make_folder(folder);
        }
        Charts { folder, several, files }
    }
}

/// The charts of a command, written together with what else it writes once all is computed.
pub(super) struct Charts<'a> {
    folder: Option<&'a Path>,
    several: bool,
    /// Everything that the command writes.
    pub files: FileSet,
}

impl Charts<'_> {
    /// Whether any are asked for: otherwise none need be drawn, and none are added.
    pub const fn wanted(&self) -> bool {
        self.folder.is_some()
    }

    /// Adds the charts of a loading condition.
    pub fn add(&mut self, boat: &Boat, charts: &[NamedChart]) -> Result<Vec<ChartFiles>, Failure> {
        let several = self.several;
        self.each(charts, |set, folder, named| {
            named.chart.add_to(set, folder, &named_in(boat, several, named.stem))
        })
    }

    /// The same of charts that were asked for by their fields.
    pub fn add_own(
        &mut self,
        boat: &Boat,
        charts: &[OwnChart],
    ) -> Result<Vec<ChartFiles>, Failure> {
        let several = self.several;
        self.each(charts, |set, folder, own| {
            own.chart.add_to(set, folder, &named_in(boat, several, &own.stem))
        })
    }

    /// The same of bar charts.
    pub fn add_bars(
        &mut self,
        boat: &Boat,
        charts: &[NamedBars],
    ) -> Result<Vec<ChartFiles>, Failure> {
        let several = self.several;
        self.each(charts, |set, folder, named| {
            named.chart.add_to(set, folder, &named_in(boat, several, named.stem))
        })
    }

    /// The same of charts about all loading conditions together.
    pub fn add_of_all(&mut self, charts: &[NamedChart]) -> Result<Vec<ChartFiles>, Failure> {
        self.each(charts, |set, folder, named| named.chart.add_to(set, folder, named.stem))
    }

    fn each<T>(
        &mut self,
        charts: &[T],
        add: impl Fn(&mut FileSet, &Path, &T) -> Result<ChartFiles, ChartError>,
    ) -> Result<Vec<ChartFiles>, Failure> {
        let Some(folder) = self.folder else { return Ok(Vec::new()) };
        let added = charts.iter().map(|chart| add(&mut self.files, folder, chart));
        Ok(added.collect::<Result<_, _>>()?)
    }

    /// Writes all of them, or nothing.
    pub fn write(self) -> Result<(), Failure> {
        Ok(self.files.write()?)
    }
}

/// The name of a chart, with that of the loading condition of the boat where several are shown.
fn named_in(boat: &Boat, several: bool, stem: &str) -> String {
    let suffix = if several { suffix(&boat.condition().name) } else { String::new() };
    format!("{stem}{suffix}")
}

/// A loading condition as the end of a file name: `-full-fuel-six-aboard`.
fn suffix(condition: &str) -> String {
    let words = condition.split(|character: char| !character.is_alphanumeric());
    let words: Vec<String> = words.filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    format!("-{}", words.join("-"))
}

/// The charts written, by name; nothing when there are none.
pub(super) fn text(charts: &[ChartFiles]) -> String {
    let Some(first) = charts.first() else { return String::new() };
    let folder = first.svg.parent().unwrap_or(first.svg.as_path()).display();
    let mut text = format!("  Charts in {folder}, each as SVG and PNG:\n");
    for chart in charts {
        let name = chart.svg.file_stem().unwrap_or_default().to_string_lossy();
        text.push_str(&format!("    {name}\n"));
    }
    text
}

/// The same in one line.
pub(super) fn line<'a>(charts: impl IntoIterator<Item = &'a ChartFiles>) -> Option<String> {
    let mut charts = charts.into_iter().peekable();
    let first = charts.peek()?;
    let folder = first.svg.parent().unwrap_or(first.svg.as_path()).display().to_string();
    let name = |chart: &ChartFiles| {
        chart.svg.file_stem().unwrap_or_default().to_string_lossy().into_owned()
    };
    let names: Vec<String> = charts.map(name).collect();
    Some(format!("Charts in {folder}, each as SVG and PNG: {}.", names.join(", ")))
}
