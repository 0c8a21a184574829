//! The least of many numbers that come and go.

/// Numbers in a block: few enough to look at all of them.
const BLOCK: usize = 16;
/// So few are looked at by themselves.
const FEW: usize = BLOCK / 2;

/// No number: greater than all there are.
pub(crate) const NONE: u64 = u64::MAX;

/// Places that each hold a number or [`NONE`], and the least of all.
///
/// The places lie in blocks, the least of each block in blocks again, and so on up to one block: to set
/// or to take a number costs a look through one block a level, without having to guess where anything
/// belongs.
#[derive(Debug)]
pub(crate) struct Earliest {
    /// Level by level; the last is the one at the top.
    blocks: Vec<[u64; BLOCK]>,
    /// For each block but the last, where the least of it stands one level up.
    above: Vec<u32>,
    /// Whether the block at the top holds no more than a few.
    few_at_top: bool,
    least: u64,
}

impl Earliest {
    /// Room for so many numbers.
    pub fn new(places: usize) -> Earliest {
        let (mut level, mut first, mut above) = (places.div_ceil(BLOCK).max(1), 0, Vec::new());
        let mut at_top = places;
        while level > 1 {
            let next = first + level;
            above.extend((0..level).map(|block| (next * BLOCK + block) as u32));
            at_top = level;
            (first, level) = (next, level.div_ceil(BLOCK));
        }
        let blocks = vec![[NONE; BLOCK]; above.len() + 1];
        Earliest { blocks, above, few_at_top: at_top <= FEW, least: NONE }
    }

    pub fn clear(&mut self) {
        self.blocks.fill([NONE; BLOCK]);
        self.least = NONE;
    }

    #[inline]
    pub fn least(&self) -> u64 {
        self.least
    }

    /// Sets a place that holds none.
    #[inline]
    pub fn set(&mut self, place: usize, number: u64) {
        if number < self.least {
            self.least = number;
        }
        let mut place = place;
        loop {
            let held = &mut self.blocks[place / BLOCK][place % BLOCK];
            if *held <= number {
                return;
            }
            *held = number;
            match self.above.get(place / BLOCK) {
                Some(above) => place = *above as usize,
                None => return,
            }
        }
    }

    /// Empties a place.
    #[inline]
    pub fn unset(&mut self, place: usize) {
        self.change(place, NONE);
    }

    /// Puts this number into a place, whatever it held.
    #[inline(always)]
    pub fn change(&mut self, place: usize, number: u64) {
        if let ([only], true) = (&mut self.blocks[..], self.few_at_top) {
            // One block, and only its first half in use: looked at here, without a call.
            only[place % FEW] = number;
            self.least = least_of_few(&only[..FEW]);
            return;
        }
        self.change_in_blocks(place, number);
    }

    #[inline(never)]
    fn change_in_blocks(&mut self, place: usize, number: u64) {
        let (mut place, mut number) = (place, number);
        while let Some(above) = self.above.get(place / BLOCK) {
            let block = &mut self.blocks[place / BLOCK];
            block[place % BLOCK] = number;
            number = least_of_few(&block[..FEW]).min(least_of_few(&block[FEW..]));
            place = *above as usize;
        }
        let top = &mut self.blocks[place / BLOCK];
        top[place % BLOCK] = number;
        let first = least_of_few(&top[..FEW]);
        self.least = if self.few_at_top { first } else { first.min(least_of_few(&top[FEW..])) };
    }
}

#[inline(always)]
fn least_of_few(numbers: &[u64]) -> u64 {
    // Side by side, so that none waits for all before it.
    match *numbers {
        [a, b, c, d, e, f, g, h] => (a.min(b).min(c.min(d))).min(e.min(f).min(g.min(h))),
        _ => numbers.iter().fold(NONE, |least, number| least.min(*number)),
    }
}
