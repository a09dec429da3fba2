//! The same for the forms a card can take.

use super::{each, maybe, texts};
use crate::contract::{
    Ask, BedRow, Beds, Chart, Choice, Code, Field, Form, Item, List, Outcome, Row, Shape, Trend, Turn,
};

impl<T> Shape<T> {
    pub(super) fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Shape<U>, E> {
        Ok(match self {
            Shape::Turn(turn) => Shape::Turn(turn.try_map(say)?),
            Shape::Ask(ask) => Shape::Ask(ask.try_map(say)?),
            Shape::List(list) => Shape::List(list.try_map(say)?),
            Shape::Form(form) => Shape::Form(form.try_map(say)?),
            Shape::Result(outcome) => Shape::Result(outcome.try_map(say)?),
            Shape::Code(code) => Shape::Code(code.try_map(say)?),
            Shape::Chart(trend) => Shape::Chart(trend.try_map(say)?),
            Shape::Beds(beds) => Shape::Beds(beds.try_map(say)?),
        })
    }
}

impl<T> Turn<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Turn<U>, E> {
        Ok(Turn {
            instruction: say(&self.instruction)?,
            figure: say(&self.figure)?,
            unit: say(&self.unit)?,
            from: maybe(&self.from, &mut *say)?,
            hint: maybe(&self.hint, &mut *say)?,
            reason: maybe(&self.reason, &mut *say)?,
            scale: maybe(&self.scale, |scale| scale.try_map(say))?,
            question: say(&self.question)?,
            watch: maybe(&self.watch, |watch| watch.try_map(say))?,
            others: each(&self.others, |small| small.try_map(say))?,
        })
    }
}

impl<T> Ask<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Ask<U>, E> {
        Ok(Ask {
            question: say(&self.question)?,
            lines: texts(&self.lines, say)?,
            reason: maybe(&self.reason, &mut *say)?,
            watch: maybe(&self.watch, |watch| watch.try_map(say))?,
            scale: maybe(&self.scale, |scale| scale.try_map(say))?,
            others: each(&self.others, |small| small.try_map(say))?,
        })
    }
}

impl<T> List<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<List<U>, E> {
        Ok(List {
            instruction: say(&self.instruction)?,
            items: each(&self.items, |item| item.try_map(say))?,
            note: maybe(&self.note, say)?,
        })
    }
}

impl<T> Item<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Item<U>, E> {
        Ok(Item {
            number: self.number,
            text: say(&self.text)?,
            figure: maybe(&self.figure, &mut *say)?,
            unit: maybe(&self.unit, say)?,
            large: self.large,
        })
    }
}

impl<T> Form<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Form<U>, E> {
        Ok(Form {
            question: say(&self.question)?,
            lines: texts(&self.lines, say)?,
            fields: each(&self.fields, |field| field.try_map(say))?,
        })
    }
}

impl<T> Field<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Field<U>, E> {
        Ok(Field {
            id: self.id.clone(),
            label: say(&self.label)?,
            unit: maybe(&self.unit, &mut *say)?,
            kind: self.kind,
            value: self.value.clone(),
            error: maybe(&self.error, &mut *say)?,
            choices: each(&self.choices, |choice| choice.try_map(say))?,
            max_chars: self.max_chars,
        })
    }
}

impl<T> Choice<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Choice<U>, E> {
        Ok(Choice {
            value: self.value.clone(),
            label: say(&self.label)?,
            chosen: self.chosen,
            act: maybe(&self.act, |act| act.try_map(say))?,
        })
    }
}

impl<T> Outcome<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Outcome<U>, E> {
        Ok(Outcome {
            headline: say(&self.headline)?,
            rows: each(&self.rows, |row| row.try_map(say))?,
            scales: each(&self.scales, |scale| scale.try_map(say))?,
            flags: texts(&self.flags, say)?,
            note: maybe(&self.note, say)?,
        })
    }
}

impl<T> Row<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Row<U>, E> {
        Ok(Row { label: say(&self.label)?, value: say(&self.value)?, note: maybe(&self.note, say)? })
    }
}

impl<T> Code<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Code<U>, E> {
        Ok(Code {
            across: self.across,
            modules: self.modules.clone(),
            rows: each(&self.rows, |row| row.try_map(say))?,
            note: say(&self.note)?,
        })
    }
}

impl<T> Trend<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Trend<U>, E> {
        Ok(Trend {
            headline: say(&self.headline)?,
            charts: each(&self.charts, |chart| chart.try_map(say))?,
            rows: each(&self.rows, |row| row.try_map(say))?,
        })
    }
}

impl<T> Chart<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Chart<U>, E> {
        let at =
            |(height, text): &(f32, T), say: &mut dyn FnMut(&T) -> Result<U, E>| Ok((*height, say(text)?));
        Ok(Chart {
            title: say(&self.title)?,
            line: self.line.clone(),
            steps: self.steps.clone(),
            set: maybe(&self.set, |set| at(set, say))?,
            last: maybe(&self.last, &mut *say)?,
            marks: each(&self.marks, |mark| at(mark, say))?,
            days: maybe(&self.days, |(from, to)| Ok((say(from)?, say(to)?)))?,
            words: say(&self.words)?,
        })
    }
}

impl<T> Beds<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<Beds<U>, E> {
        Ok(Beds { rows: each(&self.rows, |row| row.try_map(say))?, empty: say(&self.empty)? })
    }
}

impl<T> BedRow<T> {
    fn try_map<U, E>(&self, say: &mut impl FnMut(&T) -> Result<U, E>) -> Result<BedRow<U>, E> {
        Ok(BedRow {
            title: say(&self.title)?,
            due: maybe(&self.due, &mut *say)?,
            urgent: self.urgent,
            lines: texts(&self.lines, say)?,
            chart: maybe(&self.chart, |chart| chart.try_map(say))?,
            open: self.open.try_map(say)?,
        })
    }
}
