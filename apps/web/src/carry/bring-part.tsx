import { CarryFileError, type CarryPeer, type Passed } from '@firnbook/exchange/carry';
import { type ChangeEvent, useEffect, useId, useRef, useState } from 'react';
import { Link } from 'wouter';
import { useCampaigns } from '../device/hooks.ts';
import { Refusals } from '../forms/refusals.tsx';
import '../texts/for-carry.ts';
import { t } from '../texts/t.ts';
import type { LookedInto } from './bring-in.ts';
import type { Brought } from './carrying.ts';
import './carry.css';

type Stage =
  | { readonly is: 'pick'; readonly wrong: readonly string[] }
  | { readonly is: 'looking'; readonly name: string }
  | { readonly is: 'looked'; readonly file: File; readonly looked: LookedInto }
  | { readonly is: 'taking'; readonly entries: number }
  | { readonly is: 'done'; readonly looked: LookedInto; readonly brought: Brought };

/** A file of another device on its way in: picked, looked through, confirmed, taken. */
export function BringPart(props: {
  /** The campaign whose book is open around it. */
  readonly within?: string;
  /** Writes what a device lacks; only where its campaign's book is open. */
  readonly onAnswer?: (peer: CarryPeer) => void;
  /** Something came. */
  readonly onBrought?: () => void;
}) {
  const { bringIn } = useCampaigns();
  const [stage, setStage] = useState<Stage>({ is: 'pick', wrong: [] });
  const heading = useRef<HTMLHeadingElement>(null);
  // What comes next is a page of its own to whoever cannot see it change.
  useEffect(() => {
    if (stage.is === 'looked' || stage.is === 'done') heading.current?.focus();
  }, [stage.is]);

  const pick = async (file: File) => {
    setStage({ is: 'looking', name: file.name });
    try {
      const looked = await bringIn.look(file);
      // Nothing to ask: whose file it was is noted, and what that device lacks is told.
      if (looked.isHere && isEmpty(looked) && looked.preview.torn === null) return await take(file, looked);
      setStage({ is: 'looked', file, looked });
    } catch (error) {
      setStage({ is: 'pick', wrong: [whatIsWrong(error)] });
    }
  };
  const take = async (file: File, looked: LookedInto) => {
    setStage({ is: 'taking', entries: 0 });
    try {
      const brought = await bringIn.take(file, looked, (entries) => setStage({ is: 'taking', entries }));
      setStage({ is: 'done', looked, brought });
      props.onBrought?.();
    } catch (error) {
      setStage({ is: 'pick', wrong: [t('bring.failed', { what: whatIsWrong(error) })] });
    }
  };
  const again = () => setStage({ is: 'pick', wrong: [] });

  switch (stage.is) {
    case 'pick':
      return (
        <>
          <Refusals says={stage.wrong} />
          <PickFile onPick={(file) => void pick(file)} />
        </>
      );
    case 'looking':
      return <p role="status">{t('bring.looking', { file: stage.name })}</p>;
    case 'looked':
      return (
        <section className="bring">
          <h2 ref={heading} tabIndex={-1}>
            {titleOf(stage.looked)}
          </h2>
          <Looked looked={stage.looked} />
          <Answer looked={stage.looked} onTake={() => void take(stage.file, stage.looked)} onLeave={again} />
        </section>
      );
    case 'taking':
      return <p role="status">{t('bring.taking', { count: stage.entries })}</p>;
    case 'done':
      return (
        <section className="bring">
          <h2 ref={heading} tabIndex={-1}>
            {titleOf(stage.looked)}
          </h2>
          <Done {...props} stage={stage} onFinish={again} />
        </section>
      );
  }
}

const titleOf = ({ preview }: LookedInto): string => {
  const { campaignName, campaign, deviceName } = preview.first;
  return t('bring.from', {
    campaign: campaignName || campaign,
    device: deviceName || t('bring.unnamed'),
  });
};

const timeOf = (iso: string): string =>
  new Date(iso).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

const isEmpty = ({ preview }: LookedInto): boolean => preview.fresh === 0 && preview.attachments.fresh === 0;

const whatIsWrong = (error: unknown): string => {
  if (error instanceof CarryFileError) return t(`carry.problem.${error.problem.key}`, error.problem.values);
  return error instanceof Error ? error.message : String(error);
};

/** What would come, and what is wrong with the file. */
function Looked({ looked: { preview, isHere } }: { readonly looked: LookedInto }) {
  const { first, fresh, held, attachments, torn, refused } = preview;
  const ahead = Math.round((Date.parse(first.madeAt) - Date.now()) / 60_000);
  return (
    <>
      <p>{t('bring.written', { at: timeOf(first.madeAt) })}</p>
      {ahead >= 1 ? <p className="call">{t('bring.clock', { count: ahead })}</p> : null}
      {isHere ? null : <p>{t('bring.campaign.new')}</p>}
      <p>
        <b>{t('bring.fresh', { count: fresh })}</b>, {t('bring.held', { count: held })}
        {attachments.fresh > 0 ? `, ${t('bring.attachments', { count: attachments.fresh })}` : ''}.
      </p>
      {torn === null ? null : <p className="call">{t(`bring.torn.${torn.how}`, { line: torn.line })}</p>}
      <PassedOver refused={refused} />
    </>
  );
}

const linesShown = 5;

function PassedOver({ refused }: { readonly refused: Passed }) {
  if (refused.count === 0) return null;
  const shown = refused.shown.slice(0, linesShown);
  return (
    <>
      <p className="call">{t('bring.refused', { count: refused.count })}</p>
      <ul className="list">
        {shown.map(({ line, problem }) => (
          <li key={line}>
            {t('bring.refused.line', { line, what: t(`carry.problem.${problem.key}`, problem.values) })}
          </li>
        ))}
        {refused.count > shown.length ? (
          <li>{t('bring.refused.more', { count: refused.count - shown.length })}</li>
        ) : null}
      </ul>
    </>
  );
}

function Answer(props: {
  readonly looked: LookedInto;
  readonly onTake: () => void;
  readonly onLeave: () => void;
}) {
  const { fresh, attachments } = props.looked.preview;
  if (isEmpty(props.looked))
    return (
      <>
        <p role="status">{t('bring.nothing')}</p>
        <div className="answers">
          <button type="button" onClick={props.onLeave}>
            {t('bring.finish')}
          </button>
        </div>
      </>
    );
  return (
    <div className="answers">
      <button type="button" className="act" data-take onClick={props.onTake}>
        {fresh > 0
          ? t('bring.take', { count: fresh })
          : t('bring.take.pictures', { count: attachments.fresh })}
      </button>
      <button type="button" onClick={props.onLeave}>
        {t('bring.leave')}
      </button>
    </div>
  );
}

function Done(props: {
  readonly stage: Extract<Stage, { readonly is: 'done' }>;
  readonly within?: string;
  readonly onAnswer?: (peer: CarryPeer) => void;
  readonly onFinish: () => void;
}) {
  const { looked, brought } = props.stage;
  const { campaign, campaignName } = looked.preview.first;
  const { from } = brought;
  const isOpen = props.within === campaign;
  return (
    <>
      <p role="status">
        <b>{isEmpty(looked) ? t('bring.nothing') : t('bring.done', { count: brought.added })}</b>{' '}
        {from !== null && from.lacks === 0
          ? t('bring.done.all', { name: from.peer.deviceName || t('bring.unnamed') })
          : ''}
      </p>
      {brought.torn === null ? null : (
        <p className="call">{t(`bring.torn.${brought.torn.how}`, { line: brought.torn.line })}</p>
      )}
      <PassedOver refused={brought.refused} />
      <div className="answers">
        {isOpen && props.onAnswer && from !== null && from.lacks > 0 ? (
          <button type="button" className="act" onClick={() => props.onAnswer?.(from.peer)}>
            {t('carry.lacks', { name: from.peer.deviceName || t('bring.unnamed'), count: from.lacks })}
          </button>
        ) : null}
        {isOpen ? null : (
          <Link href={`/c/${campaign}`} className="button act big-link">
            {t('bring.open', { campaign: campaignName || campaign })}
          </Link>
        )}
        <button type="button" onClick={props.onFinish}>
          {t('bring.finish')}
        </button>
      </div>
    </>
  );
}

function PickFile({ onPick }: { readonly onPick: (file: File) => void }) {
  const id = useId();
  const pick = (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // The same file may be picked again.
    event.target.value = '';
    if (file !== undefined) onPick(file);
  };
  return (
    <span className="pick carry-pick">
      {/* Android hides files whose ending it does not know behind a filter: none is set. */}
      <input id={id} type="file" onChange={pick} />
      <label htmlFor={id} className="button">
        {t('bring.pick')}
      </label>
    </span>
  );
}
