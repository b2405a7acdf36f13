/** Hands a file to the browser's downloads. @returns its name */
export function saveFile(file: File): string {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  URL.revokeObjectURL(link.href);
  return file.name;
}
