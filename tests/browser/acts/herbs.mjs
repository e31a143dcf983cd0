// The pages on herbs.
const heading = (page) => page.locator("h1").innerText();

export default {
  home: {
    path: "/",
    async act(page, { expect }) {
      await page.locator("#ask").pressSequentially("boh");
      await page.locator(".suggested:visible [role=option]").first().waitFor();
      await page.keyboard.press("ArrowDown");
      const chosen = await page.locator("#ask").getAttribute("aria-activedescendant");
      expect(chosen, "no suggestion is chosen by the arrow key");
    },
  },
  keys: {
    path: "/herb/juhua",
    async act(page, { expect }) {
      await page.keyboard.press("Tab");
      expect((await page.locator(":focus").getAttribute("class")) === "skip", "the first stop does not skip to the text");
      await page.keyboard.press("Enter");
      await page.keyboard.press("/");
      expect((await page.locator(":focus").getAttribute("type")) === "search", "the stroke does not lead to the search");
    },
  },
  "without-script": {
    path: "/",
    script: false,
    async act(page, { expect }) {
      await page.locator("#ask").fill("菊花");
      await Promise.all([page.waitForNavigation(), page.locator("#ask").press("Enter")]);
      await page.getByRole("link", { name: "菊花" }).first().click();
      expect((await heading(page)).includes("菊花"), "without script the herb is not found");
      await page.locator("details.working summary").first().click();
      expect(await page.locator("details.working dl").first().isVisible(), "without script no working is shown");
    },
  },
  suggested: {
    path: "/",
    async act(page, { expect }) {
      await page.locator("#ask").pressSequentially("薄荷");
      await page.locator(".suggested:visible [role=option]").first().waitFor();
      await page.keyboard.press("ArrowDown");
      await Promise.all([page.waitForURL("**/herb/bohe"), page.keyboard.press("Enter")]);
      expect((await heading(page)).includes("薄荷"), "the suggestion leads elsewhere");
    },
  },
  herb: {
    path: "/herb/bohe",
    async act(page, { expect }) {
      await page.locator("details.working summary").first().click();
      expect(await page.locator("details.working dl").first().isVisible(), "the working is not one click away");
      await page.locator("details.concept summary").first().click();
      const strip = await page.locator(".strip").boundingBox();
      const height = page.viewportSize().height;
      expect(strip && strip.y < height, "the cautions are out of view");
      await page.evaluate(() => scrollTo(0, 0));
    },
  },
  toxic: { path: "/herb/fuzi" },
  "herb-zh": {
    path: "/herb/juhua?lang=zh&script=hans&pinyin=yes",
    async act(page, { expect }) {
      expect((await page.locator("html").getAttribute("lang")) === "zh-Hans", "the language of the page is not told");
      expect((await page.locator("#differences-head").textContent()).includes("诸家异同"), "the interface is not in simplified script");
      expect((await page.locator("ruby rt").count()) > 0, "no pinyin");
    },
  },
  against: {
    path: "/herb/bohe",
    async act(page, { expect }) {
      await page.locator("#other").fill("菊花");
      await Promise.all([page.waitForURL("**/against/juhua"), page.locator("#other").press("Enter")]);
      expect((await page.locator("#together").innerText()) === "Together", "the two are not told of together");
    },
  },
  find: {
    path: "/find",
    async act(page, { expect }) {
      await page.locator("input[name=flavour][value=sweet]").check();
      await page.locator("select[name=nature]").selectOption("warm");
      await Promise.all([page.waitForURL(/flavour=sweet/), page.locator("form.search button").click()]);
      expect((await page.locator(".found > li").count()) > 0, "nothing found");
      const before = await page.locator("#found").innerText();
      await page.locator(".counts .chip").first().click();
      await page.waitForLoadState();
      expect((await page.locator("#found").innerText()) !== "" && before !== "", "no count");
    },
  },
  words: {
    path: "/find?q=头痛",
    async act(page, { expect }) {
      expect((await page.locator("mark").count()) > 0, "what was looked for is not marked");
    },
  },
  name: { path: "/name?name=甘菊" },
  missing: {
    path: "/name",
    async act(page, { base }) {
      // The status of the page is an error, which the console tells; it is not looked at here.
      await page.goto(`${base}/name?name=bohee`);
    },
  },
};
