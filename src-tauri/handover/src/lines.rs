//! The readable form: one fact a line, `label: value`, and a last line that signs the bytes before it.
//!
//! The words are a frozen table per language and format version ([`Table`]); they do not follow the tablet's
//! language once a code is written, and a reader parses by the same table. All of it is ASCII, so that no
//! scanner and no keyboard layout of another country changes it unseen.

mod english;
mod phrase;
mod read;
mod shorten;
mod signed;
mod write;

use domain::handover::summary::{Capture, Check, Mention, OwnBeats, Summary};

pub use phrase::{Phrase, Table};
pub use read::read;
pub use shorten::{MOST_TEXT_BYTES, shortened};
pub use signed::{Envelope, TornEnvelope, opened, sign};
pub use write::written;

/// The newest format that this version writes and reads.
pub const VERSION: u32 = 5;

/// What codes are written in.
pub const LANGUAGE: &str = "en";

/// Every table that was ever released, by format version and language.
pub const TABLES: [(u32, &str, Table); 5] = [
    (1, LANGUAGE, english::version_1),
    (2, LANGUAGE, english::version_2),
    (3, LANGUAGE, english::version_3),
    (4, LANGUAGE, english::version_4),
    (5, LANGUAGE, english::version_5),
];

/// The oldest format that can say it, so that older tablets read what they can.
pub fn version_for(check: &Check) -> u32 {
    let asks_for = |flag: &Mention| match flag {
        Mention::NotPacedOver | Mention::NumberBelowLowest => 5,
        Mention::Fibrillation | Mention::LostUnsought | Mention::SeesNothing => 4,
        Mention::CaptureAboveLimit { .. } | Mention::SignalBelowLimit { .. } | Mention::MarksWithoutBeats => {
            3
        }
        Mention::LeftAsRead => 2,
        Mention::NoCaptureAtMaximum
        | Mention::NoRuleSatisfied
        | Mention::StillBlind
        | Mention::WrongChamber
        | Mention::NoBeats
        | Mention::Shock
        | Mention::FoundDidNotCapture
        | Mention::DidNotSeeAsFound
        | Mention::NumberRefused
        | Mention::FoundMargin { .. }
        | Mention::BlockFromRate
        | Mention::Pauses
        | Mention::ExtraBeatUnmarked
        | Mention::Doubled { .. }
        | Mention::SignalHalved { .. }
        | Mention::FoundAsynchronous
        | Mention::NotTolerated
        | Mention::SpikeAtMinimum => 1,
    };
    let read = if check.read_later.is_some() { 2 } else { 1 };
    let own = if check.own == OwnBeats::Unmeasured { 5 } else { 1 };
    let held = if matches!(check.capture, Capture::Held { .. }) { 5 } else { 1 };
    check.flags.iter().map(asks_for).fold(read.max(own).max(held), u32::max)
}

/// The lines of a summary, shortened where they must be. `None` where even that is too long.
pub fn text(summary: &Summary) -> Option<String> {
    let newest = |summary: &Summary| table(version_for(&summary.newest), LANGUAGE);
    let short = shortened(summary, newest(summary)?)?;
    // What was left out may have been what asked for the newer format.
    Some(written(&short, newest(&short)?))
}

/// The table of a format version and language.
pub fn table(version: u32, language: &str) -> Option<Table> {
    TABLES.iter().find(|(v, l, _)| (*v, *l) == (version, language)).map(|(.., table)| *table)
}

/// "HOLDFAST 1 en: ..." as version and language; `None` when the text is no code of ours.
pub fn head(text: &str) -> Option<(u32, &str)> {
    let (version, rest) = text.strip_prefix("HOLDFAST ")?.split_once(' ')?;
    let (language, _) = rest.split_once(':')?;
    let plain = (1..=4).contains(&version.len()) && version.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| version.parse().ok()).flatten().map(|version| (version, language))
}
