/** Mean and variance of one quantity. */
export interface Moments {
  mean: number;
  variance: number;
}

/** Several quantities that are normal together. */
export interface JointNormal {
  mean: number[];
  covariance: number[][];
}

/** A Gaussian factor in natural parameters: precision, and precision times mean. */
export interface Message {
  precision: number;
  shift: number;
}

/** The same as numbers in a row: what is worked with sweep after sweep. */
export class Joint {
  readonly size: number;
  readonly mean: Float64Array;
  /** Row by row. */
  readonly covariance: Float64Array;

  constructor(size: number) {
    this.size = size;
    this.mean = new Float64Array(size);
    this.covariance = new Float64Array(size * size);
  }

  /** From natural parameters: precision matrix, row by row and positive definite, and precision times mean. */
  solve(precision: Float64Array, shift: Float64Array): void {
    const { size, mean, covariance } = this;
    covariance.set(precision);
    invert(covariance, size);
    for (let row = 0; row < size; row += 1) {
      let sum = 0;
      for (let column = 0; column < size; column += 1)
        sum += covariance[row * size + column]! * shift[column]!;
      mean[row] = sum;
    }
  }

  momentsOf(row: number): Moments {
    return { mean: this.mean[row]!, variance: this.covarianceOf(row, row) };
  }

  covarianceOf(row: number, column: number): number {
    return this.covariance[row * this.size + column]!;
  }
}

/** Inverse of a symmetric positive definite matrix by Gauss–Jordan, in place; its pivots need no exchange. */
function invert(cells: Float64Array, size: number): void {
  for (let k = 0; k < size; k += 1) {
    const pivotRow = k * size;
    const pivot = 1 / cells[pivotRow + k]!;
    cells[pivotRow + k] = 1;
    for (let j = 0; j < size; j += 1) cells[pivotRow + j]! *= pivot;
    for (let i = 0; i < size; i += 1) {
      const row = i * size;
      const factor = cells[row + k]!;
      if (i === k || factor === 0) continue;
      cells[row + k] = 0;
      for (let j = 0; j < size; j += 1) cells[row + j]! -= factor * cells[pivotRow + j]!;
    }
  }
}
