// SPDX-License-Identifier: MIT
// The one script: yield under the pointer, buttons that copy a table and one that unfolds all. Everything reads without it.
#include "report/looks.hpp"

namespace quartercut::report {

const char* const script = R"js(
"use strict";
(() => {
  const words = document.body.dataset;
  for (const figure of document.querySelectorAll(".yield-map")) {
    const svg = figure.querySelector("svg"), out = figure.querySelector(".readout"),
          store = figure.querySelector(".stretch-values");
    if (!svg || !out || !store) continue;
    const points = store.dataset.values.split(";").filter(Boolean).map(p => p.split(","));
    out.textContent = words.readout;
    svg.addEventListener("pointermove", show);
    svg.addEventListener("pointerdown", show);
    function show(event) {
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      let best = null, least = 144;
      for (const p of points) {
        const d = (p[0] - at.x) ** 2 + (p[1] - at.y) ** 2;
        if (d < least) { least = d; best = p; }
      }
      out.textContent = best ? best[2] + " " + out.dataset.unit : words.readout;
    }
  }
  for (const box of document.querySelectorAll(".table")) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "copy";
    button.textContent = words.copy;
    button.addEventListener("click", () => {
      const text = cell => cell.textContent.replace(/\s+/g, " ");
      const rows = [...box.querySelectorAll("tr")].map(row => [...row.cells].map(text).join("\t"));
      navigator.clipboard.writeText(rows.join("\n")).then(() => { button.textContent = words.copied; }, () => {
        const range = document.createRange();
        range.selectNode(box.querySelector("table"));
        getSelection().removeAllRanges();
        getSelection().addRange(range);
      });
    });
    box.after(button);
  }
  // One button for all that is folded away: to read everything, or before printing it.
  const nav = document.querySelector("nav"), all = document.createElement("button");
  all.type = "button";
  all.className = "copy";
  all.textContent = words.unfold;
  all.addEventListener("click", () => {
    const open = all.textContent === words.unfold;
    for (const d of document.querySelectorAll("details")) d.open = open;
    all.textContent = open ? words.fold : words.unfold;
  });
  nav.append(all);
})();
)js";

} // namespace quartercut::report
