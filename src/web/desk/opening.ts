// What the desk fetches at once: one file, as each costs a way over the line (few-files.ts).
export { aheadOfDesk } from '../../log/ahead-of-desk.js';
export { DeskScreens } from './desk-screens.js';
