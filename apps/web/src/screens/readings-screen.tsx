import { findThing, type HoleView, isCalled, standing, type ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { nameHere } from '../texts/names.ts';
import { moment, number, shortLength } from '../texts/numbers.ts';
import '../texts/for-screens.ts';
import { t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { DensityQuestion } from './density-question.tsx';
import { FindingQuestion } from './finding-question.tsx';
import { focusPlace } from './focus-place.ts';
import { askedIn, confirmedIn, type Found, foundWords, isGap, slipTexts } from './found.ts';
import { initialsOf } from './people.ts';
import { Picture } from './picture.tsx';
import type { PlaceProps } from './place.ts';
import { readingFace, readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';
import { Stretch } from './stretch.tsx';
import { flagsOf, useDensity } from './use-density.ts';
import './readings.css';

/** Every reading that does not fit, with its picture and its answers; below, those that a person said are right. */
export function ReadingsScreen({ book, hole }: PlaceProps) {
  const [correcting, setCorrecting] = useState<{ readonly thing: ThingView; readonly field?: string } | null>(
    null,
  );
  const depths = book.depths[hole.id];
  const density = useDensity(book, hole);
  const { campaign } = book;
  if (campaign === null) return null;
  const open = askedIn(hole, depths);
  const flags = density === null ? [] : flagsOf(hole, density);
  const heavy = flags.filter((flag) => flag.confirmation === undefined);
  const measure = (thing: ThingView, field?: string) =>
    setCorrecting({ thing, ...(field === undefined ? {} : { field }) });
  return (
    <div className="work review">
      <section>
        <h1>{t('view.readings')}</h1>
        <p className="hint">{t('review.hint')}</p>
        {depths === undefined ? <p className="quiet">{t('ice.solving')}</p> : null}
        {depths !== undefined && open.length + heavy.length === 0 ? (
          <p className="empty">{t('review.none')}</p>
        ) : null}
        <ul className="review-list">
          {open.map((found) => (
            <li key={found.key}>
              <Stretch book={book} hole={hole} thing={found.thing.id} />
              <FindingQuestion
                book={book}
                hole={hole}
                found={found}
                onMeasure={(field) => measure(found.thing, field)}
              >
                <Judged book={book} found={found} />
                <Photographs book={book} hole={hole} thing={found.thing.id} />
              </FindingQuestion>
            </li>
          ))}
          {heavy.map((flag) => (
            <li key={flag.thing.id}>
              <Stretch book={book} hole={hole} thing={flag.thing.id} />
              <DensityQuestion
                book={book}
                hole={hole}
                flag={flag}
                onMeasure={(field) => measure(flag.thing, field)}
              >
                <Photographs book={book} hole={hole} thing={flag.thing.id} />
              </DensityQuestion>
            </li>
          ))}
        </ul>
        <Confirmed book={book} hole={hole} confirmed={confirmations(book, hole, flags)} />
      </section>
      {correcting ? (
        <CorrectDialog
          book={book}
          thing={correcting.thing}
          field={correcting.field}
          onClose={() => setCorrecting(null)}
        />
      ) : null}
    </div>
  );
}

/** The reading as it was typed, how likely the slip is, and how large one would have to be to be seen. */
function Judged({ book, found }: { readonly book: BookHandle; readonly found: Found }) {
  const { finding, thing } = found;
  const reading = thing.readings[finding.field];
  const { campaign } = book;
  return (
    <dl className="judged">
      {reading && campaign && !isGap(finding) ? (
        <div>
          <dt>{t('review.typed')}</dt>
          <dd>
            <b className={readingFace(thing.kind, finding.field)}>
              {readingWords(thing.kind, finding.field, reading.text, campaign)}
            </b>{' '}
            <span className="quiet small">
              {t('list.by', { by: initialsOf(campaign, reading.by), at: moment(reading.at) })}
            </span>
          </dd>
        </div>
      ) : null}
      <div>
        <dt>{t('review.chance')}</dt>
        <dd>
          <b className="num">{percent(finding.probability)}</b>{' '}
          <span className="quiet small">{t(slipTexts[finding.likely])}</span>
        </dd>
      </div>
      <div>
        <dt>{t('review.detectable')}</dt>
        <dd>
          <b className="num">{shortLength(finding.detectable)}</b>
        </dd>
      </div>
    </dl>
  );
}

/** Never 0 or 100: a probability is not a proof. */
const percent = (share: number): string =>
  `${share > 0.995 ? '>99' : share < 0.005 ? '<1' : number(share * 100, 0)}\u00a0%`;

/** Photographs of the ice in question, of its run, or of what was seen in it. */
function Photographs(props: { readonly book: BookHandle; readonly hole: HoleView; readonly thing: string }) {
  const { book, hole, thing } = props;
  const run = hole.runs.find((one) => one.pieces.some((piece) => piece.id === thing));
  const piece = run?.pieces.find((one) => one.id === thing);
  const seen = standing(hole.others.feature).filter(
    (one) => piece !== undefined && isCalled(piece, one.readings.piece?.text ?? ''),
  );
  const shown = [piece, run, ...seen].filter((one) => one !== undefined);
  const pictures = standing(hole.others.photograph).filter((one) => {
    const of = one.readings.of?.text ?? '';
    return of === thing || shown.some((other) => isCalled(other, of));
  });
  return pictures.map((one) => (
    <Picture
      key={one.id}
      book={book}
      sha256={one.readings.picture?.text ?? ''}
      name={one.readings.caption?.text ?? nameHere(one)}
    />
  ));
}

interface Confirmation {
  readonly key: string;
  readonly says: string;
  readonly by: ThingView;
}

function confirmations(
  book: BookHandle,
  hole: HoleView,
  flags: ReturnType<typeof flagsOf>,
): readonly Confirmation[] {
  const fits = confirmedIn(hole, book.depths[hole.id]).flatMap((one): readonly Confirmation[] =>
    one.confirmation === undefined ? [] : [{ key: one.key, says: foundWords(one), by: one.confirmation }],
  );
  const weighed = flags.flatMap((flag): readonly Confirmation[] =>
    flag.confirmation === undefined
      ? []
      : [
          {
            key: flag.thing.id,
            says: t('review.density.right', { name: flag.thing.name }),
            by: flag.confirmation,
          },
        ],
  );
  return [...fits, ...weighed];
}

/** Who said so and when; each can be asked again, which withdraws what was said and keeps it visible. */
function Confirmed(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly confirmed: readonly Confirmation[];
}) {
  const { book, confirmed } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const { campaign } = book;
  if (campaign === null || confirmed.length === 0) return null;
  const askAgain = (thing: string) =>
    void book.decide({ do: 'withdraw', thing, reason: t('review.again.reason') }).then((taken) => {
      setRefusals(taken.ok ? [] : refusalLines(taken.refusals));
      if (taken.ok) focusPlace();
    });
  return (
    <>
      <h2 className="confirmed-title">{t('review.confirmed')}</h2>
      <Refusals says={refusals} />
      <ol className="list runs">
        {confirmed.map(({ key, says, by }) => {
          const thing = findThing(campaign, by.readings.of?.text ?? '')?.thing;
          return (
            <li key={key} className="run">
              <p>{says}</p>
              <p className="by small quiet">
                {t('review.right.by', { by: initialsOf(campaign, by.by), at: moment(by.at) })}
              </p>
              <button
                type="button"
                aria-label={t('review.again.of', { name: thing ? nameHere(thing) : '' })}
                onClick={() => askAgain(by.id)}
              >
                {t('finding.ask.again')}
              </button>
            </li>
          );
        })}
      </ol>
    </>
  );
}
