//! What holds the planes, and by which formula that was found.

use uom::si::angle::degree;
use uom::si::f64::{Force, Length};
use uom::si::force::newton;
use uom::si::velocity::knot;

use super::Page;
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::plane::strength::bolt::{PROOF_STRESS_MPA, WOOD_BEARING_MPA};
use crate::stock::assess::{BoltPattern, Check, HeldBy};
use crate::units::number_with_decimals;

pub(super) fn write(page: &mut Page, placement: &Placement, say: Say) {
    page.heading("5. WHAT HOLDS THE PLANES");
    page.paragraph(
        "Judged at the deflection that is allowed at each speed up to top speed, for screws in a \
         sound plywood core (specific gravity 0.50, wet in service). Is yours solid laminate, foam \
         or metal, or not sound: STOP, and let the builder say how the planes are fastened. 'Steady' \
         and 'slamming' are what running in calm water and hard knocks take of what is borne with \
         its safety factor.",
    );
    page.line("                       at      down steady slamming");
    for check in &placement.holding.checks {
        page.line(&line(check));
    }
    let bolts = &placement.holding.bolts;
    for (held, what, each) in
        [(&bolts.hinge, "Hinge leaf", "leaf"), (&bolts.bracket, "Upper bracket, each", "bracket")]
    {
        match held {
            HeldBy::Bolts(pattern) => page.bullet(&pattern_text(pattern, what, each, say)),
            HeldBy::Screws => page.bullet(&format!("{what}: its screws bear both.")),
            HeldBy::Nothing | HeldBy::NotCovered => {}
        }
    }
    for text in others(placement, say) {
        page.bullet(&text);
    }
    if bolts.any() {
        formulas(page);
    }
}

fn line(check: &Check) -> String {
    let percent = |share: Option<f64>| {
        share.map_or_else(|| "-".to_owned(), |share| format!("{:.0} %", 100.0 * share))
    };
    format!(
        "{:<18}{:>6.1} kn{:>6.1} deg{:>7}{:>8}  {}",
        check.bearer.text().trim_start_matches("the "),
        check.speed.get::<knot>(),
        check.deflection.get::<degree>(),
        percent(check.steady),
        percent(check.slamming),
        check.verdict().map_or("not covered", |verdict| verdict.word())
    )
}

fn pattern_text(pattern: &BoltPattern, what: &str, each: &str, say: Say) -> String {
    let rows = if pattern.between_rows > Length::default() {
        format!("in two rows {} apart, ", say.length(pattern.between_rows))
    } else {
        String::new()
    };
    let spacing = if pattern.spacing > Length::default() {
        format!("{} from one to the next, ", say.length(pattern.spacing))
    } else {
        String::new()
    };
    let backing = &pattern.backing;
    format!(
        "{what}: {} through-bolts {}, one in every hole of the {each}, {rows}{spacing}the end ones \
         {} from its end; inside, under washers, a backing plate {} long, {} wide, {} thick. Under \
         the slamming load each bolt is pulled by {} and pushed along the transom by {}, {:.0} % of \
         what it bears.",
        pattern.count,
        pattern.bolt.name(),
        say.length(pattern.edge),
        say.length(backing.length),
        say.length(backing.width),
        say.fine(backing.thickness),
        newtons(pattern.pull),
        newtons(pattern.across),
        100.0 * pattern.share()
    )
}

/// What bolts do not cure.
fn others(placement: &Placement, say: Say) -> Vec<String> {
    let holding = &placement.holding;
    let plate = holding.plate.map(|[own, needed]| {
        format!(
            "Plate: {} thick; slamming asks for {}, or for folds or ribs that its maker answers for.",
            say.fine(own),
            say.fine(needed)
        )
    });
    let actuators = holding.actuators.map(|[own, needed]| {
        format!(
            "Actuators: each bears {} standing still; slamming asks for {}. Let the planes rest \
             against a stop, or take actuators that bear it.",
            newtons(own),
            newtons(needed)
        )
    });
    plate.into_iter().chain(actuators).collect()
}

fn newtons(force: Force) -> String {
    format!("{} N", number_with_decimals(force.get::<newton>(), 0))
}

fn formulas(page: &mut Page) {
    page.paragraph(&format!(
        "How the bolts were found. Pull: the force of the hinge off the transom times leaf \
         height/(leaf height - row height), since the leaf pries about its upper edge, and the force \
         along it times the offset of the pin over the same arm; all bolts share alike. Bolt: \
         sqrt(s^2 + 3 t^2) of tension s and shear t on the stress area of the thread (von Mises), at \
         most half of {PROOF_STRESS_MPA:.0} MPa, the proof stress of stainless class 70 (ISO 3506-1, \
         from memory). Backing plate: so wide that plywood bears it on its face at {WOOD_BEARING_MPA} \
         MPa (wet Douglas fir, from memory), so thick that w s^2/8 between bolts and w e^2/2 beyond \
         them keep it under half the yield stress of stainless 316; sea-water aluminium of that \
         thickness does too."
    ));
}
