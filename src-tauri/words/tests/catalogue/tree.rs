//! The catalogue files as syntax trees.

use std::collections::BTreeSet;
use std::path::Path;

use fluent_syntax::ast::{CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser::parse;

/// One message of the English catalogue.
#[derive(Default)]
pub struct Message {
    pub room: String,
    pub name: String,
    pub args: BTreeSet<String>,
    pub functions: BTreeSet<String>,
    /// Its text without the arguments, all plural forms one after the other.
    pub text: String,
    pub attributes: usize,
}

pub fn english() -> Vec<Message> {
    rooms().into_iter().flat_map(|(room, text)| messages(&room, &text)).collect()
}

fn rooms() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("english");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let read = |path: &std::path::PathBuf| {
        (path.file_name().unwrap().display().to_string(), std::fs::read_to_string(path).unwrap())
    };
    paths.iter().map(read).collect()
}

fn messages(room: &str, text: &str) -> Vec<Message> {
    let tree = parse(text).unwrap_or_else(|(_, faults)| panic!("{room}: {faults:?}"));
    let mut found = Vec::new();
    for entry in &tree.body {
        match entry {
            Entry::Message(message) => {
                let mut read =
                    Message { room: room.into(), name: message.id.name.into(), ..Message::default() };
                read.attributes = message.attributes.len();
                pattern(message.value.as_ref().unwrap_or_else(|| panic!("{}: empty", read.name)), &mut read);
                found.push(read);
            }
            Entry::Comment(_) | Entry::GroupComment(_) | Entry::ResourceComment(_) => {}
            Entry::Term(_) | Entry::Junk { .. } => panic!("{room}: {entry:?}"),
        }
    }
    found
}

fn pattern(pattern_of: &Pattern<&str>, read: &mut Message) {
    for element in &pattern_of.elements {
        match element {
            PatternElement::TextElement { value } => read.text.push_str(value),
            PatternElement::Placeable { expression } => expression_in(expression, read),
        }
    }
}

fn expression_in(expression: &Expression<&str>, read: &mut Message) {
    match expression {
        Expression::Inline(inline) => inline_in(inline, read),
        Expression::Select { selector, variants } => {
            inline_in(selector, read);
            for variant in variants {
                read.text.push('\n');
                pattern(&variant.value, read);
            }
        }
    }
}

fn inline_in(inline: &InlineExpression<&str>, read: &mut Message) {
    match inline {
        InlineExpression::VariableReference { id } => {
            // Keeps the words on both sides apart.
            read.text.push('#');
            read.args.insert(id.name.into());
        }
        InlineExpression::FunctionReference { id, arguments } => {
            read.functions.insert(id.name.into());
            arguments_in(arguments, read);
        }
        InlineExpression::Placeable { expression } => expression_in(expression, read),
        InlineExpression::StringLiteral { value } => read.text.push_str(value),
        InlineExpression::NumberLiteral { value } => read.text.push_str(value),
        InlineExpression::MessageReference { id, .. } | InlineExpression::TermReference { id, .. } => {
            panic!("{}: leans on {}, a sentence stands alone", read.name, id.name)
        }
    }
}

fn arguments_in(arguments: &CallArguments<&str>, read: &mut Message) {
    for inline in &arguments.positional {
        inline_in(inline, read);
    }
}
