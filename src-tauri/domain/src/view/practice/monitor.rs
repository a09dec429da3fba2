//! What stands around the strip.

use uuid::Uuid;

use crate::command::Command;
use crate::contract::{Monitor, Tone};
use crate::practice::{Practice, stream_of_moment, stream_of_run};
use crate::say::Say;
use crate::view::act;

pub fn running(open: &Practice) -> Monitor<Say> {
    let pause = act("stand-still", Say::PracticePause, Tone::Plain, Command::PausePractice);
    Monitor { pause: Some(pause), ..monitor(stream_of_run(open.id), false) }
}

pub fn kept(run: Uuid, act: u8) -> Monitor<Say> {
    monitor(stream_of_moment(run, act), true)
}

fn monitor(stream: u32, kept: bool) -> Monitor<Say> {
    Monitor {
        stream,
        kept,
        scale: Say::MonitorScale,
        pulse: Say::MonitorPulse,
        words: if kept { Say::MonitorKept } else { Say::MonitorWords },
        freeze: Say::MonitorFreeze,
        run: Say::MonitorRun,
        earlier: Say::MonitorEarlier,
        later: Say::MonitorLater,
        pause: None,
    }
}
