//! What can be seen or known to have happened, with its instant.

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Chamber {
    Atrium,
    Ventricle,
}

/// One thing that happened, `at_us` microseconds after the patient was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Event {
    pub at_us: u64,
    pub what: What,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A P wave (atrium) or a QRS (ventricle).
    Beat { chamber: Chamber, origin: Origin },
    /// A pacing pulse. `visible` says whether the monitor shows it; `outcome` is the truth behind it.
    Spike { visible: bool, outcome: SpikeOutcome },
    /// The generator's own indication.
    Mark(Mark),
    /// A ventricular beat reached the pulse trace.
    Pulse { systolic_mmhg: u16 },
    /// A ventricular beat that gave no pulse.
    NoPulse,
    /// From here on the ventricle fibrillates: no beat, no pulse, until the heart changes.
    VentricularFibrillation,
}

/// Where a beat began. A QRS conducted from a paced P wave looks like the heart's own, and is said to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Origin {
    Own,
    Extra,
    Paced,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SpikeOutcome {
    Captured,
    BelowThreshold,
    /// The muscle was refractory, or its chamber in fibrillation: no output could have captured.
    NotExcitable,
    /// The lead did not carry it.
    NotDelivered,
}

/// An indication of the generator, named by the port the wire is plugged into, not by where the wire stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Mark {
    pub port: Chamber,
    pub kind: MarkKind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MarkKind {
    Pace,
    Sense,
    /// Seen while refractory: no timer was restarted.
    RefractorySense,
}

impl Mark {
    /// The trade's two letters: AP, AS, VP, VS, and AR, VR for a signal seen while refractory.
    pub const fn letters(self) -> &'static str {
        match (self.port, self.kind) {
            (Chamber::Atrium, MarkKind::Pace) => "AP",
            (Chamber::Atrium, MarkKind::Sense) => "AS",
            (Chamber::Atrium, MarkKind::RefractorySense) => "AR",
            (Chamber::Ventricle, MarkKind::Pace) => "VP",
            (Chamber::Ventricle, MarkKind::Sense) => "VS",
            (Chamber::Ventricle, MarkKind::RefractorySense) => "VR",
        }
    }
}
