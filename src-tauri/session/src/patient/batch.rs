//! One twentieth of a second on its way to the page: numbered, little-endian, under 200 bytes.

use practice::Run;
use simulator::strip::Batch;
use simulator::{Chamber, Mark, MarkKind, SpikeOutcome, What};

/// Added to the kind of a pacing mark whose spike made no beat.
const LOST: u8 = 0x80;

/// Stream, number, pulse a minute (0: none), whether nothing joins it to the one before, count of marks; 25 samples
/// of ECG in µV, 25 of pulse in mmHg; each mark as its sample and its kind.
pub fn bytes(stream: u32, batch: &Batch, run: &Run, apart: bool) -> Vec<u8> {
    let marks: Vec<u8> =
        batch.marks.iter().flat_map(|(sample, mark)| [*sample, kind(*mark, *sample, batch, run)]).collect();
    let count = u8::try_from(batch.marks.len()).unwrap_or(u8::MAX);
    let mut bytes = Vec::with_capacity(12 + 4 * simulator::strip::SAMPLES + marks.len());
    bytes.extend(stream.to_le_bytes());
    bytes.extend(batch.number.to_le_bytes());
    bytes.extend(run.pulse_per_min().unwrap_or(0).to_le_bytes());
    bytes.extend([u8::from(apart), count]);
    bytes.extend(batch.bytes());
    bytes.extend(marks.iter().take(2 * usize::from(count)));
    bytes
}

fn kind(mark: Mark, sample: u8, batch: &Batch, run: &Run) -> u8 {
    let chamber = match mark.port {
        Chamber::Atrium => 0,
        Chamber::Ventricle => 3,
    };
    let kind = match mark.kind {
        MarkKind::Pace => 0,
        MarkKind::Sense => 1,
        MarkKind::RefractorySense => 2,
    };
    let lost = mark.kind == MarkKind::Pace && made_no_beat(sample, batch, run);
    chamber + kind + if lost { LOST } else { 0 }
}

/// The spike of this mark: the one that falls on its sample.
fn made_no_beat(sample: u8, batch: &Batch, run: &Run) -> bool {
    let from_us = batch.at_us() + u64::from(sample) * simulator::strip::SAMPLE_US;
    let spike = run.events().iter().find_map(|event| match event.what {
        What::Spike { outcome, .. } if event.at_us < from_us + simulator::strip::SAMPLE_US => {
            (event.at_us >= from_us || sample == 0).then_some(outcome)
        }
        What::Spike { .. }
        | What::Beat { .. }
        | What::Mark(_)
        | What::Pulse { .. }
        | What::NoPulse
        | What::VentricularFibrillation => None,
    });
    spike.is_some_and(|outcome| outcome != SpikeOutcome::Captured)
}
