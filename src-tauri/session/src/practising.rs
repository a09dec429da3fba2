//! The desk's part in practice: a run is staged, its patient watched, its end judged and looked at again.

use domain::State;
use domain::command::Command;
use domain::contract::Sent;
use domain::practice::Judgement;
use domain::say::Say;
use domain::state::screen::Screen;
use uuid::Uuid;

use crate::desk::Desk;
use crate::patient;

impl Desk {
    /// An exercise is asked for by name; what its run depends on is known here.
    pub(crate) fn staged(&self, sent: Sent) -> Sent {
        let Command::Practise { exercise, guided } = sent.command else { return sent };
        let seed = getrandom::u64().ok();
        let staged = seed.and_then(|seed| patient::staged(exercise, guided, seed));
        let command = staged.map_or(sent.command, |staged| Command::Staged(Box::new(staged)));
        Sent { command, ..sent }
    }

    /// It stood still while nobody could watch, or something has befallen it.
    pub(crate) fn notice_patient(&mut self) {
        let (now, patience_ms) = (self.clock.read().boot_ms, self.clock.patience_ms());
        let unseen_ms = self.unseen_ms();
        let (stood, befallen) = {
            let mut held = self.aside.patient.hold();
            (held.stood_still(now, patience_ms, unseen_ms), held.befallen())
        };
        // The pause first: what follows would let the patient go on.
        for command in stood.into_iter().chain(befallen) {
            self.act(command);
        }
    }

    /// How long nobody can have seen the strip: the page has died, hangs, or its window is put away.
    fn unseen_ms(&self) -> Option<i64> {
        let unseen = self.screen.attention.unseen_for(self.clock.silence())?;
        let ms = u32::try_from(unseen.as_millis()).unwrap_or(u32::MAX);
        Some(i64::from(self.clock.of_world_ms(ms)))
    }

    /// What another version began ends here, and says so: this one would make another strip of it.
    pub(crate) fn give_up_other_versions(&mut self) {
        let open = self.fold.state.practice.iter().map(|open| (open.id, &open.staged));
        let waiting = self.fold.state.runs.iter().filter(|run| run.is_unjudged());
        let all = open.chain(waiting.map(|run| (run.id, &run.staged)));
        let other = all.filter(|(_, staged)| !patient::can_be_replayed(staged));
        let other: Vec<Uuid> = other.map(|(run, _)| run).collect();
        for run in other {
            self.act(Command::NotJudged { run });
        }
    }

    /// Never in front of a dial card: a worker does it.
    pub(crate) fn judge(&mut self) {
        if let Some(run) = self.fold.state.runs.iter().find(|run| self.aside.judging.wants(run)) {
            self.aside.judging.begin(run);
        }
    }

    pub(crate) fn judged(&mut self, run: Uuid, found: Result<Box<Judgement>, practice::Fault>) {
        match found {
            Ok(judgement) => {
                self.aside.judging.done();
                self.act(Command::Judged { run, judgement });
            }
            Err(fault) => {
                eprintln!("Holdfast: run {run} cannot be judged: {fault}");
                self.aside.judging.gave_up(run);
            }
        }
    }

    /// The strip of the moment on the screen, once.
    pub(crate) fn show_moment(&mut self) {
        let Screen::LookAgain { run, act } = self.fold.state.screen else {
            self.shown = None;
            return;
        };
        let asked = Some((run, act));
        let found = self.fold.state.run(run).filter(|_| self.shown != asked);
        let found = found.filter(|run| patient::can_be_replayed(&run.staged));
        let judged = found.and_then(|run| run.judgement.as_ref()?.acts.get(usize::from(act)));
        if let Some((run, judged)) = found.zip(judged) {
            self.aside.patient.show_moment(&run.staged, &run.entries, run.id, act, judged.at_us);
            self.shown = asked;
        }
    }
}

/// Why nothing of this run is shown, or judged.
#[allow(
    clippy::wildcard_enum_match_arm,
    reason = "only two screens are of a run that may be of another version"
)]
pub(crate) fn of_other_version(state: &State) -> Option<Say> {
    let (run, say) = match state.screen {
        Screen::LookAgain { run, .. } => (run, Say::StripOfOtherVersion),
        Screen::PracticeResult { run } => (run, Say::RunOfOtherVersion),
        _ => return None,
    };
    let run = state.run(run).filter(|run| !patient::can_be_replayed(&run.staged))?;
    let is_said = say == Say::StripOfOtherVersion || run.judgement.is_none();
    is_said.then_some(say)
}
