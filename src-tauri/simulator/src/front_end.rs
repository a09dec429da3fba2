//! What a generator takes for a beat: the one way in, for the simulated heart's signals and for recorded ones.

/// Looks for a signal that rises to a level, and looks away for a while once told to. It keeps time in whatever unit
/// its owner does, so that a recording is timed exactly at any sampling rate.
#[derive(Clone, Copy, Debug, Default)]
pub struct FrontEnd {
    blanked_until: u64,
}

impl FrontEnd {
    /// The simulated heart has no samples: each of its signals rises out of this.
    pub const SILENCE_UV: i64 = 0;

    /// Below the level before, at it or above now, and not blanked.
    pub const fn sees(self, before_uv: i64, signal_uv: i64, level_uv: u32, now: u64) -> bool {
        let level_uv = level_uv as i64;
        before_uv < level_uv && level_uv <= signal_uv && !self.is_blanked(now)
    }

    pub const fn is_blanked(self, now: u64) -> bool {
        now < self.blanked_until
    }

    pub const fn blank_until(&mut self, end: u64) {
        self.blanked_until = end;
    }
}
