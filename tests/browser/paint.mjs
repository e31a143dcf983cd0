// Prints how long a page of an herb takes to its first paint, each time in a fresh window without a cache: a figure, no test.
//     KAOYI=target/release/kaoyi node paint.mjs [PATH …]
// Needs what room.mjs needs.
import { opened } from "./opened.mjs";

const { base, browser, close } = await opened();
const paths = process.argv.slice(2);
try {
  for (const path of paths.length ? paths : ["/herb/bohe", "/herb/gancao", "/herb/fuzi?lang=zh&script=hans&pinyin=yes"]) {
    const times = [];
    for (let run = 0; run < 25; run += 1) {
      const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
      const page = await context.newPage();
      await page.goto(`${base}${path}`);
      const paint = await page.evaluate(
        () => new Promise((resolve) => {
          new PerformanceObserver((list) => resolve(list.getEntries()[0].startTime)).observe({ type: "paint", buffered: true });
        }),
      );
      times.push(paint);
      await context.close();
    }
    times.sort((a, b) => a - b);
    console.log(`${path}: first paint ${times[12].toFixed(0)} ms (median of 25), ${times[23].toFixed(0)} ms at the 24th`);
  }
} finally {
  await close();
}
