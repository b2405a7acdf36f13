import { type ReactNode, useState } from 'react';
import { t } from '../texts/t.ts';
import { NumberQuestion } from './number-question.tsx';
import { type Typed, typedNumber } from './typed.ts';

export interface PositionQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  /** What is typed so far: "46,12 N" or "46,12 N|7,5 E". */
  readonly held: string;
  readonly onHeld: (held: string) => void;
  /** Where the newest known place lies: it says which hemispheres are meant. */
  readonly like: string | undefined;
  readonly onTake: (position: string) => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** Latitude, then longitude, in decimal degrees; the hemisphere is the unit. */
export function PositionQuestion(props: PositionQuestionProps) {
  const { title, held, onHeld, like, onTake, without, onBack, refusals } = props;
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const parts = held.split('|');
  const isLongitude = parts.length > 1;
  const [south, west] = (like ?? '').split(/[;,] ?/).map((part) => part.trim().startsWith('-')) as [
    boolean?,
    boolean?,
  ];
  const latitude = typedPart(parts[0] ?? '', south ? 'S' : 'N');
  const longitude = typedPart(parts[1] ?? '', west ? 'W' : 'E');
  const put = (lat: Typed, lon?: Typed) =>
    onHeld([lat, ...(lon ? [lon] : [])].map(({ text, unit }) => `${text} ${unit}`).join('|'));
  const checked = (typed: Typed, most: number): boolean => {
    const isOn = (typedNumber(typed.text) ?? 0) <= most;
    setWrong(isOn ? [] : [t('position.off', { most })]);
    return isOn;
  };
  if (!isLongitude)
    return (
      <NumberQuestion
        title={t('position.latitude', { title })}
        typed={latitude}
        onTyped={(typed) => put(typed)}
        units={['N', 'S']}
        hint={props.hint ?? t('position.hint')}
        onNext={(typed) => {
          if (checked(typed, 90)) put(typed, longitude);
        }}
        without={without}
        onBack={onBack}
        refusals={wrong.length > 0 ? wrong : refusals}
      />
    );
  return (
    <NumberQuestion
      title={t('position.longitude', { title })}
      typed={longitude}
      onTyped={(typed) => put(latitude, typed)}
      units={['E', 'W']}
      hint={props.hint ?? t('position.hint')}
      onNext={(typed) => {
        if (checked(typed, 180)) onTake(`${degrees(latitude)}; ${degrees(typed)}`);
      }}
      onBack={() => put(latitude)}
      refusals={wrong.length > 0 ? wrong : refusals}
    />
  );
}

function typedPart(part: string, usual: string): Typed {
  const [text = '', unit = usual] = part.split(' ');
  return { text, unit };
}

/** North and east are above zero (ISO 6709). */
function degrees({ text, unit }: Typed): string {
  const bare = text.replace(/[.,]$/, '');
  return unit === 'S' || unit === 'W' ? `-${bare}` : bare;
}
