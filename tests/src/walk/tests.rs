//! The walks themselves: `make test` runs the first of each pair, `make prove` both.

use domain::check::facts::Dials;
use domain::check::guard::Guard;
use domain::rules::{Chamber, Rules};

use super::alphabet::Bound;
use super::jobs::{Job, each_found, every_setting, run, told};
use super::units;
use super::world::{World, generator};

const QUIET: Bound = Bound { deviations: 0, troubles: Some(0) };
const ONE_TROUBLE: Bound = Bound { deviations: 0, troubles: Some(1) };
const ANY_TROUBLE: Bound = Bound { deviations: 0, troubles: None };
const ONE_OF_EACH: Bound = Bound { deviations: 1, troubles: Some(1) };
const TWO_DEVIATIONS: Bound = Bound { deviations: 2, troubles: Some(0) };

/// 3 rates, 4 outputs, 3 numbers.
fn small(chamber: Chamber, unit: &str, asynchronous: &str, rules: Rules) -> World {
    let rates = ["40", "60", "90"];
    let outputs = ["0.5", "2", "5", "12"];
    let profile = generator(&rates, unit, &outputs, &["1.0", "2.0", "5.0"], asynchronous);
    World::new("3 x 4 x 3", profile, rules, chamber)
}

/// 2 rates, 3 outputs, 2 numbers.
fn tiny(chamber: Chamber, rules: Rules) -> World {
    let profile = generator(&["50", "90"], "mA", &["0.5", "3", "12"], &["1.0", "3.0"], "position");
    World::new("2 x 3 x 2", profile, rules, chamber)
}

fn walk(jobs: &[Job]) {
    let tallies = run(jobs).unwrap_or_else(|breach| panic!("{breach}"));
    let (mut states, mut answers) = (0, 0);
    for tally in tallies {
        println!("{tally:?}");
        states += tally.states;
        answers += tally.answers;
    }
    println!("{states} states, {answers} answers");
}

#[test]
fn explore() {
    let number = |name: &str, other: usize| std::env::var(name).map_or(other, |n| n.parse().unwrap());
    let world = if std::env::var("TINY").is_ok() {
        tiny(Chamber::Ventricle, Rules::example())
    } else {
        small(Chamber::Ventricle, "mA", "position", Rules::example())
    };
    let found = every_setting(&world).into_iter().skip(number("SKIP", 0)).take(number("TAKE", 1));
    let troubles = u8::try_from(number("TROUBLES", 0)).unwrap();
    let bound = Bound {
        deviations: u8::try_from(number("BUDGET", 0)).unwrap(),
        troubles: (troubles < 9).then_some(troubles),
    };
    let mut jobs = each_found("explored", &world, found, bound);
    jobs.iter_mut().for_each(|job| job.limit = number("LIMIT", usize::MAX));
    walk(&jobs);
}

#[test]
fn each_guard_switched_off_is_found_out() {
    for guard in Guard::ALL {
        println!("{guard:?}: {}", without(guard));
    }
}

fn without(guard: Guard) -> String {
    let mut world = tiny(Chamber::Ventricle, Rules::example());
    world.guards = domain::check::guard::Guards::without(guard);
    let found = [Dials { output: 2, rate: 1, mv: 1 }, Dials { output: 1, rate: 1, mv: 254 }, Dials { output: 1, rate: 0, mv: 0 }];
    let mut jobs = each_found("guard", &world, found, ONE_TROUBLE);
    jobs.iter_mut().for_each(|job| job.limit = 1_000_000);
    match run(&jobs) {
        Ok(tallies) => format!("NOTHING {tallies:?}"),
        Err(said) => said.lines().next().unwrap_or_default().to_owned(),
    }
}

#[test]
fn random_checks_on_every_shipped_generator_break_nothing() {
    let checks: u64 = std::env::var("CHECKS").ok().and_then(|c| c.parse().ok()).unwrap_or(200);
    let mut worst: Option<(usize, String)> = None;
    for profile in domain::profile::shipped().unwrap() {
        let mut answers = 0;
        for (name, rules) in units::named().into_iter().chain(units::extremes()) {
            for chamber in [Chamber::Ventricle, Chamber::Atrium] {
                for last in [255, 0] {
                    let mut world = World::new(
                        &format!("{} {name}", profile.id),
                        profile.clone(),
                        rules.clone(),
                        chamber,
                    );
                    world.last_capture = last;
                    world.last_seen = last;
                    for number in 0..checks {
                        match super::random::check(&world, number) {
                            Ok(taken) => answers += taken,
                            Err(found) => {
                                let shorter =
                                    worst.as_ref().is_none_or(|(length, _)| found.path.len() < *length);
                                if shorter {
                                    worst = Some((found.path.len(), told(&world, &found)));
                                }
                            }
                        }
                    }
                }
            }
        }
        println!("{}: {answers} answers", profile.id);
    }
    if let Some((_, said)) = worst {
        panic!("{said}");
    }
}
