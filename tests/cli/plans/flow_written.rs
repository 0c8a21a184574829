//! `flow --write`: a building put into a scenario that is there.

use std::fs;

use super::flow::{building, house, on_one_line};
use super::{CANNOT_READ, WRONG_SCENARIO, bucketline, folder, hay_barn};

#[test]
fn a_building_is_written_into_a_scenario_and_the_rest_stays() {
    let folder = folder();
    let file = folder.path().join("barn.json");
    fs::copy(hay_barn(), &file).expect("a copy");
    let before = fs::read_to_string(&file).expect("the scenario");
    let barn = building("hay_barn");
    let said = bucketline(folder.path(), &["flow", &barn, "--write", "barn.json"]).answered("flow");
    let said = on_one_line(&said);
    assert!(
        said.contains("barn.json is written: incident.attack_flow[1].flow was 285 gpm"),
        "{said}"
    );
    let after = fs::read_to_string(&file).expect("the scenario");
    let (start, end) = before.split_once(r#""flow": 285"#).expect("the step");
    assert!(after.starts_with(start) && after.ends_with(end), "{after}");
    assert_eq!(super::names_in(folder.path()), ["barn.json"]);
    let checked = bucketline(folder.path(), &["check", "barn.json", "--more"]).answered("check");
    assert!(
        checked.contains("Facts     incident.attack_flow[1].flow: area / 3: 60 x 36 ft / 3"),
        "{checked}"
    );
    assert!(
        checked.starts_with("Hay barn, Quarry Lane: two tankers. 150 gpm, 360 gpm from"),
        "{checked}"
    );
    // The scenario itself now carries the building; another rule may take its place.
    let arguments = ["flow", "barn.json", "--standard", "volume", "--write", "barn.json"];
    let said = on_one_line(&bucketline(folder.path(), &arguments).answered("flow"));
    assert!(said.contains("was 360 gpm and is now given by the building, 432 gpm"), "{said}");
    assert!(said.contains("People"), "{said}");
    let checked = bucketline(folder.path(), &["check", "barn.json"]).answered("check");
    assert!(checked.contains("150 gpm, 432 gpm from minute"), "{checked}");
}

#[test]
fn nothing_is_written_where_it_would_not_be_sound() {
    let folder = folder();
    let (_house, house) = house(|value| {
        value["building"]["length"] = 2500.into();
        value["building"]["width"] = 2500.into();
        value["building"]["involved"] = 0.001.into();
        value["rule"] = "area".into();
    });
    let file = folder.path().join("barn.json");
    let text = fs::read_to_string(hay_barn()).expect("the scenario");
    let wrong = text.replace("\"reserve\": 400", "\"reserve\": -4");
    fs::write(&file, &wrong).expect("the folder can be written to");
    let said = bucketline(folder.path(), &["flow", &house, "--write", "barn.json"])
        .refused(WRONG_SCENARIO, "a scenario that is wrong before");
    assert!(said.contains("incident.reserve"), "{said}");
    assert_eq!(fs::read_to_string(&file).expect("the file"), wrong);
    bucketline(folder.path(), &["flow", &house, "--write", "no.json"])
        .refused(CANNOT_READ, "a scenario that is not there");
    assert_eq!(super::names_in(folder.path()), ["barn.json"]);
}

#[cfg(unix)]
#[test]
fn writing_through_a_link_changes_the_file_that_is_meant_and_keeps_it_private() {
    use std::os::unix::fs::PermissionsExt;
    let folder = super::folder();
    let (real, link) = (folder.path().join("real.json"), folder.path().join("link.json"));
    std::fs::copy(super::hay_barn(), &real).expect("a copy");
    std::fs::set_permissions(&real, std::fs::Permissions::from_mode(0o600)).expect("permissions");
    std::os::unix::fs::symlink("real.json", &link).expect("a link");
    let before = std::fs::read(&real).expect("the scenario");
    let building = super::scenario("buildings/hay_barn");
    let arguments = ["flow", &building, "--write", "link.json"];
    super::bucketline(folder.path(), &arguments).answered("a link");
    assert!(link.is_symlink());
    assert_ne!(std::fs::read(&real).expect("the scenario"), before);
    assert_eq!(std::fs::metadata(&real).expect("the file").permissions().mode() & 0o777, 0o600);
}
