import { type Command, type ConflictView, type HoleView, type ThingView, thingsOf } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { fieldOf, fieldsOf } from './fields.ts';
import { nextPieceNumber, nextRunNumber } from './hole.ts';
import { initialsOf } from './people.ts';
import { readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';

/** What cannot both be true, each with the way to settle it. Work goes on meanwhile. */
export function Conflicts({ book, hole }: { readonly book: BookHandle; readonly hole: HoleView }) {
  const [open, setOpen] = useState<string | null>(null);
  const conflict = hole.conflicts.find((one) => one.key === open);
  if (hole.conflicts.length === 0) return null;
  return (
    <section className="alarms" aria-label={t('conflict.title')}>
      {hole.conflicts.map((one) => (
        <div key={one.key} className="alarm" data-conflict={one.kind}>
          <p>
            <b>{one.says}</b>
          </p>
          <button type="button" aria-haspopup="dialog" onClick={() => setOpen(one.key)}>
            {t('conflict.settle')}
          </button>
        </div>
      ))}
      {conflict ? (
        <Dialog title={conflict.says} onClose={() => setOpen(null)} wide>
          <Settle
            key={conflict.key}
            book={book}
            hole={hole}
            conflict={conflict}
            onDone={() => setOpen(null)}
          />
        </Dialog>
      ) : null}
    </section>
  );
}

interface SettleProps {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly conflict: ConflictView;
  readonly onDone: () => void;
}

function Settle(props: SettleProps) {
  const { book, hole, conflict, onDone } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const all = thingsOf(hole);
  const things = conflict.things.flatMap((id) => all.find((one) => one.id === id) ?? []);
  const decide = async (command: Command) => {
    const taken = await book.decide(command);
    if (taken.ok) onDone();
    else setRefusals(refusalLines(taken.refusals));
  };
  const [into, from] = things;
  return (
    <>
      {conflict.kind === 'same name' && into && from ? (
        <SameName {...props} into={into} from={from} decide={decide} />
      ) : null}
      {conflict.kind === 'two readings' && into && conflict.field !== undefined ? (
        <TwoReadings {...props} thing={into} field={conflict.field} decide={decide} />
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
  const fields = fieldsOf(into.kind).filter((form) => form.field !== 'number');
  const differ = fields.filter(
    (form) => (into.readings[form.field]?.text ?? '') !== (from.readings[form.field]?.text ?? ''),
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
          {fields.map((form) => {
            const isDifferent = differ.includes(form);
            return (
              <tr key={form.field}>
                <th scope="row">{t(form.label)}</th>
                {(['into', 'from'] as const).map((side) => {
                  const reading = (side === 'into' ? into : from).readings[form.field];
                  const words = reading
                    ? readingWords(into.kind, form.field, reading.text)
                    : t('correct.none');
                  return (
                    <td key={side}>
                      {isDifferent && reading ? (
                        <button
                          type="button"
                          className={`${form.choices ? '' : 'num'} ${pick(form.field) === reading ? 'act' : ''}`}
                          aria-pressed={pick(form.field) === reading}
                          onClick={() => setPicked({ ...picked, [form.field]: side })}
                        >
                          {words}
                        </button>
                      ) : (
                        <span className={form.choices ? '' : 'num'}>{words}</span>
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
                differ.flatMap((form) => {
                  const reading = pick(form.field);
                  return reading ? [[form.field, reading.text]] : [];
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
  const form = fieldOf(thing.kind, field);
  return (
    <>
      <p className="hint">
        {t('conflict.which', { field: form ? t(form.label).toLowerCase() : field, name: thing.name })}
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
            <span className="num">{readingWords(thing.kind, field, one.text)}</span>
            <small>{t('list.by', { by: initialsOf(campaign, one.by), at: moment(one.at) })}</small>
          </button>
        ))}
      </div>
    </>
  );
}
