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
    let profile =
        generator(&["40", "60", "90"], "mA", &["0.5", "2", "5", "12"], &["1.0", "2.0", "5.0"], "position");
    let world = World::new("small", profile, Rules::example(), Chamber::Ventricle);
    let mut world = world;
    if std::env::var("FEW").is_ok() {
        let few = [(3, 1, 1), (1, 2, 2), (2, 0, 0), (3, 1, 254)];
        let n: usize = std::env::var("FEW").unwrap().parse().unwrap();
        world.found =
            few.map(|(output, rate, mv)| domain::check::facts::Dials { output, rate, mv })[..n].to_vec();
    }
    let limit = std::env::var("LIMIT").ok().and_then(|l| l.parse().ok()).unwrap_or(3_000_000);
    let budget = std::env::var("BUDGET").ok().and_then(|l| l.parse().ok()).unwrap_or(1);
    let mut walk = Walk::new(&world, budget, limit);
    let done = walk.run(Node::first(Step::ReadFound));
    println!("{} states, {} answers", walk.states(), walk.answers);
    if let Err(found) = done {
        panic!("{}", show(&world, &found));
    }
}

#[test]
fn random_checks_on_every_shipped_generator_break_nothing() {
    let checks: u64 = std::env::var("CHECKS").ok().and_then(|c| c.parse().ok()).unwrap_or(2_000);
    let mut worst: Option<(usize, String)> = None;
    for profile in domain::profile::shipped().unwrap() {
        for chamber in [Chamber::Ventricle, Chamber::Atrium] {
            let world = World::new(&profile.id, profile.clone(), Rules::example(), chamber);
            let mut answers = 0;
            for number in 0..checks {
                match super::random::check(&world, number) {
                    Ok(taken) => answers += taken,
                    Err(found) => {
                        let shorter = worst.as_ref().is_none_or(|(length, _)| found.path.len() < *length);
                        if shorter {
                            worst = Some((found.path.len(), show(&world, &found)));
                        }
                    }
                }
            }
            println!("{} {chamber:?}: {checks} checks, {answers} answers", world.profile.id);
        }
    }
    if let Some((_, said)) = worst {
        panic!("{said}");
    }
}
