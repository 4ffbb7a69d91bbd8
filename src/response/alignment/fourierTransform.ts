// The discrete Fourier transform of a short window, by the fast algorithm for powers of two [CooleyTukey1965].

/**
 * Transform in place: X[k] = sum over n of x[n] exp(-2 pi i k n / N).
 * @param real      N values, N a power of two
 * @param imaginary as many
 */
export function fourierTransform(real: Float64Array, imaginary: Float64Array): void {
  const n = real.length;
  reverseBits(real, imaginary);
  const { cosine, sine } = circle(n);
  for (let half = 1; half < n; half *= 2) {
    for (let k = 0; k < half; k++) {
      const turn = (k * n) / (2 * half);
      const c = cosine[turn]!;
      const s = -sine[turn]!;
      for (let i = k; i < n; i += 2 * half) {
        const j = i + half;
        const re = c * real[j]! - s * imaginary[j]!;
        const im = c * imaginary[j]! + s * real[j]!;
        real[j] = real[i]! - re;
        imaginary[j] = imaginary[i]! - im;
        real[i]! += re;
        imaginary[i]! += im;
      }
    }
  }
}

let known = { cosine: new Float64Array(0), sine: new Float64Array(0) };

/** cos and sin of 2 pi k / N, computed once for each N. */
function circle(n: number): typeof known {
  if (known.cosine.length !== n) {
    const angle = Float64Array.from({ length: n }, (_, k) => (2 * Math.PI * k) / n);
    known = { cosine: angle.map(Math.cos), sine: angle.map(Math.sin) };
  }
  return known;
}

function reverseBits(real: Float64Array, imaginary: Float64Array): void {
  const n = real.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    const re = real[i]!;
    const im = imaginary[i]!;
    real[i] = real[j]!;
    imaginary[i] = imaginary[j]!;
    real[j] = re;
    imaginary[j] = im;
  }
}
