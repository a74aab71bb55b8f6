// SPDX-License-Identifier: MIT
// The one script: what lies under the pointer, buttons that copy a table, one that unfolds all, one that switches yields to
// t/ha. Everything reads without it.
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
      out.textContent = best ? said(best[2], out.dataset) : words.readout;
    }
    function said(value, { unit, tHaPerUnit }) {
      const si = tHaPerUnit ? " (" + (value * tHaPerUnit).toFixed(2) + " t/ha)" : "";
      return value + " " + unit + si;
    }
  }
  for (const figure of document.querySelectorAll(".method-map")) {
    const out = figure.querySelector(".readout");
    out.textContent = words.zoneReadout;
    for (const zone of figure.querySelectorAll(".zone")) {
      const show = () => { out.textContent = zone.querySelector("title").textContent; };
      for (const event of ["pointerenter", "pointerdown", "focus"]) zone.addEventListener(event, show);
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
      const select = () => {  // where a page from a file may not write: marked, ready to be copied by hand
        const range = document.createRange();
        range.selectNode(box.querySelector("table"));
        getSelection().removeAllRanges();
        getSelection().addRange(range);
      };
      if (!navigator.clipboard) return select();
      navigator.clipboard.writeText(rows.join("\n")).then(() => { button.textContent = words.copied; }, select);
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
  if (words.showSi) {
    const units = document.createElement("button"), both = document.querySelectorAll("[data-si]");
    units.type = "button";
    units.className = "copy units";
    units.textContent = words.showSi;
    units.addEventListener("click", () => {
      for (const e of both) [e.textContent, e.dataset.si] = [e.dataset.si, e.textContent];
      units.textContent = units.textContent === words.showSi ? words.showOwn : words.showSi;
    });
    nav.append(" ", units);
  }
})();
)js";

} // namespace quartercut::report
