import type { HoleView } from '@firnbook/campaign';
import { type ComponentProps, useDeferredValue, useSyncExternalStore } from 'react';
import { CoreAxis } from '../axis/index.ts';
import type { BookHandle } from '../device/book.ts';
import { useTheme } from '../look/theme.ts';
import { t } from '../texts/t.ts';

type AxisProps = ComponentProps<typeof CoreAxis>;

const say: NonNullable<AxisProps['say']> = (text, values) => t(`axis.${text}`, values);
const sayInDrawing: NonNullable<AxisProps['sayInDrawing']> = (word, values) => t(`drawing.${word}`, values);

/** Where a thumb covers metres of a whole hole, two runs are shown at a time. */
const narrow = '(max-width: 760px)';

function useNarrow(): boolean {
  return useSyncExternalStore(
    (listener) => {
      const query = window.matchMedia(narrow);
      query.addEventListener('change', listener);
      return () => query.removeEventListener('change', listener);
    },
    () => window.matchMedia(narrow).matches,
  );
}

export interface AxisPlaceProps {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly wide?: boolean;
  readonly thing?: string | undefined;
  readonly steps?: boolean;
  readonly panels?: AxisProps['panels'];
  readonly onTouch: (thing: string) => void;
}

/** The whole hole at a desk, two runs on a phone and beside field forms. */
export function AxisHere(props: AxisPlaceProps) {
  const theme = useTheme();
  const phone = useNarrow();
  // What a hand waits for comes first: the answer in words, then the drawing of it.
  const hole = useDeferredValue(props.hole);
  const depths = useDeferredValue(props.book.depths[props.hole.id] ?? null);
  return (
    <CoreAxis
      hole={hole}
      depths={depths}
      selected={props.thing ?? null}
      onSelect={props.onTouch}
      mode={props.wide && !phone ? 'whole' : 'two-runs'}
      theme={theme}
      steps={props.steps ?? true}
      {...(props.panels ? { panels: props.panels } : {})}
      say={say}
      sayInDrawing={sayInDrawing}
    />
  );
}
