// Prints how long a page of an herb takes to its first paint, in a window that is open and, with FRESH=1, in a new one each time: a
// figure, no test. A small page beside them tells what the browser takes for anything.
//     KAOYI=target/release/kaoyi node paint.mjs [PATH …]
// Needs what room.mjs needs.
import { opened } from "./opened.mjs";

const { base, browser, close } = await opened();
const paths = process.argv.slice(2);
try {
  for (const path of paths.length ? paths : ["/weigh", "/herb/bohe", "/herb/gancao", "/herb/fuzi?lang=zh&script=hans&pinyin=yes"]) {
    const times = [];
    const size = { viewport: { width: 1280, height: 800 } };
    let page = await browser.newPage(size);
    for (let run = 0; run < 25; run += 1) {
      if (process.env.FRESH) {
        await page.close();
        page = await browser.newPage(size);
      }
      await page.goto(`${base}${path}`);
      const paint = await page.evaluate(
        () => new Promise((resolve) => {
          new PerformanceObserver((list) => resolve(list.getEntries()[0].startTime)).observe({ type: "paint", buffered: true });
        }),
      );
      times.push(paint);
    }
    await page.close();
    times.sort((a, b) => a - b);
    console.log(`${path}: first paint ${times[12].toFixed(0)} ms (median of 25), ${times[23].toFixed(0)} ms at the 24th`);
  }
} finally {
  await close();
}
