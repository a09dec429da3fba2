//! The closed list of everything Holdfast can say. One variant a sentence, typed arguments, no words:
//! the words crate holds one message of the same name (in kebab-case) for each, in every language.
//!
//! Figures come in as finished strings, written as the dial prints them.

use serde::{Deserialize, Serialize};

/// An argument of a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Arg {
    /// A finished string: a dial position, a clock time, a name somebody typed.
    Text(String),
    /// A count, for the plural.
    Count(u32),
    /// Another sentence, said in the same language.
    Said(Box<Say>),
}

impl From<&String> for Arg {
    fn from(text: &String) -> Arg {
        Arg::Text(text.clone())
    }
}

impl From<&u32> for Arg {
    fn from(count: &u32) -> Arg {
        Arg::Count(*count)
    }
}

impl From<&Box<Say>> for Arg {
    fn from(said: &Box<Say>) -> Arg {
        Arg::Said(said.clone())
    }
}

macro_rules! says {
    ($( $(#[$meta:meta])* $name:ident $( { $( $arg:ident : $kind:ty ),* $(,)? } )? ),* $(,)?) => {
        /// See the module.
        #[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub enum Say { $( $(#[$meta])* $name $( { $( $arg: $kind ),* } )? ),* }

        /// Every sentence with the names of its arguments: what a catalogue must hold.
        pub const SENTENCES: &[(&str, &[&str])] =
            &[ $( (stringify!($name), &[ $( $( stringify!($arg) ),* )? ]) ),* ];

        impl Say {
            /// The variant's name.
            pub fn name(&self) -> &'static str {
                match self {
                    $( Say::$name $( { $( $arg: _ ),* } )? => stringify!($name) ),*
                }
            }

            /// The variant's name and its arguments, for the catalogue.
            pub fn parts(&self) -> (&'static str, Vec<(&'static str, Arg)>) {
                match self {
                    $( Say::$name $( { $( $arg ),* } )? => (
                        stringify!($name),
                        vec![ $( $( (stringify!($arg), Arg::from($arg)) ),* )? ],
                    ) ),*
                }
            }
        }
    };
}

says! {
    // ---- plain pieces
    /// A dial position or another finished figure, as it stands.
    Figure { text: String },
    FigureUnit { figure: String, unit: Box<Say> },
    /// A unit's or a person's own words, shown as typed.
    Local { text: String },
    /// Nothing.
    Blank,
    Output, Rate, Mv,
    MilliAmp, Volt, MilliVolt, PerMinute, NoUnit,
    Asynchronous,
    AtrialWire, VentricularWire, AtrialLead, VentricularLead,

    // ---- marks
    MarkExampleRules, MarkPractice, MarkTestClock,

    // ---- stages
    StageReady, StageOwnRhythm, StageSensing, StageCapture, StageSet, StageRead, StageConfirm, StageDone,
    StageRestore, StageTrouble, StageAway,
    WireAndStage { wire: Box<Say>, stage: Box<Say> },
    ClockInCheck, ClockNoStandby, ClockSinceLoss,
    WallClock { time: String },

    // ---- always there
    NoBeats, StopRestore, SomethingIsWrong, ThatWasASlip, LeaveCheck,
    SpokenTurn { instruction: Box<Say>, figure: Box<Say>, unit: Box<Say>, question: Box<Say> },
    RestoreLabel, RestoreNumberNote { restore: String, found: String }, RestoreAtMaximum,

    // ---- turning a dial
    TurnDownTo { dial: Box<Say> }, TurnUpTo { dial: Box<Say> }, StaysAt { dial: Box<Say> },
    TurnToAsynchronous, SwitchToAsynchronous, LeaveAsynchronousSwitch { number: String },
    FromFigure { figure: String, unit: Box<Say> }, FromAsynchronous,
    OffCourseReason, SmallIsGood, BigIsGood, SeesLess, SeesMore,
    DialStandsAt { dial: Box<Say>, figure: Box<Say> },
    OtherStays { dial: Box<Say> }, OtherThen { dial: Box<Say> },

    // ---- watches
    TimeForBeats { beats: u32 }, TimeForSeconds { seconds: u32 }, TimeForThreeSpikes,
    ScreenMaySleep,

    // ---- Ready
    AskSamePatient { date: String, time: String }, SamePatientYes, SamePatientNo,
    AskOrder, AskOrderLine, OrderYes, OrderNo,
    AskAccept, AcceptField, AcceptYes, AcceptNo, ClinicianField,
    ListIntro, ListAllTrue, ListNotTrue, AskWhichLine,
    LineOrder, LineAcceptance, LineMode, LineAge { years: u32 }, LineEcg, LineExtraBeats, LineVehicle,
    LineConnections, LineGloves, LineTemperature, LinePulseTrace, LineStandby, LineWireTraced,
    Blocked, BlockedReason { line: Box<Say> }, BlockedPutRight, BlockedClose,
    AskPulseTrace, AskPulseTraceLine, PulseTraceYes, PulseTraceNo,
    AskStandby, AskStandbyLine, AskStandbyClinician, StandbyClinicianLine { limit: String }, StandbyYes, StandbyNo,
    AskRightWire { wire: Box<Say> }, AskRightWireOther, RightWireYes, RightWireNo,
    ReadTheDials, ReadTheDialsLine, ReadDone, ChooseAsynchronous,
    AskFirstLook, FirstLookLine, FirstLookAtriumLine, SeenEveryBeatPaced, SeenOnlyOwn, SeenBoth, SeenSpikesWithoutBeats,
    FirstMaximumReason, AskConnections, ConnectionsLine,
    ConnectionsPulse, CallLine, ConnectionsDone,
    AskAtrium, AtriumPWaves, AtriumFibrillation, AtriumNoPWaves,
    AskAsynchronousOrdered, AsynchronousOrderedLine, AsynchronousOrderedYes, AsynchronousOrderedNo, OrderedByField,
    AsynchronousOffReason, AskPacedOnTime, PacedOnTimeYes, PausesSeen,
    AsynchronousOnReason,

    // ---- own rhythm
    OwnDownReason { step: String, limit: String }, AskOwnRhythm, AnswerStillPaced, AnswerOnlyOwn, AnswerBoth,
    AskFirstOwn, FirstOwnLine, FirstOwnYes, FirstOwnNo,
    BlindRateReason, BlindNumberReason, BlindNumberFastReason,
    AskOwnHold, AskOwnHoldAtrium, OwnHoldYes, AnswerBeatNotMarked,
    AskOwnRate, OwnRateLine, SlowestField, FastestField, OwnRateDone,
    OwnBackReason { why: Box<Say> }, AskPacedWithPulse, AnswerFine,

    // ---- sensing
    SenseRateReason { offset: String, own: String }, SenseRateLateReason, AskOnlyOwnMarked, AnswerEveryBeatMarked,
    SenseMinimumReason, AskSpikes, AnswerNoSpikes, AnswerSpikesNoBeat, AnswerSpikeMadeBeat,
    SenseUpReason, SenseDownReason, AskEveryBeatMarked,
    SenseMvOutReason, SenseOutputOutReason, AskOwnWithPulse, OwnWithPulseYes,

    // ---- capture
    CaptureRateReason { offset: String, own: String }, AskCaptureVentricle, AskCaptureAtrium,
    AnswerEverySpike, AnswerSpikeWithoutBeat, AnswerOwnAmong, AnswerPWithoutQrs, AnswerWideBeat,
    AskEverySpike, CaptureDownReason, CaptureBackReason, CaptureUpReason, CaptureRestoreReason,
    AskBeatsAgain, AnswerStillNoBeat, AnswerBeatsAgain,
    AskCaptureCount, CaptureCountLine, CaptureOutReason, CaptureMaximumReason, CaptureRateDownReason, BlockAtFoundRateReason,

    // ---- margin check
    AskMargin, MarginNoShock, MarginPads, MarginClinician, MarginHand, MarginYes, MarginNo,
    MarginOneReason, MarginHalfReason { restore: String }, MarginBackReason,

    // ---- set, read, confirm
    SetOutputReason { multiple: String, threshold: String, rule: Box<Say> },
    SetOutputAtMost { multiple: String, threshold: String, rule: Box<Say> },
    SetOutputBracket { multiple: String, threshold: String, rule: Box<Say> }, SetOutputOtherUnit,
    SetOutputNoPosition { figure: String }, SetOutputFlagged { rule: Box<Say> }, SetOutputNotBelowRestore,
    SetRateReason, SetRateEmergency, SetMvByRule { threshold: String, rule: Box<Say> }, SetMvStays,
    SetMvRefused, SetMvBelowLowest, SetMvDidNotSee, SetMvMissed, SetMvNothingTested, SetMvOwnBack, SetMvPauses,
    RuleHalf, RuleBelowHalf, RuleHalfLessOne, RuleThird,
    RuleBand { low: String, high: String }, RuleBandFloor { low: String, high: String, floor: String },
    RuleDouble, RuleDoublePlusOne,
    AskSteadyRate, AskMarkedOrPaced,
    StaysTitle, StaysLine { dial: Box<Say>, figure: Box<Say> }, StaysWhy { why: Box<Say> }, StaysDone,
    ReadBackTitle, ReadBackLine, ReasonTitle, ReasonDone, ReasonField, ToldField, NotReadNow,
    DiffersTitle, DiffersLine { dial: Box<Say>, read: Box<Say>, expected: Box<Say> }, DiffersCorrected, DiffersReason,
    ReadLowerTitle, ReadLowerLine { dial: Box<Say>, read: Box<Say>, before: Box<Say> }, ReadLowerNote { time: String },
    LeftAloneTitle, LeftAloneLine { dial: Box<Say>, read: Box<Say>, believed: Box<Say> },
    LeftAloneAtLine { dial: Box<Say>, read: Box<Say> }, LeftAloneNote, LeftAloneReadAgain,
    AskConfirm, AskConfirmAsynchronous, ConfirmLine, ConfirmYes,
    GuardedTitle, GuardedAlarms, GuardedPressure, GuardedDials, GuardedWires, GuardedBattery, GuardedDone,

    // ---- restore
    RestoreTitle, RestoreNothing, RestoreStands, RestoreDone, RestoreNote, RestoreCall, RestoreBlind, RestoreBlindFast, RestoreNotPacedOver,
    RestoreAfterNoBeats,

    // ---- trouble
    AskPulse, AnswerNoPulse, AnswerFastWide, AnswerShock, AnswerSomethingElse, AnswerBack,
    AskWhatElse, AnswerNotTolerated, AnswerPause, AnswerExtraBeat, AnswerMarkAlone, AnswerElsewhere,
    ElsewhereTitle, ElsewhereLine,
    SlipTitle { dial: Box<Say> }, SlipLine, SlipStandsAt { figure: String, unit: Box<Say> }, SlipField,
    SlipDone,
    NoBeatsReason, AskNoBeats, NoBeatsSpikes, NoBeatsNoSpikes,
    NoSpikesTitle, NoSpikesStill, NoSpikesNone, EmergencyTitle, EmergencyCall, EmergencyCpr, EmergencyOutput,
    EmergencyAsynchronous, EmergencyNumber { figure: String }, EmergencyRate { figure: String }, EmergencyRateAtLeast { figure: String }, EmergencyConnections, EmergencyLocal,
    EmergencyBeats,
    ArrestTitle, ArrestCpr, ArrestTrace, ArrestOutput, ArrestBeats,
    AfterShockReason, AskAfterShock,
    ReadAfterTitle, ReadAfterLine,
    AwayTitle { seconds: u32 }, AwayYes, AwayNo, AwayReadTitle { minutes: u32 }, AwayReadLine,
    AwayReadOld { output: String, rate: String, mv: Box<Say>, time: String },
    Ended,

    // ---- why a test was not done
    WhyOrderedAsynchronous, WhyPauses, WhyNoOwnBeats { limit: String, time: String },
    WhyOwnBelowLimit { own: String, limit: String }, WhyOwnNotHeld, WhyNotTolerated, WhyDidNotSee,
    WhyAtrialFibrillation, WhyNoPWaves, WhyOwnTooFast { own: String }, WhyFoundTooFast { highest: String }, WhyOwnTooOld, WhyNumberNotSeen,
    WhyFoundDoesNotCapture, WhyNoCaptureAtMaximum, WhyBlockFromRate, WhyWrongChamber, WhyOwnAmongSpikes,
    WhyStopped, WhyNoBeats, WhyShock, WhyFibrillation, WhyAway, WhySpikeWithoutBeat, WhyElsewhere, WhyNoSuchRate,
    WhySpikeMayFallOnT,

    // ---- scales in words
    ScaleWords { dial: Box<Say>, present: String, least: String, greatest: String },
    ScaleHeld { figure: String }, ScaleLost { figure: String }, ScaleMarked { figure: String },
    ScaleNotMarked { figure: String }, ScaleTried { scale: Box<Say>, tried: Box<Say> },

    // ---- refusals
    NoSuchPositionNone { dial: Box<Say>, typed: String, least: String, greatest: String },
    NoSuchPositionOne { dial: Box<Say>, typed: String, near: String },
    NoSuchPositionTwo { dial: Box<Say>, typed: String, below: String, above: String },
    OwnSlowerThanRate { own: String, rate: String }, NotARate, FarFromLast { last: String, typed: String },
    NothingToCompare, UnlikeHanded, ReadTwice { dial: Box<Say>, first: Box<Say>, then: Box<Say> },
    ReadBeforeRestore,
    NothingTyped { field: Box<Say> }, NotTaken, JournalFault, TooLong { most: u32 },
    BedExists { label: String }, EndCheckFirst, OtherWireOpen, OtherWireUnread,

    // ---- a file handed in: what stands against it, where, what is allowed, which source
    FaultAt { place: String, what: Box<Say> },
    FaultTooLong { most: String }, FaultNotText, FaultNotJson { line: String, column: String },
    FaultRepeated { line: String }, FaultMissing, FaultNoSuchName { allowed: String },
    FaultWrongKind { found: Box<Say>, wanted: Box<Say> }, FaultTextLength { most: String },
    FaultNotOneOf { found: String, allowed: String }, FaultNotAsPrinted { found: String },
    FaultNotPositive { found: String }, FaultUnsorted { found: String, after: String },
    FaultDuplicate { found: String }, FaultCount { found: String, least: String, most: String },
    FaultSpan { from: String, to: String, step: String }, FaultNotAMode { found: String, why: Box<Say> },
    FaultOutOfRange { found: String, least: String, greatest: String, unit: Box<Say>, source: Box<Say> },
    FaultNotAFigure { found: Box<Say>, least: String, greatest: String, unit: Box<Say>, source: Box<Say> },
    RangeSource { keys: String }, RangeNoSource,
    FaultBandReversed { low: String, high: String }, FaultAim { aim: String, low: String, high: String },
    FaultBelowDouble { low: String }, FaultBelowOther { found: String, other: String, least: String },
    FaultAboveOther { found: String, other: String, greatest: String }, FaultContradicts { other: String },
    FaultNotADate { found: String }, FaultNoDemandMode, GeneratorNotForWire { mode: String },
    KindText, KindWholeNumber, KindWholeTo { greatest: String }, KindNotNegative, KindFigure, KindPrinted, KindYesNo, KindList, KindGroup,
    KindNameOrGroup, FaultNotAllowed,
    CodeLength, CodeDigitZero { place: String }, CodeMakersLetter { place: String },
    CodeLetter { place: String, found: String, allowed: String },
    RulesFileIsExample, RulesInForceAlready, RulesSameName { name: String },
    GeneratorKnown { name: String }, TooManyGenerators { most: u32 }, RulesReviewBlocks { review: String },

    // ---- a unit's rules and generators
    MarkExampleGenerator, MarkReviewPassed { review: String },
    HandInRules, HandInRulesLine, HandInExample, RulesFileField, HandInGenerator, HandInGeneratorLine,
    GeneratorFileField, OfferNotInForce,
    OfferedRulesTitle { name: String }, OfferedDiffer { count: u32 }, OfferedSame, NowInForce { now: Box<Say> },
    NewWithSource { now: Box<Say>, source: Box<Say> },
    PutAside, ApproveOffer, ApproveTitle { name: String }, ApproveLine, ApproveDone, ApproverField, RoleField,
    RowApproval, RowLetInHere, LetInBy { name: String, role: String, date: String }, RowFingerprint,
    RowOutputAim, TimesThreshold { multiple: String }, RowGoingUp, RowHalfRate, RowBelowDouble, RowReviewBlocks,
    NobodyNamed,
    Generators, GeneratorsNote, GeneratorLine { output: Box<Say>, rate: String, numbers: String },
    GeneratorRange { least: String, greatest: String, unit: Box<Say> },
    GeneratorExample, GeneratorApproved { name: String }, RowOutputPositions { unit: Box<Say> }, RowRatePositions,
    RowMvPositions, RowAsynchronous, ByPosition, BySwitch, ByNothing, RowControl, ByDial, ByKeys,
    RowPulseWidth, MicroSeconds { time: String }, RowAutoLock, LockSeconds { seconds: String }, NoLock, RowModes,
    GeneratorIs { name: String }, OtherGenerator, PlugElsewhere, PlugTitle, PlugLine, PlugDone,

    // ---- more about a bed
    BedMore, BedMoreTitle, Happened, HappenedTitle, HappenedLine,
    HappenedShock, HappenedLead, HappenedPolarity, HappenedPotassium, HappenedDrug, HappenedNothing,
    DueBecause { why: Box<Say> }, DueShock, DueNoBeats, DueNotFinished, DueLead, DuePolarity, DuePotassium, DueDrug,
    DueGenerator, DueDials,
    WireOut, WireOutTitle, WireOutLine, WireOutDone, WireField,
    EmptyBed, EmptyBedTitle { bed: String }, EmptyBedLine, EmptyBedKeep, EmptyBedYes, RemoveBedYes,
    ReadDialsFirst, ReadNow, ReadOwedTitle, ReadOwedLine { time: String },
    ReadOwedAgain { dial: Box<Say>, left: Box<Say>, read: Box<Say> },
    StandsSince { time: String, output: String, rate: String, mv: Box<Say> }, CodeDialsDiffer,

    // ---- educators and sign-off
    SignOff, RosterTitle, RosterEmpty, MoreLearners, ToSign, Educators, CheckSignedFile, CheckSignedFileLine,
    SignedFileField, ItemsMet { met: String, of: String }, PartlyInPractice,
    RunOutOn { date: String }, DueBy { date: String }, SignedUntil { date: String }, SignedWithoutEnd, NothingSigned,
    LearnerTitle { name: String }, NewestEntry, EarlierEntry, LaterEntry,
    ByEducator { name: String }, ByEducatorNotVouched { name: String }, InPractice { said: Box<Say> },
    NoSignOffRule, SignOffRule { months: String }, SignOffRuleExample { months: String },
    RowSignOff, RuleMonths { months: String },
    ItemParts, ItemIndications, ItemWires, ItemExitSite, ItemModes, ItemMarks, ItemBattery, ItemSensingOrCapture,
    ItemEmergency, ItemSensingTest,
    HowObserved, HowDemonstrated, HowExplained, MetYes, MetNot,
    HowField, MetField, OverrideField, RemarkField, OverrideNeedsReason,
    NotPassedField, NotPassedNeedsReason, ReasonMissing { item: Box<Say> }, RunNotPassed,
    JudgeFound { found: Box<Say> },
    SignedTitle { name: String }, RevokedTitle, VouchedTitle { name: String }, SaveAsFile, Revoke,
    RowSignedBy, RowKey, RowSignedOn, RowEntry, RowKeyOfOther, RowWork, RowVouched, RowEnrolled,
    ShownMet { how: Box<Say> }, ShownNotMet { how: Box<Say> },
    RevokedBy { name: String, date: String, reason: String }, NotVouchedFlag, BeforeEnrolment, RetiredFlag,
    FileDiskFull, FileEntryDamaged, FileNotWritten { why: String }, FileIsAt { file: String }, FileNone,
    EnrolledOn { date: String }, WorkSupervised { date: String }, WorkPractice { exercise: Box<Say>, date: String },
    WorkNotPassed { exercise: Box<Say>, date: String },
    VouchedBy { name: String }, VouchedByApprover { name: String, role: String }, NotVouched,
    EducatorsEmpty, Enrol, SignsElsewhere, EducatorTitle { name: String }, EducatorNote,
    VouchFor, VouchAsApprover, NewPin,
    ToSignTitle, NothingToSign, DraftGoOn, DraftFirst, SignThis, CheckEnded { date: String, time: String },
    WhoIsLearner, LearnerLine, LearnerField, NextStep, ItemOf { number: String, of: String, name: String },
    AllItems, NotThisTime, NotLookedAt, ToThePin, OtherLearner, NoItemLookedAt, NotForOneself, SignOffTooLong,
    EnrolTitle, EnrolLine, PinNotFoundAgain, EnrolDone, EducatorNameField, NewPinField, NewPinAgainField,
    EducatorKnown { name: String }, TooManyEducators { most: u32 },
    VouchTitle { name: String }, VouchLine, VouchDone, VouchedFirst { name: String }, ApproverLine { name: String },
    NotTheApprover { name: String }, FileVouchLine { key: String },
    RenewTitle { name: String }, RenewLine, RenewDone,
    SignTitle, SignCounts { name: String, met: String, all: String }, SignLine, SignDone,
    RevokeTitle { name: String }, RevokeLine, RevokeDone,
    EducatorField, PinField, PinNotDigits, PinShort { least: u32 }, PinLong { most: u32 }, PinsDiffer,
    PinWrong, PinWrongWait { wait: Box<Say> }, PinWaitSeconds { seconds: u32 }, PinWaitMinutes { minutes: u32 },
    PinCouldNot, PinCutOff, PinWorking, PinWorkingLine, ClockBeforeEnrolment { date: String },
    SignedFileUnchanged, SignedFileTooLong, SignedFileNotOurs, SignedFileAltered, SignedFileNewer,
    EducatorUnknown { name: String }, SameNameOtherKey { name: String }, AheadOfClock, RevokedHere, KeepHere,
    SignedHereAlready,
    // ---- what leaves, what is erased
    ExportName, ScreenExport, ExportNothing, ExportDone, WritingStill,
    FilesAsk, FilesLine, FilesNote, FilesBeingWritten, FilesWritten, LieHere, WritingGoesOn, WriteAgain,
    NothingWritten, NotWrittenFull, NotWrittenRefused, NotWrittenNotMade,
    KeepingName, BackupName, BackupAsk, BackupLine, BackupNote, BackupDone, BackupBeingWritten, BackupWritten, LiesHere,
    RestoreName, RestoreFile, RestoreFileLine, BackupFileField,
    RestorableAsk, RestorableHolds { entries: String, beds: u32 }, RestorableUntil { date: String, time: String }, RestorableAhead,
    RestorableUnsigned, RestoreYes, RestoreNo,
    NotABackup, BackupNewer, BackupCutShort, BackupTooLong, BackupAltered, BackupDoesNotHold, BackupNoRoom, BackupRefused,
    EraseTitle, EraseNothing, EraseName, EraseLater, ErasableFrom { when: Box<Say> }, ErasableSince { when: Box<Say> }, EraseNever, LeftBedOn { date: String },
    EraseAsk { bed: String, date: String }, EraseLine, EraseFiles, EraseNoRule, EraseNotYet { when: Box<Say> },
    EraserField, EraseYes, EraseNo, LeftAsCode { times: u32 }, LeftAsFiles { times: u32 }, LeftAsBackup { times: u32 },
    LeftNothing, ErasedName, ErasedTitle, ErasedNothing, ErasingStill, ErasedOn { when: Box<Say> },
    ErasedBy { name: String, entries: u32 }, ErasedByRule { days: u32, closed: String }, ErasedMore { count: u32 },
    RowHadLeft, RowLeftAsCode, RowLeftAsFiles, RowLeftAsBackup, LeftTimes { times: u32 }, LeftLast { date: String },
    RowErase, EraseAfter { days: u32 },

    // ---- another box, another battery
    SwapNow, SwapResume, SwapOpenSince { time: String }, EndSwapFirst, SwapNoWayBack, LookFirst, TransportNoStop,
    DueBattery, DueReconnected, DueMoved, DueSharedBox,
    StageSwapBox, StageSwapBattery, SwapOldBox, SwapStop,
    AskSwapWork, AskSwapWorkLine, SwapTheBox, SwapTheBattery,
    SwapLastOwn { time: String, own: Box<Say> }, SwapSeenPaced, SwapSeenOnlyOwn,
    PageBefore, PageMoreBefore { count: u32 },
    HistoryAnd { first: Box<Say>, second: Box<Say> },
    HistorySwapBox { from: String, to: String }, HistorySwapBattery { name: String }, HistorySwapBack { name: String },
    HistorySwapNothing, HistorySwapOutput { old: Box<Say>, left: Box<Say> }, HistorySwapShared,
    HistoryClinician { name: String }, HistoryNoBeats, HistoryShock,
    HistoryMri, HistoryWayBegun, HistoryWayNotLeft { place: String }, HistoryWay { place: String },
    HistoryLeft { time: String }, HistoryArrived { time: String }, HistoryHands { from: String, to: String },
    HistoryReadLeaving { dials: Box<Say> }, HistoryReadOnTheWay { dials: Box<Say> }, HistoryReadArriving { dials: Box<Say> },
    AskSwapShared, AskSwapSharedWith { wire: Box<Say> }, SwapSharedLine, SwapSharedYes, SwapSharedNo, SwapOtherWire,
    SwapSeenASpike, SwapSeenNoSpike,
    AskSwapOrderShared { wire: Box<Say> }, SwapOrderSharedLine, AskSwapOrderBattery,
    SwapReadOldOf { wire: Box<Say> }, SwapReadEndOf { wire: Box<Say> },
    SwapMoveTitleOf { wire: Box<Say> }, SwapOtherStays { wire: Box<Say> }, SwapOtherStops { wire: Box<Say> },
    SwapOldPacesOther { wire: Box<Say> }, SwapOtherInDeadBox { wire: Box<Say> }, SwapLookAtOther { wire: Box<Say> },
    SwapOutputUpOf { wire: Box<Say> }, SwapOldOutputUpOf { wire: Box<Say> }, SwapBlockVentricleFirst,
    AskSwapOrder, AskSwapOrderNoOwn, SwapUseBox, SwapUseBoxLine, SwapClose, SwapOtherBox,
    SwapReadOld, SwapReadNew, SwapReadEnd, SwapPickBox, SwapPickBoxLine, SwapPickDone,
    SwapSoundTitle, SwapBoxBattery, SwapBoxWhole, SwapCableFits,
    SwapBatteryTitle, SwapBatteryType, SwapBatteryWay, SwapBatteryManual,
    AskSwapNewOn, SwapNewOnLine, SwapRunsYes, SwapRunsNo, AskSwapMode { mode: String }, SwapStandsYes, SwapModeNo,
    SwapSetDial { dial: Box<Say> }, AskSwapStands, SwapRateReason { figure: Box<Say> },
    SwapOutputReason { figure: Box<Say> }, SwapUnitReason, SwapPulseReason, SwapNumberReason { figure: Box<Say> },
    SwapAsynchronousReason, SwapSetAgain,
    AskSwapStandby, AskSwapStandbyCaptures, SwapStandbyLine, SwapStandbyYes, SwapCapturesYes, SwapStandbyNo,
    SwapReadyTitle, SwapOldRuns, SwapSecondPerson, SwapStandbyOn, SwapPinsTraced, SwapBatteryInHand, SwapPulseInView,
    SwapMoveTitle, SwapMovePlus, SwapMoveMinus, SwapLocalFirst, SwapPinNo, SwapPinsYes,
    SwapBatteryOutTitle, SwapBatteryBackTitle, SwapBatteryOut, SwapBatteryIn, SwapBoxOn, SwapStaysOff, SwapBoxIsOn,
    SwapBoxDeadTitle, SwapFetchBox, SwapOldOff, SwapPadsStay, SwapDiffersStays,
    SwapNewOutputUp, SwapOldOutputUp,
    SwapStandbyNowTitle, SwapStandbyUp, SwapOldStaysOn, SwapStillNoBeats, SwapStandbyPace, SwapPinsTight,
    SwapNumberHighest { figure: String },
    SwapBackTitle, SwapBackPlus, SwapBackMinus, SwapStandbyIfNeeded, SwapPinsBackYes,
    SwapStandbyLost, SwapAwaySeconds { seconds: u32 }, SwapAwayMinutes { minutes: u32 }, SwapBeatsYes,
    AskSwapWhere, SwapWhereLine, SwapPinsInOld, SwapPinsInNew, SwapPinsNeither,
    SwapBlocked, SwapBlockOrder, SwapBlockNotSound, SwapBlockBattery, SwapBlockBoxOff, SwapBlockMode, SwapBlockRate,
    SwapBlockOutput, SwapBlockNumber, SwapBlockAsynchronous, SwapBlockStandby, SwapBlockNotReady,

    // ---- on the way
    TransportNow, TransportResume, TransportSince { time: String }, OnTheWayTo { place: String },
    LeavingFor { place: String }, EndTransportFirst, NoCheckOnTheWay, NoCheckInVehicle,
    StageTransport, StageArrival, TransportStop,
    AskDestination, DestinationField, TargetField, TargetUnit, TargetTheatre, TargetImaging, TargetHospital, TargetMri,
    DestinationDone, MriTitle, MriLine, MriOther, TransportClose,
    AskPads, AskPadsLine, PadsYes, PadsNo,
    CarryTitle, CarryStandby, CarryBattery, CarryCable, CarryBox, CarryMonitor, CarryGloves, NotReadyTitle, NotReadyLine,
    TransportRead { wire: Box<Say> }, TransportReadLine,
    MarginSame, MarginDiffers, MarginFirst, MarginBelowRule, MarginBlind { number: String, signal: String },
    WayMarginUnknown, WayOtherUnit, WayMarginLost { output: Box<Say>, threshold: String }, WayAsynchronous,
    WayMarginUntried { output: Box<Say>, threshold: String }, NumberUntried { number: String, signal: String },
    MarginReadAgain, MarginStays, MarginGoOn,
    AskInitials, AskInitialsLine, InitialsFromField, InitialsToField, InitialsDone,
    AskCaptureAndPulse, AskCaptureAndPulseLine, CapturePulseYes, CapturePulseNo,
    AskOnTheWay { place: String }, OnTheWayLine, NoThresholdLine, LastLook { time: String }, WayChanged, WayArrived,
    AskChange, ChangeBed, ChangeInto, ChangeOut, ChangeTeam,
    AskUnchanged, UnchangedYes, DialChanged,
    AskNames, AskNamesLine, NamesYes, AskArrived, AskArrivedLine,

    // ---- in a terminal
    SessionEnded, NoSuchKey { typed: String }, LeaveTerminal,
    RecordHolds { folder: String, entries: String, erased: String },
    BackupHolds { file: String, entries: String }, FileNotRead { file: String, why: String },
    RestoredInto { folder: String, entries: String }, RestoredAside { folder: String }, RestoredErased { count: u32 },
    RestoreHasNewer { count: u32 }, RestoreAnother,
    ExportTaken { file: String }, FolderTakesNone, ExportFailed { file: String, why: String },
    RehearsedTurned, RehearsedTyped { field: String }, RehearsedAnswered, RehearsedNotTaken, RehearsedByTime, RehearsedAlways,
    NoDisplay, DidNotStart { why: String },
    CommandMissing, CommandLacks { command: String, missing: String }, CommandUnknown { typed: String }, CommandMisused { allowed: String },
    NotAWholeNumber { typed: String }, NoFolderNamed, OutputClosed { fault: String }, HarmSeen, NotAsExpected { differences: String },
    FoundOwnNotSeen { limit: String }, FoundNotLookedFor, FoundRange { low: String, high: Box<Say> },
    FoundAtLeast { figure: Box<Say> }, FoundSeenAt { figure: Box<Say> }, FoundSeenAtNone,
    FoundAtMost { figure: Box<Say> }, FoundNotTested { why: String }, FoundNoResult, FoundNothing,
    CameOtherwise { what: String, expected: String, found: String }, ScriptNever { place: String },
    ScenarioNotForWire, ScenarioNoSentence { named: String },

    // ---- the record on the tablet
    RecordInUse, RecordHeld, RecordDiskFull, RecordRoomShort, ScreenKeptLit, DataNeedsFolder, ArgumentUnknown { argument: String }, TheDataFolder,
    RecordReadOnly { folder: Box<Say> }, RecordNoFolder { folder: Box<Say>, why: String },
    RecordMissing { folder: Box<Say> }, RecordNone { folder: Box<Say> }, RecordNotOurs { folder: Box<Say> },
    RecordNewer { folder: Box<Say>, found: String, known: String },
    RecordUnknownVersion { folder: Box<Say>, found: String }, RecordAltered { folder: Box<Say>, what: String },
    RecordBroken { folder: Box<Say>, entry: String },
    RecordShortened { folder: Box<Say>, had: String, has: String }, RecordDamaged { folder: Box<Say> },
    RecordNotStarted { why: String }, RecordNoClock,

    // ---- beds, wires, results, history, code, settings
    BedLabelField, ChamberField, KindField, PolarityField, GeneratorField,
    CautionLocalRules,
    WelcomeTitle, WelcomeIs, WelcomeIsNot, WelcomeNoTalk, WelcomeExample, WelcomeDone,
    PacingChecks, BedsEmpty, AddBed, OpenBed, AllBeds, MoreBeds, FirstBeds, Back,
    Settings, DueNow, DueAt { time: String }, LateMinutes { minutes: u32 }, LateHours { hours: u32 },
    SpokenBed { title: Box<Say>, due: Box<Say> },
    DialsNotReadSince { time: String }, CheckLeftOpen { time: String }, NoCheckYet, NoWireYet,
    WireSummary { wire: Box<Say>, output: Box<Say>, sensing: Box<Say> },
    WireNotChecked { wire: Box<Say> }, WireCheckOpen { wire: Box<Say> },
    SummaryMargin { output: Box<Say>, multiple: String, threshold: String },
    SummaryMarginAtMost { output: Box<Say>, multiple: String, threshold: String },
    SummaryOutput { output: Box<Say> }, SummarySees { number: String, signal: String },
    SummarySeesAtLeast { number: String, signal: String },
    SummarySeesOnly { number: String }, SummaryAsynchronous,
    ChartCapture { unit: Box<Say> }, ChartCaptureOf { wire: Box<Say>, unit: Box<Say> }, ChartSignal,
    ChartWords { first: String, last: String, set: String, unit: Box<Say> },
    ChartDays { line: Box<Say>, from: String, to: String }, CheckDueIn { bed: String },
    RowSlope, SlopeRises { per_day: Box<Say>, most: Box<Say> }, SlopeFalls { per_day: Box<Say> }, SlopeSteady,
    SlopeTooFew, SlopeOf { count: u32, fewest: u32 },
    NewBedTitle, NewBedLine, NewBedDone, TooManyBeds { most: u32 }, TooManyWires { most: u32 },
    NewPatientTitle { bed: String }, NewPatientLine, NewPatientAlso, NewPatientYes, NewPatientNo,
    NewWireTitle, NewWireLine, NewWireDone, NewWire, NewPatient,
    ChamberAtrium, ChamberVentricle, KindEpicardial, KindTransvenous, PolarityBipolar, PolarityUnipolar,
    StartCheck, StartCheckOf { wire: Box<Say> }, ResumeCheck, ResumeCheckOf { wire: Box<Say> },
    LastResult, HistoryName, HandOver, BedTitle, BedNoWire,
    WireAnd { wire: Box<Say>, what: Box<Say> }, ScreenResult, ScreenHistory, ScreenHandOver,
    ResultChecked, ResultPartly, ResultNotTested, ResultNotRead, EarlierResult, LaterResult,
    RowOwnBeats, RowSensing, RowCapture, RowMargin, RowStays { dial: Box<Say> }, RowNextCheck, RowAccepted,
    RowBeats, RowRules, RowReason, RowOrdered, RowClinician,
    OwnRate { rate: String }, OwnRange { slowest: String, fastest: String }, OwnNotSeen { limit: String, time: String },
    OwnThenLost { own: Box<Say> }, OwnNotLooked, OwnNotMeasured, NotTested, AtLeast { figure: Box<Say> }, AtMost { figure: Box<Say> },
    Between { low: String, high: Box<Say> }, SeenAtFound { figure: Box<Say> }, SeenAtNone,
    GoingUp, GoingDown { figure: String }, WhyAndHeld { why: Box<Say>, figure: String }, BothNotes { first: Box<Say>, second: Box<Say> },
    Multiple { multiple: String }, AtLeastMultiple { multiple: String }, FoundMultiple { multiple: String },
    FoundAt { figure: Box<Say> }, AsFound,
    DueOn { date: String, time: String }, BeatsOf { beats: u32 }, BeatsMissed { percent: String },
    ExampleRulesNamed { rules: String }, RulesNamed { rules: String },
    NamedPerson { name: String }, ToldPerson { reason: String, name: String },
    ThresholdAt { figure: String }, SignalAt { figure: String }, SetAt { figure: String },
    ResultScaleWords { dial: Box<Say>, threshold: String, set: String, unit: Box<Say> },
    HistoryTitle, HistoryEmpty, HistoryWhen { date: String, time: String },
    HistoryValue { capture: Box<Say>, sensing: Box<Say> }, HistorySet { found: Box<Say>, set: Box<Say> },
    HistoryNotRead, HistoryKept { count: u32 },
    CodeNote, CodeTooLong, CodeNothing, CodeCheckOpen,
    SettingsTitle, LightField, LightDay, LightNight, TextField, TextPercent { percent: String },
    HandField, HandLeft, HandRight, MovementField, MovementOn, MovementStill,
    LanguageField, LanguageEnglish, LanguagePseudo, RulesInForce,
    RulesTitleExample, RulesTitle { name: String }, RulesApproved { name: String, document: String, date: String, review: String },
    RulesNotApproved, RulesReviewOverdue { review: String },
    RowOutputRule, RowSensingRule, RowOwnSearch, RowOwnWatch, RowTestRates, RowHighestRate,
    RowLowestNumbers, RowStartingNumbers, RowStrides, RowBeatsWatched, RowMinimumTime, RowAfterLoss,
    RowChecks, RowEmergencyRate, RowAge, RowMarginCheck, RowCaptureLimit, RowSignalLimit,
    RuleOwnSearch { step: String, limit: String }, RuleOwnWatch { watch: String, hold: String },
    RuleTestRates { sensing: String, capture: String },
    RulePair { ventricle: String, atrium: String }, RuleCaptureLimits { current: Box<Say>, volts: Box<Say> },
    RuleSignalLimits { ventricle: Box<Say>, atrium: Box<Say> }, NoLimit, RuleStrides { sensing: String, capture: String },
    RuleBeats { down: String, threshold: String, confirm: String }, RuleSeconds { seconds: String },
    RuleAfterLoss { ups: String, seconds: String }, RuleChecks { hours: String, narrow: String, multiple: String },
    RuleRate { rate: String }, RuleYears { years: String }, SwitchedOn, SwitchedOff,
    SourceRead { keys: String }, SourceCalculated { keys: String }, SourcePractice, SourceMemory,

    // ---- handed over: codes between tablets
    CodeForTablet, CodeForPhone, CodeCopyNote, CodeBeingMade, CodeNoKey, CodeHandedSince, CodeSignedBy,
    LoadHandover, LoadTitle, LoadLine, LoadPicture, LoadCamera, NoCamera, LoadDone, CodeField,
    CodeReadingTitle, CodeReadingLine, CodeLooks { done: u32, of: u32 }, StopReading,
    NotLoadedNotACode, NotLoadedTooLong, NotLoadedDamaged, NotLoadedMangled, NotLoadedAltered,
    NotLoadedNewerVersion, NotLoadedPractice, NotLoadedCare, NotLoadedNotAPicture,
    NotLoadedPictureTooLarge { megapixels: u32, most: u32 }, NotLoadedPictureTooLong, NotLoadedNoCode, NotLoadedInterrupted,
    ArrivedUnknown { tablet: String }, ArrivedKnown { name: String }, ArrivedOwn, ArrivedSeveral,
    ArrivedAside, ArrivedTake, ArrivedName, ArrivedNote, SayTheName,
    RemarkDuplicate, RemarkExpired { age: Box<Say> }, RemarkAhead { age: Box<Say> }, RemarkShortened { facts: u32 },
    RemarkExampleRules, RemarkDialsNotRead, RemarkUnknownLines,
    AgeMinutes { minutes: u32 }, AgeHours { hours: u32 }, AgeDays { days: u32 },
    RowHandedRead, RowHandedDials, RowChecksBefore, HandedRead { time: Box<Say> }, HandedNotRead { time: Box<Say> }, HandedReadLater { time: Box<Say> },
    HandedDials { output: Box<Say>, rate: String, mv: Box<Say> },
    FlagHandedDoubled { was: Box<Say> }, FlagHandedSignal { was: String },
    FlagHandedAboveLimit { limit: Box<Say> }, FlagHandedBelowLimit { limit: String },
    TakeInLine, TakeInDone, PatientField, PatientSame, PatientNew, SamePatientFirst { bed: String },
    CompareDials, CompareTitle, CompareLine, CompareDone, CompareAgain,
    ComparedSame, ComparedDiffers, ComparedNotSaid, ComparedNote,
    BesideSame, BesideDiffers { said: Box<Say> }, BesideOtherUnit { said: Box<Say> }, BesideNotSaid,
    MarginUnknown, OtherUnitNoMargin,
    MarginNowBelowRule { output: Box<Say>, multiple: String, threshold: String },
    MarginNowLost { output: Box<Say>, threshold: String }, MarginNowUntried { output: Box<Say>, threshold: String },
    MarginNowMayBeBelow { output: Box<Say>, multiple: String, threshold: String },
    SeesNowBlind { number: String, signal: String }, SeesNowAsynchronous,
    HandedNotCompared { time: String }, DueArrived, HistoryFrom { tablet: String },
    Tablets, TabletsNone, ThisTablet { tablet: String }, TabletSince { date: String },
    KeyGone, KeyDamaged, KeyNotWritten, KeyBeingMade, MakeKey,
    ForgetTitle { name: String }, ForgetLine, ForgetYes,
    TabletNameTitle, TabletNameLine { tablet: String }, TabletNameField, TabletNameDone,
    TabletNameTaken { name: String }, TooManyTablets { most: u32 },

    // ---- flags: what was seen, then the act asked for
    FlagNoCaptureAtMaximum, FlagNoRuleSatisfied, FlagRuleOfOtherUnit, FlagNotPacedOver, FlagStillBlind, FlagWrongChamber, FlagNoBeats, FlagShock,
    FlagFoundDidNotCapture, FlagDidNotSeeAsFound, FlagNumberRefused, FlagNumberBelowLowest, FlagNotNarrowed { low: String, high: String }, FlagFoundMarginBelowRule { multiple: String },
    FlagCaptureAboveLimit { is: Box<Say>, limit: String }, FlagSignalBelowLimit { is: String, limit: String },
    FlagLeftAsRead, FlagBlockFromRate, FlagPauses, FlagExtraBeatUnmarked, FlagMarksWithoutBeats, FlagFibrillation, FlagLostUnsought, FlagSeesNothing, FlagClimbs { per_day: Box<Say> }, FlagDoubled { was: String, is: String },
    FlagHalfSignalGone { was: String, is: String }, FlagFoundAsynchronous, FlagNotTolerated, FlagSpikeAtMinimum,
    FlagNotRead, FlagAway, FlagSlip, ClockSetBack { minutes: u32 }, ClockSetOn { minutes: u32 },

    // ---- practice: exercises, the acts a run is judged by, how each was done
    ExerciseQuiet, ExerciseQuietLine, ExerciseNoOwnBeats, ExerciseNoOwnBeatsLine,
    ExerciseEscapeSleeps, ExerciseEscapeSleepsLine, ExerciseHighThreshold, ExerciseHighThresholdLine,
    ExerciseDidNotSee, ExerciseDidNotSeeLine, ExerciseFoundAsynchronous, ExerciseFoundAsynchronousLine,
    ExerciseExtraBeats, ExerciseExtraBeatsLine, ExerciseTWaveSeen, ExerciseTWaveSeenLine,
    ExerciseMinimumCaptures, ExerciseMinimumCapturesLine, ExerciseBlock, ExerciseBlockLine,
    ExerciseWrongChamber, ExerciseWrongChamberLine, ExercisePressureFalls, ExercisePressureFallsLine,
    ExerciseLoosePin, ExerciseLoosePinLine, ExerciseSpikesWithoutBeats, ExerciseSpikesWithoutBeatsLine,
    ExerciseCaptureLost, ExerciseCaptureLostLine, ExerciseShock, ExerciseShockLine,
    ExerciseNoCapture, ExerciseNoCaptureLine,
    VerdictDone, VerdictLate, VerdictMissed, VerdictUnsafe,
    ActMaximumWhereFoundFails, ActOutOfAsynchronous, ActRateStepsWatched, ActRateLimitKept, ActBlindPutRight,
    ActOutputBeforeNumber, ActSpikeAtMinimumHeeded, ActMinimumKeptShort, ActSensingFound,
    ActNumberBeforeOutput, ActOwnRhythmFirst, ActOutputStepsWatched, ActOnlyUpAfterLoss, ActCaptureFound,
    ActBlockHeeded, ActWrongChamberHeeded, ActPressureHeeded, ActOutputFirstInNoBeats, ActMaximumAfterShock,
    ActPausesEnded, ActOutputByRule, ActNumberByRule, ActRateBack, ActDialsRead, ActConfirmed,
    ActAnsweredAsSeen,

    // ---- practice: the patient, its monitor and dials, what the judge found
    Practice, PracticeChoose, PracticeLocked, PracticeNobody, PracticeJudgedBy, PracticeWithCards, PracticeAlone,
    PracticeBackToIt, PracticePause, PracticeGoOn, PracticeEnd, PracticeBreakOff,
    PracticeShockGiven,
    PausedAsked, PausedStall, PausedSleep, PausedRestart, PausedLine,
    AloneTitle, AloneLine, AloneFound, FoundTitle, FoundLine, FoundDone,
    MonitorScale, MonitorPulse, MonitorWords, MonitorKept, MonitorFreeze, MonitorRun, MonitorEarlier, MonitorLater,
    KeyDown, KeyUp, KeySeesMore, KeySeesLess,
    PracticeRuns, PracticeRunsEmpty, RunPassed, RunFailed, RunIsJudged, RunBrokenOff, RunNotJudged,
    RunOfOtherVersion, StripOfOtherVersion,
    CaptureHow, SensingHow, HowExactly, HowAtLeast, HowAtMost, HowBetween, CaptureLow, CaptureLowAbove,
    FoundRead, FoundReadLine,
    PracticeActs, MoreActs, LookAgain, ActJudged { act: Box<Say>, verdict: Box<Say> },
    ActJudgedBecause { act: Box<Say>, verdict: Box<Say>, reason: Box<Say> },
    BecauseWatched { figure: Box<Say>, seconds: String, asked: String },
    BecauseSpikes { figure: Box<Say>, count: String, asked: String }, BecauseBeats { count: String, asked: String },
    BecauseOneTurn { from: Box<Say>, to: Box<Say> }, BecauseAfter { seconds: String },
    BecauseAboveRule, BecauseBelowRule,
    JudgedAt { time: String, output: Box<Say>, rate: Box<Say>, mv: Box<Say> },
    RowActsDone, OneOf { count: String, of: String }, RowWithoutBeats, LongestPause { seconds: String },
    RowSpikesOnT, CapturedOnT { count: String }, RowLasted, MinutesSeconds { time: String },
    TruthNone, TruthIs { truth: Box<Say> }, TruthEqual, TruthWithin { truth: Box<Say> },
    TruthAbove { count: String, truth: Box<Say> }, TruthBelow { count: String, truth: Box<Say> },
    TruthOther { truth: Box<Say> }, TruthNotTested { truth: Box<Say> },
    PractisedAct { judged: Box<Say>, at: Box<Say> },
    PractisedPassed { exercise: Box<Say> }, PractisedNotPassed { exercise: Box<Say> },
    PractisedFound { dial: Box<Say>, said: String, truth: String },
    PractisedWithoutBeats { seconds: String, longest: String }, PractisedOnT { spikes: String, captured: String },
}

/// "OUTPUT", "RATE", "mV".
pub fn dial_name(dial: crate::check::facts::Dial) -> Box<Say> {
    use crate::check::facts::Dial;
    Box::new(match dial {
        Dial::Output => Say::Output,
        Dial::Rate => Say::Rate,
        Dial::Mv => Say::Mv,
    })
}

/// A finished figure as a sentence of its own.
pub fn figure(text: impl Into<String>) -> Say {
    Say::Figure { text: text.into() }
}

/// Control characters, and marks that would turn the reading direction of what follows.
pub fn is_invisible(c: char) -> bool {
    c.is_control() || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A label or name inside a sentence, whatever its reading direction.
pub fn isolated(typed: &str) -> String {
    format!("\u{2068}{typed}\u{2069}")
}
