import { asksPin } from '@firnbook/campaign';
import { type FormEvent, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Later } from '../forms/later.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { t } from '../texts/t.ts';
import { crewOf } from './people.ts';
import { refusalLines } from './refusal-lines.ts';

const pinPart = () => import('../people/pin-part.tsx').then(({ PinPart }) => PinPart);

export interface WhoChoiceProps {
  readonly book: BookHandle;
  readonly onDone: () => void;
  /** Picked already: their PIN is asked at once. */
  readonly person?: string | null | undefined;
  /** The device was left to nobody; not offered where nobody has it. */
  readonly onHandOver?: (() => void) | undefined;
}

/** Whose hands are on this device: one tap for the crew, and a PIN where the campaign asks for one; initials for somebody new. */
export function WhoChoice({ book, onDone, person = null, onHandOver }: WhoChoiceProps) {
  const [picked, setPicked] = useState(person);
  const [initials, setInitials] = useState('');
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const { campaign, me, writer } = book;
  const pick = (one: string) => {
    const isThere = one === me && writer.unproven === null;
    if (campaign !== null && asksPin(campaign) && !isThere) return setPicked(one);
    book.setMe(one);
    onDone();
  };
  const add = async (event: FormEvent) => {
    event.preventDefault();
    const taken = await book.decide({ do: 'log', kind: 'person', readings: { initials: initials.trim() } });
    if (!taken.ok) return setRefusals(refusalLines(taken.refusals));
    const made = taken.entries[0];
    if (made === undefined) return onDone();
    pick(made);
  };
  if (picked !== null)
    return (
      <Later part={pinPart} book={book} person={picked} onDone={onDone} onBack={() => setPicked(null)} />
    );
  return (
    <>
      <ul className="crew">
        {(campaign === null ? [] : crewOf(campaign)).map(({ thing, isOnDuty }) => (
          <li key={thing.id}>
            <button
              type="button"
              className={thing.id === me ? 'act' : undefined}
              aria-pressed={thing.id === me}
              onClick={() => pick(thing.id)}
            >
              {thing.name}
              {isOnDuty ? <small>{t('who.on.duty')}</small> : null}
            </button>
          </li>
        ))}
      </ul>
      <form className="words note" onSubmit={(event) => void add(event)}>
        <label htmlFor="new-initials">{t('who.new')}</label>
        <div className="beside">
          <input
            id="new-initials"
            value={initials}
            maxLength={8}
            autoComplete="off"
            autoCapitalize="characters"
            onChange={(event) => setInitials(event.target.value)}
          />
          <button type="submit" disabled={initials.trim() === ''}>
            {t('who.add')}
          </button>
        </div>
        <Refusals says={refusals} />
      </form>
      {onHandOver === undefined || me === null ? null : (
        <div className="answers dialog-row">
          <button
            type="button"
            onClick={() => {
              writer.handOver();
              onHandOver();
            }}
          >
            {t('who.hand.over')}
          </button>
        </div>
      )}
    </>
  );
}

export function WhoDialog(props: WhoChoiceProps & { readonly onClose: () => void }) {
  const { book, onDone, onClose, person } = props;
  return (
    <Dialog title={t('who.title')} onClose={onClose}>
      <WhoChoice book={book} onDone={onDone} person={person} onHandOver={onClose} />
    </Dialog>
  );
}

/** A plan or a sign-off waits for the PIN of whoever writes. */
export function PinWanted({ book }: { readonly book: BookHandle }) {
  const { me, writer } = book;
  if (!writer.isPinWanted || me === null) return null;
  return (
    <Dialog title={t('who.proof')} onClose={writer.later}>
      <Later part={pinPart} book={book} person={me} onDone={writer.later} onBack={writer.later} />
    </Dialog>
  );
}
