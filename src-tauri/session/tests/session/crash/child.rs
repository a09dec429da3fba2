//! Somebody who taps at random and says aloud what is on the glass, until killed.

use std::path::PathBuf;

use domain::command::Command;
use domain::contract::{Act, FieldKind, Shape, View};
use domain::state::screen::Screen;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;

pub const FOLDER: &str = "HOLDFAST_TEST_CRASH_FOLDER";
pub const START: &str = "HOLDFAST_TEST_CRASH_START_MS";
pub const SEED: &str = "HOLDFAST_TEST_CRASH_SEED";
pub const TAPS: &str = "HOLDFAST_TEST_CRASH_TAPS";

/// Between two ticks of the waiting.
const STEP_MS: i64 = 900;

/// One output of SplitMix64 (Steele, Lea, Flood 2014), so that a walk can be repeated.
pub fn mixed(seed: u64) -> u64 {
    let state = seed.wrapping_add(1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    let mixed = (state ^ (state >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    mixed ^ (mixed >> 31)
}

fn number(name: &str) -> i64 {
    std::env::var(name).unwrap().parse().unwrap()
}

/// Not a test by itself: it does nothing unless a test of this folder started it.
#[test]
fn child() {
    let Ok(folder) = std::env::var(FOLDER) else { return };
    let clock = HandClock::at(number(START));
    let mut walk = Walk { seed: number(SEED).unsigned_abs() << 32, clock: clock.clone() };
    let mut nurse = Nurse::start(&PathBuf::from(folder), &clock);
    walk.say(&nurse.view);
    for _ in 0..number(TAPS) {
        walk.tap(&mut nurse);
    }
    nurse.session.close();
    println!("the end");
}

struct Walk {
    seed: u64,
    clock: HandClock,
}

impl Walk {
    fn below(&mut self, below: usize) -> usize {
        self.seed += 1;
        usize::try_from(mixed(self.seed) % below.max(1) as u64).unwrap()
    }

    /// A card counts as shown once its line is out.
    fn say(&self, view: &View<String>) {
        println!("card {}", view.card);
    }

    /// Time is announced before it passes, so that whoever reads knows the latest instant.
    fn pass(&self, nurse: &mut Nurse, ms: i64) {
        println!("until {}", self.clock.boot_ms() + ms + 400);
        self.clock.pass(ms);
        nurse.glance(1);
    }

    fn tap(&mut self, nurse: &mut Nurse) {
        let waits = self.below(3) > 0;
        if let (Shape::Turn(turn), true) = (&nurse.view.shape, waits) {
            let until = turn.watch.as_ref().map_or(0, |watch| watch.until_ms);
            while self.clock.boot_ms() < until {
                self.pass(nurse, STEP_MS);
            }
        }
        self.pass(nurse, 0);
        let command = self.choose(&nurse.view);
        nurse.send(command);
        nurse.glance(12);
        self.say(&nurse.view);
    }

    /// Mostly into a check and on by its good answers, now and then anything the card offers.
    fn choose(&mut self, view: &View<String>) -> Command {
        let acts = acts(view);
        let entry =
            acts.iter().find(|act| matches!(act.command, Command::Begin { .. } | Command::Resume { .. }));
        match (entry, view.answers.last(), self.below(10)) {
            (Some(entry), _, 0..8) => entry.command.clone(),
            (_, Some(last), 0..8) => last.command.clone(),
            _ => {
                let at = self.below(acts.len());
                acts.get(at).map_or(Command::Go(Screen::Beds), |act| act.command.clone())
            }
        }
    }
}

/// Every button of the card.
fn acts(view: &View<String>) -> Vec<Act<String>> {
    let mut acts = [view.answers.clone(), view.aside.clone()].concat();
    acts.extend(view.safety.iter().flat_map(|safety| safety.acts()).cloned());
    if let Shape::Beds(beds) = &view.shape {
        acts.extend(beds.rows.iter().map(|row| row.open.clone()));
    }
    if let Shape::Form(form) = &view.shape {
        let choices = form.fields.iter().filter(|field| field.kind == FieldKind::Choice);
        acts.extend(choices.flat_map(|field| field.choices.iter().filter_map(|choice| choice.act.clone())));
    }
    acts
}
