import { findThing, type HoleView, splicesOf, standing } from '@firnbook/campaign';
import {
  type Converted,
  conversion,
  joinRecords,
  type ScaledDepth,
  type ScaleOfHole,
} from '@firnbook/science/depth-scales';
import { useId, useMemo, useState } from 'react';
import { typedDepth } from '../axis/go-to-depth.tsx';
import type { BookHandle } from '../device/book.ts';
import { nameHere } from '../texts/names.ts';
import { depth, metres, number } from '../texts/numbers.ts';
import { type TextKey, t } from '../texts/t.ts';
import { MethodLink } from './method-link.tsx';

type Which = 'driller' | 'logger' | 'solved';

const order: readonly Which[] = ['driller', 'logger', 'solved'];

/** A depth with its scale in, the same ice on every other scale out, each with its uncertainty and what lies there. */
export function ScaleConverter(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly scales: readonly ScaleOfHole[];
  readonly touched: string | null;
  readonly onPiece: (piece: string) => void;
}) {
  const { book, hole, scales, touched, onPiece } = props;
  const [text, setText] = useState('');
  const [which, setWhich] = useState<Which>('driller');
  const id = useId();
  const from = scales[order.indexOf(which)];
  // What is touched on the core stands in the field until something is typed.
  const proposed = from && touched !== null ? topOf(from, touched) : null;
  const shown = text === '' && proposed !== null ? number(proposed, 2) : text;
  const value = typedDepth(shown);
  const rows = useMemo(() => {
    if (value === null || from === undefined) return null;
    const given: ScaledDepth = { hole: from.hole, scale: from.scale, value, sd: 0 };
    return scales.map((scale, at): readonly [Which, Converted | string] => {
      if (scale === from) return [order[at]!, ''];
      try {
        return [order[at]!, conversion(from, scale)(given)];
      } catch (error) {
        return [order[at]!, error instanceof Error ? error.message : String(error)];
      }
    });
  }, [from, scales, value]);
  const solved = rows?.find(([name]) => name === 'solved')?.[1];
  const place =
    typeof solved === 'object' ? solved : rows?.map(([, one]) => one).find((one) => typeof one === 'object');
  return (
    <section className="converter" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{t('scales.convert')}</h2>
      <div className="converter-in">
        <label htmlFor={id}>{t('scales.depth')}</label>
        <span className="core-axis-depth">
          <input
            id={id}
            inputMode="decimal"
            autoComplete="off"
            value={shown}
            onChange={(event) => setText(event.target.value)}
            aria-describedby={`${id}-wrong`}
          />
          <span>m</span>
        </span>
        {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a row everywhere. */}
        <div role="group" aria-label={t('scales.of')} className="converter-scales">
          {order.map((one) => (
            <button key={one} type="button" aria-pressed={one === which} onClick={() => setWhich(one)}>
              {t(`scales.${one}`)}
            </button>
          ))}
        </div>
      </div>
      <p id={`${id}-wrong`} className="call" role="status">
        {shown !== '' && value === null ? t('scales.no.depth', { typed: shown }) : ''}
      </p>
      {rows === null || value === null ? null : (
        <>
          <table className="figures-table">
            <tbody>
              {rows.map(([name, one]) => (
                <tr key={name}>
                  <th scope="row">{t(`scales.${name}`)}</th>
                  <td className="num">
                    {typeof one === 'string' ? (name === which ? metres(value) : one) : said(one)}
                  </td>
                </tr>
              ))}
              {typeof solved === 'object'
                ? others(book, hole, solved).map((one) => (
                    <tr key={one.name}>
                      <th scope="row">{t('scales.other', { name: one.name })}</th>
                      <td className="num">{depth(one.depth)}</td>
                    </tr>
                  ))
                : null}
            </tbody>
          </table>
          <p className="small">
            <MethodLink page="depth-scales" section="conversion" />
          </p>
          {place === undefined ? null : <Within book={book} converted={place} onPiece={onPiece} />}
        </>
      )}
    </section>
  );
}

/** A scale that is a label only has no error of its own. */
const said = ({ depth: it }: Converted): string =>
  it.sd > 0 ? depth({ value: it.value, sd: it.sd }) : metres(it.value);

const withinTexts: Readonly<Record<Converted['within']['kind'], TextKey>> = {
  ice: 'scales.in.ice',
  break: 'scales.in.break',
  'lost ice': 'scales.in.lost',
  'above the core': 'scales.above',
  'below the core': 'scales.below',
};

function Within(props: {
  readonly book: BookHandle;
  readonly converted: Converted;
  readonly onPiece: (piece: string) => void;
}) {
  const { book, converted, onPiece } = props;
  const { within } = converted;
  const name = (id: string) => {
    const thing = book.campaign ? findThing(book.campaign, id)?.thing : undefined;
    return thing ? nameHere(thing) : '';
  };
  const piece = 'piece' in within ? within.piece : null;
  const values = 'above' in within ? { above: name(within.above), below: name(within.below) } : {};
  return (
    <p>
      {t(withinTexts[within.kind], { ...values, ...(piece === null ? {} : { name: name(piece) }) })}{' '}
      {piece === null ? null : (
        <button type="button" className="link" onClick={() => onPiece(piece)}>
          {t('finding.show')}
        </button>
      )}
    </p>
  );
}

/** The same ice in the holes, pits and hand-augered tops that splices join to this one. */
function others(book: BookHandle, hole: HoleView, solved: Converted) {
  const { campaign } = book;
  if (campaign === null) return [];
  const joined = joinRecords(splicesOf(campaign), hole.id);
  return [...joined.offsets].flatMap(([id, offset]) => {
    const thing = findThing(campaign, id)?.thing;
    if (id === hole.id || thing === undefined || standing([thing]).length === 0) return [];
    return [
      {
        name: nameHere(thing),
        depth: {
          value: solved.depth.value + offset.value,
          sd: Math.hypot(solved.depth.sd, offset.sd),
        },
      },
    ];
  });
}

/** Where a piece begins on a scale; null where the scale does not reach. */
function topOf(scale: ScaleOfHole, piece: string): number | null {
  const at = scale.places.findIndex((place) => place.piece === piece && place.end === 'top');
  return scale.at[at] ?? null;
}
