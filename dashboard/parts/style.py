"""The style of everything the pages write themselves, in the colours of the palette."""

from dashboard.parts.palette import Ink, shades

RULES = """
.stApp { font-variant-numeric: tabular-nums; }
.stMainBlockContainer { max-width: 72rem; margin-left: 0; margin-right: auto; padding: 4.4rem 1.4rem 3rem; }
.answer { font-size: 1.42rem; line-height: 1.42; font-weight: 500; max-width: 46rem; margin: 0; text-wrap: pretty; }
.said { max-width: 46rem; margin: 0; line-height: 1.5; }
.range { white-space: nowrap; }
.note a { color: var(--accent-text); }
.unconnected { display: none; margin: 0; padding: .6rem .8rem; background: var(--band); max-width: 46rem; }
.stApp[data-test-connection-state="CONNECTED"] .stElementContainer:has(.unconnected) { display: none; }
.stApp:not([data-test-connection-state="CONNECTED"]) .unconnected { display: block; }
body:has(.stApp:not([data-test-connection-state="CONNECTED"])) .stDialog { display: none; }
.quiet, .note { color: var(--quiet); }
.note { max-width: 46rem; margin: 0; font-size: .9rem; line-height: 1.45; }
.caution { max-width: 46rem; margin: 0; padding: .1rem 0 .1rem .8rem; border-left: 3px solid var(--line);
  font-size: .9rem; line-height: 1.45; color: var(--quiet); }
.assumed::before { content: "≈ "; font-weight: 600; color: var(--accent-text); }
[class*="st-key-to-"] a p, .st-key-assumed a p { color: var(--accent-text); text-decoration: underline; }
[data-testid^="stBaseButton-primary"], [data-testid^="stBaseButton-primary"] p { color: var(--paper); }
.heading { overflow-wrap: anywhere; }
.head { font-size: 1.02rem; font-weight: 600; margin: .4rem 0 0; }
ul.figures, ul.bars, ul.clients, ul.findings, ul.bridge, ul.said { list-style: none; margin: 0; padding: 0; }
ul.figures li, ul.bars li { margin: 0; padding: .5rem 0; border-bottom: 1px solid var(--line); display: grid;
  grid-template-columns: 1fr auto; column-gap: 1rem; align-items: baseline; }
ul.figures em, ul.bars em { font-style: normal; font-weight: 600; text-align: right; }
ul.figures small { grid-column: 1 / -1; color: var(--quiet); font-size: .86rem; line-height: 1.4; }
ul.figures li.wants em { color: var(--accent-text); }
.strip { grid-column: 1 / -1; position: relative; height: .9rem; margin: .25rem 0 .15rem; }
.strip::before { content: ""; position: absolute; left: 0; right: 0; top: 50%; border-top: 1px solid var(--line); }
.strip i, .strip b, .strip u { position: absolute; display: block; top: 0; bottom: 0; }
.strip .usual { background: var(--range); top: .15rem; bottom: .15rem; }
.strip b { width: 0; margin-left: -1px; border-left: 2px solid var(--quiet); }
.strip b.year_ago { border-left-style: dotted; }
.strip b.menu { border-left-color: var(--accent); top: -.15rem; bottom: -.15rem; }
.strip .dot { width: .8rem; height: .8rem; top: .05rem; margin-left: -.4rem; border-radius: 50%;
  background: var(--text); }
.strip .dot.hollow { background: var(--paper); border: 2px solid var(--text); }
ul.bridge li { margin: 0; padding: .3rem 0; display: grid; grid-template-columns: 1fr auto; column-gap: 1rem;
  align-items: baseline; }
ul.bridge em { font-style: normal; font-weight: 600; }
ul.bridge small { color: var(--quiet); font-size: .86rem; margin-left: .5rem; }
ul.bridge .bar { background: none; border-left: 0; }
ul.bridge .bar::before { content: ""; position: absolute; left: 50%; top: -.2rem; bottom: -.2rem;
  border-left: 1px solid var(--quiet); }
ul.bridge .more { background: var(--quiet); }
ul.bridge .less { background: repeating-linear-gradient(135deg, var(--quiet) 0 3px, var(--band) 3px 6px); }
table.pairs { border-collapse: collapse; } table.pairs th, table.pairs td { padding: .25rem 1.6rem .25rem 0;
  text-align: right; border: 0; border-bottom: 1px solid var(--line); font-weight: 400; }
table.pairs th { color: var(--quiet); font-size: .9rem; } table.pairs td:last-child { font-weight: 600; }
table.pairs th:first-child, table.pairs td:first-child { text-align: left; }
table.week { border-collapse: separate; border-spacing: 2px; width: 100%; max-width: 46rem; table-layout: fixed; }
table.week th { font-weight: 400; font-size: .86rem; color: var(--quiet); text-align: right; padding: .1rem .5rem;
  border: 0; }
table.week td { text-align: right; padding: .3rem .5rem; border: 0; font-size: .9rem; }
ul.causes { list-style: none; margin: 0; padding: 0; max-width: 34rem; }
ul.causes li { margin: 0; padding: .3rem 0; display: grid; grid-template-columns: 1fr auto; column-gap: 1rem;
  border-bottom: 1px solid var(--line); line-height: 1.35; }
ul.causes em { font-style: normal; font-weight: 600; }
ul.causes small { color: var(--quiet); font-size: .86rem; }
table.all { border-collapse: collapse; width: 100%; max-width: 46rem; }
table.all th, table.all td { border: 0; border-bottom: 1px solid var(--line); padding: .35rem .3rem; font-weight: 400;
  font-size: .9rem; line-height: 1.3; text-align: right; }
table.all th:first-child { text-align: left; }
table.all th[scope="col"], table.all td:last-child { color: var(--quiet); }
table.all th.group { font-weight: 600; padding-top: .9rem; } table.all b { font-weight: 600; }
table.all tr.wants b { color: var(--accent-text); }
table.all .small { width: 100%; min-width: 3.4rem; max-width: 7rem; height: 1.3rem; background: var(--quiet); }
ul.said li { margin: 0; padding: .15rem 0; max-width: 46rem; line-height: 1.5; }
ul.bars li { border-bottom: 0; padding: .3rem 0; } ul.bars small { color: var(--quiet); grid-column: 1 / -1;
  font-size: .86rem; }
ul.findings li { margin: 0; padding: .6rem 0; border-bottom: 1px solid var(--line); overflow-wrap: anywhere; }
ul.findings p { margin: .05rem 0; line-height: 1.4; max-width: 46rem; }
ul.findings .do { color: var(--accent-text); } ul.findings .do.quiet { color: var(--quiet); }
.bar, .ruler { grid-column: 1 / -1; position: relative; height: .55rem; }
.bar { background: var(--band); }
.bar i, .bar b, .ruler i, .ruler b, .ruler u { position: absolute; display: block; top: 0; bottom: 0; }
.bar .fill { background: var(--quiet); }
.bar b { top: -.2rem; bottom: -.2rem; border-left: 2px solid var(--accent); }
.bar b + b { border-left-style: dashed; }
.bar .wants { background: var(--accent); min-width: 3px; }
ul.clients li { margin: 0; padding: .75rem 0 .4rem; border-top: 1px solid var(--line); }
ul.clients .facts { font-size: .9rem; } ul.clients .costs { color: var(--accent-text); }
.st-key-clients [data-testid="stButtonGroup"] { padding-bottom: .75rem; }
.st-key-clients [data-testid="stButtonGroup"] button { min-height: 2.75rem; }
ul.clients li > div:first-child { display: grid; grid-template-columns: 1fr auto; column-gap: 1rem; }
ul.clients p { margin: .1rem 0 0; line-height: 1.4; }
ul.clients span { text-align: right; font-weight: 600; }
ul.clients small { font-weight: 400; color: var(--quiet); font-size: .9rem; }
ul.clients .reach { display: flex; flex-wrap: wrap; column-gap: 1.4rem; }
ul.clients a { color: var(--accent-text); line-height: 2.75rem; overflow-wrap: anywhere; }
.ruler { margin: .3rem 0; height: .9rem; }
.ruler::before { content: ""; position: absolute; left: 0; right: 0; top: 50%; border-top: 1px solid var(--line); }
.ruler .band { background: var(--accent); opacity: .4; top: .12rem; bottom: .12rem; }
.ruler u { width: 3px; margin-left: -1px; background: var(--text); text-decoration: none; }
.ruler b { width: 0; border-left: 1.5px dashed var(--quiet); }
.scale { height: 1.2rem; margin: 0; }
.scale::before { display: none; }
.scale b { border: 0; width: auto; transform: translateX(-50%); font-weight: 400; font-size: .82rem;
  color: var(--quiet); white-space: nowrap; }
.scale b:first-child { transform: none; }
.scale b:last-child { transform: translateX(-100%); }
@media (min-width: 60rem) {
  .st-key-foot { display: none; }
  ul.bars.long { columns: 2; column-gap: 3rem; } ul.bars.long li { break-inside: avoid; }
  ul.figures { columns: 2; column-gap: 3rem; }
  ul.figures li { break-inside: avoid; }
  ul.clients li { display: grid; grid-template-columns: 27rem 1fr; column-gap: 2rem; align-items: center; }
  ul.clients li > :not(.ruler) { grid-column: 1; }
  ul.clients li .ruler { grid-column: 2; grid-row: 1; }
  ul.clients li .facts { grid-column: 2; grid-row: 2 / span 4; align-self: start; }
  .clients-head .scale { margin-left: 29rem; }
}
@media (max-width: 40rem) {
  .answer { font-size: 1.22rem; }
  .stMainBlockContainer { padding-left: 1rem; padding-right: 1rem; }
}
"""


def style_sheet(ink: Ink, dark: bool) -> str:
    """A style element with the colours of this ink."""
    names = ("paper", "text", "quiet", "line", "band", "range", "accent", "accent_text")
    values = "".join(f"--{name.replace('_', '-')}: {getattr(ink, name)};" for name in names)
    steps = "".join(
        f".shade{step} {{ background: {paper}; color: {text}; }}\n" for step, (paper, text) in enumerate(shades(dark))
    )
    return f"<style>.stApp {{ {values} }}\n{RULES}{steps}</style>"
