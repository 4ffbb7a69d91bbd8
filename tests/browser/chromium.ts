// Debian's Chromium, with notes of what a page asks for and of what it complains.
import { existsSync } from "node:fs";
import { type Browser, chromium, type Page } from "playwright-core";

export const executablePath = "/usr/bin/chromium";
export const absent = !existsSync(executablePath);
/** Said in the titles of tests that are skipped. */
export const where = absent ? ` (skipped: no Chromium at ${executablePath})` : "";

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath,
    args: [
      "--headless",
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

/** What a page asked for beside itself, and what it complained of. */
export interface Watched {
  readonly page: Page;
  readonly requests: readonly string[];
  readonly complaints: string[];
}

export async function watched(
  browser: Browser,
  look: Parameters<Browser["newPage"]>[0] = {},
): Promise<Watched> {
  const page = await browser.newPage(look);
  const [requests, complaints]: [string[], string[]] = [[], []];
  page.on("request", (request) => requests.push(request.url()));
  page.on("console", (message) => complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(error.message));
  return { page, requests, complaints };
}
