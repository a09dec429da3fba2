//! What a seed has drawn of an exercise, in the positions of its dials.

use domain::check::facts::Dial::Output;
use practice::{ExerciseId, truth};

use crate::script::{Script, exercise};

pub struct Drawn {
    pub captures: u8,
    pub sees: u8,
}

impl Drawn {
    pub fn of(id: ExerciseId, seed: u64) -> Drawn {
        let (exercise, truth) = (exercise(id), exercise(id).truth(seed));
        Drawn {
            captures: truth::lowest_at_or_above(&exercise.profile, truth.going_up_micro).unwrap(),
            sees: truth::highest_that_sees(&exercise.profile, &truth).unwrap(),
        }
    }

    /// The last step up to the threshold, from a loss, comes so many seconds later.
    pub fn later_after_loss(&self, script: Script, s: u64) -> Script {
        let below = self.captures - 1;
        let times = script.turns_of(Output).filter(|to| *to == below).count();
        script.later(Output, below, times - 1, s)
    }
}
