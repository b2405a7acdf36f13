import { useEffect, useRef } from 'react';

/** As a browser names it to assistive technology. */
export const calculatorKey = 'Alt+C';

/**
 * Opens the calculator from wherever the hands are. With Alt, so that no field that takes letters loses one; by the
 * key's place, because some keyboards write another sign with Alt.
 */
export function useCalculatorKey(open: () => void): void {
  const latest = useRef(open);
  latest.current = open;
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!event.altKey || event.ctrlKey || event.metaKey || event.code !== 'KeyC') return;
      event.preventDefault();
      if (!event.repeat) latest.current();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
