import '../texts/for-pin.ts';
import { asksPin, type CampaignView, isCalled, type ThingView } from '@firnbook/campaign';
import { useCallback, useEffect, useState } from 'react';
import { Refusals } from '../forms/refusals.tsx';
import { askOwn } from '../pair/gate.ts';
import { t } from '../texts/t.ts';
import { campPins } from './camp-pins.ts';

/** Who of a campaign has a PIN, as the camp computer says now. */
export interface PinsThere {
  /** Ids of people; null until it answered, and while it is away. */
  readonly set: ReadonlySet<string> | null;
  readonly isAway: boolean;
  /** This is the camp computer itself, where a forgotten PIN is reset. */
  readonly isHere: boolean;
  readonly look: () => void;
}

/** Null where the campaign asks for no PIN. */
export function usePinsThere(campaign: CampaignView): PinsThere | null {
  const isAsked = asksPin(campaign);
  const { id } = campaign;
  const [state, setState] = useState<Omit<PinsThere, 'look'>>({ set: null, isAway: false, isHere: false });
  const look = useCallback(() => {
    Promise.all([campPins(id).list(), askOwn()]).then(
      ([lines, { isHere }]) =>
        setState({ set: new Set(lines.map(({ person }) => person)), isAway: false, isHere }),
      () => setState({ set: null, isAway: true, isHere: false }),
    );
  }, [id]);
  useEffect(() => {
    if (isAsked) look();
  }, [isAsked, look]);
  return isAsked ? { ...state, look } : null;
}

/** Whether one person has a PIN, and the way out where it was forgotten. */
export function PinLine(props: {
  readonly campaign: CampaignView;
  readonly person: ThingView;
  readonly pins: PinsThere;
}) {
  const { campaign, person, pins } = props;
  const [isSure, setSure] = useState(false);
  const [says, setSays] = useState<readonly string[]>([]);
  const initials = person.name;
  if (pins.set === null)
    return <p className="hint pin-line">{t(pins.isAway ? 'pin.state.away' : 'pin.asking')}</p>;
  const held = [...pins.set].find((one) => isCalled(person, one));
  if (held === undefined) return <p className="hint pin-line">{t('pin.state.none')}</p>;
  const reset = () => {
    campPins(campaign.id)
      .reset(held)
      .then(
        () => setSays([]),
        (error: unknown) => setSays([error instanceof Error ? error.message : String(error)]),
      )
      .finally(() => {
        setSure(false);
        pins.look();
      });
  };
  return (
    <div className="pin-line">
      <p className="hint">
        {t('pin.state.set')} {pins.isHere ? null : t('pin.state.elsewhere')}
      </p>
      {!pins.isHere ? null : isSure ? (
        <div className="answers">
          <button type="button" className="act" onClick={reset}>
            {t('pin.reset.sure', { initials })}
          </button>
          <button type="button" onClick={() => setSure(false)}>
            {t('pin.reset.not')}
          </button>
        </div>
      ) : (
        <button type="button" aria-label={t('pin.reset.of', { initials })} onClick={() => setSure(true)}>
          {t('pin.reset')}
        </button>
      )}
      <Refusals says={says} />
    </div>
  );
}
