//! From values handed in by name to typed quantities and back, so that an entry
//! of the registry is one line of types. No sums here.

use crate::bounds::Refusal;
use crate::dimension::Measured;
use crate::registry::Value;

/// A type that a value can be taken for.
pub(crate) trait Argument: Sized {
    /// What a refusal says is wanted.
    const WANTS: &'static str;
    /// The value as this type, where it is one.
    fn take(value: Value) -> Option<Self>;
    /// This as a value.
    fn give(self) -> Value;
}

impl<Q: Measured> Argument for Q {
    const WANTS: &'static str = "a number";

    fn take(value: Value) -> Option<Self> {
        match value {
            Value::Number(figure) => Some(Self::from_si(figure)),
            Value::Word(_) => None,
        }
    }

    fn give(self) -> Value {
        Value::Number(self.si())
    }
}

/// The arguments of one call, taken in order.
pub(crate) struct Arguments<'a> {
    left: std::slice::Iter<'a, Value>,
}

impl<'a> Arguments<'a> {
    pub(crate) fn of(values: &'a [Value]) -> Self {
        Self {
            left: values.iter(),
        }
    }

    /// The next argument, by the name of its port.
    pub(crate) fn next<A: Argument>(&mut self, name: &'static str) -> Result<A, Refusal> {
        let value = self.left.next().copied();
        value.and_then(A::take).ok_or(Refusal::Argument {
            name,
            wants: A::WANTS,
        })
    }

    /// Refuses what is left over.
    pub(crate) fn end(mut self) -> Result<(), Refusal> {
        match self.left.next() {
            None => Ok(()),
            Some(_) => Err(Refusal::Conflict(
                "more arguments are given than the function takes",
            )),
        }
    }
}

/// A function over values from one over types: the basis, the arguments in the
/// order of the ports and by their names, then the call.
macro_rules! call {
    ($basis:pat, ($($name:ident: $kind:ty),+) => $result:expr) => {
        |$basis, values| {
            let mut arguments = $crate::calling::Arguments::of(values);
            $(let $name: $kind = arguments.next(stringify!($name))?;)+
            arguments.end()?;
            $result.map($crate::calling::Argument::give)
        }
    };
}
pub(crate) use call;

/// An enum whose members have words of their own, usable as an argument.
macro_rules! words {
    ($name:ident, $wants:literal, { $($member:ident = $word:literal),+ $(,)? }) => {
        impl $name {
            /// Every word, in order.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// The word for it.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$member => $word),+ }
            }
        }

        impl $crate::calling::Argument for $name {
            const WANTS: &'static str = $wants;

            fn take(value: $crate::registry::Value) -> Option<Self> {
                match value {
                    $($crate::registry::Value::Word($word) => Some(Self::$member),)+
                    _ => None,
                }
            }

            fn give(self) -> $crate::registry::Value {
                $crate::registry::Value::Word(self.word())
            }
        }
    };
}
pub(crate) use words;
