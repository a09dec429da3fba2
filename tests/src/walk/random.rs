//! Checks at random on whole generators, with any number of deviations, each to its end.

use domain::check::answer::{Answer, Gap, TimeUp};
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, NONE, Phase};
use domain::check::offer::{Typed, offer};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{self, Refused};
use domain::rules::Chamber;

use super::alphabet::Spent;
use super::jobs::told;
use super::node::Node;
use super::properties::{self, Breach, Seen};
use super::search::Found;
use super::world::World;
use super::{alphabet, calm, essence, units};

/// SplitMix64: small, and every check replays from its number.
pub struct Chance(pub u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, bound: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(bound).unwrap()).unwrap()
    }

    fn one_in(&mut self, bound: usize) -> bool {
        self.below(bound) == 0
    }

    fn place(&mut self, last: u8) -> u8 {
        u8::try_from(self.below(usize::from(last) + 1)).unwrap()
    }
}

/// Most answers before the check is brought to its end.
const LONGEST: usize = 160;

/// One check from its first card to its last. `Ok` holds the answers it took.
pub fn check(world: &World, number: u64) -> Result<usize, Box<Found>> {
    let mut chance = Chance(number);
    let setup = world.setup();
    let first = if chance.one_in(2) { Step::ReadFound } else { Step::SamePatient };
    let mut node = Node::first(first);
    let mut path = Vec::new();
    let forward = 2 + chance.below(12);
    for _ in 0..LONGEST {
        if node.facts.step == Step::Ended {
            break;
        }
        let answer = choose(&mut chance, &setup, &node.facts, forward);
        node = step(&setup, &node, answer, &mut path)?;
    }
    let taken = path.len();
    if node.facts.step != Step::Ended {
        calm::to_the_end(&setup, &node.facts)
            .map_err(|said| Box::new(Found { breach: ("end", said), path }))?;
    }
    Ok(taken)
}

fn step(
    setup: &Setup<'_>,
    node: &Node,
    answer: Answer,
    path: &mut Vec<(Answer, Facts)>,
) -> Result<Node, Box<Found>> {
    let broken = |breach: Breach, path: &Vec<_>| Box::new(Found { breach, path: path.clone() });
    let seen = Seen::new(setup, &node.facts, &node.book);
    properties::on_card(&seen, None).map_err(|breach| broken(breach, path))?;
    let taken = check::answer(setup, node.card_before(), &node.facts, answer);
    essence_decides(setup, node, answer, &taken).map_err(|breach| broken(breach, path))?;
    let Ok(opened) = taken else { return Ok(*node) };
    let after = node.after(setup, answer, opened, Spent::NOTHING);
    path.push((answer, opened));
    properties::on_answer(&seen, node.announced(answer, &opened), answer, &opened, &after.book, None)
        .map_err(|breach| broken(breach, path))?;
    Ok(after)
}

/// Equal essence, equal answer: what the exhaustive walk leaves out changes nothing.
fn essence_decides(
    setup: &Setup<'_>,
    node: &Node,
    answer: Answer,
    taken: &Result<Facts, Refused>,
) -> Result<(), Breach> {
    let before = node.card_before().copied().map(essence::of_card);
    let card = essence::of_card(node.facts);
    let of_essence = check::answer(setup, before.as_ref(), &card, answer);
    let (whole, part) = (taken.map(essence::of_card), of_essence.map(essence::of_card));
    if whole == part { Ok(()) } else { Err(("essence", format!("{answer:?}: {whole:?}\n against {part:?}"))) }
}

pub fn choose(chance: &mut Chance, setup: &Setup<'_>, facts: &Facts, forward: usize) -> Answer {
    let offer = offer(setup, facts);
    if !chance.one_in(forward)
        && let Some(answer) = on(chance, setup, facts)
    {
        return answer;
    }
    match offer.typed {
        Typed::Dials if chance.one_in(2) => return Answer::Read(reading(chance, setup, facts)),
        Typed::OwnRate if chance.one_in(2) => return own_rate(chance),
        Typed::OneDial if chance.one_in(2) => return Answer::StandsAt(any_place(chance, setup)),
        _ => {}
    }
    let mut answers: Vec<Answer> = offer.free.to_vec();
    answers.extend(offer.good.into_iter().chain(offer.also_good));
    answers.extend([Answer::NoBeats, Answer::Stop, Answer::Wrong, Answer::Slip, Answer::Stands]);
    answers.extend([TimeUp::Watch, TimeUp::OwnOld, TimeUp::Minimum, TimeUp::Loss].map(Answer::Time));
    answers.extend([Gap::Short, Gap::LimitPassed, Gap::Long, Gap::TooLong].map(Answer::Woke));
    answers[chance.below(answers.len())]
}

/// The way on: the dial stands, the watch passes, one of the card's own answers.
fn on(chance: &mut Chance, setup: &Setup<'_>, facts: &Facts) -> Option<Answer> {
    let offer = offer(setup, facts);
    match (facts.phase, offer.typed) {
        (Phase::Turning, _) if !chance.one_in(4) => Some(Answer::Stands),
        (Phase::Watching, _) if !chance.one_in(3) => Some(Answer::Time(TimeUp::Watch)),
        (_, Typed::Dials) => Some(Answer::Read(reading(chance, setup, facts))),
        (_, Typed::OwnRate) => Some(own_rate(chance)),
        (_, Typed::OneDial) => Some(Answer::StandsAt(any_place(chance, setup))),
        (_, Typed::Nothing) => {
            let mut own: Vec<Answer> = offer.free.to_vec();
            own.extend(offer.good.into_iter().chain(offer.also_good));
            (!own.is_empty()).then(|| own[chance.below(own.len())])
        }
    }
}

fn own_rate(chance: &mut Chance) -> Answer {
    let slowest = 40 + chance.place(80);
    let fastest = if chance.one_in(3) { slowest + chance.place(30) } else { slowest };
    Answer::OwnRate { slowest, fastest }
}

fn place(chance: &mut Chance, setup: &Setup<'_>, dial: Dial) -> u8 {
    match dial {
        Dial::Output => chance.place(setup.profile.output_last()),
        Dial::Rate => chance.place(setup.profile.rate_last()),
        Dial::Mv if setup.has_asynchronous() && chance.one_in(8) => ASYNCHRONOUS,
        Dial::Mv => chance.place(setup.profile.mv_last()),
    }
}

/// The card names the dial; a place it does not have is refused.
fn any_place(chance: &mut Chance, setup: &Setup<'_>) -> u8 {
    let dial = [Dial::Output, Dial::Rate, Dial::Mv][chance.below(3)];
    place(chance, setup, dial)
}

/// At the start anything; later mostly what a nurse who did as asked would read, or one dial elsewhere.
fn reading(chance: &mut Chance, setup: &Setup<'_>, facts: &Facts) -> Dials {
    if facts.step == Step::ReadFound {
        let [output, rate, mv] = [Dial::Output, Dial::Rate, Dial::Mv].map(|dial| place(chance, setup, dial));
        return Dials { output, rate, mv };
    }
    let mut expected = alphabet::expected(setup, facts);
    while chance.one_in(2) {
        let dial = [Dial::Output, Dial::Rate, Dial::Mv][chance.below(3)];
        expected = expected.with(dial, place(chance, setup, dial));
    }
    expected
}

/// Checks for each unit's rules, in both chambers, with and without an earlier result.
fn on_every_shipped_generator(checks: u64) {
    for profile in domain::profile::shipped().unwrap() {
        let mut answers = 0;
        for (name, rules) in units::named().into_iter().chain(units::extremes()) {
            for chamber in [Chamber::Ventricle, Chamber::Atrium] {
                for last in [NONE, 0] {
                    let name = format!("{} {name}", profile.id);
                    let mut world = World::new(&name, profile.clone(), rules.clone(), chamber);
                    (world.last_capture, world.last_seen) = (last, last);
                    for number in 0..checks {
                        answers +=
                            check(&world, number).unwrap_or_else(|found| panic!("{}", told(&world, &found)));
                    }
                }
            }
        }
        println!("{}: {answers} answers", profile.id);
    }
}

/// 13 sets of rules in 4 surroundings: 10,400 checks a generator.
#[test]
fn random_checks_on_every_shipped_generator_hold() {
    on_every_shipped_generator(200);
}

/// 208,000 checks a generator.
#[test]
#[ignore = "for make prove: some minutes"]
fn many_random_checks_on_every_shipped_generator_hold() {
    on_every_shipped_generator(4_000);
}
