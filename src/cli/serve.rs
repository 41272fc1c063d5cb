//! `planewright serve`: a page at this machine, for a dealer with a buyer at the desk.

use std::io::Write;
use std::net::{IpAddr, SocketAddr};
use std::path::PathBuf;
use std::sync::Arc;

use clap::Args;
use serde::Serialize;

use super::screen::{CAUTION, Screen};
use super::{Ending, Failure, shelf};
use crate::doubt::DRAWS;
use crate::input::read_boat;
use crate::web::{DEFAULT_PORT, Site, serve};

const EXAMPLES: &str = "\
Examples:
  planewright serve
  planewright serve my-boat.toml
  planewright serve --stock stock.csv
  planewright serve --port 0 --json
  planewright serve --draws 5000

The page works without the internet: everything it needs is part of the program. It offers the demo
boats, takes a boat file or a short description, shows how the boat runs while speed and planes are
set, says how sure the answer is, and makes the papers that `planewright report` makes. It keeps
nothing: what was chosen stands in the address, or in the page. Ctrl-C stops it.";

/// Serve a page at this machine on which a boat can be chosen, driven and fitted with planes
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct ServeArguments {
    /// Boat file to offer beside the demo boats
    boat: Option<PathBuf>,
    /// Stock list to rank for every boat that comes without one
    #[arg(long, value_name = "CSV")]
    stock: Option<PathBuf>,
    /// Address to listen at; any but one of this machine alone lets others in
    #[arg(long, value_name = "ADDRESS", default_value = "127.0.0.1")]
    address: IpAddr,
    /// Name under which others reach it, besides that of this machine; may be given again
    #[arg(long = "name", value_name = "NAME")]
    names: Vec<String>,
    /// Port; 0 takes one that is free
    #[arg(long, value_name = "N", default_value_t = DEFAULT_PORT)]
    port: u16,
    /// Boats drawn for the likely ranges of the papers
    #[arg(long, value_name = "NUMBER", default_value_t = DRAWS,
          value_parser = clap::value_parser!(u32).range(100..=i64::from(crate::schema::most::DRAWS)))]
    draws: u32,
    /// Print one JSON object with the address, once the page can be opened
    #[arg(long)]
    json: bool,
}

/// Where the page is.
#[derive(Serialize)]
struct Listening {
    program: &'static str,
    version: &'static str,
    address: String,
    port: u16,
    local_only: bool,
    caution: &'static str,
}

pub(super) fn execute(arguments: &ServeArguments) -> Result<Ending, Failure> {
    let boat = arguments.boat.as_ref().map(|path| read_boat(path)).transpose()?;
    if let Some(file) = &boat {
        for warning in &file.warnings {
            eprintln!("warning: {warning}");
        }
    }
    let stock = arguments.stock.as_deref().map(shelf::list).transpose()?.map(Arc::new);
    if !arguments.address.is_loopback() {
        eprint!("{}", Screen::plain().paragraph("warning: ", &open_warning(arguments.address)));
    }
    let ServeArguments { address, port, draws, .. } = *arguments;
    let boat = boat.map(Arc::new);
    let site = Site { address, port, boat, stock, draws, names: arguments.names.clone() };
    serve(site, |bound| announce(bound, arguments.json))?;
    Ok(Ending::Done)
}

/// Said when others than this machine can open the page.
fn open_warning(address: IpAddr) -> String {
    format!(
        "{address} is not this machine alone: whoever reaches it over the network can open the \
         page. There is no password and nothing is encrypted. Serve it so only in a network \
         whose every user you trust; 127.0.0.1 keeps it to this machine."
    )
}

/// Tells where the page is. Output that nobody reads is no reason not to serve.
fn announce(bound: SocketAddr, as_json: bool) {
    let screen = Screen::of_stdout();
    let address = format!("http://{bound}/");
    let printed = if as_json {
        let listening = Listening {
            program: env!("CARGO_PKG_NAME"),
            version: env!("CARGO_PKG_VERSION"),
            address,
            port: bound.port(),
            local_only: bound.ip().is_loopback(),
            caution: CAUTION,
        };
        screen.print_json(&listening)
    } else {
        let text = format!("Open {address} in a browser. Ctrl-C stops the page.\n");
        screen.print(&text)
    };
    if printed.is_err() {
        let _ = writeln!(std::io::stderr(), "warning: the address {bound} could not be printed");
    }
}
