//! Forms: what stands on the dials, the own rate from the monitor, invented names.

use std::collections::BTreeMap;

use domain::contract::{Field, Form, OWN_LEAST, OWN_MOST, Shape};
use domain::say::Say;

use super::{DECIDE_US, Next, Observer};
use crate::card::Card;
use crate::dial::Dial;
use crate::judge::{own_rate, shown_rate};
use crate::puzzled::Puzzled;

/// What a field takes for a dial that stands at asynchronous.
const ASYNCHRONOUS: &str = "asynchronous";

/// The field takes no less and no more, and says so: a pause of four seconds is 15 a minute.
fn taken(rate: u64) -> u64 {
    rate.clamp(OWN_LEAST.into(), OWN_MOST.into())
}

impl Observer {
    pub(super) fn typing(&self, card: Card<'_>) -> Next {
        let settled = self.memory.answers_stand_for_us(self.bedside.now_us()) >= DECIDE_US;
        if !settled || (*card.asks() == Say::AskOwnRate && self.own_rate(card).is_none()) {
            return Next::Watch;
        }
        let asked_and_not_so = (*card.asks() == Say::AskAsynchronousOrdered && !self.knows_of_an_order)
            || (*card.asks() == Say::AskMargin && self.knows_of_a_shock);
        if asked_and_not_so {
            return Next::tap("no");
        }
        card.good().map_or(Next::Watch, |good| Next::tap(good.key.clone()))
    }

    pub(super) fn fill(&mut self, card: Card<'_>) -> Result<BTreeMap<String, String>, Puzzled> {
        let Shape::Form(form) = &card.view.shape else { return Ok(BTreeMap::new()) };
        self.perhaps_mistype(form);
        form.fields.iter().map(|field| Ok((field.id.clone(), self.text_for(card, form, field)?))).collect()
    }

    fn text_for(&mut self, card: Card<'_>, form: &Form<Say>, field: &Field<Say>) -> Result<String, Puzzled> {
        if let Some(text) = self.typed_instead.remove(&field.id) {
            return Ok(text);
        }
        let own = self.own_rate(card).unwrap_or_default();
        Ok(match field.id.as_str() {
            "output" => self.printed(Dial::Output),
            "rate" => self.printed(Dial::Rate),
            "mv" => self.printed(Dial::Mv),
            "where" => self.printed(asked_dial(&form.question)),
            "slowest" => taken(own.0).to_string(),
            "fastest" => taken(own.1).to_string(),
            "name" => "A. Example (invented)".to_owned(),
            "reason" => "Asked to wait (invented)".to_owned(),
            id => return Err(Puzzled::UnknownField { id: id.to_owned() }),
        })
    }

    /// From the own beats; after some waiting, the figure on the monitor.
    fn own_rate(&self, card: Card<'_>) -> Option<(u64, u64)> {
        const PATIENCE_US: u64 = 8_000_000;
        let (strip, now_us) = (self.bedside.strip(), self.bedside.now_us());
        let waited = now_us - self.memory.opened_us > PATIENCE_US;
        own_rate(strip, card.chamber(), now_us).or_else(|| {
            let shown = shown_rate(strip, card.chamber(), now_us).filter(|_| waited)?;
            Some((shown, shown))
        })
    }

    fn printed(&self, dial: Dial) -> String {
        let reading = self.bedside.reading();
        match dial {
            Dial::Output => reading.output.clone(),
            Dial::Rate => reading.rate.clone(),
            Dial::Mv => reading.mv.clone().unwrap_or_else(|| ASYNCHRONOUS.to_owned()),
        }
    }
}

fn asked_dial(question: &Say) -> Dial {
    let named = if let Say::SlipTitle { dial } = question { Dial::named(dial) } else { None };
    named.unwrap_or(Dial::Output)
}
