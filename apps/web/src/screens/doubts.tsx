import type { Doubt } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';

/** Surprises as questions with the likely slips to pick from. Nothing here blocks the next entry. */
export function Doubts(props: {
  readonly book: BookHandle;
  readonly thing: string;
  readonly doubts: readonly Doubt[];
}) {
  const { book, thing, doubts } = props;
  const [settled, setSettled] = useState<ReadonlySet<string>>(new Set());
  const settle = (what: string) => setSettled((before) => new Set([...before, what]));
  return doubts
    .map((doubt) => ({ ...doubt, what: sayHere(doubt.what) }))
    .filter((doubt) => !settled.has(doubt.what))
    .map((doubt) => (
      <section key={doubt.what} className="ask">
        <h2>{t('doubt.title')}</h2>
        <p>{doubt.what}</p>
        <div className="answers">
          {doubt.likely.map((slip, place) => (
            <button
              key={sayHere(slip.label)}
              type="button"
              className={place === 0 ? 'act' : undefined}
              onClick={() =>
                void book
                  .decide({ do: 'correct', thing, readings: slip.readings, reason: t('reason.slip.at.once') })
                  .then((taken) => {
                    if (taken.ok) settle(doubt.what);
                  })
              }
            >
              {sayHere(slip.label)}
            </button>
          ))}
          <button type="button" onClick={() => settle(doubt.what)}>
            {t('doubt.right')}
          </button>
        </div>
      </section>
    ));
}
