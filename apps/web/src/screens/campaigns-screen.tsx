import { type FormEvent, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { CalculatorDoor } from '../calculator/calculator-door.tsx';
import type { CampaignsHandle, DeviceHandle } from '../device/book.ts';
import { Later } from '../forms/later.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { StandingAlarm, useStanding } from '../pair/standing-alarm.tsx';
import { t } from '../texts/t.ts';
import { MethodLink } from './method-link.tsx';
import { refusalLines } from './refusal-lines.ts';
import { ThemeButton } from './shell.tsx';
import { UpdateNews } from './update-news.tsx';

const bringPart = () => import('../carry/bring-part.tsx').then(({ BringPart }) => BringPart);
const lostOnes = () => import('./lost-ones.tsx').then(({ LostOnes }) => LostOnes);

/** The first screen: campaigns on this tablet and on the camp computer, and a new one in two lines. */
export function CampaignsScreen(props: {
  readonly campaigns: CampaignsHandle;
  readonly device: DeviceHandle;
}) {
  const { campaigns, device } = props;
  const [, go] = useLocation();
  const isLetIn = useStanding() === 'welcome';
  const [name, setName] = useState('');
  const [initials, setInitials] = useState('');
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const [opening, setOpening] = useState(false);
  const open = async (event: FormEvent) => {
    event.preventDefault();
    if (opening) return;
    setOpening(true);
    const opened = await campaigns
      .open({ do: 'open campaign', readings: { name: name.trim() }, crew: [{ initials: initials.trim() }] })
      .finally(() => setOpening(false));
    if (opened.ok) go(`/c/${opened.campaign}`);
    else setRefusals(refusalLines(opened.refusals));
  };
  return (
    <div className="book">
      <header className="top">
        <span className="mark">{t('mark')}</span>
        <span className="whose">{device.name}</span>
        <div className="right">
          <CalculatorDoor book={null} hole={undefined} />
          <ThemeButton />
        </div>
      </header>
      <UpdateNews device={device} />
      <StandingAlarm />
      <main className="campaigns">
        <section aria-labelledby="known">
          <h1 id="known">{t('campaigns.title')}</h1>
          {campaigns.known.length === 0 ? (
            <p className="hint lead">{campaigns.loading ? t('campaigns.loading') : t('campaigns.none')}</p>
          ) : null}
          <ul className="choices">
            {campaigns.known.map((one) => (
              <li key={one.id}>
                <Link href={`/c/${one.id}`} className="button big-link">
                  {one.name}
                  <small>
                    {one.onTablet ? t('campaigns.on.tablet', { count: one.entries }) : t('campaigns.on.camp')}
                    {one.onTablet && one.onCamp ? `, ${t('campaigns.and.camp')}` : ''}
                    {one.invented ? ` · ${t('shell.invented')}` : ''}
                  </small>
                </Link>
              </li>
            ))}
          </ul>
          <Later part={bringPart} />
          {campaigns.camp === 'reachable' ? (
            <Later part={lostOnes} campaigns={campaigns} device={device} />
          ) : null}
          <p className="note">
            <Link href="/devices" className="button big-link">
              {t('campaigns.devices')}
            </Link>
          </p>
          {campaigns.camp === 'unreachable' && isLetIn ? (
            <p className="hint">{t('campaigns.camp.away')}</p>
          ) : null}
          {device.lacks.map((lack) => (
            <p key={lack} className="call note">
              {t(lack)}
            </p>
          ))}
          <p className="hint">
            <MethodLink page="index">{t('how.all')}</MethodLink>
          </p>
        </section>
        <section aria-labelledby="new">
          <h2 id="new">{t('campaigns.new')}</h2>
          <form className="words" onSubmit={(event) => void open(event)}>
            <label htmlFor="campaign-name">{t('campaigns.name')}</label>
            <input
              id="campaign-name"
              value={name}
              required
              maxLength={80}
              autoComplete="off"
              onChange={(event) => setName(event.target.value)}
            />
            <label htmlFor="campaign-initials">{t('campaigns.initials')}</label>
            <input
              id="campaign-initials"
              value={initials}
              required
              maxLength={8}
              autoComplete="off"
              autoCapitalize="characters"
              aria-describedby="campaign-initials-hint"
              onChange={(event) => setInitials(event.target.value)}
            />
            <p className="hint" id="campaign-initials-hint">
              {t('campaigns.initials.hint')}
            </p>
            <Refusals says={refusals} />
            <button type="submit" className="act" disabled={opening}>
              {t('campaigns.open')}
            </button>
          </form>
        </section>
      </main>
    </div>
  );
}
