import { type Command, findRun, type HoleView, readingEntry } from '@firnbook/campaign';
import type { Finding } from '@firnbook/science/depth';
import { type ReactNode, useState } from 'react';
import { Link } from 'wouter';
import type { BookHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { nameHere } from '../texts/names.ts';
import { number, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { focusPlace } from './focus-place.ts';
import { type Found, foundWords, isGap, slipTexts } from './found.ts';
import { MethodLink } from './method-link.tsx';
import { placeAddress } from './place.ts';
import { refusalLines } from './refusal-lines.ts';

interface Answer {
  readonly key: string;
  readonly label: string;
  readonly command: Command;
}

/** One reading that does not fit: what would explain it as buttons, measuring again, or that it is right. */
export function FindingQuestion(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly found: Found;
  readonly onMeasure: (field: string | undefined) => void;
  readonly onShow?: ((thing: string) => void) | undefined;
  /** What is shown between the question and its answers. */
  readonly children?: ReactNode;
}) {
  const { book, hole, found, onMeasure, onShow, children } = props;
  const { finding, thing } = found;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const take = (command: Command) =>
    void book.decide(command).then((taken) => {
      setRefusals(taken.ok ? [] : refusalLines(taken.refusals));
      // The question goes with its answer; the focus is not lost with it.
      if (taken.ok) focusPlace();
    });
  const leave: Command = {
    do: 'log',
    kind: 'confirmed reading',
    hole: hole.id,
    readings: {
      of: thing.id,
      field: finding.field,
      entry: readingEntry(hole, thing.id, finding.field) ?? 'none',
    },
  };
  const isWhole = isGap(finding) || finding.likely === 'doubled piece';
  return (
    <section className="ask" data-finding={finding.field}>
      <h2>{t('finding.title')}</h2>
      <p>
        {foundWords(found)} {t(slipTexts[finding.likely])} <MethodLink page="depth" section="findings" />
      </p>
      {children}
      <Refusals says={refusals} />
      <div className="answers">
        {likely(hole, found).map((one) => (
          <button key={one.key} type="button" className="act" onClick={() => take(one.command)}>
            {one.label}
          </button>
        ))}
        <button type="button" onClick={() => onMeasure(isWhole ? undefined : finding.field)}>
          {isWhole ? t('answer.correct', { name: nameHere(thing) }) : t('finding.measure')}
        </button>
        {finding.likely === 'zero changed' && book.campaign ? (
          <Link href={placeAddress(book.campaign.id, hole.letter, 'zeros')} className="button">
            {t('finding.to.zeros')}
          </Link>
        ) : null}
        <button type="button" onClick={() => take(leave)}>
          {t('finding.right')}
        </button>
      </div>
      <p className="small">
        {t('finding.right.hint')}{' '}
        {onShow ? (
          <button type="button" className="link" onClick={() => onShow(thing.id)}>
            {t('finding.show')}
          </button>
        ) : null}
      </p>
    </section>
  );
}

/** The likely slips, each undone by one press. */
function likely(hole: HoleView, { finding, thing }: Found): readonly Answer[] {
  const reason = t('reason.looked.again');
  const correct = (readings: Readonly<Record<string, string>>): Command => ({
    do: 'correct',
    thing: thing.id,
    readings,
    reason,
  });
  const answers: Answer[] = [];
  const suggested = suggestion(finding, thing.readings[finding.field]?.text ?? '');
  if (suggested !== null)
    answers.push({
      key: 'suggested',
      label: t('finding.take', { text: suggested.replace(' ', '\u00a0') }),
      command: correct({ [finding.field]: suggested }),
    });
  if (isGap(finding)) {
    const loss = `${number(Math.abs(finding.size) * 100, 1, 'en')} cm`;
    answers.push({
      key: 'lost',
      label: t('finding.lost', { size: shortLength(Math.abs(finding.size)) }),
      command: correct({ topBreak: 'loss', loss }),
    });
  }
  const run = finding.suggestedRun === undefined ? undefined : findRun(hole, finding.suggestedRun);
  if (run && thing.kind === 'piece')
    answers.push({
      key: 'run',
      label: t('finding.of.run', { name: run.name }),
      command: correct({ run: run.id }),
    });
  if (finding.likely === 'doubled piece' && thing.kind === 'piece')
    answers.push({
      key: 'doubled',
      label: t('finding.twice'),
      command: { do: 'withdraw', thing: thing.id, reason: t('reason.twice') },
    });
  return answers;
}

/** The reading as it would be typed without the slip, in the unit that it was typed in. */
function suggestion(finding: Finding, text: string): string | null {
  if (finding.suggested === undefined) return null;
  if (/\bmm$/.test(text.trim())) return `${number(finding.suggested * 1000, 0, 'en')} mm`;
  return text.trim().endsWith('cm')
    ? `${number(finding.suggested * 100, 1, 'en')} cm`
    : `${number(finding.suggested, 2, 'en')} m`;
}
