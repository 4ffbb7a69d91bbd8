// Make linear terms with normal priors orthonormal, so that plain inner products compare each further term with all of
// them. Gram-Schmidt on the stacked matrix [X; P^-1/2], where P are the prior variances.

/** One linear term of a model. */
export interface PriorTerm {
  readonly column: Float64Array;
  /** Prior standard deviation of the term's factor. */
  readonly standardDeviation: number;
}

export interface Orthonormal {
  /** Combinations u of the columns with <u, u'> + (prior part) = 1 for u = u', else 0. */
  readonly units: readonly Float64Array[];
  /** For each unit, the factor of each term in it. */
  readonly factors: readonly Float64Array[];
  /** Natural logarithm of prior over posterior standard deviation of the factors, summed with its sign: at most 0. */
  readonly log: number;
}

/** @param inner the inner product in which columns become orthonormal, for instance with weights */
export function orthonormal(
  terms: readonly PriorTerm[],
  inner: (a: Float64Array, b: Float64Array) => number = dot,
): Orthonormal {
  const units: Float64Array[] = [];
  const priors: Float64Array[] = [];
  let log = 0;
  for (const [j, { column, standardDeviation }] of terms.entries()) {
    const unit = Float64Array.from(column);
    const prior = new Float64Array(terms.length);
    prior[j] = 1 / standardDeviation;
    for (const [k, other] of units.entries()) {
      const share = inner(unit, other) + dot(prior, priors[k]!);
      addTo(unit, -share, other);
      addTo(prior, -share, priors[k]!);
    }
    const length = Math.sqrt(inner(unit, unit) + dot(prior, prior));
    log -= Math.log(length * standardDeviation);
    units.push(unit.map((value) => value / length));
    priors.push(prior.map((value) => value / length));
  }
  const factors = priors.map((prior) =>
    prior.map((value, j) => value * terms[j]!.standardDeviation),
  );
  return { units, factors, log };
}

/** @param from the first element that counts */
export function dot(a: Float64Array, b: Float64Array, from = 0): number {
  let sum = 0;
  for (let i = from; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Adds `factor` times `other` to the column, in place. */
export function addTo(column: Float64Array, factor: number, other: Float64Array): void {
  for (let i = 0; i < column.length; i++) column[i]! += factor * other[i]!;
}
