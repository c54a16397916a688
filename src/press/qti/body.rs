//! What an item shows: caution before numbers, the job, its figure, the lines, hints,
//! what was likely done, and the worked solution.

use pumpwright_engine::problems::{
    Figure, Problem, TRAINING, help, pressed, working, working_html,
};

use super::lines::Lines;
use super::xml::{Element, element};

/// The figure of an item.
pub struct Drawn {
    /// Its file, seen from the item.
    pub source: String,
    /// What it shows, in words.
    pub said: String,
}

/// The body of an item.
pub fn body(problem: &Problem, lines: &Lines, drawn: Option<&Drawn>) -> Element {
    let mut body = element("qti-item-body");
    if let Some(caution) = problem.caution() {
        let label = element("strong").text("CAUTION:");
        body = body.put(element("p").put(label).text(format!(" {caution}")));
    }
    body = body.all(problem.story.iter().map(|text| element("p").text(text)));
    let rules = problem.rules.iter();
    body = body.all(rules.map(|rule| element("p").text(format!("House rule: {}", rule.text))));
    let sheets = problem.sheets.iter();
    body = body.all(sheets.map(|text| element("p").text(text)));
    if let Some(figure) = &problem.figure {
        body = body.all(points(figure));
    }
    if let Some(drawn) = drawn {
        let image = element("img")
            .with("src", drawn.source.as_str())
            .with("alt", drawn.said.as_str());
        body = body.put(element("p").put(image));
    }
    if problem.training {
        body = body.put(element("p").text(TRAINING));
    }
    body = body.all(lines.says.iter().map(|text| element("p").text(text)));
    body = body.all(lines.body.iter().cloned());
    body.put(solution(problem))
}

/// The points of a figure that is read off, as a table, and what is marked on it.
fn points(figure: &Figure) -> Vec<Element> {
    let rows = figure.table();
    let Some((heads, rows)) = rows.split_first() else {
        return Vec::new();
    };
    let heads = heads
        .iter()
        .map(|head| element("th").with("scope", "col").text(head));
    let head = element("thead").put(element("tr").all(heads));
    let rows = rows.iter().map(|row| {
        let cells = row.iter().map(|cell| element("td").text(cell));
        element("tr").all(cells)
    });
    let table = element("table")
        .put(element("caption").text(&figure.title))
        .put(head)
        .put(element("tbody").all(rows));
    let marks = figure.marked();
    let marks = marks.iter().map(|mark| element("p").text(mark));
    std::iter::once(table).chain(marks).collect()
}

/// The worked solution, shown once the item is handed in.
fn solution(problem: &Problem) -> Element {
    let mut steps = Vec::new();
    for (line, html) in working(problem).iter().zip(working_html(problem)) {
        let mut step = element("p");
        if line.id.is_empty() {
            steps.push(step.text(&line.says));
            continue;
        }
        let label = element("strong").text(&line.label);
        if html.numbers.is_empty() {
            step = step
                .put(label)
                .text(format!(": {}", arranged(problem, &line.id, &line.text)));
        } else {
            step = step.put(label).html(format!(" = {}", html.words));
            for row in &html.numbers {
                step = step.put(element("br")).html(format!("= {row}"));
            }
        }
        for keys in pressed(line) {
            step = step.put(element("br")).text(keys);
        }
        steps.push(step);
        let reasons = std::iter::once(&line.says).chain(&line.why);
        steps.extend(
            reasons
                .filter(|text| !text.is_empty())
                .map(|text| element("p").text(text)),
        );
    }
    let job = problem.on_the_job().into_iter();
    steps.extend(job.map(|text| element("p").text(format!("On the job: {text}"))));
    let varies = problem.varies().into_iter();
    steps.extend(varies.map(|text| element("p").text(format!("What varies: {text}"))));
    let head = element("p").put(element("strong").text("Worked solution"));
    let content = element("qti-content-body").put(head).all(steps);
    feedback("SOLUTION", "solution", content)
}

/// What an arrangement comes to, in words.
fn arranged(problem: &Problem, id: &str, text: &str) -> String {
    let place = problem.lines.iter().position(|line| line.id == id);
    let step = place.and_then(|place| help(problem, place).pop());
    let rows = step.map(|step| step.text).unwrap_or_default();
    if rows.is_empty() {
        text.to_owned()
    } else {
        rows.join("; ")
    }
}

/// A block that is shown when an outcome has this name.
pub fn feedback(outcome: &str, id: &str, content: Element) -> Element {
    element("qti-feedback-block")
        .with("outcome-identifier", outcome)
        .with("identifier", id)
        .with("show-hide", "show")
        .put(content)
}

/// Numbers of lines in words: `line 2`, `lines 2 and 4`.
pub fn named_lines(numbers: &[usize]) -> String {
    let texts: Vec<String> = numbers.iter().map(usize::to_string).collect();
    match texts.split_last() {
        None => String::new(),
        Some((last, [])) => format!("line {last}"),
        Some((last, rest)) => format!("lines {} and {last}", rest.join(", ")),
    }
}
