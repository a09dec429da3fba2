//! The search, and what it must find.

use std::collections::BTreeSet;
use std::thread;

use domain::check::facts::Row;
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::Shape;
use domain::state::screen::Screen;
use domain::teaching::place::Place;

use super::closed::variants;
use super::pick::{Picked, kebab};
use super::search::{Harvest, search};
use super::worlds::{World, worlds};
use super::{files, limits, screens};

/// The check ends with these; no card is drawn of them.
const ENDS: [&str; 2] = ["Done", "Ended"];

/// Every search, each in its own thread, joined in the order of the worlds.
fn searched() -> (Picked, Harvest) {
    let one = |world: World| {
        let mut picked = Picked::default();
        let harvest = search(&world, |met| picked.take(met));
        (picked, harvest)
    };
    let running: Vec<_> = worlds().into_iter().map(|world| thread::spawn(move || one(world))).collect();
    let mut all = (Picked::default(), Harvest::default());
    for (picked, harvest) in running.into_iter().map(|search| search.join().unwrap()) {
        all.0.join(picked);
        all.1.cards += harvest.cards;
        all.1.records.extend(harvest.records);
        all.1.dead.extend(harvest.dead);
    }
    all
}

#[test]
fn every_card_is_kept_as_a_view() {
    let (picked, harvest) = searched();
    let cards = picked.named();
    let mut named = cards.clone();
    named.extend(screens::screens(&harvest.records, &cards));
    println!(
        "{} cards met, {} checks ended, {} views kept",
        harvest.cards,
        harvest.records.len(),
        named.len()
    );

    println!("sentences on no card of a check: {:?}", unsaid(&picked.sentences()));
    let faults: Vec<_> = picked.faults.keys().cloned().collect();
    assert!(faults.is_empty(), "{faults:#?}");
    let faulty: Vec<_> = named
        .iter()
        .map(|(name, view)| (name, limits::faults(view)))
        .filter(|(_, f)| !f.is_empty())
        .collect();
    assert!(faulty.is_empty(), "{faulty:#?}");
    assert_eq!(
        missing(variants::<Step>(), &picked.steps, &ENDS),
        Vec::<&str>::new(),
        "no view of these cards"
    );
    assert_eq!(missing(variants::<Row>(), &picked.rows, &[]), Vec::<&str>::new(), "no restore of these rows");
    let shown = named.keys().cloned().collect();
    assert_eq!(screens_without_view(&shown), Vec::<&str>::new(), "no view of these screens");
    assert_eq!(unexpectedly_dead(&harvest.dead), BTreeSet::new(), "buttons that do nothing");

    let differing = files::differing(&named);
    assert!(
        differing.is_empty(),
        "views differ; `make views` writes them, then read the difference: {differing:#?}"
    );
}

fn unsaid(said: &BTreeSet<&'static str>) -> Vec<&'static str> {
    domain::say::SENTENCES.iter().map(|(name, _)| *name).filter(|name| !said.contains(name)).collect()
}

fn missing(all: &[&'static str], met: &BTreeSet<String>, never: &[&str]) -> Vec<&'static str> {
    all.iter().copied().filter(|name| !met.contains(*name) && !never.contains(name)).collect()
}

fn screens_without_view(shown: &BTreeSet<String>) -> Vec<&'static str> {
    let drawn = |screen: &str| match screen {
        "Check" => true,
        "MoreBeds" => shown.contains("screen-beds-more"),
        screen => shown.iter().any(|name| name.starts_with(&format!("screen-{}", kebab(screen)))),
    };
    let places = variants::<Place>().iter().filter(|place| {
        let of_place = format!("screen-teaching-{}", kebab(place));
        !shown.iter().any(|name| name.starts_with(&of_place))
    });
    variants::<Screen>().iter().filter(|screen| !drawn(screen)).chain(places).copied().collect()
}

/// Buttons that stand in the same place on every dial card and have nothing to do on these: they name the
/// card itself, or what it already asks for.
fn unexpectedly_dead(dead: &[(Step, Command)]) -> BTreeSet<String> {
    use domain::check::answer::Answer;
    let by_itself = |(step, command): &&(Step, Command)| match command {
        Command::Answer(Answer::Wrong) => matches!(
            step,
            Step::Wrong | Step::WrongMore | Step::NoBeats | Step::NoSpikes | Step::Emergency | Step::Arrest
        ),
        Command::Answer(Answer::Slip) => {
            matches!(step, Step::Slip | Step::Elsewhere | Step::Away | Step::AwayRead)
        }
        _ => false,
    };
    dead.iter().filter(|one| !by_itself(one)).map(|(step, command)| format!("{step:?} {command:?}")).collect()
}

#[test]
fn the_closed_lists_are_read_from_the_code() {
    assert!(variants::<Step>().contains(&"CaptureDown"));
    assert!(variants::<Screen>().contains(&"History"));
    let shapes = variants::<Shape<String>>();
    assert!(shapes.is_empty() || shapes.contains(&"turn"));
}
