/**
 * How long things take beside a named yardstick, in the same run: npm run bench [-- CASTS], with the number of casts of the
 * longest cruise (default 500). No test fails for being slow.
 */
import { benchGrowth } from "./growth.js";
import { benchReading } from "./reading.js";
import { benchSeawater } from "./seawater.js";
import { benchVerdict } from "./verdict.js";

benchSeawater();
benchReading();
benchVerdict();
benchGrowth(Number(process.argv[2] ?? 500));
