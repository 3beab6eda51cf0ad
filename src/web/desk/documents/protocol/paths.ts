/** Addresses of the pages about one version of the protocol. */
export const copyPath = '/documents/protocol/draft';
export const signPath = (version: string): string => `/documents/protocol/sign/${encodeURIComponent(version)}`;
export const comparePath = (version: string): string => `/documents/protocol/compare/${encodeURIComponent(version)}`;
