import { type Picture, type Theme, toSvg } from '@firnbook/drawing';

/** Hands the picture that is seen to the reader as a file. */
export function saveSvg(picture: Picture, theme: Theme, name: string): void {
  const address = URL.createObjectURL(new Blob([toSvg(picture, theme)], { type: 'image/svg+xml' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken the bytes by the time the next task runs.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}
