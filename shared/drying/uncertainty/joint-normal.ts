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

/** From natural parameters: precision matrix (positive definite; used up), and precision times mean. */
export function jointNormal(precision: number[][], shift: readonly number[]): JointNormal {
  const covariance = inverse(precision);
  const mean = covariance.map((line) => {
    let sum = 0;
    for (let column = 0; column < line.length; column += 1) sum += line[column]! * shift[column]!;
    return sum;
  });
  return { mean, covariance };
}

/** Inverse of a symmetric positive definite matrix by Gauss–Jordan, in place; its pivots need no exchange. */
function inverse(rows: number[][]): number[][] {
  for (let k = 0; k < rows.length; k += 1) {
    const pivotRow = rows[k]!;
    const pivot = 1 / pivotRow[k]!;
    pivotRow[k] = 1;
    for (let j = 0; j < rows.length; j += 1) pivotRow[j]! *= pivot;
    for (let i = 0; i < rows.length; i += 1) {
      const row = rows[i]!;
      const factor = row[k]!;
      if (i === k || factor === 0) continue;
      row[k] = 0;
      for (let j = 0; j < rows.length; j += 1) row[j]! -= factor * pivotRow[j]!;
    }
  }
  return rows;
}

/** A Gaussian factor in natural parameters: precision, and precision times mean. */
export interface Message {
  precision: number;
  shift: number;
}
