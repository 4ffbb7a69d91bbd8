import { describeOpenCruise } from "./openCruise.js";

for (const id of ["at30-01", "kn221-04"]) describeOpenCruise(id);
