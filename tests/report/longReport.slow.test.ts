import { expect, it } from "vitest";
import { report } from "../../src/report/html/report.js";
import { assessed, bottleCruise } from "../figures/cruises.js";

it("a cruise of 200 casts of 24 bottles and two cells has a report under 3 MB", () => {
  const { document, data } = assessed(bottleCruise(200, 24));
  expect(Buffer.byteLength(report(document, data))).toBeLessThan(3e6);
});
