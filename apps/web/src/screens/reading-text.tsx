import type { CampaignView, ReadingView, ThingView } from '@firnbook/campaign';
import { t } from '../texts/t.ts';
import { fieldOf } from './fields.ts';
import { initialsOf } from './people.ts';

/** A reading as typed; a word of the record in the crew's words. */
export function readingWords(kind: string, field: string, text: string): string {
  const choice = fieldOf(kind, field)?.choices?.find((one) => one.value === text.toLowerCase());
  return choice ? t(choice.label) : text.replace(' ', '\u00a0');
}

/** The reading that counts, after the ones struck through, with who and why; contradicting ones in the call colour. */
export function ReadingText(props: {
  readonly campaign: CampaignView;
  readonly thing: ThingView;
  readonly reading: ReadingView;
}) {
  const { campaign, thing, reading } = props;
  const words = (text: string) => readingWords(thing.kind, reading.field, text);
  const last = reading.struck.at(-1);
  const face = fieldOf(thing.kind, reading.field)?.choices ? '' : 'num';
  return (
    <>
      {reading.struck.map((one) => (
        <span key={one.entry}>
          <s className={face}>
            <span className="hidden">{t('reading.struck')} </span>
            {words(one.text)}
          </s>{' '}
        </span>
      ))}
      <span className={last ? `${face} strong` : face}>{words(reading.text)}</span>
      {last ? (
        <span className="why">
          {' '}
          {last.reason ? `${last.reason}, ` : ''}
          {initialsOf(campaign, reading.by)}
        </span>
      ) : null}
      {reading.against.map((one) => (
        <span key={one.entry} className="call">
          {' '}
          {t('reading.against', { text: words(one.text), by: initialsOf(campaign, one.by) })}
        </span>
      ))}
    </>
  );
}
