import type { HoleView } from '@firnbook/campaign';
import { scalesOfHole } from '@firnbook/campaign';
import type { PanelInput } from '@firnbook/drawing';
import { useMemo, useState, useSyncExternalStore } from 'react';
import type { BookHandle } from '../device/book.ts';
import { keep, recall } from '../device/kept.ts';
import { t } from '../texts/t.ts';
import { AxisPlace } from './axis-place.tsx';
import { densityPanel, gapsOf, scalePanel } from './panels.ts';
import { useDensity } from './use-density.ts';
import './beside-core.css';

export type Quantity = 'density' | 'driller' | 'logger';

const roomy = '(min-width: 1200px)';
const narrow = '(max-width: 760px)';

function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (listener) => {
      const media = window.matchMedia(query);
      media.addEventListener('change', listener);
      return () => media.removeEventListener('change', listener);
    },
    () => window.matchMedia(query).matches,
  );
}

/** The core with quantities beside it: several at a desk, one at a time where there is less room. */
export function BesideCore(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  /** What can be chosen, in order. */
  readonly quantities: readonly Quantity[];
  /** What stands there until somebody chooses; nothing on a phone where `phone` is left out. */
  readonly first: readonly Quantity[];
  readonly phone?: Quantity;
  /** Under which the choice is remembered. */
  readonly name: string;
  readonly thing?: string | undefined;
  readonly onTouch: (thing: string) => void;
}) {
  const { book, hole, quantities, first, phone, name, thing, onTouch } = props;
  const density = useDensity(book, hole);
  const isRoomy = useMedia(roomy);
  const isNarrow = useMedia(narrow);
  const [kept, setKept] = useState(() => recall(name));
  const wanted = kept === null ? (isNarrow ? [phone] : first) : kept.split(' ');
  const chosen = quantities.filter((one) => wanted.includes(one)).slice(0, isRoomy ? quantities.length : 1);
  const take = (one: Quantity) => {
    const others = isRoomy ? chosen.filter((other) => other !== one) : [];
    const next = chosen.includes(one) ? others : [...others, one];
    setKept(next.join(' '));
    keep(name, next.join(' '));
  };
  const depths = book.depths[hole.id];
  const solved = book.solved[hole.id];
  const panels = useMemo((): Readonly<Partial<Record<Quantity, PanelInput>>> => {
    if (depths === undefined || solved === undefined) return {};
    const gaps = gapsOf(hole, depths);
    const [driller, logger, own] = scalesOfHole(hole.name, solved.readings, solved.solution, 'now');
    return {
      ...(density === null ? {} : { density: densityPanel(density, gaps) }),
      driller: scalePanel(t('scales.driller.less'), driller, own, gaps),
      logger: scalePanel(t('scales.logger.less'), logger, own, gaps),
    };
  }, [hole, depths, solved, density]);
  return (
    <div className="beside-core">
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a row everywhere. */}
      <div className="beside-choice" role="group" aria-label={t('beside.title')}>
        <span aria-hidden="true">{t('beside.title')}</span>
        {quantities.map((one) => (
          <button key={one} type="button" aria-pressed={chosen.includes(one)} onClick={() => take(one)}>
            {t(`beside.${one}`)}
          </button>
        ))}
      </div>
      <AxisPlace
        book={book}
        hole={hole}
        wide
        thing={thing}
        onTouch={onTouch}
        panels={chosen.flatMap((one) => panels[one] ?? [])}
      />
    </div>
  );
}
