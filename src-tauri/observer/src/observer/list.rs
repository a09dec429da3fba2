//! Cards that list several dials: restore, emergency, what reads differently.

use domain::contract::{Item, Shape};
use domain::say::Say;
use simulator::Chamber;

use super::{DECIDE_US, Next, Observer};
use crate::card::Card;
use crate::dial::Dial;
use crate::puzzled::Puzzled;

/// Long enough to see a spike fail after the last dial was turned.
const WATCH_RESTORED_US: u64 = 2_500_000;
/// Help comes within this.
const HELP_US: u64 = 40_000_000;
const SEE_BEATS_US: u64 = 4_000_000;
const BEATS: usize = 3;
/// Whoever comes to an emergency card again stays with the people who were called.
const EMERGENCIES_MOST: u32 = 2;
/// NO BEATS says "Call" each time; where beats come and go, with nothing left to turn, help is there by then.
const TIMES_WITHOUT_BEATS_MOST: u32 = 4;

impl Observer {
    /// One dial of the list after the other, then a look.
    pub(super) fn restore(&mut self, card: Card<'_>) -> Result<Next, Puzzled> {
        if self.turn_next_line(card)? {
            return Ok(Next::Watch);
        }
        if card.has("spike-without-beat") && self.judge(card).spikes_without_a_beat() > 0 {
            return Ok(Next::tap("spike-without-beat"));
        }
        Ok(if self.quiet_for_us() >= WATCH_RESTORED_US { Next::tap("all-true") } else { Next::Watch })
    }

    pub(super) fn emergency(&mut self, card: Card<'_>) -> Result<Next, Puzzled> {
        if self.turn_next_line(card)? {
            return Ok(Next::Watch);
        }
        let judge = self.judge(card);
        let qrs = judge.strip.beats(Chamber::Ventricle, judge.now_us.saturating_sub(SEE_BEATS_US));
        let waited = self.bedside.now_us() - self.memory.opened_us;
        Ok(if self.emergencies > EMERGENCIES_MOST || waited > HELP_US {
            Next::HandOver
        } else if waited < SEE_BEATS_US {
            Next::Watch
        } else if qrs.len() >= BEATS {
            Next::tap("beats-again")
        } else if card.has("spikes-without-beats") && judge.any_spike() {
            Next::tap("spikes-without-beats")
        } else {
            Next::Watch
        })
    }

    pub(super) fn stays_with_help(&self) -> bool {
        let reading = self.bedside.reading();
        let is_highest = Say::Figure { text: reading.output.clone() } == self.bedside.highest(Dial::Output);
        self.times_without_beats > TIMES_WITHOUT_BEATS_MOST && is_highest
    }

    /// Questions answered by a yes; a dial that reads differently is put right first.
    pub(super) fn agree(&mut self, card: Card<'_>) -> Result<Next, Puzzled> {
        if matches!(card.asks(), Say::DiffersTitle | Say::ReadLowerTitle) {
            return Ok(if self.turn_next_line(card)? { Next::Watch } else { Next::tap("back") });
        }
        if self.memory.answers_stand_for_us(self.bedside.now_us()) < DECIDE_US {
            return Ok(Next::Watch);
        }
        // Read from the dials already: it is so, and somebody is told.
        if *card.asks() == Say::LeftAloneTitle {
            return Ok(Next::tap("no"));
        }
        match card.good() {
            Some(good) => Ok(Next::tap(good.key.clone())),
            None => Err(Puzzled::UnknownCard { said: card.asks().name().to_owned() }),
        }
    }

    fn quiet_for_us(&self) -> u64 {
        self.bedside.now_us() - self.memory.opened_us.max(self.memory.from_us)
    }

    /// Turns the next dial of the list; `false` when all stand. The hand is busy between two.
    fn turn_next_line(&mut self, card: Card<'_>) -> Result<bool, Puzzled> {
        let now_us = self.bedside.now_us();
        if self.memory.busy_until_us > now_us {
            return Ok(true);
        }
        let turns: Vec<(Dial, Say)> = items(card).iter().filter_map(|item| self.turn_of(item)).collect();
        let Some((dial, to)) = turns.get(self.memory.lines) else { return Ok(false) };
        self.bedside.turn(*dial, to)?;
        self.memory.turn(now_us);
        self.memory.lines += 1;
        Ok(true)
    }

    /// The dial a line tells to turn, and where to.
    fn turn_of(&self, item: &Item<Say>) -> Option<(Dial, Say)> {
        if item.text == Say::EmergencyOutput {
            return Some((Dial::Output, self.bedside.highest(Dial::Output)));
        }
        if item.text == Say::EmergencyAsynchronous {
            return Some((Dial::Mv, Say::Asynchronous));
        }
        if let Say::EmergencyNumber { figure } = &item.text {
            return Some((Dial::Mv, Say::Figure { text: figure.clone() }));
        }
        if let Say::EmergencyRate { figure } = &item.text {
            return Some((Dial::Rate, Say::Figure { text: figure.clone() }));
        }
        if let Say::EmergencyRateAtLeast { figure } = &item.text {
            let slower = self.bedside.reading().rate.parse::<u16>().ok()? < figure.parse().ok()?;
            return slower.then(|| (Dial::Rate, Say::Figure { text: figure.clone() }));
        }
        if let Say::DiffersLine { dial, expected, .. } = &item.text {
            return Some((Dial::named(dial)?, without_unit(expected)));
        }
        if let Say::ReadLowerLine { dial, before, .. } = &item.text {
            return Some((Dial::named(dial)?, without_unit(before)));
        }
        Some((Dial::named(&item.text)?, item.figure.clone()?))
    }
}

fn items<'a>(card: Card<'a>) -> &'a [Item<Say>] {
    if let Shape::List(list) = &card.view.shape { &list.items } else { &[] }
}

fn without_unit(said: &Say) -> Say {
    if let Say::FigureUnit { figure, .. } = said {
        Say::Figure { text: figure.clone() }
    } else {
        said.clone()
    }
}
