import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";

/** A new folder that is removed once the tests of the file have run. */
export function temporaryFolder(name: string): string {
  const folder = mkdtempSync(join(tmpdir(), `foulcast-${name}-`));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
