import { describeOpenCruise } from "./openCruise.js";

// Whole cruises are assessed in openCruises.slow.test.ts.
describeOpenCruise("ar7-01", 6);
