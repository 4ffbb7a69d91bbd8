// Random numbers that are identical at every run, in streams that can be split. A part of a simulation draws from a stream
// of its own, named after the part, so that a change of one part does not change the noise of the rest.
// Numbers without a source are judgement: words of mixed bits, without special meaning.

export interface RandomStream {
  /** Uniform between 0 and 1, neither of them. */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** The stream of a part: it depends on this stream's name and the part's, not on earlier draws. */
  split(part: string | number): RandomStream;
}

/**
 * A stream of random numbers.
 * @param seed any whole number from 0 to 2^53 - 1
 */
export function randomStream(seed: number): RandomStream {
  if (!Number.isSafeInteger(seed) || seed < 0) {
    throw new RangeError(`a seed is a whole number from 0 to 2^53 - 1, not ${seed}`);
  }
  return streamNamed(
    nameOf(nameOf([0x9e3779b9, 0x243f6a88], seed >>> 0), Math.floor(seed / 2 ** 32)),
  );
}

/**
 * Words of 32 bits of the generator xoshiro128**, of period 2^128 - 1 [BlackmanVigna2021].
 * @param state four words, not all 0; it is advanced in place
 */
export function xoshiro128(state: Uint32Array): () => number {
  return () => {
    const s1 = state[1]!;
    const word = Math.imul(rotated(Math.imul(s1, 5), 7), 9) >>> 0;
    state[2]! ^= state[0]!;
    state[3]! ^= s1;
    state[1]! ^= state[2]!;
    state[0]! ^= state[3]!;
    state[2]! ^= s1 << 9;
    state[3] = rotated(state[3]!, 11);
    return word;
  };
}

/** The name of a stream as 64 bits: two streams of one simulation share a name once in 10^9 simulations or less. */
type Name = readonly [number, number];

function streamNamed(name: Name): RandomStream {
  const state = Uint32Array.of(
    name[0],
    name[1],
    mixed(name[0] ^ 0x5bd1e995),
    mixed(name[1] ^ 0x1b873593) | 1,
  );
  const next = xoshiro128(state);
  const uniform = () => (next() + 0.5) / 2 ** 32;
  let spare: number | undefined;
  // Normal deviates come in pairs [BoxMuller1958].
  const normal = () => {
    if (spare !== undefined) {
      const value = spare;
      spare = undefined;
      return value;
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  const split = (part: string | number) =>
    streamNamed(
      typeof part === "number"
        ? nameOf(nameOf(name, 1), part | 0)
        : Array.from(part).reduce(
            (own, letter) => nameOf(own, letter.codePointAt(0)!),
            nameOf(name, 2),
          ),
    );
  return { uniform, normal, split };
}

function nameOf([a, b]: Name, word: number): Name {
  return [mixed(a ^ word), mixed(Math.imul(b, 0x01000193) + word + 0x6a09e667)];
}

/** Each bit of the word moves about half of the result's: the finaliser of the hash murmur3 (constants from memory). */
function mixed(word: number): number {
  let h = word;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

function rotated(word: number, bits: number): number {
  return (word << bits) | (word >>> (32 - bits));
}
