import { useSyncExternalStore } from 'react';
import { Link } from 'wouter';
import { t } from '../texts/t.ts';
import { ownStanding, type Standing } from './standing.ts';

export const useStanding = (): Standing => useSyncExternalStore(ownStanding.subscribe, ownStanding.current);

/** Says that the camp computer does not let this device in, and what happens to what is written meanwhile. */
export function StandingAlarm() {
  const standing = useStanding();
  if (standing === 'welcome') return null;
  const isRevoked = standing === 'revoked';
  return (
    <div role="alert">
      <div className="alarm">
        <p>
          <b>{t(isRevoked ? 'standing.revoked' : 'standing.not.paired')}</b>{' '}
          {t(isRevoked ? 'standing.revoked.mend' : 'standing.not.paired.mend')}
        </p>
        <Link href="/pair" className="button">
          {t('standing.pair')}
        </Link>
      </div>
    </div>
  );
}
