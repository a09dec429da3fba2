//! The scales of a result: the threshold, the rule's band, the setting, on the dial's own positions.

use crate::check::facts::{ASYNCHRONOUS, Dial, Found, NONE};
use crate::contract::{Scale, Tick, TickRole};
use crate::profile::{Position, Positions, Profile};
use crate::record::Record;
use crate::say::{Say, dial_name, figure};
use crate::view::charts::part;
use crate::view::figures;

/// Plain ticks drawn at most: a dial of 128 positions is thinned, what was found is always drawn.
const PLAIN_MOST: usize = 24;

pub fn scales(profile: &Profile, record: &Record) -> Vec<Scale<Say>> {
    [capture(profile, record), sensing(profile, record)].into_iter().flatten().collect()
}

fn capture(profile: &Profile, record: &Record) -> Option<Scale<Say>> {
    let threshold = known(record.facts.capture_at).filter(|_| record.capture != Found::Nothing)?;
    let low = known(record.facts.capture_low).filter(|_| record.capture == Found::Bracket);
    let mark = Say::ThresholdAt { figure: profile.output_text(threshold).to_owned() };
    let dial = &profile.output.positions;
    let set = record.stays_at.output;
    let drawn = scale(profile, Dial::Output, dial, (threshold, mark), set);
    let bracket = low.map(|low| (low, threshold));
    Some(Scale { bracket: places(dial, bracket), band: places(dial, record.output_band), ..drawn })
}

fn sensing(profile: &Profile, record: &Record) -> Option<Scale<Say>> {
    let signal = known(record.facts.sensing_at).filter(|_| record.signal_uv().is_some())?;
    let mark = Say::SignalAt { figure: profile.mv_text(signal).to_owned() };
    let dial = &profile.sensitivity.positions;
    let set = record.stays_at.mv;
    (set != ASYNCHRONOUS).then(|| Scale {
        band: places(dial, record.mv_band),
        ..scale(profile, Dial::Mv, dial, (signal, mark), set)
    })
}

fn known(position: Position) -> Option<Position> {
    (position != NONE).then_some(position)
}

fn scale(
    profile: &Profile,
    dial: Dial,
    positions: &Positions,
    (threshold, mark): (Position, Say),
    set: Position,
) -> Scale<Say> {
    let keep = |at: Position| is_kept(positions, at) || at == threshold || at == set;
    let ticks =
        positions.all().filter(|at| keep(*at)).map(|at| tick(positions, at, threshold, &mark, set)).collect();
    let unit = figures::unit(profile, dial);
    Scale {
        ticks,
        bracket: None,
        band: None,
        words: Say::ResultScaleWords {
            dial: dial_name(dial),
            threshold: positions.text(threshold).to_owned(),
            set: positions.text(set).to_owned(),
            unit: Box::new(unit.clone()),
        },
        unit,
    }
}

/// Every position of a short dial; of a long one both ends and evenly chosen ones between.
fn is_kept(positions: &Positions, at: Position) -> bool {
    let last = usize::from(positions.last());
    let every = last.div_ceil(PLAIN_MOST).max(1);
    usize::from(at) % every == 0 || usize::from(at) == last
}

fn place(positions: &Positions, at: Position) -> f32 {
    part(i64::from(at), i64::from(positions.last()))
}

fn places(positions: &Positions, ends: Option<(Position, Position)>) -> Option<(f32, f32)> {
    ends.map(|(low, high)| (place(positions, low), place(positions, high)))
}

fn tick(positions: &Positions, at: Position, threshold: Position, mark: &Say, set: Position) -> Tick<Say> {
    let end = at == 0 || at == positions.last();
    let text = || positions.text(at).to_owned();
    let (role, label) = if at == set {
        (TickRole::Set, Some(Say::SetAt { figure: text() }))
    } else if at == threshold {
        (TickRole::Threshold, Some(mark.clone()))
    } else {
        (TickRole::Plain, end.then(|| figure(text())))
    };
    Tick { at: place(positions, at), label, role }
}
