import { readStamp } from '@firnbook/journal';
import { useEffect, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { useDevice } from '../device/hooks.ts';
import {
  askDevices,
  type Battery,
  batteryHere,
  devicesToldBefore,
  reportOf,
  type Told,
} from '../device/presence.ts';
import { ago } from '../texts/ago.ts';
import '../texts/for-screens.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { type CampDevice, campDevices, type LastWritten, lastWritten } from './camp-devices.ts';
import { deviceName, seenWords, silenceWords, stateWords } from './device-words.ts';
import { StickLines } from './stick-lines.tsx';

/** The list is asked for again so often, ms. */
const lookAgain = 30_000;

/** The camp's devices, as the camp computer last heard them and as the record knows them. Silence comes first. */
export function TodayDevices({ book }: { readonly book: BookHandle }) {
  const { campaign } = book;
  const device = useDevice();
  const { storage } = device;
  const { told, isAnswered, battery, now } = useLook(campaign?.id ?? '');
  const written = useWritten(book);
  if (campaign === null) return null;
  const nameOf = (device: string) =>
    campaign.devices?.findLast((one) => one.readings.device?.text === device)?.readings.name?.text ?? null;
  const devices = campDevices({ own: reportOf(book, storage, battery), told, written, nameOf, now });
  return (
    <section
      className={devices.some(({ isSilent }) => isSilent) ? 'day-devices has-silent' : 'day-devices'}
      aria-labelledby="today-devices"
    >
      <h2 id="today-devices">{t('today.devices')}</h2>
      {isAnswered ? null : (
        <p className="quiet">
          {told === null
            ? t('today.devices.never')
            : t('today.devices.as.of', { ago: ago(new Date(told.asOf).toISOString(), now) })}
        </p>
      )}
      <ul>
        {devices.map((one) => (
          <DeviceLine key={one.id} device={one} now={now} />
        ))}
      </ul>
      <StickLines device={device}>
        <h2>{t('today.sticks')}</h2>
      </StickLines>
    </section>
  );
}

function DeviceLine({ device, now }: { readonly device: CampDevice; readonly now: number }) {
  const { isSilent, isThis, report, written } = device;
  return (
    <li className={isSilent ? 'silent' : ''}>
      {isSilent ? (
        <p className="call">{silenceWords(device, now)}</p>
      ) : (
        <p>
          <b>{deviceName(device)}</b>{' '}
          <span className="quiet">
            {isThis
              ? t('today.device.this')
              : report === null
                ? t('today.device.not.seen')
                : t('today.device.seen', { seen: seenWords(device, now) })}
          </span>
        </p>
      )}
      {report === null ? null : (
        // What is unsent is in the words of a silence already.
        <p className="small">
          {stateWords(report)
            .slice(isSilent ? 1 : 0)
            .join(' · ')}
        </p>
      )}
      {written === null ? null : (
        <p className="small quiet">{t('today.device.written', { at: moment(written.observedAt) })}</p>
      )}
    </li>
  );
}

interface Look {
  readonly told: Told | null;
  /** The camp computer answered when it was last asked. */
  readonly isAnswered: boolean;
  readonly battery: Battery | null;
  readonly now: number;
}

function useLook(campaign: string): Look {
  const [look, setLook] = useState<Look>(() => ({
    told: devicesToldBefore(campaign),
    isAnswered: true,
    battery: null,
    now: Date.now(),
  }));
  useEffect(() => {
    let isGone = false;
    const ask = async () => {
      const battery = await batteryHere();
      const told = await askDevices(campaign).catch(() => null);
      if (isGone) return;
      setLook((before) => ({
        told: told ?? before.told,
        isAnswered: told !== null,
        battery,
        now: Date.now(),
      }));
    };
    void ask();
    const timer = setInterval(() => void ask(), lookAgain);
    return () => {
      isGone = true;
      clearInterval(timer);
    };
  }, [campaign]);
  return look;
}

/** What each device last wrote, of all that is here; read again when entries came. */
function useWritten(book: BookHandle): ReadonlyMap<string, LastWritten> {
  const [written, setWritten] = useState<ReadonlyMap<string, LastWritten>>(new Map());
  const { entries } = book;
  const { onTablet } = book.safety;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the number of entries says that there are others
  useEffect(() => {
    let isGone = false;
    entries().then(
      (all) => {
        if (!isGone) setWritten(lastWritten(all, (stamp) => readStamp(stamp).milliseconds));
      },
      // The store's trouble is told at the head of the screen.
      () => undefined,
    );
    return () => {
      isGone = true;
    };
  }, [entries, onTablet]);
  return written;
}
