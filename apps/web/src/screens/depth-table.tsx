import type { HoleView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { depth } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { standing } from './hole.ts';

/** The same ice as figures, the newest first: a row is touched as the ice is. */
export function DepthTable(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly selected: string | undefined;
  readonly onPick: (piece: string) => void;
}) {
  const { book, hole, selected, onPick } = props;
  const solved = book.depths[hole.id]?.pieces ?? {};
  const pieces = standing(hole.runs)
    .flatMap((run) => standing(run.pieces))
    .reverse();
  if (pieces.length === 0) return <section className="figures" />;
  return (
    <section className="figures" aria-labelledby="figures">
      <h2 id="figures">{t('table.title')}</h2>
      <div className="scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">{t('table.piece')}</th>
              <th scope="col">{t('field.length')}</th>
              <th scope="col">{t('ice.top')}</th>
              <th scope="col">{t('ice.bottom')}</th>
            </tr>
          </thead>
          <tbody>
            {pieces.map((piece) => {
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
    </section>
  );
}
