// A page of the docs in a browser, served from a project with the package installed.
import { existsSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { launch, watched } from "../../tests/browser/chromium.js";

/**
 * Opens the page and waits for its figure, or gives it a cast and waits for the verdict.
 * @param project folder with node_modules/foulcast
 * @returns what the page complained of; empty if it works
 */
export async function documentedPage(html: string, project: string): Promise<readonly string[]> {
  const browser = await launch();
  try {
    const { page, complaints } = await watched(browser);
    await page.route("**/*", (route) => {
      const path = new URL(route.request().url()).pathname;
      if (path === "/") return route.fulfill({ contentType: "text/html", body: html });
      if (path === "/favicon.ico") return route.fulfill({ status: 204 });
      const file = join(project, path);
      if (!existsSync(file) || !statSync(file).isFile()) return route.fulfill({ status: 404 });
      const contentType = /\.m?js$/.test(file) ? "text/javascript" : "text/plain";
      return route.fulfill({ contentType, body: readFileSync(file) });
    });
    await page.goto("http://foulcast.invalid/", { waitUntil: "networkidle" });
    if (complaints.length > 0) return complaints;
    const input = page.locator("input[type=file]");
    if ((await input.count()) > 0) {
      const cast = "node_modules/foulcast/fixtures/demo-cruise/cast-008.csv";
      await input.setInputFiles(join(project, cast));
      await page.getByText(/primary cell +(clean|not clean|open) \(/).waitFor();
    } else {
      await page.getByRole("img", { name: /Gain error/ }).waitFor();
    }
    return complaints;
  } finally {
    await browser.close();
  }
}
