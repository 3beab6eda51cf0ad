import type { WrittenFile } from '../../exports/file.js';

/** Hand a file to the person; made on the device, so it works offline too. */
export function download({ name, type, text }: WrittenFile): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
