// Files and folders, for Node: the part of the library that does I/O.
export { hashFile } from "./hashFile.js";
export { addToHistory, readHistory } from "./historyStore.js";
export { readCastFile } from "./readCastFile.js";
export { readCruise } from "./readCruise.js";
export type { OnFile, ReadCruiseOptions } from "./readParts.js";
