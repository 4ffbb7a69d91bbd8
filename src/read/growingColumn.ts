// A column of numbers of unknown length, for a file that is streamed.

interface GrowingColumn {
  push(value: number): void;
  pushAll(values: Float64Array): void;
  replaceLast(value: number): void;
  /** A copy of the numbers so far. */
  values(): Float64Array;
}

export function growingColumn(): GrowingColumn {
  let store = new Float64Array(1024);
  let length = 0;
  const makeRoom = (more: number) => {
    if (length + more <= store.length) return;
    const larger = new Float64Array(Math.max(2 * store.length, length + more));
    larger.set(store);
    store = larger;
  };
  return {
    push(value) {
      makeRoom(1);
      store[length++] = value;
    },
    pushAll(values) {
      makeRoom(values.length);
      store.set(values, length);
      length += values.length;
    },
    replaceLast(value) {
      if (length > 0) store[length - 1] = value;
    },
    values: () => store.slice(0, length),
  };
}
