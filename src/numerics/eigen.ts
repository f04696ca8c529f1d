/** Symmetric eigenproblems: Cholesky, Householder tridiagonal form, implicit QL. */

/**
 * Lower Cholesky factor of a symmetric positive definite matrix, [size × size] row-major.
 * @throws RangeError where the matrix is not positive definite
 */
export function cholesky(matrix: Float64Array, size: number): Float64Array {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= lower[i * size + k]! * lower[j * size + k]!;
      if (i === j) {
        if (!(sum > 0))
          throw new RangeError(`cholesky: the matrix of ${size} rows is not positive definite at row ${i}`);
        lower[i * size + i] = Math.sqrt(sum);
      } else {
        lower[i * size + j] = sum / lower[j * size + j]!;
      }
    }
  }
  return lower;
}

export interface Eigen {
  /** Falling. */
  readonly values: Float64Array;
  /** Unit eigenvectors, row k belongs to value k; [size × size]. */
  readonly vectors: Float64Array;
}

/**
 * All eigenpairs of a symmetric matrix.
 * @param matrix  [size × size], row-major, symmetric; left as it is
 * @source Wilkinson & Reinsch, Handbook for Automatic Computation II (1971), contributions II/2 and II/3
 */
export function symmetricEigen(matrix: Float64Array, size: number): Eigen {
  const z = Float64Array.from(matrix);
  const d = new Float64Array(size);
  const e = new Float64Array(size);
  tridiagonalise(z, d, e, size);
  implicitQl(z, d, e, size);
  const order = Array.from({ length: size }, (_, i) => i).sort((a, b) => d[b]! - d[a]!);
  const values = new Float64Array(size);
  const vectors = new Float64Array(size * size);
  order.forEach((from, to) => {
    values[to] = d[from]!;
    for (let i = 0; i < size; i++) vectors[to * size + i] = z[i * size + from]!;
  });
  return { values, vectors };
}

function tridiagonalise(z: Float64Array, d: Float64Array, e: Float64Array, n: number): void {
  for (let i = n - 1; i >= 1; i--) {
    const l = i - 1;
    let h = 0;
    if (l > 0) {
      let scale = 0;
      for (let k = 0; k <= l; k++) scale += Math.abs(z[i * n + k]!);
      if (scale === 0) e[i] = z[i * n + l]!;
      else {
        for (let k = 0; k <= l; k++) {
          z[i * n + k]! /= scale;
          h += z[i * n + k]! ** 2;
        }
        const f = z[i * n + l]!;
        const g = f >= 0 ? -Math.sqrt(h) : Math.sqrt(h);
        e[i] = scale * g;
        h -= f * g;
        z[i * n + l] = f - g;
        let sum = 0;
        for (let j = 0; j <= l; j++) {
          z[j * n + i] = z[i * n + j]! / h;
          let dot = 0;
          for (let k = 0; k <= j; k++) dot += z[j * n + k]! * z[i * n + k]!;
          for (let k = j + 1; k <= l; k++) dot += z[k * n + j]! * z[i * n + k]!;
          e[j] = dot / h;
          sum += e[j]! * z[i * n + j]!;
        }
        const hh = sum / (h + h);
        for (let j = 0; j <= l; j++) {
          const fj = z[i * n + j]!;
          const gj = e[j]! - hh * fj;
          e[j] = gj;
          for (let k = 0; k <= j; k++) z[j * n + k]! -= fj * e[k]! + gj * z[i * n + k]!;
        }
      }
    } else e[i] = z[i * n + l]!;
    d[i] = h;
  }
  d[0] = 0;
  e[0] = 0;
  for (let i = 0; i < n; i++) {
    if (d[i] !== 0) {
      for (let j = 0; j < i; j++) {
        let dot = 0;
        for (let k = 0; k < i; k++) dot += z[i * n + k]! * z[k * n + j]!;
        for (let k = 0; k < i; k++) z[k * n + j]! -= dot * z[k * n + i]!;
      }
    }
    d[i] = z[i * n + i]!;
    z[i * n + i] = 1;
    for (let j = 0; j < i; j++) {
      z[j * n + i] = 0;
      z[i * n + j] = 0;
    }
  }
}

function implicitQl(z: Float64Array, d: Float64Array, e: Float64Array, n: number): void {
  for (let i = 1; i < n; i++) e[i - 1] = e[i]!;
  e[n - 1] = 0;
  for (let l = 0; l < n; l++) {
    for (let pass = 0; ; pass++) {
      let m = l;
      for (; m < n - 1; m++) {
        const size = Math.abs(d[m]!) + Math.abs(d[m + 1]!);
        if (Math.abs(e[m]!) <= Number.EPSILON * size) break;
      }
      if (m === l) break;
      if (pass === 60) throw new RangeError("symmetricEigen: no convergence after 60 sweeps");
      let g = (d[l + 1]! - d[l]!) / (2 * e[l]!);
      let r = Math.hypot(g, 1);
      g = d[m]! - d[l]! + e[l]! / (g + (g >= 0 ? r : -r));
      let s = 1;
      let c = 1;
      let p = 0;
      let broke = false;
      for (let i = m - 1; i >= l; i--) {
        const f = s * e[i]!;
        const b = c * e[i]!;
        r = Math.hypot(f, g);
        e[i + 1] = r;
        if (r === 0) {
          d[i + 1]! -= p;
          e[m] = 0;
          broke = true;
          break;
        }
        s = f / r;
        c = g / r;
        g = d[i + 1]! - p;
        r = (d[i]! - g) * s + 2 * c * b;
        p = s * r;
        d[i + 1] = g + p;
        g = c * r - b;
        for (let k = 0; k < n; k++) {
          const zk = z[k * n + i + 1]!;
          z[k * n + i + 1] = s * z[k * n + i]! + c * zk;
          z[k * n + i] = c * z[k * n + i]! - s * zk;
        }
      }
      if (broke) continue;
      d[l]! -= p;
      e[l] = g;
      e[m] = 0;
    }
  }
}
