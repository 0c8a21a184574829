//! The rows as comma-separated values (RFC 4180), for a spreadsheet.

use shuttle_report::units::Units;

use super::Found;
use super::figures::passes;
use super::told::why;
use crate::question::grade::rules;
use crate::reader::Reader;
use crate::say::{Sentence, joined};

/// A head, and a row an address; numbers bare, in the units that the heads name.
pub fn csv(found: &Found, units: Units) -> String {
    let reader = Reader { units, tender: false };
    let length = units.length_sign();
    let flow = units.flow_sign().replace('/', " a ");
    let mut head: Vec<String> = vec![
        "address".to_owned(),
        format!("station, {}", units.distance_sign()),
        format!("suction point, {length}"),
        "best site".to_owned(),
        format!("road, {}", units.distance_sign()),
        "best set".to_owned(),
        format!("credit, {flow}"),
        format!("credit by travel rule, {flow}"),
        format!("credit own, {flow}"),
        format!("credit all aid, {flow}"),
    ];
    for rule in &found.rules {
        head.extend([
            rule.key.to_string(),
            format!("{}: fills at", rule.key),
            format!("{}: what fails", rule.key),
            format!("{}: conditions not known", rule.key),
        ]);
    }
    let mut out = line(&head);
    let number = |value: Option<f64>, digits: usize| {
        value.map_or_else(String::new, |value| format!("{value:.digits$}"))
    };
    for row in &found.rows.rows {
        let hand = row.hand.as_ref();
        let gpm = |of: Option<f64>| number(of.map(|gpm| units.flow(gpm)), 0);
        let site = row.best_site.as_ref();
        let miles = site.and_then(|(_, miles)| *miles).map(|miles| units.distance(miles));
        let mut cells = vec![
            row.name.clone(),
            number(row.station_miles.map(|miles| units.distance(miles)), 2),
            number(row.suction_point_ft.map(|feet| units.length(feet)), 0),
            site.map(|(site, _)| site.clone()).unwrap_or_default(),
            number(miles, 2),
            row.best_set.join(" + "),
            gpm(hand.map(|hand| hand.credited_gpm)),
            gpm(hand.and_then(|hand| hand.by_travel_rule_gpm)),
            gpm(Some(row.own_gpm)),
            gpm(Some(row.all_gpm)),
        ];
        for one in &row.results {
            let told = |sentence| {
                if Sentence::is_empty(&sentence) { String::new() } else { reader.put(&sentence) }
            };
            let fails = joined(why(one, found), "; ", "; ");
            let open = joined(one.open.iter().map(rules::condition), "; ", "; ");
            cells.extend([
                passes(one).word().to_owned(),
                one.with.join(" + "),
                told(fails),
                told(open),
            ]);
        }
        out.push_str(&line(&cells));
    }
    out
}

/// One record, which ends in a line feed as every line the program prints; a field with a comma, a quote or a line break in quotes, its quotes doubled.
fn line(cells: &[String]) -> String {
    let quoted = |cell: &String| {
        if cell.contains([',', '"', '\n', '\r']) {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell.clone()
        }
    };
    format!("{}\n", cells.iter().map(quoted).collect::<Vec<_>>().join(","))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4180, section 2, rules 5 to 7.
    #[test]
    fn fields_are_quoted_where_the_standard_asks_for_it() {
        let cells = ["a", "b, c", "say \"yes\"", "two\nlines"].map(str::to_owned);
        assert_eq!(line(&cells), "a,\"b, c\",\"say \"\"yes\"\"\",\"two\nlines\"\n");
    }
}
