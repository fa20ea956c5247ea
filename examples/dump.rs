use hundred_parts::law::*;
fn main() {
    let law = Law::read(COMPACT).unwrap();
    let mut counts = std::collections::BTreeMap::new();
    for e in law.entries() {
        let r = read(e);
        let n = counts.entry(e.annex).or_insert([0; 3]);
        n[match r.extent() {
            Extent::Whole => 0,
            Extent::Part => 1,
            Extent::None => 2,
        }] += 1;
        let verbose = std::env::args().nth(1);
        if let Some(v) = verbose {
            if v == "unread" && e.annex != Annex::II {
                for u in r.uses.iter().filter(|u| u.scope.is_none()) {
                    println!("USE {} {:?}: {}", e.title(), u.letter, u.words.replace('\n', " / "));
                }
                for c in r.conditions.iter().filter(|c| c.what == What::Unread) {
                    println!(
                        "UNREAD {} [{}]: {}",
                        e.title(),
                        c.letters.iter().collect::<String>().chars().take(15).collect::<String>(),
                        c.words.replace('\n', " / ")
                    );
                }
            } else if v == e.title() || v == e.annex.to_string() {
                println!("== {} {}", e.title(), e.chemical.replace('\n', " "));
                for u in &r.uses {
                    println!("  use {:?} {} {}", u.letter, u.scope.is_some(), u.words.replace('\n', " / "));
                }
                for c in &r.conditions {
                    let l = if c.letters == Letters::ALL { "*".into() } else { c.letters.iter().collect::<String>() };
                    let w = match &c.what {
                        What::NotFor(_) => "NotFor".into(),
                        What::Prohibited(_) => "Prohibited".into(),
                        What::Maximum(m) => format!(
                            "Max {:?}..{:?} as {:?} only {} mix {}",
                            m.least,
                            m.most,
                            m.reckoned_as,
                            m.only.is_some(),
                            m.after_mixing
                        ),
                        w => {
                            let s = format!("{w:?}");
                            if s.len() > 120 { s[..120].to_owned() } else { s }
                        }
                    };
                    println!("  [{l}] {w} :: {}", c.words.replace('\n', " / ").chars().take(160).collect::<String>());
                }
            }
        }
    }
    eprintln!("{counts:?}");
}
