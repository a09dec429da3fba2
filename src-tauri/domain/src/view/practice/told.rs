//! One act as it was judged, in words.

use crate::check::facts::Dial;
use crate::practice::{Judged, Reason};
use crate::profile::Profile;
use crate::say::Say;
use crate::view::figures;
use crate::view::pieces::boxed;

/// "Missed: RATE down in steps, each watched (2 s at 75; 10 s asked)"
pub fn act_judged(profile: Option<&Profile>, one: &Judged) -> Say {
    let (act, verdict) = (boxed(one.act.say()), boxed(one.verdict.say()));
    match act_reason(profile, one) {
        Some(reason) => Say::ActJudgedBecause { act, verdict, reason: boxed(reason) },
        None => Say::ActJudged { act, verdict },
    }
}

pub fn act_reason(profile: Option<&Profile>, one: &Judged) -> Option<Say> {
    profile.zip(one.reason).map(|(profile, reason)| said(profile, reason))
}

/// "4:07 OUTPUT 1.6 mA, RATE 80, mV 2.0"
pub fn act_at(profile: &Profile, one: &Judged) -> Say {
    let dial = |dial: Dial| boxed(figures::printed(profile, dial, one.dials.at(dial)));
    Say::JudgedAt {
        time: clock(one.at_us),
        output: dial(Dial::Output),
        rate: dial(Dial::Rate),
        mv: dial(Dial::Mv),
    }
}

/// "4:07" of the simulated patient.
pub fn clock(us: u64) -> String {
    let seconds = us / 1_000_000;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

fn said(profile: &Profile, reason: Reason) -> Say {
    let at = |dial, position| boxed(figures::printed(profile, dial, position));
    match reason {
        Reason::Watched { at: rate, seconds, asked } => Say::BecauseWatched {
            figure: at(Dial::Rate, rate),
            seconds: seconds.to_string(),
            asked: asked.to_string(),
        },
        Reason::Spikes { at: output, seen, asked } => Say::BecauseSpikes {
            figure: at(Dial::Output, output),
            count: seen.to_string(),
            asked: asked.to_string(),
        },
        Reason::Beats { seen, asked } => {
            Say::BecauseBeats { count: seen.to_string(), asked: asked.to_string() }
        }
        Reason::OneTurn { dial, from, to } => Say::BecauseOneTurn { from: at(dial, from), to: at(dial, to) },
        Reason::After { seconds } => Say::BecauseAfter { seconds: seconds.to_string() },
        Reason::AboveRule => Say::BecauseAboveRule,
        Reason::BelowRule => Say::BecauseBelowRule,
        Reason::NotTested => Say::NotTested,
    }
}
