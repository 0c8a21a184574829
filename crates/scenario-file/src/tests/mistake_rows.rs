//! The example with one mistake each, and how it is reported.

use super::changed;

/// (text of the example, what stands there instead, place, part of problem or limit, part of the cure)
pub(super) type Row = (&'static str, &'static str, &'static str, &'static str, &'static str);

/// Mistakes of structure: a key, a kind, a unit, a range.
const STRUCTURE: &[Row] = &[
    (
        "\"capacity\": 2500",
        "\"capcity\": 2500",
        "drop_tanks[0].capcity",
        "no `capcity`",
        "`capacity`",
    ),
    ("\"title\": \"Hay barn, Quarry Lane\",", "", "title", "needs `title`", "add \"title\""),
    ("\"capacity\": 1800, ", "", "tankers[0].capacity", "needs `capacity`", "add"),
    (
        "\"capacity\": 1800",
        "\"capacity\": \"1800\"",
        "tankers[0].capacity",
        "without a unit",
        "\"1800 gal\"",
    ),
    (
        "\"capacity\": 1800",
        "\"capacity\": \"1,800 gal\"",
        "tankers[0].capacity",
        "not a number with a unit",
        "write \"1800 gal\"",
    ),
    (
        "\"capacity\": 1800",
        "\"capacity\": \"1800 gall\"",
        "tankers[0].capacity",
        "no unit \"gall\"",
        "\"1800 gal\"",
    ),
    (
        "\"capacity\": 1800",
        "\"capacity\": \"1800 gpm\"",
        "tankers[0].capacity",
        "unit of a flow",
        "a volume",
    ),
    (
        "\"capacity\": 1800",
        "\"capacity\": \"inf gal\"",
        "tankers[0].capacity",
        "begin with a number",
        "10 gal",
    ),
    (
        "\"capacity\": 1800",
        "\"capacity\": \"1e999 gal\"",
        "tankers[0].capacity",
        "too large",
        "extra digits",
    ),
    (
        "\"capacity\": 1800",
        "\"capacity\": 1e300",
        "tankers[0].capacity",
        "from 100 to 50,000 gal",
        "",
    ),
    (
        "\"capacity\": 1800",
        "\"capacity\": [1800]",
        "tankers[0].capacity",
        "a list does not belong",
        "",
    ),
    (
        "\"waste\": 0.05",
        "\"waste\": \"5 gal\"",
        "tankers[0].waste",
        "unit of a volume",
        "without a unit",
    ),
    (
        "\"count\": 2",
        "\"count\": \"2\"",
        "tankers[1].count",
        "text does not belong",
        "without quotes",
    ),
    ("\"count\": 2", "\"count\": 1001", "tankers[1].count", "from 1 to 1,000", ""),
    ("\"nurse\": true", "\"nurse\": 1", "supply.nurse", "true or false", ""),
    ("\"units\": \"us\"", "\"units\": \"imperial\"", "units", "\"us\" or \"metric\"", ""),
    (
        "\"ready\": 16",
        "\"ready\": {\"mean\": 16, \"cv\": 0.1, \"shape\": \"exponential\"}",
        "fill_sites[0].ready.shape",
        "no `shape`",
        "leave `cv` or `shape` out",
    ),
    (
        "\"ready\": 16",
        "\"ready\": {\"low\": 16, \"high\": 20, \"likley\": 17}",
        "fill_sites[0].ready.likley",
        "no `likley`",
        "`likely`",
    ),
    ("\"ready\": 16", "\"ready\": {}", "fill_sites[0].ready.mean", "needs `mean`", "add"),
    ("\"ready\": 16", "\"ready\": {\"samples\": []}", "fill_sites[0].ready.samples", "empty", ""),
    (
        "\"ready\": 16",
        "\"ready\": {\"samples\": [1, -1]}",
        "fill_sites[0].ready.samples[1]",
        "-1 min is out of range",
        "sign",
    ),
    (
        "\"miles\": 2.4, \"mph\": 35",
        "\"miles\": 0, \"mph\": 35",
        "fill_sites[0].out.miles",
        "above 0, up to 500 mi",
        "",
    ),
    (
        "\"miles\": 2.4, \"mph\": 35",
        "\"minuts\": 4",
        "fill_sites[0].out.minuts",
        "no `minuts`",
        "`minutes`",
    ),
    (
        "\"miles\": 2.4, \"mph\": 35, ",
        "\"minutes\": 4, ",
        "fill_sites[0].out.cv",
        "no `cv`",
        "into `minutes`",
    ),
    (
        "\"brought_by\": \"Tanker 3\"",
        "\"brought_by\": \"Tanker 3\", \"response\": 3",
        "drop_tanks[0]",
        "not both",
        "own `response`",
    ),
    (
        "\"brought_by\": \"Tanker 3\"",
        "\"brought_by\": \"Tanker 3\", \"requested_at\": 3",
        "drop_tanks[0].requested_at",
        "without `response`",
        "leave",
    ),
    (
        "\"engine\": {\"name\": \"Engine 8\", \"response\": 14, \"setup\": 5}",
        "\"setup\": 5, \"lay\": {\"diameter\": 5, \"length\": 100, \"pump_pressure\": 100}",
        "supply.lay",
        "without `engine`",
        "add `engine`",
    ),
    (
        "\"duration\": 120",
        "\"duration\": 120, \"dump_rate\": 5",
        "incident.dump_rate",
        "no `dump_rate`",
        "belongs in a tanker",
    ),
];

/// Mistakes of sense: each value fits its field, but not the rest of the plan.
pub(super) const SENSE: &[Row] = &[
    (
        "\"brought_by\": \"Tanker 3\"",
        "\"brought_by\": \"Tanker 4\"",
        "drop_tanks[0].brought_by",
        "no unit called \"Tanker 4\"",
        "its own `response` in place of `brought_by`",
    ),
    (
        "\"brought_by\": \"Tanker 3\"",
        "\"brought_by\": \"Aid tanker\"",
        "drop_tanks[0].brought_by",
        "no unit called",
        "\"Aid tanker",
    ),
    (
        "\"fill_site\": \"Quarry pond\"",
        "\"fill_site\": \"Quary pond\"",
        "tankers[1].fill_site",
        "no fill site called",
        "\"Quarry pond\"",
    ),
    ("\"reserve\": 500", "\"reserve\": 1251", "incident.reserve", "up to the tank, 1,250 gal", ""),
    ("\"from\": 6", "\"from\": 0", "incident.attack_flow[1].from", "after 0 min", "order of time"),
    (
        "\"restart_level\": 600",
        "\"restart_level\": 200",
        "supply.restart_level",
        "from just above its unusable, 201 gal",
        "",
    ),
    (
        "\"unusable\": 200",
        "\"unusable\": 2500",
        "drop_tanks[0].unusable",
        "below its capacity",
        "strainer",
    ),
    (
        "\"ready\": 16",
        "\"ready\": {\"low\": 5, \"high\": 4}",
        "fill_sites[0].ready",
        "above high",
        "exchange",
    ),
    (
        "\"volume\": null",
        "\"volume\": null, \"recharge\": 5",
        "fill_sites[0].recharge",
        "without end",
        "`volume`",
    ),
    (
        "\"flow\": 900",
        "\"flow\": {\"pump\": {\"rated\": 1000, \"lift\": 25}}",
        "fill_sites[0].flow.pump.lift",
        "up to 24 ft",
        "nearer",
    ),
    (
        "\"flow\": 900",
        "\"flow\": {\"hydrant\": {\"static\": 60, \"residual\": 70, \"flow\": 500}}",
        "fill_sites[0].flow.hydrant.residual",
        "70 psi does not fit with `static` 60 psi",
        "swapped",
    ),
    (
        "\"reprime\": 1.5",
        "\"reprime\": 1.5, \"lay\": {\"diameter\": 4.2, \"length\": 100, \"pump_pressure\": 100}",
        "supply.lay.diameter",
        "4.2 in is not listed",
        "nominal size",
    ),
    (
        "\"reprime\": 1.5",
        "\"reprime\": 1.5, \"lay\": {\"diameter\": 5, \"length\": 100, \"elevation\": 300, \"pump_pressure\": 100}",
        "supply.lay.pump_pressure",
        "leaves nothing",
        "`elevation` and `intake_pressure`",
    ),
];

/// Each text with a mistake of structure, with its row.
pub(super) fn structure_rows() -> impl Iterator<Item = (String, &'static Row)> {
    STRUCTURE.iter().map(|row| (changed(row.0, row.1), row))
}
