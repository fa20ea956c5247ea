//! The lye of a soap, or of the part of a formula that is to be saponified: on screen and on paper, cautions in full.

use crate::ui::benches::{names, read};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, each, el, opened, ticked, when};
use crate::ui::field::{button, pick_one, quantity_field};
use crate::ui::{browser, oils::numbers};
use hundred_parts::desk::Action;
use hundred_parts::formula::{LineId, Use};
use hundred_parts::paper::{LyeCaution, LyeFacts, lye_facts};
use hundred_parts::quantity::{Quantity, Typed};
use hundred_parts::sheet::{Acknowledgement, AlkaliChoice, LyeField, LyePlan, NoLye, SvBasis, WaterBy};
use hundred_parts::words::{FieldText, SheetStyle, lye, oils, page};
use leptos::prelude::*;

/// The card; nothing but a folded offer while no lye is asked for.
pub(super) fn card(desk: Desk) -> View {
    let asked = move || desk.derived(|derived| derived.sheet.lye.is_some());
    let is_soap = move || desk.with(|open| open.state().formula.about.purpose == Use::Soap);
    View::from_iter([when(move || !is_soap(), move || part(desk).into()), when(asked, move || sheet(desk).into())])
}

/// Which fats of a formula that is no soap are to be saponified.
fn part(desk: Desk) -> El {
    let fats = move || {
        desk.derived(|derived| {
            let found = &derived.sheet.fats;
            let counted = found.counted.iter().map(|(id, _)| id.number());
            counted.chain(found.uncounted.iter().map(|(id, _)| id.number())).collect::<Vec<_>>()
        })
    };
    let picked = move |id: LineId| desk.with(|open| open.state().lye.part.names(id));
    let row = move |number: u32| {
        let id = LineId::of(number);
        let name = move || desk.with(|open| names(open)(id));
        let tick = el("input").attr("type", "checkbox").checked_of(move || picked(id)).on("change", move |event| {
            desk.act(Action::Saponify(desk.now(|open| open.state().lye.part.with(id, ticked(&event)))));
        });
        el("label").class("tick").child(tick).text(" ").child(el("span").text_of(name))
    };
    let open = RwSignal::new(false);
    el("details")
        .class("card no-print")
        .id("lye-part")
        .child(el("summary").child(el("h2").text(oils::PART)))
        .child(when(
            move || open.get(),
            move || el("div").class("inside").child(el("p").text(oils::PART_INTRO)).child(each(fats, row)).into(),
        ))
        .on("toggle", move |event| open.set(opened(&event)))
}

/// What is shown: a whole paper, or why there is none.
#[derive(Clone)]
struct Shown(Result<(LyeFacts, SheetStyle), String>);

fn shown(desk: Desk) -> Option<Shown> {
    read(desk, |open, derived| {
        let (formula, found) = (&open.state().formula, derived.sheet.lye.as_ref()?);
        let step = derived.sheet.weigh.as_ref().map(|sheet| sheet.step).ok();
        let refused = |why: &NoLye| lye::no_lye(why, &why.line().map(names(open)).unwrap_or_default(), desk.sign);
        Some(Shown(match (found, step) {
            (Ok(found), Some(step)) => {
                let style = SheetStyle { unit: open.state().plan.unit, sign: desk.sign, step };
                Ok((lye_facts(formula, found, open.shelf()), style))
            }
            (Ok(_), None) => Err(lye::no_lye(&NoLye::NoFats, "", desk.sign)),
            (Err(why), _) => Err(refused(why)),
        }))
    })
}

fn sheet(desk: Desk) -> El {
    let alkalis = move || desk.derived(|derived| matches!(&derived.sheet.lye, Some(Ok(_))));
    // The paper has no equality of its own; it follows from these.
    let of = move || {
        read(desk, |open, derived| {
            let state = open.state();
            (derived.sheet.lye.clone(), state.plan.unit, state.formula.about.title.clone())
        })
    };
    let result = dynamic(of, move |_| match shown(desk) {
        None => View::nothing(),
        Some(Shown(Err(why))) => el("p").class("caution large").attr("role", "status").text(&why).into(),
        Some(Shown(Ok((paper, style)))) => result(&paper, style),
    });
    let print = || request_animation_frame(browser::print);
    let title = el("h2").id("lye-title").text(lye::TITLE).child(
        el("span")
            .class("print-only")
            .text_of(move || desk.with(|open| format!(" \u{2013} {}", open.state().formula.about.title))),
    );
    el("section")
        .class("card lye")
        .class_if("no-print", move || !alkalis())
        .attr("aria-labelledby", "lye-title")
        .child(title)
        .child(el("p").class("caution").text(lye::NO_LOTION))
        .child(fields(desk))
        .child(acknowledge(desk))
        .child(cautions())
        .child(result)
        .child(el("p").class("small").text(lye::DEFER))
        .child(
            el("div")
                .class("actions no-print")
                .child(button(oils::PRINT_LYE).press(print).disabled_if(move || !alkalis())),
        )
}

fn fields(desk: Desk) -> El {
    let alkali = move || desk.with(|open| open.state().lye.alkali);
    let choice = pick_one("lye-alkali", oils::ALKALI, AlkaliChoice::ALL, oils::alkali_choice, alkali, move |alkali| {
        desk.act(Action::Alkali(alkali));
    });
    let basis = pick_one(
        "lye-basis",
        oils::LYE_BASIS,
        SvBasis::ALL,
        lye::basis,
        move || desk.with(|open| open.state().lye.basis),
        move |basis| {
            desk.act(Action::LyeBasis(basis));
        },
    );
    let water = pick_one(
        "lye-water-by",
        oils::WATER_BY,
        WaterBy::ALL,
        oils::water_by,
        move || desk.with(|open| open.state().lye.water_by),
        move |by| {
            desk.act(Action::LyeWater(by));
        },
    );
    let share = when(
        move || alkali() == AlkaliChoice::Both,
        move || field(desk, LyeField::SodiumShare, (oils::SODIUM_SHARE, "%"), |plan| &plan.sodium_share).into(),
    );
    let sodium = when(
        move || alkali() != AlkaliChoice::Potassium,
        move || field(desk, LyeField::SodiumPurity, (oils::SODIUM_PURITY, "%"), |plan| &plan.sodium_purity).into(),
    );
    let potassium = when(
        move || alkali() != AlkaliChoice::Sodium,
        move || {
            field(desk, LyeField::PotassiumPurity, (oils::POTASSIUM_PURITY, "%"), |plan| &plan.potassium_purity).into()
        },
    );
    let by_ratio = move || desk.with(|open| open.state().lye.water_by == WaterBy::Ratio);
    let amount = dynamic(by_ratio, move |by_ratio| {
        if *by_ratio {
            field(desk, LyeField::Ratio, (oils::WATER_RATIO, ""), |plan| &plan.ratio).into()
        } else {
            field(desk, LyeField::Concentration, (oils::LYE_CONCENTRATION, "%"), |plan| &plan.concentration).into()
        }
    });
    el("div")
        .class("fields no-print")
        .child(choice)
        .child(share)
        .child(sodium)
        .child(potassium)
        .child(field(desk, LyeField::Discount, (oils::LYE_DISCOUNT, "%"), |plan| &plan.discount))
        .child(basis)
        .child(water)
        .child(amount)
}

fn field<T: Quantity + 'static>(
    desk: Desk,
    which: LyeField,
    (label, unit): (&str, &str),
    read: for<'a> fn(&'a LyePlan) -> &'a Typed<T>,
) -> El {
    let shown = move || desk.with(|open| FieldText::of(read(&open.state().lye), desk.sign));
    let id = format!("lye-{}", which.key());
    let set = move |text| {
        desk.act(Action::LyeText(which, text));
    };
    quantity_field(desk, &id, label, unit, shown, set)
}

/// Asked for where the discount leaves no margin, and kept in sight once it was given.
fn acknowledge(desk: Desk) -> View {
    let known = move || desk.with(|open| open.state().lye.no_margin.is_given());
    let asked =
        move || known() || desk.derived(|derived| matches!(&derived.sheet.lye, Some(Err(NoLye::Unacknowledged(_)))));
    when(asked, move || {
        let tick =
            el("input").id("lye-acknowledged").attr("type", "checkbox").checked_of(known).on("change", move |event| {
                desk.act(Action::LyeNoMargin(Acknowledgement::given_if(ticked(&event))));
            });
        el("label").class("tick caution no-print").child(tick).text(" ").text(oils::ACKNOWLEDGE).into()
    })
}

fn result(paper: &LyeFacts, style: SheetStyle) -> View {
    let dose = |name: &str, mass: String| el("div").child(el("dt").text(name)).child(el("dd").text(&mass));
    let weighed = paper.alkalis.iter().map(|alkali| dose(lye::alkali(alkali.alkali), style.mass(alkali.weigh)));
    let doses = el("dl").class("doses").attr("aria-label", oils::WEIGH_LYE).child(weighed.collect::<View>());
    let doses = doses.child(dose(oils::WATER, style.mass(paper.water)));
    let notes = paper.notes.iter().map(|(note, name)| el("li").text(&lye::note(note, name, style.sign)));
    let rows = paper.alkalis.iter().filter_map(|alkali| alkali.row);
    let expect = rows
        .clone()
        .map(|row| el("div").child(el("p").text(&lye::expected_ph(row))).child(el("p").text(&lye::cure(row))));
    let labels = rows.map(|row| el("p").class("small").text(&lye::label(row)));
    View::from_iter([
        doses.into(),
        el("p").text(&lye::solution(paper, style)).into(),
        el("p").text(&lye::discount(paper, style.sign)).into(),
        View::from(el("h3").text(oils::LEFT_OVER)),
        numbers(&lye::left_over(paper, style.sign)).into(),
        el("ul").class("notes-of-lye").child(notes.collect::<View>()).into(),
        fats(paper, style).into(),
        acids(paper, style).into(),
        el("h3").text(oils::EXPECT).into(),
        expect.collect(),
        labels.collect(),
    ])
}

fn fats(paper: &LyeFacts, style: SheetStyle) -> El {
    let head = |text: &str, class: &str| el("th").attr("scope", "col").class(class).text(text);
    let row = |fat: &hundred_parts::paper::FatRowOnPaper| {
        el("tr")
            .child(el("th").attr("scope", "row").text(&fat.name))
            .child(el("td").class("number").text(&style.mass(fat.mass)))
            .child(el("td").class("number").text(&lye::fat_value(fat, style.sign)))
    };
    let metas =
        el("tr").child(head(oils::FAT, "")).child(head(oils::MASS, "number")).child(head(oils::SV_RANGE, "number"));
    let total = el("tr")
        .child(el("th").attr("scope", "row").text(page::TOTAL))
        .child(el("td").class("number").text(&style.mass(paper.fat_mass)))
        .child(el("td"));
    el("table")
        .class("compare")
        .child(el("caption").class("hidden").text(oils::FAT))
        .child(el("thead").child(metas))
        .child(el("tbody").child(paper.fats.iter().map(row).collect::<View>()))
        .child(el("tfoot").child(total))
}

/// What acids of the formula take up; nothing where there are none.
fn acids(paper: &LyeFacts, style: SheetStyle) -> Option<El> {
    let each = paper.acids.iter().map(|acid| el("li").text(&lye::acid_row(acid, style.sign)));
    (!paper.acids.is_empty()).then(|| {
        el("section")
            .child(el("h3").text(oils::ACIDS))
            .child(el("ul").class("notes-of-lye").child(each.collect::<View>()))
    })
}

/// All of them, always, whether or not there is a result.
fn cautions() -> El {
    let each = LyeCaution::ALL.into_iter().map(|caution| el("li").text(lye::caution(caution)));
    el("section")
        .class("cautions")
        .child(el("h3").text(oils::CAUTIONS))
        .child(el("ul").child(each.collect::<View>()))
        .child(el("p").class("small").text(lye::CAUTION_SOURCE))
}
