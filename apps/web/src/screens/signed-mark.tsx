import type { CampaignView } from '@firnbook/campaign';
import { useEffect, useState } from 'react';
import type { BookHandle, Origin } from '../device/book.ts';
import { Icon } from '../forms/icons.tsx';
import '../texts/for-screens.ts';
import { t } from '../texts/t.ts';

/** Signed ones bear a seal; unsigned ones are told by their device alone. */
const says = {
  signed: { key: 'proof.signed', icon: 'seal', state: 'safe' },
  unsigned: { key: 'proof.unsigned', icon: null, state: '' },
  'unknown key': { key: 'proof.unknown', icon: 'ring', state: 'absent' },
  unchecked: { key: 'proof.unchecked', icon: 'ring', state: 'absent' },
  wrong: { key: 'proof.wrong', icon: 'warn', state: 'unsafe' },
} as const;

/** Which device made an entry, and whether it signed it; red where the signature is wrong (J9). */
export function SignedMark({ book, entry }: { readonly book: BookHandle; readonly entry: string }) {
  const { originOf, campaign } = book;
  const [origin, setOrigin] = useState<Origin | null>(null);
  useEffect(() => {
    let isGone = false;
    void originOf(entry).then((found) => {
      if (!isGone) setOrigin(found);
    });
    return () => {
      isGone = true;
    };
  }, [originOf, entry]);
  if (origin === null || campaign === null) return null;
  const { key, icon, state } = says[origin.proof];
  return (
    <span className={`tick ${state} origin`} data-proof={origin.proof}>
      {icon === null ? null : <Icon name={icon} />}
      <span>{t(key, { device: deviceName(campaign, origin.device) })}</span>
    </span>
  );
}

/** The last name it gave itself; a few letters of its id where it never did. */
function deviceName(campaign: CampaignView, device: string): string {
  const named = campaign.devices?.findLast((one) => one.readings.device?.text === device);
  return named?.readings.name?.text ?? t('proof.device', { sign: device.slice(-4).toUpperCase() });
}
