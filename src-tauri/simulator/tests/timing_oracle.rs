//! The timing core against a second model in another style: a clock that ticks, counters that are counted up,
//! and nothing else. Structure and properties: textbook VVI/AAI and VOO/AOO machine.
#![allow(clippy::expect_used, clippy::panic, reason = "a failing test stops")]

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use simulator::{Chamber, Dials, Generator, Sense, Timer};

const MINUTE_US: u64 = 60_000_000;

#[derive(Clone, Copy, Debug)]
enum Input {
    Signal(u32),
    Turn(Dials),
}

/// Inputs in order of time, in ticks; of one tick, signals before turns.
type Inputs = Vec<(u64, Input)>;

/// Tick, letter (Sense, Refractory, Pace), output of a pace.
type Log = Vec<(u64, char, u32)>;

#[test]
fn ten_thousand_lists_on_a_millisecond_clock() {
    let whole_ms_rates = [30, 40, 48, 50, 60, 75, 80, 96, 100, 120, 125, 150, 160, 200];
    agree(10_000, 1_000, 9_000, &whole_ms_rates);
}

#[test]
fn lists_at_rates_without_a_whole_millisecond_on_a_microsecond_clock() {
    agree(40, 1, 2_000_000, &[35, 62, 70, 72, 82, 85, 95, 110, 130, 170]);
}

fn agree(lists: u32, tick_us: u64, length: u64, rates: &[u16]) {
    let mut runner = TestRunner::new(Config::with_cases(lists));
    let case = (any_generator(rates, tick_us), any_inputs(rates, length));
    let outcome = runner.run(&case, |(generator, inputs)| {
        let core = core_log(generator, &inputs, tick_us, length);
        let ticking = ticking_log(generator, &inputs, tick_us, length);
        prop_assert_eq!(core, ticking);
        Ok(())
    });
    outcome.unwrap_or_else(|fault| panic!("{fault}"));
}

fn core_log(generator: Generator, inputs: &Inputs, tick_us: u64, length: u64) -> Log {
    let mut timer = Timer::new(generator, 0).expect("the strategy makes possible generators");
    let mut log = Log::new();
    for &(tick, input) in inputs {
        let now = tick * tick_us;
        match input {
            Input::Signal(uv) => {
                pace_until(&mut timer, now - 1, tick_us, &mut log);
                match timer.sense(uv, now) {
                    Some(Sense::Restarted) => log.push((tick, 'S', 0)),
                    Some(Sense::Refractory) => log.push((tick, 'R', 0)),
                    None => {}
                }
            }
            Input::Turn(dials) => {
                pace_until(&mut timer, now, tick_us, &mut log);
                timer.turn(dials, now).expect("possible dials");
            }
        }
    }
    pace_until(&mut timer, length * tick_us, tick_us, &mut log);
    log
}

fn pace_until(timer: &mut Timer, last_us: u64, tick_us: u64, log: &mut Log) {
    while timer.next_spike_us() <= last_us {
        let now = timer.next_spike_us();
        assert_eq!(now % tick_us, 0, "a pulse off the clock's ticks");
        let output = timer.spike(now);
        log.push((now / tick_us, 'P', output));
    }
}

/// Everything here counts up, once a tick. No instant is ever planned.
struct Ticking {
    dials: Dials,
    since_event: u64,
    since_pulse: u64,
    /// The last event was in this clock's past, not the moment it was switched on.
    ever_reset: bool,
    ever_paced: bool,
    log: Log,
}

fn ticking_log(generator: Generator, inputs: &Inputs, tick_us: u64, length: u64) -> Log {
    let refractory = u64::from(generator.refractory_us) / tick_us;
    let blanking = u64::from(generator.blanking_us) / tick_us;
    let minute = MINUTE_US / tick_us;
    let mut clock = Ticking {
        dials: generator.dials,
        since_event: 0,
        since_pulse: 0,
        ever_reset: false,
        ever_paced: false,
        log: Log::new(),
    };
    let mut waiting = inputs.iter().peekable();
    for tick in 1..=length {
        clock.since_event += 1;
        clock.since_pulse += 1;
        while let Some((_, input)) = waiting.next_if(|(due, _)| *due == tick) {
            match *input {
                Input::Signal(uv) => clock.signal(uv, tick, refractory, blanking),
                Input::Turn(dials) => {
                    clock.pulse_if_due(tick, minute);
                    clock.dials = dials;
                }
            }
        }
        clock.pulse_if_due(tick, minute);
    }
    clock.log
}

impl Ticking {
    fn signal(&mut self, uv: u32, tick: u64, refractory: u64, blanking: u64) {
        let Some(level) = self.dials.sensitivity_uv else {
            return;
        };
        let blanked = self.ever_paced && self.since_pulse < blanking;
        if uv < level || blanked {
            return;
        }
        if self.ever_reset && self.since_event < refractory {
            self.log.push((tick, 'R', 0));
        } else {
            self.log.push((tick, 'S', 0));
            self.since_event = 0;
            self.ever_reset = true;
        }
    }

    fn pulse_if_due(&mut self, tick: u64, minute: u64) {
        if self.since_event < minute / u64::from(self.dials.rate_per_min) {
            return;
        }
        self.log.push((tick, 'P', self.dials.output_micro));
        self.since_event = 0;
        self.since_pulse = 0;
        self.ever_reset = true;
        self.ever_paced = true;
    }
}

fn any_generator(rates: &[u16], tick_us: u64) -> impl Strategy<Value = Generator> + use<> {
    let millis = move |range: std::ops::Range<u32>| range.prop_map(|ms| ms * 1_000);
    let odd = if tick_us == 1 { 0..1_000_u32 } else { 0..1 };
    let port = prop_oneof![Just(Chamber::Atrium), Just(Chamber::Ventricle)];
    (any_dials(rates), millis(150..400), millis(0..150), odd, port).prop_map(
        |(dials, refractory, blanking, odd, port)| Generator {
            power: simulator::Power::Good,
            port,
            refractory_us: refractory + odd,
            blanking_us: blanking,
            pulse_width_us: 1_000,
            dials,
        },
    )
}

fn any_dials(rates: &[u16]) -> impl Strategy<Value = Dials> + use<> {
    let rate = proptest::sample::select(rates.to_vec());
    let sensitivity = prop_oneof![6 => (1..10_u32).prop_map(|mv| Some(mv * 1_000)), 1 => Just(None)];
    (rate, 1..20_u32, sensitivity).prop_map(|(rate_per_min, ma, sensitivity_uv)| Dials {
        rate_per_min,
        output_micro: ma * 1_000,
        sensitivity_uv,
    })
}

/// Beats, T waves and noise in one: signals of any size at any distance, dials turned now and then.
fn any_inputs(rates: &[u16], length: u64) -> impl Strategy<Value = Inputs> + use<> {
    let size = prop_oneof![(0..12_000_u32), (1..10_u32).prop_map(|mv| mv * 1_000)];
    let input = prop_oneof![
        9 => size.prop_map(Input::Signal),
        1 => any_dials(rates).prop_map(Input::Turn),
    ];
    proptest::collection::vec((1..=length, input), 0..40).prop_map(|mut inputs| {
        inputs.sort_by_key(|(tick, input)| (*tick, matches!(input, Input::Turn(_))));
        inputs
    })
}
