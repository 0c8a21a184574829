//! The run card: one sheet to laminate, in three strips to cut apart. Each strip has its own front and, behind it, its
//! own back: what is written on a strip stays with whoever holds it.

mod boss;

mod dispatch;

mod failing;

mod operator;

mod units;

use answers::question::card::CardFigures;
use answers::say::{Chances, Piece, Sentence};
use answers::{Answer, Reader, say};

use shuttle_report::chart::drawing::Text;

use crate::Made;
use crate::layout::block::Block;
use crate::layout::sheet::{Format, Page, Sheet, height, pages};

/// The least size of letters on a card, pt: read at arm's length.
pub const SIZE: f64 = 14.0;
/// Larger letters where there is room for them, pt.
const LARGER: [f64; 4] = [19.0, 17.5, 16.0, 15.0];
/// Headings are so much larger than the rest, pt.
const HEAD_LARGER: f64 = 3.0;
/// Half a card's margin is lost to a laminating pouch's edge.
const MARGIN: f64 = 26.0;
/// Lengths of the lists on the front, the longest first: the first that fits is taken, the rest stands on the back.
const LENGTHS: [usize; 17] = [24, 20, 18, 16, 14, 13, 12, 11, 10, 9, 8, 6, 5, 4, 3, 2, 1];

/// Lists on the front, and how much of them there is.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Shown {
    /// Units to ask for.
    units: usize,
    /// Drop tanks, losses and warnings, each.
    rest: usize,
    /// Sources on the front.
    sources: usize,
    /// Whether the clock is told in few words and the flow once more on the back, so that everybody who is asked for
    /// stands on the front.
    brief: bool,
    /// Whether the pump stands on the front nevertheless.
    pump: bool,
    /// Those whose not coming costs most, on the front and behind it.
    away: usize,
    away_behind: usize,
    /// Whether the sheet is not cut: what stands on one strip need not be said again on another.
    one_sheet: bool,
    /// Size of letters, pt.
    size: f64,
}

impl Shown {
    /// Size of headings, pt: where room is short no larger than the rest, which is less heavy.
    fn head(self) -> f64 {
        self.size + if self.one_sheet || self.brief { 0.0 } else { HEAD_LARGER }
    }
}

/// One side of a strip, with what fills the height that is left.
///
/// - Given: the height, pt; 0 for what cannot be left out.
type Filled<'a> = &'a dyn Fn(f64) -> Vec<Block>;

/// Front and back of the card.
pub fn card(answer: &Answer<CardFigures>, format: Format, made: &Made) -> Vec<Page> {
    let sheet = Sheet::upright(format, MARGIN);
    // Who is asked for comes first: of all lists theirs is the last to be cut.
    let all = usize::MAX;
    let whole = Shown {
        units: all,
        rest: all,
        sources: all,
        brief: false,
        pump: true,
        away: 4,
        away_behind: 0,
        one_sheet: false,
        size: SIZE,
    };
    let larger = LARGER.map(|size| Shown { size, ..whole });
    let shorter = LENGTHS.map(|rest| Shown { rest, sources: rest, ..whole });
    let brief = shorter.map(|shown| Shown { brief: true, ..shown });
    let fewer = LENGTHS.map(|units| Shown { units, rest: 1, brief: true, ..whole });
    // As much of where to fill and of the pump as there is room for.
    let most = |shown: Shown| {
        let lists = [(2, true), (1, true), (0, true), (0, false)];
        let away = [(2, 0), (0, 2), (0, 1), (0, 0)];
        let lists = away.map(|away| lists.map(|(sources, pump)| (sources, pump, away)));
        lists.into_iter().flatten().map(move |(sources, pump, (away, away_behind))| Shown {
            sources: sources.min(shown.rest),
            pump,
            away,
            away_behind,
            ..shown
        })
    };
    let brief = brief.into_iter().flat_map(most);
    let fewer = fewer.into_iter().flat_map(most);
    let candidates = || {
        let longer = larger.into_iter().chain([whole]).chain(shorter);
        longer.chain(brief.clone()).chain(fewer.clone())
    };
    if let Some(sides) = candidates().find_map(|shown| sides(answer, shown, made, sheet)) {
        return sides.into_iter().flat_map(|side| pages(&side, sheet)).collect();
    }
    let fits = |side: &[Block]| height(side, sheet.column()) <= sheet.room();
    let uncut = || candidates().map(|shown| uncut(answer, shown, made, sheet));
    // What does not fit even so goes on on a third page, and the front is as full as may be.
    let sides = (uncut().find(|sides| sides.iter().all(|side| fits(side))))
        .or_else(|| uncut().find(|[front, _]| fits(front)))
        .or_else(|| uncut().next_back());
    sides.into_iter().flatten().flat_map(|side| uncut_pages(side, sheet)).collect()
}

/// A side of a sheet that is not to be cut; what does not fit on it goes on on another, which says so too.
fn uncut_pages(mut side: Vec<Block>, sheet: Sheet) -> Vec<Page> {
    let mut all = Vec::new();
    loop {
        let fits = |count: &usize| height(&side[..*count], sheet.column()) <= sheet.room();
        // The notice and one more: what is higher than a page is divided.
        let count = (2..=side.len()).rev().find(fits).unwrap_or(2).min(side.len());
        all.extend(pages(&side[..count], sheet));
        if count == side.len() {
            return all;
        }
        let notice = side[0].clone();
        side = [notice].into_iter().chain(side.drain(count..)).collect();
    }
}

fn fronts(answer: &Answer<CardFigures>, shown: Shown, made: &Made, wide: f64) -> [Vec<Block>; 3] {
    [
        dispatch::front(answer, shown, made),
        boss::front(answer, shown, made, wide),
        operator::front(answer, shown, made, wide),
    ]
}

/// "DO NOT USE THIS CARD: short in 46 fires of 100; holds 410 gpm." - on every strip of a plan that misses the target.
fn warning(answer: &Answer<CardFigures>, reader: &Reader, size: f64) -> Option<Block> {
    let held = answer.figures.can_be_held.as_ref().and_then(|held| held.steps.first());
    warned(answer, held.map(|step| say![Piece::Flow(step.flow_gpm)]), reader, size)
}

/// The same with what the units hold, in as many words as there are.
fn warned(
    answer: &Answer<CardFigures>,
    holds: Option<Sentence>,
    reader: &Reader,
    size: f64,
) -> Option<Block> {
    let card = &answer.figures;
    let fires = Chances::of(card.interruption_probability, answer.basis.replications);
    card.is_not_to_be_used().then(|| {
        let holds = holds.map(|holds| say!["; holds ", holds]);
        let told = say!["DO NOT USE THIS CARD: short in ", Piece::Fires(fires), holds, "."];
        Block::heavy(reader.put(&told), size)
    })
}

/// What stands on a strip of a plan that misses the target in the place of its orders: what its units do hold, and whom to
/// ask for. A strip is cut off and read alone, by flashlight: what stands there is done, whatever stands above it.
fn no_orders(card: &CardFigures, shown: Shown, reader: &Reader) -> Vec<Block> {
    let told = "this plan does not hold its flow. Do what command says.";
    let mut blocks = vec![Block::labelled("NO ORDERS", told, shown.size)];
    // On a sheet that stays whole the dispatcher's part says the rest.
    if !shown.one_sheet {
        blocks.push(failing::holds(card, shown.size, reader));
        blocks.extend(failing::whom_else(card, shown, reader));
    }
    blocks
}

/// Front and back of a sheet that says more than three strips hold: it is not to be cut.
fn uncut(answer: &Answer<CardFigures>, shown: Shown, made: &Made, sheet: Sheet) -> [Vec<Block>; 2] {
    let (reader, wide) = (&made.reader, sheet.column());
    let shown = Shown { one_sheet: true, ..shown };
    let whole =
        Block::heavy("Leave this sheet whole: it says more than fits on three strips.", SIZE);
    let mut front = vec![whole.clone()];
    front.extend(fronts(answer, shown, made, wide).into_iter().flatten());
    let mut back = vec![whole];
    back.extend(dispatch::back(answer, shown, made, wide));
    back.extend(boss::not_on_the_front(answer, shown, reader));
    back.extend(operator::not_on_the_front(answer, shown, reader));
    back.extend(operator::made_from(answer, made, true));
    [front, back]
}

/// A strip's heading, on either side: whose it is, of which day and of which plan, in one line where it fits in letters no
/// smaller than the rest; of a sheet that stays whole only whose, for day and plan stand at its head.
fn strip_head(strip: &str, title: &str, made: &Made, shown: Shown, wide: f64) -> Block {
    if shown.one_sheet {
        return Block::Heading(strip.to_owned(), shown.head());
    }
    let told = format!("{strip}, {}: {title}", made.day());
    let fits = |size: &f64| Text::of(*size).semi_bold().width(&told) <= wide;
    let size = [shown.head(), shown.size].into_iter().find(fits).unwrap_or(SIZE);
    Block::Heading(told, size)
}

/// Front and back with their cut lines at the same heights; nothing where they do not fit the sheet.
fn sides(
    answer: &Answer<CardFigures>,
    shown: Shown,
    made: &Made,
    sheet: Sheet,
) -> Option<[Vec<Block>; 2]> {
    let wide = sheet.column();
    let tall = |blocks: &[Block]| height(blocks, wide);
    let fronts = fronts(answer, shown, made, wide);
    let backs: [Filled<'_>; 3] = [
        &|_| dispatch::back(answer, shown, made, wide),
        &|room| boss::back(answer, shown, made, (room, wide)),
        &|room| operator::back(answer, shown, made, (room, wide)),
    ];
    let mut strips = [0, 1, 2].map(|strip| tall(&fronts[strip]).max(tall(&backs[strip](0.0))));
    let left = sheet.room() - 2.0 * tall(&[Block::Cut]) - strips.iter().sum::<f64>();
    if left < 0.0 {
        return None;
    }
    // What is left goes to the sketch and the log of loads.
    for (strip, part) in [(1, 0.4), (2, 0.6)] {
        strips[strip] += (part * left).floor();
    }
    let side = |strip_of: &dyn Fn(usize) -> Vec<Block>| {
        let mut side = Vec::new();
        for (strip, room) in strips.iter().enumerate() {
            let blocks = strip_of(strip);
            let gap = Block::Gap((room - tall(&blocks)).max(0.0));
            side.extend(blocks);
            if strip < 2 {
                side.extend([gap, Block::Cut]);
            }
        }
        side
    };
    Some([side(&|strip| fronts[strip].clone()), side(&|strip| backs[strip](strips[strip]))])
}
