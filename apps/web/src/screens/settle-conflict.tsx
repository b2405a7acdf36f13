import {
  type Command,
  type ConflictView,
  findThing,
  type HoleView,
  type ThingView,
} from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { SettleUsed } from '../rights/used-right.tsx';
import { fieldName, fieldWords } from '../texts/names.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import { fieldsOf } from './fields.ts';
import { nextPieceNumber, nextRunNumber } from './hole.ts';
import { initialsOf } from './people.ts';
import { readingFace, readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';

interface SettleProps {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly conflict: ConflictView;
  readonly onDone: () => void;
}

/** One conflict and what settles it: the same thing, another one, or the reading that is right. */
export function Settle(props: SettleProps) {
  const { book, conflict, onDone } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const { campaign } = book;
  const things = conflict.things.flatMap((id) => (campaign && findThing(campaign, id)?.thing) || []);
  const decideAll = async (commands: readonly Command[]) => {
    for (const command of commands) {
      const taken = await book.decide(command);
      if (!taken.ok) return setRefusals(refusalLines(taken.refusals));
    }
    onDone();
  };
  const decide = (command: Command) => decideAll([command]);
  const [into, from] = things;
  return (
    <>
      {conflict.kind === 'same name' && into && from ? (
        <SameName {...props} into={into} from={from} decide={decide} />
      ) : null}
      {conflict.kind === 'two readings' && into && conflict.field !== undefined ? (
        <TwoReadings {...props} thing={into} field={conflict.field} decide={decide} />
      ) : null}
      {conflict.used ? (
        <SettleUsed
          book={book}
          letter={props.hole.letter}
          used={conflict.used}
          things={things}
          decide={decideAll}
        />
      ) : null}
      {conflict.kind === 'cloned device' ? <p>{t('alarm.cloned.mend')}</p> : null}
      <Refusals says={refusals} />
    </>
  );
}

function SameName(
  props: SettleProps & {
    readonly into: ThingView;
    readonly from: ThingView;
    readonly decide: (command: Command) => Promise<void>;
  },
) {
  const { book, hole, into, from, decide } = props;
  const campaign = book.campaign;
  const isPiece = into.kind.startsWith('piece');
  const fields = fieldsOf(into.kind)
    .map((field) => field.name)
    .filter((field) => into.readings[field] ?? from.readings[field]);
  const differ = fields.filter(
    (field) => (into.readings[field]?.text ?? '') !== (from.readings[field]?.text ?? ''),
  );
  // The readings that count if it is one thing; the ones that were there first until a person picks.
  const [picked, setPicked] = useState<Readonly<Record<string, 'into' | 'from'>>>({});
  const pick = (field: string) =>
    picked[field] === 'from' || into.readings[field] === undefined
      ? from.readings[field]
      : into.readings[field];
  const run = isPiece ? hole.runs.find((one) => one.pieces.some((piece) => piece.id === into.id)) : undefined;
  const free = run ? nextPieceNumber(run) : nextRunNumber(hole);
  if (!campaign) return null;
  const what = isPiece ? 'piece' : 'run';
  return (
    <>
      <table className="compare">
        <thead>
          <tr>
            <td />
            {[into, from].map((one, place) => (
              <th key={one.id} scope="col">
                {place === 0 ? t('conflict.first') : t('conflict.second')}
                <small>{t('list.by', { by: initialsOf(campaign, one.by), at: moment(one.at) })}</small>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {fields.map((field) => {
            const isDifferent = differ.includes(field);
            const face = readingFace(into.kind, field);
            return (
              <tr key={field}>
                <th scope="row">{fieldName(into.kind, field)}</th>
                {(['into', 'from'] as const).map((side) => {
                  const reading = (side === 'into' ? into : from).readings[field];
                  const words = reading
                    ? readingWords(into.kind, field, reading.text, campaign)
                    : t('correct.none');
                  return (
                    <td key={side}>
                      {isDifferent && reading ? (
                        <button
                          type="button"
                          className={`${face} ${pick(field) === reading ? 'act' : ''}`}
                          aria-pressed={pick(field) === reading}
                          onClick={() => setPicked({ ...picked, [field]: side })}
                        >
                          {words}
                        </button>
                      ) : (
                        <span className={face}>{words}</span>
                      )}
                    </td>
                  );
                })}
              </tr>
            );
          })}
        </tbody>
      </table>
      {differ.length > 0 ? <p className="hint">{t('conflict.pick')}</p> : null}
      <div className="choices">
        <button
          type="button"
          className="act"
          data-settle="join"
          onClick={() =>
            void decide({
              do: 'join',
              into: into.id,
              from: from.id,
              readings: Object.fromEntries(
                differ.flatMap((field) => {
                  const reading = pick(field);
                  return reading ? [[field, reading.text]] : [];
                }),
              ),
              reason: t(`conflict.join.reason.${what}`),
            })
          }
        >
          {t(`conflict.join.${what}`)}
        </button>
        {[into, from].map((one, place) => (
          <button
            key={one.id}
            type="button"
            data-settle={place === 0 ? 'renumber-first' : 'renumber-second'}
            onClick={() =>
              void decide({
                do: 'correct',
                thing: one.id,
                readings: { number: String(free) },
                reason: t('conflict.renumber.reason'),
              })
            }
          >
            {t(`conflict.renumber.${what}`, {
              which: place === 0 ? t('conflict.first') : t('conflict.second'),
              number: free,
            })}
            <small>{t('conflict.renumber.hint', { name: one.name })}</small>
          </button>
        ))}
      </div>
    </>
  );
}

function TwoReadings(
  props: SettleProps & {
    readonly thing: ThingView;
    readonly field: string;
    readonly decide: (command: Command) => Promise<void>;
  },
) {
  const { book, thing, field, decide } = props;
  const reading = thing.readings[field];
  const campaign = book.campaign;
  if (!reading || !campaign) return null;
  return (
    <>
      <p className="hint">
        {t('conflict.which', { field: fieldWords(thing.kind, field), name: thingName(thing) })}
      </p>
      <div className="choices">
        {[reading, ...reading.against].map((one) => (
          <button
            key={one.entry}
            type="button"
            onClick={() =>
              void decide({
                do: 'correct',
                thing: thing.id,
                readings: { [field]: one.text },
                reason: t('conflict.pick.reason'),
              })
            }
          >
            <span className={readingFace(thing.kind, field)}>
              {readingWords(thing.kind, field, one.text, campaign)}
            </span>
            <small>{t('list.by', { by: initialsOf(campaign, one.by), at: moment(one.at) })}</small>
          </button>
        ))}
      </div>
    </>
  );
}
