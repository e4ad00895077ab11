use std::io::BufRead;
fn main() {
    let c = trencher::catalogue::Catalogue::embedded().unwrap();
    let t = std::time::Instant::now();
    let mut n = 0;
    for l in std::io::stdin().lock().lines() {
        let l = l.unwrap();
        let f = c.find(&l, &Default::default(), 3);
        n += 1;
        let name = f.food.map(|x| c.food(x).name()).unwrap_or("-");
        let code = f.food.map(|x| c.food(x).code()).unwrap_or("-");
        let alt: Vec<_> = f.alternatives.iter().map(|(a, s)| format!("{} {:.2}", c.food(*a).name(), s)).collect();
        println!("{l} => {name} [{code}] {} {:.2} | {}", f.certainty.word(), f.score, alt.join(" / "));
    }
    eprintln!("{} queries, {:?} each", n, t.elapsed() / n.max(1));
}
