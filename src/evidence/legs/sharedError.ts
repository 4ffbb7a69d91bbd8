// Errors that all layers share, told as a larger error of each.

interface Layer {
  readonly variance_ppm2: number;
}

/**
 * The error of the lag's amplitude is shared by all layers, in the sizes `shares`, ppm, and what does not repeat between
 * the legs by all alike, `common`, while observations have independent errors. A weighted mean of layers taken for
 * independent would be held for too good. So each layer's variance is made larger by the most by which that is true of a
 * mean of the uppermost layers down to it or to any below it: of the whole cast, and of what lies above any onset.
 */
export function withSharedError<L extends Layer>(
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

/** Standard uncertainty that the shared error brings to the weighted mean of the layers. */
export function sharedErrorOfMean(layers: readonly Layer[], shares: readonly number[]): number {
  const weights = layers.map((layer, b) => 1 / (layer.variance_ppm2 + shares[b]! ** 2));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return weights.reduce((sum, w, b) => sum + w * shares[b]!, 0) / total;
}
