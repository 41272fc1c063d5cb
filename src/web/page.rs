//! Answers as HTML.
//!
//! Everything works without the script; with it, the pictures follow the sliders.

mod controls;
mod desk;
mod form;
mod frame;
mod notice;
mod papers;
mod particulars;
mod running;
mod shelf;
mod sizing;
mod start;
mod sure;
mod told;
mod transom;

pub(super) use desk::{desk, run};
pub(super) use form::form;
pub(super) use frame::refusal;
pub(super) use notice::{Faults, Notice, faults, first_notice, refused_file, refused_upload};
pub(super) use start::start;
pub(super) use sure::{not_sure, sure, sure_alone, sure_later};

use maud::{Markup, html};

use crate::field::as_data;

/// One cell of a table, with the value behind it for other programs.
fn cell(text: &str, si: Option<f64>) -> Markup {
    html! {
        @match si {
            Some(si) => td.number data-si=(as_data(si)) { (text) },
            None => td.number { (text) },
        }
    }
}
