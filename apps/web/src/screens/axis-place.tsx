import { memo } from 'react';
import { Later } from '../forms/later.tsx';
import type { AxisPlaceProps } from './axis-here.tsx';

const axis = () => import('./axis-here.tsx').then(({ AxisHere }) => AxisHere);

/** The axis that stands on every screen. A form never waits for the drawing beside it. */
export const AxisPlace = memo(function AxisPlace(props: AxisPlaceProps) {
  return (
    <div className="axis-place">
      <Later part={axis} {...props} />
    </div>
  );
});
