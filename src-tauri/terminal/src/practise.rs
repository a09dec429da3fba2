//! `terminal practise FILE --seed N`: the heart of a scenario, or an exercise, led through a check, and what the
//! monitor showed: `events.csv`, `strip.csv`, `strip.svg`. What a scenario's script does is left out; what happens
//! in an exercise happens, and the run is judged.

mod judged;

use std::path::Path;

use practice::{Entry, Exercise, Fault, Run};
use proof::{Case, Shift, play, replay};
use simulator::Event;
use simulator::strip::{Batch, SAMPLE_US};

use crate::beside;
use crate::scenario::{Ready, reading};
use crate::svg::{Drawing, point, put};

/// 25 mm/s and 10 mm/mV, in rows of ten seconds.
const MM_PER_S: f64 = 25.0;
const MM_PER_MV: f64 = 10.0;
const ROW_S: f64 = 10.0;
const ROW_MM: f64 = 40.0;

/// The three files, as text.
#[derive(Debug, Default)]
pub struct Practised {
    pub events: String,
    pub strip: String,
    pub svg: String,
}

/// # Errors
/// The scenario's heart and generator do not fit together.
pub fn practise(ready: &Ready, seed: u64) -> Result<Practised, String> {
    let case = case(ready, seed).map_err(|fault| fault.to_string())?;
    let played = play(&case).map_err(|stuck| stuck.to_string())?;
    let mut rows = Rows::default();
    let mut practised = Practised::begun();
    replay(&case, &played, &mut |batch, events| {
        events.iter().for_each(|event| practised.event(*event));
        practised.samples(batch);
        rows.add(batch);
    })
    .map_err(|puzzled| puzzled.to_string())?;
    practised.svg = rows.svg();
    Ok(practised)
}

/// The exercise in a file; `None` where it is a scenario, which alone has a title, or cannot be read.
pub fn exercise_in(file: &Path) -> Option<Result<Exercise, Fault>> {
    let text = std::fs::read_to_string(file).ok()?;
    let named: serde_json::Value = serde_json::from_str(&text).ok()?;
    (named.get("title").is_none() && named.get("id").is_some()).then(|| {
        Exercise::from_json_beside(&text, &|name| beside::read(file, name).map_err(|fault| fault.to_string()))
    })
}

/// The files, and the judgement in words.
///
/// # Errors
/// The exercise and the check do not fit together.
pub fn exercise(exercise: &Exercise, seed: u64) -> Result<(Practised, String), String> {
    let run = proof::practise(exercise, seed).map_err(|stuck| stuck.to_string())?;
    let judgement = practice::judge(exercise, seed, &run.entries).map_err(|fault| fault.to_string())?;
    let practised = strip(exercise, seed, &run.entries).map_err(|fault| fault.to_string())?;
    Ok((practised, judged::told(&exercise.profile, &judgement)))
}

fn strip(exercise: &Exercise, seed: u64, entries: &[Entry]) -> Result<Practised, Fault> {
    let mut run = Run::new(exercise, seed)?;
    let (mut rows, mut practised) = (Rows::default(), Practised::begun());
    for entry in entries {
        while run.now_us() < entry.at_us() {
            let batch = run.next_batch()?;
            run.events().iter().for_each(|event| practised.event(*event));
            practised.samples(&batch);
            rows.add(&batch);
        }
        if let Entry::Turned { dial, to, .. } = entry {
            run.turn(*dial, *to)?;
        }
    }
    practised.svg = rows.svg();
    Ok(practised)
}

fn case(ready: &Ready, seed: u64) -> Result<Case, Fault> {
    let scenario = &ready.scenario;
    Ok(Case {
        seed,
        port: scenario.chamber.simulated(),
        profile: ready.profile.clone(),
        rules: ready.rules.clone(),
        heart: scenario.heart.loaded()?.heart(scenario.chamber, &ready.profile),
        found: reading(&scenario.found),
        plain: false,
        shift: Shift::default(),
    })
}

impl Practised {
    /// The headings alone.
    fn begun() -> Practised {
        Practised {
            events: "at_us,what\n".to_owned(),
            strip: "at_us,ecg_uV,pulse_mmHg\n".to_owned(),
            svg: String::new(),
        }
    }

    /// # Errors
    /// A file cannot be written.
    pub fn write_into(&self, folder: &Path) -> std::io::Result<()> {
        std::fs::create_dir_all(folder)?;
        std::fs::write(folder.join("events.csv"), &self.events)?;
        std::fs::write(folder.join("strip.csv"), &self.strip)?;
        std::fs::write(folder.join("strip.svg"), &self.svg)
    }

    fn event(&mut self, event: Event) {
        let what = format!("{:?}", event.what).replace(',', ";");
        put(&mut self.events, format_args!("{},{what}\n", event.at_us));
    }

    fn samples(&mut self, batch: &Batch) {
        for (at_us, (ecg, pulse)) in
            (batch.at_us()..).step_by(SAMPLE_US as usize).zip(batch.ecg.iter().zip(&batch.pulse))
        {
            put(&mut self.strip, format_args!("{at_us},{ecg},{pulse}\n"));
        }
    }
}

/// Polylines, one a row.
#[derive(Debug, Default)]
struct Rows(Vec<String>);

impl Rows {
    fn add(&mut self, batch: &Batch) {
        for (at_us, ecg) in (batch.at_us()..).step_by(SAMPLE_US as usize).zip(batch.ecg) {
            let seconds = at_us as f64 / 1e6;
            let row = (seconds / ROW_S) as usize;
            if self.0.len() <= row {
                self.0.resize(row + 1, String::new());
            }
            let (x, y) = ((seconds - row as f64 * ROW_S) * MM_PER_S, -f64::from(ecg) / 1_000.0 * MM_PER_MV);
            point(&mut self.0[row], (x, y));
        }
    }

    fn svg(&self) -> String {
        let mut drawing = Drawing::begun(ROW_S * MM_PER_S, self.0.len() as f64 * ROW_MM);
        for (row, points) in self.0.iter().enumerate() {
            drawing.polyline((row as f64 + 0.6) * ROW_MM, "", points);
        }
        drawing.end()
    }
}
