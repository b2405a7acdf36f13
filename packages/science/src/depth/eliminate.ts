// Longer than most functions here: the blocks of a row are two dozen numbers; taken apart these would all be arguments.

import type { Chain } from './chain.ts';
import { Global } from './global.ts';

/** Eliminates runs from the top down; leaves the blocks' inverses and, unless held, the border of the globals. */
export const forward = (chain: Chain, held: boolean): void => {
  const { net, diagonal, inverse, couple, right, columns, border, borderRight } = chain;
  const { driftDiagonal, driftInverse, driftCouple, driftRight, driftColumns } = chain;
  const { rows: runs, globals: k } = net;
  const width = 2 * k;
  // inverse of the block above
  let pbb = 0;
  let pbd = 0;
  let pdd = 0;
  let pbu = 0;
  let pdu = 0;
  let puu = 0;
  for (let r = 0; r <= runs; r++) {
    const d = 3 * r;
    const here = 2 * r;
    const row = width * r;
    const line = k * r;
    let bb = diagonal[d];
    let bd = diagonal[d + 1];
    let dd = diagonal[d + 2];
    let bu = 0;
    let du = driftDiagonal[here];
    let uu = driftDiagonal[here + 1];
    let hb = right[here];
    let hd = right[here + 1];
    let hu = driftRight[r];
    if (r > 0) {
      const cb = couple[here];
      const cd = couple[here + 1];
      const cx = driftCouple[here];
      const cu = driftCouple[here + 1];
      // J = (inverse above) C
      const jbb = cb * pbb;
      const jdb = cb * pbd;
      const jub = cb * pbu;
      const jbd = cd * pbd;
      const jdd = cd * pdd;
      const jud = cd * pdu;
      const jbu = cx * pbd + cu * pbu;
      const jdu = cx * pdd + cu * pdu;
      const juu = cx * pdu + cu * puu;
      bb -= cb * jbb;
      bd -= cb * jbd;
      dd -= cd * jdd;
      bu -= cb * jbu;
      du -= cd * jdu;
      uu -= cx * jdu + cu * juu;
      const b = right[here - 2];
      const e = right[here - 1];
      const u = driftRight[r - 1];
      hb -= jbb * b + jdb * e + jub * u;
      hd -= jbd * b + jdd * e + jud * u;
      hu -= jbu * b + jdu * e + juu * u;
      right[here] = hb;
      right[here + 1] = hd;
      driftRight[r] = hu;
      if (!held)
        for (let i = 0, j = row; i < k; i++, j += 2) {
          const y = columns[j - width];
          const z = columns[j - width + 1];
          const x = driftColumns[line - k + i];
          columns[j] -= jbb * y + jdb * z + jub * x;
          columns[j + 1] -= jbd * y + jdd * z + jud * x;
          driftColumns[line + i] -= jbu * y + jdu * z + juu * x;
        }
    }
    // U first, then the two others
    const free = 1 / uu;
    const fb = bu * free;
    const fd = du * free;
    bb -= bu * fb;
    bd -= bu * fd;
    dd -= du * fd;
    const part = 1 / (bb * dd - bd * bd);
    pbb = dd * part;
    pbd = -bd * part;
    pdd = bb * part;
    pbu = -(pbb * fb + pbd * fd);
    pdu = -(pbd * fb + pdd * fd);
    puu = free - fb * pbu - fd * pdu;
    inverse[d] = pbb;
    inverse[d + 1] = pbd;
    inverse[d + 2] = pdd;
    driftInverse[d] = pbu;
    driftInverse[d + 1] = pdu;
    driftInverse[d + 2] = puu;
    if (held) continue;
    for (let i = 0; i < k; i++) {
      const y = columns[row + 2 * i];
      const z = columns[row + 2 * i + 1];
      const x = driftColumns[line + i];
      const gb = pbb * y + pbd * z + pbu * x;
      const gd = pbd * y + pdd * z + pdu * x;
      const gu = pbu * y + pdu * z + puu * x;
      borderRight[i] -= gb * hb + gd * hd + gu * hu;
      const at = i * k;
      for (let j = i; j < k; j++)
        border[at + j] -=
          gb * columns[row + 2 * j] + gd * columns[row + 2 * j + 1] + gu * driftColumns[line + j];
    }
  }
};

/**
 * Back-substitution from the bottom up: moves the estimate, takes covariances, and, unless held, the globals' pull.
 *
 * @param move of the globals; none where they are held
 */
export const backward = (chain: Chain, move?: Float64Array): void => {
  const { net, core, hole, drift, inverse, couple, right, columns, cov, cross, pull, factor, unrest } = chain;
  const { driftInverse, driftCouple, driftRight, driftColumns, driftCov, driftCross, driftPull } = chain;
  const { rows: runs, globals: k } = net;
  const width = 2 * k;
  const rescaled = move === undefined ? 0 : move[Global.cable];
  let worst = 0;
  // covariance of the row below
  let vbb = 0;
  let vbd = 0;
  let vdd = 0;
  let vbu = 0;
  let vdu = 0;
  let vuu = 0;
  for (let r = runs; r >= 0; r--) {
    const d = 3 * r;
    const here = 2 * r;
    const row = width * r;
    const line = k * r;
    const ibb = inverse[d];
    const ibd = inverse[d + 1];
    const idd = inverse[d + 2];
    const ibu = driftInverse[d];
    const idu = driftInverse[d + 1];
    const iuu = driftInverse[d + 2];
    let cb = 0;
    let cd = 0;
    let cx = 0;
    let cu = 0;
    let b = right[here];
    let e = right[here + 1];
    let u = driftRight[r];
    let nbb = ibb;
    let nbd = ibd;
    let ndd = idd;
    let nbu = ibu;
    let ndu = idu;
    let nuu = iuu;
    if (r < runs) {
      cb = couple[here + 2];
      cd = couple[here + 3];
      cx = driftCouple[here + 2];
      cu = driftCouple[here + 3];
      const below = driftRight[r + 1];
      b -= cb * right[here + 2];
      e -= cd * right[here + 3] + cx * below;
      u -= cu * below;
      // J = inverse C: covariance = inverse + J cov J', cross = -J cov
      const jbb = ibb * cb;
      const jdb = ibd * cb;
      const jub = ibu * cb;
      const jbd = ibd * cd;
      const jdd = idd * cd;
      const jud = idu * cd;
      const jbu = ibd * cx + ibu * cu;
      const jdu = idd * cx + idu * cu;
      const juu = idu * cx + iuu * cu;
      const xbb = -(jbb * vbb + jbd * vbd + jbu * vbu);
      const xbd = -(jbb * vbd + jbd * vdd + jbu * vdu);
      const xbu = -(jbb * vbu + jbd * vdu + jbu * vuu);
      const xdb = -(jdb * vbb + jdd * vbd + jdu * vbu);
      const xdd = -(jdb * vbd + jdd * vdd + jdu * vdu);
      const xdu = -(jdb * vbu + jdd * vdu + jdu * vuu);
      const xub = -(jub * vbb + jud * vbd + juu * vbu);
      const xud = -(jub * vbd + jud * vdd + juu * vdu);
      const xuu = -(jub * vbu + jud * vdu + juu * vuu);
      const x = 4 * r + 4;
      cross[x] = xbb;
      cross[x + 1] = xbd;
      cross[x + 2] = xdb;
      cross[x + 3] = xdd;
      const y = 5 * r + 5;
      driftCross[y] = xbu;
      driftCross[y + 1] = xdu;
      driftCross[y + 2] = xuu;
      driftCross[y + 3] = xub;
      driftCross[y + 4] = xud;
      nbb -= xbb * jbb + xbd * jbd + xbu * jbu;
      nbd -= xbb * jdb + xbd * jdd + xbu * jdu;
      ndd -= xdb * jdb + xdd * jdd + xdu * jdu;
      nbu -= xbb * jub + xbd * jud + xbu * juu;
      ndu -= xdb * jub + xdd * jud + xdu * juu;
      nuu -= xub * jub + xud * jud + xuu * juu;
    }
    const changed = Math.abs(cov[d] - nbb) / nbb + Math.abs(cov[d + 2] - ndd) / ndd;
    cov[d] = vbb = nbb;
    cov[d + 1] = vbd = nbd;
    cov[d + 2] = vdd = ndd;
    driftCov[d] = vbu = nbu;
    driftCov[d + 1] = vdu = ndu;
    driftCov[d + 2] = vuu = nuu;
    let movedB = ibb * b + ibd * e + ibu * u;
    let movedD = ibd * b + idd * e + idu * u;
    let movedU = ibu * b + idu * e + iuu * u;
    right[here] = movedB;
    right[here + 1] = movedD;
    driftRight[r] = movedU;
    let vb = nbb;
    let vd = ndd;
    if (move !== undefined) {
      const below = r < runs ? row + width : row;
      const under = r < runs ? line + k : line;
      for (let i = 0, at = row; i < k; i++, at += 2) {
        const x = driftColumns[under + i];
        const y = columns[at] - cb * columns[below + 2 * i];
        const z = columns[at + 1] - cd * columns[below + 2 * i + 1] - cx * x;
        const w = driftColumns[line + i] - cu * x;
        const ty = ibb * y + ibd * z + ibu * w;
        const tz = ibd * y + idd * z + idu * w;
        const tw = ibu * y + idu * z + iuu * w;
        columns[at] = ty;
        columns[at + 1] = tz;
        driftColumns[line + i] = tw;
        const m = move[i];
        movedB -= ty * m;
        movedD -= tz * m;
        movedU -= tw * m;
      }
      for (let j = 0; j < k; j++) {
        let y = 0;
        let z = 0;
        let w = 0;
        for (let i = j; i < k; i++) {
          const l = factor[i * k + j];
          y -= columns[row + 2 * i] * l;
          z -= columns[row + 2 * i + 1] * l;
          w -= driftColumns[line + i] * l;
        }
        pull[row + j] = y;
        pull[row + k + j] = z;
        driftPull[line + j] = w;
        vb += y * y;
        vd += z * z;
      }
    }
    core[r] += movedB;
    hole[r] += movedD;
    drift[r] += movedU;
    const most = Math.max((movedB * movedB) / vb, (movedD * movedD) / vd);
    if (!(most <= worst)) worst = most;
    // what sites see of it: D against B, D against the counter (and its scale); those of this row and of the next
    const apart = movedD - movedB;
    const read = movedD + (rescaled + movedU) * hole[r];
    const stir = Math.sqrt(Math.max(apart * apart, read * read) / Math.min(nbb, vd)) + changed;
    unrest[r] += stir;
    if (r < runs) unrest[r + 1] += stir;
  }
  chain.move = Math.sqrt(worst);
};
