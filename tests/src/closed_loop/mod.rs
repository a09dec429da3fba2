//! Random patients led through the shipped check by somebody who sees only cards and monitor; judged by the heart.

mod first_acts;
mod harms;
mod kept;
mod scatter;
mod shift;
mod tired;
mod trace;

use proof::{Case, Tally, play};

/// Two halves on two threads; the seeds decide everything, so the order does not matter.
fn played(first: u64, checks: u64) -> Tally {
    let half = |from: u64, to: u64| {
        let mut tally = Tally::default();
        (from..to).for_each(|seed| tally.add(seed));
        tally
    };
    let middle = first + checks / 2;
    std::thread::scope(|threads| {
        let later = threads.spawn(move || half(middle, first + checks));
        let mut tally = half(first, middle);
        tally.merge(later.join().unwrap());
        tally
    })
}

fn assert_unharmed(tally: &Tally) {
    println!("{tally}");
    assert!(tally.is_clean(), "{:#?}\n{:#?}", tally.harms, tally.faults);
}

#[test]
fn twenty_thousand_random_patients_come_to_no_harm() {
    let tally = played(1, 20_000);
    assert_unharmed(&tally);
    // A loop in which hardly a threshold is found would prove little.
    let least = [
        ("capture Exact", 1_500),
        ("capture Bracket", 300),
        ("capture AtMost", 20),
        ("sensing Exact", 3_000),
        ("sensing AtLeast", 1_000),
        ("sensing SeenWhereItStood", 20),
        ("end Recorded", 15_000),
        ("end HandedOver", 200),
        ("own NoOwnBeats", 1_000),
        ("margin", 800),
        ("ordered", 80),
    ];
    for (name, least) in least {
        assert!(tally.count_of(name) >= least, "{name}: {}", tally.count_of(name));
    }
    assert!(tally.second >= 3_000, "{} second checks", tally.second);
}

/// Seeds that come to harm, each looked into: a million that showed another, or none of these, would tell of a change.
const KNOWN: [(u64, &str); 1] = [(
    1_997_196,
    "own beats held every spike at the minimum OUTPUT, so that nobody knew that it captures; at the first number that \
     misses, the spike comes late and captures as foreseen, but that one paced beat puts the escape off by 110 ms, and \
     the next spike, 1.3 s later, falls 345 ms behind it. RATE low enough for that too would leave the number \
     unraised in twice as many checks",
)];

/// Five minutes of two processors; `terminal prove --checks 1000000 --seed 1000000` is the same with a report.
#[test]
#[ignore = "a million checks"]
fn a_million_random_patients_come_to_no_harm_but_one_that_is_known() {
    let tally = played(1_000_000, 1_000_000);
    println!("{tally}");
    assert_eq!(tally.faults, []);
    let harmed: std::collections::BTreeSet<u64> = tally.harms.iter().map(|harmed| harmed.seed).collect();
    assert_eq!(harmed, KNOWN.map(|(seed, _)| seed).into(), "{:#?}", tally.harms);
}

#[test]
fn one_seed_is_one_run() {
    for seed in [3, 77, 4_711] {
        let run = || {
            let played = play(&Case::drawn(seed).unwrap()).unwrap();
            (played.answers, played.record, played.stays, played.lasted_us)
        };
        assert_eq!(run(), run());
    }
}
