import type { ThingView } from '@firnbook/campaign';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';

/** At each thing of a list: leads to its correction, or back into the count where it was withdrawn. */
export function CorrectButton<Thing extends ThingView>(props: {
  readonly thing: Thing;
  readonly onCorrect: (thing: Thing) => void;
}) {
  const { thing, onCorrect } = props;
  const name = thingName(thing);
  return (
    <button
      type="button"
      onClick={() => onCorrect(thing)}
      aria-label={t(thing.withdrawn ? 'list.restore.of' : 'answer.correct', { name })}
    >
      {t(thing.withdrawn ? 'list.restore' : 'list.correct')}
    </button>
  );
}
