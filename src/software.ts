// The software version in a verdict. It is that of package.json; a test compares them.
export const software = { name: "foulcast", version: "0.17.0" } as const;
