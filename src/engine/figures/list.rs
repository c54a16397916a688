//! A scene as a plain list of labelled numbers, for whoever hears it.

use super::scene::Scene;

/// What stands for a value that the sheet asks.
const ASKED: &str = "asked on the sheet";

/// The lines of the list: the heading, then each number with what it is, then what
/// is said of the scale.
pub fn list(scene: &Scene) -> Vec<String> {
    let mut lines = vec![scene.title.clone()];
    lines.extend(scene.caution.iter().map(|text| format!("caution: {text}")));
    for value in &scene.values {
        let text = if value.text == super::readings::ASKED {
            ASKED
        } else {
            value.text.as_str()
        };
        lines.push(format!("{}: {text}", value.label));
    }
    if !scene.scale.is_empty() {
        lines.push(format!("scale: {}", scene.scale));
    }
    lines
}
