use observer::{Bedside, Reading};
use terminal::scenario::read;

use super::patient;

/// Check value 9, arithmetic (C): 60, 80, 90 and 30 a minute are 1000, 750, 666.67 and 2000 ms, as counted on
/// the strip of a paced heart with no rhythm of its own.
#[test]
fn intervals_on_the_strip() {
    for (rate, interval_us) in [("60", 1_000_000), ("80", 750_000), ("90", 666_666), ("30", 2_000_000)] {
        let ready = read(&patient().to_string()).unwrap();
        let found = Reading { output: "6.0".into(), rate: rate.into(), mv: Some("2.0".into()) };
        let mut bedside =
            Bedside::new(simulator::Heart::silent(), ready.profile, simulator::Chamber::Ventricle, found, 1)
                .unwrap();
        bedside.pass(20_000);
        let spikes: Vec<u64> = bedside.strip().spikes(0).collect();
        assert!(spikes.len() >= 9, "{rate}: {} spikes", spikes.len());
        assert!(spikes.windows(2).all(|pair| pair[1] - pair[0] == interval_us), "{rate}: {spikes:?}");
    }
}
