//! The marking-out sheet as text.

mod cautions;
mod holding;
mod lists;
mod steps;
mod tables;

use super::face::deadrise_deg;
use super::placement::Placement;
use super::say::Say;
use crate::units::number_with_decimals;

/// Width of the sheet in characters.
const WIDE: usize = 78;
/// Difference in the bottom edge, as a share of it, beyond which the boat file is wrong; chosen
/// here.
const EDGE_SLACK: f64 = 0.005;

/// Everything, in the order in which it is read at the boat.
pub(super) fn text(placement: &Placement, say: Say) -> String {
    let mut page = Page::default();
    title(&mut page, placement, say);
    cautions::write(&mut page, placement);
    notes(&mut page, placement, say);
    tables::write(&mut page, placement, say);
    holding::write(&mut page, placement, say);
    steps::write(&mut page, placement, say);
    tables::write_checks(&mut page, placement, say);
    lists::write(&mut page, placement, say);
    page.0
}

fn title(page: &mut Page, placement: &Placement, say: Say) {
    if let Some(warning) = placement.warning() {
        page.line(warning);
        page.blank();
    }
    page.line("MARKING-OUT SHEET FOR A PAIR OF TRIM PLANES");
    page.line(&"=".repeat(WIDE));
    let hardware = placement.hardware.part.as_deref().map_or_else(
        || "no part chosen; hardware by usual proportions".to_owned(),
        |part| format!("part {part}"),
    );
    let transom = &placement.transom;
    let edge = say.length(placement.edge());
    page.entry("Boat", &placement.boat);
    page.entry(
        "Planes",
        &format!(
            "two, each span {} and chord {}; {hardware}",
            say.length(placement.pair.span),
            say.length(placement.pair.chord)
        ),
    );
    page.entry(
        "Transom",
        &format!(
            "beam {}, deadrise {} deg; bottom edge {edge} from centreline to chine. Measure that \
             edge on the boat: if it differs by more than {}, correct the boat file before \
             marking anything.",
            say.length(transom.beam),
            number_with_decimals(deadrise_deg(transom), 1),
            say.length(placement.edge() * EDGE_SLACK)
        ),
    );
    page.entry("Units", &format!("{} The template is exact.", say.rounding()));
    let checksum =
        placement.checksum.as_ref().map_or_else(String::new, |sum| format!(", input {sum}"));
    page.entry("Made by", &format!("Planewright {}{checksum}", env!("CARGO_PKG_VERSION")));
}

fn notes(page: &mut Page, placement: &Placement, say: Say) {
    page.heading("KNOW BEFORE YOU START");
    page.bullet(
        "Clearances, hinge and gauge heights, drill sizes and how far fittings are turned are \
         common practice, no source. What the maker of the parts, the builder of the boat or the \
         sealant's data sheet says comes first.",
    );
    for note in &placement.notes {
        page.bullet(&note.sentence(say));
    }
    for strake in &placement.strakes {
        page.bullet(&strake.sentence(say.0.small_length()));
    }
}

/// Lines of text as they are written.
#[derive(Default)]
struct Page(String);

impl Page {
    fn line(&mut self, text: &str) {
        self.0.push_str(text.trim_end());
        self.0.push('\n');
    }

    fn blank(&mut self) {
        self.0.push('\n');
    }

    fn heading(&mut self, text: &str) {
        self.blank();
        self.line(text);
        self.line(&"-".repeat(text.chars().count()));
    }

    /// A paragraph whose first line begins with `lead` and whose others stand under its text.
    fn hanging(&mut self, lead: &str, text: &str) {
        let indent = lead.chars().count();
        let mut line = lead.to_owned();
        let mut empty = true;
        for word in text.split_whitespace() {
            if !empty && line.chars().count() + 1 + word.chars().count() > WIDE {
                self.line(&line);
                line = " ".repeat(indent);
                empty = true;
            }
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
            empty = false;
        }
        self.line(&line);
    }

    fn paragraph(&mut self, text: &str) {
        self.hanging("", text);
    }

    fn bullet(&mut self, text: &str) {
        self.hanging("  * ", text);
    }

    fn entry(&mut self, name: &str, text: &str) {
        self.hanging(&format!("{name:<10}"), text);
    }
}
