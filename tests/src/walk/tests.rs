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
