//! What a maker typed on the shelf and nobody can read is used nowhere.

use crate::made::*;
use crate::sentences::told;
use hundred_parts::facts::Field;
use hundred_parts::rules::Grade;
use hundred_parts::shelf::check;

fn lotion() -> Made {
    l1().set("audience", "under-3").with("rosehip 2").with("glyceryl-stearate 1")
}

#[test]
fn no_paper_and_no_finding_uses_what_was_not_understood() {
    let plain = told(&lotion());
    let mut tried = 0;
    // Of a fat and of a blend nothing is counted before it is mended, which has findings of its own.
    for field in Field::ALL.into_iter().filter(|field| field.gives_way()) {
        let text = "zzz";
        if check(field, text).is_ok() {
            continue;
        }
        for id in
            ["glycerin", "rosehip", "glyceryl-stearate", "phenoxyethanol-ethylhexylglycerin", "lavender-essential-oil"]
        {
            let made = lotion().shelf(id, field, text);
            assert_eq!(told(&made), plain, "{id} {field:?}");
        }
        tried += 1;
    }
    assert_eq!(tried, 15, "every field of a kind that gives way");
}

#[test]
fn the_tables_value_counts_where_the_makers_cannot_be_read() {
    let much = kept_glycerin("abc").says("above-most", Grade::Care);
    assert_eq!(much.limit().as_deref(), Some("20 %"));
    assert_eq!(kept_glycerin("22").says("above-most", Grade::Stop).limit().as_deref(), Some("22 %"));
    let hot = Made::of(&["water fill-up"]).phase("oil", "75", &["rosehip 5"]).shelf("rosehip", Field::HeatMax, "warm");
    assert_eq!(hot.says_lowered("too-hot").limit().as_deref(), Some("50 \u{b0}C"));
    // Parts that cannot be read say that this blend is another one than the table's: any of it may be the capped substance.
    let blend = water(&["phenoxyethanol-ethylhexylglycerin 1.20"]);
    let blend = blend.shelf("phenoxyethanol-ethylhexylglycerin", Field::Components, "mostly phenoxyethanol");
    blend.says("composition-unknown", Grade::Care);
    assert_eq!(value(&blend.says_lowered("above-maximum")), "1.2 %");
}

fn kept_glycerin(most: &str) -> Made {
    water(&["phenoxyethanol 0.8", "glycerin 25"]).shelf("glycerin", Field::Max, most)
}
