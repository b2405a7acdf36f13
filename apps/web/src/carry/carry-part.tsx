import type { CarryPeer } from '@firnbook/exchange/carry';
import { useEffect, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ago } from '../texts/ago.ts';
import '../texts/for-carry.ts';
import { t } from '../texts/t.ts';
import { BringPart } from './bring-part.tsx';
import type { PeerHere } from './carrying.ts';
import { saveFile } from './save-file.ts';

/** Devices that are offered: a camp has about ten. */
const most = 5;

/** What goes to other devices by file, and what comes from them. */
export function CarryPart({ book }: { readonly book: BookHandle }) {
  const [peers, setPeers] = useState<readonly PeerHere[]>([]);
  const [says, setSays] = useState('');
  const [isBusy, setBusy] = useState(false);
  const { carrying, campaign } = book;
  // What others lack changes with every entry.
  const { total } = book.safety;
  const [brought, setBrought] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is another one after entries or a file came
  useEffect(() => {
    let isThere = true;
    carrying.peers().then(
      (list) => isThere && setPeers(list),
      () => undefined,
    );
    return () => {
      isThere = false;
    };
  }, [carrying, total, brought]);

  const save = async (peer: CarryPeer | null) => {
    setBusy(true);
    setSays(t('carry.writing'));
    try {
      setSays(t('record.copied', { name: saveFile(await carrying.write(peer)) }));
    } catch (error) {
      setSays(t('carry.failed', { what: error instanceof Error ? error.message : String(error) }));
    } finally {
      setBusy(false);
    }
  };
  const lacking = peers.filter((one) => one.lacks > 0).slice(0, most);
  return (
    <section className="note carry" aria-labelledby="carry-title">
      <h2 id="carry-title">{t('carry.title')}</h2>
      <p className="quiet">{t('carry.hint')}</p>
      <div className="answers">
        <button type="button" disabled={isBusy} onClick={() => void save(null)}>
          {t('record.carry')}
        </button>
        {lacking.map(({ peer, lacks }) => (
          <button key={peer.device} type="button" disabled={isBusy} onClick={() => void save(peer)}>
            {t('carry.lacks', { name: peer.deviceName || t('bring.unnamed'), count: lacks })}
            <small>{t('carry.lacks.as.of', { ago: ago(peer.madeAt, Date.now()) })}</small>
          </button>
        ))}
      </div>
      <p role="status">{says}</p>
      <BringPart
        {...(campaign === null ? {} : { within: campaign.id })}
        onAnswer={(peer) => void save(peer)}
        onBrought={() => setBrought((count) => count + 1)}
      />
    </section>
  );
}
