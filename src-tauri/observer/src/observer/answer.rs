//! What was seen, as one of the card's answers.

use simulator::Chamber;

use super::{DECIDE_US, Next, Observer, Trouble};
use crate::card::{Card, Question};
use crate::judge::Judge;
use crate::strip::Look;

/// Before the first look, and behind the first own beat, the strip is read backwards.
const LOOK_BACK_US: u64 = 8_000_000;
/// One mark beside a beat may be a slow eye; two are said.
const MARKS_ALONE: usize = 2;
/// Longer than any set interval with room for a few beats.
const LONG_US: u64 = 6_000_000;

impl Observer {
    pub(super) fn answer(&mut self, card: Card<'_>) -> Next {
        if self.memory.answers_stand_for_us(self.bedside.now_us()) < DECIDE_US {
            return Next::Watch;
        }
        if let Some(key) = self.seen(card).filter(|key| card.has(key)) {
            return Next::tap(key);
        }
        if let Some(trouble) = self.beside_the_answers(card) {
            return self.say(card, trouble);
        }
        if card.has("stands") {
            return Next::tap("stands");
        }
        if card.question() == Question::Capture && card.good().is_some() && self.no_spike_made_a_beat(card) {
            return Next::tap("spike-without-beat");
        }
        match card.good().filter(|_| !waits_for_more(card.question()) && self.has_seen_enough(card)) {
            Some(good) => Next::tap(good.key.clone()),
            None => Next::Watch,
        }
    }

    /// "Every beat marked" is not said before a few beats were seen that spikes do not hide.
    fn has_seen_enough(&self, card: Card<'_>) -> bool {
        const MARKED: usize = 3;
        const PATIENCE_US: u64 = 30_000_000;
        let judge = self.judge(card);
        card.question() != Question::EveryBeatMarked
            || judge.own_marked() >= MARKED
            || judge.now_us - judge.from_us > PATIENCE_US
    }

    /// Spikes all the while, each too close behind an own beat to tell: not one made a beat.
    fn no_spike_made_a_beat(&self, card: Card<'_>) -> bool {
        let judge = self.judge(card);
        judge.any_spike() && judge.spikes_with_a_beat() == 0 && card.has("spike-without-beat")
    }

    /// By the card's own answer where it has one, else by "Something is wrong".
    fn say(&mut self, card: Card<'_>, trouble: Trouble) -> Next {
        if card.has(trouble.key()) {
            return Next::tap(trouble.key());
        }
        self.report(trouble);
        Next::Watch
    }

    /// The answer for what was seen, where it is not the good one.
    fn seen(&self, card: Card<'_>) -> Option<&'static str> {
        let judge = self.judge(card);
        let back = Judge { from_us: judge.now_us.saturating_sub(LOOK_BACK_US), ..judge };
        match card.question() {
            Question::FirstLook => first_look(&back),
            Question::Atrium if card.has("wide-beat") && back.paces_the_ventricle() => Some("wide-beat"),
            Question::Atrium => Some(atrium(&back)),
            Question::FirstOwn => {
                let since_turned = back.from_us.max(self.memory.last_turned_us);
                first_own(&Judge { from_us: since_turned, ..back }, judge.now_us - judge.from_us > LONG_US)
            }
            Question::OwnRhythm => own_rhythm(&judge, card.has("still-paced")),
            Question::BeatsAgain => beats_again(&judge),
            Question::NoBeats => no_beats(&judge),
            Question::Spikes => spikes(&judge, card.has("no-spikes")),
            question @ (Question::OwnHold
            | Question::PacedOnTime
            | Question::PacedWithPulse
            | Question::OnlyOwnMarked
            | Question::EveryBeatMarked
            | Question::OwnWithPulse
            | Question::Capture
            | Question::MarkedOrPaced
            | Question::Confirm
            | Question::Pulse
            | Question::WhatElse
            | Question::Agree
            | Question::Restore
            | Question::Emergency
            | Question::Type) => bad_first(question)
                .iter()
                .copied()
                .find(|key| card.has(key) && is_seen(&judge, question, key)),
        }
    }

    /// Seen, and no answer of this card: said by "Something is wrong".
    fn beside_the_answers(&mut self, card: Card<'_>) -> Option<Trouble> {
        let searching = card.question() == Question::EveryBeatMarked && card.has("beat-not-marked");
        let judge = self.judge(card);
        if card.question() == Question::Capture && card.good().is_some() && !judge.any_spike() {
            return Some(Trouble::Pause);
        }
        let on_marks = matches!(card.question(), Question::OnlyOwnMarked | Question::EveryBeatMarked);
        if on_marks && !self.marks_alone_said && judge.marks_alone() >= MARKS_ALONE {
            self.marks_alone_said = true;
            return Some(Trouble::MarkAlone);
        }
        if !searching {
            return None;
        }
        if judge.spike_after_a_pause() {
            return Some(Trouble::Pause);
        }
        let new = judge.extra_not_marked() && !self.extra_beat_said;
        self.extra_beat_said |= new;
        new.then_some(Trouble::ExtraBeat)
    }
}

/// Questions whose good answer is one of those found by looking.
pub(super) fn waits_for_more(question: Question) -> bool {
    matches!(
        question,
        Question::FirstLook
            | Question::Atrium
            | Question::FirstOwn
            | Question::OwnRhythm
            | Question::BeatsAgain
            | Question::NoBeats
            | Question::Spikes
    )
}

fn bad_first(question: Question) -> &'static [&'static str] {
    match question {
        Question::OwnHold | Question::OnlyOwnMarked => &["beat-not-marked", "both"],
        Question::PacedOnTime => &["spike-without-beat", "pause"],
        Question::EveryBeatMarked => &["spike-made-beat", "beat-not-marked"],
        Question::OwnWithPulse => &["beat-not-marked"],
        Question::Capture => &["wide-beat", "p-without-qrs", "spike-without-beat", "own-among"],
        Question::MarkedOrPaced => &["beat-not-marked", "pause"],
        Question::Confirm => &["spike-without-beat", "own-among", "beat-not-marked", "pause"],
        Question::PacedWithPulse => &["spike-without-beat"],
        Question::FirstLook
        | Question::Atrium
        | Question::OwnRhythm
        | Question::FirstOwn
        | Question::Spikes
        | Question::BeatsAgain
        | Question::NoBeats
        | Question::Pulse
        | Question::WhatElse
        | Question::Agree
        | Question::Restore
        | Question::Emergency
        | Question::Type => &[],
    }
}

fn is_seen(judge: &Judge<'_>, question: Question, key: &str) -> bool {
    match key {
        "wide-beat" => judge.paces_the_ventricle(),
        "p-without-qrs" => judge.paced_p_without_qrs(),
        "spike-without-beat" => judge.spikes_without_a_beat() > 0,
        "own-among" => judge.own_among_paced() || judge.only_own_for_long(),
        "both" => judge.any(Look::Paced),
        "beat-not-marked" if question == Question::EveryBeatMarked => {
            (judge.own_not_marked() > 0 && judge.miss_is_complete()) || judge.spikes_too_soon() > 0
        }
        "beat-not-marked" => judge.own_not_marked() > 0,
        "spike-made-beat" => judge.spikes_with_a_beat() > 0,
        "pause" => judge.pause(),
        _ => false,
    }
}

fn first_look(judge: &Judge<'_>) -> Option<&'static str> {
    match (!judge.any(Look::Own), !judge.any(Look::Paced)) {
        _ if judge.spikes_without_a_beat() > 0 => Some("spikes-without-beats"),
        (false, false) => Some("both"),
        (false, true) if judge.any_spike() => Some("both"),
        (false, true) => Some("only-own"),
        (true, false) => Some("every-beat-paced"),
        (true, true) => None,
    }
}

fn atrium(judge: &Judge<'_>) -> &'static str {
    const IRREGULAR_US: u64 = 100_000;
    if !judge.strip.beats(Chamber::Atrium, judge.from_us).is_empty() {
        return "p-waves";
    }
    let beats = judge.strip.beats(Chamber::Ventricle, judge.from_us);
    let gaps = beats.windows(2).map(|pair| pair[1].0 - pair[0].0);
    let (longest, shortest) = (gaps.clone().max().unwrap_or(0), gaps.min().unwrap_or(0));
    if longest - shortest > IRREGULAR_US { "fibrillation" } else { "no-p-waves" }
}

/// "Did the generator mark it, and hold its spike?" Where every own beat has a spike beside it, it did not.
fn first_own(judge: &Judge<'_>, long: bool) -> Option<&'static str> {
    match (judge.own_not_marked(), judge.own_marked()) {
        (0, 0) => long.then(|| if judge.any_spike() && judge.any(Look::Own) { "no" } else { "yes" }),
        (0, _) => Some("yes"),
        _ => Some("no"),
    }
}

/// Once the watch has passed: what has come since the first own beat.
fn own_rhythm(judge: &Judge<'_>, watched: bool) -> Option<&'static str> {
    let Some(first) = judge.own().next().filter(|_| watched) else {
        return watched.then_some("still-paced");
    };
    let paced_later = judge.paced().any(|at| at > first);
    match (paced_later, judge.own().count()) {
        (true, _) => Some("both"),
        (false, 3..) => Some("only-own"),
        (false, _) => None,
    }
}

fn beats_again(judge: &Judge<'_>) -> Option<&'static str> {
    if judge.spikes_with_a_beat() > 0 {
        return Some("beats-again");
    }
    if judge.spikes_without_a_beat() > 0 {
        return Some("spike-without-beat");
    }
    let long = judge.now_us - judge.from_us > LONG_US;
    long.then(|| if judge.any_spike() { "spike-without-beat" } else { "beats-again" })
}

/// After NO BEATS: two beats are beats again; without them, are there spikes?
fn no_beats(judge: &Judge<'_>) -> Option<&'static str> {
    const PATIENCE_US: u64 = 3_000_000;
    let qrs = judge.strip.beats(Chamber::Ventricle, judge.from_us);
    if qrs.len() >= 2 {
        return Some("beats-again");
    }
    let waited = judge.now_us - judge.from_us > PATIENCE_US;
    waited.then(|| if judge.any_spike() { "spikes-without-beats" } else { "no-spikes" })
}

/// Three spikes, or the end of the watch.
fn spikes(judge: &Judge<'_>, watched: bool) -> Option<&'static str> {
    if judge.spikes_with_a_beat() > 0 {
        return Some("spike-made-beat");
    }
    match judge.spikes_without_a_beat() {
        3.. => Some("spikes-no-beat"),
        0 if watched => Some("no-spikes"),
        _ if watched => Some("spikes-no-beat"),
        _ => None,
    }
}
