/**
 * A formula over columns, written as a tree of operations. A node that is used twice is computed once.
 */
export type Formula =
  | { readonly kind: "input"; readonly index: number }
  | { readonly kind: "constant"; readonly value: number }
  | { readonly kind: "operation"; readonly operator: Operator; readonly of: readonly Formula[] };

export type Operator = "plus" | "minus" | "times" | "over" | "squareRoot";

type Operand = Formula | number;

/** The value of this row in the input column of that index, from 0. */
export const input = (index: number): Formula => ({ kind: "input", index });

export const plus = binary("plus");
export const minus = binary("minus");
export const times = binary("times");
export const over = binary("over");

export function squareRoot(of: Formula): Formula {
  return { kind: "operation", operator: "squareRoot", of: [of] };
}

/** Coefficients in ascending powers of x, by Horner's rule. */
export function polynomial(x: Formula, coefficients: readonly Operand[]): Formula {
  const [first, ...rest] = coefficients;
  if (first === undefined) throw new RangeError("a polynomial needs a coefficient");
  return rest.length === 0 ? asFormula(first) : plus(first, times(x, polynomial(x, rest)));
}

function binary(operator: Operator) {
  return (left: Operand, right: Operand): Formula => ({
    kind: "operation",
    operator,
    of: [asFormula(left), asFormula(right)],
  });
}

function asFormula(operand: Operand): Formula {
  return typeof operand === "number" ? { kind: "constant", value: operand } : operand;
}
