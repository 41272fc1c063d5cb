//! Who asks, and for whom: names of this server, and pages elsewhere that ask on a visitor's behalf.

use std::net::IpAddr;

use axum::http::{HeaderMap, Method, Uri, header};

/// Names under which the page answers, besides addresses.
#[derive(Clone, Debug)]
pub(super) struct Names {
    /// Whether only this machine is answered.
    local_only: bool,
    own: Vec<String>,
}

/// What is wrong with the name in a request.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Misnamed {
    /// It is given twice, and so that nobody knows which counts.
    Twice,
    /// It is not that of this server.
    Foreign,
}

impl Names {
    /// The names of this machine, and those given.
    pub fn of(address: IpAddr, given: &[String]) -> Self {
        let mut own = given.to_vec();
        let machine = gethostname::gethostname().to_string_lossy().into_owned();
        if !machine.is_empty() {
            own.push(format!("{machine}.local"));
            own.push(machine);
        }
        Self { local_only: address.is_loopback(), own }
    }

    /// Whether a request is meant for this server. A page elsewhere whose name was made to point
    /// here must not read what is served; an address cannot be made to point anywhere else.
    pub fn check(&self, headers: &HeaderMap, uri: &Uri) -> Result<(), Misnamed> {
        let mut hosts = headers.get_all(header::HOST).iter();
        let in_head = hosts.next().map(|host| host.to_str().unwrap_or_default());
        if hosts.next().is_some() {
            return Err(Misnamed::Twice);
        }
        let in_uri = uri.authority().map(|authority| authority.as_str());
        if in_head.is_none() && in_uri.is_none() {
            return Err(Misnamed::Foreign);
        }
        let all_own = in_head.into_iter().chain(in_uri).all(|host| self.is_own(host));
        if all_own { Ok(()) } else { Err(Misnamed::Foreign) }
    }

    fn is_own(&self, host: &str) -> bool {
        let name = match host.strip_prefix('[') {
            Some(rest) => rest.split(']').next().unwrap_or_default(),
            None => host.rsplit_once(':').map_or(host, |(name, _)| name),
        };
        if name.eq_ignore_ascii_case("localhost") {
            return true;
        }
        match name.parse::<IpAddr>() {
            Ok(address) => !self.local_only || address.is_loopback(),
            Err(_) => {
                let name = name.trim_end_matches('.');
                !self.local_only && self.own.iter().any(|own| own.eq_ignore_ascii_case(name))
            }
        }
    }
}

/// Whether a page elsewhere asks: it may lead a visitor to the first page, and do nothing else.
///
/// Browsers say so in `Sec-Fetch-Site` (W3C, Fetch Metadata Request Headers) where the page is served
/// to this machine, else in `Origin` (RFC 6454) of what is posted, else in `Referer`. What is no
/// browser says none of it.
pub(super) fn is_from_elsewhere(method: &Method, uri: &Uri, headers: &HeaderMap) -> bool {
    let text = |name: &str| headers.get(name).map(|value| value.to_str().unwrap_or("null"));
    let is_own = |origin: &str| {
        let host = text("host").unwrap_or_default();
        origin.split_once("://").is_some_and(|(_, rest)| {
            rest.split('/').next().unwrap_or_default().eq_ignore_ascii_case(host)
        })
    };
    let foreign = match (text("sec-fetch-site"), text("origin"), text("referer")) {
        // A page that tells no address of its own posts with the origin `null`.
        (Some("same-origin" | "none"), None | Some("null"), _) => false,
        (Some("same-origin" | "none") | None, Some(origin), _) => !is_own(origin),
        (Some(_), ..) => true,
        (None, None, Some(page)) => !is_own(page),
        (None, None, None) => false,
    };
    let is_reading = *method == Method::GET || *method == Method::HEAD;
    let is_followed = text("sec-fetch-mode").is_none_or(|mode| mode == "navigate");
    foreign && !(is_reading && is_followed && uri.path() == "/")
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::{HeaderName, HeaderValue};

    fn head(pairs: &[(&str, &str)]) -> HeaderMap {
        let mut headers = HeaderMap::new();
        for (name, value) in pairs {
            let name = HeaderName::from_bytes(name.as_bytes()).unwrap();
            headers.append(name, HeaderValue::from_str(value).unwrap());
        }
        headers
    }

    #[test]
    fn error_only_own_names_are_answered() {
        let uri = Uri::from_static("/desk");
        let here = Names::of("127.0.0.1".parse().unwrap(), &["yard.example".to_owned()]);
        let open = Names::of("0.0.0.0".parse().unwrap(), &["yard.example".to_owned()]);
        for (host, is_here, is_open) in [
            ("localhost:7415", true, true),
            ("127.0.0.1:7415", true, true),
            ("[::1]:7415", true, true),
            ("192.0.2.7:7415", false, true),
            ("[2001:db8::7]", false, true),
            ("Yard.Example:7415", false, true),
            ("yard.example.:7415", false, true),
            ("boats.example", false, false),
            ("localhost.boats.example", false, false),
            ("127.0.0.1.boats.example", false, false),
            ("", false, false),
        ] {
            let headers = head(&[("host", host)]);
            assert_eq!(here.check(&headers, &uri).is_ok(), is_here, "{host}");
            assert_eq!(open.check(&headers, &uri).is_ok(), is_open, "{host}");
        }
        let twice = head(&[("host", "localhost"), ("host", "localhost")]);
        assert_eq!(here.check(&twice, &uri), Err(Misnamed::Twice));
        assert_eq!(here.check(&head(&[]), &uri), Err(Misnamed::Foreign));
        let whole = Uri::from_static("http://boats.example/desk");
        assert_eq!(here.check(&head(&[("host", "localhost")]), &whole), Err(Misnamed::Foreign));
    }

    #[test]
    fn error_pages_elsewhere_may_only_lead_to_the_first_page() {
        let elsewhere = |method: Method, path: &'static str, pairs: &[(&str, &str)]| {
            let mut pairs = pairs.to_vec();
            pairs.push(("host", "127.0.0.1:7415"));
            is_from_elsewhere(&method, &Uri::from_static(path), &head(&pairs))
        };
        let own = ("origin", "http://127.0.0.1:7415");
        for foreign in ["cross-site", "same-site"] {
            let site = ("sec-fetch-site", foreign);
            assert!(elsewhere(Method::POST, "/desk", &[site]));
            assert!(elsewhere(Method::POST, "/desk", &[site, own]));
            assert!(elsewhere(Method::GET, "/desk", &[site, ("sec-fetch-mode", "navigate")]));
            assert!(elsewhere(Method::GET, "/", &[site, ("sec-fetch-mode", "no-cors")]));
            assert!(!elsewhere(Method::GET, "/", &[site, ("sec-fetch-mode", "navigate")]));
            assert!(elsewhere(Method::POST, "/", &[site, ("sec-fetch-mode", "navigate")]));
        }
        let same = ("sec-fetch-site", "same-origin");
        assert!(!elsewhere(Method::POST, "/desk", &[same, ("origin", "null")]));
        assert!(!elsewhere(Method::POST, "/desk", &[same, own]));
        assert!(elsewhere(Method::POST, "/desk", &[same, ("origin", "http://boats.example")]));
        assert!(!elsewhere(Method::GET, "/desk", &[("sec-fetch-site", "none")]));
        // Browsers that say less.
        assert!(!elsewhere(Method::POST, "/desk", &[own]));
        for origin in ["http://boats.example", "null", "http://127.0.0.1:8080", ""] {
            assert!(elsewhere(Method::POST, "/desk", &[("origin", origin)]), "{origin}");
        }
        assert!(elsewhere(Method::GET, "/desk", &[("referer", "http://boats.example/x")]));
        assert!(!elsewhere(Method::GET, "/desk", &[("referer", "http://127.0.0.1:7415/")]));
        // What is no browser.
        assert!(!elsewhere(Method::POST, "/desk", &[]));
    }
}
