//! Every guard of the check has a name here. The walk switches each off in turn and must then find
//! the breach the guard holds back.

/// One guard, with the property that it holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Guard {
    /// N1: no dial is asked for before the dials are read.
    DialsReadFirst,
    /// N2: the number goes up only at minimum output.
    OutputDownBeforeNumberUp,
    /// N2: the number is not raised where a spike at minimum made a beat.
    MinimumDoesNotCapture,
    /// N2: nor where the spike after a missed beat would fall on its T wave.
    SpikeLateAfterMiss,
    /// N2: on the way out of sensing the number goes down before OUTPUT goes up.
    NumberDownBeforeOutputUp,
    /// N2: after NO BEATS the first act is OUTPUT.
    OutputFirstAfterNoBeats,
    /// N3: OUTPUT goes down only on an own rhythm as defined, shown in this check.
    OwnShown,
    /// N3: and shown no more than ten minutes ago.
    OwnFresh,
    /// N4: every card that touches a dial offers restore.
    RestoreOffered,
    /// N5: a check does not end without a reading, or a reason and a name.
    ReadBeforeEnd,
    /// N6: the plan is a position that satisfies the unit's rule.
    PlanByRule,
    /// N7: after a spike without a beat only up.
    OnlyUpAfterLoss,
    /// N7: beats again are counted before anything else.
    CountBeforeForward,
    /// N10: OUTPUT goes up before a result is shown.
    OutputUpBeforeResult,
    /// N11: restore never returns to an output shown not to capture.
    RestoreOutputByEvidence,
    /// N11: restore never returns to a number shown not to see.
    RestoreNumberByEvidence,
    /// N12: the rate is not lowered while asynchronous.
    RateKeptWhileAsynchronous,
    /// N12: the rate is never raised in sensing.
    RateNotRaisedInSensing,
    /// Asynchronous: the last look at what an emergency left so asks for own beats.
    OwnAskedWhileAsynchronous,
    /// N13: where nothing was tested, the card says where each dial stays.
    StaysSaid,
    /// N15: every card that touches a dial offers NO BEATS.
    NoBeatsOffered,
    /// Reading: what a reading shows is not undone on the word of an earlier one.
    ReadingNotUndone,
    /// Test rate: RATE does not go above the unit's highest test rate to test capture.
    TestRateBounded,
}

impl Guard {
    pub const ALL: [Guard; 23] = [
        Guard::DialsReadFirst,
        Guard::OutputDownBeforeNumberUp,
        Guard::MinimumDoesNotCapture,
        Guard::SpikeLateAfterMiss,
        Guard::NumberDownBeforeOutputUp,
        Guard::OutputFirstAfterNoBeats,
        Guard::OwnShown,
        Guard::OwnFresh,
        Guard::RestoreOffered,
        Guard::ReadBeforeEnd,
        Guard::PlanByRule,
        Guard::OnlyUpAfterLoss,
        Guard::CountBeforeForward,
        Guard::OutputUpBeforeResult,
        Guard::RestoreOutputByEvidence,
        Guard::RestoreNumberByEvidence,
        Guard::RateKeptWhileAsynchronous,
        Guard::RateNotRaisedInSensing,
        Guard::OwnAskedWhileAsynchronous,
        Guard::StaysSaid,
        Guard::NoBeatsOffered,
        Guard::ReadingNotUndone,
        Guard::TestRateBounded,
    ];

    /// The property of the specification that the guard holds.
    pub fn property(self) -> &'static str {
        use Guard::*;
        match self {
            DialsReadFirst => "N1",
            OutputDownBeforeNumberUp
            | MinimumDoesNotCapture
            | SpikeLateAfterMiss
            | NumberDownBeforeOutputUp
            | OutputFirstAfterNoBeats => "N2",
            OwnShown | OwnFresh => "N3",
            RestoreOffered => "N4",
            ReadBeforeEnd => "N5",
            PlanByRule => "N6",
            OnlyUpAfterLoss | CountBeforeForward => "N7",
            OutputUpBeforeResult => "N10",
            RestoreOutputByEvidence | RestoreNumberByEvidence => "N11",
            RateKeptWhileAsynchronous | RateNotRaisedInSensing => "N12",
            OwnAskedWhileAsynchronous => "asynchronous",
            StaysSaid => "N13",
            NoBeatsOffered => "N15",
            ReadingNotUndone => "reading",
            TestRateBounded => "test-rate",
        }
    }
}

/// All guards on, unless the walk has switched one off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Guards {
    off: Option<Guard>,
}

impl Guards {
    pub const ALL_ON: Guards = Guards { off: None };

    /// For the walk alone: shows that the guard is what holds its property.
    #[cfg(any(test, feature = "walk"))]
    pub fn without(guard: Guard) -> Guards {
        Guards { off: Some(guard) }
    }

    #[inline]
    pub fn on(self, guard: Guard) -> bool {
        self.off != Some(guard)
    }
}
