//! What is asked of a source.

use shuttle_report::evidence::Source;

use super::{BLANK, LONG_BLANK, asked, flow, length, number, road, text, yes_or_no};
use crate::say;
use crate::say::{Piece, Sentence, Table, name};

/// All that is asked of one source.
pub fn source(source: &Source) -> Table {
    let survey = &source.survey;
    let positions = Piece::Number(f64::from(source.positions), 0);
    let mut rows = vec![
        (
            say!["from the fire, by road, one way"],
            say![
                road(source.from_fire_miles),
                "; out ",
                drive(source.out_min, source.out_miles),
                ", back ",
                drive(source.back_min, source.back_miles),
            ],
        ),
        (
            say!["rate"],
            say![
                Piece::Flow(source.rate_gpm),
                " through ",
                positions,
                if source.positions == 1 { " position" } else { " positions" },
            ],
        ),
        (say!["quantity"], quantity(source)),
    ];
    if !survey.is_hydrant {
        rows.push((
            say!["supply pumper there"],
            say![
                "name ",
                LONG_BLANK,
                ", whose ",
                BLANK,
                "; rated ",
                flow(survey.pump_rated_gpm),
                ", lift ",
                length(survey.pump_lift_ft),
                ", ",
                length(survey.pump_to_water_ft),
                " from the water",
            ],
        ));
    }
    rows.extend([
        (
            say!["all year, in a 50-year drought"],
            say![
                yes_or_no(survey.all_year),
                "; certificate ",
                text(survey.drought_certificate.as_ref()),
            ],
        ),
        (
            say!["flow test"],
            say![
                text(survey.flow_test.as_ref()),
                tested(source),
                "; witness ",
                text(survey.flow_test_witness.as_ref()),
            ],
        ),
        (say!["last inspected"], text(survey.inspected.as_ref())),
        (say!["owner's agreement"], text(survey.agreement.as_ref())),
    ]);
    asked(say![name(&source.name)], rows)
}

/// "2.6 min (32 mph)": the mean, and the speed from start to stop where the distance is known.
fn drive(minutes: f64, miles: Option<f64>) -> Sentence {
    let told = say![Piece::Number(minutes, 1), " min"];
    match miles {
        Some(miles) if minutes > 0.0 => say![told, " (", Piece::Speed(60.0 * miles / minutes), ")"],
        _ => told,
    }
}

fn quantity(source: &Source) -> Sentence {
    match (source.quantity_gal, source.recharge_gpm) {
        (Some(gal), Some(more)) if more > 0.0 => {
            say![Piece::Volume(gal), " and ", Piece::Flow(more), " running in"]
        }
        (Some(gal), _) => say![Piece::Volume(gal)],
        (None, _) if source.survey.is_hydrant => say![
            "from the main, counted without end; the main gives ",
            BLANK,
            " ",
            Piece::FlowSign,
            " for ",
            number(source.survey.main_lasts_hours, " h"),
            ", says ",
            LONG_BLANK,
        ],
        (None, _) => {
            say![BLANK, " ", Piece::VolumeSign, " (the file states none: counted without end)"]
        }
    }
}

/// What the test found, as the file states it.
fn tested(source: &Source) -> Sentence {
    match source.survey.flow_tested {
        Some(test) => say![
            ": ",
            Piece::Flow(test.flow_gpm),
            " with ",
            Piece::Pressure(test.static_psi),
            " static and ",
            Piece::Pressure(test.residual_psi),
            " residual, ",
            Piece::Flow(source.rate_gpm),
            " at ",
            Piece::Pressure(test.at_psi),
            " (NFPA 291)",
        ],
        None => Sentence::default(),
    }
}
