import { findThing, type HoleView, type Need } from '@firnbook/campaign';
import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { BookHandle } from '../device/book.ts';
import { type BegunDraft, begunDrafts } from '../device/draft.ts';
import { kindName, nameHere, wordName } from '../texts/names.ts';
import { moment } from '../texts/numbers.ts';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { type CoreView, type Page, type Place, placeAddress } from './place.ts';
import { useDensityFlags } from './use-density.ts';

interface Line {
  readonly key: string;
  readonly says: string;
  readonly to: string | null;
  readonly label: string;
}

/** Everything that waits for a person, each with the way to where it is settled. */
export function TodayNeeds(props: {
  readonly book: BookHandle;
  /** The hole that is looked at: where things of the campaign are settled. */
  readonly hole: HoleView;
  readonly needs: readonly Need[];
}) {
  const { book, hole, needs } = props;
  const flags = useDensityFlags(book);
  const { campaign } = book;
  if (campaign === null) return null;
  const at = (of: HoleView | null, place: Place | CoreView | Page) =>
    placeAddress(campaign.id, (of ?? hole).letter, place);
  const lines: readonly Line[] = [
    ...needs.map((need, index) => lineOf(need, `${need.kind} ${index}`, at)),
    ...flags.map(({ hole: own, count }) => ({
      key: `density ${own.id}`,
      says: t('today.need.density', { count, letter: own.letter }),
      to: at(own, 'readings'),
      label: t('today.need.look'),
    })),
    ...begunDrafts().flatMap((draft) => draftLine(book, draft)),
  ];
  return (
    <Needs>
      {lines.length === 0 ? (
        <p className="quiet">{t('today.needs.none')}</p>
      ) : (
        <ul>
          {lines.map((line) => (
            <li key={line.key}>
              <span>{line.says}</span>
              {line.to === null ? null : (
                <Link href={line.to} className="button" aria-label={`${line.label}: ${line.says}`}>
                  {line.label}
                </Link>
              )}
            </li>
          ))}
        </ul>
      )}
    </Needs>
  );
}

function Needs({ children }: { readonly children: ReactNode }) {
  return (
    <section className="needs" aria-labelledby="needs">
      <h2 id="needs">{t('today.needs')}</h2>
      {children}
    </section>
  );
}

function lineOf(
  need: Need,
  key: string,
  at: (hole: HoleView | null, place: Place | CoreView | Page) => string,
): Line {
  switch (need.kind) {
    case 'conflict':
      return {
        key,
        says: sayHere(need.conflict.says),
        to: at(need.hole, need.conflict.used ? 'people' : 'core'),
        label: t('today.need.conflict.settle'),
      };
    case 'findings':
      return {
        key,
        says: t('today.need.findings', { count: need.count, letter: need.hole.letter }),
        to: at(need.hole, 'readings'),
        label: t('today.need.look'),
      };
    case 'core':
      return {
        key,
        says: t('today.need.core', {
          count: need.runs.length,
          names: need.runs.map((run) => run.name).join(', '),
        }),
        to: at(need.hole, 'log'),
        label: t('today.need.core.to'),
      };
    case 'instrument':
      return {
        key,
        says: t('today.need.instrument', {
          instrument: wordName('instrument check', 'instrument', need.instrument),
          at: moment(need.last.at),
        }),
        to: at(null, 'camp'),
        label: t('today.need.check'),
      };
    case 'no instrument':
      return {
        key,
        says: t('today.need.instrument.never'),
        to: at(null, 'camp'),
        label: t('today.need.check'),
      };
    case 'not understood':
      return { key, says: t('today.need.not.understood', { count: need.count }), to: null, label: '' };
    case 'waiting':
      return { key, says: t('today.need.waiting', { count: need.count }), to: null, label: '' };
  }
}

/** Kinds whose forms stand at the bench; those of the campaign stand in the camp, the others at the drill. */
const atBench: readonly string[] = ['piece', 'weigh', 'tray', 'feature', 'photograph'];

function draftLine(book: BookHandle, draft: BegunDraft): readonly Line[] {
  const { campaign } = book;
  if (campaign === null) return [];
  const isCamp = draft.about === campaign.id;
  const found = isCamp ? undefined : findThing(campaign, draft.about);
  if (!isCamp && found === undefined) return [];
  const letter = found?.hole?.letter ?? campaign.holes[0]?.letter ?? '';
  const place = isCamp ? 'camp' : atBench.includes(draft.kind) ? 'log' : 'drill';
  const name = isCamp ? campaign.name : found ? nameHere(found.thing) : '';
  const what =
    draft.kind === 'weigh'
      ? t('today.draft.weigh', { name })
      : t('today.draft.of', { kind: kindName(draft.kind), name });
  return [
    {
      key: `draft ${draft.kind} ${draft.about}`,
      says: t('today.need.draft', { what }),
      to: placeAddress(campaign.id, letter, place),
      label: t('today.need.draft.to'),
    },
  ];
}
