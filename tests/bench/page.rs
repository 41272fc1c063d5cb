//! What the page costs at the server, through its addresses without a socket: `cargo bench --bench page`.

use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode, header};
use divan::Bencher;
use hyper::service::Service;
use hyper_util::service::TowerToHyperService;
use planewright::web::{Site, router};
use tokio::runtime::{Builder, Runtime};

/// The demo boats.
const BOATS: [&str; 3] = ["wren", "lantern", "holm"];

fn main() {
    divan::main();
}

/// The page with what answers it, as it is served: one thread listens, others compute.
struct Served {
    runtime: Runtime,
    page: TowerToHyperService<axum::Router>,
}

impl Served {
    fn new() -> Self {
        let runtime = Builder::new_current_thread().enable_all().build().expect("a runtime");
        let page = router(Site::default()).expect("a page");
        Self { runtime, page: TowerToHyperService::new(page) }
    }

    /// The answer to the last byte.
    fn get(&self, address: &str) -> usize {
        let request = Request::get(address).header(header::HOST, "127.0.0.1");
        let request = request.body(Body::empty()).expect("a request");
        self.runtime.block_on(async {
            let answer = self.page.call(request).await.expect("an answer");
            assert_eq!(answer.status(), StatusCode::OK);
            to_bytes(answer.into_body(), usize::MAX).await.expect("a body").len()
        })
    }
}

/// A drag: both pictures, the numbers, the curves and the words, for the pair at hand.
#[divan::bench(args = BOATS)]
fn drag(bencher: Bencher, name: &str) {
    let served = Served::new();
    let address = format!(
        "/desk/run?boat={name}&planes=600+mm+x+250+mm&units=marine&in=marine&speed=16&deflection=6"
    );
    bencher.bench(|| served.get(divan::black_box(&address)));
}

/// The same with every force drawn.
#[divan::bench(args = BOATS)]
fn drag_with_forces(bencher: Bencher, name: &str) {
    let served = Served::new();
    let address =
        format!("/desk/run?boat={name}&planes=600+mm+x+250+mm&speed=16&deflection=6&forces=on");
    bencher.bench(|| served.get(divan::black_box(&address)));
}

/// A whole desk: the size in every loading, its reasons, the shelf, all charts.
#[divan::bench(args = BOATS, sample_count = 10, sample_size = 1)]
fn desk_with_shelf(bencher: Bencher, name: &str) {
    let served = Served::new();
    let address = format!("/desk?boat={name}&stock=demo");
    bencher.bench(|| served.get(divan::black_box(&address)));
}

/// How sure, at the usual number of draws.
#[divan::bench(args = BOATS, sample_count = 2, sample_size = 1)]
fn how_sure_with_shelf(bencher: Bencher, name: &str) {
    let served = Served::new();
    let address = format!("/desk/sure?boat={name}&stock=demo");
    bencher.bench(|| served.get(divan::black_box(&address)));
}

/// A paper.
#[divan::bench(args = ["architect", "dealer", "owner"], sample_count = 2, sample_size = 1)]
fn paper_of_lantern_with_shelf(bencher: Bencher, reader: &str) {
    let served = Served::new();
    let address = format!("/papers/{reader}.html?boat=lantern&stock=demo");
    bencher.bench(|| served.get(divan::black_box(&address)));
}
