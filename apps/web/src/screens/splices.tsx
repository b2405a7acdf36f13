import { type HoleView, splicesOf, standing, type ThingView } from '@firnbook/campaign';
import { type SpliceRecord, type SpliceTie, tiesBetween } from '@firnbook/drawing';
import { joinRecords, type Loop, offsetOf } from '@firnbook/science/depth-scales';
import { useMemo, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { nameHere } from '../texts/names.ts';
import { shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { MethodLink } from './method-link.tsx';
import { SpliceForm } from './splice-form.tsx';
import { middleOf, recordOf, SplicePicture, type SpliceThing, sdOf } from './splice-picture.tsx';

/** Metres that a layer may lie off the splice and still be taken for the same. */
const reach = 0.3;
/** Error of finding the middle of a layer, metres, one standard deviation. Common practice, no source. */
const FOUND_SD = 0.002;

/** Holes, pits and hand-augered tops side by side, and the offset between two of them set by the layers in both. */
export function Splices({ book, hole }: { readonly book: BookHandle; readonly hole: HoleView }) {
  const { campaign } = book;
  const records = useMemo(() => (campaign === null ? [] : thingsToJoin(book)), [book, campaign]);
  const splices = useMemo(() => (campaign === null ? [] : splicesOf(campaign)), [campaign]);
  const proposed = splices.find((one) => one.of === hole.id || one.on === hole.id);
  const [of, setOf] = useState(proposed?.of ?? hole.id);
  const [on, setOn] = useState(
    proposed?.on ?? records.find(({ thing }) => thing.id !== hole.id)?.thing.id ?? '',
  );
  const [draft, setDraft] = useState<{ readonly pair: string; readonly offset: number } | null>(null);
  const [withMelt, setWithMelt] = useState(false);
  if (campaign === null) return null;
  if (records.length < 2)
    return (
      <section className="splices" aria-labelledby="splices">
        <h2 id="splices">{t('splices.title')}</h2>
        <p className="quiet">{t('splices.one.record')}</p>
      </section>
    );
  const pair = `${of} ${on}`;
  const joined = joinRecords(splices, on);
  const kept = splices.find((one) => one.of === of && one.on === on);
  const known = kept?.offset.value ?? joined.offsets.get(of)?.value ?? 0;
  const offset = draft?.pair === pair ? draft.offset : known;
  const shown = [on, of].flatMap((id): readonly SpliceRecord[] => {
    const own = records.find(({ thing }) => thing.id === id);
    return own ? [recordOf(book, own, id === of ? offset : 0)] : [];
  });
  const [right, left] = [shown[1], shown[0]];
  const kinds = withMelt ? ['dust', 'melt layer'] : ['dust'];
  const ties = left && right ? tiesBetween(right, left, reach, kinds) : [];
  const pairs = ties.flatMap((tie) => {
    const [a, b] = [middleOf(right, tie.of.feature), middleOf(left, tie.on.feature)];
    return a === null || b === null ? [] : [{ tie, of: a, on: b, off: a - b - offset }];
  });
  const sdIn = ({ record, feature }: SpliceTie['of']): number => {
    const own = records.find(({ thing }) => thing.id === record);
    return own ? sdOf(book, own, feature) : 0;
  };
  const found =
    pairs.length === 0
      ? null
      : offsetOf(
          pairs.map(({ tie, of: below, on: above }) => ({
            of: { value: below, sd: Math.hypot(FOUND_SD, sdIn(tie.of)) },
            on: { value: above, sd: Math.hypot(FOUND_SD, sdIn(tie.on)) },
          })),
        );
  const name = (id: string) => nameOf(records, id);
  return (
    <section className="splices" aria-labelledby="splices">
      <h2 id="splices">{t('splices.title')}</h2>
      <p className="hint">
        {t('splices.hint')} <MethodLink page="depth-scales" section="splices" />
      </p>
      <div className="splice-pair">
        <RecordChoice label={t('splices.of')} records={records} value={of} without={on} onTake={setOf} />
        <RecordChoice label={t('splices.on')} records={records} value={on} without={of} onTake={setOn} />
        <label className="splice-melt">
          <input type="checkbox" checked={withMelt} onChange={(event) => setWithMelt(event.target.checked)} />
          {t('splices.melt')}
        </label>
      </div>
      {left && right ? (
        <SplicePicture
          key={pair}
          records={shown}
          selected={of}
          pairs={pairs}
          title={t('splices.picture', { of: name(of), on: name(on) })}
        />
      ) : null}
      <SpliceForm
        key={`${pair} ${kept?.id ?? ''} ${kept?.offset.value ?? ''}`}
        book={book}
        of={of}
        on={on}
        names={{ of: name(of), on: name(on) }}
        offset={offset}
        kept={kept ? (campaign.others.splice ?? []).find((one) => one.id === kept.id) : undefined}
        found={found}
        layers={pairs.length}
        onOffset={(next) => setDraft({ pair, offset: next })}
      />
      <Loops loops={joined.loops} splices={standing(campaign.others.splice)} name={name} />
    </section>
  );
}

/** Everything that has depths of its own. */
function thingsToJoin(book: BookHandle): readonly SpliceThing[] {
  const { campaign } = book;
  if (campaign === null) return [];
  return [
    ...standing(campaign.holes).map((thing) => ({ thing, hole: thing })),
    ...standing(campaign.others.pit).map((thing) => ({ thing, hole: null })),
    ...standing(campaign.others['hand-augered top']).map((thing) => ({ thing, hole: null })),
  ];
}

const nameOf = (records: readonly SpliceThing[], id: string): string => {
  const found = records.find(({ thing }) => thing.id === id);
  return found ? nameHere(found.thing) : '?';
};

function RecordChoice(props: {
  readonly label: string;
  readonly records: readonly SpliceThing[];
  readonly value: string;
  readonly without: string;
  readonly onTake: (id: string) => void;
}) {
  const { label, records, value, without, onTake } = props;
  return (
    <label>
      {label}
      <select value={value} onChange={(event) => onTake(event.target.value)}>
        {records
          .filter(({ thing }) => thing.id !== without)
          .map(({ thing }) => (
            <option key={thing.id} value={thing.id}>
              {nameHere(thing)}
            </option>
          ))}
      </select>
    </label>
  );
}

/** Splices that go round in a circle must come back to where they began. */
function Loops(props: {
  readonly loops: readonly Loop[];
  readonly splices: readonly ThingView[];
  readonly name: (id: string) => string;
}) {
  const { loops, splices, name } = props;
  const way = (loop: Loop): string =>
    loop.splices
      .flatMap((id) => {
        const own = splices.find((one) => one.id === id);
        return own ? `${name(own.readings.of?.text ?? '')} – ${name(own.readings.on?.text ?? '')}` : [];
      })
      .join(', ');
  return (
    <>
      <h3>{t('splices.loops')}</h3>
      {loops.length === 0 ? (
        <p className="quiet">{t('splices.loops.none')}</p>
      ) : (
        <ul>
          {loops.map((loop) => (
            <li key={loop.splices.join(' ')} className={loop.closes ? undefined : 'call'}>
              {t(loop.closes ? 'splices.loop.closes' : 'splices.loop.not', {
                way: way(loop),
                off: shortLength(Math.abs(loop.misclosure.value)),
                sd: shortLength(loop.misclosure.sd),
              })}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
