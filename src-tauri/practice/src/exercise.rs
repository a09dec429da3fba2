//! An exercise, read and found possible.

use domain::check::facts::Dials;
use domain::practice::ExerciseId;
use domain::profile::{Profile, shipped};
use domain::rules::{Chamber, Rules};
use sha2::{Digest, Sha256};
use simulator::{AtrialRhythm, Generator, Heart, Patient, Truth};

use crate::fault::Fault;
use crate::file::{
    Beside, ChamberName, ExerciseFile, LoadedHeart, MeasurableFile, Moved, Varies, VariesFile,
};
use crate::happening::Happenings;

/// Built only from a file, so that its heart can beat and its dials have the positions named. The patient of a run is
/// drawn from it by the seed.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Exercise {
    pub id: ExerciseId,
    /// SHA-256 of the file's text and of what was read with it, in hexadecimal.
    pub hash: String,
    /// The wire's label, and the port it is plugged into.
    pub chamber: Chamber,
    pub profile: Profile,
    pub rules: Rules,
    pub found: Dials,
    heart: LoadedHeart,
    varies: Varies,
    pub(crate) label: ChamberName,
    pub(crate) measurable: MeasurableFile,
    happenings: Happenings,
}

impl Exercise {
    /// # Errors
    /// The first thing that makes the exercise impossible: where, what stands there, what is allowed.
    pub fn from_json(text: &str) -> Result<Exercise, Fault> {
        Exercise::from_json_beside(text, &|_| {
            Err("only a CSV written out in the exercise can be read here".to_owned())
        })
    }

    /// As [`Exercise::from_json`], with recordings that lie beside it.
    ///
    /// # Errors
    /// As [`Exercise::from_json`].
    pub fn from_json_beside(text: &str, beside: Beside<'_>) -> Result<Exercise, Fault> {
        let mut file: ExerciseFile = domain::document::from_json(text).map_err(Fault::File)?;
        if !file.invented {
            return Err(Fault::NotInvented);
        }
        let recordings = file.load(beside)?;
        let profile = generator(&file.generator)?;
        let found = file.found.positions(&profile).map_err(|fault| fault.within("found"))?;
        file.heart.check().map_err(|fault| fault.within("heart"))?;
        let heart = file.heart.loaded().map_err(|fault| fault.within("heart"))?;
        let happenings = Happenings::read(&file, &heart, &profile)?;
        let mut exercise = Exercise {
            id: file.id,
            hash: hash(text, &recordings),
            chamber: file.chamber.of_wire(),
            rules: rules(&file.rules)?,
            found,
            heart,
            varies: Varies::default(),
            label: file.chamber,
            measurable: file.measurable,
            happenings,
            profile,
        };
        exercise.heart.can_beat(exercise.label, &exercise.profile, "heart")?;
        if let Some(varies) = file.varies {
            exercise.varies = exercise.read(varies).map_err(|fault| fault.within("varies"))?;
        }
        exercise.patient(0).map(|_| exercise)
    }

    fn read(&self, varies: VariesFile) -> Result<Varies, Fault> {
        let recorded = |heart: &Heart| match &heart.atrium {
            AtrialRhythm::Recorded(recording) => recording.signals_uv().is_some(),
            AtrialRhythm::Silent | AtrialRhythm::Sinus { .. } | AtrialRhythm::Fibrillating { .. } => false,
        };
        if varies.signal.is_some() && self.hearts(Moved::default()).iter().any(recorded) {
            return Err(Fault::RecordedSignal { place: "signal".to_owned() });
        }
        let beats = |moved| self.hearts(moved).iter().all(|heart| heart.validate().is_ok());
        varies.read(&self.profile, beats)
    }

    /// All that a run may meet.
    fn hearts(&self, moved: Moved) -> Vec<Heart> {
        let later = self.happenings.moved(moved).hearts().into_iter().map(|(_, heart)| heart);
        [self.heart.moved(moved).heart(self.label, &self.profile)].into_iter().chain(later).collect()
    }

    /// The heart that this seed draws, at the beginning.
    pub fn heart(&self, seed: u64) -> Heart {
        self.heart.moved(self.varies.drawn(seed)).heart(self.label, &self.profile)
    }

    /// What a perfect test would find at the beginning, in the heart's own units.
    pub fn truth(&self, seed: u64) -> Truth {
        Truth::of(&self.heart(seed), self.profile.pulse_width_us)
    }

    /// What happens by itself to that heart, from the beginning: also for whoever plays it at another bedside.
    pub fn happenings(&self, seed: u64) -> Happenings {
        self.happenings.moved(self.varies.drawn(seed))
    }

    /// The port the wire is plugged into.
    pub fn port(&self) -> simulator::Chamber {
        self.label.simulated()
    }

    pub(crate) fn patient(&self, seed: u64) -> Result<Patient, Fault> {
        let dials = simulated(&self.profile, self.found);
        let pulse_width_us = self.profile.pulse_width_us;
        let generator = Generator { port: self.port(), pulse_width_us, ..Generator::ventricular(dials) };
        let unit = self.profile.output_unit();
        Patient::new(self.heart(seed), generator, seed).map_err(|why| Fault::Heart {
            place: "heart".to_owned(),
            why,
            unit,
        })
    }
}

/// The dials as the simulated generator knows them.
pub(crate) fn simulated(profile: &Profile, dials: Dials) -> simulator::Dials {
    let numbered = dials.mv <= profile.mv_last();
    simulator::Dials {
        rate_per_min: profile.rate_at(dials.rate),
        output_micro: profile.output_at(dials.output),
        sensitivity_uv: numbered.then(|| profile.mv_at(dials.mv)),
    }
}

fn generator(named: &str) -> Result<Profile, Fault> {
    let known = shipped().map_err(|(file, fault)| Fault::Shipped {
        file: file.to_owned(),
        fault: Box::new(Fault::Generator(fault)),
    })?;
    let names = known.iter().map(|profile| profile.id.clone()).collect();
    let found = known.into_iter().find(|profile| profile.id == named);
    found.ok_or_else(|| Fault::NoSuchGenerator { named: named.to_owned(), known: names })
}

fn rules(named: &str) -> Result<Rules, Fault> {
    match named {
        "example" => Ok(Rules::example()),
        other => Err(Fault::NoSuchRules { named: other.to_owned() }),
    }
}

fn hash(text: &str, recordings: &[String]) -> String {
    let mut hash = Sha256::new_with_prefix(text);
    recordings.iter().for_each(|recording| hash.update(recording));
    hex(&hash.finalize())
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
