import { useEffect, useState } from 'react';
import type { CampaignsHandle, DeviceHandle } from '../device/book.ts';
import type { CampStick, StickCampaign } from '../device/camp.ts';
import { isAtComputer, type NetworkOnStick, networkOnStick, recoverNetwork } from '../sticks/gate.ts';
import { NewSticks } from '../sticks/new-sticks.tsx';
import { ago } from '../texts/ago.ts';
import { t } from '../texts/t.ts';

interface Lost {
  readonly stick: CampStick;
  readonly campaign: StickCampaign;
}

/** The camp network on a stick. */
interface LostNetwork extends NetworkOnStick {
  readonly stick: CampStick;
}

/** What lies on a stick in the camp computer and not on it: after a broken laptop, the way back. */
export function LostOnes(props: { readonly campaigns: CampaignsHandle; readonly device: DeviceHandle }) {
  const { campaigns, device } = props;
  const [lost, setLost] = useState<readonly Lost[]>([]);
  const [networks, setNetworks] = useState<readonly LostNetwork[]>([]);
  const [again, setAgain] = useState(0);
  const [says, setSays] = useState('');
  const [isBusy, setBusy] = useState(false);
  const lookAgain = () => setAgain((count) => count + 1);
  // biome-ignore lint/correctness/useExhaustiveDependencies: something changed on the camp computer
  useEffect(() => {
    let isThere = true;
    lostNetworks(device).then(
      (list) => isThere && setNetworks(list),
      () => undefined,
    );
    return () => {
      isThere = false;
    };
  }, [device, again]);
  // The handle is made anew whenever the list of campaigns changes: then this may have changed too.
  // biome-ignore lint/correctness/useExhaustiveDependencies: a stick was named
  useEffect(() => {
    let isThere = true;
    campaigns.lostOnes().then(
      (list) => isThere && setLost(list),
      () => undefined,
    );
    return () => {
      isThere = false;
    };
  }, [campaigns, again]);
  const bringNetwork = async ({ stick }: LostNetwork) => {
    setBusy(true);
    try {
      await recoverNetwork(stick.id);
      setSays(t('sticks.network.recovered'));
    } catch (error) {
      setSays(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
      lookAgain();
    }
  };
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
      <NewSticks onNamed={lookAgain} />
      {lost.length + networks.length > 0 ? <h2>{t('stick.lost')}</h2> : null}
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
        {networks.map((one) => (
          <NetworkLine key={one.stick.id} one={one} isBusy={isBusy} onBring={() => void bringNetwork(one)} />
        ))}
      </ul>
      <p role="status">{says}</p>
    </>
  );
}

function NetworkLine(props: {
  readonly one: LostNetwork;
  readonly isBusy: boolean;
  readonly onBring: () => void;
}) {
  const { one, isBusy, onBring } = props;
  const { stick, network, trouble } = one;
  if (network === null)
    return (
      <li className="call">
        {t('sticks.network.harmed', { stick: stick.name, what: '', mend: '', ...trouble })}
      </li>
    );
  return (
    <li>
      <button type="button" className="big-link" disabled={isBusy} onClick={onBring}>
        {t('sticks.network.recover')}
        <small>
          {t('sticks.network.one', {
            count: network.devices,
            host: network.host ?? t('sticks.network.unnamed'),
            stick: stick.name,
            ago: ago(network.madeAt, Date.now()),
          })}
        </small>
      </button>
    </li>
  );
}

/** Camp networks on sticks that are in, where the camp computer has none: told to its own screen alone. */
async function lostNetworks(device: DeviceHandle): Promise<readonly LostNetwork[]> {
  if (!(await isAtComputer())) return [];
  const sticks = (await device.sticks()).filter(({ isIn }) => isIn);
  const all = await Promise.all(
    sticks.map(async (stick) => ({ stick, ...(await networkOnStick(stick.id)) })),
  );
  return all.filter(({ isHere, network, trouble }) => !isHere && (network !== null || trouble !== null));
}
