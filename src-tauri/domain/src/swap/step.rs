//! The cards of a swap. A step and its facts are the whole card.

use serde::{Deserialize, Serialize};

use crate::listed::listed;

listed! {
    /// One card. The comment says what it asks.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    pub enum Step {
        /// What does the monitor show now?
        Look,
        /// Does this box pace another wire of this patient too?
        Shared,
        /// Is there an order, and which clinician knows, or stands here?
        Order,
        /// Without own beats the battery is not changed under the patient: another box takes over.
        UseBox,
        ReadOld,
        PickBox,
        /// Is the new box, or the new battery, sound?
        Sound,
        /// Switch the new box on, nothing plugged in.
        NewOn,
        NewMode,
        NewRate,
        NewOutput,
        NewMv,
        /// Read the new box before anything is unplugged.
        ReadNew,
        NewDiffers,
        /// Is standby pacing on, and tested?
        Standby,
        Ready,
        /// The pins, one by one.
        Move,
        LookNew,
        /// Old battery out, new one in.
        BatteryOut,
        /// The box was found off: battery in, box on.
        BatteryBack,
        LookBattery,
        /// The box stays off with the new battery.
        BoxDead,
        Guarded,
        /// The dials as they stand at the end.
        ReadEnd,
        EndDiffers,
        /// Not read, or left different: a reason, and who was told.
        Reason,
        // Trouble
        /// NO BEATS with the pins in a running box: OUTPUT first.
        NoBeats,
        /// A spike without a beat, or after a shock: OUTPUT to maximum, and watched.
        Maximum,
        /// No running box on the patient, or its maximum makes no beats: standby pacing.
        StandbyNow,
        BackToOld,
        LookBack,
        Emergency,
        Arrest,
        Wrong,
        /// After a break: the patient first.
        AwayLook,
        AwayWhere,
        /// No change, and why.
        Blocked,
        Ended,
    }
}

impl Step {
    /// Cards that open over another one and go back to it.
    pub fn is_side(self) -> bool {
        matches!(self, Step::Wrong | Step::AwayLook | Step::AwayWhere | Step::Blocked | Step::Reason)
    }

    /// Something is watched for some beats before the good answer opens.
    pub fn watches(self) -> bool {
        matches!(self, Step::LookNew | Step::LookBattery | Step::LookBack | Step::Maximum)
    }
}
