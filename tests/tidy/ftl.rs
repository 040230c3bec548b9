//! The words of `en.ftl` as messages with the arguments they name.

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::ast::{
    CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement,
};
use fluent_syntax::parser::parse;

use crate::sources::Source;

/// Each message with the arguments and other messages that it names.
#[derive(Default)]
pub struct Texts {
    pub arguments: BTreeMap<String, BTreeSet<String>>,
    pub referred: BTreeSet<String>,
    pub faults: Vec<String>,
}

/// Reads a file of texts; what cannot be read is a fault.
pub fn read(source: &Source) -> Texts {
    let mut texts = Texts::default();
    let resource = match parse(source.text.as_str()) {
        Ok(resource) => resource,
        Err((resource, faults)) => {
            for fault in faults {
                let line = source.text[..fault.pos.start].lines().count().max(1);
                texts.faults.push(source.at(line, fault));
            }
            resource
        }
    };
    for entry in &resource.body {
        let Entry::Message(message) = entry else {
            continue;
        };
        let mut names = BTreeSet::new();
        let attributes = message.attributes.iter().map(|attribute| &attribute.value);
        for pattern in message.value.iter().chain(attributes) {
            read_pattern(pattern, &mut names, &mut texts.referred);
        }
        let key = message.id.name.to_owned();
        if texts.arguments.insert(key.clone(), names).is_some() {
            texts
                .faults
                .push(source.at(1, format!("{key} stands there twice")));
        }
    }
    texts
}

fn read_pattern(
    pattern: &Pattern<&str>,
    names: &mut BTreeSet<String>,
    referred: &mut BTreeSet<String>,
) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            read_expression(expression, names, referred);
        }
    }
}

fn read_expression(
    expression: &Expression<&str>,
    names: &mut BTreeSet<String>,
    referred: &mut BTreeSet<String>,
) {
    match expression {
        Expression::Inline(inline) => read_inline(inline, names, referred),
        Expression::Select { selector, variants } => {
            read_inline(selector, names, referred);
            for variant in variants {
                read_pattern(&variant.value, names, referred);
            }
        }
    }
}

fn read_inline(
    inline: &InlineExpression<&str>,
    names: &mut BTreeSet<String>,
    referred: &mut BTreeSet<String>,
) {
    let mut within = |arguments: &CallArguments<&str>| {
        let named = arguments.named.iter().map(|argument| &argument.value);
        for argument in arguments.positional.iter().chain(named) {
            read_inline(argument, names, referred);
        }
    };
    match inline {
        InlineExpression::VariableReference { id } => {
            names.insert(id.name.to_owned());
        }
        InlineExpression::MessageReference { id, .. } => {
            referred.insert(id.name.to_owned());
        }
        InlineExpression::FunctionReference { arguments, .. } => within(arguments),
        InlineExpression::TermReference { arguments, .. } => {
            if let Some(arguments) = arguments {
                within(arguments);
            }
        }
        InlineExpression::Placeable { expression } => read_expression(expression, names, referred),
        InlineExpression::StringLiteral { .. } | InlineExpression::NumberLiteral { .. } => {}
    }
}
