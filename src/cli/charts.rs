//! Charts written into a folder, and their names in print.

use std::path::Path;

use super::Failure;
use crate::boat::Boat;
use crate::chart::ChartFiles;
use crate::chart::doubt::NamedBars;
use crate::chart::running::NamedChart;
use crate::chart::running::own::OwnChart;

/// A folder for charts, and how the names of those of one loading condition end.
pub(super) struct Folder<'a> {
    path: &'a Path,
    suffix: String,
}

impl<'a> Folder<'a> {
    /// Makes the folder. Where several loading conditions are shown, `several`, the charts carry the name of that of the boat.
    pub fn of(path: &'a Path, boat: &Boat, several: bool) -> Result<Self, Failure> {
        make(path)?;
        let suffix = if several { suffix(&boat.condition().name) } else { String::new() };
        Ok(Self { path, suffix })
    }

    /// Writes charts, each as SVG and PNG.
    pub fn write(&self, charts: &[NamedChart]) -> Result<Vec<ChartFiles>, Failure> {
        let written =
            charts.iter().map(|named| named.chart.write(self.path, &self.name(named.stem)));
        Ok(written.collect::<Result<_, _>>()?)
    }

    /// The same of charts that were asked for by their fields.
    pub fn write_own(&self, charts: &[OwnChart]) -> Result<Vec<ChartFiles>, Failure> {
        let written = charts.iter().map(|own| own.chart.write(self.path, &self.name(&own.stem)));
        Ok(written.collect::<Result<_, _>>()?)
    }

    /// The same of bar charts.
    pub fn write_bars(&self, charts: &[NamedBars]) -> Result<Vec<ChartFiles>, Failure> {
        let written =
            charts.iter().map(|named| named.chart.write(self.path, &self.name(named.stem)));
        Ok(written.collect::<Result<_, _>>()?)
    }

    fn name(&self, stem: &str) -> String {
        format!("{stem}{}", self.suffix)
    }
}

/// Makes a folder where there is none.
pub(super) fn make(folder: &Path) -> Result<(), Failure> {
    std::fs::create_dir_all(folder)
        .map_err(|reason| Failure::Folder { path: folder.to_owned(), reason })
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
