// SPDX-License-Identifier: MIT
// Opens a report in Debian's Chromium from a file, offline, and checks what a reader would see: no request, no console
// error, every number of comparison.json drawn, keyboard path, phone width, print, accessibility.
//
//     node check.mjs REPORT.html [--json comparison.json] [--out FOLDER]
import { chromium } from "playwright-core";
import axe from "axe-core";
import { mkdtempSync, mkdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [report, ...rest] = process.argv.slice(2);
const option = name => (rest.includes(name) ? rest[rest.indexOf(name) + 1] : null);
const json = option("--json") ? JSON.parse(readFileSync(option("--json"), "utf8")) : null;
const out = option("--out") ?? mkdtempSync(join(tmpdir(), "quartercut-report-"));
mkdirSync(out, { recursive: true });

let failures = 0;
function expect(condition, what) {
  if (!condition) failures++;
  console.log((condition ? "ok    " : "FAILED ") + what);
}

const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync"];

async function open(options, work) {
  const profile = mkdtempSync(join(tmpdir(), "quartercut-profile-"));
  const context = await chromium.launchPersistentContext(profile,
    { executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: flags, offline: true, ...options });
  try {
    const page = context.pages()[0] ?? await context.newPage();
    page.setDefaultTimeout(300000);  // a long page on a busy machine takes its time to be drawn
    const trouble = [], requests = [];
    page.on("console", m => { if (["error", "warning"].includes(m.type())) trouble.push(m.text()); });
    page.on("pageerror", e => trouble.push(String(e)));
    page.on("request", r => requests.push(r.url()));
    await page.goto(pathToFileURL(resolve(report)).href);
    await work(page, { trouble, requests });
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  }
}

const values = (page, selector, name) =>
  page.$$eval(selector, (all, n) => all.map(e => e.getAttribute(n)).filter(v => v !== null && v !== "").map(Number), name);
const holds = (all, value) => all.some(v => Math.abs(v - value) <= 1e-9 * Math.max(1, Math.abs(value)));

// The comparisons the answer tells, in its order. A farm row over one field says what the field says and is not told twice.
const toldOf = ({ farm, fields }) => [...farm.contrasts.filter(c => c.fields > 1), ...(farm.seasons ?? []),
  ...fields.flatMap(f => f.contrasts.filter(c => c.stratum === null))];

async function checkNumbers(page) {
  const gains = await values(page, "#forest [data-gain-t-ha]", "data-gain-t-ha");
  const lows = await values(page, "#forest [data-gain-t-ha]", "data-low-t-ha");
  const highs = await values(page, "#forest [data-gain-t-ha]", "data-high-t-ha");
  const differences = await values(page, "[data-difference-t-ha]", "data-difference-t-ha");
  const loads = await page.$$eval("#tickets-chart .marker", all => all.length);
  const zones = await values(page, "[data-zone][data-yield-t-ha]", "data-yield-t-ha");
  for (const field of json.fields) {
    for (const contrast of field.contrasts) {
      if (contrast.gain_t_ha === null || contrast.stratum !== null) continue;
      const [low, high] = contrast.ci95_total_t_ha ?? contrast.ci95_t_ha ?? [null, null];
      expect(holds(gains, contrast.gain_t_ha) && (low === null || (holds(lows, low) && holds(highs, high))),
        `gain of ${field.name} (${contrast.gain_t_ha} t/ha) is drawn with its range`);
      const pairs = contrast.pairs ?? [];
      if (pairs.length) expect(pairs.every(p => holds(differences, p.difference_t_ha)),
        `the differences of its ${pairs.length} pairs are drawn`);
    }
    const wrong = field.zones.filter(z => z.yield_t_ha !== null && !holds(zones, z.yield_t_ha));
    expect(wrong.length === 0, `yields of the ${field.zones.length} zones of ${field.name} are in its map`);
  }
  for (const contrast of json.farm.contrasts) {
    if (contrast.gain_t_ha !== null) expect(holds(gains, contrast.gain_t_ha), `farm gain ${contrast.gain_t_ha} t/ha is drawn`);
  }
  for (let i = 0; i < json.fields.length; i++) await checkField(page, json.fields[i], i + 1);
  expect(loads >= 0, `${loads} weighed loads are drawn`);
  const findings = await page.$$eval("#answer [data-finding]", all => all.map(e => e.dataset.finding));
  const wanted = toldOf(json);
  expect(JSON.stringify(findings) === JSON.stringify(wanted.map(c => c.finding)), `findings in the answer: ${findings}`);
}

// Every chart a field must have, by what comparison.json holds of it.
async function checkField(page, field, n) {
  const missing = [];
  const has = async id => { if (!await page.$(`#${id}`)) missing.push(id); };
  await has(`method-map-${n}`);
  if (field.segments > 0) await has(`yield-map-${n}`);
  for (const [k, contrast] of field.contrasts.entries()) {
    if (contrast.pairs?.length) await has(`pairs-${n}-${k + 1}`);
    if (contrast.budget?.length) await has(`budget-${n}-${k + 1}`);
    if (contrast.robustness?.length) await has(`robustness-${n}-${k + 1}`);
  }
  expect(missing.length === 0, `every map and chart of ${field.name} is there ${missing.join(", ")}`);
}

async function checkDesk(page, { trouble, requests }) {
  expect(requests.length === 1, `one request, the page itself (${requests.length})`);
  const svgs = await page.$$eval("figure svg[id]", all => all.map(e => ({ id: e.id, w: e.getBoundingClientRect().width,
    h: e.getBoundingClientRect().height, named: !!(e.getAttribute("aria-label") || e.getAttribute("aria-labelledby")) })));
  expect(svgs.length > 2 && svgs.every(s => s.w > 100 && s.h > 30 && s.named), `${svgs.length} named drawings have a size`);
  const fields = await page.$$eval("article", all => all.length);
  for (let i = 1; i <= fields; i++) expect(svgs.some(s => s.id === `method-map-${i}`), `map ${i} is there`);
  const ids = await page.$$eval("[id]", all => all.map(e => e.id));
  expect(new Set(ids).size === ids.length, `${ids.length} ids, all different`);
  const words = await page.evaluate(() => document.body.innerText);
  expect(!/\b(nan|inf|undefined|null)\b(?!\.toml)/i.test(words), "no stray not-a-number in the text");
  if (json) await checkNumbers(page);
  await checkSwitch(page);
  await page.screenshot({ path: join(out, "desk.png"), fullPage: true, timeout: 300000 });
  expect(trouble.length === 0, `no console message ${trouble.join(" | ")}`);
}

async function checkSwitch(page) {
  const shown = async () => page.$eval(".layer-yield", e => getComputedStyle(e).display !== "none");
  if (!await page.$(".layer-yield")) return;
  const before = await shown();
  await page.locator(".show-yield").first().uncheck();
  expect(before && !await shown(), "the layer switch hides the yield");
  await page.locator(".show-yield").first().check();
  const map = page.locator(".yield-map svg[id]").first();
  await map.scrollIntoViewIfNeeded();
  const at = await map.evaluate(svg => {  // the middle stretch of the first map, in window coordinates
    const all = svg.querySelector(".stretch-values").dataset.values.split(";").filter(Boolean);
    const [x, y] = all[Math.floor(all.length / 2)].split(",").map(Number);
    svg.scrollIntoView({ block: "center", behavior: "instant" });
    const point = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM());
    return { x: point.x, y: point.y };
  });
  await page.mouse.move(at.x, at.y);
  const readout = await page.locator(".yield-map .readout").first().innerText();
  expect(/^\d/.test(readout), `pointing at the map reads "${readout}"`);
}

// What a copied table holds: rows of cells, taken from the clipboard after its button was pressed.
async function copied(page, id) {
  const box = page.locator(`.table:has(> table#${id})`);
  await page.locator(`.table:has(> table#${id}) + .copy`).click();
  const text = await page.evaluate(() => navigator.clipboard.readText());
  const rows = text.split("\n").map(row => row.split("\t"));
  expect(rows.length === await box.locator("tr").count(), `${id}: the copy holds its ${rows.length} rows`);
  return rows;
}

// Numbers of the column of that heading; "+1.5" and "-1.5" as numbers.
const column = (rows, heading) => rows.slice(1).map(row => row[rows[0].indexOf(heading)]).filter(cell => cell).map(Number);
const agree = (all, wanted, within) => all.length === wanted.length && all.every((v, i) => Math.abs(v - wanted[i]) <= within);

// Tables copied by their buttons, read back and compared with comparison.json: three decimals of t/ha.
async function checkCopy(page) {
  await page.locator("nav .copy").first().click();
  const rows = await copied(page, "differences");
  const all = [...json.fields.flatMap(f => f.contrasts), ...json.farm.contrasts].filter(c => c.gain_t_ha !== null && !c.stratum);
  const gains = column(rows, "Difference (t/ha)");
  expect(gains.length > 0 && all.every(c => gains.some(v => Math.abs(v - c.gain_t_ha) <= 5.1e-4)),
    `the copied differences are those of comparison.json: ${gains.join(", ")}`);
  for (const [i, field] of json.fields.entries()) {
    for (const [k, contrast] of field.contrasts.entries()) {
      if (!contrast.pairs?.length) continue;
      const pairs = await copied(page, `pairs-table-${i + 1}-${k + 1}`);
      const wanted = name => contrast.pairs.map(p => p[name]).sort((a, b) => a - b);
      const got = column(pairs, "Difference (t/ha)").sort((a, b) => a - b);
      expect(agree(got, wanted("difference_t_ha"), 5.1e-4), `the copied pairs of ${field.name} are those of comparison.json`);
      return;
    }
  }
}

// A finger on a map says what the pointer says: of a part, its method and yield; of a place, the yield there.
async function checkTap(page) {
  const zone = page.locator(".zone[data-yield-t-ha]").first();
  const tapAt = async at => page.touchscreen.tap(at.x, at.y);
  const seen = async (svg, x, y) => svg.evaluate((element, [x, y]) => {
    element.scrollIntoView({ block: "center", behavior: "instant" });
    const at = new DOMPoint(x, y).matrixTransform(element.getScreenCTM());
    return { x: at.x, y: at.y };
  }, [x, y]);
  const map = page.locator(".method-map svg[id]").first();
  const inside = await zone.evaluate(path => {  // a spot of the zone itself, in drawing units
    const box = path.getBBox();
    for (let i = 1; i < 400; i++) {
      const at = new DOMPoint(box.x + box.width * (i % 20 + 0.5) / 20, box.y + box.height * (Math.floor(i / 20) + 0.5) / 20);
      if (path.isPointInFill(at)) return [at.x, at.y];
    }
    return null;
  });
  await tapAt(await seen(map, ...inside));
  const said = await page.locator(".method-map .readout").first().innerText();
  const title = await zone.evaluate(path => path.querySelector("title").textContent);
  expect(said === title && said.includes("t/ha"), `a tap on a part reads "${said}"`);
  const yields = page.locator(".yield-map svg[id]").first();
  if (!await yields.count()) return;
  const stretch = await yields.evaluate(svg => {
    const all = svg.querySelector(".stretch-values").dataset.values.split(";").filter(Boolean);
    return all[Math.floor(all.length / 3)].split(",").map(Number);
  });
  await tapAt(await seen(yields, stretch[0], stretch[1]));
  const value = await page.locator(".yield-map .readout").first().innerText();
  const near = await yields.evaluate((svg, [x, y]) => svg.querySelector(".stretch-values").dataset.values.split(";")
    .filter(Boolean).map(s => s.split(",").map(Number)).filter(p => Math.hypot(p[0] - x, p[1] - y) < 2).map(p => p[2]), stretch);
  expect(near.includes(parseFloat(value)), `a tap on the yields reads "${value}"`);
}

// Tonnes per hectare in one unit of the report: pounds and acres as defined (NIST Handbook 44, Appendix C: 1 lb is
// 0.45359237 kg; 1 ac is 0.40468564224 ha within the figures told).
function tHaPerUnit({ units, bushel_lb }) {
  const lbAc = 0.45359237 / 1000 / 0.40468564224;
  return { "bu/ac": bushel_lb * lbAc, "lb/ac": lbAc, "kg/ha": 0.001 }[units];
}

const numbersOf = text => text.match(/[+-]?\d+(?:\.\d+)?/g) ?? [];
const halfStep = number => 0.51 * 10 ** -(number.split(".")[1] ?? "").length;

// The button that tells yields in t/ha: every number is the one shown before times the factor, or stays (percentages,
// names, counts); the answer is that of comparison.json; and back again.
async function checkUnits(page) {
  if (json.season.units === "t/ha") return;
  const factor = tHaPerUnit(json.season);
  const button = page.locator("nav .units");
  const read = () => page.$$eval("[data-si]", all => all.map(e => e.textContent));
  const before = await read();
  await button.click();
  const after = await read();
  const wrong = [];
  let switched = 0;
  for (const [i, text] of before.entries()) {
    const own = numbersOf(text), si = numbersOf(after[i]);
    if (own.length !== si.length) wrong.push(`"${text}" and "${after[i]}"`);
    for (const [k, number] of own.entries()) {
      if (number === si[k] || si[k] === undefined) continue;
      switched++;
      if (Math.abs(number * factor - si[k]) > halfStep(number) * factor + halfStep(si[k])) wrong.push(`${number} and ${si[k]}`);
    }
  }
  expect(wrong.length === 0 && switched > 20, `${switched} numbers switch to t/ha, times ${factor.toFixed(5)} ${wrong.slice(0, 3).join("; ")}`);
  const told = (await page.$$eval("#answer [data-finding]", all => all.map(e => e.textContent)));
  const first = toldOf(json).findIndex(c => c.gain_t_ha !== null);
  if (first >= 0) {
    const { gain_t_ha, ci95_total_t_ha, ci95_t_ha } = toldOf(json)[first];
    const wanted = [gain_t_ha, ...(ci95_total_t_ha ?? ci95_t_ha ?? [])].map(Math.abs);
    expect(/ t\/ha /.test(told[first]) && wanted.every(v => numbersOf(told[first]).some(n => Math.abs(n - v) <= 0.0051)),
      `the answer in t/ha: "${told[first].slice(0, 110)}"`);
  }
  await button.click();
  expect(JSON.stringify(await read()) === JSON.stringify(before), "and back again");
}

async function checkKeyboard(page) {
  await page.keyboard.press("Tab");
  expect(await page.evaluate(() => document.activeElement.className) === "skip", "the first stop is the skip link");
  const zones = [];
  for (let i = 0; i < 400 && zones.length < 2; i++) {
    await page.keyboard.press("Tab");
    const label = await page.evaluate(() => document.activeElement.dataset?.zone ? document.activeElement.getAttribute("aria-label") : "");
    if (label) zones.push(label);
  }
  const before = await page.$$eval("details[open]", all => all.length);
  await page.locator("nav button").first().focus();
  await page.keyboard.press("Enter");
  const after = await page.$$eval("details:not([open])", all => all.length);
  expect(before === 0 && after === 0, "the keyboard unfolds every table");
  expect(zones.length > 0, `zones can be reached by keyboard, e.g. "${zones[0]}"`);
}

// Whoever asks for less motion gets none: nothing glides, fades or scrolls by itself.
async function checkMotion(page) {
  const moving = await page.$$eval("*", all => all.filter(e => {
    const style = getComputedStyle(e);
    return style.scrollBehavior === "smooth" || parseFloat(style.transitionDuration) > 0 || style.animationName !== "none";
  }).map(e => e.tagName));
  expect(moving.length === 0, `nothing moves where less motion is asked for ${[...new Set(moving)].join(", ")}`);
}

// A page that is to be sent by mail and read on a phone: under 3 MB for a season of up to ten fields.
function checkSize() {
  const fields = json ? json.fields.length : Infinity, bytes = statSync(report).size;
  if (fields <= 10) expect(bytes < 3e6, `${(bytes / 1e6).toFixed(2)} MB for ${fields} fields`);
  else console.log(`       ${(bytes / 1e6).toFixed(2)} MB`);
}

async function checkAxe(page, where) {
  await page.evaluate(axe.source);
  const found = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"] }));
  for (const v of found.violations) console.log(`       ${v.impact} ${v.id}: ${v.help} (${v.nodes.length}) ${v.nodes[0].html.slice(0, 160)}`);
  const bad = found.violations.filter(v => ["serious", "critical"].includes(v.impact));
  expect(bad.length === 0, `axe, ${where}: ${found.violations.length} findings, none serious`);
}

// Text of drawings: large enough on a phone, and inside its drawing.
async function checkText(page) {
  const found = await page.$$eval("figure svg[id] text", all => all.filter(e => e.getClientRects().length > 0).map(e => {
    const svg = e.ownerSVGElement, frame = svg.getBoundingClientRect(), box = e.getBoundingClientRect();
    return { what: `${svg.id}: ${e.textContent}`, px: parseFloat(getComputedStyle(e).fontSize) * svg.getScreenCTM().a,
      out: box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 || box.bottom > frame.bottom + 1 };
  }));
  const least = Math.min(...found.map(t => t.px)), out = found.filter(t => t.out).map(t => t.what);
  expect(least >= 11, `the smallest text of a drawing at 390 px is ${least.toFixed(1)} px high`);
  expect(out.length === 0, `every text stays inside its drawing ${out.slice(0, 4).join(", ")}`);
}

const sideways = page => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

// A drawing must fit the width and height of the sheet inside 15 mm margins.
async function checkPrint(page, format, width_mm, height_mm) {
  const px = mm => mm / 25.4 * 96;
  await page.emulateMedia({ media: "print", colorScheme: "light" });
  await page.setViewportSize({ width: Math.round(px(width_mm - 30)), height: Math.round(px(height_mm - 30)) });
  await page.evaluate(() => document.querySelectorAll("details").forEach(d => { d.open = false; }));
  const paper = { format, preferCSSPageSize: false, printBackground: false,
    margin: { top: "15mm", bottom: "15mm", left: "15mm", right: "15mm" } };
  const sheets = pdf => (pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g) ?? []).length;
  await checkCut(page, `${format}, as it opens`, { w: px(width_mm - 30), h: px(height_mm - 30) });
  const shown = await page.$$eval("nav, .layers, .copy", all => all.filter(e => e.getClientRects().length > 0).length);
  expect(shown === 0, `${format}: no button and no menu on paper`);
  console.log(`       ${format}: ${sheets(await page.pdf({ path: join(out, `report-${format}.pdf`), ...paper }))} sheets`);
  await page.evaluate(() => document.querySelectorAll("details").forEach(d => { d.open = true; }));
  await checkCut(page, `${format}, unfolded`, { w: px(width_mm - 30), h: px(height_mm - 30) });
  console.log(`       ${format}, unfolded: ${sheets(await page.pdf({ path: join(out, `unfolded-${format}.pdf`), ...paper }))} sheets`);
}

async function checkCut(page, what, sheet) {
  const cut = await page.$$eval("figure svg[id], table", (all, limit) => all.filter(e => {
    const box = e.getBoundingClientRect();
    return box.right > limit.w + 1 || (e.tagName !== "TABLE" && box.height > limit.h);
  }).map(e => e.id + " " + Math.round(e.getBoundingClientRect().right)), sheet);
  expect(cut.length === 0, `${what}: nothing is wider or higher than the sheet ${cut.join(", ")}`);
}

checkSize();
await open({ viewport: { width: 1280, height: 900 }, colorScheme: "light" }, checkDesk);
await open({ viewport: { width: 1280, height: 900 }, colorScheme: "light" }, checkKeyboard);
await open({ viewport: { width: 1280, height: 900 }, permissions: ["clipboard-read", "clipboard-write"] }, async page => {
  if (!json) return;
  await checkCopy(page);
  await checkUnits(page);
});
await open({ viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true, deviceScaleFactor: 2 }, checkTap);
await open({ viewport: { width: 1280, height: 900 }, reducedMotion: "reduce" }, checkMotion);
await open({ viewport: { width: 1280, height: 900 }, colorScheme: "light", bypassCSP: true }, page => checkAxe(page, "desk"));
await open({ viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true, deviceScaleFactor: 2, colorScheme: "light" }, async page => {
  expect(await sideways(page) === 0, "no sideways scroll at 390 px");
  await page.screenshot({ path: join(out, "phone.png"), fullPage: true, timeout: 300000 });
});
await open({ viewport: { width: 390, height: 844 }, colorScheme: "dark", bypassCSP: true }, async page => {
  await page.screenshot({ path: join(out, "phone-dark.png"), fullPage: true, timeout: 300000 });
  await page.evaluate(() => document.querySelectorAll("details").forEach(d => { d.open = true; }));
  await checkText(page);
  expect(await sideways(page) === 0, "no sideways scroll at 390 px with everything unfolded");
  await checkAxe(page, "phone, dark, everything unfolded");
});
await open({ viewport: { width: 800, height: 1000 } }, async page => {
  await checkPrint(page, "Letter", 215.9, 279.4);
  await checkPrint(page, "A4", 210, 297);
});
console.log(`Pictures and prints: ${out}`);
process.exit(failures === 0 ? 0 : 1);
