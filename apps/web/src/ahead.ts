/**
 * Fetches what the first look does not need while the device is idle, so that every form is on the tablet before the
 * camp computer is switched off, also where no service worker keeps it.
 */
export function fetchAhead(): void {
  const all = () => {
    // Each is asked for again, with words, where it is opened.
    const parts = [
      import('./screens/axis-here.tsx'),
      import('./screens/measure.tsx'),
      import('./screens/bench-work.tsx'),
      import('./screens/camp-screen.tsx'),
      import('./screens/this-ice.tsx'),
      import('./screens/this-measured.tsx'),
      import('./screens/how-dialog.tsx'),
      import('./screens/settle-conflict.tsx'),
      import('./screens/record-dialog.tsx'),
      import('./carry/bring-part.tsx'),
      import('@firnbook/exchange/carry'),
      import('./screens/today-screen.tsx'),
      import('./screens/core-screen.tsx'),
      import('./screens/scales-screen.tsx'),
      import('./screens/readings-screen.tsx'),
      import('./screens/zeros-screen.tsx'),
      import('./screens/versions-screen.tsx'),
      import('./screens/import-screen.tsx'),
      import('./rights/people-screen.tsx'),
      import('./screens/devices-screen.tsx'),
      import('./pair/pair-screen.tsx'),
      import('./people/pin-part.tsx'),
      import('./forms/unusual-piece.tsx'),
      import('./calculator/calculator.tsx'),
    ];
    void Promise.allSettled(parts);
  };
  if ('requestIdleCallback' in window) window.requestIdleCallback(all, { timeout: 5000 });
  else setTimeout(all, 2000);
}
