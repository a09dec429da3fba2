use domain::say::Say;

/// One of the three dials, as the card names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dial {
    Output,
    Rate,
    Mv,
}

impl Dial {
    pub const ALL: [Dial; 3] = [Dial::Output, Dial::Rate, Dial::Mv];

    /// As on the generator.
    pub fn name(self) -> &'static str {
        match self {
            Dial::Output => "OUTPUT",
            Dial::Rate => "RATE",
            Dial::Mv => "mV",
        }
    }

    /// The dial a sentence names.
    pub fn named(said: &Say) -> Option<Dial> {
        Dial::ALL.into_iter().find(|dial| dial.said() == *said)
    }

    fn said(self) -> Say {
        match self {
            Dial::Output => Say::Output,
            Dial::Rate => Say::Rate,
            Dial::Mv => Say::Mv,
        }
    }
}

/// The three dials as printed beside their pointers. `mv` is `None` where the dial stands at asynchronous.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    pub output: String,
    pub rate: String,
    pub mv: Option<String>,
}
