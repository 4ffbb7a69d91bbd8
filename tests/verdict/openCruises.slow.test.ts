import { describeOpenCruise } from "./openCruise.js";

for (const id of ["ar7-01", "at30-01", "kn221-04"]) describeOpenCruise(id);
