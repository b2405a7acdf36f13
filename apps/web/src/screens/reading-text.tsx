import { type CampaignView, findThing, type ReadingView, type ThingView } from '@firnbook/campaign';
import { t } from '../texts/t.ts';
import { fieldOf } from './fields.ts';
import { initialsOf } from './people.ts';

/** A reading as typed; a word of the record in the crew's words, a thing by its name. */
export function readingWords(kind: string, field: string, text: string, campaign?: CampaignView): string {
  const form = fieldOf(kind, field);
  const choice = form?.choices?.find((one) => one.value === text.toLowerCase());
  if (choice) return t(choice.label);
  if (form?.is === 'run' && campaign) return findThing(campaign, text)?.thing.name ?? text.slice(0, 4);
  if (form?.is === 'height') return heightWords(text);
  return form?.is === 'words' ? text : text.replace(' ', '\u00a0');
}

/** The face of a reading: figures stand in the numbers' type, words in the words'. */
export function readingFace(kind: string, field: string): string {
  const form = fieldOf(kind, field);
  return form?.choices || form?.is ? '' : 'num';
}

function heightWords(text: string): string {
  const size = text.replace(/^\s*[-−+]\s*/, '').replace(' ', '\u00a0');
  if (Number.parseFloat(size.replace(',', '.')) === 0) return t('height.level');
  return t(/^\s*[-−]/.test(text) ? 'height.lower' : 'height.higher', { size });
}

/** The reading that counts, after the ones struck through, with who and why; contradicting ones in the call colour. */
export function ReadingText(props: {
  readonly campaign: CampaignView;
  readonly thing: ThingView;
  readonly reading: ReadingView;
}) {
  const { campaign, thing, reading } = props;
  const words = (text: string) => readingWords(thing.kind, reading.field, text, campaign);
  const last = reading.struck.at(-1);
  const face = readingFace(thing.kind, reading.field);
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
