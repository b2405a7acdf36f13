import type { Chain } from './chain.ts';
import { Global } from './global.ts';

/** Eliminates runs from the top down; leaves the blocks' inverses and, unless held, the border of the globals. */
export const forward = (chain: Chain, held: boolean): void => {
  const { net, diagonal, inverse, couple, right, columns, border, borderRight } = chain;
  const { rows: runs, globals: k } = net;
  const width = 2 * k;
  let pbb = 0;
  let pbd = 0;
  let pdd = 0;
  for (let r = 0; r <= runs; r++) {
    const d = 3 * r;
    const here = 2 * r;
    const row = width * r;
    let bb = diagonal[d];
    let bd = diagonal[d + 1];
    let dd = diagonal[d + 2];
    let hb = right[here];
    let hd = right[here + 1];
    if (r > 0) {
      const cb = couple[here];
      const cd = couple[here + 1];
      const jbb = cb * pbb;
      const jbd = cb * pbd;
      const jdb = cd * pbd;
      const jdd = cd * pdd;
      bb -= cb * jbb;
      bd -= cd * jbd;
      dd -= cd * jdd;
      const b = right[here - 2];
      const e = right[here - 1];
      hb -= jbb * b + jbd * e;
      hd -= jdb * b + jdd * e;
      right[here] = hb;
      right[here + 1] = hd;
      if (!held)
        for (let j = row; j < row + width; j += 2) {
          const y = columns[j - width];
          const z = columns[j - width + 1];
          columns[j] -= jbb * y + jbd * z;
          columns[j + 1] -= jdb * y + jdd * z;
        }
    }
    const part = 1 / (bb * dd - bd * bd);
    pbb = dd * part;
    pbd = -bd * part;
    pdd = bb * part;
    inverse[d] = pbb;
    inverse[d + 1] = pbd;
    inverse[d + 2] = pdd;
    if (held) continue;
    for (let i = 0; i < k; i++) {
      const y = columns[row + 2 * i];
      const z = columns[row + 2 * i + 1];
      const gb = pbb * y + pbd * z;
      const gd = pbd * y + pdd * z;
      borderRight[i] -= gb * hb + gd * hd;
      const line = i * k;
      for (let j = i; j < k; j++)
        border[line + j] -= gb * columns[row + 2 * j] + gd * columns[row + 2 * j + 1];
    }
  }
};

/**
 * Back-substitution from the bottom up: moves the estimate, takes covariances, and, unless held, the globals' pull.
 *
 * @param move of the globals; none where they are held
 */
export const backward = (chain: Chain, move?: Float64Array): void => {
  const { net, core, hole, inverse, couple, right, columns, cov, cross, pull, factor, unrest } = chain;
  const { rows: runs, globals: k } = net;
  const width = 2 * k;
  const rescaled = move === undefined ? 0 : move[Global.cable];
  let worst = 0;
  for (let r = runs; r >= 0; r--) {
    const d = 3 * r;
    const here = 2 * r;
    const row = width * r;
    const ibb = inverse[d];
    const ibd = inverse[d + 1];
    const idd = inverse[d + 2];
    let cb = 0;
    let cd = 0;
    let b = right[here];
    let e = right[here + 1];
    let vb = ibb;
    let vd = idd;
    if (r < runs) {
      cb = couple[here + 2];
      cd = couple[here + 3];
      b -= cb * right[here + 2];
      e -= cd * right[here + 3];
      // J = inverse C: covariance = inverse + J cov J', cross = -J cov
      const vbb = cov[d + 3];
      const vbd = cov[d + 4];
      const vdd = cov[d + 5];
      const jbb = ibb * cb;
      const jbd = ibd * cd;
      const jdb = ibd * cb;
      const jdd = idd * cd;
      const x = 4 * r + 4;
      const xbb = -(jbb * vbb + jbd * vbd);
      const xbd = -(jbb * vbd + jbd * vdd);
      const xdb = -(jdb * vbb + jdd * vbd);
      const xdd = -(jdb * vbd + jdd * vdd);
      cross[x] = xbb;
      cross[x + 1] = xbd;
      cross[x + 2] = xdb;
      cross[x + 3] = xdd;
      vb -= xbb * jbb + xbd * jbd;
      vd -= xdb * jdb + xdd * jdd;
      cov[d + 1] = ibd - (xbb * jdb + xbd * jdd);
    } else cov[d + 1] = ibd;
    const given = vb;
    const changed = Math.abs(cov[d] - vb) / vb + Math.abs(cov[d + 2] - vd) / vd;
    cov[d] = vb;
    cov[d + 2] = vd;
    const sb = ibb * b + ibd * e;
    const sd = ibd * b + idd * e;
    right[here] = sb;
    right[here + 1] = sd;
    let movedB = sb;
    let movedD = sd;
    if (move !== undefined) {
      const below = r < runs ? row + width : row;
      for (let i = 0; i < width; i += 2) {
        const y = columns[row + i] - cb * columns[below + i];
        const z = columns[row + i + 1] - cd * columns[below + i + 1];
        const ty = ibb * y + ibd * z;
        const tz = ibd * y + idd * z;
        columns[row + i] = ty;
        columns[row + i + 1] = tz;
        const m = move[i >> 1];
        movedB -= ty * m;
        movedD -= tz * m;
      }
      for (let j = 0; j < k; j++) {
        let y = 0;
        let z = 0;
        for (let i = j; i < k; i++) {
          const l = factor[i * k + j];
          y -= columns[row + 2 * i] * l;
          z -= columns[row + 2 * i + 1] * l;
        }
        pull[row + j] = y;
        pull[row + k + j] = z;
        vb += y * y;
        vd += z * z;
      }
    }
    core[r] += movedB;
    hole[r] += movedD;
    const most = Math.max((movedB * movedB) / vb, (movedD * movedD) / vd);
    if (!(most <= worst)) worst = most;
    // what sites see of it: D against B, D against the counter (and its scale); those of this row and of the next
    const apart = movedD - movedB;
    const read = movedD + rescaled * hole[r];
    const stir = Math.sqrt(Math.max(apart * apart, read * read) / Math.min(given, vd)) + changed;
    unrest[r] += stir;
    if (r < runs) unrest[r + 1] += stir;
  }
  chain.move = Math.sqrt(worst);
};
