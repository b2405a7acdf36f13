import type { CampaignView } from '@firnbook/campaign';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { BookHandle, Origin } from '../device/book.ts';
import { observedNow } from '../device/observed.ts';
import { Icon } from '../forms/icons.tsx';
import { deviceList } from '../pair/device-list.ts';
import type { RevokedOrigin } from '../pair/revoked-origin.ts';
import '../texts/for-screens.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';

/** Signed ones bear a seal; unsigned ones are told by their device alone. */
const says = {
  signed: { key: 'proof.signed', icon: 'seal', state: 'safe' },
  unsigned: { key: 'proof.unsigned', icon: null, state: '' },
  'unknown key': { key: 'proof.unknown', icon: 'ring', state: 'absent' },
  unchecked: { key: 'proof.unchecked', icon: 'ring', state: 'absent' },
  wrong: { key: 'proof.wrong', icon: 'warn', state: 'unsafe' },
} as const;

/**
 * Which device made an entry, and whether it signed it; red where the signature is wrong (J9), or where the device was
 * revoked and this came after that.
 */
export function SignedMark({ book, entry }: { readonly book: BookHandle; readonly entry: string }) {
  const { originOf, campaign } = book;
  const devices = useSyncExternalStore(deviceList.subscribe, deviceList.current);
  const [origin, setOrigin] = useState<Origin | null>(null);
  useEffect(() => void deviceList.ask(), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another list of devices gives another answer
  useEffect(() => {
    let isGone = false;
    void originOf(entry).then((found) => {
      if (!isGone) setOrigin(found);
    });
    return () => {
      isGone = true;
    };
  }, [originOf, entry, devices]);
  if (origin === null || campaign === null) return null;
  const { revoked, proof } = origin;
  const device = revoked === null ? deviceName(campaign, origin.device) : revokedName(revoked);
  // A wrong signature is graver than where it comes from.
  const { key, icon, state } = proof === 'signed' && revoked !== null ? ofRevoked(revoked) : says[proof];
  return (
    <span className={`tick ${state} origin`} data-proof={proof} data-since={revoked?.since}>
      {icon === null ? null : <Icon name={icon} />}
      <span>{t(key, { device })}</span>
    </span>
  );
}

/** Signed as ever: what was here before is told quietly, what came after is to be looked at. */
const ofRevoked = ({ since }: RevokedOrigin) =>
  since === 'before'
    ? ({ key: 'proof.signed', icon: 'seal', state: 'absent' } as const)
    : ({ key: 'proof.signed', icon: 'warn', state: 'unsafe' } as const);

const revokedSays = {
  before: 'proof.revoked.before',
  'came after': 'proof.revoked.came',
  'made after': 'proof.revoked.made',
} as const;

const revokedName = ({ name, at, since }: RevokedOrigin): string =>
  t(revokedSays[since], { device: name, at: moment(observedNow(new Date(at))) });

/** The last name it gave itself; a few letters of its id where it never did. */
function deviceName(campaign: CampaignView, device: string): string {
  const named = campaign.devices?.findLast((one) => one.readings.device?.text === device);
  return named?.readings.name?.text ?? t('proof.device', { sign: device.slice(-4).toUpperCase() });
}
