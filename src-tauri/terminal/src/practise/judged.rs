//! A judgement, line by line, in the words of the catalogue.

use domain::check::facts::{Dial, Found};
use domain::practice::{Compared, Judged, Judgement};
use domain::profile::{Position, Profile};
use domain::say::{Say, dial_name, figure};
use domain::{act_at, act_judged};

use crate::spoken::spoken;

pub fn told(profile: &Profile, judgement: &Judgement) -> String {
    let exercise = Box::new(judgement.exercise.name());
    let verdict = if judgement.passed {
        Say::PractisedPassed { exercise }
    } else {
        Say::PractisedNotPassed { exercise }
    };
    let captured = judgement.spikes_on_t.iter().filter(|spike| spike.captured).count();
    let acts = judgement.acts.iter().map(|judged| act(profile, judged));
    let lines = [verdict].into_iter().chain(acts).chain([
        found(profile, Dial::Output, &judgement.capture),
        found(profile, Dial::Mv, &judgement.sensing),
        Say::PractisedWithoutBeats {
            seconds: seconds(judgement.without_beats_us),
            longest: seconds(judgement.longest_pause_us),
        },
        Say::PractisedOnT { spikes: judgement.spikes_on_t.len().to_string(), captured: captured.to_string() },
    ]);
    lines.map(|line| spoken(&line)).collect::<Vec<_>>().join("\n")
}

fn act(profile: &Profile, judged: &Judged) -> Say {
    Say::PractisedAct {
        judged: Box::new(act_judged(Some(profile), judged)),
        at: Box::new(act_at(profile, judged)),
    }
}

fn found(profile: &Profile, dial: Dial, compared: &Compared) -> Say {
    let text = |at: Position| match dial {
        Dial::Output => profile.output_text(at).to_owned(),
        Dial::Rate => profile.rate_text(at).to_owned(),
        Dial::Mv => profile.mv_text(at).to_owned(),
    };
    let said = match compared.said.found {
        Found::Nothing | Found::SeenAtNone => spoken(&Say::NotTested),
        Found::AtLeast => spoken(&Say::FoundAtLeast { figure: figured(text(compared.said.at)) }),
        Found::AtMost => spoken(&Say::FoundAtMost { figure: figured(text(compared.said.at)) }),
        Found::Bracket => {
            spoken(&Say::FoundRange { low: text(compared.said.low), high: figured(text(compared.said.at)) })
        }
        Found::Exact | Found::SeenWhereItStood => text(compared.said.at),
    };
    let truth = compared.truth.map_or_else(|| spoken(&Say::TruthNone), text);
    Say::PractisedFound { dial: dial_name(dial), said, truth }
}

fn figured(text: String) -> Box<Say> {
    Box::new(figure(text))
}

fn seconds(us: u64) -> String {
    format!("{}.{}", us / 1_000_000, us % 1_000_000 / 100_000)
}
