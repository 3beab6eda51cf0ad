import { fileURLToPath } from 'node:url';

/** The project's own folder: two up, both in the sources and when built. */
export const projectFolder = fileURLToPath(new URL('../../', import.meta.url));
