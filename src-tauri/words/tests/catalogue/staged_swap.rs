//! Every card of a change of box or battery, and of a transport, set up by hand.

use std::collections::BTreeMap;

use domain::check::facts::{ASYNCHRONOUS, Dials, Phase};
use domain::command::Command;
use domain::contract::View;
use domain::handover::known::Source;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::swap::carry;
use domain::swap::facts::{Block, Done, Facts, Own, Place, Work};
use domain::swap::step::Step;
use domain::transport::answer::{Answer, Gap};
use domain::transport::facts::{Facts as WayFacts, Leg};
use domain::transport::step::Step as TransportStep;

use crate::handed_over::compared;
use crate::wander::Walk;

const BLOCKS: [Block; 12] = [
    Block::Order,
    Block::NotSound,
    Block::BoxOff,
    Block::WrongMode,
    Block::NoSuchMode,
    Block::Rate,
    Block::Output,
    Block::Number,
    Block::Asynchronous,
    Block::NoStandby,
    Block::NotReady,
    Block::VentricleFirst,
];

/// Each step by work, own beats, place of the pins, both units, asynchronous or not.
pub fn every_swap_card(show: &mut impl FnMut(&View<Say>)) {
    for (old, new) in [(0, 1), (0, 2), (1, 3), (3, 0), (2, 2)] {
        for work in [Work::Box, Work::Battery] {
            let mut walk = Walk::into_a_swap(old, work);
            for facts in of_each_step(&walk, old, new, work) {
                walk.place_swap(facts, new);
                show(&walk.view());
                // The box may pace a wire that is not on this tablet.
                walk.place_swap(Facts { shared: true, old_on: facts.own == Own::Shown, ..facts }, new);
                show(&walk.view());
            }
            walk.with_another_wire();
            for facts in of_each_step(&walk, old, new, work) {
                walk.place_swap(Facts { shared: true, ..facts }, new);
                show(&walk.view());
            }
            walk.go(Screen::Bed { bed: 1 });
            show(&walk.view());
            walk.go(Screen::Beds);
            show(&walk.view());
            walk.tap(Command::Begin { bed: 1, wire: 1 }, BTreeMap::new());
            show(&walk.view());
        }
    }
}

fn of_each_step(walk: &Walk, old: usize, new: usize, work: Work) -> Vec<Facts> {
    let profiles = &walk.state.generators;
    let stood = Dials { output: 9, rate: 9, mv: 7 };
    let chamber = domain::rules::Chamber::Ventricle;
    let mut all = Vec::new();
    for old_dials in [stood, Dials { mv: ASYNCHRONOUS, ..stood }] {
        let asked = carry::asked(&profiles[old], &profiles[new], chamber, old_dials);
        let Ok(asked) = asked else { continue };
        for &step in Step::ALL.iter().filter(|step| **step != Step::Ended) {
            for own in [Own::Shown, Own::NotShown] {
                for place in [Place::Old, Place::New] {
                    all.push(Facts {
                        step,
                        own,
                        place,
                        new_on: true,
                        done: Done::default().and(Done::PICKED).and(Done::OLD_READ),
                        old: old_dials,
                        new: asked,
                        read: Dials { output: 3, rate: 2, mv: 1 },
                        phase: if step.watches() { Phase::Watching } else { Phase::Open },
                        shock: own == Own::Shown && place == Place::New,
                        ..Facts::new(work)
                    });
                }
            }
        }
    }
    let blocked = BLOCKS.map(|block| Facts { step: Step::Blocked, block: Some(block), ..Facts::new(work) });
    all.into_iter().chain(blocked).collect()
}

/// Each step by leg, vehicle, shock, on each generator.
pub fn every_transport_card(show: &mut impl FnMut(&View<Say>)) {
    for generator in 0..4 {
        let mut walk = Walk::into_a_transport(generator);
        let steps = TransportStep::ALL.iter().filter(|step| **step != TransportStep::Ended);
        for (&step, leg) in steps.flat_map(|step| LEGS.map(|leg| (step, leg))) {
            for in_vehicle in [false, true] {
                let shock = in_vehicle;
                let facts = WayFacts { step, leg, in_vehicle, shock, ..WayFacts::new(1, 0) };
                walk.place_transport(facts);
                show(&walk.view());
            }
            for screen in [Screen::Bed { bed: 1 }, Screen::Beds, Screen::BedMore { bed: 1 }] {
                walk.go(screen);
                show(&walk.view());
            }
        }
        every_margin_card(&mut walk, show);
        for command in [Command::Begin { bed: 1, wire: 1 }, Command::EmptyBed { bed: 1 }] {
            walk.tap(command, BTreeMap::new());
            show(&walk.view());
        }
    }
}

/// Every way in which a reading may stand beside what was known, and who said it.
fn every_margin_card(walk: &mut Walk, show: &mut impl FnMut(&View<Say>)) {
    for compared in compared(&walk.state) {
        for by in [None, Some(Source::Code), Some(Source::Check), Some(Source::Reading)] {
            walk.read_on_the_way(by, compared.clone());
            walk.place_transport(WayFacts { step: TransportStep::Margin, ..WayFacts::new(1, 0) });
            show(&walk.view());
        }
    }
    let away = WayFacts { step: TransportStep::AwayLook, away: Some(Gap::Long), ..WayFacts::new(1, 0) };
    walk.place_transport(away);
    walk.tap(Command::Transport(Answer::Stop), BTreeMap::new());
    show(&walk.view());
}

const LEGS: [Leg; 3] = [Leg::Leaving, Leg::OnTheWay, Leg::Arriving];
