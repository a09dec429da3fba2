//! Each guard switched off once: the walk must find the breach of its property, and names it. With all of them
//! on, the same walks find none.

use domain::check::facts::{ASYNCHRONOUS, Dials};
use domain::check::guard::{Guard, Guards};
use domain::rules::{Chamber, Rules};

use super::alphabet::Bound;
use super::jobs::{each_found, run};
use super::world::{World, generator, tiny};

/// A quiet check is tried first, since most guards are needed there already; last, one dial elsewhere than believed.
const BOUNDS: [Bound; 3] = [
    Bound { deviations: 0, troubles: Some(0) },
    Bound { deviations: 0, troubles: Some(1) },
    Bound { deviations: 1, troubles: Some(0) },
];

/// The first breach in the order of the bounds; `None` where the guard holds nothing back.
fn breach_without(guard: Guard) -> Option<String> {
    BOUNDS.iter().flat_map(|bound| worlds().map(|world| (*bound, world))).find_map(|(bound, mut world)| {
        world.guards = Guards::without(guard);
        world.only = Some(guard.property());
        run(&each_found("guard", &world, found(&world), bound)).err()
    })
}

/// Coarse dials; own beats below the unit's limit; outputs so fine that a stride passes some; a RATE above the
/// highest test rate.
fn worlds() -> [World; 4] {
    let fast = generator(&["50", "90", "120"], "mA", &["0.5", "3", "12"], &["1.0", "3.0"], "position");
    [
        tiny(&["50", "90"], &["0.5", "3", "12"], Rules::example()),
        tiny(&["40", "60"], &["0.5", "3", "12"], Rules::example()),
        tiny(&["50", "90"], &["10", "11", "12"], Rules::example()),
        World::new("3 x 3 x 2", fast, Rules::example(), Chamber::Ventricle),
    ]
}

fn found(world: &World) -> [Dials; 4] {
    let (maximum, fastest) = (world.profile.output_last(), world.profile.rate_last());
    [(maximum, fastest, 1), (1, 0, 0), (maximum, 0, 1), (1, 1, ASYNCHRONOUS)]
        .map(|(output, rate, mv)| Dials { output, rate, mv })
}

/// The control: every world within every bound from every setting, every property looked at. What is found is
/// told with its bound, its world and its setting.
fn breaches_with_all_on() -> Vec<String> {
    let mut told = Vec::new();
    for bound in BOUNDS {
        for (number, world) in worlds().into_iter().enumerate() {
            for dials in found(&world) {
                let breach = run(&each_found("control", &world, [dials], bound)).err();
                let first = breach.as_deref().and_then(|breach| breach.lines().next());
                let troubles = bound.troubles.unwrap();
                told.extend(
                    first.map(|said| {
                        format!("{troubles} trouble, world {number}, mV at {}: {said}", dials.mv)
                    }),
                );
            }
        }
    }
    told
}

#[test]
fn each_guard_switched_off_is_found_out() {
    assert_eq!(breaches_with_all_on(), [] as [String; 0]);
    let idle: Vec<Guard> = Guard::ALL
        .into_iter()
        .filter(|guard| {
            let said = breach_without(*guard);
            let first = said.as_deref().and_then(|said| said.lines().next());
            println!("{guard:?}: {}", first.unwrap_or("nothing"));
            said.is_none()
        })
        .collect();
    assert!(idle.is_empty(), "held back nothing: {idle:?}");
}
