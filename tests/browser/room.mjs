// Opens the reading room and uses it in a browser: the main act of each page at the width of a desk and of a phone, in light and
// dark; no fault of accessibility, nothing wider than the screen, nothing asked of others, no complaint in the console.
// Needs Chromium (CHROMIUM=path, default /usr/bin/chromium) and the program (KAOYI=path).
// With PICTURES=folder it leaves pictures there for a person to look at.
import { readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { opened } from "./opened.mjs";
import { validator } from "./validator.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const pictures = process.env.PICTURES;
const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const { base, browser, close } = await opened();

const faults = [];
const fault = (page, words) => faults.push(`${page}: ${words}`);

/** Pages with their main act; what the act should lead to is checked in it. Each file of `acts` adds its own. */
const acts = {};
for (const file of readdirSync(join(here, "acts")).sort()) Object.assign(acts, (await import(`./acts/${file}`)).default);

async function look(name, { path, act, script = true }, colorScheme, width) {
  const context = await browser.newContext({ colorScheme, viewport: { width, height: width < 500 ? 844 : 800 }, locale: "en-US", javaScriptEnabled: script });
  const page = await context.newPage();
  page.setDefaultTimeout(20000);
  const where = `${name} ${colorScheme} ${width}`;
  page.on("request", (request) => {
    if (!request.url().startsWith(`${base}/`)) fault(where, `asks for ${request.url()}`);
  });
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") fault(where, `console: ${message.text()}`);
  });
  page.on("pageerror", (error) => fault(where, `script: ${error}`));
  await page.goto(`${base}${path}`);
  try {
    if (act) await act(page, { base, expect: (holds, words) => holds || fault(where, words) });
  } catch (error) {
    fault(where, String(error).split("\n").slice(0, 3).join(" "));
  }
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  if (wide > width) fault(where, `${wide} wide on a screen of ${width}`);
  if (pictures) {
    await page.screenshot({ path: join(pictures, `${name}-${colorScheme}-${width}.png`) });
    if (colorScheme === "light") await page.screenshot({ path: join(pictures, `${name}-whole-${width}.png`), fullPage: true });
  }
  if (!script) return await context.close();
  // From outside the page, since its policy lets no other script in.
  await page.evaluate(await (await import("node:fs/promises")).readFile(axe, "utf8"));
  const result = await page.evaluate(() => globalThis.axe.run());
  for (const one of result.violations) fault(where, `${one.impact} ${one.id}: ${one.help}: ${one.nodes[0].html.slice(0, 140)}`);
  await context.close();
}

/** The page as it is sent keeps to the standard. */
async function valid(name, { path }) {
  const sent = await (await fetch(`${base}${path}`)).text();
  const report = await validator.validateString(sent);
  for (const { messages } of report.results) for (const one of messages) fault(name, `${one.line}:${one.column} ${one.ruleId}: ${one.message}`);
}

const only = process.argv.slice(2);
const chosen = Object.entries(acts).filter(([name]) => only.length === 0 || only.includes(name));
try {
  for (const [name, one] of chosen) {
    await valid(name, one);
    for (const scheme of ["light", "dark"]) for (const width of [390, 1280]) await look(name, one, scheme, width);
  }
} finally {
  await close();
}

for (const words of faults) console.log(words);
console.log(`${chosen.length} acts, ${faults.length} faults`);
process.exitCode = faults.length === 0 ? 0 : 1;
