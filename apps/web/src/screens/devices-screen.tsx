import { useCallback, useEffect, useState } from 'react';
import { Link } from 'wouter';
import { Refusals } from '../forms/refusals.tsx';
import {
  askOwn,
  listDevices,
  listWrote,
  makeOffer,
  type Offer,
  type PairedDevice,
  type QrDrawing,
  revokeDevice,
  type Wrote,
} from '../pair/gate.ts';
import '../pair/pair.css';
import { ago } from '../texts/ago.ts';
import '../texts/for-pair.ts';
import { t } from '../texts/t.ts';
import { ThemeButton } from './shell.tsx';

/** While a code is shown, the list is asked for again so often, ms; else once a minute. */
const lookAgain = { offering: 2_000, resting: 60_000 } as const;

/** The camp's devices: which are paired, when they came last; at the camp computer itself also pairing and revoking. */
export function DevicesScreen() {
  const [isHere, setHere] = useState(false);
  const [devices, setDevices] = useState<readonly PairedDevice[] | null>(null);
  const [offer, setOffer] = useState<Offer | null>(null);
  const [wrote, setWrote] = useState<readonly Wrote[]>([]);
  const [before, setBefore] = useState<ReadonlySet<string>>(new Set());
  const [says, setSays] = useState<readonly string[]>([]);
  const told = (error: unknown) => setSays([error instanceof Error ? error.message : String(error)]);
  const look = useCallback(
    () =>
      listDevices().then(setDevices, () => {
        setSays([t('devices.away')]);
      }),
    [],
  );
  const count = useCallback(
    // What each wrote comes beside the list, and its absence takes nothing away.
    () => listWrote().then(setWrote, () => undefined),
    [],
  );
  useEffect(() => {
    void count();
    const timer = setInterval(() => void count(), lookAgain.resting);
    return () => clearInterval(timer);
  }, [count]);
  const isOffering = offer !== null;
  useEffect(() => {
    void askOwn().then(
      (own) => setHere(own.isHere),
      () => undefined,
    );
    void look();
    const timer = setInterval(() => void look(), isOffering ? lookAgain.offering : lookAgain.resting);
    return () => clearInterval(timer);
  }, [look, isOffering]);
  const show = async () => {
    setSays([]);
    try {
      setBefore(new Set(devices?.map(pairingOf)));
      setOffer(await makeOffer());
    } catch (error) {
      told(error);
    }
  };
  const revoke = async (id: string) => {
    try {
      await revokeDevice(id);
    } catch (error) {
      told(error);
    }
    await look();
    await count();
  };
  const come = offer === null ? undefined : devices?.find((device) => !before.has(pairingOf(device)));
  return (
    <div className="book">
      <header className="top pair-top">
        <span className="mark">{t('mark')}</span>
        <div className="right">
          <ThemeButton />
        </div>
      </header>
      <main className="pair wide">
        <h1>{t('devices.title')}</h1>
        <p className="hint">{t(isHere ? 'devices.hint' : 'devices.hint.elsewhere')}</p>
        <Refusals says={says} />
        {come ? (
          <p className="lead" role="status">
            {t('devices.paired', { name: come.name })}
          </p>
        ) : null}
        {isHere && offer !== null && come === undefined ? <Shown offer={offer} /> : null}
        {isHere ? (
          <div className="answers">
            <button type="button" className="act" onClick={() => void show()}>
              {t(offer === null ? 'devices.pair' : 'devices.pair.next')}
            </button>
          </div>
        ) : null}
        <h2>{t('devices.list')}</h2>
        {devices?.length === 0 ? <p className="empty">{t('devices.none')}</p> : null}
        <ul className="devices">
          {devices?.map((device) => (
            <Device
              key={device.id}
              device={device}
              wrote={wrote.filter((one) => one.device === device.id)}
              onRevoke={isHere ? () => revoke(device.id) : null}
            />
          ))}
        </ul>
        <Link href="/" className="button big-link">
          {t('shell.campaigns')}
        </Link>
      </main>
    </div>
  );
}

/** A device that is paired again under its key keeps its line. */
const pairingOf = ({ id, renewedAt }: PairedDevice): string => `${id} ${renewedAt}`;

function Device(props: {
  readonly device: PairedDevice;
  readonly wrote: readonly Wrote[];
  readonly onRevoke: (() => Promise<void>) | null;
}) {
  const { device, wrote, onRevoke } = props;
  const [isAsked, setAsked] = useState(false);
  const { name, pairedAt, lastSeen, revokedAt, publicKey, otherKey } = device;
  const now = Date.now();
  return (
    <li>
      <p>
        <b>{name}</b>{' '}
        <small>
          {revokedAt === null
            ? t('devices.seen', { seen: ago(lastSeen, now), paired: ago(pairedAt, now) })
            : t('devices.revoked', { at: ago(revokedAt, now) })}
        </small>
        {publicKey === null ? <small>{t('devices.no.key')}</small> : null}
        {wrote.map((one) => (
          <small key={one.campaign}>
            {t('devices.wrote', { count: one.entries, campaign: one.name })}
            {one.came > 0 ? (
              <span className="call">
                {' '}
                {t('devices.wrote.came', { count: one.came })}
                {one.made > 0 ? ` ${t('devices.wrote.made', { count: one.made })}` : ''}
              </span>
            ) : null}
          </small>
        ))}
        {otherKey === null || revokedAt !== null ? null : (
          <small className="call">{t('devices.other.key', { at: ago(otherKey.at, now) })}</small>
        )}
      </p>
      {onRevoke === null || revokedAt !== null ? null : isAsked ? (
        <div className="answers">
          <p>{t('devices.revoke.sure', { name })}</p>
          <button type="button" className="act" onClick={() => void onRevoke().then(() => setAsked(false))}>
            {t('devices.revoke.yes')}
          </button>
          <button type="button" onClick={() => setAsked(false)}>
            {t('devices.revoke.no')}
          </button>
        </div>
      ) : (
        <button type="button" aria-label={t('devices.revoke.one', { name })} onClick={() => setAsked(true)}>
          {t('devices.revoke')}
        </button>
      )}
    </li>
  );
}

/** Two codes in the order in which a tablet needs them. */
function Shown({ offer }: { readonly offer: Offer }) {
  const until = new Date(offer.until).toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' });
  return (
    <div className="pair-steps">
      <section aria-labelledby="step-install">
        <h2 id="step-install">{t('devices.step.install')}</h2>
        <Qr drawing={offer.installQr} says={offer.installAddress} />
        <p className="num">{offer.installAddress}</p>
        <p className="hint">{t('devices.step.install.hint')}</p>
        <p className="fingerprint">{offer.fingerprint}</p>
      </section>
      <section aria-labelledby="step-pair">
        <h2 id="step-pair">{t('devices.step.pair')}</h2>
        <Qr drawing={offer.qr} says={t('devices.step.pair.qr')} />
        <p>{t('devices.step.pair.until', { until })}</p>
        <p className="hint">{t('devices.step.pair.type', { address: `${offer.address}/pair` })}</p>
        <p className="num code">{offer.code}</p>
      </section>
    </div>
  );
}

/** Black on white in every look: cameras need it. */
function Qr({ drawing, says }: { readonly drawing: QrDrawing; readonly says: string }) {
  const { size, path } = drawing;
  return (
    <svg
      className="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={says}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  );
}
