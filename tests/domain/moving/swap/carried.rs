//! What a new box is asked to stand at, against every position of every pair of shipped boxes.

use domain::check::facts::{ASYNCHRONOUS, Dials};
use domain::profile::{AsynchronousBy, Profile, shipped};
use domain::rules::Chamber;
use domain::swap::carry::asked;
use domain::swap::facts::Block;

/// Not slower, not lower, not above; another unit or a shorter pulse: the highest OUTPUT.
#[test]
fn no_new_box_is_set_to_pace_less_or_see_less_than_the_old_one() {
    let all = shipped().unwrap();
    let mut settings = 0;
    for (old, new) in all.iter().flat_map(|old| all.iter().map(move |new| (old, new))) {
        for dials in every(old) {
            settings += 1;
            match asked(old, new, Chamber::Ventricle, dials) {
                Ok(set) => is_no_less(old, new, dials, set),
                Err(why) => cannot(old, new, dials, why),
            }
        }
    }
    println!("{settings} settings");
    assert!(settings > 10_000);
}

/// Each position of one dial with the ends and the middle of the others.
fn every(profile: &Profile) -> Vec<Dials> {
    let some = |last: u8| [0, last / 2, last];
    let (output, rate, mv) = (profile.output_last(), profile.rate_last(), profile.mv_last());
    let mut all = Vec::new();
    for (a, b) in some(output).into_iter().flat_map(|a| some(rate).map(|b| (a, b))) {
        all.extend((0..=mv).map(|mv| Dials { output: a, rate: b, mv }));
        all.push(Dials { output: a, rate: b, mv: ASYNCHRONOUS });
    }
    for (a, b) in some(output).into_iter().flat_map(|a| some(mv).map(|b| (a, b))) {
        all.extend((0..=rate).map(|rate| Dials { output: a, rate, mv: b }));
    }
    for (a, b) in some(rate).into_iter().flat_map(|a| some(mv).map(|b| (a, b))) {
        all.extend((0..=output).map(|output| Dials { output, rate: a, mv: b }));
    }
    all
}

fn is_no_less(old: &Profile, new: &Profile, stood: Dials, set: Dials) {
    assert!(new.rate_at(set.rate) >= old.rate_at(stood.rate));
    let slower = set.rate > 0 && new.rate_at(set.rate - 1) >= old.rate_at(stood.rate);
    assert!(!slower, "the nearest one");
    let same_pulse = old.output_unit() == new.output_unit() && new.pulse_width_us >= old.pulse_width_us;
    if same_pulse {
        assert!(new.output_at(set.output) >= old.output_at(stood.output));
    } else {
        assert_eq!(set.output, new.output_last(), "nothing is carried over");
    }
    match (stood.mv, set.mv) {
        (ASYNCHRONOUS, set) => assert_eq!(set, ASYNCHRONOUS),
        (stood, set) => assert!(set != ASYNCHRONOUS && new.mv_at(set) <= old.mv_at(stood)),
    }
}

fn cannot(old: &Profile, new: &Profile, stood: Dials, why: Block) {
    let highest_rate = new.rate_at(new.rate_last());
    let lowest_number = new.mv_at(0);
    let holds = match why {
        Block::Rate => highest_rate < old.rate_at(stood.rate),
        Block::Output => new.output_at(new.output_last()) < old.output_at(stood.output),
        Block::Number => lowest_number > old.mv_at(stood.mv),
        Block::Asynchronous => stood.mv == ASYNCHRONOUS && new.asynchronous() == AsynchronousBy::None,
        _ => false,
    };
    assert!(holds, "{why:?} from {} to {}: {stood:?}", old.id, new.id);
}
