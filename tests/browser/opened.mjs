// The reading room of a circle that has kept a notebook (an invented one, a copy), and a browser.
// CHROMIUM=path, default /usr/bin/chromium; KAOYI=path, default the debug build.
import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));

/** What a browser for tests is started with; it asks nobody but the room. */
export const launched = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });

/** The address of the room, the browser, and what ends both. */
export async function opened() {
  const folder = mkdtempSync(join(tmpdir(), "kaoyi-"));
  const notebook = join(folder, "notebook");
  cpSync(join(here, "../../docs/examples/notebook"), notebook, { recursive: true });
  const room = spawn(process.env.KAOYI ?? join(here, "../../target/debug/kaoyi"), ["serve", "--port", "0", "--notebook", notebook], {
    stdio: ["ignore", "pipe", "inherit"],
    env: { ...process.env, XDG_CACHE_HOME: process.env.XDG_CACHE_HOME ?? folder },
  });
  const base = await new Promise((resolve, reject) => {
    room.stdout.once("data", (text) => resolve(/http:\S+/.exec(String(text))[0].replace(/\/$/, "")));
    room.once("exit", () => reject(new Error("the room did not open")));
  });
  const browser = await launched();
  const close = async () => {
    await browser.close();
    room.kill();
    rmSync(folder, { recursive: true, force: true });
  };
  return { base, browser, close };
}
