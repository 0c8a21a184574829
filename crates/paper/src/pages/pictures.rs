//! The pictures made for a page: a hundred dots, the clock, and the pinch.

use answers::question::check::CheckFigures;
use answers::question::report::Report;
use answers::question::report::{MomentFigures, MomentKind};
use answers::say::{Chances, Piece, Sentence, joined, name};
use answers::shown::{StationKind, flow, told_change};
use answers::{Reader, say};
use shuttle_report::chart::on_paper::alarm_clock::{self, Kind, Mark};
use shuttle_report::chart::on_paper::hundred_dots::{self, Panel};
use shuttle_report::chart::on_paper::pinch::{self as pinch_chart, Bar, Words};

use super::put;
use crate::PaperError;
use crate::layout::block::Block;

/// Widths of the pictures as shares of the column: as they are best read, and as small as leaves their letters 9 pt on an
/// A4 sheet, which is the narrower one.
struct Shares {
    /// One panel of dots.
    panel: f64,
    clock: f64,
    pinch: f64,
}

const SHARES: Shares = Shares { panel: 0.48, clock: 1.0, pinch: 0.9 };
const SMALL: Shares = Shares { panel: 0.455, clock: 0.86, pinch: 0.78 };

fn shares(small: bool) -> Shares {
    if small { SMALL } else { SHARES }
}

/// A hundred fires as it stands, and with the change that helps most.
///
/// - Given: whether it is to be as small as its letters allow.
pub fn dots(report: &Report, reader: &Reader, small: bool) -> Result<Block, PaperError> {
    let risk = &report.risk.figures;
    let of = |share, fires| reader.put(&say![Piece::Fires(Chances::of(share, fires))]);
    let now = risk.interruption_probability;
    let mut panels = vec![Panel {
        title: "As it stands".to_owned(),
        share: now,
        says: format!("short in {}", of(now, report.risk.basis.replications)),
    }];
    panels.extend(risk.would_help.first().map(|help| Panel {
        title: format!("With {}", reader.put(&told_change(&help.change))),
        share: help.interruption_probability,
        says: format!("short in {}", of(help.interruption_probability, help.replications)),
    }));
    if panels.len() == 1 {
        panels.extend(report.request.as_ref().filter(|one| one.figures.meets_target).map(|one| {
            let (figures, fires) = (&one.figures, one.basis.replications);
            let asked = Piece::TankerCount(figures.request.len());
            Panel {
                title: reader.put(&say!["With ", asked, " asked for"]),
                share: figures.interruption_probability,
                says: format!("short in {}", of(figures.interruption_probability, fires)),
            }
        }));
    }
    let says: Vec<String> =
        panels.iter().map(|panel| format!("{}: {}.", panel.title, panel.says)).collect();
    let says = format!("A hundred fires as dots. {}", says.join(" "));
    let svg = hundred_dots::chart(&panels, &says)?;
    let share = shares(small).panel * panels.len() as f64;
    Ok(Block::Picture { svg, says, share })
}

/// Who comes and what is set up at which minute after the alarm, and the minutes at which fires run short.
///
/// - Given: how many marks are told one by one; of more only the first and the last of a kind. The size of what is said
///   under it, pt, and whether it is to be as small as its letters allow.
pub fn clock(
    report: &Report,
    reader: &Reader,
    most_marks: usize,
    size: f64,
    small: bool,
) -> Result<Vec<Block>, PaperError> {
    let risk = &report.risk.figures;
    let whole = &report.whole.figures.clock;
    let mut marks = told_one_by_one(whole, reader);
    if marks.len() > most_marks {
        marks = first_and_last(whole, reader);
    }
    let water = |minute: f64, label: &str| Mark {
        minute,
        kind: Kind::Water,
        label: format!("{label}, {}", reader.put(&say![Piece::Clock(minute)])),
    };
    marks.push(water(risk.first_water_min_mean, "first water"));
    marks.extend(risk.established_min_mean.map(|minute| water(minute, "supply established")));
    let (bars, beyond) = bars_words(report, alarm_clock::last_minute(&marks));
    let bars = put(reader, &bars);
    let told = marks.iter().filter(|mark| !mark.label.is_empty()).map(|mark| match mark.kind {
        // Its minute is in its words.
        Kind::Water => mark.label.clone(),
        _ => format!("{}, {}", mark.label, reader.put(&say![Piece::Clock(mark.minute)])),
    });
    let told: Vec<String> = told.collect();
    let says = format!("The clock, in minutes after the alarm. {bars}. {}.", told.join("; "));
    let words =
        alarm_clock::Words { bars: &bars, minutes: "minutes after the alarm", about: &says };
    let svg = alarm_clock::chart(&risk.short_by_alarm_minute, &marks, words)?;
    let mut blocks = vec![Block::Picture { svg, says, share: shares(small).clock }];
    blocks.extend(beyond.map(|told| Block::words(put(reader, &told), size)));
    Ok(blocks)
}

/// A later peak is told where at its minute at least so many fires are short. Judgement: one of 100.
const WORTH_TELLING: f64 = 0.01;

/// What stands over the bars, the worst minute; and under the clock the worst of those beyond its end, where there are.
///
/// - Given: where the clock ends, minutes after the alarm.
fn bars_words(report: &Report, last: f64) -> (Sentence, Option<Sentence>) {
    let short = &report.risk.figures.short_by_alarm_minute;
    let of = |share: f64| Piece::Fires(Chances::of(share, report.risk.basis.replications));
    let worst = |from: f64| {
        (short.iter().enumerate().map(|(minute, share)| (minute as f64, *share)))
            .filter(|(minute, share)| *minute >= from && *share > 0.0)
            .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.total_cmp(&a.0)))
    };
    let Some((minute, share)) = worst(0.0) else {
        return (say!["No fire is short of water at any minute"], None);
    };
    let is_later = minute > last;
    let bars = say![
        "Fires of 100 short of water at each minute; most ",
        if is_later { "later, at " } else { "at " },
        Piece::Clock(minute),
        ": ",
        of(share),
    ];
    let beyond = worst(last.floor() + 1.0).filter(|one| !is_later && one.1 >= WORTH_TELLING);
    let beyond = beyond.map(|(minute, share)| {
        say![
            "Beyond the end of this clock most are short at ",
            Piece::Clock(minute),
            ": ",
            of(share),
            "."
        ]
    });
    (bars, beyond)
}

/// A mark for each whole minute at which somebody comes or something is set up.
fn told_one_by_one(moments: &[MomentFigures], reader: &Reader) -> Vec<Mark> {
    (moments.chunk_by(|a, b| a.at_min.round() == b.at_min.round()))
        .map(|together| {
            let first = &together[0];
            let words = match together.len() {
                ..=MOST_NAMED => joined(together.iter().map(moment_words), ", ", ", "),
                _ => joined(kinds_words(together), ", ", ", "),
            };
            Mark { minute: first.at_min, kind: kind_of(first), label: reader.put(&words) }
        })
        .collect()
}

/// So many of one minute are told by name.
const MOST_NAMED: usize = 2;

/// "three tankers", "drop tank up": what comes at one minute, several of a kind by their number.
fn kinds_words(together: &[MomentFigures]) -> impl Iterator<Item = Sentence> {
    use MomentKind::{AttackEngine, DropTank, FillSite, SupplyEngine, Tanker};
    let of = |kind| together.iter().filter(move |moment| moment.kind == kind);
    [AttackEngine, SupplyEngine, Tanker, DropTank, FillSite].into_iter().filter_map(move |kind| {
        let many = of(kind).count();
        Some(match kind {
            _ if many < 2 => moment_words(of(kind).next()?),
            Tanker => say![Piece::TankerCount(many)],
            DropTank => say![Piece::Count(many), " drop tanks up"],
            FillSite => say![Piece::Count(many), " fill sites ready"],
            AttackEngine | SupplyEngine => say![Piece::Count(many), " engines"],
        })
    })
}

/// A mark for each moment; of tankers, drop tanks and fill sites only the first and the last are told.
fn first_and_last(moments: &[MomentFigures], reader: &Reader) -> Vec<Mark> {
    let label = |place: usize, moment: &MomentFigures| {
        let many = moments.iter().filter(|other| other.kind == moment.kind).count();
        let before = moments[..place].iter().filter(|other| other.kind == moment.kind).count();
        let which = match before {
            _ if many <= 2 => return moment_words(moment),
            0 => "first of ",
            last if last + 1 == many => "last of ",
            _ => return Sentence::default(),
        };
        match moment.kind {
            MomentKind::Tanker => say![which, Piece::TankerCount(many)],
            MomentKind::DropTank => say![which, Piece::Count(many), " drop tanks up"],
            MomentKind::FillSite => say![which, Piece::Count(many), " fill sites ready"],
            MomentKind::AttackEngine | MomentKind::SupplyEngine => moment_words(moment),
        }
    };
    (moments.iter().enumerate())
        .map(|(place, moment)| Mark {
            minute: moment.at_min,
            kind: kind_of(moment),
            label: reader.put(&label(place, moment)),
        })
        .collect()
}

fn kind_of(moment: &MomentFigures) -> Kind {
    match moment.kind {
        MomentKind::AttackEngine | MomentKind::SupplyEngine | MomentKind::Tanker => Kind::Comes,
        MomentKind::DropTank | MomentKind::FillSite => Kind::SetUp,
    }
}

/// "Tanker 5", "drop tank up", "Quarry pond ready".
fn moment_words(moment: &MomentFigures) -> Sentence {
    let called = moment.name.as_ref().map(|one| say![name(one)]);
    match moment.kind {
        MomentKind::AttackEngine | MomentKind::SupplyEngine | MomentKind::Tanker => {
            called.unwrap_or_default()
        }
        MomentKind::DropTank => say!["drop tank up"],
        MomentKind::FillSite => say![called, " ready"],
    }
}

/// What tankers, fill sites, dump site and draft can pass by hand, and the flow that is wanted.
///
/// - Given: whether it is to be as small as its letters allow.
pub fn pinch(
    check: &CheckFigures,
    reader: &Reader,
    small: bool,
) -> Result<Option<Block>, PaperError> {
    let sheet = &check.worksheet;
    let caps = |kind| sheet.caps.iter().filter(move |cap| cap.station == kind);
    // As the worksheet says it: no more figures than a sum supports.
    let bar = |label: String, gpm: f64| Bar { label, gpm, says: reader.put(&say![flow(gpm)]) };
    let mut bars = vec![bar(reader.tankers().to_owned(), sheet.hand_gpm)];
    let of_sites: Vec<_> = caps(StationKind::FillSite).collect();
    let label = match of_sites.as_slice() {
        [only] => only.name.clone().unwrap_or_else(|| "fill site".to_owned()),
        _ => "fill sites together".to_owned(),
    };
    bars.push(bar(label, of_sites.iter().map(|cap| cap.cap_gpm).sum()));
    for (kind, label) in [
        (StationKind::DumpSite, "dump site"),
        (StationKind::Intakes, "attack engine's intakes"),
        (StationKind::DraftAndLay, "draft and lay"),
    ] {
        bars.extend(caps(kind).map(|cap| bar(label.to_owned(), cap.cap_gpm)));
    }
    // What knows no limit is no pinch.
    bars.retain(|bar| bar.gpm.is_finite() && bar.gpm > 0.0);
    if bars.is_empty() {
        return Ok(None);
    }
    let told = bars.iter().map(|bar| format!("{} {}", bar.label, bar.says));
    let wanted = reader.put(&say![Piece::Flow(sheet.peak_flow_gpm), " wanted"]);
    let told = told.collect::<Vec<_>>().join(", ");
    let says = format!("What each place passes by hand: {told}; {wanted}.");
    let words = Words { wanted: &wanted, about: &says };
    let svg = pinch_chart::chart(&bars, sheet.peak_flow_gpm, words)?;
    Ok(Some(Block::Picture { svg, says, share: shares(small).pinch }))
}
