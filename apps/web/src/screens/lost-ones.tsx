import { useEffect, useState } from 'react';
import type { CampaignsHandle } from '../device/book.ts';
import type { CampStick, StickCampaign } from '../device/camp.ts';
import { ago } from '../texts/ago.ts';
import { t } from '../texts/t.ts';

interface Lost {
  readonly stick: CampStick;
  readonly campaign: StickCampaign;
}

/** What lies on a stick in the camp computer and not on it: after a broken laptop, the way back. */
export function LostOnes({ campaigns }: { readonly campaigns: CampaignsHandle }) {
  const [lost, setLost] = useState<readonly Lost[]>([]);
  const [says, setSays] = useState('');
  const [isBusy, setBusy] = useState(false);
  // The handle is made anew whenever the list of campaigns changes: then this may have changed too.
  useEffect(() => {
    let isThere = true;
    campaigns.lostOnes().then(
      (list) => isThere && setLost(list),
      () => undefined,
    );
    return () => {
      isThere = false;
    };
  }, [campaigns]);
  const bringBack = async ({ stick, campaign }: Lost, generation: number) => {
    setBusy(true);
    setSays(t('stick.recovering'));
    try {
      await campaigns.recover(stick.id, campaign.campaign, generation);
      setSays(t('stick.recovered'));
    } catch (error) {
      setSays(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <>
      {lost.length > 0 ? <h2>{t('stick.lost')}</h2> : null}
      <ul className="choices">
        {lost.map(({ stick, campaign }) => {
          const [newest] = campaign.generations;
          if (newest === undefined) return null;
          return (
            <li key={`${stick.id} ${campaign.campaign}`}>
              <button
                type="button"
                className="big-link"
                disabled={isBusy}
                onClick={() => void bringBack({ stick, campaign }, newest.generation)}
              >
                {t('stick.recover')}
                <small>
                  {t('stick.lost.one', {
                    count: newest.entries,
                    name: campaign.name ?? t('stick.lost.unnamed'),
                    stick: stick.name,
                    ago: ago(newest.madeAt, Date.now()),
                  })}
                </small>
              </button>
            </li>
          );
        })}
      </ul>
      <p role="status">{says}</p>
    </>
  );
}
