//! The pictures made for a page: a hundred dots, and the pinch.

use answers::question::check::CheckFigures;
use answers::question::report::Report;
use answers::say::{Chances, Piece};
use answers::shown::{StationKind, told_change};
use answers::{Reader, say};
use shuttle_report::chart::on_paper::hundred_dots::{self, Panel};
use shuttle_report::chart::on_paper::pinch::{self as pinch_chart, Bar, Words};

use crate::PaperError;
use crate::layout::block::Block;

/// Width of one panel of dots, as a share of the column.
const PANEL: f64 = 0.36;

/// A hundred fires as it stands, and with the change that helps most.
pub fn dots(report: &Report, reader: &Reader) -> Result<Block, PaperError> {
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
    let share = PANEL * panels.len() as f64;
    Ok(Block::Picture { svg, says, share })
}

/// What tankers, fill sites, dump site and draft can pass by hand, and the flow that is wanted.
pub fn pinch(check: &CheckFigures, reader: &Reader) -> Result<Option<Block>, PaperError> {
    let sheet = &check.worksheet;
    let caps = |kind| sheet.caps.iter().filter(move |cap| cap.station == kind);
    let mut bars = vec![Bar { label: reader.tankers().to_owned(), gpm: sheet.hand_gpm }];
    let of_sites: Vec<_> = caps(StationKind::FillSite).collect();
    bars.push(Bar {
        label: match of_sites.as_slice() {
            [only] => only.name.clone().unwrap_or_else(|| "fill site".to_owned()),
            _ => "fill sites together".to_owned(),
        },
        gpm: of_sites.iter().map(|cap| cap.cap_gpm).sum(),
    });
    for (kind, label) in [
        (StationKind::DumpSite, "dump site"),
        (StationKind::Intakes, "attack engine's intakes"),
        (StationKind::DraftAndLay, "draft and lay"),
    ] {
        bars.extend(caps(kind).map(|cap| Bar { label: label.to_owned(), gpm: cap.cap_gpm }));
    }
    // What knows no limit is no pinch.
    bars.retain(|bar| bar.gpm.is_finite() && bar.gpm > 0.0);
    if bars.is_empty() {
        return Ok(None);
    }
    let told = bars.iter().map(|bar| format!("{} {}", bar.label, reader.units.gpm(bar.gpm)));
    let says = format!(
        "What each place passes by hand: {}; {} wanted.",
        told.collect::<Vec<_>>().join(", "),
        reader.units.gpm(sheet.peak_flow_gpm)
    );
    let words = Words { wanted: "wanted", about: &says };
    let svg = pinch_chart::chart(&bars, sheet.peak_flow_gpm, reader.units, words)?;
    Ok(Some(Block::Picture { svg, says, share: 0.9 }))
}
