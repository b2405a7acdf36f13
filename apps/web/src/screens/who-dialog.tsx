import { type FormEvent, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { t } from '../texts/t.ts';
import { refusalLines } from './refusal-lines.ts';

/** Whose hands are on this device: one tap for the crew, initials for somebody new. */
export function WhoChoice({ book, onDone }: { readonly book: BookHandle; readonly onDone: () => void }) {
  const [initials, setInitials] = useState('');
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const people = book.campaign?.people.filter((one) => one.withdrawn === null) ?? [];
  const add = async (event: FormEvent) => {
    event.preventDefault();
    const taken = await book.decide({ do: 'log', kind: 'person', readings: { initials: initials.trim() } });
    if (!taken.ok) return setRefusals(refusalLines(taken.refusals));
    const person = taken.entries[0];
    if (person !== undefined) book.setMe(person);
    onDone();
  };
  return (
    <>
      <ul className="crew">
        {people.map((person) => (
          <li key={person.id}>
            <button
              type="button"
              className={person.id === book.me ? 'act' : undefined}
              aria-pressed={person.id === book.me}
              onClick={() => {
                book.setMe(person.id);
                onDone();
              }}
            >
              {person.name}
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
    </>
  );
}

export function WhoDialog({ book, onClose }: { readonly book: BookHandle; readonly onClose: () => void }) {
  return (
    <Dialog title={t('who.title')} onClose={onClose}>
      <WhoChoice book={book} onDone={onClose} />
    </Dialog>
  );
}
