// Makes handouts with the program and looks at them in a browser: valid HTML, no fault of accessibility in light
// and dark, nothing wider than a phone, nothing asked of the network, and pages in print of A4 and Letter.
// Needs Chromium (CHROMIUM=path, default /usr/bin/chromium) and the program (KAOYI=path).
// With PICTURES=folder it leaves pictures there for a person to look at.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { launched } from "./opened.mjs";
import { validator } from "./validator.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const kaoyi = process.env.KAOYI ?? join(here, "../../target/debug/kaoyi");
const pictures = process.env.PICTURES;
const folder = mkdtempSync(join(tmpdir(), "kaoyi-"));
const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

const pages = {
  mint: ["薄荷"],
  chrysanthemum: ["juhua"],
  licorice: ["gancao"],
  aconite: ["fuzi"],
  ginseng: ["renshen"],
  "one-witness": ["baihuacai"],
  two: ["bohe", "juhua", "--ruby", "--script", "hans"],
  lesson: ["--disputes", "nature", "--top", "3"],
};

const faults = [];
const fault = (page, words) => faults.push(`${page}: ${words}`);

const browser = await launched();

async function look(name, file, colorScheme, width) {
  const context = await browser.newContext({ colorScheme, viewport: { width, height: 844 } });
  const page = await context.newPage();
  page.on("request", (request) => {
    if (!request.url().startsWith("file:")) fault(name, `asks for ${request.url()}`);
  });
  await page.goto(`file://${file}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  if (wide > width) fault(name, `${wide} wide on a screen of ${width}`);
  const cut = await page.evaluate(() =>
    [...document.querySelectorAll("svg.k-chart")].flatMap((svg) => {
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll("text")].map((text) => [text.textContent, text.getBoundingClientRect()]);
      const out = texts.filter(([, box]) => box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1);
      const meet = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 4 && b.top < a.bottom - 4;
      const over = texts.filter(([, a], place) => texts.slice(place + 1).some(([, b]) => meet(a, b)));
      return [...out.map(([words]) => `cut: ${words}`), ...over.map(([words]) => `overlapped: ${words}`)];
    }),
  );
  for (const words of cut) fault(name, words);
  await page.addScriptTag({ path: axe });
  const result = await page.evaluate(() => globalThis.axe.run());
  for (const one of result.violations) fault(name, `${colorScheme} ${width}: ${one.id}: ${one.help}: ${one.nodes[0].html.slice(0, 120)}`);
  if (pictures) await page.screenshot({ path: join(pictures, `${name}-${colorScheme}-${width}.png`), fullPage: true });
  await context.close();
}

async function print(name, file, format) {
  const page = await browser.newPage();
  await page.goto(`file://${file}`);
  const path = join(pictures ?? folder, `${name}-${format}.pdf`);
  await page.pdf({ path, format, printBackground: true });
  const count = readFileSync(path, "latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
  console.log(`${name}: ${count} pages of ${format}`);
  if (count === 0) fault(name, `no page of ${format}`);
  await page.close();
}

for (const [name, words] of Object.entries(pages)) {
  const file = join(folder, `${name}.html`);
  execFileSync(kaoyi, ["handout", ...words, "-o", file]);
  const report = await validator.validateFile(file);
  for (const result of report.results)
    for (const message of result.messages) fault(name, `${message.line}:${message.column} ${message.ruleId}: ${message.message}`);
  for (const scheme of ["light", "dark"]) for (const width of [390, 1100]) await look(name, file, scheme, width);
  for (const format of ["A4", "Letter"]) await print(name, file, format);
}
await browser.close();

for (const words of faults) console.log(words);
console.log(`${Object.keys(pages).length} handouts, ${faults.length} faults`);
process.exitCode = faults.length === 0 ? 0 : 1;
