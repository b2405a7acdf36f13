import { type DepthView, type HoleView, type ThingView, thingsOf } from '@firnbook/campaign';
import type { Finding, Slip } from '@firnbook/science/depth';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { number, shortLength } from '../texts/numbers.ts';
import { type TextKey, t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { fieldOf } from './fields.ts';

const slipTexts: Readonly<Record<Slip, TextKey>> = {
  '10 cm': 'slip.10cm',
  '1 m': 'slip.1m',
  'swapped digits': 'slip.swapped',
  'missing piece': 'slip.missing',
  'doubled piece': 'slip.doubled',
  'zero changed': 'slip.zero',
  'lost ice not logged': 'slip.lost',
  'no known slip': 'slip.none',
};

/** What the solved depths cannot make fit, as questions, for the things that lie on the bench now. */
export function Findings(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly depths: DepthView | undefined;
  /** Only findings on these things. */
  readonly things: readonly string[];
  /** Fields of one thing that are asked about already. */
  readonly except?: { readonly thing: string; readonly fields: readonly string[] };
}) {
  const { book, hole, depths, things, except } = props;
  const [settled, setSettled] = useState<ReadonlySet<string>>(new Set());
  const [correcting, setCorrecting] = useState<{ readonly thing: ThingView; readonly field: string } | null>(
    null,
  );
  const found = (depths?.findings ?? []).filter(
    (finding) =>
      things.includes(finding.which) &&
      !settled.has(keyOf(finding)) &&
      !(finding.which === except?.thing && except.fields.includes(finding.field)),
  );
  return (
    <>
      {found.map((finding) => {
        const thing = thingsOf(hole).find((one) => one.id === finding.which);
        if (!thing) return null;
        const field = fieldOf(finding.what, finding.field);
        const label = field ? t(field.label) : finding.field;
        const unit = thing.readings[finding.field]?.text.endsWith('cm') ? 'cm' : 'm';
        const suggested =
          finding.suggested === undefined
            ? null
            : `${unit === 'cm' ? number(finding.suggested * 100, 1, 'en') : number(finding.suggested, 2, 'en')} ${unit}`;
        return (
          <section key={keyOf(finding)} className="ask">
            <h2>{t('finding.title')}</h2>
            <p>
              {t(finding.size > 0 ? 'finding.long' : 'finding.short', {
                name: thing.name,
                field: label.toLowerCase(),
                text: thing.readings[finding.field]?.text ?? '',
                size: shortLength(Math.abs(finding.size)),
              })}{' '}
              {t(slipTexts[finding.likely])}
            </p>
            <div className="answers">
              {suggested ? (
                <button
                  type="button"
                  className="act"
                  onClick={() =>
                    void book.decide({
                      do: 'correct',
                      thing: thing.id,
                      readings: { [finding.field]: suggested },
                      reason: t('reason.looked.again'),
                    })
                  }
                >
                  {t('finding.take', { text: suggested })}
                </button>
              ) : null}
              {field ? (
                <button type="button" onClick={() => setCorrecting({ thing, field: finding.field })}>
                  {t('finding.measure')}
                </button>
              ) : null}
              <button
                type="button"
                onClick={() => setSettled((before) => new Set([...before, keyOf(finding)]))}
              >
                {t('finding.right')}
              </button>
            </div>
          </section>
        );
      })}
      {correcting ? (
        <CorrectDialog
          book={book}
          thing={correcting.thing}
          field={correcting.field}
          onClose={() => setCorrecting(null)}
        />
      ) : null}
    </>
  );
}

/** A finding stays answered only while its size is the same: new readings ask again. */
function keyOf(finding: Finding): string {
  return `${finding.which} ${finding.field} ${finding.size.toFixed(3)}`;
}
