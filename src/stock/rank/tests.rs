//! Order, shares and reasons.
