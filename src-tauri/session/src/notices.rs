//! The one line under a card: what stands against the last act, or against the record.

use domain::say::Say;

use crate::trouble::Trouble;

#[derive(Default)]
pub(crate) struct Notices {
    /// The last act could not be recorded: stands until one can.
    pub(crate) trouble: Option<Trouble>,
    /// The record does not hold: stands to the end.
    pub(crate) broken: Option<Trouble>,
    /// The domain's no to the last act, on the card it was said on.
    pub(crate) refusal: Option<(u32, Say)>,
    pub(crate) room_is_short: bool,
}

impl Notices {
    /// The most pressing one.
    pub(crate) fn on(&self, card: u32) -> Option<Say> {
        let refusal = self.refusal.as_ref().filter(|(said_on, _)| *said_on == card);
        self.trouble
            .as_ref()
            .map(Trouble::say)
            .or_else(|| refusal.map(|(_, say)| say.clone()))
            .or_else(|| self.broken.as_ref().map(Trouble::say))
            .or_else(|| self.room_is_short.then_some(Say::RecordRoomShort))
    }
}
