//! A share over time, with its interval as a band and a mark that is to be reached.

use maud::{Markup, html};

use super::{Said, WIDE, area, framed, line, path, some, spot, text};

/// A point of it.
pub struct TrackPoint {
    /// The share.
    pub share: f64,
    /// The ends of its interval.
    pub between: (f64, f64),
}

/// What is drawn.
pub struct Track {
    /// For each place of time its name, and the point where there is one.
    pub places: Vec<(String, Option<TrackPoint>)>,
    /// The mark that is to be reached, with its name.
    pub mark: (f64, String),
}

const LEFT: f64 = 38.0;
const RIGHT: f64 = 12.0;
const HEAD: f64 = 10.0;
const HIGH: f64 = 150.0;

/// The whole of it. Where nothing is between two points no line joins them.
pub fn track(said: &Said<'_>, track: &Track) -> Markup {
    let last = track.places.len().saturating_sub(1).max(1) as f64;
    let across = |at: usize| LEFT + at as f64 / last * (WIDE - LEFT - RIGHT);
    let down = |share: f64| HEAD + (1.0 - share.clamp(0.0, 1.0)) * HIGH;
    let foot = HEAD + HIGH;
    let inside = html! {
        @for run in runs(track) {
            @let upper: Vec<_> = run.iter().map(|(at, point)| (across(*at), down(point.between.1))).collect();
            @let lower: Vec<_> = run.iter().map(|(at, point)| (across(*at), down(point.between.0))).collect();
            @let middle: Vec<_> = run.iter().map(|(at, point)| (across(*at), down(point.share))).collect();
            @let ring: Vec<_> = upper.iter().chain(lower.iter().rev()).copied().collect();
            @if let [only] = middle.as_slice() {
                (line("edge", (only.0, upper[0].1), (only.0, lower[0].1)))
            } @else {
                (area("band", &ring))
                (path("edge", &upper))
                (path("edge", &lower))
                (path("line", &middle))
            }
            @for point in &middle { (spot(*point)) }
        }
        @for tick in [0.0, 0.5, 1.0] {
            (text("end", (LEFT - 4.0, down(tick) + 4.0), &format!("{:.0} %", 100.0 * tick)))
            (line("axis", (LEFT - 3.0, down(tick)), (LEFT, down(tick))))
        }
        (line("axis", (LEFT, HEAD), (LEFT, foot)))
        (line("axis", (LEFT, foot), (WIDE - RIGHT, foot)))
        (line("rule", (LEFT, down(track.mark.0)), (WIDE - RIGHT, down(track.mark.0))))
        (text("start", (LEFT + 4.0, down(track.mark.0) - 3.0), &track.mark.1))
        @for at in some(track.places.len(), 5) {
            @let anchor = if at == 0 { "start" } else { "middle" };
            @if let Some((name, _)) = track.places.get(at) {
                (text(anchor, (across(at), foot + 14.0), name))
            }
        }
    };
    framed(said, foot + 20.0, &inside)
}

/// The points that follow each other without a gap.
fn runs(track: &Track) -> Vec<Vec<(usize, &TrackPoint)>> {
    let mut runs: Vec<Vec<(usize, &TrackPoint)>> = Vec::new();
    let mut open = false;
    for (at, (_, point)) in track.places.iter().enumerate() {
        let Some(point) = point else {
            open = false;
            continue;
        };
        match runs.last_mut() {
            Some(run) if open => run.push((at, point)),
            _ => runs.push(vec![(at, point)]),
        }
        open = true;
    }
    runs
}
