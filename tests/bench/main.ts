/**
 * How long things take beside a named yardstick, in the same run: npm run bench. No test fails for being slow.
 */
import { benchGrowth } from "./growth.js";
import { benchReading } from "./reading.js";
import { benchSeawater } from "./seawater.js";
import { benchVerdict } from "./verdict.js";

benchSeawater();
benchReading();
benchVerdict();
benchGrowth();
