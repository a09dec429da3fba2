//! Every card of codes between tablets, set up by hand: codes that came, what stands against them, the dials beside.

use domain::State;
use domain::contract::View;
use domain::handover::arrived::{Arrived, Form, Loading, NotLoaded, Remark, Source};
use domain::handover::code::MadeCode;
use domain::handover::compare::{Beside, Compared, Margin, Seeing, compare};
use domain::handover::figure::Figure;
use domain::handover::history::{Arrival, HandedCheck};
use domain::handover::stamp::Place;
use domain::handover::summary::{
    Capture, Check, DialsAt, Mention, Next, Origin, OwnBeats, Sensing, Summary, WireFacts,
};
use domain::handover::tablet::{KeyLost, KnownTablet, OwnKey, Tablet};
use domain::moment::Moment;
use domain::rules::{Chamber, Rules};
use domain::say::Say;
use domain::state::bed::{Polarity, WireKind};
use domain::state::screen::Screen;
use domain::units::OutputUnit;

use crate::wander::Walk;

const NOW: Moment =
    Moment { wall_ms: 1_795_561_200_000, offset_min: 60, boot_ms: 1_000, boot: 1, fresh: [0; 16] };
const ENDED: u32 = 29_925_880;

type Read<'r> = &'r mut dyn FnMut(&View<Say>);

pub fn every_card_of_a_handover(read: Read<'_>) {
    let mut walk = Walk::into_a_check("ventricle", 0);
    walk.state.wire_mut(1, 1).unwrap().check = None;
    let state = walk.state;
    asked_for(&state, read);
    arrived(&state, read);
    beside(&state, read);
    tablets(&state, read);
    for screen in [Screen::Code { bed: 1, wire: 1 }, Screen::CodeCopy { bed: 1, wire: 1 }] {
        show(&state, screen, read);
    }
}

fn show(state: &State, screen: Screen, read: Read<'_>) {
    read(&domain::view(&State { screen, ..state.clone() }, NOW));
}

fn tablet(seed: u8) -> Tablet {
    Tablet::of_key(&[seed; 32])
}

fn loading(state: &State, outcome: Option<Result<Vec<Arrived>, NotLoaded>>) -> State {
    let loading = Loading { id: 1, bed: None, source: Source::Typed(String::new()), outcome };
    State { loading: Some(loading), ..state.clone() }
}

fn asked_for(state: &State, read: Read<'_>) {
    let refused = [
        NotLoaded::NotACode,
        NotLoaded::TooLong,
        NotLoaded::Damaged,
        NotLoaded::Mangled,
        NotLoaded::Altered,
        NotLoaded::NewerVersion,
        NotLoaded::Practice,
        NotLoaded::Care,
        NotLoaded::NotAPicture,
        NotLoaded::PictureTooLarge { megapixels: 100 },
        NotLoaded::PictureTooLong,
        NotLoaded::NoCodeInPicture,
        NotLoaded::Interrupted,
    ];
    for why in refused {
        show(&loading(state, Some(Err(why))), Screen::Load { bed: Some(1) }, read);
    }
    show(&loading(state, None), Screen::Reading, read);
}

fn figure(text: &str) -> Figure {
    Figure::new(text).unwrap()
}

fn check() -> Check {
    Check {
        id: 7,
        example_rules: true,
        ended: ENDED,
        read: true,
        read_later: None,
        dials: Some(DialsAt { rate: figure("80"), output: figure("3.6"), mv: Some(figure("2.0")) }),
        unit: OutputUnit::MilliAmp,
        capture: Capture::Exact { at: figure("1.2") },
        margin: Some(figure("3")),
        sensing: Sensing::Exact { at: figure("5.0") },
        own: OwnBeats::Seen { slowest: 52, fastest: 60 },
        pulse_width: Some(figure("1.2")),
        flags: Vec::new(),
    }
}

/// Every way in which a figure is said.
fn checks() -> Vec<Check> {
    let flags = Mention::PLAIN.into_iter().map(|(_, mention)| mention);
    let figures = [
        Mention::FoundMargin { multiple: figure("1.5") },
        Mention::Doubled { was: figure("0.6") },
        Mention::SignalHalved { was: figure("11") },
    ];
    vec![
        check(),
        Check {
            capture: Capture::Bracket { low: figure("1.1"), high: figure("1.2") },
            sensing: Sensing::AtLeast { at: figure("5.0") },
            own: OwnBeats::NoneSeen { limit: figure("50") },
            read: false,
            flags: flags.collect(),
            ..check()
        },
        Check {
            capture: Capture::AtMost { at: figure("0.5") },
            sensing: Sensing::AsFound { at: figure("5.0") },
            own: OwnBeats::ThenLost { slowest: 52, fastest: 52 },
            read: false,
            read_later: Some(45),
            flags: figures.to_vec(),
            ..check()
        },
        Check {
            capture: Capture::Held { at: figure("3.0") },
            margin: None,
            own: OwnBeats::Unmeasured,
            ..check()
        },
        Check {
            capture: Capture::NotTested,
            margin: None,
            sensing: Sensing::NoneSaw,
            own: OwnBeats::NotLooked,
            ..check()
        },
    ]
}

fn came(newest: Check, remarks: Vec<Remark>) -> Arrived {
    let wire =
        WireFacts { chamber: Chamber::Ventricle, kind: WireKind::Epicardial, polarity: Polarity::Bipolar };
    let summary = Summary {
        origin: Origin::Care,
        wire,
        place: Place::new(60).unwrap(),
        age_min: 6,
        newest,
        next: Next::Now,
        earlier: vec![check()],
        left_out: 0,
        others: Vec::new(),
    };
    Arrived { summary, form: Form::Lines, tablet: tablet(2), name: None, remarks }
}

fn remarks() -> Vec<Vec<Remark>> {
    vec![
        vec![Remark::UnknownTablet, Remark::Duplicate, Remark::Expired { age_min: 2_900 }],
        vec![Remark::AheadOfClock { by_min: 7 }, Remark::Shortened { facts: 2 }, Remark::ExampleRules],
        vec![Remark::DialsNotRead, Remark::UnknownLines, Remark::Expired { age_min: 1_500 }],
    ]
}

fn arrived(state: &State, read: Read<'_>) {
    for newest in checks() {
        for remarks in remarks() {
            let state = loading(state, Some(Ok(vec![came(newest.clone(), remarks)])));
            for screen in [Screen::Arrived { at: 0 }, Screen::TakeIn { at: 0 }, Screen::NameTablet { at: 0 }]
            {
                show(&state, screen, read);
            }
        }
    }
    let mut known = loading(state, Some(Ok(vec![came(check(), Vec::new()); 2])));
    show(&known, Screen::ArrivedList, read);
    known.own_key.tablet = Some(tablet(2));
    show(&known, Screen::Arrived { at: 0 }, read);
    known.own_key.tablet = None;
    known.known_tablets = vec![KnownTablet { tablet: tablet(2), name: "Ward 6".into(), since: NOW }];
    show(&known, Screen::Arrived { at: 0 }, read);
}

/// Every way in which a dial, a margin and a signal may stand beside the code.
pub fn compared(state: &State) -> Vec<Compared> {
    let profile = &state.generators[0];
    let dials = domain::check::facts::Dials { output: 4, rate: 4, mv: 4 };
    let done = compare(profile, &Rules::example(), dials, &check(), NOW);
    let margin = |at_least, below_rule| Margin::Times {
        multiple: "2.5".into(),
        threshold: "1.2".into(),
        at_least,
        below_rule,
    };
    let all = |beside: Beside| Compared {
        output: beside.clone(),
        rate: beside.clone(),
        mv: beside,
        margin: margin(false, true),
        seeing: Seeing::Sees { signal: "5.0".into(), at_least: false },
        ..done.clone()
    };
    vec![
        Compared { margin: Margin::Lost { threshold: "1.2".into(), at_most: false }, ..all(Beside::Same) },
        Compared {
            margin: Margin::Lost { threshold: "1.2".into(), at_most: true },
            seeing: Seeing::Untried { signal: "5.0".into() },
            ..all(Beside::Same)
        },
        Compared {
            margin: margin(true, true),
            seeing: Seeing::Sees { signal: "5.0".into(), at_least: true },
            ..all(Beside::Same)
        },
        Compared { margin: margin(true, false), seeing: Seeing::NotTested, ..all(Beside::NotSaid) },
        Compared {
            margin: Margin::Unknown,
            seeing: Seeing::Blind { signal: "5.0".into() },
            ..all(Beside::Differs { said: Some("3.6".into()) })
        },
        Compared {
            seeing: Seeing::Asynchronous,
            output: Beside::OtherUnit { said: "3.6".into(), unit: OutputUnit::Volt },
            ..all(Beside::Differs { said: None })
        },
    ]
}

fn beside(state: &State, read: Read<'_>) {
    let done = compared(state).into_iter().map(Some);
    for compared in [None].into_iter().chain(done) {
        let mut state = state.clone();
        let wire = state.wire_mut(1, 1).unwrap();
        wire.due_now = Some(domain::state::bed::DueNow::Arrived);
        wire.handed = vec![HandedCheck { tablet: tablet(2), place: Place::new(60).unwrap(), check: check() }];
        wire.arrival = Some(Arrival {
            tablet: tablet(2),
            name: None,
            place: Place::new(60).unwrap(),
            newest: check(),
            next: Next::Now,
            at: NOW,
            first: Some(NOW),
            compared,
        });
        let (bed, wire) = (1, 1);
        for screen in [
            Screen::Compare { bed, wire },
            Screen::Compared { bed, wire },
            Screen::Bed { bed },
            Screen::Beds,
            Screen::History { bed, wire },
            Screen::Code { bed, wire },
        ] {
            show(&state, screen, read);
        }
    }
}

fn tablets(state: &State, read: Read<'_>) {
    let lost = [KeyLost::Gone, KeyLost::Damaged, KeyLost::NotWritten].map(Some);
    for lost in [None].into_iter().chain(lost) {
        let own_key = OwnKey { tablet: lost.is_none().then(|| tablet(1)), lost, wanted: false };
        show(&State { own_key, ..state.clone() }, Screen::Tablets, read);
    }
    let own_key = OwnKey { tablet: None, lost: None, wanted: true };
    let known_tablets = vec![KnownTablet { tablet: tablet(2), name: "Ward 6".into(), since: NOW }];
    let state = State { own_key, known_tablets, ..state.clone() };
    for screen in [Screen::Tablets, Screen::Tablet { at: 0 }] {
        show(&state, screen, read);
    }
}

/// The texts of a code are no sentences of the catalogue.
#[test]
fn what_a_code_says_is_shown_as_it_was_signed() {
    let made = MadeCode {
        at: NOW,
        check: Default::default(),
        tablet: tablet(1),
        lines: Some("HOLDFAST 1 en: one\nRATE: 80 /min\nSIG ABC".into()),
        copy: None,
    };
    assert_eq!(made.readable(), ["HOLDFAST 1 en: one", "RATE: 80 /min"]);
}
