#include "sdk/sheet/html_text.hpp"

namespace barmkeep::sheet {

// Every pair of a text's colour and its ground has a contrast of at least 4.5; a test computes
// them from the values here.  No '<' and no '&': the page is XML too.
std::string_view html_style() noexcept {
    return R"css(
:root { color-scheme: light dark;
  --ground: #fbfaf6; --text: #23211c; --quiet: #5d574b; --line: #cdc6b6;
  --accent: #7b4700; --second: #1c5a94; --third: #8a2f6b; --fourth: #3f6212;
  --alarm-ground: #8f1d14; --alarm-text: #ffffff;
  --warn-ground: #fdeec4; --warn-text: #4c3500; --code-ground: #efebdf; }
@media (prefers-color-scheme: dark) { :root {
  --ground: #1b1a17; --text: #ece8de; --quiet: #b8b0a1; --line: #4d483e;
  --accent: #efb65a; --second: #8ec1f5; --third: #eda3d2; --fourth: #b5d66b;
  --alarm-ground: #ffb9ae; --alarm-text: #3d0602;
  --warn-ground: #40310d; --warn-text: #ffe3a3; --code-ground: #2c2a25; } }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 46rem; background: var(--ground);
  color: var(--text); font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .4rem; }
h2 { font-size: 1.05rem; margin: 1.4rem 0 .4rem; color: var(--accent); }
p { margin: .5rem 0; }
.lead { font-size: 1.15rem; }
.alarm { background: var(--alarm-ground); color: var(--alarm-text); padding: .7rem 1rem;
  margin: 0 0 1rem; font-weight: 700; border: 3px double var(--alarm-text); }
.warning, .caution { background: var(--warn-ground); color: var(--warn-text);
  padding: .5rem .8rem; border-left: .35rem solid var(--warn-text); }
.note, .quiet, .source { color: var(--quiet); }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2rem 1rem; margin: .7rem 0; }
dt { color: var(--quiet); } dd { margin: 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; margin: .3rem 0; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .25rem .8rem .25rem 0;
  border-bottom: 1px solid var(--line); }
th { color: var(--quiet); font-weight: 600; }
th.right, td.right { text-align: right; white-space: nowrap; }
ol.steps { padding-left: 1.8rem; }
ol.steps li { margin: .5rem 0; padding-left: .3rem; }
ol.steps .when { font-weight: 600; margin-right: .6rem; }
li.done { color: var(--quiet); }
li.now { border-left: .3rem solid var(--accent); }
.state { font-weight: 700; color: var(--accent); margin-right: .4rem; }
.clock { font-size: 1.15rem; font-weight: 600; }
code { background: var(--code-ground); padding: .05rem .35rem; font-size: .95em; }
.alarm code, .warning code, .caution code { background: none; }
.alarm .source, .warning .source, .caution .source { color: inherit; }
.actions li { margin: .4rem 0; } .actions .usual { font-weight: 700; }
figure { margin: 1rem 0; } figcaption { font-weight: 600; }
svg.chart { width: 100%; height: auto; max-width: 40rem; display: block; }
svg text { fill: var(--text); font-size: 12px; }
.axis { stroke: var(--quiet); fill: none; } .grid { stroke: var(--line); fill: none; }
.s0 { --series: var(--accent); } .s1 { --series: var(--second); }
.s2 { --series: var(--third); } .s3 { --series: var(--fourth); }
.line { stroke: var(--series); stroke-width: 2.5; fill: none; }
.s1 .line { stroke-dasharray: 7 4; } .s2 .line { stroke-dasharray: 2 3; }
.s3 .line { stroke-dasharray: 9 3 2 3; }
.band { fill: var(--series); fill-opacity: .22; stroke: var(--series); stroke-opacity: .5; }
.bar { fill: var(--series); stroke: var(--ground); } .s1 .bar { stroke: var(--text); }
.marker { fill: var(--text); stroke: var(--ground); }
ul.legend { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .2rem 1.2rem;
  margin: .3rem 0; } ul.legend svg { width: 28px; height: 12px; margin-right: .4rem; }
details { margin: 1rem 0; } summary { cursor: pointer; color: var(--accent); font-weight: 600; }
.paper { display: none; }
@media (max-width: 30rem) { dl { grid-template-columns: 1fr; gap: 0; } dd { margin: 0 0 .4rem; } }
@page { margin: 14mm; }
@media print { :root { color-scheme: light;
  --ground: #ffffff; --text: #000000; --quiet: #3d3d3d; --line: #8a8a8a;
  --accent: #000000; --second: #2b2b2b; --third: #2b2b2b; --fourth: #2b2b2b;
  --alarm-ground: #ffffff; --alarm-text: #000000;
  --warn-ground: #ffffff; --warn-text: #000000; --code-ground: #ffffff; }
  body { max-width: none; padding: 0; font-size: 11pt; }
  .screen, .actions { display: none; } .paper { display: block; }
  h1, h2, figcaption { break-after: avoid; }
  li, tr, figure, .alarm, .warning, .caution { break-inside: avoid; }
  thead { display: table-header-group; } }
)css";
}

} // namespace barmkeep::sheet
