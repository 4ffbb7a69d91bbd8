// What made a verdict. The version is that of package.json, which a test holds it to.
export const software = { name: "foulcast", version: "0.1.0" } as const;
