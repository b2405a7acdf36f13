import type { DensityView } from '@firnbook/campaign';
import type { ReactNode } from 'react';
import { number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { densityWithError, waterWithError } from './density-words.ts';
import { MethodLink } from './method-link.tsx';

/** What the core comes to in water, how much of it has melted, and the firn model beside what was measured. */
export function DensitySummary({ view }: { readonly view: DensityView }) {
  const { melt, fit } = view;
  const total = view.water.at(-1);
  const top = view.profile[0];
  const bottom = view.profile.at(-1);
  if (total === undefined || top === undefined || bottom === undefined)
    return view.trouble === null ? null : <p className="quiet small">{view.trouble}</p>;
  return (
    <section className="density-summary" aria-labelledby="density-summary">
      <h2 id="density-summary">{t('density.summary')}</h2>
      <dl className="facts">
        <Fact label={t('density.total', { depth: number(total.depth, 2) })}>
          <b className="num">{waterWithError(total)}</b>{' '}
          <span className="quiet small">
            {t('density.weighed', { share: number(view.weighed * 100, 0) })}
          </span>{' '}
          <MethodLink page="water-equivalent" />
        </Fact>
        <Fact label={t('density.from.to')}>
          <span className="num">
            {densityWithError(top)} {t('list.to')} {densityWithError(bottom)}
          </span>{' '}
          <MethodLink page="piece-density" section="profile" />
        </Fact>
        <Fact label={t('density.melt')}>
          {melt === null ? (
            <span className="quiet">{t('density.melt.none')}</span>
          ) : (
            <span className="num">
              {t('density.melt.shares', {
                length: share(melt.byLength),
                mass: share(melt.byMass),
              })}
            </span>
          )}{' '}
          <MethodLink page="melt" />
        </Fact>
        <Fact label={t('density.model')}>
          {fit === null ? (
            <span className="quiet">
              {t(view.model.length > 0 ? 'density.model.plain' : 'density.model.none')}
            </span>
          ) : (
            <>
              {t('density.model.fit', { before: number(fit.rmsBefore, 0), after: number(fit.rms, 0) })}
              {fit.converged ? '' : ` ${t('density.model.rough')}`}{' '}
              <span className="quiet small">
                {fit.parameters
                  .map((one) =>
                    t(`density.model.${one.name}`, {
                      value: number(one.value, one.name === 'surfaceDensity' ? 0 : 2),
                      sd: number(
                        Math.hypot(one.randomSd, one.sharedSd),
                        one.name === 'surfaceDensity' ? 0 : 2,
                      ),
                    }),
                  )
                  .join(', ')}
              </span>
            </>
          )}{' '}
          <MethodLink page="firn" section="fit" />
        </Fact>
      </dl>
      <p className="small quiet">{t('density.lines')}</p>
      {view.trouble === null ? null : <p className="small quiet">{view.trouble}</p>}
    </section>
  );
}

const share = ({ value, sd }: { readonly value: number; readonly sd: number }): string =>
  `${number(value, 2)}\u00a0±\u00a0${number(sd, 2)}\u00a0%`;

function Fact({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <>
      <dt>{label}</dt>
      <dd>{children}</dd>
    </>
  );
}
