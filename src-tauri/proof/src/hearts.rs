//! Random hearts: half of them free of scatter, so that what the check finds can be compared with what is so.

use domain::units::OutputUnit;
use simulator::{
    AtrialRhythm, Capture, Chamber, Conduction, Escape, ExtraBeats, Heart, Lead, Noise, Pressure, Signal,
    Standstill, Suppression, Vulnerable, interval_us,
};

use crate::draw::Draw;

/// A heart for a wire in `port`. `plain`: nothing of it is left to chance.
pub fn heart(draw: &mut Draw, port: Chamber, unit: OutputUnit, plain: bool) -> Heart {
    let mut heart = rhythm(draw, plain);
    heart.wire = if !plain && draw.percent(3) { other(port) } else { port };
    heart.signal = signal(draw, port, plain);
    heart.capture = capture(draw, plain, unit);
    heart.pressure = pressure(draw);
    heart.refractory_us = draw.between(200, 280) * 1_000;
    heart.vulnerable = draw.percent(50).then_some(Vulnerable {
        from_us: heart.refractory_us,
        until_us: 380_000,
        one_in: 1,
        wave_uv: 1_500,
    });
    if !plain {
        trouble(draw, &mut heart);
    }
    heart.pressure.delay_us = heart.pressure.delay_us.min(heart.refractory_us);
    heart
}

fn other(chamber: Chamber) -> Chamber {
    match chamber {
        Chamber::Atrium => Chamber::Ventricle,
        Chamber::Ventricle => Chamber::Atrium,
    }
}

fn rhythm(draw: &mut Draw, plain: bool) -> Heart {
    let per_minute = |draw: &mut Draw, least, most| u16::try_from(draw.between(least, most)).unwrap_or(60);
    match draw.between(0, 19) {
        0..=10 => {
            let conduction = Conduction {
                delay_us: draw.between(120, 240) * 1_000,
                recovery_us: interval_us(per_minute(draw, 95, 190)),
                retrograde: true,
            };
            Heart { conduction: Some(conduction), ..Heart::sinus(per_minute(draw, 42, 125)) }
        }
        11..=15 => escaping(draw, per_minute),
        16 | 17 if !plain => {
            let (slowest, fastest) = (per_minute(draw, 45, 80), per_minute(draw, 85, 150));
            let atrium = AtrialRhythm::Fibrillating {
                fastest_us: interval_us(fastest),
                slowest_us: interval_us(slowest),
                wave_uv: draw.between(0, 1_500),
            };
            Heart { atrium, ..Heart::default() }
        }
        18 => Heart::silent(),
        _ => Heart { conduction: None, ..Heart::sinus(per_minute(draw, 50, 110)) },
    }
}

fn escaping(draw: &mut Draw, per_minute: impl Fn(&mut Draw, u32, u32) -> u16) -> Heart {
    let suppression = draw.percent(50).then(|| Suppression {
        longest_us: draw.between(1, 50) * 100_000,
        builds_over_beats: draw.between(2, 40),
        wakes_over_beats: draw.between(1, 8),
    });
    let interval_us = interval_us(per_minute(draw, 24, 75));
    let escape = Escape { interval_us, scatter_us: 0, suppression };
    Heart { escape: Some(escape), ..Heart::escaping(60) }
}

fn signal(draw: &mut Draw, port: Chamber, plain: bool) -> Signal {
    let own_uv = match port {
        Chamber::Atrium => draw.between(3, 60) * 100,
        Chamber::Ventricle => draw.between(8, 180) * 100,
    };
    let most = if plain { own_uv / 4 } else { own_uv };
    Signal {
        own_uv,
        t_wave_uv: draw.between(0, most.min(4_000)),
        t_wave_delay_us: draw.between(290, 360) * 1_000,
        far_field_uv: draw.between(0, most.min(1_500)),
        ..Signal::default()
    }
}

/// Thresholds up to 14 mA or V, up to 30 % apart.
fn capture(draw: &mut Draw, plain: bool, unit: OutputUnit) -> Capture {
    let tenths = if draw.percent(80) { draw.between(5, 45) } else { draw.between(1, 140) };
    let down = tenths * unit.scale() / 10;
    let up = down + down * draw.between(0, 30) / 100;
    let scatter_micro = if !plain && draw.percent(20) { down * draw.between(1, 10) / 100 } else { 0 };
    Capture { going_down_micro: down, going_up_micro: up, scatter_micro, ..Capture::default() }
}

fn pressure(draw: &mut Draw) -> Pressure {
    let paced_mmhg = if draw.percent(8) { draw.between(40, 75) } else { draw.between(85, 125) };
    Pressure { paced_mmhg: u16::try_from(paced_mmhg).unwrap_or(100), ..Pressure::default() }
}

fn trouble(draw: &mut Draw, heart: &mut Heart) {
    if draw.percent(15) {
        heart.signal.own_scatter_uv = heart.signal.own_uv * draw.between(1, 20) / 100;
        heart.signal.breath_uv = heart.signal.own_uv * draw.between(0, 15) / 100;
    }
    if draw.percent(12) {
        heart.extra = Some(ExtraBeats {
            chamber: heart.wire,
            one_in: draw.between(5, 60),
            coupling_us: draw.between(330, 600) * 1_000,
            signal_uv: draw.between(5, 90) * 100,
        });
    }
    if draw.percent(8) {
        let (after_own_beats, lasts_us) = (draw.between(5, 120), draw.between(3, 30) * 1_000_000);
        heart.standstill = Some(Standstill { after_own_beats, lasts_us });
    }
    if draw.percent(6) {
        heart.noise = Some(Noise::loose_pin(draw.between(1, 20) * 500));
    }
    if draw.percent(10) {
        heart.spikes_seen_from_micro = draw.between(1, 20) * 100;
    }
}

/// What else is left to chance: a rhythm that varies, a signal that drifts, a lead that lets go, muscle that
/// shivers, another device, a T wave that is not always dangerous.
pub fn unrest(draw: &mut Draw, heart: &mut Heart, plain: bool) {
    if plain {
        return;
    }
    if let (AtrialRhythm::Sinus { interval_us, scatter_us }, true) = (&mut heart.atrium, draw.percent(20)) {
        *scatter_us = *interval_us * draw.between(1, 15) / 100;
    }
    if let (Some(escape), true) = (&mut heart.escape, draw.percent(25)) {
        escape.scatter_us = escape.interval_us * draw.between(1, 15) / 100;
    }
    if draw.percent(10) {
        let drift = i32::try_from(heart.signal.own_uv * draw.between(1, 50) / 100).unwrap_or(0);
        heart.signal.drift_uv_per_hour = if draw.percent(70) { -drift } else { drift };
    }
    if let (Some(vulnerable), true) = (&mut heart.vulnerable, draw.percent(40)) {
        vulnerable.one_in = draw.between(2, 50);
    }
    heart.lead = match draw.between(1, 100) {
        1 => Lead::Lost,
        2..=5 => Lead::Intermittent {
            sound_us: draw.between(2, 60) * 1_000_000,
            broken_us: draw.between(1, 60) * 100_000,
        },
        _ => Lead::Sound,
    };
    if heart.noise.is_none() {
        let peak_uv = draw.between(1, 16) * 500;
        heart.noise = match draw.between(1, 100) {
            1..=4 => Some(Noise::shivering(peak_uv)),
            5..=8 => Some(Noise::burst(peak_uv)),
            _ => None,
        };
    }
}
