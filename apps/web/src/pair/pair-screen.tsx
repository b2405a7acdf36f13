import { askPersistence, openSigning } from '@firnbook/storage/browser';
import { type FormEvent, useEffect, useState } from 'react';
import { Link } from 'wouter';
import type { DeviceHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { ThemeButton } from '../screens/shell.tsx';
import '../texts/for-pair.ts';
import { t } from '../texts/t.ts';
import { pairDevice } from './gate.ts';
import { browserHere, type Ground, lookAtGround, offerIn } from './ground.ts';
import './pair.css';

/** Where a device that scanned the camp computer's code is paired, or is told what it lacks for that. */
export function PairScreen({ device }: { readonly device: DeviceHandle }) {
  const [offer] = useState(() => offerIn(location.hash));
  const [ground, setGround] = useState<Ground>({ is: 'asking' });
  const look = () => {
    setGround({ is: 'asking' });
    void lookAtGround(browserHere()).then(setGround);
  };
  useEffect(() => {
    // The token is in this page's memory now: not in its history, nor in a picture of the screen.
    history.replaceState(history.state, '', location.pathname);
    void lookAtGround(browserHere()).then(setGround);
  }, []);
  return (
    <div className="book">
      <header className="top pair-top">
        <span className="mark">{t('mark')}</span>
        <div className="right">
          <ThemeButton />
        </div>
      </header>
      <main className="pair">
        <h1>{t('pair.title')}</h1>
        {ground.is === 'ready' ? (
          <PairForm
            device={device}
            token={offer.token}
            fingerprint={offer.fingerprint}
            onPaired={(name) => setGround({ is: 'paired', name })}
          />
        ) : null}
        {ground.is === 'paired' ? <Paired name={ground.name} /> : null}
        <div role="status">
          {ground.is === 'ready' || ground.is === 'paired' ? null : <p>{t(`pair.${ground.is}`)}</p>}
        </div>
        {ground.is === 'away' || ground.is === 'certificate' || ground.is === 'private' ? (
          <div className="answers">
            <button type="button" onClick={look}>
              {t('pair.look.again')}
            </button>
          </div>
        ) : null}
        {ground.is === 'here' ? (
          <Link href="/devices" className="button big-link">
            {t('pair.to.devices')}
          </Link>
        ) : null}
      </main>
    </div>
  );
}

function PairForm(props: {
  readonly device: DeviceHandle;
  readonly token: string | null;
  readonly fingerprint: string | null;
  readonly onPaired: (name: string) => void;
}) {
  const { device, token, fingerprint, onPaired } = props;
  const [name, setName] = useState(device.name);
  const [code, setCode] = useState('');
  // A code that was refused is not good any more: then it is typed.
  const [scanned, setScanned] = useState(token);
  const [says, setSays] = useState<readonly string[]>([]);
  const [isBusy, setBusy] = useState(false);
  const pair = async (event: FormEvent) => {
    event.preventDefault();
    setBusy(true);
    try {
      const { signer } = await openSigning();
      const listed = await pairDevice(scanned ?? code, name.trim(), signer);
      device.setName(listed);
      onPaired(listed);
    } catch (error) {
      setScanned(null);
      setSays([error instanceof Error ? error.message : String(error)]);
    } finally {
      setBusy(false);
    }
  };
  return (
    <form className="words" onSubmit={(event) => void pair(event)}>
      <label htmlFor="pair-name">{t('pair.name')}</label>
      <input
        id="pair-name"
        value={name}
        required
        maxLength={40}
        autoComplete="off"
        aria-describedby="pair-name-hint"
        onChange={(event) => setName(event.target.value)}
      />
      <p className="hint" id="pair-name-hint">
        {t('pair.name.hint')}
      </p>
      {scanned === null ? (
        <>
          <label htmlFor="pair-code">{t('pair.code')}</label>
          <input
            id="pair-code"
            className="code"
            value={code}
            required
            maxLength={20}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            aria-describedby="pair-code-hint"
            onChange={(event) => setCode(event.target.value)}
          />
          <p className="hint" id="pair-code-hint">
            {t('pair.code.hint')}
          </p>
        </>
      ) : null}
      {fingerprint === null || scanned === null ? null : (
        <p className="hint">
          {t('pair.fingerprint')} <span className="fingerprint">{fingerprint}</span>
        </p>
      )}
      <Refusals says={says} />
      <button type="submit" className="act" disabled={isBusy}>
        {t('pair.do')}
      </button>
    </form>
  );
}

/** Paired, and whether the browser keeps the screens and the record: before departure is the time to know. */
function Paired({ name }: { readonly name: string }) {
  const [isKept, setKept] = useState(false);
  const [isPromised, setPromised] = useState<boolean | null>(null);
  useEffect(() => {
    void navigator.serviceWorker.ready.then(() => setKept(true));
    void askPersistence().then((answer) => setPromised(answer === 'promised'));
  }, []);
  return (
    <>
      <p className="lead" role="status">
        {t('pair.paired', { name })}
      </p>
      <ul className="pair-lacks" aria-live="polite">
        <li>{t(isKept ? 'pair.kept' : 'pair.keeping')}</li>
        {isPromised === null ? null : <li>{t(isPromised ? 'pair.promised' : 'lacks.promise')}</li>}
      </ul>
      <Link href="/" className="button act big-link">
        {t('pair.to.campaigns')}
      </Link>
    </>
  );
}
