//! The kinds of what is told of a file: of mistakes, and of what a person should know and need not fix.

/// A closed set of kinds, each with its word in results.
macro_rules! kinds {
    ($(#[$about:meta])* $of:ident { $($(#[$one:meta])* $kind:ident = $word:literal,)* }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $of {
            $($(#[$one])* $kind,)*
        }

        impl $of {
            /// All of them.
            pub const ALL: &'static [$of] = &[$($of::$kind),*];

            /// Its word in results.
            pub fn key(self) -> &'static str {
                match self {
                    $($of::$kind => $word,)*
                }
            }
        }
    };
}

kinds! {
    /// What kind of mistake one is.
    MistakeKind {
        /// The text is not JSON.
        NotJson = "not_json",
        /// The file is of another kind than the one wanted.
        WrongFile = "wrong_file",
        /// A value of another type: text for a number, an object for a list.
        WrongType = "wrong_type",
        /// A list with too few or too many entries.
        WrongLength = "wrong_length",
        /// A key that is not known there.
        UnknownKey = "unknown_key",
        /// A key that is stated twice.
        StatedTwice = "stated_twice",
        /// Something that is needed is not stated.
        Missing = "missing",
        /// Two values that are not stated together, or only together.
        NotTogether = "not_together",
        /// A text that is empty, too long, or holds what no text holds.
        BadText = "bad_text",
        /// A word that is none of the choices.
        NotAChoice = "not_a_choice",
        /// What is no number, or no whole one.
        BadNumber = "bad_number",
        /// A unit that is not known, or of something else.
        WrongUnit = "wrong_unit",
        /// A number beyond its limits.
        OutOfRange = "out_of_range",
        /// A value that fits its field and not another value.
        Conflict = "conflict",
        /// A name that nothing has.
        NoSuchName = "no_such_name",
        /// A name, road or stretch that another has already.
        Taken = "taken",
        /// What cannot work, whatever the numbers.
        CannotWork = "cannot_work",
        /// More than is worked with.
        TooMuch = "too_much",
        /// A change that cannot be made.
        NoSuchChange = "no_such_change",
    }
}

kinds! {
    /// What kind of note one is.
    NoteKind {
        /// A value that nobody means: most often its unit is another one.
        Doubt = "doubt",
        /// Something not stated that counts as nothing, or as what is usual.
        NotStated = "not_stated",
        /// Something stated that has no effect.
        NoEffect = "no_effect",
        /// What the arithmetic behind a value says of it.
        OfTheFacts = "of_the_facts",
        /// Nothing varies: every fire is the same.
        NothingVaries = "nothing_varies",
        /// The reserve is the whole tank.
        AllReserve = "all_reserve",
        /// A long shortage counts as none.
        LongTolerance = "long_tolerance",
        /// Too few intakes for the flow.
        TooFewIntakes = "too_few_intakes",
        /// The draft gives less than is wanted.
        WeakDraft = "weak_draft",
        /// Something or somebody never comes.
        NeverComes = "never_comes",
        /// A department comes whole, and less often than was said of one of its tankers.
        DepartmentComesWhole = "department_comes_whole",
        /// A drop tank that holds less than a load.
        SmallDropTank = "small_drop_tank",
        /// Most of a drop tank cannot be drawn.
        MostlyUnusable = "mostly_unusable",
        /// A tank smaller than the apparatus standard asks.
        SmallTanker = "small_tanker",
        /// Little of a load is delivered.
        LittleDelivered = "little_delivered",
        /// It breaks down often.
        OftenBroken = "often_broken",
        /// It comes when the watch is over.
        ComesTooLate = "comes_too_late",
        /// Hoses and positions take no time.
        HandlesInNoTime = "handles_in_no_time",
        /// All fill sites together give less than is wanted.
        SitesTooWeak = "sites_too_weak",
        /// Nobody fills at a site.
        NobodyFills = "nobody_fills",
        /// A tanker fills once and never again.
        NeverFilledAgain = "never_filled_again",
        /// A speed on the road that is slow or fast.
        Speed = "speed",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_a_word_of_its_own() {
        let mistakes: Vec<&str> = MistakeKind::ALL.iter().map(|kind| kind.key()).collect();
        let notes: Vec<&str> = NoteKind::ALL.iter().map(|kind| kind.key()).collect();
        for words in [mistakes, notes] {
            let mut once = words.clone();
            once.sort_unstable();
            once.dedup();
            assert_eq!(once.len(), words.len(), "{words:?}");
        }
    }
}
