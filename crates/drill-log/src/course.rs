//! What a log is held against: who drove, and how many places there were.

/// Tankers, fill sites and dump positions of the plan that was drilled.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// The tankers of the plan.
    pub tankers: Vec<CourseTanker>,
    /// Its fill sites, at least one.
    pub sites: Vec<Site>,
    /// How many tankers can dump at once, over all drop tanks.
    pub dump_positions: u32,
}

/// A tanker.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseTanker {
    /// Its name.
    pub name: String,
    /// What it carries, in any unit that is the same for all: fills and dumps of unlike tankers are compared
    /// by it. Above zero.
    pub load: f64,
    /// The fill site it is assigned to, by place in the list.
    pub site: Option<usize>,
}

/// A fill site.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Its name.
    pub name: String,
    /// How many can be hooked up at once, at least 1.
    pub positions: u32,
    /// Whether whoever began first takes all the water, so that the next fills only once it is full.
    pub one_at_a_time: bool,
}
