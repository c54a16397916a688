//! What holds of every figure over many draws of the shipped families.

use std::collections::BTreeMap;

use pumpwright_engine::figures::{
    Frame, Ink, Label, Mark, Scene, Shape, Signs, Tone, View, cells, list, scene, svg,
};
use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Bound, Library, SceneKind};
use pumpwright_engine::problems::{Asks, Problem, Request, Settings, draw, working};
use pumpwright_engine::quantities::System;

use crate::common::{Face, faces, shipped};
use crate::looks;

/// Draws of each kind of figure, shared out among the families that bind it.
const DRAWS: usize = 1000;

/// The frames that surfaces give: beside a sheet, over it, on a page.
const FRAMES: [Frame; 5] = [
    Frame::LEAST,
    Frame {
        columns: 54,
        rows: 34,
    },
    Frame::SCREEN,
    Frame {
        columns: 44,
        rows: 22,
    },
    Frame {
        columns: 120,
        rows: 30,
    },
];

/// The faces that bind a figure, by its kind.
fn bound(library: &Library) -> BTreeMap<SceneKind, Vec<Face>> {
    let mut found: BTreeMap<SceneKind, Vec<Face>> = BTreeMap::new();
    for face in faces(library) {
        let variant = library.variant(&face.0, face.1, face.2).expect("a variant");
        if let Some(figure) = &variant.scene {
            found.entry(figure.kind).or_default().push(face);
        }
    }
    found
}

/// So many draws of each kind of figure, each with its place in the row.
fn each(library: &Library, draws: usize, look: impl FnMut(&Problem, usize)) {
    each_of(library, &SceneKind::ALL, draws, look);
}

fn each_of(
    library: &Library,
    kinds: &[SceneKind],
    draws: usize,
    mut look: impl FnMut(&Problem, usize),
) {
    let settings = Settings::default();
    let bound = bound(library);
    assert_eq!(bound.len(), SceneKind::ALL.len(), "a kind without a family");
    for (kind, faces) in bound.iter().filter(|(kind, _)| kinds.contains(kind)) {
        let mut done = 0;
        for at in 0..draws {
            let (family, level, system) = &faces[at % faces.len()];
            let request = Request {
                family,
                level: Some(*level),
                system: *system,
                draw: at as u32,
                settings: &settings,
            };
            if let Ok(problem) = draw(library, &request) {
                look(&problem, at);
                done += 1;
            }
        }
        assert!(done > draws * 9 / 10, "{}: {done} draws", kind.name());
    }
}

fn views(problem: &Problem) -> [View; 3] {
    // A learner who takes the first mistake that can be made, and leaves the rest.
    let wrong = problem.mistakes.iter().find_map(|mistake| {
        let step = problem.variant.step(&mistake.step)?;
        Some((step, mistake.value.clone()?))
    });
    let wrong: Vec<(usize, Value)> = wrong.into_iter().collect();
    [
        View::before(problem),
        View::worked(problem),
        View::yours(problem, &wrong),
    ]
}

fn overlaps(one: &Label, two: &Label) -> bool {
    let (from, to) = (one.column.max(two.column), |label: &Label| {
        label.column + label.width()
    });
    // In cells as in a page of vectors, where a text may stand between two rows.
    let apart = (height(one) - height(two)).abs();
    (one.row == two.row || apart < 1.0 - 1e-9) && from < to(one).min(to(two))
}

/// Where the middle of a text stands in a page of vectors, in rows.
fn height(label: &Label) -> f64 {
    label.row as f64 + 0.5 + label.lower
}

fn sound(problem: &Problem, scene: &Scene) {
    let heading = scene.labels.iter().filter(|own| own.tone == Tone::Title);
    let heading: Vec<&str> = heading.map(|own| own.text.as_str()).collect();
    assert_eq!(heading.join(" "), scene.title, "{}", problem.code);
    let code = &problem.code;
    assert!(
        scene.left_out.is_empty(),
        "{code}: no room for {:?}",
        scene.left_out
    );
    for (at, label) in scene.labels.iter().enumerate() {
        let inside =
            label.column + label.width() <= scene.frame.columns && label.row < scene.frame.rows;
        let inside =
            inside && height(label) >= 0.5 && height(label) <= scene.frame.rows as f64 - 0.5;
        assert!(inside, "{code}: {label:?} is not in {:?}", scene.frame);
        for other in &scene.labels[at + 1..] {
            assert!(!overlaps(label, other), "{code}: {label:?} on {other:?}");
        }
    }
    for shape in &scene.shapes {
        let points = match shape {
            Shape::Path { points, .. } => points.clone(),
            Shape::Area { from, to, .. } => vec![*from, *to],
            Shape::Mark { at, .. } => vec![*at],
        };
        for (x, y) in points {
            let inside = (0.0..=scene.frame.columns as f64).contains(&x)
                && (0.0..=scene.frame.rows as f64).contains(&y);
            assert!(inside, "{code}: {shape:?} leaves {:?}", scene.frame);
        }
    }
}

#[test]
fn labels_stay_inside_and_apart_and_nothing_leaves_the_frame() {
    let library = shipped();
    each(&library, DRAWS, |problem, at| {
        for (index, view) in views(problem).iter().enumerate() {
            let frame = FRAMES[(at + index) % FRAMES.len()];
            let scene = scene(problem, view, frame).expect("a figure");
            sound(problem, &scene);
            assert_eq!(cells(&scene, Signs::Drawn).rows().len(), scene.frame.rows);
        }
    });
}

/// The shipped families off whose figure a value is read.
fn read_off(library: &Library) -> Vec<Face> {
    let drawn = |face: &Face| {
        let variant = library.variant(&face.0, face.1, face.2).expect("a variant");
        variant.scene.is_none() && variant.figure.is_some()
    };
    faces(library).into_iter().filter(drawn).collect()
}

/// Whether a path of the scene goes through a place.
fn passes(scene: &Scene, (x, y): (f64, f64)) -> bool {
    scene.shapes.iter().any(|shape| match shape {
        Shape::Path {
            points,
            ink: Ink::Heavy,
        } => {
            let near =
                |point: &(f64, f64)| (point.0 - x).abs() < 1e-6 && (point.1 - y).abs() < 1e-6;
            points.iter().any(near)
        }
        _ => false,
    })
}

#[test]
fn a_figure_to_read_off_shows_its_points_and_keeps_its_answer() {
    let library = shipped();
    let faces = read_off(&library);
    assert!(faces.len() >= 6, "{faces:?}");
    for at in 0..DRAWS {
        let (family, level, system) = &faces[at % faces.len()];
        let request = Request {
            family,
            level: Some(*level),
            system: *system,
            draw: at as u32,
            settings: &Settings::default(),
        };
        let problem = draw(&library, &request).expect("a problem");
        let figure = problem.figure.as_ref().expect("a figure");
        for (index, view) in views(&problem).iter().enumerate() {
            let frame = FRAMES[(at + index) % FRAMES.len()];
            let scene = scene(&problem, view, frame).expect("a figure");
            sound(&problem, &scene);
            assert_eq!(
                list(&scene).len(),
                figure.sentences().len() + 2 + usize::from(problem.caution().is_some())
            );
        }
        let before = scene(&problem, &View::before(&problem), Frame::SCREEN).expect("a figure");
        for step in problem
            .variant
            .steps
            .iter()
            .filter(|step| step.reads.is_some())
        {
            let told = |label: &Label| label.text.contains(&step.label);
            assert!(!before.labels.iter().any(told), "{}", problem.code);
        }
    }
}

/// Both axes are to scale: of each curve, the shares of its height lie as its values do.
#[test]
fn a_curve_to_read_off_goes_through_each_of_its_points() {
    let library = looks::still();
    for system in System::BOTH {
        let problem = looks::drawn(&library, "read-chart", system);
        let figure = problem.figure.as_ref().expect("a figure");
        let scene = scene(&problem, &View::before(&problem), Frame::SCREEN).expect("a figure");
        let cell = |value: &Value| value.number().expect("a figure").si;
        let points = figure.series.iter().flat_map(|series| &series.points);
        let points: Vec<(f64, f64)> = points.map(|own| (cell(&own[0]), cell(&own[1]))).collect();
        // Two known corners give the scale: the axes meet at nothing, flow and head.
        let corner = scene.shapes.iter().find_map(|shape| match shape {
            Shape::Path {
                points,
                ink: Ink::Line,
            } if points.len() == 3 => Some(points.clone()),
            _ => None,
        });
        let corner = corner.expect("the axes");
        let (left, bottom, right) = (corner[1].0, corner[1].1, corner[2].0);
        let far = points.iter().map(|point| point.0).fold(0.0, f64::max);
        let wide = (right - left) / far;
        let tops: Vec<f64> = scene
            .shapes
            .iter()
            .filter_map(|shape| match shape {
                Shape::Path {
                    points,
                    ink: Ink::Heavy,
                } => Some(points[0].1),
                _ => None,
            })
            .collect();
        let high = (bottom - tops[0]) / points[0].1;
        for (flow, head) in points {
            let place = (flow.mul_add(wide, left), head.mul_add(-high, bottom));
            assert!(passes(&scene, place), "{flow} {head} at {place:?}");
        }
    }
}

/// Whether a text holds another one that is no part of a longer figure.
fn holds(text: &str, part: &str) -> bool {
    text.match_indices(part).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + part.len()..].chars().next();
        !before.is_some_and(|c| c.is_alphanumeric() || c == '.')
            && !after.is_some_and(char::is_alphanumeric)
    })
}

#[test]
fn before_the_sheet_is_handed_in_no_figure_shows_what_is_asked() {
    let library = shipped();
    let mut looked = 0;
    each(&library, DRAWS / 5, |problem, at| {
        let scene = scene(problem, &View::before(problem), FRAMES[at % FRAMES.len()]);
        let scene = scene.expect("a figure");
        let said = list(&scene).join("\n");
        let page = svg(&scene);
        for line in working(problem) {
            let asked = problem.lines.iter().find(|other| other.id == line.id);
            let Some(asked) = asked.filter(|asked| asked.asks == Asks::Figure) else {
                continue;
            };
            let story = problem.story.iter().any(|text| holds(text, &line.text));
            let given = problem
                .givens
                .iter()
                .any(|given| given.text == line.text || holds(&given.text, &line.text));
            // A figure that a table or a rule gives as well says nothing of the answer.
            let open = problem
                .rules
                .iter()
                .any(|rule| holds(&rule.text, &line.text));
            if story || given || open {
                continue;
            }
            let label = |text: &str| format!(" {text}");
            let plan = problem.variant.scene.as_ref().expect("a figure");
            let slot = problem.variant.steps[asked.step].slot;
            for binding in &plan.bindings {
                let Bound::Formula(formula) = &binding.bound else {
                    continue;
                };
                if formula.plain_name() == slot.map(|slot| (slot, None)) {
                    let shown = format!("{}{}", binding.port.label, label(&line.text));
                    assert!(!said.contains(&shown), "{}: {shown}", problem.code);
                    assert!(!page.contains(&shown), "{}: {shown}", problem.code);
                    looked += 1;
                }
            }
        }
    });
    assert!(looked > 200, "only {looked} figures were looked for");
}

/// The numbers before a unit in the list of a scene, by their labels.
fn number(scene: &Scene, label: &str) -> Option<f64> {
    let value = scene.values.iter().find(|value| value.label == label)?;
    value.text.split(' ').next()?.parse().ok()
}

/// The greatest last place of the numbers of these labels.
fn coarsest(scene: &Scene, labels: &[&str]) -> f64 {
    let of = scene
        .values
        .iter()
        .filter(|value| labels.contains(&value.label.as_str()));
    let places = of.map(|value| {
        let figure = value.text.split(' ').next().unwrap_or_default();
        figure.split_once('.').map_or(0, |(_, behind)| behind.len())
    });
    (0..places.min().unwrap_or(0)).fold(1.0, |place, _| place / 10.0)
}

#[test]
fn levels_lie_in_order_and_by_the_scale() {
    let library = shipped();
    let mut seen = 0;
    each_of(&library, &[SceneKind::WellSection], DRAWS, |problem, at| {
        let frame = FRAMES[at % FRAMES.len()];
        let scene = scene(problem, &View::worked(problem), frame).expect("a figure");
        let names = ["static level", "pumping level", "pump setting", "depth"];
        let found: Vec<(f64, usize)> = names
            .iter()
            .filter_map(|name| {
                let value = number(&scene, name)?;
                let text = format!("{name} ");
                let label = scene
                    .labels
                    .iter()
                    .find(|label| label.text.starts_with(&text))?;
                Some((value, label.row))
            })
            .collect();
        // A pump may be asked for that does not clear the bottom: what is deeper is lower.
        let mut found = found;
        found.sort_by(|one, two| one.0.total_cmp(&two.0));
        for pair in found.windows(2) {
            assert!(pair[0].1 < pair[1].1, "{}: {found:?}", problem.code);
        }
        // The signs of water stand as far apart as the scale says.
        let waters: Vec<f64> = scene
            .shapes
            .iter()
            .filter_map(|shape| match shape {
                Shape::Mark {
                    at,
                    mark: Mark::Level,
                } => Some(at.1),
                _ => None,
            })
            .collect();
        let (still, pumping) = (
            number(&scene, "static level"),
            number(&scene, "pumping level"),
        );
        let (top, end) = (3.5, scene.frame.rows as f64 - 1.5);
        let has_depth = number(&scene, "depth").is_some();
        // A level whose words found no room is drawn, too.
        let drawn = names.iter().filter_map(|name| number(&scene, name));
        let deepest = drawn.max_by(f64::total_cmp);
        if let (&[one, two], Some(still), Some(pumping), Some(depth)) =
            (&waters[..], still, pumping, deepest.filter(|_| has_depth))
        {
            // What is printed may be a whole last place away from what is drawn.
            let slack = 0.01 + (end - top) * 2.0 * coarsest(&scene, &names) / depth;
            for (at, value) in [(one, still), (two, pumping)] {
                let place = top + (end - top) * value / depth;
                assert!((at - place).abs() < slack, "{}: {at} {place}", problem.code);
            }
            seen += 1;
        }
    });
    assert!(seen > 50, "{seen} wells with all levels");
}

#[test]
fn the_curve_passes_through_its_published_points() {
    let library = shipped();
    let mut seen = 0;
    each_of(&library, &[SceneKind::PumpCurve], DRAWS, |problem, at| {
        let frame = FRAMES[at % FRAMES.len()];
        let scene = scene(problem, &View::worked(problem), frame).expect("a figure");
        let curve = scene.shapes.iter().find_map(|shape| match shape {
            Shape::Path {
                points,
                ink: Ink::Heavy,
            } => Some(points.clone()),
            _ => None,
        });
        let curve = curve.expect("a curve");
        let dot = scene.shapes.iter().find_map(|shape| match shape {
            Shape::Mark {
                at,
                mark: Mark::Dot,
            } => Some(*at),
            _ => None,
        });
        let rated = dot.expect("the rated point");
        let near = curve.windows(2).any(|piece| {
            let share = (rated.0 - piece[0].0) / (piece[1].0 - piece[0].0);
            let y = piece[0].1 + share * (piece[1].1 - piece[0].1);
            (0.0..=1.0).contains(&share) && (y - rated.1).abs() < 0.05
        });
        assert!(near, "{}: {rated:?} is off the curve", problem.code);
        // Both points lie where the scale of heads has them.
        let bottom = scene.frame.rows as f64 - 1.5 - 3.0;
        let (shut, head) = (
            number(&scene, "head at no flow").expect("a head"),
            number(&scene, "head at rated flow").expect("a head"),
        );
        let rise = (bottom - curve[0].1) / (bottom - rated.1);
        assert!(
            (rise - shut / head).abs() < 0.01 * rise,
            "{}: {rise}",
            problem.code
        );
        seen += 1;
    });
    assert!(seen > 500, "{seen} curves");
}

/// Pressure, counted from nothing, times air is the same in every state, as far as the
/// printed figures tell: each may be off by half of its last place.
#[test]
fn tank_states_satisfy_boyle_to_the_printed_digit() {
    let library = shipped();
    let mut seen = 0;
    each_of(&library, &[SceneKind::TankStates], DRAWS, |problem, at| {
        let frame = FRAMES[at % FRAMES.len()];
        let scene = scene(problem, &View::worked(problem), frame).expect("a figure");
        let volume = number(&scene, "tank").expect("a tank");
        let half = if volume < 200.0 { 0.005 } else { 0.05 };
        let state = |name: &str| {
            let read = |what: &str| number(&scene, &format!("{what}, {name}")).expect("a number");
            (read("absolute"), read("air"), read("water"))
        };
        let (charge, whole, none) = state("drained");
        assert!(none.abs() < 0.02, "{}: drained, yet {none}", problem.code);
        for name in ["cut-in", "cut-out"] {
            let (pressure, air, water) = state(name);
            let off = (pressure * air - charge * whole).abs();
            let most = pressure * half + air * 0.05 + charge * half + whole * 0.05;
            assert!(off <= most, "{}: {name}: {pressure} x {air}", problem.code);
            assert!((air + water - whole).abs() <= 2.0 * half + 1e-9);
        }
        seen += 1;
    });
    assert!(seen > 500, "{seen} tanks");
}

/// The figures of an upright scale stand at their strokes, not in the nearest row of text.
#[test]
fn the_figures_of_a_scale_stand_at_their_strokes() {
    let library = looks::still();
    for family in ["read-trace", "read-chart", "pressure-cycle", "hold-test"] {
        let mut moved = 0;
        for system in System::BOTH {
            let problem = looks::drawn(&library, family, system);
            let scene = scene(&problem, &View::worked(&problem), Frame::SCREEN).expect("a figure");
            let stroke = |height: f64| {
                scene.shapes.iter().any(|shape| match shape {
                    Shape::Path { points, .. } => match points[..] {
                        [(from, high), (_, low)] => {
                            (high - low).abs() < 1e-9
                                && (high - height).abs() < 1e-9
                                && (5.0..9.0).contains(&from)
                        }
                        _ => false,
                    },
                    _ => false,
                })
            };
            let scale = scene.labels.iter().filter(|label| {
                let figure = label.text.parse::<f64>().is_ok();
                figure && label.tone == Tone::Faint && label.column + label.width() == 6
            });
            for label in scale {
                assert!(stroke(height(label)), "{family}: {label:?}");
                moved += usize::from(label.lower != 0.0);
            }
        }
        assert!(moved > 0, "{family}: every figure stands in its row");
    }
}

/// The sheet's own words are not what a figure prints as its scale; a metric problem
/// has no US unit in it, and the other way round.
#[test]
fn figures_keep_to_their_system_of_units() {
    let library = looks::still();
    let foreign = |system| match system {
        System::Us => [" kPa", " m ", " L ", " kg", " mm"],
        System::Si => [" psi", " ft", " gal", " lb", " gpm"],
    };
    for kind in SceneKind::ALL {
        for system in System::BOTH {
            let problem = looks::drawn(&library, kind.name(), system);
            let scene = scene(&problem, &View::worked(&problem), Frame::SCREEN).expect("a figure");
            for label in &scene.labels {
                let padded = format!(" {} ", label.text);
                for unit in foreign(system) {
                    assert!(!padded.contains(unit), "{}: {padded}", kind.name());
                }
            }
        }
    }
}
