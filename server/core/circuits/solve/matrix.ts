/** A system of linear equations. Its lists may be longer than it needs. */
export interface Equations {
  /** How many unknowns there are. */
  readonly count: number;
  /** Row by row; only the part on and below the diagonal is read. */
  readonly matrix: Float64Array;
  /** The right-hand side. */
  readonly values: Float64Array;
}

/**
 * Makes room for systems of equations. Every one is made in the room of the one before it, which must be done with by then:
 * a machine has thousands of states of circuits to solve, and lists of their own would be a tenth of all that an edit drops.
 * @returns gives a system of so many unknowns with nothing in it
 */
export function makeRoom(): (count: number) => Equations {
  let matrix = new Float64Array();
  let values = new Float64Array();
  return (count) => {
    if (values.length < count) {
      matrix = new Float64Array(count * count);
      values = new Float64Array(count);
    }
    matrix.fill(0, 0, count * count);
    values.fill(0, 0, count);
    return { count, matrix, values };
  };
}

/**
 * Solves a symmetric positive definite system in place, by factors L D Lᵀ. Such a matrix needs no pivoting to stay
 * accurate (Golub and Van Loan, Matrix Computations, section 4.2; from memory), and it is what resistors, sources with
 * a resistance and conducting diodes give once the joined nodes are one.
 * @param equations the matrix is overwritten, and the right-hand side replaced by the solution
 * @param leastPivot what a pivot is at least: where rounding has eaten what ties a loose part of the circuit to the rest,
 * this takes its place
 */
export function solveSymmetric({ count: n, matrix, values }: Equations, leastPivot: number): void {
  const at = (row: number, column: number) => matrix[row * n + column] ?? 0;
  for (let column = 0; column < n; column++) {
    const pivot = Math.max(at(column, column), leastPivot);
    matrix[column * n + column] = pivot;
    for (let row = column + 1; row < n; row++) {
      const factor = at(row, column) / pivot;
      if (factor === 0) continue; // most nodes of a circuit have few neighbours
      for (let other = column + 1; other <= row; other++) {
        const entry = at(other, column);
        if (entry !== 0) matrix[row * n + other] = at(row, other) - factor * entry;
      }
      values[row] = (values[row] ?? 0) - factor * (values[column] ?? 0);
    }
  }
  for (let column = n - 1; column >= 0; column--) {
    let sum = values[column] ?? 0;
    for (let row = column + 1; row < n; row++) sum -= at(row, column) * (values[row] ?? 0);
    values[column] = sum / at(column, column);
  }
}
