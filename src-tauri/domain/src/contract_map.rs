//! From one text to another through a whole view: `View<Say>` in, `View<String>` out, nothing else changed.

use crate::contract::{Act, Clock, Head, Progress, Safety, Scale, Small, Strip, Tick, View, Watch};

mod practice;
mod shapes;

impl<T> View<T> {
    /// Says every text of the view; the first fault ends it.
    pub fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<View<U>, E> {
        Ok(View {
            card: self.card,
            now_ms: self.now_ms,
            look: self.look,
            head: self.head.try_map(say)?,
            rail: self.rail,
            marks: texts(&self.marks, say)?,
            shape: self.shape.try_map(say)?,
            answers: each(&self.answers, |act| act.try_map(say))?,
            aside: each(&self.aside, |act| act.try_map(say))?,
            safety: maybe(&self.safety, |safety| safety.try_map(say).map(Box::new))?,
            notice: maybe(&self.notice, &mut *say)?,
            spoken: say(&self.spoken)?,
            practice: maybe(&self.practice, |practice| practice.try_map(say).map(Box::new))?,
            progress: maybe(&self.progress, |progress| progress.try_map(say).map(Box::new))?,
        })
    }
}

fn maybe<A, B, E>(part: &Option<A>, map: impl FnOnce(&A) -> Result<B, E>) -> Result<Option<B>, E> {
    part.as_ref().map(map).transpose()
}

fn each<A, B, E>(parts: &[A], map: impl FnMut(&A) -> Result<B, E>) -> Result<Vec<B>, E> {
    parts.iter().map(map).collect()
}

fn texts<T, U, E>(parts: &[T], say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Vec<U>, E> {
    each(parts, say)
}

impl<T> Head<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Head<U>, E> {
        Ok(Head {
            title: say(&self.title)?,
            subtitle: maybe(&self.subtitle, &mut *say)?,
            clock: maybe(&self.clock, |clock| clock.try_map(say))?,
            wall: maybe(&self.wall, &mut *say)?,
        })
    }
}

impl<T> Clock<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Clock<U>, E> {
        Ok(Clock { label: say(&self.label)?, since_ms: self.since_ms, urgent: self.urgent })
    }
}

impl<T> Progress<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Progress<U>, E> {
        Ok(Progress { label: say(&self.label)?, done: self.done, of: self.of })
    }
}

impl<T> Watch<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Watch<U>, E> {
        Ok(Watch { label: say(&self.label)?, from_ms: self.from_ms, until_ms: self.until_ms })
    }
}

impl<T> Small<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Small<U>, E> {
        Ok(Small { label: say(&self.label)?, value: say(&self.value)? })
    }
}

impl<T> Scale<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Scale<U>, E> {
        Ok(Scale {
            ticks: each(&self.ticks, |tick| tick.try_map(say))?,
            bracket: self.bracket,
            band: self.band,
            unit: say(&self.unit)?,
            words: say(&self.words)?,
        })
    }
}

impl<T> Tick<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Tick<U>, E> {
        Ok(Tick { at: self.at, label: maybe(&self.label, say)?, role: self.role })
    }
}

impl<T> Act<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Act<U>, E> {
        Ok(Act {
            key: self.key.clone(),
            label: say(&self.label)?,
            note: maybe(&self.note, |note| say(note).map(Box::new))?,
            tone: self.tone,
            command: self.command.clone(),
            with_fields: self.with_fields,
        })
    }
}

impl<T> Safety<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Safety<U>, E> {
        Ok(Safety {
            no_beats: self.no_beats.try_map(say)?,
            wrong: maybe(&self.wrong, |act| act.try_map(say))?,
            slip: maybe(&self.slip, |act| act.try_map(say))?,
            stop: self.stop.try_map(say)?,
            strip: maybe(&self.strip, |strip| strip.try_map(say))?,
            exposed: maybe(&self.exposed, |clock| clock.try_map(say))?,
        })
    }
}

impl<T> Strip<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Strip<U>, E> {
        Ok(Strip {
            label: say(&self.label)?,
            dials: each(&self.dials, |dial| dial.try_map(say))?,
            note: maybe(&self.note, say)?,
        })
    }
}
