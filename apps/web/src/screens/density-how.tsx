import type { DensityView, PieceView } from '@firnbook/campaign';
import type { CorePiece } from '@firnbook/science/density';
import type { ReactNode } from 'react';
import { Dialog } from '../forms/dialog.tsx';
import { fieldName } from '../texts/names.ts';
import { number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { density, densityWithError, waterWithError } from './density-words.ts';
import { MethodLink } from './method-link.tsx';
import { readingWords } from './reading-text.tsx';

const fields = [
  'mass',
  'tare',
  'length',
  'diameterTop',
  'diameterMiddle',
  'diameterBottom',
  'missing',
  'temperature',
] as const;

/** How a density came about: its readings, the equation with these numbers in it, what was taken for granted. */
export function DensityHow(props: {
  readonly piece: PieceView;
  readonly own: CorePiece;
  readonly result: NonNullable<CorePiece['result']>;
  readonly view: DensityView;
  readonly onClose: () => void;
}) {
  const { piece, own, result, view, onClose } = props;
  const { diameter } = result;
  const mass = (piece.readings.mass?.value ?? 0) - (piece.readings.tare?.value ?? 0);
  const taken = view.assumptions;
  return (
    <Dialog title={t('density.how.title')} onClose={onClose} wide>
      <p>{t('density.how.says')}</p>
      <h2 className="how-part">{t('how.readings', { name: piece.name })}</h2>
      <dl className="facts wide">
        {fields.flatMap((field) => {
          const reading = piece.readings[field];
          return reading
            ? [
                <Line
                  key={field}
                  label={fieldName('piece', field)}
                  says={readingWords('piece', field, reading.text)}
                />,
              ]
            : [];
        })}
      </dl>
      <h2 className="how-part">{t('density.how.equation')}</h2>
      <dl className="facts wide">
        <Line
          label={t('density.how.mass')}
          says={pm(
            mass * 1000,
            Math.hypot(taken.massSd, piece.readings.tare ? taken.tareSd : 0) * 1000,
            0,
            'g',
          )}
        />
        <Line
          label={t('density.how.length')}
          says={pm(result.length * 1000, result.lengthSd * 1000, 1, 'mm')}
        />
        <Line
          label={t('density.how.diameter', {
            share: `${number(diameter.own * 100, 0)}\u00a0%`,
          })}
          says={pm(diameter.value * 1000, Math.hypot(diameter.randomSd, diameter.sharedSd) * 1000, 2, 'mm')}
        />
        <Line label={t('density.how.result')} says={densityWithError(result.density)} />
        <Line
          label={t('density.how.parts')}
          says={`${number(result.density.randomSd, 0)}\u00a0/\u00a0${number(result.density.sharedSd, 0)}\u00a0kg/m³`}
        />
        <Line label={t('density.water')} says={waterWithError(result.waterEquivalent)} />
        <Line label={t('density.how.ice')} says={density(result.ice)} />
      </dl>
      <h2 className="how-part">{t('how.taken')}</h2>
      <dl className="facts wide">
        <Line label={t('density.how.massSd')} says={pm0(taken.massSd * 1000, 0, 'g')} />
        <Line label={t('density.how.tareSd')} says={pm0(taken.tareSd * 1000, 0, 'g')} />
        <Line label={t('density.how.brokenEndSd')} says={pm0(taken.brokenEndSd * 1000, 1, 'mm')} />
        <Line label={t('density.how.sawnEndSd')} says={pm0(taken.sawnEndSd * 1000, 1, 'mm')} />
        <Line label={t('density.how.diameterSd')} says={pm0(taken.diameterSd * 1000, 1, 'mm')} />
        <Line label={t('density.how.sharedDiameterSd')} says={pm0(taken.sharedDiameterSd * 1000, 1, 'mm')} />
        {piece.readings.temperature ? null : (
          <Line
            label={t('density.how.temperature')}
            says={`${number(taken.temperature - 273.15, 0)}\u00a0°C`}
          />
        )}
      </dl>
      <p className="quiet small note">
        {own.flag === null ? '' : `${t('density.kept')} `}
        <MethodLink page="piece-density">{t('how.method')}</MethodLink>.{' '}
        <MethodLink page="ice">{t('density.how.ice.method')}</MethodLink>.
      </p>
    </Dialog>
  );
}

const pm = (value: number, sd: number, decimals: number, unit: string): string =>
  `${number(value, decimals)}\u00a0±\u00a0${number(sd, decimals)}\u00a0${unit}`;
const pm0 = (sd: number, decimals: number, unit: string): string =>
  `±\u00a0${number(sd, decimals)}\u00a0${unit}`;

function Line(props: { readonly label: ReactNode; readonly says: string }) {
  return (
    <div>
      <dt>{props.label}</dt>
      <dd className="num">{props.says}</dd>
    </div>
  );
}
