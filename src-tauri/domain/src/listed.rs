//! An enum that knows all of its variants: no list of them can forget one.

macro_rules! listed {
    ($(#[$meta:meta])* pub enum $name:ident { $($(#[$of:meta])* $variant:ident,)* }) => {
        $(#[$meta])*
        pub enum $name { $($(#[$of])* $variant,)* }

        impl $name {
            pub const ALL: &[$name] = &[$($name::$variant),*];
        }
    };
}

pub(crate) use listed;
