/** Signs that the typeface lacks, drawn as strokes. They never stand alone: a word is always beside or behind them. */
const strokes = {
  tick: 'M4 13l5 5L20 6',
  ring: 'M12 4a8 8 0 1 0 .01 0z',
  back: 'M8 5h13v14H8l-6-7zM11.5 9.5l5 5M16.5 9.5l-5 5',
  cross: 'M6 6l12 12M18 6L6 18',
  left: 'M15 5l-7 7 7 7',
  right: 'M9 5l7 7-7 7',
  up: 'M5 15l7-7 7 7',
  down: 'M5 9l7 7 7-7',
  sun: 'M12 8a4 4 0 1 0 .01 0zM12 2v2.5M12 19.5V22M2 12h2.5M19.5 12H22M5 5l1.8 1.8M17.2 17.2L19 19M19 5l-1.8 1.8M6.8 17.2L5 19',
  moon: 'M20 14.5A8.5 8.5 0 1 1 9.5 4a7 7 0 0 0 10.5 10.5z',
  half: 'M12 3.5a8.5 8.5 0 1 0 .01 0zM12 4v16M15 5.5v13M18 8v8',
  calculator: 'M5 3h14v18H5zM8.5 7h7M8.5 12h.1M12 12h.1M15.5 12h.1M8.5 16.5h.1M12 16.5h.1M15.5 16.5h.1',
  seal: 'M12 3.5a8.5 8.5 0 1 0 .01 0zM7.8 12.4l3 3 5.4-6',
  swap: 'M4 8h15M15 4l4 4-4 4M20 16H5M9 12l-4 4 4 4',
  warn: 'M12 4L2.5 20h19zM12 10v4.5M12 17.3v.1',
} as const;

export function Icon({ name }: { readonly name: keyof typeof strokes }) {
  return (
    <svg className="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={strokes[name]} />
    </svg>
  );
}
