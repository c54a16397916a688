//! The plan that `plan new` writes: every key with what it is for, and valid as it is.

/// The text of a new plan.
pub const NEW: &str = r#"# The plan of a paper. Change what stands here; a line that begins with # says nothing.
# pumpwright plan show FILE prints samples; pumpwright check FILE finds faults.

format = 1
plan   = "week-6"    # names the folder of the papers; another paper needs another name
title  = "Week 6: cable, tank, relief"
date   = "2026-11-18"    # printed at the head; may be left out
# due  = "2026-11-25"    # what comes in later is told as late
units  = "us"            # "us" or "si"

# Tables that may be open, by name; left out, all of them. [] for none.
# tables = ["copper", "motors", "tanks"]

marks    = "steps"       # "steps": each line earns its marks; "answer": the last line alone
order    = "as written"  # or "shuffled": each paper in an order of its own
pass     = 70            # per cent of the marks; may be left out
versions = "one each"    # or 1, 2, 4: so many different papers, taken in turn

# Each [[item]] is a job of the paper:
#   family or lesson   what it is drawn from; of a lesson, each paper gets one of its families
#   level              1, 2 or 3; left out, the family's home level
#   count              how often it stands in the paper; left out, once
#   marks              left out, as the family has them; an item of a lesson needs them

[[item]]
family = "psi-to-feet"

[[item]]
family = "tank-precharge"

[[item]]
family = "cable-drop"
level  = 2
marks  = 4

[[item]]
lesson = "relief-valve"
marks  = 6

[[item]]
family = "lockout-order"
marks  = 8

# House rules of this paper alone, as in a rules file:
# [[rule]]
# rule  = "cable.max_drop"
# value = "3 %"
"#;
