// Files and folders, for Node: the part of the library that does I/O.
export { hashFile } from "./hashFile.js";
export { readCastFile } from "./readCastFile.js";
export { type OnFile, readCruise } from "./readCruise.js";
