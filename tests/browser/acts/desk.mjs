// The pages on disputes, works, pairing, weights and the notebook.
const heading = (page) => page.locator("h1").innerText();

/** The cautions stay in view wherever the page is read. */
async function heeded(page, expect) {
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight / 2));
  const strip = await page.locator(".strip").boundingBox();
  expect(strip && strip.y < page.viewportSize().height, "the cautions are out of view");
  await page.evaluate(() => scrollTo(0, 0));
}

let cup = 1;

const table = [
  "herb,taster,date,acrid,sweet,warmth",
  "薄荷,A,2026-03-14,6.5,1,-2",
  "薄荷,B,2026-03-14,5,2,-3",
  "薄荷,C,2026-03-14,7,0.5,-1",
  "薄荷,D,2026-03-14,65,1,-2",
].join("\n");

export default {
  disputes: {
    path: "/disputes",
    async act(page, { expect }) {
      await page.locator("input[name=facet][value=nature]").check();
      await page.locator("select[name=kind]").selectOption("crossing");
      await Promise.all([page.waitForURL(/kind=crossing/), page.locator("form.filters button").click()]);
      expect(await page.locator("input[name=facet][value=nature]").isChecked(), "the filter is not kept");
      await page.locator("#ranking details summary").first().click();
      expect(await page.locator("#ranking details ul").first().isVisible(), "the sides are not one click away");
      await Promise.all([page.waitForURL(/since=1369/), page.locator("nav.choices a", { hasText: "Ming" }).click()]);
      expect(page.url().includes("kind=crossing"), "the choice of a period loses the filter");
    },
  },
  works: { path: "/works" },
  work: {
    path: "/works",
    async act(page, { expect }) {
      await page.locator("#read tbody a").nth(5).click();
      await page.waitForURL("**/works/*");
      expect((await page.locator("#nearest tbody tr").count()) > 0, "no nearest works");
    },
  },
  affinity: { path: "/affinity" },
  "affinity-one": { path: "/affinity?work=bencao-congxin" },
  pair: {
    path: "/pair",
    async act(page, { expect }) {
      await page.locator("#herb-1").fill("薄荷");
      await page.locator("#amount-1").fill("3");
      await page.locator("#herb-2").fill("菊花");
      await page.locator("#amount-2").fill("6");
      await Promise.all([page.waitForURL(/herb=/), page.locator("form.filters > button").click()]);
      expect((await page.locator("#members tbody tr").count()) === 2, "two herbs were asked for");
      const before = await page.locator("#members tbody td").nth(1).innerText();
      await Promise.all([page.waitForNavigation(), page.locator(".slide").first().focus().then(() => page.keyboard.press("End"))]);
      expect((await page.locator("#members tbody td").nth(1).innerText()) !== before, "the slider changes nothing");
      await heeded(page, expect);
    },
  },
  "pair-forbidden": {
    path: "/pair?herb=甘草&amount=3&unit=liang&period=han&herb=甘遂&amount=2",
    async act(page, { expect }) {
      expect((await page.locator(".strip").innerText()).includes("must not meet"), "the forbidden pair does not stay in view");
      await heeded(page, expect);
    },
  },
  weigh: {
    path: "/weigh",
    async act(page, { expect }) {
      await page.locator("#what").fill("芍藥=四兩, 甘草=四兩");
      await page.locator("#period").selectOption("han");
      await page.locator("#daily").fill("9");
      await Promise.all([page.waitForURL(/what=/), page.locator("form.filters button").click()]);
      expect((await page.locator("#scaled tbody tr").count()) > 0, "nothing is scaled");
      expect((await page.locator("#opinions-han tbody tr").count()) > 1, "opinions are missing");
      await heeded(page, expect);
    },
  },
  explain: {
    path: "/explain/bohe",
    async act(page, { expect }) {
      await page.locator("main details summary").first().click();
      expect(await page.locator("main details p").first().isVisible(), "the works are not one click away");
      await heeded(page, expect);
    },
  },
  tastings: { path: "/taste" },
  note: { path: "/taste/note/last" },
  "note-form": {
    path: "/taste/add?herb=薄荷&taster=A",
    async act(page, { expect }) {
      expect((await page.locator("fieldset legend").count()) >= 7, "the steps of the protocol are missing");
      await page.locator("[name=acrid]").fill("6.5");
      expect((await page.locator("[name=acrid] + .slide").inputValue()) === "6.5", "the slider does not follow");
    },
  },
  "note-written": {
    path: "/taste/add?herb=薄荷&taster=B",
    async act(page, { expect }) {
      // Every look at the page writes a cup of its own.
      cup += 1;
      await page.locator("[name=date]").fill("2026-04-04");
      await page.locator("[name=cup]").fill(String(cup));
      await page.locator("[name=sweet]").fill("1.5");
      await Promise.all([page.waitForURL("**/taste/note/**"), page.locator("form.tasting button").click()]);
      expect((await page.locator("main").innerText()).includes("1.5"), "the tasting is not shown");
      await page.goBack();
    },
  },
  "note-refused": {
    path: "/taste/add?herb=附子",
    async act(page, { expect }) {
      expect((await page.locator(".cautions li.grave").count()) > 0, "nothing is said against it");
    },
  },
  "taste-against": {
    path: "/taste/against/bohe",
    async act(page, { expect }) {
      await heeded(page, expect);
    },
  },
  panel: {
    path: "/taste/panel",
    async act(page, { expect }) {
      await page.locator("#table").setInputFiles({ name: "class.csv", mimeType: "text/csv", buffer: Buffer.from(table) });
      await Promise.all([page.waitForNavigation(), page.locator("form.filters button").click()]);
      expect((await heading(page)).includes("薄荷"), "the panel is of another herb");
      expect((await page.locator(".findings li").count()) === 1, "the faulty cell is not told");
      await heeded(page, expect);
    },
  },
  "pair-zh": { path: "/pair?herb=薄荷&amount=3&herb=菊花&amount=6&lang=zh&script=hans" },
  "weigh-zh": { path: "/weigh?what=3%20liang&lang=zh" },
  handout: {
    path: "/handout/bohe?ruby=yes",
    async act(page, { expect }) {
      expect((await page.locator("ruby rt").first().innerText()) === "nán bò he", "mint sounds otherwise in its own by-name");
    },
  },
  lesson: { path: "/lesson?facet=nature" },
  downloads: {
    path: "/herb/juhua",
    async act(page, { expect }) {
      for (const [part, ending] of [["/handout/juhua/html", ".html"], ["/handout/juhua/markdown", ".md"], ["/export/juhua/csv", ".csv"]]) {
        const [saved] = await Promise.all([page.waitForEvent("download"), page.locator(`a[href*='${part}']`).first().click()]);
        expect(saved.suggestedFilename().endsWith(ending), `${saved.suggestedFilename()} is an odd name`);
      }
    },
  },
};
