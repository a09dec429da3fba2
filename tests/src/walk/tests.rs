//! The walks themselves.

use domain::check::step::Step;
use domain::rules::{Chamber, Rules};

use super::search::{Found, Node, Walk};
use super::world::{World, generator};

fn show(world: &World, found: &Found) -> String {
    let mut text = format!("{}: {} {}\n", world.name, found.breach.0, found.breach.1);
    for (answer, facts) in &found.path {
        let dial = if facts.to == 255 { String::new() } else { format!("{:?}→{}", facts.dial, facts.to) };
        text +=
            &format!("  {answer:?} ⇒ {:?} {:?} {dial} stand {:?}\n", facts.step, facts.phase, facts.stand);
    }
    if let Some((_, last)) = found.path.last() {
        text += &format!("  {last:?}\n");
    }
    text
}

#[test]
fn a_small_generator_breaks_nothing() {
    let profile = if std::env::var("TINY").is_ok() {
        generator(&["50", "90"], "mA", &["0.5", "3", "12"], &["1.0", "3.0"], "position")
    } else {
        generator(&["40", "60", "90"], "mA", &["0.5", "2", "5", "12"], &["1.0", "2.0", "5.0"], "position")
    };
    let world = World::new("small", profile, Rules::example(), Chamber::Ventricle);
    let mut world = world;
    if std::env::var("FEW").is_ok() {
        let few = [(2, 1, 1), (1, 0, 0), (2, 0, 254), (2, 1, 254)];
        let n: usize = std::env::var("FEW").unwrap().parse().unwrap();
        world.found =
            few.map(|(output, rate, mv)| domain::check::facts::Dials { output, rate, mv })[..n].to_vec();
    }
    let limit = std::env::var("LIMIT").ok().and_then(|l| l.parse().ok()).unwrap_or(250_000);
    let budget = std::env::var("BUDGET").ok().and_then(|l| l.parse().ok()).unwrap_or(1);
    let troubles = std::env::var("TROUBLES").ok().and_then(|l| l.parse().ok()).unwrap_or(1);
    let bound = super::alphabet::Spent { deviations: budget, troubles };
    let mut walk = Walk::new(&world, bound, limit);
    let done = walk.run(Node::first(Step::ReadFound));
    println!("{} states, {} answers", walk.states(), walk.answers);
    if let Err(found) = done {
        panic!("{}", show(&world, &found));
    }
}

#[test]
fn random_checks_on_every_shipped_generator_break_nothing() {
    let checks: u64 = std::env::var("CHECKS").ok().and_then(|c| c.parse().ok()).unwrap_or(200);
    let mut worst: Option<(usize, String)> = None;
    for profile in domain::profile::shipped().unwrap() {
        let mut answers = 0;
        for (name, rules) in super::units::named().into_iter().chain(super::units::extremes()) {
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
                                    worst = Some((found.path.len(), show(&world, &found)));
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
