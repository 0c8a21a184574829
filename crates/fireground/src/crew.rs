//! How many people a hauled supply ties up.

/// People for each piece of work. All are common practice and for the chief to change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CrewSizes {
    /// On each tanker: a driver, and one who spots while it backs.
    pub tanker: u32,
    /// At each fill site, to connect and disconnect.
    pub fill_site: u32,
    /// At the dump site, to place tankers and tend the drop tanks.
    pub dump_site: u32,
    /// At each pump that runs.
    pub pump: u32,
    /// Who runs the water supply.
    pub officer: u32,
}

impl Default for CrewSizes {
    /// Two a tanker, two at each fill site, two at the dump site, one at each pump, one in charge: common
    /// practice.
    fn default() -> CrewSizes {
        CrewSizes { tanker: 2, fill_site: 2, dump_site: 2, pump: 1, officer: 1 }
    }
}

/// What a plan has to be staffed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Posts {
    /// Tankers on the road.
    pub tankers: u32,
    /// Fill sites in use.
    pub fill_sites: u32,
    /// Pumps at the fill sites.
    pub fill_pumps: u32,
    /// Dump sites.
    pub dump_sites: u32,
    /// Pumps at the fire: the attack engine's and the supply engine's.
    pub fire_pumps: u32,
}

/// People by place. Those on the attack lines and their relief come on top.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct People {
    /// On the road.
    pub road: u64,
    /// At the fill sites, with their pumps.
    pub fill: u64,
    /// At the dump site.
    pub dump: u64,
    /// At the pumps at the fire.
    pub pumps: u64,
    /// In charge of the water supply.
    pub officer: u64,
}

impl People {
    /// All of them.
    pub fn total(&self) -> u64 {
        self.road + self.fill + self.dump + self.pumps + self.officer
    }
}

/// People that a hauled supply needs.
///
/// - Given: `posts`, what is to be staffed; `sizes`, how many each takes.
/// - Returns: people by place ([`People`]): each post times its crew.
/// - Source: common practice. Crews on the attack lines, command, and relief for long work are not in it.
pub fn people(posts: &Posts, sizes: &CrewSizes) -> People {
    let times = |count: u32, each: u32| u64::from(count) * u64::from(each);
    People {
        road: times(posts.tankers, sizes.tanker),
        fill: times(posts.fill_sites, sizes.fill_site) + times(posts.fill_pumps, sizes.pump),
        dump: times(posts.dump_sites, sizes.dump_site),
        pumps: times(posts.fire_pumps, sizes.pump),
        officer: u64::from(sizes.officer),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_post_is_counted_with_its_crew() {
        let posts =
            Posts { tankers: 3, fill_sites: 2, fill_pumps: 1, dump_sites: 1, fire_pumps: 2 };
        let sizes = CrewSizes { tanker: 2, fill_site: 3, dump_site: 4, pump: 1, officer: 1 };
        let people = people(&posts, &sizes);
        assert_eq!(people, People { road: 6, fill: 7, dump: 4, pumps: 2, officer: 1 });
        assert_eq!(people.total(), 20);
    }
}
