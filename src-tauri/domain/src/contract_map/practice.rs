//! The same for the simulated patient beside a card.

use super::{each, maybe};
use crate::contract::{Keys, Knob, Monitor, Practice};

impl<T> Practice<T> {
    pub(super) fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Practice<U>, E> {
        Ok(Practice {
            monitor: maybe(&self.monitor, |monitor| monitor.try_map(say))?,
            knobs: each(&self.knobs, |knob| knob.try_map(say))?,
        })
    }
}

impl<T> Monitor<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Monitor<U>, E> {
        Ok(Monitor {
            stream: self.stream,
            kept: self.kept,
            scale: say(&self.scale)?,
            pulse: say(&self.pulse)?,
            words: say(&self.words)?,
            freeze: say(&self.freeze)?,
            run: say(&self.run)?,
            earlier: say(&self.earlier)?,
            later: say(&self.later)?,
            pause: maybe(&self.pause, |act| act.try_map(say))?,
        })
    }
}

impl<T> Knob<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Knob<U>, E> {
        Ok(Knob {
            label: say(&self.label)?,
            unit: say(&self.unit)?,
            figure: say(&self.figure)?,
            take: self.take.try_map(say)?,
            keys: maybe(&self.keys, |keys| keys.try_map(say))?,
        })
    }
}

impl<T> Keys<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Keys<U>, E> {
        Ok(Keys {
            down: maybe(&self.down, |act| act.try_map(say))?,
            up: maybe(&self.up, |act| act.try_map(say))?,
            far_down: maybe(&self.far_down, |act| act.try_map(say))?,
            far_up: maybe(&self.far_up, |act| act.try_map(say))?,
        })
    }
}
