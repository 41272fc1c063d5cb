//! The page to send: one file that works without the program and without a network.
//!
//! What the sliders show is computed beforehand, at every whole speed and every whole degree in
//! every loading, and stands in the file as compact JSON; its script looks numbers up and computes
//! none. Without a script the advice, the settings and the cautions are there all the same.

mod values;

use maud::{Markup, PreEscaped, html};

use super::gather::Gathered;
use super::{ReportError, dealer, helm, limits, origin, owner, pictures};
use crate::boat::degrees;
use crate::document::{Block, Document, Form, html as renderer};
use crate::picture::Frame;
use values::Values;

/// What the script may do: nothing but move this page.
const POLICY: &str =
    "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:";
const STYLE: &str = include_str!("buyer/buyer.css");
const SCRIPT: &str = include_str!("buyer/buyer.js");

/// Everything but what moves.
pub(super) fn document(gathered: &Gathered) -> Result<Document, ReportError> {
    let mut blocks = above(gathered);
    blocks.extend(helm::how_to_use(gathered));
    blocks.extend(owner::as_it_comes(gathered));
    blocks.extend([
        Block::Section("What not to expect".to_owned()),
        Block::Points(limits::limits(gathered)),
        Block::Caution { title: "Before you rely on it".to_owned(), points: limits::cautions() },
    ]);
    Ok(Document {
        title: format!("{} on trim planes", gathered.boat().name()),
        subject: "To look at, and to try by yourself".to_owned(),
        origin: origin(gathered),
        form: Form::Letter,
        blocks,
    })
}

/// What stands above the sliders.
fn above(gathered: &Gathered) -> Vec<Block> {
    let mut blocks = gathered.first();
    blocks.extend(gathered.is_said().then(|| Block::Lead(owner::in_short(gathered))));
    blocks.extend(dealer::caveats(gathered));
    blocks
}

/// The page.
pub(super) fn page(gathered: &Gathered) -> Result<String, ReportError> {
    let document = document(gathered)?;
    let values = Values::of(gathered)?;
    let stage = stage(gathered, &values)?;
    let head = html! {
        meta http-equiv="Content-Security-Policy" content=(POLICY);
        style { (PreEscaped(STYLE)) }
    };
    Ok(renderer::page_around(&document, None, &head, (above(gathered).len(), &stage)))
}

/// The boat and the sliders; before the script runs, a picture of her as advised where her bow is highest.
fn stage(gathered: &Gathered, values: &Values) -> Result<Markup, ReportError> {
    let [speed, planes] = values.first();
    Ok(html! {
        section #stage aria-labelledby="stage_title" {
            h2 #stage_title { "Try her" }
            noscript { p { "The sliders need a script, which this reader does not run. What is advised stands below all the same." } }
            div #danger role="status" aria-live="assertive" {}
            figure #picture { (portrait(gathered)?) }
            p #words role="status" aria-live="polite" {}
            div #sliders hidden {
                @if values.loadings() > 1 {
                    label for="loading" { "Loading" }
                    select #loading { @for (index, name) in values.names().enumerate() { option value=(index) { (name) } } }
                }
                label for="speed" { "Speed" }
                output #speed_now for="speed" {}
                input #speed type="range" min="0" max="1" step="1" value=(speed);
                @if values.has_planes() {
                    label for="planes" { "Planes down" }
                    output #planes_now for="planes" {}
                    input #planes type="range" min="0" max="1" step="1" value=(planes);
                    div #limit aria-hidden="true" { span #free {} span #beyond {} }
                    p #never {}
                    button #advised type="button" { (if gathered.is_short() { "Set them as computed" } else { "Set them as advised" }) }
                }
            }
            table #numbers hidden {
                thead { tr { td {} th.number scope="col" { "planes up" } @if values.has_planes() { th.number #as_set scope="col" {} } } }
                tbody {
                    @for (id, name) in [("trim", "Trim"), ("resistance", "Resistance"), ("draft", "Draft at the transom")] {
                        tr { th scope="row" { (name) } td.number id={ (id) "_up" } {} @if values.has_planes() { td.number id={ (id) "_set" } {} } }
                    }
                }
            }
            div #untested {}
            p.small { "Trim is the angle between her keel and the water. Trim, draft and planes are drawn to scale as computed for the boat as described; bow and sides are a sketch." }
        }
        script type="application/json" #values { (PreEscaped(values.json())) }
        script { (PreEscaped(SCRIPT)) }
    })
}

fn portrait(gathered: &Gathered) -> Result<Markup, ReportError> {
    let Some(hump) = &gathered.hump else { return Ok(html! {}) };
    let set = gathered.as_set();
    let boat = set.fitted(hump.loading)?;
    let is_down = set.advised.pair().is_some() && degrees(hump.deflection) > 0.0;
    let deflection = if is_down { hump.deflection } else { Default::default() };
    let point = set.point(hump.loading, hump.speed, deflection)?;
    let units = gathered.size.units;
    let shown = pictures::Shown { boat: &boat, point: &point, units, frame: Frame::Narrow };
    Ok(renderer::block(&Block::Pictures(vec![shown.side(String::new())])))
}
