//! Many small walks on both cores: one for each setting at which the dials may be found.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use domain::check::facts::{ASYNCHRONOUS, Dials};
use domain::check::step::Step;

use super::alphabet::Bound;
use super::node::Node;
use super::search::{Found, Walk};
use super::stages::Gates;
use super::world::World;

const CORES: usize = 2;

/// One world found at one setting, walked within one bound to its end, or to `limit` states.
pub struct Job {
    pub group: String,
    pub world: World,
    pub bound: Bound,
    pub limit: usize,
    pub by_stages: bool,
}

/// What a group of walks came to.
#[derive(Clone, Debug, Default)]
pub struct Tally {
    pub group: String,
    pub walks: usize,
    pub states: usize,
    pub answers: u64,
    /// Walks that were stopped at their limit.
    pub cut: usize,
    /// Checks that came to a gate between two stages, and those that were let through.
    pub came: usize,
    pub through: usize,
}

/// A walk for each setting in `found`.
pub fn each_found(
    group: &str,
    world: &World,
    found: impl IntoIterator<Item = Dials>,
    bound: Bound,
) -> Vec<Job> {
    let job = |dials| Job {
        group: group.to_owned(),
        world: World { found: vec![dials], ..world.clone() },
        bound,
        limit: usize::MAX,
        by_stages: false,
    };
    found.into_iter().map(job).collect()
}

/// Every setting the generator has, asynchronous last.
pub fn every_setting(world: &World) -> Vec<Dials> {
    let profile = &world.profile;
    let blind = world.setup().has_asynchronous().then_some(ASYNCHRONOUS);
    let numbers: Vec<u8> = (0..=profile.mv_last()).chain(blind).collect();
    let mut all = Vec::new();
    for mv in numbers {
        for rate in 0..=profile.rate_last() {
            all.extend((0..=profile.output_last()).map(|output| Dials { output, rate, mv }));
        }
    }
    all
}

/// Walks all of them; the first breach, told, or what each group came to.
pub fn run(jobs: &[Job]) -> Result<Vec<Tally>, String> {
    let next = AtomicUsize::new(0);
    let tallies: Mutex<Vec<Tally>> = Mutex::new(Vec::new());
    let breach: Mutex<Option<String>> = Mutex::new(None);
    thread::scope(|scope| {
        for _ in 0..CORES {
            scope.spawn(|| {
                while let Some(job) = jobs.get(next.fetch_add(1, Ordering::Relaxed)) {
                    match walk(job) {
                        Ok(done) => add(&mut tallies.lock().unwrap(), done),
                        Err(found) => {
                            next.store(jobs.len(), Ordering::Relaxed);
                            breach.lock().unwrap().get_or_insert(told(&job.world, &found));
                        }
                    }
                }
            });
        }
    });
    breach.into_inner().unwrap().map_or(Ok(tallies.into_inner().unwrap()), Err)
}

fn walk(job: &Job) -> Result<Tally, Box<Found>> {
    let mut walk = Walk::new(&job.world, job.bound, job.limit);
    walk.gates = job.by_stages.then(Gates::default);
    walk.run(Node::first(Step::SamePatient))?;
    let (came, through) = walk.gates.as_ref().map_or((0, 0), |gates| (gates.came, gates.through));
    Ok(Tally {
        group: job.group.clone(),
        walks: 1,
        states: walk.states(),
        answers: walk.answers,
        cut: usize::from(!walk.closed),
        came,
        through,
    })
}

fn add(tallies: &mut Vec<Tally>, done: Tally) {
    match tallies.iter_mut().find(|tally| tally.group == done.group) {
        Some(tally) => {
            tally.walks += done.walks;
            tally.states += done.states;
            tally.answers += done.answers;
            tally.cut += done.cut;
            tally.came += done.came;
            tally.through += done.through;
        }
        None => tallies.push(done),
    }
}

/// The breach, and the answers that led to it.
pub fn told(world: &World, found: &Found) -> String {
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
