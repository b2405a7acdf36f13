import { standing, type ThingView, zeroHeight } from '@firnbook/campaign';
import { hit, type Level, themes, zeroLevels } from '@firnbook/drawing';
import { useMemo, useRef, useState } from 'react';
import { pxPerMm, useBoxSize } from '../axis/box.ts';
import { Painted } from '../axis/painted.tsx';
import { Dialog } from '../forms/dialog.tsx';
import { useTheme } from '../look/theme.ts';
import { kindName, nameHere } from '../texts/names.ts';
import { moment, number, shortLength } from '../texts/numbers.ts';
import '../texts/for-screens.ts';
import { t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { MakeThing } from './make.tsx';
import { initialsOf } from './people.ts';
import type { PlaceProps } from './place.ts';
import { ReadingText } from './reading-text.tsx';
import { Splices } from './splices.tsx';
import { ThingList } from './thing-list.tsx';
import './zeros.css';

type Making = { readonly kind: 'zero' } | { readonly kind: 'zero check'; readonly zero: ThingView };

/** The surfaces that depths count from, to scale over time, and how holes, pits and hand-augered tops lie to each other. */
export function ZerosScreen({ book, hole }: PlaceProps) {
  const [selected, setSelected] = useState<string | null>(null);
  const [making, setMaking] = useState<Making | null>(null);
  const [correcting, setCorrecting] = useState<ThingView | null>(null);
  const { campaign } = book;
  if (campaign === null) return null;
  const zeros = standing(hole.zeros);
  const checksOf = (zero: ThingView) =>
    (hole.others['zero check'] ?? []).filter((one) => one.readings.zero?.text === zero.id);
  return (
    <div className="work zeros">
      <section aria-labelledby="zeros">
        <h1 id="zeros">{t('zeros.title', { letter: hole.letter })}</h1>
        <p className="hint">{t('zeros.hint')}</p>
        {zeros.length === 0 ? (
          <p className="empty">{t('drill.none.zeros')}</p>
        ) : (
          <Levels book={book} hole={hole} selected={selected} onSelect={setSelected} />
        )}
        <ol className="list zero-list">
          {zeros.map((zero, index) => (
            <li key={zero.id} aria-current={zero.id === selected ? 'true' : undefined}>
              <div className="zero-head">
                <p>
                  <b>{nameHere(zero)}</b>{' '}
                  {zero.readings.surface ? (
                    <ReadingText campaign={campaign} thing={zero} reading={zero.readings.surface} />
                  ) : null}
                  <br />
                  <HeightWords hole={hole} zero={zero} isFirst={index === 0} />
                  <br />
                  <span className="small quiet">
                    {t('list.by', { by: initialsOf(campaign, zero.by), at: moment(zero.at) })}
                    {zero.readings.method ? ` · ${zero.readings.method.text}` : ''}
                  </span>
                </p>
                <div className="zero-buttons">
                  <button
                    type="button"
                    aria-pressed={zero.id === selected}
                    onClick={() => setSelected(zero.id === selected ? null : zero.id)}
                  >
                    {t('zeros.show')}
                  </button>
                  {index === 0 ? null : (
                    <button
                      type="button"
                      aria-label={t('zeros.again.of', { name: nameHere(zero) })}
                      onClick={() => setMaking({ kind: 'zero check', zero })}
                    >
                      {t('zeros.again')}
                    </button>
                  )}
                  <button
                    type="button"
                    aria-label={t('answer.correct', { name: nameHere(zero) })}
                    onClick={() => setCorrecting(zero)}
                  >
                    {t('list.correct')}
                  </button>
                </div>
              </div>
              {checksOf(zero).length > 0 ? (
                <ThingList book={book} things={checksOf(zero)} onCorrect={setCorrecting} />
              ) : null}
            </li>
          ))}
        </ol>
        <div className="answers">
          <button type="button" onClick={() => setMaking({ kind: 'zero' })}>
            {t('measure.zero')}
          </button>
        </div>
      </section>
      <Splices book={book} hole={hole} />
      {making ? (
        <Dialog
          title={
            making.kind === 'zero' ? t('measure.zero') : t('zeros.again.of', { name: nameHere(making.zero) })
          }
          onClose={() => setMaking(null)}
        >
          <MakeThing
            book={book}
            hole={hole}
            kind={making.kind}
            given={making.kind === 'zero check' ? { zero: making.zero.id } : {}}
            without={making.kind === 'zero' && zeros.length === 0 ? ['height'] : []}
            title={making.kind === 'zero' ? kindName('zero') : nameHere(making.zero)}
            scope={making.kind === 'zero' ? hole.id : making.zero.id}
            onMade={() => setMaking(null)}
            onBack={() => setMaking(null)}
          />
        </Dialog>
      ) : null}
      {correcting ? (
        <CorrectDialog book={book} thing={correcting} onClose={() => setCorrecting(null)} />
      ) : null}
    </div>
  );
}

/** By all that measured it: "31.2 cm ± 7 mm above the first zero". */
function HeightWords(props: {
  readonly hole: PlaceProps['hole'];
  readonly zero: ThingView;
  readonly isFirst: boolean;
}) {
  if (props.isFirst) return <>{t('zeros.first')}</>;
  const known = zeroHeight(props.hole, props.zero);
  if (known === null) return <span className="call">{t('zeros.not.measured')}</span>;
  const words = { size: shortLength(Math.abs(known.height)), sd: shortLength(known.sd) };
  return <>{t(known.height < 0 ? 'zeros.lower' : 'zeros.higher', words)}</>;
}

/** The drawing, as wide as its place. */
function Levels(
  props: PlaceProps & {
    readonly selected: string | null;
    readonly onSelect: (zero: string) => void;
  },
) {
  const { hole, selected, onSelect } = props;
  const box = useRef<HTMLDivElement>(null);
  const width = useBoxSize(box).width / pxPerMm;
  const theme = themes[useTheme()];
  const until = lastTime(hole);
  const picture = useMemo(
    () =>
      width < 40
        ? null
        : zeroLevels(levelsOf(hole), until, {
            width,
            height: Math.min(110, Math.max(62, width * 0.5)),
            selected,
            number,
            day,
            words: { title: t('zeros.picture', { letter: hole.letter }), axis: t('zeros.axis') },
          }),
    [hole, width, until, selected],
  );
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the buttons in the list below select a zero by keys.
    <div
      ref={box}
      className="levels"
      role="img"
      aria-label={t('zeros.picture', { letter: hole.letter })}
      style={{ height: picture === null ? undefined : `${picture.height}mm` }}
      onClick={(event) => {
        const corner = event.currentTarget.getBoundingClientRect();
        const at = [event.clientX - corner.left, event.clientY - corner.top].map((px) => px / pxPerMm);
        const thing = picture && hit(picture, at[0]!, at[1]!);
        if (thing !== null) onSelect(thing);
      }}
    >
      {picture === null ? null : <Painted picture={picture} theme={theme} className="levels-canvas" />}
    </div>
  );
}

function levelsOf(hole: PlaceProps['hole']): readonly Level[] {
  const checks = standing(hole.others['zero check']);
  const measure = (thing: ThingView) => ({
    id: thing.id,
    at: Date.parse(thing.at),
    height: thing.readings.height?.value ?? 0,
    sd: thing.readings.sd?.value ?? null,
  });
  return standing(hole.zeros).map((zero) => {
    const known = zeroHeight(hole, zero);
    return {
      id: zero.id,
      name: nameHere(zero),
      surface: zero.readings.surface?.text ?? '',
      set: measure(zero),
      again: checks
        .filter((check) => check.readings.zero?.text === zero.id && check.readings.height?.value != null)
        .map(measure),
      height: known?.height ?? 0,
      // What nobody measured has no band: the list says so.
      sd: known?.sd ?? 0,
    };
  });
}

/** The newest run's time: a zero holds as long as something is drilled by it. */
function lastTime(hole: PlaceProps['hole']): number {
  return Math.max(...[...hole.runs, ...hole.zeros].map((one) => Date.parse(one.at)));
}

const day = (at: number): string =>
  new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short' }).format(at);
