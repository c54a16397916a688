//! The page itself: its head, its style, its outermost parts.

use maud::{Markup, PreEscaped, html};

use super::colors::{DAY, NIGHT};

/// What sort of page it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The report of a logbook.
    Report,
    /// The report of a class.
    ClassReport,
    /// Sheets to take along.
    Sheet,
}

impl Kind {
    /// As every file of this kind begins.
    pub const fn begins(self) -> &'static str {
        match self {
            Self::Report => "<!DOCTYPE html>\n<!-- pumpwright: report -->\n",
            Self::ClassReport => "<!DOCTYPE html>\n<!-- pumpwright: class report -->\n",
            Self::Sheet => "<!DOCTYPE html>\n<!-- pumpwright: sheet -->\n",
        }
    }

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Report => "report",
            Self::ClassReport => "class report",
            Self::Sheet => "sheet",
        }
    }
}

/// A whole page.
pub fn page(kind: Kind, title: &str, body: &Markup) -> String {
    let markup = html! {
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(style())) }
            }
            body { main { (body) } }
        }
    };
    format!("{}{}\n", kind.begins(), markup.into_string())
}

fn style() -> String {
    format!(
        ":root{{color-scheme:light dark;{}}}\n\
         @media (prefers-color-scheme:dark){{:root{{{}}}}}\n{STYLE}",
        DAY.variables(),
        NIGHT.variables()
    )
}

/// Nothing is wider than the window; a table that would be scrolls in a box of its own.
/// On paper the colors of the day hold.
const STYLE: &str = "\
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.5 sans-serif;overflow-wrap:break-word}
main{max-width:62rem;margin:0 auto;padding:1rem}
h1{font-size:1.5rem;line-height:1.25;margin:.5rem 0}
h2{font-size:1.2rem;line-height:1.3;margin:2.2rem 0 .5rem;border-top:1px solid var(--faint);padding-top:1rem}
h3{font-size:1rem;margin:1.2rem 0 .4rem}
p,ol,ul{margin:.5rem 0;max-width:42rem}
a{color:var(--mark)}
.faint{color:var(--faint);font-size:.9rem}
.pair{display:flex;flex-wrap:wrap;gap:1rem 2rem;align-items:flex-start}
.pair>*{flex:1 1 20rem;min-width:0;max-width:100%}
svg.plot{display:block;width:100%;max-width:34rem;height:auto}
svg.plot text{fill:var(--ink);font:11px sans-serif}
svg.plot .soft{fill:var(--faint)}
svg.plot .axis{stroke:var(--faint);stroke-width:1;fill:none}
svg.plot .rule{stroke:var(--faint);stroke-width:1;stroke-dasharray:2 3;fill:none}
svg.plot .line{stroke:var(--mark);stroke-width:2;fill:none}
svg.plot .edge{stroke:var(--mark);stroke-width:1;fill:none}
svg.plot .band{fill:var(--band)}
svg.plot .mark{fill:var(--mark)}
.drawn{background:#fff;color:#000;max-width:36rem;margin:.6rem 0}
.drawn svg{display:block;width:100%;height:auto}
.box{overflow-x:auto;max-width:100%}
table{border-collapse:collapse;font-size:.9rem;width:100%}
caption{text-align:left;color:var(--faint);padding:.2rem 0}
th,td{text-align:left;vertical-align:top;padding:.2rem .5rem .2rem 0;border-bottom:1px solid var(--apart)}
th.n,td.n{text-align:right}
.caution{border-left:.4rem solid var(--caution);background:var(--apart);padding:.5rem .8rem;max-width:42rem}
.given{background:var(--apart);padding:.5rem .8rem;max-width:42rem}
ol.lines{padding-left:1.6rem}
ol.lines>li{margin:.7rem 0}
.blank{display:inline-block;min-width:7rem;border-bottom:1px solid var(--ink)}
details{margin:.8rem 0;max-width:42rem;border:1px solid var(--faint);border-radius:.3rem}
details.wide{max-width:100%}
summary{padding:.6rem .8rem;cursor:pointer;font-weight:bold}
details>div{padding:0 .8rem .6rem}
code{font-family:monospace;font-size:.9rem;overflow-wrap:anywhere}
.whole{white-space:nowrap}
pre{white-space:pre-wrap;overflow-wrap:anywhere;font:.9rem/1.4 monospace;background:var(--apart);padding:.5rem .8rem;margin:.5rem 0}
.sum{font-family:monospace;font-size:.9rem;overflow-wrap:anywhere;padding-left:1.2rem;text-indent:-1.2rem;margin:.2rem 0}
@media print{:root{--paper:#fff;--ink:#000;--faint:#555;--mark:#1f5a94;--band:#d3e2f1;--apart:#f2f2ef}details{break-inside:avoid}article{break-inside:avoid-page}}
";
