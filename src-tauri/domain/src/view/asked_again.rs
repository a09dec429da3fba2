//! Why a first reading is asked for once more. A figure of it is shown only where it is far from the last, or unlike
//! the reading before it.

use super::figures;
use crate::check::facts::{Dial, Dials};
use crate::decide::far_from_last;
use crate::profile::Profile;
use crate::say::{Say, dial_name};
use crate::state::bed::Wire;

pub fn asked_again(profile: &Profile, wire: &Wire, before: Option<Dials>, typed: Dials) -> Say {
    if let Some((last, typed)) = far_from_last(profile, wire, typed) {
        return Say::FarFromLast { last, typed };
    }
    before.map_or(Say::NothingToCompare, |first| read_twice(profile, first, typed))
}

/// Two readings that differ, by the first dial that does.
fn read_twice(profile: &Profile, first: Dials, then: Dials) -> Say {
    let differs = |dial: &Dial| first.at(*dial) != then.at(*dial);
    let dial = [Dial::Output, Dial::Rate, Dial::Mv].into_iter().find(differs).unwrap_or(Dial::Output);
    let printed = |dials: Dials| Box::new(figures::printed(profile, dial, dials.at(dial)));
    Say::ReadTwice { dial: dial_name(dial), first: printed(first), then: printed(then) }
}
