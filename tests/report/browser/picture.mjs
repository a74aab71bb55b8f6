// SPDX-License-Identifier: MIT
// The README's picture: parts of a real page, the answer for the farm and the maps of one field.
//
//     node picture.mjs REPORT.html PICTURE.png [NUMBER_OF_THE_FIELD]
import { chromium } from "playwright-core";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [report, picture, number = "1"] = process.argv.slice(2);
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--headless", "--no-sandbox", "--disable-gpu"] });
const page = await browser.newPage({ viewport: { width: 1200, height: 790 }, colorScheme: "light" });
await page.goto(pathToFileURL(resolve(report)).href);
await page.evaluate(field => {
  const keep = (parent, wanted) => [...parent.children].forEach(c => { if (!wanted(c)) c.style.display = "none"; });
  const is = (c, ...names) => names.some(name => c.classList.contains(name));
  keep(document.querySelector("main"), c => c.id === "answer" || c.id === "fields");
  let said = 0;
  keep(document.querySelector("#answer"), c => c.tagName === "H2" || (is(c, "answer", "raw") && said++ < 2));
  keep(document.querySelector("#fields"), c => c.id === `field-${field}`);
  keep(document.querySelector(`#field-${field}`), c => c.tagName === "H3" || is(c, "facts", "maps"));
  document.querySelector(`#field-${field} .facts`).style.maxWidth = "none";
  document.querySelector(".subtitle").style.display = "none";
  document.querySelector("#answer h2").style.marginTop = "1rem";
}, number);
await page.screenshot({ path: picture });
await browser.close();
