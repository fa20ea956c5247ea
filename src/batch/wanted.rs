//! What the stock says to a maker: what is low, what ends soon, what a planned batch needs that is not there, and how much of a
//! formula can be made.

use super::{LotStock, MaterialStock, is_past};
use crate::facts::{IngredientId, craft};
use crate::quantity::{Day, Mass, Percent, Quantity, mul_div_floor, sort_by};

/// Why an ingredient is low.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Low {
    /// Nothing that can be used is left.
    Nothing,
    /// Less than the planned batch needs: so much.
    UnderPlan(Mass),
    /// Less than the share of what was delivered from which on it is low.
    Little,
}

/// Whether an ingredient is low on a day; nothing where its amount was not entered. `needed`: what the planned batch takes.
pub fn low(stock: &MaterialStock, needed: Mass, on: Option<Day>) -> Option<Low> {
    let there = stock.usable(on)?;
    if there == Mass::ZERO {
        Some(Low::Nothing)
    } else if there < needed {
        Some(Low::UnderPlan(needed))
    } else {
        (there < stock.delivered().share(craft().low_stock)).then_some(Low::Little)
    }
}

/// The lots of which something is left, that are past their day or soon will be, the earliest first.
pub fn ending(stock: &MaterialStock, on: Day) -> Vec<(&LotStock, Day)> {
    let soon = on.plus_days(craft().ends_soon);
    let left = |lot: &LotStock| lot.left().is_none_or(|left| left > Mass::ZERO);
    let of = |lot| -> Option<(&LotStock, Day)> { Some((lot, lot.expires.filter(|day| *day <= soon)?)) };
    let mut lots: Vec<_> = stock.lots.iter().filter(|lot| left(lot)).filter_map(of).collect();
    sort_by(&mut lots, |a, b| a.1.cmp(&b.1));
    lots
}

/// Whether the day of a lot has passed, or in how many days it will have.
pub fn days_left(expires: Day, on: Day) -> Option<i64> {
    (!is_past(expires, on)).then(|| expires.number() - on.number())
}

/// What a planned batch takes of one ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// Which, where the shelf has it.
    pub ingredient: Option<IngredientId>,
    /// What it is called.
    pub name: String,
    /// How much.
    pub mass: Mass,
}

/// One row of a shopping list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToBuy {
    /// What is needed.
    pub need: Need,
    /// What of it can be used; `None` where that was not entered.
    pub there: Option<Mass>,
}

impl ToBuy {
    /// What is missing; nothing where it is not known what there is.
    pub fn missing(&self) -> Option<Mass> {
        self.there.map(|there| self.need.mass.minus(there).max(Mass::ZERO))
    }
}

/// What a batch needs, each ingredient once, in the order in which it needs them, and what there is of it.
pub fn shopping(needs: &[Need], there: impl Fn(&IngredientId) -> Option<Mass>) -> Vec<ToBuy> {
    let mut list: Vec<ToBuy> = Vec::new();
    for need in needs {
        let same = |row: &&mut ToBuy| match (&row.need.ingredient, &need.ingredient) {
            (None, None) => row.need.name == need.name,
            (ours, theirs) => ours == theirs,
        };
        match list.iter_mut().find(same) {
            Some(row) => row.need.mass = row.need.mass.plus(need.mass),
            None => {
                list.push(ToBuy { need: need.clone(), there: need.ingredient.as_ref().and_then(&there) });
            }
        }
    }
    list
}

/// How much of a formula the stock allows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CanMake {
    /// The largest batch; `None` where the amount of none of its ingredients was entered.
    pub batch: Option<Mass>,
    /// What runs out first.
    pub first_out: String,
    /// The ingredients whose amounts were not entered: it is taken that there is enough of them.
    pub unknown: Vec<String>,
}

/// How much can be made of a formula of these shares, each ingredient by its name.
pub fn can_make(
    shares: &[(Option<IngredientId>, String, Percent)],
    there: impl Fn(&IngredientId) -> Option<Mass>,
) -> CanMake {
    let mut sums: Vec<(&Option<IngredientId>, &str, Percent)> = Vec::new();
    for (id, name, share) in shares.iter().filter(|(_, _, share)| *share > Percent::ZERO) {
        match sums.iter_mut().find(|known| known.0 == id && (id.is_some() || known.1 == name)) {
            Some(known) => known.2 = known.2.plus(*share),
            None => sums.push((id, name, *share)),
        }
    }
    let mut made = CanMake { batch: None, first_out: String::new(), unknown: Vec::new() };
    for (id, name, share) in sums {
        let Some(there) = id.as_ref().and_then(&there) else {
            made.unknown.push(name.to_owned());
            continue;
        };
        let allows = Mass::from_units(mul_div_floor(there.units(), Percent::WHOLE.units(), share.units()));
        if made.batch.is_none_or(|least| allows < least) {
            made.batch = Some(allows);
            made.first_out = name.to_owned();
        }
    }
    made
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    fn id(text: &str) -> IngredientId {
        IngredientId::parse(text).unwrap()
    }

    fn lot(delivered: &str, used: &str, expires: &str) -> LotStock {
        LotStock { lot: "A".into(), delivered: Some(grams(delivered)), used: grams(used), expires: Day::read(expires) }
    }

    fn stock(lots: &[LotStock]) -> MaterialStock {
        MaterialStock { lots: lots.to_vec(), from_none: Mass::ZERO }
    }

    // Worked by hand: of 1000 g a tenth is 100 g.
    #[test]
    fn low_is_nothing_less_than_the_plan_or_under_a_tenth() {
        let on = Day::read("2026-11-30");
        let of = |used: &str, needed: &str| low(&stock(&[lot("1000", used, "2027-01-01")]), grams(needed), on);
        assert_eq!(of("1000", "0"), Some(Low::Nothing));
        assert_eq!(of("1200", "0"), Some(Low::Nothing), "more was weighed than came");
        assert_eq!(of("800", "250"), Some(Low::UnderPlan(grams("250"))));
        assert_eq!(of("900", "100"), None, "a tenth is not under a tenth");
        assert_eq!(of("900.01", "0"), Some(Low::Little));
        assert_eq!(low(&stock(&[lot("1000", "0", "2026-11-29")]), Mass::ZERO, on), Some(Low::Nothing), "it is past");
        assert_eq!(low(&MaterialStock::default(), grams("5"), on), None, "nothing is known of it");
    }

    #[test]
    fn ending_lots_are_those_within_the_days_the_earliest_first() {
        let on = Day::read("2026-11-30").unwrap();
        let soon = on.plus_days(craft().ends_soon).text();
        let later = on.plus_days(craft().ends_soon + 1).text();
        let all =
            stock(&[lot("9", "0", &soon), lot("9", "0", &later), lot("9", "9", &soon), lot("9", "0", "2026-11-29")]);
        let found: Vec<_> = ending(&all, on).into_iter().map(|(_, day)| days_left(day, on)).collect();
        assert_eq!(found, [None, Some(craft().ends_soon)], "what is used up ends no more");
        assert_eq!(days_left(on, on), Some(0), "the day itself is good");
    }

    // Worked by hand: 40 g and 9.44 g of glycerin are 49.44 g, of which 30 g are there: 19.44 g are missing.
    #[test]
    fn shopping_list_is_what_the_plan_needs_less_what_is_there() {
        let need = |of: Option<&str>, name: &str, mass: &str| Need {
            ingredient: of.map(id),
            name: name.into(),
            mass: grams(mass),
        };
        let needs = [
            need(Some("glycerin"), "Glycerin", "40"),
            need(Some("water"), "Water", "855.32"),
            need(None, "Rose dust", "1"),
            need(Some("glycerin"), "Glycerin", "9.44"),
            need(Some("shea"), "Shea butter", "37"),
        ];
        let there = |id: &IngredientId| match id.as_str() {
            "glycerin" => Some(grams("30")),
            "shea" => Some(grams("500")),
            _ => None,
        };
        let list = shopping(&needs, there);
        let told: Vec<_> = list.iter().map(|row| (&*row.need.name, row.need.mass, row.missing())).collect();
        assert_eq!(
            told,
            [
                ("Glycerin", grams("49.44"), Some(grams("19.44"))),
                ("Water", grams("855.32"), None),
                ("Rose dust", grams("1"), None),
                ("Shea butter", grams("37"), Some(Mass::ZERO)),
            ]
        );
    }

    // Worked by hand: 30 g of what is 4 % and 2 % make 30 ÷ 0.06 = 500 g; 90 g of 8 % would make 1125 g.
    #[test]
    fn what_runs_out_first_says_how_much_can_be_made() {
        let share = |text: &str| Percent::from_canonical(text).unwrap();
        let shares = [
            (Some(id("water")), "Water".to_owned(), share("86")),
            (Some(id("glycerin")), "Glycerin".to_owned(), share("4")),
            (Some(id("shea")), "Shea butter".to_owned(), share("8")),
            (Some(id("glycerin")), "Glycerin".to_owned(), share("2")),
        ];
        let there = |id: &IngredientId| match id.as_str() {
            "glycerin" => Some(grams("30")),
            "shea" => Some(grams("90")),
            _ => None,
        };
        let made = can_make(&shares, there);
        assert_eq!((made.batch, &*made.first_out), (Some(grams("500")), "Glycerin"));
        assert_eq!(made.unknown, ["Water"]);
        assert_eq!(can_make(&shares, |_| None).batch, None);
    }
}
