import type { HoleView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { depth } from '../texts/numbers.ts';
import { capital } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { standing } from './hole.ts';
import { MethodLink } from './method-link.tsx';

/** Rows shown at once: a core of thousands of pieces is leafed through. */
const rows = 40;

/** The same ice as figures, the newest first: a row is touched as the ice is. */
export function DepthTable(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly selected: string | undefined;
  readonly onPick: (piece: string) => void;
}) {
  const { book, hole, selected, onPick } = props;
  // A page leafed to stands until another piece is selected.
  const [leafed, setLeafed] = useState<{ readonly page: number; readonly from: string | undefined } | null>(
    null,
  );
  const solved = book.depths[hole.id]?.pieces ?? {};
  const pieces = standing(hole.runs)
    .flatMap((run) => standing(run.pieces))
    .reverse();
  if (pieces.length === 0) return null;
  const own = Math.floor(
    Math.max(
      0,
      pieces.findIndex((piece) => piece.id === selected),
    ) / rows,
  );
  const last = Math.ceil(pieces.length / rows) - 1;
  const page = Math.min(last, leafed && leafed.from === selected ? leafed.page : own);
  const shown = pieces.slice(page * rows, (page + 1) * rows);
  const leaf = (to: number) => setLeafed({ page: to, from: selected });
  return (
    <>
      <h2 id="figures">{t('table.title')}</h2>
      <p className="small">
        <MethodLink page="depth" />
      </p>
      <div className="scroll">
        <table aria-labelledby="figures">
          <thead>
            <tr>
              <th scope="col">{t('table.piece')}</th>
              <th scope="col">{capital(t('field.piece.length'))}</th>
              <th scope="col">{t('ice.top')}</th>
              <th scope="col">{t('ice.bottom')}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((piece) => {
              const at = solved[piece.id];
              return (
                <tr key={piece.id} aria-current={piece.id === selected ? 'true' : undefined}>
                  <th scope="row">
                    <button type="button" className="link num" onClick={() => onPick(piece.id)}>
                      {piece.name}
                    </button>
                  </th>
                  <td className="num">{piece.readings.length?.text ?? t('list.not.read')}</td>
                  <td className="num">{at ? depth(at.top) : ''}</td>
                  <td className="num">{at ? depth(at.bottom) : ''}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {last > 0 ? (
        <div className="leaf">
          <button type="button" disabled={page === 0} onClick={() => leaf(page - 1)}>
            {t('table.newer')}
          </button>
          <span className="quiet small" role="status">
            {t('table.part', { from: page * rows + 1, to: page * rows + shown.length, of: pieces.length })}
          </span>
          <button type="button" disabled={page === last} onClick={() => leaf(page + 1)}>
            {t('table.older')}
          </button>
        </div>
      ) : null}
    </>
  );
}
