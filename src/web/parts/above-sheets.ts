import { createContext, type ReactNode } from 'react';

/** What no sheet may cover: it stands at the head of each. By itself, so that the first page fetches no sheets. */
export const AboveSheets = createContext<ReactNode>(null);
