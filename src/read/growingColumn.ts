// A column of numbers whose length is not known beforehand, as when a file is streamed.

interface GrowingColumn {
  push(value: number): void;
  replaceLast(value: number): void;
  /** A copy of what there is. */
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
