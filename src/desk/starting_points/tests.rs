//! The file of starting points, and their order.

use super::*;

#[test]
fn each_starting_point_is_read() {
    let problems: Vec<String> = read_all(include_str!("starting-points.json"))
        .into_iter()
        .filter_map(|point| point.err().map(|problem| problem.to_string()))
        .collect();
    assert_eq!(problems, Vec::<String>::new());
    let keys: Vec<String> = starting_points().into_iter().map(|point| point.key).collect();
    assert_eq!(keys, ["light-lotion", "rich-cream", "gel-cream", "balm", "cleanser", "bar-soap"]);
}

#[test]
fn what_is_wrong_in_the_file_is_said_with_its_place() {
    let told = |entry: &str| {
        let read = read_all(&format!(r#"{{"starting_points": [{entry}]}}"#));
        read.into_iter().map(|point| point.unwrap_err().to_string()).collect::<Vec<_>>().join("; ")
    };
    let whole = r#"{"key": "a", "why": "b", "skins": {"dry": 3}, "climates": {}, "formula": {"phases": []}}"#;
    for (from, to, place) in [
        (r#""key""#, r#""kez""#, "starting_points[0].key"),
        (r#""dry""#, r#""dusty""#, "starting_points[0].skins"),
        (": 3", ": 4", "starting_points[0].skins"),
        ("\"phases\": []", r#""phases": [{"lines": [{"ingredient": "nowhere"}]}]"#, "phases[0].lines[0].ingredient"),
    ] {
        let problem = told(&whole.replace(from, to));
        assert!(problem.contains(place), "{problem}");
    }
    assert_eq!(told(whole.replace("\"a\"", "7").as_str()).split(':').next(), Some("starting_points[0].key"));
    assert!(read_all("[]")[0].is_err() && read_all("{")[0].is_err());
}

/// The two that come first for each skin and climate: a change here must be a decision.
#[test]
fn best_fit_comes_first() {
    let expected = |skin, climate| match (skin, climate) {
        (Skin::Dry, Climate::ColdDry) => ["rich-cream", "balm"],
        (Skin::Dry, Climate::Temperate) => ["rich-cream", "light-lotion"],
        (Skin::Dry, Climate::HotHumid) => ["light-lotion", "rich-cream"],
        (Skin::Normal, Climate::ColdDry) => ["rich-cream", "light-lotion"],
        (Skin::Normal, _) => ["light-lotion", "gel-cream"],
        (Skin::Oily, Climate::ColdDry) => ["light-lotion", "cleanser"],
        (Skin::Oily, _) => ["gel-cream", "light-lotion"],
        (Skin::Sensitive, Climate::ColdDry) => ["rich-cream", "balm"],
        (Skin::Sensitive, Climate::Temperate) => ["light-lotion", "rich-cream"],
        (Skin::Sensitive, Climate::HotHumid) => ["light-lotion", "gel-cream"],
    };
    for skin in Skin::ALL.iter().copied() {
        for climate in Climate::ALL.iter().copied() {
            let keys: Vec<String> = suited(skin, climate).into_iter().map(|point| point.key).collect();
            assert_eq!(keys.len(), starting_points().len());
            assert_eq!(keys[..2], expected(skin, climate), "{skin:?} {climate:?}");
        }
    }
}

#[test]
fn each_suits_some_skin_and_every_skin_and_climate_is_suited() {
    let points = starting_points();
    assert!(points.iter().all(|point| !point.skins().is_empty()));
    assert!(Skin::ALL.iter().all(|skin| points.iter().filter(|point| point.skins().contains(skin)).count() >= 2));
    assert!(Climate::ALL.iter().all(|climate| points.iter().any(|point| point.climates().contains(climate))));
}
