//! The tape, the pen that writes on it, and the letters that it writes.

use super::{Letter, Line, Trace};
use crate::units::{Dimension, Op, Q, Unit};
use std::borrow::Cow;
use std::cell::RefCell;
use std::marker::PhantomData;

/// A letter with its dimension in the type: naming a value by it is the dimension check.
#[derive(Debug)]
pub struct Symbol<D> {
    letter: Letter,
    dimension: PhantomData<fn() -> D>,
}

/// The dimension of a quantity type, for the macros.
pub trait OfDimension {
    /// The dimension.
    type D;
}
impl<D> OfDimension for Q<D> {
    type D = D;
}

impl<D: Dimension> Symbol<D> {
    /// A letter in plain characters, as Typst math and in words, with the unit it is shown in.
    pub const fn new(plain: &'static str, typst: &'static str, words: &'static str, shown: &'static Unit) -> Self {
        Self { letter: Letter { plain, typst, words, exponents: D::EXPONENTS, shown }, dimension: PhantomData }
    }

    /// Gives `value` this letter; the expression behind it becomes a step.
    #[inline(always)]
    pub fn is<T: Trace>(&'static self, value: Q<D, T>, line: Line) -> Q<D, T> {
        value.named(&self.letter, line)
    }
}

impl<D> Symbol<D> {
    /// The letter without its dimension.
    pub const fn letter(&self) -> &Letter {
        &self.letter
    }
}

/// Where a given value comes from and why it is so.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// Clause or table.
    pub reference: Cow<'static, str>,
    /// The reason.
    pub because: Cow<'static, str>,
}

/// Facts by letter. Letters of a code that print alike (the wet service factors of several properties) are kept apart.
#[derive(Clone, Debug, Default)]
pub struct Facts(Vec<(&'static Letter, Fact)>);

impl Facts {
    /// Says where the value with this letter comes from.
    pub fn state<D>(&mut self, symbol: &'static Symbol<D>, reference: impl Into<Cow<'static, str>>, because: impl Into<Cow<'static, str>>) {
        let fact = Fact { reference: reference.into(), because: because.into() };
        match self.0.iter_mut().find(|(letter, _)| std::ptr::eq(*letter, &symbol.letter)) {
            Some((_, known)) => *known = fact,
            None => self.0.push((&symbol.letter, fact)),
        }
    }

    /// Takes over all facts of another list; what it says goes before what is known.
    pub fn extend(&mut self, other: &Self) {
        for (letter, fact) in &other.0 {
            match self.0.iter_mut().find(|(known, _)| std::ptr::eq(*known, *letter)) {
                Some((_, known)) => known.clone_from(fact),
                None => self.0.push((letter, fact.clone())),
            }
        }
    }

    /// The fact behind a letter.
    pub fn of(&self, letter: &Letter) -> Option<&Fact> {
        self.0.iter().find(|(known, _)| std::ptr::eq(*known, letter)).map(|(_, fact)| fact)
    }
}

/// A set of units in which lines are worked: all others of the set follow from its length and its force.
#[derive(Clone, Copy, Debug)]
pub struct Coherent {
    /// Unit of length.
    pub length: &'static Unit,
    /// Unit of force.
    pub force: &'static Unit,
}

#[derive(Clone, Copy, Debug)]
pub(super) enum Node {
    Literal {
        value: f64,
        unit: &'static Unit,
    },
    /// A value with a letter: given, or the result of the step with this number.
    Named {
        letter: &'static Letter,
        value: f64,
        step: Option<usize>,
    },
    One(Op, u32),
    Two(Op, u32, u32),
}

pub(super) struct Written {
    pub letter: &'static Letter,
    pub value: f64,
    pub expression: u32,
    pub line: Line,
}

/// A calculation as it was worked: every operation, every step.
#[derive(Default)]
pub struct Tape {
    pub(super) nodes: RefCell<Vec<Node>>,
    pub(super) steps: RefCell<Vec<Written>>,
}

/// The trace that writes on a tape.
#[derive(Clone, Copy)]
pub struct Pen<'t> {
    tape: &'t Tape,
    node: u32,
}

impl Tape {
    /// An empty tape.
    pub fn new() -> Self {
        Self::default()
    }

    /// Writes a value that the calculation starts from.
    pub fn given<D: Dimension>(&self, symbol: &'static Symbol<D>, value: Q<D>) -> Q<D, Pen<'_>> {
        let node = self.push(Node::Named { letter: &symbol.letter, value: value.value(), step: None });
        value.traced(Pen { tape: self, node })
    }

    fn push(&self, node: Node) -> u32 {
        let mut nodes = self.nodes.borrow_mut();
        nodes.push(node);
        nodes.len() as u32 - 1
    }
}

impl Trace for Pen<'_> {
    fn literal(self, value: f64, unit: &'static Unit) -> Self {
        Self { node: self.tape.push(Node::Literal { value, unit }), ..self }
    }
    fn unary(self, op: Op) -> Self {
        Self { node: self.tape.push(Node::One(op, self.node)), ..self }
    }
    fn binary(self, op: Op, other: Self) -> Self {
        Self { node: self.tape.push(Node::Two(op, self.node, other.node)), ..self }
    }
    fn name(self, letter: &'static Letter, value: f64, line: Line) -> Self {
        let mut steps = self.tape.steps.borrow_mut();
        steps.push(Written { letter, value, expression: self.node, line });
        Self { node: self.tape.push(Node::Named { letter, value, step: Some(steps.len() - 1) }), ..self }
    }
}
