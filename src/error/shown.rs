//! How the faults of a file are shown to a person: each place underlined, with its cure.

use std::ffi::OsStr;
use std::fmt;
use std::io::IsTerminal;

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError,
    MietteSpanContents, SourceCode, SourceSpan, SpanContents, ThemeCharacters, ThemeStyles,
};

use super::{FileError, FileFault, FileFaults, MOST_FAULTS_SHOWN};

/// Width of error texts, in columns.
const WIDTH: usize = 80;

impl Diagnostic for FileError {
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.remedy().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        match self {
            Self::Faults(faults) => faults.source_code(),
            _ => None,
        }
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        match self {
            Self::Faults(faults) => faults.related(),
            _ => None,
        }
    }
}

/// The text of the file under its name.
impl SourceCode for FileFaults {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        lines_before: usize,
        lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let own = self.text.as_str().read_span(span, lines_before, lines_after)?;
        Ok(Box::new(MietteSpanContents::new_named(
            self.name.clone(),
            own.data(),
            *own.span(),
            own.line(),
            own.column(),
            own.line_count(),
        )))
    }
}

impl Diagnostic for FileFaults {
    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(self)
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        let shown = self.faults.iter().take(MOST_FAULTS_SHOWN).chain(self.unshown.as_deref());
        Some(Box::new(shown.map(|fault| fault as &dyn Diagnostic)))
    }
}

impl Diagnostic for FileFault {
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(&self.help))
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let place = self.place.clone()?;
        Some(Box::new(std::iter::once(LabeledSpan::new_with_span(None, place))))
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
        Self::of(std::io::stderr().is_terminal())
    }

    /// The appearance for a stream of this run; a terminal that calls itself `dumb` shows neither lines nor colour.
    #[must_use]
    pub fn of(is_terminal: bool) -> Self {
        let [no_color, term] = ["NO_COLOR", "TERM"].map(std::env::var_os);
        let is_dumb = term.is_some_and(|term| term == "dumb");
        Self::choose(is_terminal && !is_dumb, no_color.as_deref())
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
