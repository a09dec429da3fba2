//! What a learner without cards has found, and then how the dials read: two cards, as at the end of a check.

use super::{Decided, ended};
use crate::check::facts::Found;
use crate::decide::typed;
use crate::event::What;
use crate::practice::{Entry, HowFound, Practice, Said, Threshold};
use crate::profile::{NoSuchPosition, Position};
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

type Values = std::collections::BTreeMap<String, String>;
type Reads<'a> = dyn Fn(&str) -> Result<Position, NoSuchPosition> + 'a;

/// Positions as the dials print them; an empty field was not tested. Nobody has read the dials yet.
pub fn said_found(state: &State, open: &Practice, at_us: u64, values: &Values) -> Decided {
    let profile = state.generator(&open.staged.generator).ok_or(Refusal::NotOpen)?;
    let capture = threshold(values, "capture", Say::CaptureHow, HowFound::OF_CAPTURE, &|typed| {
        profile.read_output(typed)
    })?;
    let sensing =
        threshold(values, "sensing", Say::SensingHow, HowFound::OF_SENSING, &|typed| profile.read_mv(typed))?;
    let said = Said { capture, sensing, stays: None };
    Ok(vec![What::Practised(Entry::Said { at_us, said }), What::Went(Screen::PracticeRead)])
}

/// Ends the run.
pub fn said_dials(state: &State, open: &Practice, at_us: u64, values: &Values) -> Decided {
    let profile = state.generator(&open.staged.generator).ok_or(Refusal::NotOpen)?;
    let found = open.said().ok_or(Refusal::NotOpen)?;
    let said = Said { stays: Some(typed::dials(profile, values)?), ..found };
    let entry = What::Practised(Entry::Said { at_us, said });
    Ok([entry].into_iter().chain(ended(at_us, None, false)).collect())
}

fn threshold(
    values: &Values,
    field: &str,
    how_name: Say,
    hows: &[HowFound],
    read: &Reads<'_>,
) -> Result<Threshold, Refusal> {
    let typed = |field: &str| values.get(field).map(|typed| typed.trim()).filter(|typed| !typed.is_empty());
    let position = |field: &str| typed(field).map(read).transpose().map_err(|none| typed::no_such(&none));
    let Some(at) = position(field)? else { return Ok(Threshold::NOT_TESTED) };
    let how = typed(&format!("{field}-how"));
    let how = hows.iter().find(|one| how == Some(one.id()));
    let nothing = |name: Say| Refusal::said(Say::NothingTyped { field: Box::new(name) });
    Ok(match how.ok_or_else(|| nothing(how_name))? {
        HowFound::Exactly => Threshold::exactly(at),
        HowFound::AtLeast => Threshold { found: Found::AtLeast, ..Threshold::exactly(at) },
        HowFound::AtMost => Threshold { found: Found::AtMost, ..Threshold::exactly(at) },
        HowFound::Between => {
            let low = position("capture-low")?.ok_or_else(|| nothing(Say::CaptureLow))?;
            if low >= at {
                return Err(Refusal::said(Say::CaptureLowAbove));
            }
            Threshold { found: Found::Bracket, at, low }
        }
    })
}
