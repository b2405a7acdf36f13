import { type Fonts, type Picture, paint, type Theme } from '@firnbook/drawing';
import { useEffect, useRef, useState } from 'react';
import { pxPerMm } from './box.ts';

interface PaintedProps {
  readonly picture: Picture;
  readonly theme: Theme;
  readonly className: string;
}

/** A picture on a canvas, sharp at the screen's own resolution, in the page's faces. */
export function Painted({ picture, theme, className }: PaintedProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const ratio = usePixelRatio();
  const facesReady = useFacesReady();
  useEffect(() => {
    const sheet = canvas.current;
    const brush = sheet?.getContext('2d');
    if (!sheet || !brush) return;
    const px = pxPerMm * ratio;
    const [width, height] = [Math.round(picture.width * px), Math.round(picture.height * px)];
    // Setting the size wipes the canvas; only do so when it changed.
    if (sheet.width !== width) sheet.width = width;
    if (sheet.height !== height) sheet.height = height;
    paint(brush, picture, theme, px, facesOf(sheet, facesReady));
  }, [picture, theme, ratio, facesReady]);
  return <canvas ref={canvas} className={className} />;
}

/** The faces that the style sheet names; before they have loaded the browser's own stand in. */
function facesOf(sheet: HTMLCanvasElement, ready: boolean): Fonts {
  const style = getComputedStyle(sheet);
  const face = (name: string, other: string): string =>
    (ready && style.getPropertyValue(name).trim()) || other;
  return { words: face('--words', 'sans-serif'), numbers: face('--numbers', 'monospace') };
}

function useFacesReady(): boolean {
  const [ready, setReady] = useState(false);
  useEffect(() => {
    const style = getComputedStyle(document.documentElement);
    const faces = ['--words', '--numbers'].map((name) => style.getPropertyValue(name).trim()).filter(Boolean);
    let gone = false;
    const load = faces.flatMap((face) =>
      ['400', '700'].map((weight) => document.fonts.load(`${weight} 16px ${face}`)),
    );
    // A face that can't be had is no reason to leave the canvas empty.
    void Promise.allSettled(load).then(() => {
      if (!gone) setReady(true);
    });
    return () => {
      gone = true;
    };
  }, []);
  return ready;
}

/** Device pixels per CSS pixel; changes when the window goes to another screen or is zoomed. */
function usePixelRatio(): number {
  const [ratio, setRatio] = useState(() => window.devicePixelRatio || 1);
  useEffect(() => {
    const query = matchMedia(`(resolution: ${ratio}dppx)`);
    const change = (): void => setRatio(window.devicePixelRatio || 1);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, [ratio]);
  return ratio;
}
