// A column of numbers of unknown length, for a file that is streamed.

interface GrowingColumn {
  push(value: number): void;
  replaceLast(value: number): void;
  /** A copy of the numbers so far. */
  values(): Float64Array;
}

export function growingColumn(): GrowingColumn {
  let store = new Float64Array(1024);
  let length = 0;
  return {
    push(value) {
      if (length === store.length) {
        const larger = new Float64Array(2 * length);
        larger.set(store);
        store = larger;
      }
      store[length++] = value;
    },
    replaceLast(value) {
      if (length > 0) store[length - 1] = value;
    },
    values: () => store.slice(0, length),
  };
}
