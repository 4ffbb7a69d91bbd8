// An error that all layers share, represented by larger independent errors.

interface LayerVariance {
  readonly variance_ppm2: number;
}

/**
 * All layers share the error of the lag amplitude, with sizes `shares`, ppm, and the non-repeatable error `common`. But
 * observations have independent errors, so a weighted mean of the layers would seem too precise. Therefore the variance of
 * each layer is multiplied by a factor. It is the largest variance ratio for a mean of the uppermost layers, down to this
 * layer or to any below it. So the mean of the whole cast, and the mean above any onset, have the right uncertainty.
 */
export function withSharedError<L extends LayerVariance>(
  layers: readonly L[],
  shares: readonly number[],
  common: number,
): readonly L[] {
  const variances = layers.map((layer, b) => layer.variance_ppm2 + shares[b]! ** 2 + common ** 2);
  let weight = 0;
  let own = 0;
  let shared = 0;
  const factors = variances.map((variance, b) => {
    weight += 1 / variance;
    own += layers[b]!.variance_ppm2 / variance ** 2;
    shared += shares[b]! / variance;
    return (own + shared ** 2) / weight + common ** 2 * weight;
  });
  for (let b = factors.length - 2; b >= 0; b--) factors[b] = Math.max(factors[b]!, factors[b + 1]!);
  return layers.map((layer, b) => ({ ...layer, variance_ppm2: factors[b]! * variances[b]! }));
}

/** Standard uncertainty of the weighted mean of the layers due to the shared error. */
export function sharedErrorOfMean(
  layers: readonly LayerVariance[],
  shares: readonly number[],
): number {
  const weights = layers.map((layer, b) => 1 / (layer.variance_ppm2 + shares[b]! ** 2));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return weights.reduce((sum, w, b) => sum + w * shares[b]!, 0) / total;
}
