import { describeOpenCruise } from "./openCruise.js";

describeOpenCruise("ar7-01");
