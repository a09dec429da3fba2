//! The order of acts, a second time: what the cards ask on a swap that goes well, with and without own beats. Common
//! practice, no source; local procedure comes first.

use domain::State;
use domain::check::facts::ASYNCHRONOUS;
use domain::command::Command;
use domain::due;
use domain::say::Say;
use domain::state::bed::DueNow;
use domain::state::screen::Screen;
use domain::state::swap::Outcome;
use domain::swap::answer::Answer;
use domain::swap::facts::Block;
use domain::swap::step::Step;

use crate::made::{BED, OTHER, WIRE, WORLDS, World, at, facts, history, send, tell};

struct Story {
    state: State,
    asked: Vec<Step>,
    world: World,
}

impl Story {
    fn of(world: World) -> Story {
        Story { state: world.begun(), asked: Vec::new(), world }
    }

    fn tap(self, answer: Answer) -> Story {
        let (command, values): (_, &[_]) = match answer {
            Answer::Yes if facts(&self.state).unwrap().step == Step::Order => {
                (Command::SwapNamed(answer), &[("name", "Dr Example")])
            }
            _ => (Command::Swap(answer), &[]),
        };
        self.send(command, values)
    }

    /// The first look, and no other wire is in the box.
    fn alone(self, look: Answer) -> Story {
        self.tap(look).tap(Answer::No)
    }

    fn send(mut self, command: Command, values: &[(&str, &str)]) -> Story {
        self.asked.extend(facts(&self.state).map(|facts| facts.step));
        self.state = tell(&self.state, command, values, at(0));
        self
    }

    fn reads(self, dials: [&str; 3]) -> Story {
        let [output, rate, mv] = dials;
        self.send(Command::SwapTypedDials, &[("output", output), ("rate", rate), ("mv", mv)])
    }

    /// Nothing is known of the old box: typed twice.
    fn reads_old(self) -> Story {
        let found = self.world.found;
        self.reads(found).reads(found)
    }

    fn picks(self) -> Story {
        let new = self.world.new;
        self.send(Command::SwapPicked, &[("generator", new)])
    }

    fn sleeps(mut self, ms: i64) -> Story {
        self.state = tell(&self.state, Command::Woke { alive: at(0) }, &[], at(ms));
        self
    }

    /// The time of this card passes.
    fn watched(mut self) -> Story {
        let end = due(&self.state).unwrap() - at(0).boot_ms;
        self.state = tell(&self.state, Command::TimePassed, &[], at(end));
        self
    }

    fn sets_the_new_box(self, dials: [&str; 3]) -> Story {
        let ready = self.tap(Answer::AllTrue).tap(Answer::Yes).tap(Answer::Yes);
        ready.tap(Answer::Stands).tap(Answer::Stands).tap(Answer::Stands).reads(dials)
    }

    fn due(&self) -> Option<DueNow> {
        self.state.wire(BED, WIRE).unwrap().due_now
    }

    fn outcome(&self) -> Outcome {
        self.state.wire(BED, WIRE).unwrap().swaps.last().unwrap().outcome
    }
}

const BOX: [Step; 19] = {
    use Step::*;
    [
        Look, Shared, Order, ReadOld, ReadOld, PickBox, Sound, NewOn, NewMode, NewRate, NewOutput, NewMv,
        ReadNew, Standby, Ready, Move, LookNew, Guarded, ReadEnd,
    ]
};

/// Both pins are in the new box.
fn to_the_look(world: World, look: Answer, set: [&str; 3]) -> Story {
    let story = Story::of(world).alone(look).tap(Answer::Yes).reads_old().picks().sets_the_new_box(set);
    story.tap(Answer::Yes).tap(Answer::AllTrue).tap(Answer::AllTrue)
}

/// Only the last reading is left.
fn to_the_end(world: World, look: Answer, set: [&str; 3]) -> Story {
    to_the_look(world, look, set).watched().tap(Answer::EverySpikeMadeABeat).tap(Answer::AllTrue)
}

fn moved(world: World, look: Answer, set: [&str; 3]) -> Story {
    to_the_end(world, look, set).reads(set)
}

#[test]
fn another_box_with_and_without_own_beats() {
    for look in [Answer::Paced, Answer::OnlyOwn] {
        let story = moved(WORLDS[1], look, ["6.0", "80", "2.0"]);
        assert_eq!(story.asked, BOX, "{look:?}");
        assert_eq!((story.outcome(), story.due()), (Outcome::Moved, Some(DueNow::Generator)));
        let wire = story.state.wire(BED, WIRE).unwrap();
        assert_eq!(wire.generator, WORLDS[1].new);
        assert_eq!(wire.owed, None);
        assert_eq!(wire.standing.as_ref().unwrap().printed.output, "6.0");
        let record = wire.swaps.last().unwrap();
        assert_eq!(record.own_beats, look == Answer::OnlyOwn);
        assert_eq!(record.names.clinician.as_deref(), Some("Dr Example"));
    }
}

/// Not slower, and not above, in the printed positions of the new box; its pulse is shorter, so OUTPUT goes to the
/// highest.
#[test]
fn a_shorter_pulse_says_nothing_about_capture() {
    let story = moved(WORLDS[0], Answer::Paced, ["22", "80", "3.0"]);
    assert_eq!(story.asked, BOX);
}

/// mA says nothing about volts: the highest until the threshold is taken anew.
#[test]
fn from_current_to_volts_output_goes_to_maximum() {
    let story = moved(WORLDS[2], Answer::Paced, ["14.0", "80", "2.0"]);
    assert_eq!(story.asked, BOX);
    assert_eq!(story.outcome(), Outcome::Moved);
}

#[test]
fn a_battery_under_a_patient_with_own_beats() {
    let world = WORLDS[4];
    let ready = Story::of(world).alone(Answer::OnlyOwn).tap(Answer::Yes).reads_old().tap(Answer::AllTrue);
    let changed = ready.tap(Answer::Yes).tap(Answer::AllTrue).tap(Answer::AllTrue).tap(Answer::OnlyOwn);
    let story = changed.tap(Answer::AllTrue).reads(world.found);
    use Step::*;
    assert_eq!(
        story.asked,
        [
            Look,
            Shared,
            Order,
            ReadOld,
            ReadOld,
            Sound,
            Standby,
            Ready,
            BatteryOut,
            LookBattery,
            Guarded,
            ReadEnd
        ]
    );
    assert_eq!((story.outcome(), story.due()), (Outcome::BatteryChanged, Some(DueNow::Battery)));
}

/// Without own beats the box is changed instead.
#[test]
fn no_battery_is_changed_under_a_patient_without_own_beats() {
    let story = Story::of(WORLDS[4]).tap(Answer::Paced);
    assert_eq!(facts(&story.state).unwrap().step, Step::UseBox);
    let story = story.tap(Answer::OtherBox).tap(Answer::No).tap(Answer::Yes).reads_old();
    assert_eq!(facts(&story.state).unwrap().step, Step::PickBox);
}

/// Another way: the new box does not capture. Its maximum first, then the box that did.
#[test]
fn a_new_box_that_does_not_capture_gives_way_to_the_old_one() {
    let world = WORLDS[1];
    let set = ["6.0", "80", "2.0"];
    let story =
        Story::of(world).alone(Answer::Paced).tap(Answer::Yes).reads_old().picks().sets_the_new_box(set);
    let story = story.tap(Answer::Yes).tap(Answer::AllTrue).tap(Answer::AllTrue);
    let story = story.tap(Answer::SpikeWithoutABeat).tap(Answer::Stands).tap(Answer::SpikeWithoutABeat);
    let story = story.tap(Answer::AllTrue).watched().tap(Answer::EverySpikeMadeABeat);
    use Step::*;
    assert_eq!(story.asked[BOX.len() - 3..], [LookNew, Maximum, Maximum, BackToOld, LookBack]);
    let story = story.reads(world.found);
    assert_eq!((story.outcome(), story.due()), (Outcome::BackInTheOld, Some(DueNow::Reconnected)));
    assert_eq!(story.state.wire(BED, WIRE).unwrap().generator, world.old);
}

/// N5: it ends with the dials read, or with a reason and the name of who was told.
#[test]
fn what_is_not_read_at_the_end_has_a_reason_and_a_name() {
    let set = ["6.0", "80", "2.0"];
    let story = to_the_end(WORLDS[1], Answer::Paced, set).tap(Answer::No);
    assert_eq!(facts(&story.state).unwrap().step, Step::Reason);
    let unnamed = send(&story.state, Command::Swap(Answer::Yes), &[], at(0));
    assert!(unnamed.is_err(), "not without a reason");
    let nobody = send(&story.state, Command::SwapNamed(Answer::Yes), &[("reason", "Dark")], at(0));
    assert!(nobody.expect_err("taken").say().is_some(), "nobody was told");
    let told = [("reason", "Dark"), ("name", "Dr Example")];
    let story = story.send(Command::SwapNamed(Answer::Yes), &told);
    let wire = story.state.wire(BED, WIRE).unwrap();
    assert!(wire.owed.is_some() && wire.standing.is_none(), "the reading stays owed");
    let names = &wire.swaps.last().unwrap().names;
    assert_eq!((names.reason.as_deref(), names.told.as_deref()), (Some("Dark"), Some("Dr Example")));
}

/// N5 again: read, and left unlike what was set.
#[test]
fn what_stays_different_at_the_end_has_a_reason_and_a_name() {
    let story = to_the_end(WORLDS[1], Answer::Paced, ["6.0", "80", "2.0"]).reads(["5.0", "80", "2.0"]);
    assert_eq!(facts(&story.state).unwrap().step, Step::EndDiffers);
    let story = story.tap(Answer::AllTrue);
    assert_eq!(facts(&story.state).unwrap().step, Step::Reason);
    let told = [("reason", "Ordered so"), ("name", "Dr Example")];
    let story = story.send(Command::SwapNamed(Answer::Yes), &told);
    let wire = story.state.wire(BED, WIRE).unwrap();
    assert_eq!(wire.standing.as_ref().unwrap().printed.output, "5.0");
    assert_eq!(wire.owed, None);
}

/// "Something is wrong" over the question of a break goes back to that question, not past it.
#[test]
fn nothing_said_in_between_passes_over_where_the_pins_are() {
    let set = ["6.0", "80", "2.0"];
    let look = to_the_look(WORLDS[1], Answer::Paced, set);
    let away = look.sleeps(900_000).tap(Answer::Wrong);
    let stop = send(&away.state, Command::Swap(Answer::Stop), &[], at(0));
    assert_eq!(stop.expect_err("taken").say(), Some(Say::LookFirst));
    let asked = away.tap(Answer::Back);
    assert_eq!(facts(&asked.state).unwrap().step, Step::AwayWhere);
    let found = asked.tap(Answer::PinsNew);
    assert_eq!(facts(&found.state).unwrap().step, Step::LookNew);
    let stopped = found.tap(Answer::Stop);
    assert_eq!(
        facts(&stopped.state).unwrap().step,
        Step::Standby,
        "tested anew before anything is unplugged"
    );
}

/// Own beats that were seen ten minutes ago count no more: the look and the order come again.
#[test]
fn own_beats_seen_long_ago_are_looked_for_again() {
    let world = WORLDS[0];
    let story = Story::of(world).alone(Answer::OnlyOwn).tap(Answer::Yes).reads_old().watched();
    assert_eq!(facts(&story.state).unwrap().step, Step::Look);
    let story = story.tap(Answer::Paced).tap(Answer::Yes);
    assert_eq!(facts(&story.state).unwrap().step, Step::PickBox, "what was done stays done");
}

/// The found number is asynchronous and the new box has none: another box.
#[test]
fn a_box_that_cannot_do_what_the_old_one_does_is_refused() {
    let world = WORLDS[3];
    let story = Story::of(world).alone(Answer::Paced).tap(Answer::Yes).reads_old().picks();
    let card = facts(&story.state).unwrap();
    assert_eq!((card.step, card.old.mv), (Step::Blocked, ASYNCHRONOUS));
    let story = story.tap(Answer::Back);
    assert_eq!(facts(&story.state).unwrap().step, Step::PickBox);
}

/// Own beats are looked for again, without a spike of either wire; the clinician stands at the bedside; the old box
/// stays on, for the other wire is in it; that wire is to be read and checked.
#[test]
fn one_wire_leaves_a_box_that_paces_two() {
    let world = WORLDS[1].of_two();
    let set = ["6.0", "80", "2.0"];
    for look in [Answer::Paced, Answer::OnlyOwn] {
        let seen = Story::of(world).tap(look).tap(Answer::Yes);
        let again = if look == Answer::OnlyOwn { seen.tap(look) } else { seen };
        let ready = again.tap(Answer::Yes).reads_old().picks().sets_the_new_box(set);
        let moved = ready.tap(Answer::Yes).tap(Answer::AllTrue).tap(Answer::AllTrue).watched();
        let story = moved.tap(Answer::EverySpikeMadeABeat).tap(Answer::AllTrue);
        assert!(facts(&story.state).unwrap().old_on, "the old box paces the other wire");
        let story = story.reads(set);
        let looks = story.asked.iter().filter(|step| **step == Step::Look).count();
        assert_eq!(looks, if look == Answer::OnlyOwn { 2 } else { 1 });
        let other = story.state.wire(BED, OTHER).unwrap();
        assert_eq!((other.owed.is_some(), other.due_now), (true, Some(DueNow::SharedBox)));
        assert_eq!(other.generator, world.old);
        assert!(story.state.wire(BED, WIRE).unwrap().swaps.last().unwrap().shared);
    }
}

/// Both stop with the battery: only over own beats without a spike of either.
#[test]
fn a_battery_of_a_box_that_paces_two_wires() {
    let world = WORLDS[4].of_two();
    let both = Story::of(world).tap(Answer::OnlyOwn).tap(Answer::Yes);
    assert_eq!(facts(&both.state).unwrap().step, Step::Look);
    let paced = Story { state: both.state.clone(), asked: Vec::new(), world }.tap(Answer::Paced);
    assert_eq!(facts(&paced.state).unwrap().step, Step::UseBox, "a spike of the other wire");
    let ready = both.tap(Answer::OnlyOwn).tap(Answer::Yes).reads_old().tap(Answer::AllTrue);
    let changed = ready.tap(Answer::Yes).tap(Answer::AllTrue).tap(Answer::AllTrue).tap(Answer::OnlyOwn);
    let story = changed.tap(Answer::AllTrue).reads(world.found);
    assert_eq!(story.due(), Some(DueNow::Battery));
    let other = story.state.wire(BED, OTHER).unwrap();
    assert_eq!((other.owed.is_some(), other.due_now), (true, Some(DueNow::SharedBox)));
}

/// The wire that the patient hangs on leads: from the atrial one nothing of a shared box is opened.
#[test]
fn a_box_that_paces_the_ventricle_too_is_begun_with_that_wire() {
    for world in [WORLDS[1].of_two(), WORLDS[4].of_two()] {
        let close = tell(&world.begun(), Command::Swap(Answer::Paced), &[], at(0));
        let left = match facts(&close).unwrap().step {
            Step::UseBox => tell(&close, Command::Swap(Answer::Close), &[], at(0)),
            _ => tell(&close, Command::Swap(Answer::Stop), &[], at(0)),
        };
        assert_eq!(left.screen, Screen::Bed { bed: BED });
        let begin = Command::BeginSwap { bed: BED, wire: OTHER, work: world.work };
        let card = |state: &State| state.wire(BED, OTHER).unwrap().swap.as_ref().unwrap().facts;
        let asked = tell(&tell(&left, begin, &[], at(0)), Command::Swap(Answer::OnlyOwn), &[], at(0));
        assert_eq!(card(&asked).step, Step::Shared);
        let blocked = tell(&asked, Command::Swap(Answer::Yes), &[], at(0));
        assert_eq!((card(&blocked).step, card(&blocked).block), (Step::Blocked, Some(Block::VentricleFirst)));
        let alone = tell(
            &tell(&blocked, Command::Swap(Answer::Back), &[], at(0)),
            Command::Swap(Answer::No),
            &[],
            at(0),
        );
        assert_eq!(card(&alone).step, Step::Order, "in a box of its own it is led like any other");
    }
}

/// In plain words: which box to which, what OUTPUT stood at before and after, the clinician as typed.
#[test]
fn the_history_tells_which_box_to_which() {
    let story = moved(WORLDS[2], Answer::Paced, ["14.0", "80", "2.0"]);
    let names: Vec<&str> =
        [WORLDS[2].old, WORLDS[2].new].map(|id| story.state.generator(id).unwrap().name.as_str()).to_vec();
    let rows = history(&story.state);
    let [(Say::HistorySwapBox { from: was, to: is }, Some(note))] = rows.as_slice() else {
        panic!("{rows:?}");
    };
    assert!(was.contains(names[0]) && is.contains(names[1]), "{was} {is}");
    let note = format!("{note:?}");
    for said in ["HistorySwapOutput", "\"6.0\"", "MilliAmp", "\"14.0\"", "Volt", "Dr Example"] {
        assert!(note.contains(said), "{said}: {note}");
    }
    let nothing = Story::of(WORLDS[1]).tap(Answer::Paced).tap(Answer::Stop);
    assert_eq!(history(&nothing.state), [(Say::HistorySwapNothing, None)]);
}
