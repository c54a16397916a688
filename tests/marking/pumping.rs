//! Heads and stages: sums whose last figure picks the pump.

use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Problem;

use crate::pinned::Pinned;
use crate::{any, rows};

fn stages(level: u8, draws: &[(&str, &str)], rules: &[(&str, &str)]) -> Problem {
    let pinned = Pinned {
        family: "pump-curve-and-staging/stage-count",
        draws,
        rules,
    };
    pinned.problem(level, "us", any)
}

/// 124 psi at 9 psi a stage: 13.78, so 14 stages. As head: 2.31 × 124 ÷ 9 = 31.83.
#[test]
fn stage_count_by_pressure() {
    let problem = stages(1, &[("needed", "{ of = [124] }")], &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("13.78; 14", "right 1; right 1"),
            ("124/9; 14", "right 1; right 1"),
            ("; 14", "carried 1 by 2; right 1"),
            ("13.78; ", "right 1; not-written 0"),
            ("13.78; 13", "right 1; mistake 0 rounded-down"),
            ("; 13", "not-written 0; mistake 0 rounded-down"),
            ("31.83; 32", "mistake 0 head-for-pressure; follows 1 by 1"),
            ("; 32", "not-written 0; mistake 0 head-for-pressure"),
            ("12.2; 13", "look-here 0; follows 1 by 1"),
            ("12.2; 14", "look-here 0; right 1"),
            ("13.78; 14 psi", "right 1; unit-of-wrong-kind 0.5"),
            ("13.78; 13.78", "right 1; look-here 0"),
            ("; ", "not-written 0; not-written 0"),
        ],
    );
    // 124 ÷ 8 = 15.5, so 16.
    let eight = stages(
        1,
        &[("needed", "{ of = [124] }")],
        &[("stage.pressure", "8 psi")],
    );
    rows(
        &eight,
        Manner::default(),
        &[
            ("15.5; 16", "right 1; right 1"),
            ("15 1/2; 16", "right 1; right 1"),
            ("15.5; 15", "right 1; mistake 0 rounded-down"),
        ],
    );
}

/// 260 ft at 21 ft a stage: 12.381, so 13. At the shut valve's 28 ft: 9.286, so 10.
/// Without the tank's 50 psi, 115.5 ft: 144.5 ÷ 21 = 6.881, so 7.
#[test]
fn stage_count_by_the_curve() {
    let draws = [
        (
            "pump",
            "{ row = \"pump_class\", where = 'row.flow > 9.9 gpm and row.flow < 10.1 gpm' }",
        ),
        ("cut_out", "{ of = [50] }"),
        ("total_head", "{ us = { of = [260] }, si = { of = [80] } }"),
    ];
    let problem = stages(2, &draws, &[]);
    rows(
        &problem,
        Manner::default(),
        &[
            ("21; 12.38; 13", "right 1; right 1; right 1"),
            ("6.40 m; 12.4; 13", "right 1; right 1; right 1"),
            ("; ; 13", "carried 1 by 3; carried 1 by 3; right 1"),
            (
                "28; 9.29; 10",
                "mistake 0 shut-off-head; follows 1 by 1; follows 1 by 1",
            ),
            (
                "; ; 10",
                "not-written 0; not-written 0; mistake 0 shut-off-head",
            ),
            (
                "; ; 7",
                "not-written 0; not-written 0; mistake 0 pressure-left-out",
            ),
            (
                "21; 6.88; 7",
                "right 1; mistake 0 pressure-left-out; follows 1 by 2",
            ),
            ("21; 12.4; 12", "right 1; right 1; mistake 0 rounded-down"),
            ("28; 12.4; 13", "mistake 0 shut-off-head; right 1; right 1"),
            (
                "21 psi; 12.4; 13",
                "unit-of-wrong-kind 0.5; right 1; right 1",
            ),
        ],
    );
}

fn head(level: u8, system: &str, family: &str, draws: &[(&str, &str)]) -> Problem {
    let pinned = Pinned {
        family,
        draws,
        rules: &[],
    };
    pinned.problem(level, system, any)
}

/// 40 psi at 2.31 ft a psi: 92.4 ft, so 92, which is 28.16 m. Turned round: 17.3.
#[test]
fn psi_to_feet() {
    let draws = [("pressure", "{ us = { of = [40] }, si = { of = [300] } }")];
    let problem = head(1, "us", "pressure-and-head/psi-to-feet", &draws);
    rows(
        &problem,
        Manner::default(),
        &[
            ("92", "right 1"),
            ("92.4 ft", "right 1"),
            ("28.2 m", "right 1"),
            ("93.5", "right 1"),
            ("94", "look-here 0"),
            ("92 psi", "unit-of-wrong-kind 0.5"),
            ("28.2", "unit-factor 0"),
            ("40", "mistake 0 one-for-one"),
            ("17.3", "mistake 0 inverted"),
            ("80", "mistake 0 wrong-factor"),
            ("-92", "look-here 0"),
        ],
    );
    // 300 ÷ 9.81 = 30.58 m.
    let meters = head(1, "si", "pressure-and-head/psi-to-feet", &draws);
    rows(
        &meters,
        Manner::default(),
        &[
            ("30.6", "right 1"),
            ("100 ft", "right 1"),
            ("300", "mistake 0 one-for-one"),
            ("2943", "mistake 0 inverted"),
            ("3", "mistake 0 wrong-factor"),
        ],
    );
}

/// 80 ft at rest, 110 ft pumping: 30 ft. The pump hangs at 170 ft, the well ends at 210.
#[test]
fn drawdown() {
    let draws = [
        ("static", "{ us = { of = [80] }, si = { of = [24] } }"),
        ("fall", "{ us = { of = [30] }, si = { of = [9] } }"),
        ("cover", "{ us = { of = [60] }, si = { of = [18] } }"),
        ("bottom", "{ us = { of = [40] }, si = { of = [12] } }"),
    ];
    let problem = head(1, "us", "well-levels-and-yield/drawdown", &draws);
    rows(
        &problem,
        Manner::default(),
        &[
            ("30", "right 1"),
            ("9.1 m", "right 1"),
            ("30 gpm", "unit-of-wrong-kind 0.5"),
            ("32", "look-here 0"),
            ("-30", "look-here 0"),
            ("100", "mistake 0 from-bottom"),
            ("90", "mistake 0 from-pump"),
            ("110", "mistake 0 pumping-level"),
            ("60", "mistake 0 over-the-pump"),
        ],
    );
}

/// 12 gpm in 1-inch pipe: 5.50 ft per 100 ft at 10 gpm, as 77 Ill. Adm. Code 906 prints
/// it, times 1.2^1.852: 7.71. So 15.4 ft in 200 ft and 19.3 ft in 250 ft. With a lift of
/// 120 ft, 10 ft to the tank and 2.31 × 50 = 115.5 ft: 280.2 ft, so 281.
#[test]
fn total_dynamic_head() {
    let inch = "{ row = \"pe_pipe\", where = 'row.nominal > 0.95 in and row.nominal < 1.1 in' }";
    let draws = [
        ("flow", "{ us = { of = [12] }, si = { of = [45] } }"),
        ("drop", inch),
        ("line", inch),
        ("static", "{ us = { of = [60] }, si = { of = [18] } }"),
        ("fall", "{ us = { of = [60] }, si = { of = [18] } }"),
        ("cover", "{ us = { of = [80] }, si = { of = [24] } }"),
        ("yard", "{ us = { of = [250] }, si = { of = [75] } }"),
        ("rise", "{ us = { of = [10] }, si = { of = [3] } }"),
        ("cut_out", "{ us = { of = [50] }, si = { of = [345] } }"),
    ];
    let problem = head(3, "us", "total-dynamic-head/tdh-with-friction", &draws);
    let follows = "follows 1 by 1";
    rows(
        &problem,
        Manner::default(),
        &[
            (
                "15.4; 19.3; 120; 115.5; 281",
                "right 1; right 1; right 1; right 1; right 1",
            ),
            (
                "4.7 m; 19.3; 120; 115.5; 85.6 m",
                "right 1; right 1; right 1; right 1; right 1",
            ),
            (
                "; ; ; ; 281",
                "carried 1 by 5; carried 1 by 5; carried 1 by 5; carried 1 by 5; right 1",
            ),
            // Bore by the pipe's name: (1.049)^4.871 = 1.2625 times the loss, 19.5 ft.
            (
                "19.5; 19.3; 120; 115.5; 285",
                &format!("mistake 0 nominal-bore; right 1; right 1; right 1; {follows}"),
            ),
            (
                "15.4; 24.3; 120; 115.5; 286",
                "right 1; mistake 0 nominal-line; right 1; right 1; follows 1 by 2",
            ),
            (
                "15.4; 19.3; 60; 115.5; 221",
                "right 1; right 1; mistake 0 static-level; right 1; follows 1 by 3",
            ),
            (
                "15.4; 19.3; 120; 50; 215",
                "right 1; right 1; right 1; mistake 0 pressure-not-turned; follows 1 by 4",
            ),
            (
                "15.4; 19.3; 120; 115.5; 246",
                "right 1; right 1; right 1; right 1; mistake 0 no-friction",
            ),
            (
                "15.4; 19.3; 120; 115.5; 261",
                "right 1; right 1; right 1; right 1; mistake 0 buried-forgotten",
            ),
            (
                "15.4; 19.3; 120; 115.5 psi; 281",
                "right 1; right 1; right 1; unit-of-wrong-kind 0.5; right 1",
            ),
        ],
    );
}
