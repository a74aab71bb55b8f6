// SPDX-License-Identifier: MIT
// The style sheet. Text and background pairs keep 4.5 : 1, marks 3 : 1 (WCAG 2.2 AA), in light and dark.
//
// Colours: cividis in five steps for yields (Nunez, Anderton, Renslow 2018; monotone in grey print), the Okabe-Ito set
// for methods (always with hatch, letter or shape), purple and orange for less and more (always with the sign in text).
#include "report/looks.hpp"

namespace quartercut::report {

const char* const style_sheet = R"css(
:root{color-scheme:light dark;--paper:#fcfbf7;--ink:#22261f;--soft:#565c50;--rule:#d9d6c9;--panel:#f3f1e7;
--link:#1d5a63;
--more:#9a4f00;--less:#5b3f93;--none:#4b5348;--land:#fff;--halo:#fff}
@media (prefers-color-scheme:dark){:root{--paper:#171a17;--ink:#ecebe2;--soft:#b3b7aa;--rule:#3b4039;--panel:#20241f;
--link:#8fcbd3;--more:#f2b267;--less:#c0aef0;--none:#c3c8ba;--land:#20241f;--halo:#171a17}}
*{box-sizing:border-box}
html{scroll-behavior:smooth;-webkit-text-size-adjust:100%}
@media (prefers-reduced-motion:reduce){html{scroll-behavior:auto}}
body{margin:0;background:var(--paper);color:var(--ink);
font:1rem/1.55 "Segoe UI",Roboto,"Noto Sans","Liberation Sans",sans-serif}
header,main,footer{max-width:64rem;margin:0 auto;padding:0 1rem}
h1,h2,h3,.answer,.said{font-family:Georgia,"Noto Serif","Liberation Serif",serif;line-height:1.3}
h1{font-size:1.9rem;margin:1.6rem 0 .2rem;overflow-wrap:anywhere}
h2{font-size:1.5rem;margin:2.6rem 0 .8rem;padding-top:.7rem;border-top:2px solid var(--ink)}
h3{font-size:1.15rem;margin:1.8rem 0 .4rem;overflow-wrap:anywhere}
p{margin:.5rem 0;max-width:44rem;overflow-wrap:anywhere}
a{color:var(--link);text-underline-offset:.15em}
:focus-visible{outline:3px solid var(--link);outline-offset:2px}
.skip{position:absolute;left:-999rem}
.skip:focus{left:1rem;top:.5rem;background:var(--paper);padding:.5rem;z-index:1}
nav ul{display:flex;flex-wrap:wrap;gap:.2rem 1.1rem;list-style:none;padding:0;margin:.8rem 0}
nav a{display:inline-block;padding:.3rem 0}
.subtitle,.facts,.note,.raw,.legend-title,footer{color:var(--soft)}
.note,.facts,.legend-title,figcaption,.readout,.key,.layers{font-size:.92rem}
.answer{font-size:1.35rem;max-width:40rem;margin:.9rem 0;padding-left:.9rem;border-left:6px solid var(--none)}
.said{font-size:1.1rem}.answer.second{font-size:1.05rem;margin:.7rem 0}
.care{border-left:3px dotted var(--none);padding-left:.7rem;font-size:.95rem}
.answer.gain{border-color:var(--more)}.answer.loss{border-color:var(--less)}
.answer.leans{border-left-style:double}.answer.unfit{border-left-style:dotted}
.field-answers{list-style:none;padding:0;display:grid;gap:.9rem;margin:.6rem 0}
.field-answers li{padding:.1rem 0 .6rem;border-bottom:1px solid var(--rule)}
.field-answers p{margin:.2rem 0}.field-answers .answer{margin:.6rem 0 .9rem}
.field-name{font-weight:600;overflow-wrap:anywhere}
.meant dfn{font-style:normal;font-weight:600}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.meanings{max-width:44rem;margin:.4rem 0}.meanings dt{font-weight:600;margin-top:.5rem}.meanings dd{margin:0}
.maps,.charts{display:grid;gap:1.4rem;grid-template-columns:1fr}
@media (min-width:52rem){.maps,.charts{grid-template-columns:1fr 1fr}}
.maps>*,.charts>*{min-width:0}
figure{margin:.6rem 0;min-width:0}
figcaption{font-weight:600;margin-bottom:.3rem}
svg{display:block;width:100%;max-width:34rem;height:auto;
font:12px "Segoe UI",Roboto,"Noto Sans","Liberation Sans",sans-serif}
svg.hatches{position:absolute;width:0;height:0}
svg.swatch{display:inline-block;width:2.75em;height:1.3em;flex:none}
.classes svg.swatch{width:1.95em}svg.swatch.dot{width:1em;height:1em}
.key{list-style:none;padding:0;margin:.4rem 0;display:flex;flex-wrap:wrap;gap:.2rem 1.1rem}
.key li{display:flex;align-items:center;gap:.4rem}
#season-map{max-height:26rem}.places{columns:1;padding-left:1.6rem}.places li{margin:.25rem 0;overflow-wrap:anywhere}
text{fill:var(--ink)}.tick{fill:var(--soft);font-size:11px}.label{font-size:12px}.strong{font-weight:700}
.grid{stroke:var(--rule);stroke-width:1;fill:none}.zero{stroke:var(--ink);stroke-width:1.2;fill:none}
.land{fill:var(--land)}.boundary{fill:none;stroke:var(--ink);stroke-width:1.4}
.line,.north{stroke:var(--ink);stroke-width:1.2}.line{fill:none}.north{fill:var(--ink)}
.swatch-box{stroke:var(--ink);stroke-width:1}
.label{paint-order:stroke;stroke:var(--paper);stroke-width:3px}
.m0{--m:#56b4e9}.m1{--m:#e69f00}.m2{--m:#009e73}.m3{--m:#cc79a7}.m4{--m:#f0e442}.m5{--m:#d55e00}.m6{--m:#0072b2}
.tint{fill:var(--m);fill-opacity:.55}
.hatch{stroke:var(--ink);stroke-width:.7;stroke-opacity:.75;stroke-linecap:round;fill:none}
.zone{stroke:var(--ink);stroke-width:.6}.zone.no-method{stroke-dasharray:3 2}
.zone:hover,.zone:focus{stroke-width:2.6;outline:none}
.zone-letter{font-weight:700;font-size:13px;paint-order:stroke;stroke:var(--halo);stroke-width:3px;
pointer-events:none}
.zone-letter.long-2{font-size:10.5px}.zone-letter.long-3{font-size:9px}
.zone-line-under{fill:none;stroke:#fff;stroke-width:2;stroke-opacity:.8}
.zone-line{fill:none;stroke:#000;stroke-width:.8}
.yield-1{stroke:#00204d}.yield-2{stroke:#414d6b}.yield-3{stroke:#7c7b78}.yield-4{stroke:#bcaf6f}
.yield-5{stroke:#ffea46}
.gone{fill:none;stroke:#d00000;stroke-width:1;stroke-linecap:round}
.gone-0{stroke:#000}.gone-1{stroke:#d00000;stroke-width:2.2}.gone-2{stroke:#c4007a}.gone-3{stroke:#0050d0}
.gone-4{stroke:#006b3c}
.marker{fill:var(--m);stroke:var(--ink);stroke-width:1.2}.marker.no-method{fill:var(--paper)}
.link{stroke-width:3;fill:none}.link.more{stroke:var(--more)}.link.less{stroke:var(--less);stroke-dasharray:5 3}
.range{stroke:var(--none);stroke-width:5;fill:none}.range.gain{stroke:var(--more)}.range.loss{stroke:var(--less)}
.prediction{stroke:var(--soft);stroke-width:1.6;stroke-dasharray:4 3;fill:none}
.prediction-end{stroke:var(--soft);stroke-width:1.6;fill:none}.beyond{fill:var(--none)}
.best{fill:var(--paper);stroke:var(--ink);stroke-width:2}.best.gain{fill:var(--more)}.best.loss{fill:var(--less)}
.bar{fill:var(--none)}.full-bar{fill:none;stroke:var(--soft);stroke-width:.8}.bar.shared{fill:url(#shared-bar)}.bar.total{fill:var(--ink)}
.place{fill:var(--panel);stroke:var(--ink);stroke-width:1}
.place-gain{fill:#e08214}.place-loss{fill:#8073ac}.place-leans-gain{fill:#fdd0a2}.place-leans-loss{fill:#d8d2ea}
.place-not-comparable{fill:none;stroke-dasharray:3 2}
.place-number{font-weight:700;paint-order:stroke;stroke:var(--halo);stroke-width:3px}
.layers{border:1px solid var(--rule);border-radius:.4rem;display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;margin:.6rem 0;
padding:.3rem .7rem}
.layers label{display:inline-flex;align-items:center;gap:.3rem;min-height:1.8rem}
.layers input{width:1.2rem;height:1.2rem;margin:0}
.yield-map:has(.show-yield:not(:checked)) .layer-yield,.yield-map:has(.show-zones:not(:checked)) .layer-zones,
.yield-map:has(.show-removed:not(:checked)) .layer-removed{display:none}
.readout{min-height:1.5em;font-variant-numeric:tabular-nums}
.table{overflow-x:auto;margin:.8rem 0;max-width:100%}
table{border-collapse:collapse;font-size:.9rem;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:600;padding:.2rem 0;overflow-wrap:anywhere}
th,td{padding:.3rem .8rem .3rem 0;text-align:left;vertical-align:top;border-bottom:1px solid var(--rule)}
thead th{border-bottom:1.5px solid var(--ink)}tbody th{font-weight:500}
.number{text-align:right;white-space:nowrap}thead .number{white-space:normal}
.cite{overflow-wrap:anywhere}
#inputs-table td:nth-child(3){word-break:break-all;min-width:14rem;font-family:monospace;font-size:.85em}
details{margin:.5rem 0}summary{cursor:pointer;padding:.35rem 0;color:var(--link)}
pre{overflow:auto;background:var(--panel);padding:.8rem;font-size:.85rem;max-width:100%}
.copy{font:inherit;font-size:.85rem;color:var(--link);background:none;border:1px solid var(--link);
border-radius:.3rem;padding:.25rem .6rem}
.cautions li{margin:.5rem 0;max-width:44rem}
.warning{border-left:6px solid var(--more);padding-left:.8rem}
@media (max-width:30rem){.tick,.label,.place-number,.zone-letter,.zone-letter.long-2,.zone-letter.long-3{font-size:12.6px}
#season-map{max-height:none}}
footer{margin-top:3rem;padding-bottom:2rem;border-top:1px solid var(--rule)}
@media print{
@page{margin:15mm}
:root{--paper:#fff;--ink:#000;--soft:#333;--rule:#bbb;--panel:#f4f4f4;--link:#000;--more:#8a4600;--less:#4d3583;
--none:#444;--land:#fff;--halo:#fff}
html,body{font-size:10pt}header,main,footer{max-width:none;padding:0}
nav,.skip,.layers,.readout,.copy,.screen-only,details:not([open]){display:none}
h2,h3,figcaption,caption,summary{break-after:avoid}
figure,svg,.field-answers li,tr{break-inside:avoid}
.maps{display:grid;grid-template-columns:1fr 1fr;gap:6mm;break-inside:avoid}
.maps svg[id]{max-height:50mm}.alone .maps svg[id]{max-height:44mm}.facts,.said,.raw{break-after:avoid;break-inside:avoid}
.charts{display:block;columns:2;column-gap:6mm}.charts figure{margin:0 0 4mm}
.charts:has(details[open]){columns:1}
.alone,[id^=count-]{break-inside:avoid}dl.meanings{columns:2}
#agronomist:not(:has(details[open])){columns:2;column-gap:6mm}#agronomist>h2,#agronomist>p{column-span:all}
h2{margin-top:8mm}article{margin-top:4mm}article h3{margin-top:0}
article p{margin:.6mm 0;max-width:none;line-height:1.4}article .key,article figcaption{margin:1mm 0;font-size:9pt}svg{max-height:150mm}svg[id^=robustness]{max-height:108mm}
thead{break-after:avoid}#tickets-chart,#moisture-by-day{max-height:85mm}.charts:has(details[open]) svg{max-width:120mm}
.number{white-space:normal}table.wide{table-layout:fixed;width:100%}#removed th:first-child{width:18%}
#strips td{height:9mm}figure:has(+.table>#strips) svg{max-height:100mm}.table{overflow:visible}
table{font-size:7.5pt;max-width:100%}th,td{padding:.15rem .45rem .15rem 0;overflow-wrap:anywhere}
#remarks-table :is(th,td){overflow-wrap:break-word}#remarks-table :is(th,td):nth-child(2){white-space:nowrap}
pre{white-space:pre-wrap;overflow-wrap:anywhere}
a{text-decoration:none}
.yield-1,.yield-2,.yield-3,.yield-4,.yield-5,.tint,.bar,.place{-webkit-print-color-adjust:exact;
print-color-adjust:exact}
}
)css";

} // namespace quartercut::report
