// A slow cell in water whose mixed layer freshens between the legs, on a cruise by other physics (docs/worlds.md): both cells
// read fresh on the way up near the surface. Nothing is in the cells.
import { expect, test } from "vitest";
import { assessCruise } from "../../src/index.js";
import { simulateWorld } from "../../src/simulate/worlds/worlds.js";

test("a mixed layer that freshens during casts with a slow cell is no film in both cells", () => {
  const { cruise } = simulateWorld("slow-cell", 1002);
  const fouled = assessCruise(cruise).casts.flatMap(({ cells }) =>
    Object.values(cells).filter(({ causes }) => causes[0]!.cause === "fouling"),
  );
  // One of 24 by chance. Without an error of the upper water it was 17 of 24.
  expect(fouled.length).toBeLessThanOrEqual(1);
});
