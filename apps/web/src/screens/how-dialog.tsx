import type { DepthView } from '@firnbook/campaign';
import type { DepthAssumptions } from '@firnbook/science/depth';
import { Dialog } from '../forms/dialog.tsx';
import { number, shortLength } from '../texts/numbers.ts';
import { type TextKey, t } from '../texts/t.ts';

type Show = (value: number) => string;
const length: Show = (value) => shortLength(value);
const share: Show = (value) => `${number(value * 100, value < 0.001 ? 2 : 1)} %`;
const plain: Show = (value) => number(value, 0);

const lines: readonly (readonly [keyof DepthAssumptions, TextKey, Show])[] = [
  ['lengthSdIce', 'how.lengthSdIce', length],
  ['lengthSdFirn', 'how.lengthSdFirn', length],
  ['firnTo', 'how.firnTo', (value) => `${number(value, 0)} m`],
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

/** How a solved depth came about: the readings that speak, and what was taken for granted. */
export function HowDialog({ view, onClose }: { readonly view: DepthView; readonly onClose: () => void }) {
  return (
    <Dialog title={t('how.title')} onClose={onClose}>
      <p>{t('how.says')}</p>
      <dl className="facts wide">
        {lines.map(([name, label, show]) => (
          <div key={name}>
            <dt>{t(label)}</dt>
            <dd className="num">{show(view.assumptions[name])}</dd>
          </div>
        ))}
      </dl>
      <p className="quiet small">{t('how.solver', { solver: view.solver })}</p>
    </Dialog>
  );
}
