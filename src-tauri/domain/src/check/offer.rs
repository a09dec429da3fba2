//! What each card offers: the one table behind the view, the refusals and the walk.

use super::answer::{Answer, Line};
use super::facts::{Asynchronous, Dials, Facts, Marks, Phase, Why};
use super::guard::Guard;
use super::setup::Setup;
use super::side::{below, read_anew};
use super::slip::reads_all;
use super::step::{Stage, Step};
use crate::rules::Chamber;

/// What is typed on a card, besides tapping.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Typed {
    Nothing,
    /// All three dials, read and typed.
    Dials,
    /// Slowest and fastest own rate.
    OwnRate,
    /// One dial, after a slip.
    OneDial,
}

/// The answers of one card.
#[derive(Clone, Copy, Debug)]
pub struct Offer {
    /// Open from the first instant.
    pub free: &'static [Answer],
    /// Opens when the watch has passed.
    pub good: Option<Answer>,
    /// A second way on that opens with it.
    pub also_good: Option<Answer>,
    pub typed: Typed,
}

const fn free(answers: &'static [Answer]) -> Offer {
    Offer { free: answers, good: None, also_good: None, typed: Typed::Nothing }
}

const fn watched(bad: &'static [Answer], good: Answer) -> Offer {
    Offer { free: bad, good: Some(good), also_good: None, typed: Typed::Nothing }
}

const fn watched_two(bad: &'static [Answer], one: Answer, other: Answer) -> Offer {
    Offer { free: bad, good: Some(one), also_good: Some(other), typed: Typed::Nothing }
}

const fn typed(answers: &'static [Answer], typed: Typed) -> Offer {
    Offer { free: answers, good: None, also_good: None, typed }
}

/// The lines of the two lists, and which card each stands on.
pub const LINES_FIRST: [Line; 4] = [Line::Mode, Line::Age, Line::EcgWithPacingDetection, Line::ExtraBeats];
pub const LINES_SECOND: [Line; 4] =
    [Line::Vehicle, Line::Connections, Line::Gloves, Line::TemperatureAndPotassium];

const WHICH_FIRST: &[Answer] = &[
    Answer::Line(Line::Mode),
    Answer::Line(Line::Age),
    Answer::Line(Line::EcgWithPacingDetection),
    Answer::Line(Line::ExtraBeats),
    Answer::Back,
];
const WHICH_SECOND: &[Answer] = &[
    Answer::Line(Line::Vehicle),
    Answer::Line(Line::Connections),
    Answer::Line(Line::Gloves),
    Answer::Line(Line::TemperatureAndPotassium),
    Answer::Back,
];

const MORE: &[Answer] = &[
    Answer::NotTolerated,
    Answer::SpikeWithoutABeat,
    Answer::BeatNotMarked,
    Answer::Pause,
    Answer::ExtraBeatNotMarked,
    Answer::DialElsewhere,
    Answer::Back,
];
/// Over a card that asks about marks, and so has the beat not marked itself: a seventh answer would make a phone's
/// card scroll.
const MORE_ON_MARKS: &[Answer] = &[
    Answer::NotTolerated,
    Answer::SpikeWithoutABeat,
    Answer::MarkWithoutBeat,
    Answer::Pause,
    Answer::ExtraBeatNotMarked,
    Answer::DialElsewhere,
    Answer::Back,
];

/// The card's own answers; `always` names those that every dial card adds.
pub fn offer(setup: &Setup<'_>, facts: &Facts) -> Offer {
    use Answer::*;
    use Step as S;
    match facts.step {
        S::SamePatient
        | S::Order
        | S::Accept
        | S::PulseTrace
        | S::Standby
        | S::RightWire
        | S::AsynchronousOrdered
        | S::FirstOwn => free(&[No, Yes]),
        S::ListFirst | S::ListSecond => free(&[No, AllTrue]),
        S::WhichLine if facts.from == S::ListFirst => free(WHICH_FIRST),
        S::WhichLine => free(WHICH_SECOND),
        S::Blocked => free(&[Back, AllTrue]),
        S::ReadFound => typed(&[], Typed::Dials),
        S::FirstLook => free(&[SpikesWithoutBeats, BothSeen, OnlyOwn, EveryBeatPaced]),
        S::Atrium => free(&[WideBeat, FibrillationOrFlutter, NoPWaves, PWavesSeen]),
        S::FirstMaximum | S::CaptureMaximum if facts.phase == Phase::Turning => {
            watched(&[], EverySpikeMadeABeat)
        }
        S::AfterShock if facts.phase == Phase::Turning => watched(&[], Fine),
        S::FirstMaximum | S::AsynchronousOn | S::CaptureMaximum => {
            watched(&[SpikeWithoutABeat], EverySpikeMadeABeat)
        }
        S::FirstConnections if facts.lost == setup.maximum() => free(&[NoPulse, AllTrue]),
        S::FirstConnections | S::Stays | S::Guarded | S::Done => free(&[AllTrue]),
        S::AsynchronousOff => watched(&[SpikeWithoutABeat, BeatNotMarked, Pause], Fine),
        // Own beats are said of the RATE at which they were seen: the next step goes down from there.
        S::OwnDown if facts.phase == Phase::Turning => watched(&[NotTolerated], StillPaced),
        S::OwnDown if facts.first_own_asked => watched_two(&[NotTolerated, OnlyOwn], BothSeen, StillPaced),
        S::OwnDown => watched(&[NotTolerated, OnlyOwn, BothSeen], StillPaced),
        S::BlindRateUp => watched(&[OwnAmongThem], EverySpikeMadeABeat),
        S::BlindMvDown => watched(&[SpikeWithoutABeat, Pause], Fine),
        S::OwnHold => watched(&[NotTolerated, BeatNotMarked, BothSeen], OwnHeld),
        S::OwnRate => typed(&[], Typed::OwnRate),
        S::OwnBack | S::SetRate | S::CaptureRateDown => watched(&[SpikeWithoutABeat], Fine),
        S::SenseRate => watched(&[NotTolerated, BeatNotMarked, BothSeen], EveryBeatMarked),
        S::SenseMinimum => watched_two(&[SpikeMadeABeat], SpikesNoneMadeABeat, NoSpikesCame),
        S::SenseUp | S::SenseDown => watched(&[BeatNotMarked, SpikeMadeABeat, Pause], EveryBeatMarked),
        S::SenseMvOut => watched(&[BeatNotMarked, SpikeMadeABeat], EveryBeatMarked),
        S::SenseOutputOut => watched(&[BeatNotMarked], Fine),
        S::CaptureRate if setup.chamber == Chamber::Atrium => {
            watched(&[SpikeWithoutABeat, OwnAmongThem, PWithoutQrs, WideBeat], EverySpikeMadeABeat)
        }
        S::CaptureRate => watched(&[SpikeWithoutABeat, OwnAmongThem], EverySpikeMadeABeat),
        S::CaptureOut if facts.why_capture == Why::BlockFromRate => watched(&[SpikeWithoutABeat], Fine),
        S::CaptureDown | S::CaptureOut if setup.chamber == Chamber::Atrium => {
            watched(&[SpikeWithoutABeat, PWithoutQrs], EverySpikeMadeABeat)
        }
        S::CaptureDown | S::CaptureOut | S::CaptureCount | S::SetOutput => {
            watched(&[SpikeWithoutABeat], EverySpikeMadeABeat)
        }
        S::CaptureBack | S::CaptureUp | S::CaptureRestore if !setup.guards.on(Guard::OnlyUpAfterLoss) => {
            free(&[SpikeWithoutABeat, EverySpikeMadeABeat, BeatsAgain])
        }
        S::CaptureBack | S::CaptureUp | S::CaptureRestore => free(&[SpikeWithoutABeat, BeatsAgain]),
        S::MarginAsk => free(&[No, Yes]),
        S::MarginOne | S::MarginHalf | S::MarginBack => watched(&[SpikeWithoutABeat], EverySpikeMadeABeat),
        S::SetMv => watched(&[BeatNotMarked, Pause], Fine),
        S::ReadBack | S::ReadAfter => typed(&[No], Typed::Dials),
        S::Differs | S::ReadLower => free(&[Back, No]),
        S::Reason => free(&[Back, ReasonAndName]),
        // Asynchronous marks no beat; where an emergency set it and nobody has ordered it, own beats end it.
        S::Confirm if is_left_asynchronous(facts) && setup.guards.on(Guard::OwnAskedWhileAsynchronous) => {
            watched(&[SpikeWithoutABeat, OwnAmongThem, Pause], Fine)
        }
        S::Confirm if facts.stands_asynchronous() => watched(&[SpikeWithoutABeat, Pause], Fine),
        S::Confirm => watched(&[SpikeWithoutABeat, BeatNotMarked, Pause], Fine),
        S::Wrong => free(&[NoPulse, FastWide, ShockGiven, SomethingElse, Back]),
        S::WrongMore if offer(setup, &below(*facts)).free.contains(&BeatNotMarked) => free(MORE_ON_MARKS),
        S::WrongMore => free(MORE),
        S::Elsewhere => typed(&[Back], Typed::Dials),
        S::Slip if reads_all(facts) => typed(&[Back], Typed::Dials),
        S::Slip => typed(&[Back], Typed::OneDial),
        S::Restore => free(&[SpikeWithoutABeat, AllTrue]),
        S::NoBeats => free(&[SpikesWithoutBeats, NoSpikesCame, BeatsAgain]),
        S::NoSpikes => free(&[SpikesWithoutBeats, NoSpikesCame, BeatsAgain]),
        S::Emergency => free(&[FastWide, BeatsAgain]),
        S::Arrest => free(&[ShockGiven, BeatsAgain]),
        S::AfterShock => watched(&[SpikeWithoutABeat], Fine),
        S::Away => free(&[No, Yes]),
        S::AwayRead => typed(&[], Typed::Dials),
        S::Ended => free(&[]),
    }
}

/// Asynchronous as an emergency of this check left it.
pub fn is_left_asynchronous(facts: &Facts) -> bool {
    let by_emergency = matches!(facts.asynchronous, Asynchronous::No | Asynchronous::SetInEmergency)
        && facts.marks.has(Marks::EMERGENCY)
        && !facts.marks.has(Marks::ASYNCHRONOUS_ORDERED);
    facts.stands_asynchronous() && by_emergency
}

/// The card touches a dial, or is owed a way back: NO BEATS, Stop, trouble and slip are on it.
pub fn has_safety(facts: &Facts) -> bool {
    use Step::*;
    let over = matches!(facts.step, Done | Ended | Blocked | WhichLine);
    facts.dials_read() && !over
}

/// No dial is known yet, and the heart may stop all the same.
pub fn before_the_reading(facts: &Facts) -> bool {
    let called = matches!(facts.step, Step::Emergency | Step::Arrest);
    let over = matches!(facts.step, Step::Done | Step::Ended);
    !facts.dials_read() && !called && !over
}

/// NO BEATS, Stop, Something is wrong, That was a slip: the answers of every dial card.
pub fn is_always_open(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> bool {
    let emergency = matches!(facts.step, Step::NoBeats | Step::NoSpikes | Step::Emergency | Step::Arrest);
    let reading = matches!(facts.step, Step::Slip | Step::Elsewhere | Step::Away | Step::AwayRead);
    match answer {
        Answer::NoBeats if setup.guards.on(Guard::NoBeatsOffered) => {
            has_safety(facts) || before_the_reading(facts)
        }
        Answer::Stop if setup.guards.on(Guard::RestoreOffered) => {
            // What an emergency had turned is read before anybody leaves.
            let called = facts.marks.has(Marks::EMERGENCY);
            let asks = facts.step.stage() == Some(Stage::Ready) && facts.step != Step::Blocked;
            let reads_or_asks = asks && !called;
            (has_safety(facts) && !read_anew(facts)) || reads_or_asks
        }
        Answer::Wrong => {
            has_safety(facts) && !matches!(facts.step, Step::Wrong | Step::WrongMore) && !emergency
        }
        Answer::Slip if facts.step == Step::Emergency && !facts.dials_read() => true,
        Answer::Slip => has_safety(facts) && !reading,
        _ => false,
    }
}

/// May this answer be given to this card now?
pub fn is_open(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> bool {
    let offer = offer(setup, facts);
    let waits = |good: Answer| good == answer && facts.phase == Phase::Open;
    match answer {
        Answer::Time(_) | Answer::Woke(_) => true,
        Answer::Stands => {
            facts.to != super::facts::NONE && facts.phase == Phase::Turning && !facts.step.is_side()
        }
        Answer::Read(dials) => offer.typed == Typed::Dials && dials != Dials::UNREAD,
        Answer::OwnRate { .. } => offer.typed == Typed::OwnRate,
        Answer::StandsAt(_) => offer.typed == Typed::OneDial,
        tapped => {
            is_always_open(setup, facts, tapped)
                || offer.free.contains(&tapped)
                || offer.good.is_some_and(waits)
                || offer.also_good.is_some_and(waits)
        }
    }
}
