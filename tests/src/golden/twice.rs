//! The first reading of a swap and of a transport, asked for once more.

use domain::State;
use domain::command::Command;
use domain::contract::View;
use domain::record::Record;
use domain::rules::Rules;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::swap::answer::Answer as Swap;
use domain::swap::facts::Work;
use domain::transport::answer::Answer as Way;

use super::handed::taken;
use super::screens::{Named, named, show};
use super::ward::longest;
use super::worlds::{CARD, LABEL, NAME, add_bed, add_wire, at, tablet, tell};

pub fn twice(records: &[Record]) -> Named {
    let generator = longest(records).generator;
    let unknown = || {
        let state = tablet(Rules::example(), domain::profile::shipped().unwrap());
        add_wire(add_bed(state, LABEL), 1, "ventricle", &generator)
    };
    named([
        ("swap-read-old-twice", reads(swap(unknown()), Command::SwapTypedDials, 2)),
        ("transport-read-twice", reads(way(unknown(), 1), Command::TransportTypedDials, 2)),
        ("transport-read-unlike", reads(way(taken(records), 2), Command::TransportTypedDials, 1)),
    ])
}

fn swap(state: State) -> State {
    let state = tell(state, Command::BeginSwap { bed: 1, wire: 1, work: Work::Box }, &[], at(0));
    let state = tell(state, Command::Swap(Swap::Paced), &[], at(1_000));
    let state = tell(state, Command::Swap(Swap::No), &[], at(2_000));
    tell(state, Command::SwapNamed(Swap::Yes), &[("name", NAME)], at(3_000))
}

fn way(state: State, bed: u32) -> State {
    let state = tell(state, Command::BeginTransport { bed }, &[], at(0));
    let to = [("target", "unit"), ("destination", LABEL)];
    let state = tell(state, Command::TransportGoing, &to, at(1_000));
    let state = tell(state, Command::Transport(Way::Yes), &[], at(2_000));
    tell(state, Command::Transport(Way::AllTrue), &[], at(3_000))
}

/// Readings, each unlike the one before: all dials at an end.
fn reads(state: State, command: Command, times: usize) -> View<Say> {
    let bed = if let Screen::Transport { bed } = state.screen { bed } else { 1 };
    let profile = state.wire(bed, 1).and_then(|wire| state.generator(&wire.generator)).unwrap().clone();
    let ends = [(0, 0, 0), (profile.output_last(), profile.rate_last(), profile.mv_last())];
    let read =
        ends.into_iter().take(times).zip([4_000, 5_000]).fold(state, |state, ((output, rate, mv), ms)| {
            let values = [
                ("output", profile.output_text(output)),
                ("rate", profile.rate_text(rate)),
                ("mv", profile.mv_text(mv)),
            ];
            tell(state, command.clone(), &values, at(ms))
        });
    let screen = read.screen;
    View { card: CARD, ..show(read, screen) }
}
