//! The server: listens, answers, and stops when asked.

use std::io;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::num::NonZero;
use std::sync::Arc;
use std::time::Duration;

use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use miette::Diagnostic;
use thiserror::Error;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{Semaphore, watch};

use super::bare::Dressed;
use super::gate::Gates;
use super::guard::ANSWER_TIME;
use super::kept::Kept;
use super::routes;
use super::slow::Behind;
use crate::doubt::DRAWS;
use crate::input::BoatFile;
use crate::stock::StockList;

/// Port when none is asked for.
pub const DEFAULT_PORT: u16 = 7415;
/// Time in which the head of a request must arrive, and for which an idle connection is kept.
const HEAD_TIME: Duration = Duration::from_secs(10);
/// Connections open at once; more wait to be taken.
const MOST_CONNECTIONS: u32 = 512;
/// A connection may ask new things for so long; a browser then opens another.
const CONNECTION_TIME: Duration = Duration::from_secs(300);
/// Largest head of a request.
const LARGEST_HEAD_BYTES: usize = 64 << 10;
/// Time given to requests under way when the server stops.
const LAST_REQUESTS_TIME: Duration = Duration::from_secs(5);
/// Pause when the system refuses a connection, e.g. because too many are open.
const PAUSE: Duration = Duration::from_millis(50);

/// What is served.
#[derive(Clone, Debug)]
pub struct Site {
    /// Address to listen at.
    pub address: IpAddr,
    /// Port; 0 for any that is free.
    pub port: u16,
    /// A boat to offer beside the demo boats.
    pub boat: Option<Arc<BoatFile>>,
    /// A stock list to rank for every boat that comes without one.
    pub stock: Option<Arc<StockList>>,
    /// Boats drawn for the likely ranges.
    pub draws: u32,
    /// Names under which others reach it, besides those of the machine.
    pub names: Vec<String>,
}

impl Default for Site {
    /// This machine alone, the usual port, demo boats only.
    fn default() -> Self {
        let address = IpAddr::V4(Ipv4Addr::LOCALHOST);
        Self {
            address,
            port: DEFAULT_PORT,
            boat: None,
            stock: None,
            draws: DRAWS,
            names: Vec::new(),
        }
    }
}

/// Why nothing can be served.
#[derive(Debug, Error, Diagnostic)]
pub enum ServeError {
    /// Another program listens there.
    #[error("{0}: another program uses this port already")]
    #[diagnostic(help(
        "stop it, or take another port with --port; --port 0 takes one that is free"
    ))]
    InUse(SocketAddr),
    /// The system refuses.
    #[error("{address}: the system does not let the page be served here: {reason}")]
    #[diagnostic(help(
        "take an address of this machine, such as 127.0.0.1, and a port above 1023"
    ))]
    Refused {
        /// Address and port asked for.
        address: SocketAddr,
        /// What the system says.
        reason: io::Error,
    },
    /// The machinery for answering cannot be started.
    #[error("the server cannot be started: {0}")]
    Machinery(io::Error),
}

/// The page without a socket: what answers the requests, for whoever brings them otherwise.
///
/// # Errors
/// When the machinery for slow answers cannot be started.
pub fn router(site: Site) -> Result<axum::Router, ServeError> {
    let gates = Gates::new().map_err(ServeError::Machinery)?;
    Ok(routes::router(Arc::new(site), Behind { gates, kept: Kept::default() }))
}

/// Serves until Ctrl-C or, where there is such a thing, SIGTERM; `ready` is told the address once it listens.
///
/// # Errors
/// When the address cannot be listened at.
pub fn serve(site: Site, ready: impl FnOnce(SocketAddr)) -> Result<(), ServeError> {
    let cores = std::thread::available_parallelism().map_or(2, NonZero::get);
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        // Answers are computed here; more threads than cores would only take turns.
        .max_blocking_threads(cores.max(2))
        .build()
        .map_err(ServeError::Machinery)?;
    let result = runtime.block_on(listen(site, ready));
    // An answer under way when the time is over is not waited for.
    runtime.shutdown_background();
    result
}

async fn listen(site: Site, ready: impl FnOnce(SocketAddr)) -> Result<(), ServeError> {
    let address = SocketAddr::new(site.address, site.port);
    let refused = |reason: io::Error| match reason.kind() {
        io::ErrorKind::AddrInUse => ServeError::InUse(address),
        _ => ServeError::Refused { address, reason },
    };
    let router = router(site)?;
    let listener = TcpListener::bind(address).await.map_err(refused)?;
    let bound = listener.local_addr().map_err(refused)?;
    let stop = stopped().map_err(ServeError::Machinery)?;
    tokio::pin!(stop);
    ready(bound);
    let places = Arc::new(Semaphore::new(MOST_CONNECTIONS as usize));
    let (ending, ended) = watch::channel(());
    loop {
        let accepted = tokio::select! {
            () = &mut stop => break,
            accepted = async {
                let place = places.clone().acquire_owned().await;
                (place, listener.accept().await)
            } => accepted,
        };
        let (Ok(place), Ok((stream, _))) = accepted else {
            tokio::time::sleep(PAUSE).await;
            continue;
        };
        let (router, ended) = (router.clone(), ended.clone());
        tokio::spawn(async move {
            connected(stream, router, ended).await;
            drop(place);
        });
    }
    drop(listener);
    drop(ending);
    let _ = tokio::time::timeout(LAST_REQUESTS_TIME, places.acquire_many(MOST_CONNECTIONS)).await;
    Ok(())
}

/// One connection, until it ends, has lasted long enough, or the server stops.
async fn connected(stream: TcpStream, router: axum::Router, mut ended: watch::Receiver<()>) {
    // Without it small answers wait for each other.
    let _ = stream.set_nodelay(true);
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD_TIME)
        .max_buf_size(LARGEST_HEAD_BYTES)
        .auto_date_header(false)
        .serve_connection(TokioIo::new(Dressed::new(stream)), TowerToHyperService::new(router));
    tokio::pin!(connection);
    // A visitor that goes away in the middle is no fault of ours.
    tokio::select! {
        _ = connection.as_mut() => return,
        _ = ended.changed() => {}
        () = tokio::time::sleep(CONNECTION_TIME) => {}
    }
    connection.as_mut().graceful_shutdown();
    // What is under way may be answered; whoever does not read it is let go.
    let _ = tokio::time::timeout(ANSWER_TIME, connection).await;
}

/// What ends once whoever started the server stops it; listens from the moment it is made.
#[cfg(unix)]
fn stopped() -> io::Result<impl Future<Output = ()>> {
    use tokio::signal::unix::{SignalKind, signal};
    let mut interrupted = signal(SignalKind::interrupt())?;
    let mut terminated = signal(SignalKind::terminate())?;
    Ok(async move {
        tokio::select! {
            _ = interrupted.recv() => {}
            _ = terminated.recv() => {}
        }
    })
}

/// What ends once whoever started the server stops it.
#[cfg(not(unix))]
fn stopped() -> io::Result<impl Future<Output = ()>> {
    Ok(async {
        let _ = tokio::signal::ctrl_c().await;
    })
}
