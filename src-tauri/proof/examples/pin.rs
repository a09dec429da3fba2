//! How long a PIN takes to try as it is shipped, by the clock, since somebody waits for it, and what memory that takes:
//! `cargo run --profile bench -p proof --example pin`. A program of its own, with the allocator that the app has.

#[path = "support/bars.rs"]
mod bars;

use std::time::Instant;

use bars::{Bar, Done, median, row};
use seal::{Effort, LockedKey, Secret, TabletKey};

/// The median of so many.
const ROUNDS: usize = 5;

/// A PIN tried at the shipped effort: how long, and by how much the peak of memory rises.
fn main() -> Done<()> {
    let pin = Secret::new(b"482913".to_vec());
    let locked = LockedKey::lock(&TabletKey::from_seed(&[7; 32]), &pin, Effort::SHIPPED, &[3; 40])
        .map_err(|fault| format!("{fault:?}"))?;
    let mut took = Vec::new();
    for _ in 0..ROUNDS {
        let began = Instant::now();
        locked.unlock(&pin).map_err(|fault| format!("{fault:?}"))?;
        took.push(began.elapsed().as_secs_f64() * 1_000.0);
    }
    let peak = peak_kib()? / 1_024.0;
    bars::judged(&[
        row("a PIN tried (Argon2id)", median(took), Bar::AtLeast(300.0), "ms"),
        row("peak of this program's memory then", peak, Bar::AtLeast(64.0), "MiB"),
    ])
}

fn peak_kib() -> Done<f64> {
    let status = std::fs::read_to_string("/proc/self/status")?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).ok_or("no peak of memory")?;
    Ok(line.trim().trim_end_matches(" kB").parse()?)
}
