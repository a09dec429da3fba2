//! Whether the page still draws what it is sent. A page can die alone and leave its last card.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

#[derive(Default)]
pub(crate) struct Attention {
    waiting: Mutex<Waiting>,
}

#[derive(Default)]
struct Waiting {
    card: u32,
    /// Since the oldest view that is not yet on the glass.
    since: Option<Instant>,
    /// When its page died, until the next one has drawn.
    died: Option<Instant>,
    /// The last drawing; `None` where nobody ever says that something was drawn.
    drawn: Option<Instant>,
    /// The last drawing of a page that has died since this was last asked.
    lost: Option<Instant>,
}

impl Attention {
    pub(crate) fn pushed(&self, card: u32) {
        let mut waiting = self.lock();
        waiting.card = card;
        waiting.since.get_or_insert_with(Instant::now);
    }

    /// The page drew this card. An older one shows that it lives, not that it is up to date.
    pub(crate) fn painted(&self, card: u32) {
        let mut waiting = self.lock();
        waiting.drawn = Some(Instant::now());
        if card == waiting.card {
            waiting.since = None;
            if let Some(died) = waiting.died.take() {
                eprintln!("Holdfast: the page is back after {} ms", died.elapsed().as_millis());
            }
        }
    }

    /// The page is gone: a drawing is owed until the next one draws.
    pub(crate) fn page_died(&self) {
        let mut waiting = self.lock();
        waiting.since.get_or_insert_with(Instant::now);
        waiting.died = Some(Instant::now());
        waiting.lost = waiting.lost.or(waiting.drawn);
    }

    /// A new page starts with nothing owed.
    pub(crate) fn reset(&self) {
        self.lock().since = None;
    }

    pub(crate) fn silent_for(&self) -> Option<Duration> {
        self.lock().since.map(|since| since.elapsed())
    }

    /// Since when nothing has been drawn, where the page has died since this was last asked, or owes a drawing
    /// for longer than `most`. A watcher that never says what it has drawn is not missed.
    pub(crate) fn unseen_for(&self, most: Duration) -> Option<Duration> {
        let mut waiting = self.lock();
        let owes = waiting.since.is_some_and(|since| since.elapsed() >= most);
        let silent = waiting.drawn.filter(|_| owes);
        waiting.lost.take().or(silent).map(|drawn| drawn.elapsed())
    }

    fn lock(&self) -> MutexGuard<'_, Waiting> {
        self.waiting.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
