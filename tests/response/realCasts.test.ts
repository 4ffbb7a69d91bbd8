import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { sensorResponse } from "../../src/response/sensorResponse.js";
import { coastal, coastalCast } from "../cast/castOf.js";

// The files hold a scan number only: rates are tried that make the package move at 0.2 to 0.8 dbar/s.
const rates_Hz = [1, 2, 4];

describe.skipIf(!existsSync(coastal.folder))(
  "shallow coastal casts (open data; skipped where absent)",
  () => {
    test.each(coastal.stations)("station %s: sensors answer as those of a ship may", (name) => {
      for (const sampleRate_Hz of rates_Hz) {
        const cast = { ...coastalCast(name), sampleRate_Hz };
        const legs = splitLegs(cast);
        const response = sensorResponse(cast, legs, "primary");
        // Some fifty scans a leg through ten metres: what is claimed of them must be what sensors of a ship do.
        if (response.alignment !== undefined) {
          expect(Math.abs(response.alignment.seconds)).toBeLessThan(1);
        } else expect(response.notes.join()).toContain("align");
        if (response.thermalLag !== undefined) {
          expect(Math.abs(response.thermalLag.timesUsual)).toBeLessThan(10);
        } else expect(response.notes.join()).toContain("thermal lag");
      }
    });

    test("without a sample rate there is no alignment", () => {
      const cast = coastalCast(coastal.stations[0]!);
      const { alignment, notes } = sensorResponse(cast, splitLegs(cast), "primary");
      expect(alignment).toBeUndefined();
      expect(notes.join()).toContain("neither times nor a sample rate");
    });
  },
);
