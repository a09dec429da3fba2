//! PINs are taken out of what the page sent before anything else sees it: they never wait in the queue as text,
//! never reach a decision, an event, a log or a view.

use domain::command::Command;
use domain::contract::Sent;
use domain::teaching::ask::Ask;
use domain::teaching::hex;
use domain::teaching::pin::{NEW_KEY, NEW_PIN, NEW_PIN_AGAIN, PIN, PinShape};
use seal::{Secret, TabletKey};
use signoff::Pins;

/// In their place stands what may be known of them.
pub(crate) fn taken_out(sent: &mut Sent) -> Pins {
    let (pin, new_pin) = (take(sent, PIN), take(sent, NEW_PIN));
    let again = take(sent, NEW_PIN_AGAIN);
    say(sent, PIN, pin.as_ref().map(shape));
    say(sent, NEW_PIN, new_pin.as_ref().map(shape));
    say(sent, NEW_PIN_AGAIN, again.as_ref().map(|again| same(new_pin.as_ref(), again)));
    let new_key = drawn(sent);
    Pins { pin, new_pin, new_key }
}

/// The text's own bytes become the secret, so that they are wiped with it.
fn take(sent: &mut Sent, field: &str) -> Option<Secret> {
    sent.values.remove(field).map(|typed| Secret::new(typed.into_bytes()))
}

fn shape(typed: &Secret) -> PinShape {
    PinShape::of(typed.expose())
}

fn same(first: Option<&Secret>, again: &Secret) -> PinShape {
    match (first, again.expose()) {
        (_, []) => PinShape::Missing,
        (Some(first), again) if first.expose() == again => PinShape::Good,
        _ => PinShape::Other,
    }
}

fn say(sent: &mut Sent, field: &str, shape: Option<PinShape>) {
    if let Some(shape) = shape {
        sent.values.insert(field.to_owned(), shape.id().to_owned());
    }
}

/// A new key where one is asked for; without random bytes there is none, and nothing is enrolled.
fn drawn(sent: &mut Sent) -> Option<TabletKey> {
    sent.values.remove(NEW_KEY);
    if !matches!(sent.command, Command::Teach(Ask::Enrol | Ask::Renew { .. })) {
        return None;
    }
    let mut seed = [0; 32];
    getrandom::fill(&mut seed).ok()?;
    let key = TabletKey::from_seed(&seed);
    sent.values.insert(NEW_KEY.to_owned(), hex(key.public().bytes()));
    Some(key)
}
