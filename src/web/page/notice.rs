//! What is wrong with a boat file, a list or a form.

use std::collections::BTreeMap;

use maud::{Markup, html};

use super::frame::page;
use super::papers;
use crate::error::{Appearance, error_text};
use crate::web::answer::Refused;
use crate::web::ask::{Ask, Source};
use crate::web::form::{FIELDS, Written};

/// Something wrong, and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::web) struct Notice {
    pub problem: String,
    pub help: String,
}

/// What is wrong with a form, by field; under no name what is about the whole.
#[derive(Clone, Debug, Default)]
pub(in crate::web) struct Faults(BTreeMap<&'static str, Vec<Notice>>);

impl Notice {
    /// An error of the library in its own words.
    pub fn of(error: &dyn miette::Diagnostic) -> Self {
        let help = error.help().map_or_else(String::new, |help| help.to_string());
        Self { problem: error.to_string(), help }
    }

    /// Problem and help.
    pub(super) fn show(&self) -> Markup {
        html! {
            span.problem { (self.problem) }
            @if !self.help.is_empty() { span.help { (self.help) } }
        }
    }
}

impl Faults {
    pub(super) fn of(&self, field: &str) -> &[Notice] {
        self.0.get(field).map_or(&[], Vec::as_slice)
    }

    pub(super) fn count(&self) -> usize {
        self.0.values().map(Vec::len).sum()
    }
}

/// The faults of a boat by field of the form.
pub(in crate::web) fn faults(why: &Refused, written: Option<&Written>) -> Faults {
    let mut by_field: BTreeMap<&'static str, Vec<Notice>> = BTreeMap::new();
    match why {
        Refused::Faults(faults) => {
            for fault in faults.faults() {
                let field = written.and_then(|written| written.field_of(fault)).unwrap_or("");
                let problem = in_words(field, &fault.problem);
                let notice = Notice { problem, help: fault.help.clone() };
                by_field.entry(field).or_default().push(notice);
            }
        }
        Refused::Fault(fault) => {
            let problem = format!("{}: {}", fault.key, fault.problem);
            let notice = Notice { problem, help: fault.remedy.clone() };
            by_field.entry("").or_default().push(notice);
        }
    }
    Faults(by_field)
}

/// What is wrong with a field of the form, without the key of the boat file that stands for it.
fn in_words(name: &str, problem: &str) -> String {
    let Some(field) = FIELDS.iter().find(|field| field.name == name) else {
        return problem.to_owned();
    };
    let rest = problem.strip_prefix(&field.path()).unwrap_or(problem);
    rest.trim_start_matches([':', ' ']).to_owned()
}

/// The first thing wrong with a boat.
pub(in crate::web) fn first_notice(why: &Refused) -> Notice {
    let all = faults(why, None);
    let unknown = || Notice { problem: "the boat cannot be used".to_owned(), help: String::new() };
    all.of("").first().cloned().unwrap_or_else(unknown)
}

/// The page of a boat file with faults: what is wrong, and the file to mend.
pub(in crate::web) fn refused_file(ask: &Ask, why: &Refused) -> Markup {
    let (name, text) = ask.file();
    let all = faults(why, None);
    let count = all.count();
    let faults = if count == 1 { "one fault".to_owned() } else { format!("{count} faults") };
    let main = html! {
        section.sheet {
            h1 { (name) " has " (faults) }
            div #refusal {
                div.faults #faults role="alert" {
                    ul { @for notice in all.of("") { li { (notice.show()) } } }
                }
            }
            @if let Refused::Faults(faults) = why {
                details {
                    summary { "Where they stand in the file" }
                    pre.listing tabindex="0" { (error_text(faults, Appearance::Ascii)) }
                }
            }
            @if let Source::Text(_) = ask.source { (papers::mend(&name, text)) }
            p { a.button.quiet href="/" { "Choose another boat" } }
        }
    };
    page("Faults", "", &main)
}

/// The page of an upload that is no text at all.
pub(in crate::web) fn refused_upload(notice: &Notice) -> Markup {
    let main = html! {
        section.sheet {
            h1 { "This file cannot be used" }
            div #refusal { div.faults #faults role="alert" { p { (notice.show()) } } }
            p { a.button href="/" { "Choose another file" } }
        }
    };
    page("Not a boat file", "", &main)
}
