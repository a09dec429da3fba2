//! Every card set up by hand: what a walk meets seldom or never must read well too.

use domain::check::answer::Line;
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Found, Known, Phase, Row, Why};
use domain::check::step::Step;
use domain::contract::View;
use domain::say::Say;

use crate::wander::Walk;

/// Every step in each of its phases, turned up, down and not at all; every reason and every row.
pub fn every_card(see: &mut impl FnMut(&View<Say>)) {
    for (chamber, generator) in [("ventricle", 0), ("atrium", 1), ("ventricle", 2), ("atrium", 3)] {
        let mut stage = Stage { walk: Walk::into_a_check(chamber, generator), see: &mut *see };
        for &step in Step::ALL.iter().filter(|step| **step != Step::Done) {
            stage.step(step);
        }
        for &why in Why::ALL {
            stage.why(why);
        }
        for &row in Row::ALL {
            stage.show(Facts { step: Step::Restore, row, ..read(Step::Restore) });
        }
    }
}

struct Stage<'s, S> {
    walk: Walk,
    see: &'s mut S,
}

impl<S: FnMut(&View<Say>)> Stage<'_, S> {
    fn show(&mut self, facts: Facts) {
        self.walk.place(facts);
        (self.see)(&self.walk.view());
    }

    fn step(&mut self, step: Step) {
        let dial = dial_of(step);
        for to in [2, 4, 6] {
            for phase in [Phase::Turning, Phase::Watching, Phase::Open] {
                let asks = asks_to_turn(step);
                let facts = read(step);
                self.show(if asks { Facts { dial, to, phase, ..facts } } else { Facts { phase, ..facts } });
            }
        }
        if step == Step::AsynchronousOn {
            self.show(Facts { dial: Dial::Mv, to: ASYNCHRONOUS, phase: Phase::Turning, ..read(step) });
        }
        if step == Step::AsynchronousOff {
            let stand = read(step).stand.with(Dial::Mv, ASYNCHRONOUS);
            self.show(Facts { dial: Dial::Mv, to: 3, phase: Phase::Turning, stand, ..read(step) });
        }
        if step == Step::SetOutput {
            for capture in [Found::Exact, Found::Bracket, Found::AtMost] {
                for (capture_at, to) in [(1, 4), (0, 0), (3, 9), (12, 12)] {
                    self.show(Facts {
                        capture,
                        capture_at,
                        capture_low: 0,
                        dial,
                        to,
                        phase: Phase::Open,
                        ..read(step)
                    });
                }
            }
        }
        if step == Step::SetMv {
            for sensing_at in [0, 3, 9] {
                self.show(Facts {
                    sensing: Found::Exact,
                    sensing_at,
                    saw: sensing_at,
                    dial,
                    to: 2,
                    ..read(step)
                });
            }
        }
    }

    fn why(&mut self, why: Why) {
        let facts = Facts { why_sensing: why, why_capture: why, ..read(Step::OwnBack) };
        self.show(Facts { dial: Dial::Rate, to: 6, phase: Phase::Watching, ..facts });
        self.show(Facts { step: Step::Stays, ..facts });
        self.show(Facts { step: Step::Restore, row: Row::OwnRhythm, ..facts });
    }
}

fn read(step: Step) -> Facts {
    let dials = Dials { output: 4, rate: 4, mv: 4 };
    let before_reading = matches!(
        step,
        Step::SamePatient
            | Step::Order
            | Step::Accept
            | Step::ListFirst
            | Step::ListSecond
            | Step::PulseTrace
            | Step::Standby
            | Step::RightWire
            | Step::WhichLine
            | Step::Blocked
            | Step::ReadFound
    );
    let facts = Facts {
        from: if step == Step::WhichLine { Step::ListFirst } else { Step::OwnDown },
        own_slowest: 104,
        own_fastest: 118,
        touched: true,
        blocked: Some(Line::ExtraBeats),
        found_sees: Known::No,
        saw: 2,
        missed: 5,
        ..Facts::new(step)
    };
    if before_reading { facts } else { Facts { found: dials, stand: dials, ..facts } }
}

fn asks_to_turn(step: Step) -> bool {
    use Step::*;
    matches!(
        step,
        FirstMaximum
            | AsynchronousOff
            | OwnDown
            | BlindRateUp
            | BlindMvDown
            | OwnBack
            | SenseRate
            | SenseMinimum
            | SenseUp
            | SenseDown
            | SenseMvOut
            | SenseOutputOut
            | CaptureRate
            | CaptureDown
            | CaptureBack
            | CaptureUp
            | CaptureRestore
            | CaptureOut
            | CaptureMaximum
            | CaptureRateDown
            | MarginOne
            | MarginHalf
            | MarginBack
            | SetOutput
            | SetRate
            | SetMv
            | NoBeats
            | AfterShock
    )
}

fn dial_of(step: Step) -> Dial {
    use Step::*;
    match step {
        AsynchronousOff | AsynchronousOn | BlindMvDown | SenseUp | SenseDown | SenseMvOut | SetMv => Dial::Mv,
        OwnDown | BlindRateUp | OwnBack | SenseRate | CaptureRate | CaptureRateDown | SetRate => Dial::Rate,
        _ => Dial::Output,
    }
}
