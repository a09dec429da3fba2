//! The exercises that come with Holdfast.

use std::sync::LazyLock;

use crate::exercise::Exercise;
use crate::fault::Fault;

macro_rules! embedded {
    ($($id:literal),* $(,)?) => {
        /// Each file's id and text.
        const FILES: &[(&str, &str)] =
            &[$(($id, include_str!(concat!("../../../scenarios/exercises/", $id, ".json")))),*];
    };
}

embedded![
    "quiet",
    "no-own-beats",
    "escape-sleeps",
    "high-threshold",
    "did-not-see",
    "found-asynchronous",
    "extra-beats",
    "t-wave-seen",
    "minimum-captures",
    "block-at-faster-rate",
    "wrong-chamber",
    "pressure-falls",
    "loose-pin",
    "spikes-without-beats",
    "capture-lost",
    "shock-in-check",
    "no-capture-at-maximum",
];

static SHIPPED: LazyLock<Result<Vec<Exercise>, Fault>> = LazyLock::new(|| {
    let named =
        |id: &str, fault: Fault| Fault::Shipped { file: format!("{id}.json"), fault: Box::new(fault) };
    FILES.iter().map(|(id, text)| Exercise::from_json(text).map_err(|fault| named(id, fault))).collect()
});

/// From quiet to nasty.
///
/// # Errors
/// A shipped file has a fault: a test keeps it from being so.
pub fn exercises() -> Result<&'static [Exercise], &'static Fault> {
    SHIPPED.as_ref().map(Vec::as_slice)
}
