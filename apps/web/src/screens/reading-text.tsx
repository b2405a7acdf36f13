import {
  type CampaignView,
  fieldOf,
  findThing,
  kindOf,
  type ReadingView,
  type ThingView,
} from '@firnbook/campaign';
import { nameHere, wordName } from '../texts/names.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { isFigure } from './fields.ts';
import { initialsOf } from './people.ts';

/** Kinds whose height is told against the first zero of the hole. */
const againstZero = ['zero', 'zero check'];

/** A reading as typed; a word of the record in the crew's words, a thing by its name, a time as the reader writes it. */
export function readingWords(kind: string, field: string, text: string, campaign?: CampaignView): string {
  const table = kindOf(kind);
  const found = table === undefined ? undefined : fieldOf(table, field);
  switch (found?.quantity) {
    case 'word':
      return wordName(kind, field, text.toLowerCase() === text ? text : wordOf(found.words, text));
    case 'thing': {
      const thing = campaign ? findThing(campaign, text)?.thing : undefined;
      return thing ? nameHere(thing) : text.slice(0, 4);
    }
    case 'time':
      return moment(text);
    case 'attachment':
      return t('reading.attachment', { sign: text.slice(0, 8) });
    case 'text':
    case undefined:
      return text;
    default:
      if (field === 'height' && againstZero.includes(kind)) return heightWords(text);
      return text
        .replaceAll(' ', '\u00a0')
        .replaceAll(';\u00a0', '; ')
        .replace(/\u00a0°$/, '°')
        .replace(/^-/, '\u2212');
  }
}

const wordOf = (words: readonly string[], text: string): string =>
  words.find((word) => word.toLowerCase() === text.toLowerCase()) ?? text;

/** The face of a reading: figures stand in the numbers' type, words in the words'. */
export function readingFace(kind: string, field: string): string {
  return isFigure(kind, field) && !(field === 'height' && againstZero.includes(kind)) ? 'num' : '';
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
