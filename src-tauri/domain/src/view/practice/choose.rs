//! Which exercise, and how.

use super::practice_head;
use crate::command::Command;
use crate::contract::{Act, Ask, BedRow, Beds, Shape, Tone};
use crate::moment::Moment;
use crate::practice::ExerciseId;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::pieces::{go, plain};
use crate::view::{Screenful, act};

/// One row an exercise, from quiet to nasty.
pub fn exercises(state: &State, now: Moment) -> Screenful {
    let rows = ExerciseId::ALL.iter().map(|id| row(*id)).collect();
    let shape = Shape::Beds(Beds { rows, empty: Say::PracticeChoose });
    let open =
        state.practice.as_ref().map(|_| go("go-on", Say::PracticeBackToIt, Tone::Good, Screen::Practising));
    let mut answers = vec![go("back", Say::Back, Tone::Strong, Screen::Beds)];
    answers.extend(open);
    Screenful {
        answers,
        aside: vec![go("runs", Say::PracticeRuns, Tone::Plain, Screen::PracticeRuns)],
        ..plain(practice_head(Say::PracticeChoose, now), shape, Say::PracticeChoose)
    }
}

fn row(id: ExerciseId) -> BedRow<Say> {
    BedRow {
        title: id.name(),
        due: None,
        urgent: false,
        lines: vec![id.line()],
        chart: None,
        open: go(
            format!("exercise-{}", id.id()),
            Say::OpenBed,
            Tone::Plain,
            Screen::PracticeBegin { exercise: id },
        ),
    }
}

/// One exercise: led by the cards, or alone.
pub fn begin(state: &State, exercise: ExerciseId, now: Moment) -> Screenful {
    let lines = vec![exercise.line(), Say::PracticeNobody, Say::PracticeJudgedBy, Say::CautionLocalRules];
    let shape = Shape::Ask(Ask {
        question: exercise.name(),
        lines,
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    });
    let locked = state.open_checks().next().is_some();
    Screenful {
        answers: if locked { Vec::new() } else { ways(exercise) },
        aside: vec![go("back", Say::Back, Tone::Plain, Screen::Practice)],
        notice: locked.then_some(Say::PracticeLocked),
        ..plain(practice_head(Say::PracticeChoose, now), shape, exercise.name())
    }
}

fn ways(exercise: ExerciseId) -> Vec<Act<Say>> {
    let way = |key, label, tone, guided| act(key, label, tone, Command::Practise { exercise, guided });
    vec![
        way("alone", Say::PracticeAlone, Tone::Strong, false),
        way("guided", Say::PracticeWithCards, Tone::Good, true),
    ]
}
