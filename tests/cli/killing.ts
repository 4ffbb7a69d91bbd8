// Processes that are killed at random moments, some of them while they write.
import type { ChildProcess } from "node:child_process";
import { watch } from "node:fs";

/** When a process is killed. */
export interface Moment {
  readonly after_ms: number;
  /** Counted from the first file that it begins to write in this folder; from now where absent. */
  readonly writingIn?: string;
}

/** @returns once it is gone, killed or ended before */
export async function killedAt(
  child: ChildProcess,
  { after_ms, writingIn }: Moment,
): Promise<void> {
  const gone = new Promise<void>((resolve) => child.once("close", () => resolve()));
  const kill = () => setTimeout(() => child.kill("SIGKILL"), after_ms);
  if (writingIn === undefined) {
    const timer = kill();
    await gone;
    clearTimeout(timer);
    return;
  }
  let timer: NodeJS.Timeout | undefined;
  const watcher = watch(writingIn, (_, name) => {
    if (name?.endsWith(".part")) timer ??= kill();
  });
  await gone;
  clearTimeout(timer);
  watcher.close();
}

/** Does a work for each number below `count`, so many at once, so that the waits of one are the work of another. */
export async function inLanes(
  lanes: number,
  count: number,
  work: (k: number, lane: number) => Promise<void>,
): Promise<void> {
  let next = 0;
  const lane = async (own: number) => {
    while (next < count) await work(next++, own);
  };
  await Promise.all(Array.from({ length: lanes }, (_, own) => lane(own)));
}
