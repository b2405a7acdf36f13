import { type ComponentType, useEffect, useState } from 'react';
import { t } from '../texts/t.ts';
import { Refusals } from './refusals.tsx';

/** Parts that have come once are there at once. */
const here = new Map<unknown, unknown>();

/**
 * A part of the screens that is not needed for the first look and comes after it (ahead.ts fetches them all while the
 * device is idle). Where it cannot come, because the camp computer is off and nothing was kept, it says so.
 */
export function Later<Props extends object>(
  props: Props & { readonly part: () => Promise<ComponentType<Props>> },
) {
  const { part, ...rest } = props;
  const [, setCome] = useState(0);
  const [failed, setFailed] = useState(false);
  const Part = here.get(part) as ComponentType<Props> | undefined;
  const isHere = Part !== undefined;
  useEffect(() => {
    if (isHere || failed) return;
    part().then(
      (come) => {
        here.set(part, come);
        setCome((count) => count + 1);
      },
      () => setFailed(true),
    );
  }, [part, isHere, failed]);
  if (Part) return <Part {...(rest as unknown as Props)} />;
  if (!failed) return <p role="status">{t('later.coming')}</p>;
  return (
    <>
      <Refusals says={[t('later.failed')]} />
      <div className="answers">
        <button type="button" onClick={() => setFailed(false)}>
          {t('later.again')}
        </button>
      </div>
    </>
  );
}
