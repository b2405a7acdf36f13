import {
  type DepthView,
  type HoleView,
  isCalled,
  type PieceView,
  type RunView,
  type ThingView,
} from '@firnbook/campaign';
import type { DepthAssumptions } from '@firnbook/science/depth';
import type { ReactNode } from 'react';
import { Dialog } from '../forms/dialog.tsx';
import { fieldWords, nameHere } from '../texts/names.ts';
import { depth, number, shortLength } from '../texts/numbers.ts';
import { type TextKey, t } from '../texts/t.ts';
import { fieldsOf } from './fields.ts';
import { standing } from './hole.ts';
import { type HowLine, howLines } from './how-lines.ts';
import { MethodLink } from './method-link.tsx';
import { readingFace, readingWords } from './reading-text.tsx';

type Show = (value: number) => string;
const length: Show = (value) => shortLength(value);
const share: Show = (value) => `${number(value * 100, value < 0.001 ? 2 : value < 0.01 ? 1 : 0)}\u00a0%`;
const plain: Show = (value) => number(value, 0);

const taken: readonly (readonly [keyof DepthAssumptions, TextKey, Show])[] = [
  ['lengthSdIce', 'how.lengthSdIce', length],
  ['lengthSdFirn', 'how.lengthSdFirn', length],
  ['firnTo', 'how.firnTo', (value) => `${number(value, 0)}\u00a0m`],
  ['runBiasSd', 'how.runBiasSd', length],
  ['tapeScaleSd', 'how.tapeScaleSd', share],
  ['readingSd', 'how.readingSd', length],
  ['readingStep', 'how.readingStep', length],
  ['tripOffsetSd', 'how.tripOffsetSd', length],
  ['cableScaleSd', 'how.cableScaleSd', share],
  ['fillMean', 'how.fillMean', length],
  ['stubMean', 'how.stubMean', length],
  ['unsureGapMean', 'how.unsureGapMean', length],
  ['meansKnownWithinFactor', 'how.meansKnownWithinFactor', plain],
  ['fitGapMax', 'how.fitGapMax', length],
  ['lossSd', 'how.lossSd', length],
  ['lossShareSd', 'how.lossShareSd', share],
];

type Learned = DepthView['learned'];
const learned: readonly (readonly [keyof Learned, TextKey, (value: number, sd: number) => string])[] = [
  [
    'cableScale',
    'how.learned.cable',
    (value, sd) => `${number(value * 100, 2)} ± ${number(sd * 100, 2)}\u00a0%`,
  ],
  [
    'tapeScale',
    'how.learned.tape',
    (value, sd) => `${number(value * 100, 2)} ± ${number(sd * 100, 2)}\u00a0%`,
  ],
  ['fillMean', 'how.learned.fill', (value, sd) => `${shortLength(value)} ± ${shortLength(sd)}`],
  ['stubMean', 'how.learned.stub', (value, sd) => `${shortLength(value)} ± ${shortLength(sd)}`],
  ['unsureGapMean', 'how.learned.gap', (value, sd) => `${shortLength(value)} ± ${shortLength(sd)}`],
];

/** How a solved depth came about: its readings, the equations with these numbers in them, what was taken for granted. */
export function HowDialog(props: {
  readonly hole: HoleView;
  readonly run: RunView;
  readonly piece: PieceView | undefined;
  readonly view: DepthView;
  readonly onClose: () => void;
}) {
  const { hole, run, piece, view, onClose } = props;
  const after = standing(hole.soundings).filter((one) => isCalled(run, one.readings.afterRun?.text ?? ''));
  const things: readonly ThingView[] = [run, ...standing(run.pieces), ...after];
  return (
    <Dialog title={t('how.title')} onClose={onClose} wide>
      <p>{t('how.says')}</p>
      <h2 className="how-part">{t('how.readings', { name: run.name })}</h2>
      <Lines>
        {things.flatMap((thing) =>
          fieldsOf(thing.kind).flatMap(({ name: field, quantity }) => {
            const reading = thing.readings[field];
            if (!reading || quantity === 'thing') return [];
            return [
              <Line
                key={`${thing.id} ${field}`}
                label={
                  <>
                    {whole(nameHere(thing))} {fieldWords(thing.kind, field)}
                  </>
                }
                face={readingFace(thing.kind, field)}
                says={readingWords(thing.kind, field, reading.text)}
              />,
            ];
          }),
        )}
      </Lines>
      <h2 className="how-part">
        {t('how.equations')} <MethodLink page="depth" section="equations" />
      </h2>
      <Lines>
        {howLines(hole, run, piece, view).map((line) => (
          <Line key={line.key} label={equation(line)} face="num" says={shortLength(line.rest)} />
        ))}
      </Lines>
      <h2 className="how-part">{t('how.learned')}</h2>
      <Lines>
        {learned.map(([name, label, show]) => (
          <Line
            key={name}
            label={t(label)}
            face="num"
            says={show(view.learned[name].value, view.learned[name].sd)}
          />
        ))}
      </Lines>
      <h2 className="how-part">{t('how.taken')}</h2>
      <Lines>
        {taken.map(([name, label, show]) => (
          <Line key={name} label={t(label)} face="num" says={show(view.assumptions[name])} />
        ))}
      </Lines>
      <p className="quiet small note">
        <MethodLink page="depth">{t('how.method')}</MethodLink>. {t('how.solver', { solver: view.solver })}
      </p>
    </Dialog>
  );
}

function equation(line: HowLine): string {
  return t(line.key, {
    ...Object.fromEntries(Object.entries(line.names).map(([name, text]) => [name, whole(text)])),
    ...Object.fromEntries(Object.entries(line.depths).map(([name, value]) => [name, depth(value)])),
    ...Object.fromEntries(
      Object.entries(line.readings).map(([name, text]) => [name, text.replace(' ', '\u00a0')]),
    ),
  });
}

/** A name does not break at its hyphen. */
function whole(name: string): string {
  return name.replaceAll('-', '\u2060-\u2060');
}

function Lines({ children }: { readonly children: ReactNode }) {
  return <dl className="facts wide">{children}</dl>;
}

function Line(props: { readonly label: ReactNode; readonly face: string; readonly says: string }) {
  return (
    <div>
      <dt>{props.label}</dt>
      <dd className={props.face}>{props.says}</dd>
    </div>
  );
}
